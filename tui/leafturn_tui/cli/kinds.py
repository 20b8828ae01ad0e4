"""`leafturn kinds`: the kinds of the plant library, or what a file of kinds lacks."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

from leafturn.base.faults import Unreadable, clipped
from leafturn_tui.cli.arguments import day_of, parser_for, split_garden
from leafturn_tui.cli.kind_asked import library_here
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import json_text, unreadable

ABOUT = """\
The kinds of the plant library, with those of the garden: all of them, or those whose names or cultivars hold
WORDS, as: leafturn kinds hazel. Or what a file of kinds lacks.
"""


def kinds(words: list[str], today: dt.date) -> int:
    """List the kinds known, or with --check look through a file of kinds; the exit status."""
    parser = parser_for("kinds", ABOUT, garden=False, json=True)
    parser.add_argument(
        "words",
        nargs="*",
        metavar="WORDS",
        help="the garden (default: here), then words of names to look for",
    )
    help_text = (
        "a kinds.toml or a packaged file of kinds: what is wrong in it, and what it leaves to be assumed"
    )
    parser.add_argument("--check", metavar="FILE", help=help_text)
    parser.add_argument(
        "--read",
        action="store_true",
        help="how many facts that decide for the commonest kinds were read on a page, and which were not",
    )
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today)
    try:
        if given.check is not None:
            return _check(Path(given.check), given.json)
        if given.read:
            return _read(given.json)
        garden, sought = split_garden(given.words, alone=True)
        return _list(garden, on, given.json, " ".join(sought))
    except Unreadable as why:
        if given.json:
            print(json_text(unreadable(why.fault, on)))
        raise


def _check(path: Path, as_json: bool) -> int:
    from leafturn.kinds.checks.kinds_file import check_kinds_file
    from leafturn_tui.render.parts.kind_list import check_as_json, check_lines

    found = check_kinds_file(path)
    sys.stdout.write(f"{json_text(check_as_json(found))}\n" if as_json else printed(check_lines(found)))
    return FAULTS if found.faults else FINE


def _read(as_json: bool) -> int:
    from leafturn.answers.kinds_read import kinds_read
    from leafturn.kinds.library import load_library
    from leafturn_tui.render.parts.kind_list import read_as_json, read_lines

    found = kinds_read(load_library()[0])
    sys.stdout.write(f"{json_text(read_as_json(found))}\n" if as_json else printed(read_lines(found)))
    return FINE


def _list(garden: str, on: dt.date, as_json: bool, words: str) -> int:
    """The kinds by the garden's library or the packaged one."""
    from leafturn_tui.render.parts.kind_list import kind_lines, kinds_as_json, named

    library, place = library_here(garden, on)
    found = [kind for name in sorted(library.kinds) if named(kind := library.kinds[name], words)]
    if not found and not as_json:
        meant = library.misspelt(words)
        near = f"Did you mean {meant.name}?" if meant else "leafturn kinds alone lists all."
        parser_for("kinds", ABOUT, json=True).error(
            f"no kind and no cultivar has a name with {clipped(words)!r}. {near}"
        )
    text = json_text(kinds_as_json(found, place, on)) + "\n" if as_json else printed(kind_lines(found))
    sys.stdout.write(text)
    return FINE
