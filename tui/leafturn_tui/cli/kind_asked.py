"""`leafturn plants --kind`: all that is known of a kind, by the garden's library or the packaged one."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from typing import TYPE_CHECKING

from leafturn.base.faults import Unreadable
from leafturn_tui.cli.arguments import OwnWords
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import json_text

if TYPE_CHECKING:
    from leafturn.kinds.library import Library


def add(parser: argparse.ArgumentParser) -> None:
    """The words that only `plants` has."""
    told = "all that is known of a kind, with sources"
    parser.add_argument("--kind", metavar="NAME", type=_named, help=told)


def _named(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError('no kind is named; write --kind pear, or "sea buckthorn"')
    return text


def kind_told(given: argparse.Namespace, on: dt.date) -> int | None:
    """Print what is known of the kind that is asked for; None where none is."""
    from leafturn.answers.kind_card import kind_card
    from leafturn_tui.render.parts import kind_card as card_lines

    if given.kind is None:
        return None
    library, place = library_here(given.garden, on)
    card = kind_card(library, given.kind)
    if given.json:
        sys.stdout.write(f"{json_text(card_lines.as_json(card, place, on))}\n")
    else:
        sys.stdout.write(printed(card_lines.lines(card)))
    return FINE


def library_here(garden: str, on: dt.date) -> tuple[Library, str | None]:
    """The garden's library and the name of its place; where no garden stands here the packaged one, and None.

    Raises
    ------
    Unreadable
        If a garden that was named cannot be read.
    """
    from leafturn.kinds.library import load_library

    try:
        almanac = open_garden(garden, on)
    except Unreadable:
        if garden != ".":
            raise
        return load_library()[0], None
    return almanac.library, almanac.garden.place.name


WORDS = OwnWords(add=add, instead=kind_told)
