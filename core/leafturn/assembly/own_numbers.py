"""The steward's own numbers and days under [rule]: those that can be used, and why others cannot."""

from __future__ import annotations

import msgspec

from leafturn.base.faults import Fault, did_you_mean
from leafturn.base.tunables import NUMBERS, complaints, number_named
from leafturn.garden.model import Garden
from leafturn.garden.reading.frost_dates import month_and_day
from leafturn.garden.reading.reader import GardenReading
from leafturn.tasks.rule_model import load_rules
from leafturn.tasks.timing.phrases import wrong_with
from leafturn.toml.positions import TomlLines


def with_sound_numbers(garden: Garden, reading: GardenReading) -> tuple[Garden, list[Fault]]:
    """A garden without days of holds that are no moments, and the faults of all values under [rule].

    A day in words, "1 March", is put as "03-01". Numbers that cannot be used stay: `base/tunables.py` passes
    over them.
    """
    said = list(complaints(garden.rules))
    holds = {name for hold in load_rules().holds.values() for name in hold.own_days}
    plants = [plant.id for plant in garden.plants]
    sound = dict(garden.rules)
    for name, value in garden.rules.items():
        if name in holds:
            sound[name] = moment = month_and_day(value) or str(value)
            if wrong := wrong_with(moment, plants):
                said.append((name, f"{name} = {value} is not used: {wrong}"))
                del sound[name]
        elif number_named(name) is None:
            near = did_you_mean(name, [*NUMBERS, *holds])
            said.append((name, f"{name} is no rule the program has, and changes nothing. {near}".strip()))
    faults = [
        Fault(file=reading.file.name, line=_line_of_rule(reading.lines, name), message=sentence)
        for name, sentence in said
    ]
    return garden if sound == garden.rules else msgspec.structs.replace(garden, rules=sound), faults


def _line_of_rule(lines: TomlLines, name: str) -> int | None:
    """Where a number stands: under [rule], or in whichever [[rule]] holds it."""
    whole, place = lines.line_of("rule"), 0
    while place == 0 or lines.line_of("rule", place) != whole:  # a place that is not there gives the whole
        if (line := lines.line_of("rule", place, name)) != lines.line_of("rule", place):
            return line
        place += 1
    return lines.line_of("rule", name)
