"""`leafturn rules [GARDEN] [ID]`: which rule is asked for."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn.base.faults import clipped, did_you_mean
from leafturn_tui.cli.arguments import OwnWords

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MOST_NAMED = 8  # rules


def add(parser: argparse.ArgumentParser) -> None:
    """The words that only `rules` has."""
    parser.add_argument("rule", nargs="?", metavar="ID", help="all of one rule, by its id")


def put_right(given: argparse.Namespace) -> None:
    """One word that names no garden names a rule."""
    if given.rule is None and not Path(given.garden).exists():
        given.garden, given.rule = ".", given.garden


def known_rule(
    given: argparse.Namespace, almanac: AlmanacFace, parser: argparse.ArgumentParser
) -> dict[str, str | None]:
    """The rule by its id as given, or a sentence that ends the command."""
    ids, name = [view.id for view in almanac.rules()], given.rule
    if name is None or name in ids:
        return {"rule": name}
    near = [id for id in ids if name.casefold() in id]
    named = f"Rules named so are {prose.first_of(near, MOST_NAMED)}." if near else did_you_mean(name, ids)
    parser.error(f"there is no rule {clipped(name)!r}. {named or 'leafturn rules tells them all'}")


WORDS = OwnWords(add=add, put_right=put_right, asked=known_rule)
