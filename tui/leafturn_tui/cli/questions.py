"""The commands that answer a question: in plain text for reading and piping, or as JSON."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import Fault, Unreadable, did_you_mean
from leafturn_tui.cli.arguments import day_of, parser_for
from leafturn_tui.render.json_parts import json_text, unreadable

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

FINE, FAULTS = 0, 1

QUESTIONS = {
    "round": "This week's jobs in walking order: state, what, where, who, minutes, and why.",
    "season": "What is coming, and when: bloom and picking with their ranges, heat and frost.",
    "partners": "Which trees lack pollen, the weakest link of each, and what would help.",
    "canopy": "What changes when the old tree goes: light, heirs, reach, for thirty years.",
    "drift": "Bloom, frost, chill and heat in fifteen and thirty years under the warming you state.",
    "weather": "What is known of the weather: the record and its gaps, the usual year, the warming used.",
    "plants": "Every plant of the garden: kind, place, and a few words.",
    "climbers": "Every climber: growth since its cut, load on its host, and who else could bear it.",
    "heaps": "Every compost heap: mix, warmth, ripeness, what it wants, and where the ripe one goes.",
    "larder": "What is picked and what bees find in every week, the gaps, and what would fill them.",
    "care": "Trees over paths, roots that poison, bark, poisonous look-alikes, and who to call.",
    "book": "Every note, newest first; with --json also what the notes taught, and how forecasts did.",
    "check": "What is wrong in the garden's files, and what is worth knowing about them.",
}


def open_garden(path: str, on: dt.date) -> AlmanacFace:
    """Open a garden; the import waits until it is needed, so that --help is quick."""
    if not Path(path).exists():
        raise Unreadable(Fault(file=path, line=None, message="there is no such folder or file."))
    from leafturn.almanac import open_almanac

    return open_almanac(path, on)


def plain(almanac: AlmanacFace, lines: Iterable[str], *, faults: bool = True) -> int:
    """Print lines, and the garden's faults beside them; the exit status."""
    from leafturn_tui.render import plain_answers

    sys.stdout.write(plain_answers.printed(lines))
    if faults and almanac.faults:
        sys.stdout.flush()
        sys.stderr.write(plain_answers.printed(plain_answers.faults(almanac.faults)))
    return FAULTS if almanac.faults else FINE


def answering(command: str) -> Callable[[list[str], dt.date], int]:
    """The command that answers one question."""

    def run(words: list[str], today: dt.date) -> int:
        parser = parser_for(command, QUESTIONS[command], json=True)
        if command == "round":
            parser.add_argument("--helper", metavar="NAME", help="only one helper's jobs")
        if command == "plants":
            parser.add_argument("--kind", metavar="NAME", help="all that is known of a kind, with sources")
        given = parser.parse_args(words)
        on = day_of(given.on, parser, today)
        if command == "plants" and given.kind is not None:
            return _tell_kind(given.kind, given.garden, on, given.json)
        try:
            almanac = open_garden(given.garden, on)
        except Unreadable as why:
            if given.json:
                print(json_text(unreadable(why.fault, on)))
            raise
        helper = known_helper(almanac, given.helper, parser) if command == "round" else None
        return _answer(command, almanac, given.json, helper)

    return run


def _answer(command: str, almanac: AlmanacFace, as_json: bool, helper: str | None) -> int:
    from leafturn_tui.render import json_answers, plain_answers

    if not as_json:
        if command == "round":
            return plain(almanac, plain_answers.the_round(almanac, helper))
        return plain(almanac, plain_answers.ANSWERS[command](almanac), faults=command != "check")
    if command == "round":
        print(json_text(json_answers.the_round(almanac, helper)))
    else:
        print(json_text(json_answers.ANSWERS[command](almanac)))
    return FAULTS if almanac.faults else FINE


def _tell_kind(name: str, garden: str, on: dt.date, as_json: bool) -> int:
    """Tell of a kind, by the garden's library; where no garden stands here, by the packaged one."""
    from leafturn.answers.kind_card import kind_card
    from leafturn.kinds.library import load_library
    from leafturn_tui.render import kind as kind_answers
    from leafturn_tui.render import plain_answers

    try:
        almanac = open_garden(garden, on)
        library, place = almanac.library, almanac.garden.place.name
    except Unreadable:
        if garden != ".":
            raise
        library, place = load_library()[0], None
    card = kind_card(library, name)
    if as_json:
        print(json_text(kind_answers.as_json(card, place, on)))
    else:
        sys.stdout.write(plain_answers.printed(kind_answers.lines(card)))
    return FINE


def known_helper(almanac: AlmanacFace, name: str | None, parser: argparse.ArgumentParser) -> str | None:
    """A helper's name as given, or a sentence that ends the command."""
    names = [h.name for h in almanac.garden.helpers]
    if name is None or name in names:
        return name
    here = f"helpers here: {', '.join(names)}" if names else "the garden file names no helpers"
    near = did_you_mean(name, names)
    parser.error(f"there is no helper {name!r}; {here}{'. ' + near if near else ''}")
