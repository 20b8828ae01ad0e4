"""The beginning of a garden as a plain dialog, for terminals without pages."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from leafturn.garden.beginning.first_file import Beginning
from leafturn.garden.editing.garden_text import GardenText, free_id
from leafturn.kinds.library import Library
from leafturn.kinds.search import FoundKind, KindSearch
from leafturn_tui.cli.statuses import FINE, INTERRUPTED
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.notes.beginning import (
    NOTHING,
    first_text,
    library_of,
    next_step,
    steps,
    with_plant,
    write_garden,
)
from leafturn_tui.panels.planting import place_understood, year_typed
from leafturn_tui.safe_text import safe_text

OFFERED = 9
Answer = TypeVar("Answer")


class Ended(Exception):
    """There is nobody left to answer."""


def begin_plainly(folder: Path) -> int:
    """Ask for a garden line by line and write its file; the exit status.

    Each odd answer is asked again; Ctrl-C, or the end of what is typed, leaves nothing behind.
    """
    print(f"A garden begins in {safe_text(str(folder))}. Enter alone skips a question; Ctrl-C ends it all.")
    try:
        beginning = _beginning(folder)
        text = _plants(first_text(beginning, folder), library_of(folder))
        print("\n" + "\n".join(safe_text(line) for line in text.data.decode().splitlines()))
        if not _yes(f"\nWrite this to {text.file}? (y/n) "):
            print(NOTHING)
            return FINE
        write_garden(text, beginning.weather, folder)
    except (KeyboardInterrupt, Ended):
        print(f"\n{NOTHING}")
        return INTERRUPTED
    except NotUnderstood as why:
        print(safe_text(str(why)), file=sys.stderr)
        return INTERRUPTED
    return FINE


def _beginning(folder: Path) -> Beginning:
    beginning, n, asked = Beginning(), 0, steps(folder)
    while (n := next_step(asked, n, beginning)) < len(asked):
        step, before = asked[n], beginning
        hint = step.hint(beginning)
        beginning = _ask(f"{step.question} ({hint})", lambda text: step.take(before, text))  # noqa: B023
        n += not (step.repeats and beginning is not before)
    return beginning


def _plants(text: GardenText, library: Library) -> GardenText:
    search, beside, year = KindSearch(library), "gate", ""
    while (found := _kind(search, len(text.reading.garden.plants))) is not None:
        fields: dict[str, Any] = {"kind": found.kind, "cultivar": found.cultivar}
        name = f"{found.kind} {found.cultivar}".strip()
        kind = library.match(found.kind).kind.name
        if not found.cultivar:
            known = [one.cultivar for one in search.find("", kind=kind, most=OFFERED)]
            fields["cultivar"] = _one_of("Which cultivar?", known)
        stocks = [stock.name for stock in library.rootstocks if kind in stock.kinds]
        fields["rootstock"] = _one_of("On which rootstock?", stocks) if stocks else ""
        said = f"In which year was the {name} planted? ({f'nothing: {year}' if year else 'or nothing'})"
        fields["year"] = _ask(said, lambda line: year_typed(line or year))  # noqa: B023
        year = str(fields["year"] or "")
        fields["id"] = free_id(text.reading.garden, fields["cultivar"] or fields["kind"])
        before, where = (
            text,
            f"Where does it stand? (5n: 5 paces north of {beside}; 8 m west of NAME; or nothing)",
        )

        def placed(line: str) -> GardenText:
            at = place_understood(line, before.reading.garden, beside)  # noqa: B023
            return with_plant(before, {**fields, **at})  # noqa: B023

        text = _ask(where, placed)
        if text.reading.garden.plants[-1].at is not None:
            beside = fields["id"]
    return text


def _kind(search: KindSearch, so_far: int) -> FoundKind | None:
    """A kind or cultivar by any part of its name; None where nothing more is typed."""
    offered: Sequence[FoundKind] = ()
    while True:
        said = "number, Enter for the first, or other letters" if offered else "letters; nothing: that is all"
        line = _line(f"Plant {so_far + 1} ({said}) ")
        if not line and not offered:
            return None
        if offered and (not line or line in [str(n) for n in range(1, len(offered) + 1)]):
            return offered[int(line or 1) - 1]
        offered = search.find(line, most=OFFERED)
        if not offered:
            print("Nothing known here has these letters.")
            if _yes(f"Take {safe_text(line)} as a kind, whose dates are guesses? (y/n) "):
                return FoundKind(line)
        for n, one in enumerate(offered, 1):
            print(f"  {n}  {one.cultivar + ', ' if one.cultivar else ''}{one.kind} ({one.botanical})")


def _one_of(question: str, known: Sequence[str]) -> str:
    """One of a few by its number, or any words; nothing where it is not known."""
    if known:
        print("  " + ", ".join(f"{n} {name}" for n, name in enumerate(known, 1)))
    line = _line(f"{question} (number or name; or nothing) ")
    numbered = dict(zip(map(str, range(1, len(known) + 1)), known, strict=True))
    return numbered.get(line, line)


def _ask(question: str, take: Callable[[str], Answer]) -> Answer:
    """Ask until it is understood."""
    while True:
        try:
            return take(_line(f"{question} "))
        except NotUnderstood as why:
            print(safe_text(str(why)))


def _yes(question: str) -> bool:
    return _line(question).lower().startswith("y")


def _line(question: str) -> str:
    print(safe_text(question, limit=400), end="", flush=True)
    line = sys.stdin.readline()
    if not line:
        raise Ended
    return " ".join(line.split())
