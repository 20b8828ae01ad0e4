"""The built-in numbers a steward may change under `[rule]`, each with where it comes from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import NamedTuple


class Number(NamedTuple):
    """A built-in value, the bounds of sense, its unit, and its source."""

    value: float
    least: float
    most: float
    unit: str
    source: str


NUMBERS: Mapping[str, Number] = {
    "heap_hot_c": Number(55, 40, 80, "degC", "hot range of composting, NRAES-54 (recalled)"),
    "heap_cooled_c": Number(45, 20, 70, "degC", "rule of thumb: out of the hot range, time to turn"),
    "heap_usual_days": Number(14, 2, 120, "days", "guess: a garden heap at about 12 degC, without readings"),
    "hard_frost_c": Number(-2.2, -15, 0, "degC", "28 degF: a tenth of open pome flowers die (extension)"),
    "sap_rise_heat": Number(15, 0, 500, "degC d above 5", "guess"),
    "leaf_out_heat": Number(150, 10, 900, "degC d above 5", "guess, for kinds without their own"),
    "leaf_fall_after_frost_days": Number(21, 0, 90, "days", "guess, for kinds without their own"),
    "leaf_fall_latest_days": Number(79, 40, 120, "days", "guess: from autumn equinox, where frost is rare"),
    "leaf_rest_days": Number(70, 0, 120, "days", "guess: rest after leaf fall where frost is rare"),
    "young_root_m": Number(0.3, 0.1, 2, "m", "guess: rooting depth in the year of planting"),
    "root_years": Number(6, 1, 40, "years", "guess: until roots are as deep as a grown plant's"),
    "soil_depletion": Number(0.5, 0.1, 0.9, "share", "FAO-56 table 22, fruit trees (read)"),
    "ground_crop_factor": Number(0.5, 0.1, 1.3, "Kc", "FAO-56 table 12, green ground before leaves (read)"),
    "book_doubt": Number(1, 0.1, 10, "times", "how sure published bloom is, against what records bear out"),
    "pressing_days": Number(10, 0, 60, "days", "rule of thumb: what can wait longer is not pressing"),
    "round_lines": Number(8, 1, 200, "lines", "rule of thumb: more kinds of work nobody does in a week"),
    "passed_shown_days": Number(42, 0, 365, "days", "rule of thumb: so long a missed window is shown"),
    "note_far_days": Number(14, 1, 200, "days", "rule of thumb: a note so far out of range is asked about"),
    "climber_past_top_m": Number(2, 0, 20, "m", "guess: so far past its host's top a climber wants cutting"),
    "growth_bend": Number(1.3, 1, 3, "exponent", "rule of thumb: trees start slowly; planted pines fit 1.8"),
    "growth_doubt": Number(0.4, 0, 0.9, "share", "guess: growth to come may be so much slower or quicker"),
    "light_direct_share": Number(0.55, 0, 1, "share", "guess: straight from the sun, May to September"),
    "dead_wood_shade": Number(0.3, 0, 1, "share", "guess: what dead wood keeps of a leafless crown's shade"),
    "elder_bare_percent": Number(10, 1, 40, "% live", "guess: below it a crown gives hardly any shade"),
    "elder_look_points": Number(3, 0.5, 20, "points", "guess: two people differ by so much over one crown"),
    "elder_pace_factor": Number(1.75, 1, 5, "times", "guess: a decline may go so much quicker or slower"),
    "fall_chance_well": Number(0.01, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_weak": Number(0.04, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_declining": Number(0.12, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_dead": Number(0.2, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_storm_factor": Number(1.5, 1, 5, "times", "guess: in the year after wind broke something off it"),
    "brittle_reach": Number(1.5, 1, 3, "heights", "felling practice: work zone of 1.5 heights (recalled)"),
    "unmeasured_reach": Number(1.2, 1, 2, "times", "guess: a height not measured may be so much greater"),
    "kept_stem_m": Number(5, 0.5, 15, "m", "common practice, no source: standing stems of 3 to 5 m"),
    "warming_doubt": Number(0.5, 0, 1, "share", "guess: the stated warming may be so much less or more"),
    "gap_height_share": Number(0.4, 0.1, 1, "share", "guess: from so much of the old tree's height on"),
    "gap_spread_m": Number(0.1, 0, 0.5, "m a year", "forest gaps: 0.06 to 0.2 (Hibbs 1982, recalled)"),
    "move_until_years": Number(5, 1, 15, "years", "common practice, no source: older ones seldom live"),
    "path_clear_m": Number(2.5, 0, 20, "m", "common practice, no source: room for people beside a stem"),
}  # fmt: skip


class Numbers(Mapping[str, float]):
    """The numbers in force: the steward's own laid over the built-in ones.

    Parameters
    ----------
    rules : mapping
        The garden's `[rule]` table; what is no number or out of bounds is left out.
    """

    def __init__(self, rules: Mapping[str, float | str | bool]) -> None:
        own = {
            name: value for name, value in rules.items() if complaint(name, value) is None and name in NUMBERS
        }
        self._values = {name: float(own.get(name, number.value)) for name, number in NUMBERS.items()}

    def __getitem__(self, name: str) -> float:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)


def complaint(name: str, value: float | str | bool) -> str | None:
    """What is wrong with a steward's own value for a built-in number; None if it can be used."""
    number = NUMBERS.get(name)
    if number is None:
        return None
    usual = f"The usual {number.value:g} is used."
    if isinstance(value, bool | str) or not math.isfinite(value):
        return f"{name} = {value} is not a number. {usual}"
    if not number.least <= value <= number.most:
        return f"{name} = {value:g} is outside {number.least:g} to {number.most:g} {number.unit}. {usual}"
    return None
