"""The commands that answer a question: in plain text for reading and piping, or as JSON."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable, Sequence
from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING

from leafturn.assembly.other_gardens import NamedGarden
from leafturn.base.faults import Unreadable, clipped, did_you_mean
from leafturn_tui.cli.arguments import OwnWords, day_of, parser_for
from leafturn_tui.cli.faults import Told, in_json, with_faults
from leafturn_tui.cli.kept_answers import keep_answer
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.render import answering, whole_json
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import Answer, json_text, unreadable

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.cli.several import Gardens

# Questions with words of their own, by the modules that hold these as WORDS.
WITH_WORDS = {
    "book": "leafturn_tui.cli.journal",
    "check": "leafturn_tui.cli.report",
    "plants": "leafturn_tui.cli.kind_asked",
    "rules": "leafturn_tui.cli.rule_asked",
}


def question_command(command: str) -> Callable[[list[str], dt.date], int]:
    """The command that answers one question of `leafturn_tui.render`."""
    return round_command if command == "round" else partial(_answer, command)


def _give(told: Told, found: Gardens, words: Sequence[str], today: dt.date) -> int:
    """Tell what was asked, and keep it where it rests on gardens alone; the exit status."""
    gardens = [one.garden for one in found if one.garden is not None]
    if gardens and told.status == FINE:
        rests_on = [path for garden in gardens for path in (garden.folder, *garden.rests_on)]
        keep_answer(told.text, words, today, rests_on, lambda: not any(one.stale() for one in gardens))
    return told.give()


def _answer(command: str, words: list[str], today: dt.date) -> int:
    """`leafturn COMMAND [GARDEN]`."""
    one = answering(command)
    own: OwnWords = import_module(WITH_WORDS[command]).WORDS if command in WITH_WORDS else OwnWords()
    parser = parser_for(command, one.help, json=one.as_json is not None)
    own.add(parser)
    if one.as_json is not None:
        add_tables(parser)
    given = parser.parse_args(words)
    own.put_right(given)
    on, as_json = day_of(given.on, parser, today), one.as_json is not None and given.json
    if (status := own.instead(given, on)) is not None:
        return status
    try:
        almanac = open_garden(given.garden, on)
    except Unreadable as why:
        if as_json:
            print(json_text(unreadable(why.fault, on)))
        raise
    asked = own.asked(given, almanac, parser)
    found = (NamedGarden(path=".", garden=almanac),)
    if one.as_json is not None and given.csv:
        told = _table(whole_json(one, almanac, **asked), given, parser, found)
    elif as_json:
        told = in_json(whole_json(one, almanac, **asked), almanac.faults)
    else:
        told = with_faults(printed(one.lines(almanac, **asked)), almanac.faults)
        if own.tells_faults:
            told = told._replace(beside="")
    return _give(told, found, [command, *words], today)


def week_printed(almanac: AlmanacFace) -> int:
    """Print the week of a garden, with those its file names as `also`; the exit status."""
    from leafturn_tui.cli.several import beside, faults_of
    from leafturn_tui.render.round import lines_of_several

    found = beside(".", almanac)
    alone = len(found) == 1
    lines = answering("round").lines(almanac) if alone else lines_of_several(found, almanac.on)
    return with_faults(printed(lines), faults_of(found)).give()


def round_command(words: list[str], today: dt.date) -> int:
    """`leafturn round [GARDEN ...]`."""
    from leafturn_tui.cli.several import gathered, helper_of_any, round_of_several

    one = answering("round")
    parser = parser_for("round", one.help, several=True, json=True)
    parser.add_argument("--helper", metavar="NAME", help="only one helper's jobs")
    add_tables(parser)
    parser.add_argument("--ids", action="store_true", help="the ids of jobs, as journal and JSON have them")
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today)
    try:
        found = gathered(given.garden, on)
    except Unreadable as why:
        if given.json:
            print(json_text(unreadable(why.fault, on)))
        raise
    given.helper = helper_of_any(found, given.helper, parser.error)
    almanac = found[0].garden
    if given.csv:
        answer = whole_json(one, almanac, helper=given.helper) if len(found) == 1 and almanac else None
        told = _table(answer or table_of_several(found, given.helper), given, parser, found)
    elif len(found) > 1 or almanac is None:
        told = round_of_several(found, len(given.garden), on, given)
    elif given.json:
        told = in_json(whole_json(one, almanac, helper=given.helper), almanac.faults)
    else:
        told = with_faults(printed(one.lines(almanac, helper=given.helper, ids=given.ids)), almanac.faults)
    return _give(told, found, ["round", *words], today)


def add_tables(parser: argparse.ArgumentParser) -> None:
    """The options by which an answer is printed as a table."""
    parser.add_argument("--csv", action="store_true", help="answer as a comma-separated table (RFC 4180)")
    parser.add_argument("--table", metavar="NAME", help="which of the answer's tables (default: the first)")


def _table(
    answer: Answer, given: argparse.Namespace, parser: argparse.ArgumentParser, found: Gardens
) -> Told:
    """One table of an answer, and the faults of its gardens."""
    from leafturn_tui.cli.several import faults_of
    from leafturn_tui.render.parts.tables import csv_of, tables_of

    tables = tables_of(answer)
    name = given.table or next((name for name in tables if name != "faults"), next(iter(tables), ""))
    if given.table and name not in tables:
        parser.error(f"there is no table {clipped(name)!r} here; tables: {', '.join(tables) or 'none'}")
    return with_faults(csv_of(tables[name]) if tables else "", faults_of(found))


def table_of_several(found: Gardens, helper: str | None) -> Answer:
    """The jobs of several gardens, each with the name of its garden before it."""
    from leafturn_tui.render.parts.gardens import titles
    from leafturn_tui.render.round import as_json

    called = [(one.garden, title) for one, title in zip(found, titles(found), strict=True)]
    told = [(as_json(garden, helper=helper), title) for garden, title in called if garden is not None]
    return {
        table: [{"garden": title} | job for answer, title in told for job in answer[table]]
        for table in ("jobs", "waiting")
    }


def known_helper(almanac: AlmanacFace, name: str | None, parser: argparse.ArgumentParser) -> str | None:
    """A helper's name as given, or a sentence that ends the command."""
    names = [h.name for h in almanac.garden.all_helpers]
    if name is None or name in names:
        return name
    here = f"helpers here: {', '.join(names)}"
    near = did_you_mean(name, names)
    parser.error(f"there is no helper {clipped(name)!r}; {here}{'. ' + near if near else ''}")
