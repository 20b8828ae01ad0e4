"""The week sheets of several gardens as one paper, walked garden by garden."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.papers.page_layout import Sheaf
from leafturn.papers.sheet_numbers import number_in
from leafturn.papers.week_sheet import LENGTH
from leafturn.papers.words import minutes, names
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.papers.week import make_sheet, sheets
from leafturn_tui.render.parts.gardens import titles
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.phrases import count, long_day

if TYPE_CHECKING:
    from leafturn.assembly.other_gardens import NamedGarden
    from leafturn_tui.almanac_face import AlmanacFace

GAP = 2  # lines between two gardens on one page


def make_sheets(found: Sequence[NamedGarden[AlmanacFace]], on: dt.date) -> list[list[str]]:
    """One page after the other: which gardens, then the sheet of each, kept in its own journal.

    No two sheets of one paper have the same number. Gardens share a page where there is room.

    Parameters
    ----------
    found : sequence of NamedGarden
    on : date
    """
    called = titles(found)
    made = []
    taken: set[str] = set()
    total = 0.0
    told = []
    for one, title in zip(found, called, strict=True):
        if one.garden is None:
            told.append(f"{title} (not told: it cannot be read)")
            continue
        _, sheet = make_sheet(one.garden, taken)
        taken.add(sheet.number)
        minutes_here = sum(job.minutes for job in sheet.week.jobs)
        total += minutes_here
        number = f"sheet {sheet.number}, " if sheet.number else ""
        told.append(f"{title} ({number}{minutes(minutes_here)})" if sheet.jobs else f"{title} (nothing)")
        made.append(list(sheet.lines))
    cover = Sheaf(safe_text)
    cover.say(f"{count(len(made), 'garden')}, {long_day(on)}: {names(told)}; together {minutes(total)}.")
    return _on_pages([cover.lines, *made])


def _on_pages(blocks: Sequence[list[str]]) -> list[list[str]]:
    pages: list[list[str]] = []
    for block in blocks:
        if pages and len(pages[-1]) + GAP + len(block) <= LENGTH:
            pages[-1] += ["", "=" * 72, *block]
        else:
            pages.append(list(block))
    return pages


def garden_of_sheet(found: Sequence[NamedGarden[AlmanacFace]], typed: str) -> AlmanacFace:
    """The garden whose sheet was ticked, by the sheet's number.

    Raises
    ------
    NotUnderstood
        If no number is typed, or none or several of the gardens have such a sheet.
    """
    number = number_in(typed)
    if number is None:
        raise NotUnderstood("with several gardens begin with the sheet's number, such as 16-A 3 5 8")
    holds = [
        (one.garden, title)
        for one, title in zip(found, titles(found), strict=True)
        if one.garden is not None and any(s.number == number for s in sheets(one.garden))
    ]
    if not holds:
        raise NotUnderstood(f"no garden here has a sheet {number}")
    if len(holds) > 1:
        said = f"{names([title for _, title in holds])} have a sheet {number} each"
        raise NotUnderstood(f"{said}; name that garden alone")
    return holds[0][0]
