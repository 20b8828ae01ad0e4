"""The week sheets of several gardens as one paper, walked garden by garden."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn.base.day_words import full_day
from leafturn.papers.page_layout import LENGTH, NEW_PAGE, RULE, Block, Paper, Sheaf
from leafturn.papers.sheet_numbers import number_in
from leafturn.papers.week_sheet import WeekSheet
from leafturn.papers.words import names
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.week import make_sheet, sheets
from leafturn_tui.render.parts.gardens import titles
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.phrases import count, long_day

if TYPE_CHECKING:
    from leafturn.assembly.other_gardens import NamedGarden
    from leafturn_tui.almanac_face import AlmanacFace

LONGEST_NUMBER, LONGEST_TIME = "53-AA", "999 h 59"  # as room is left for them


def make_sheets(found: Sequence[NamedGarden[AlmanacFace]], on: dt.date, today: dt.date) -> Printed:
    """Which gardens, with the first of their sheets below, then the others, each kept in its own journal.

    No two sheets of one paper have the same number.

    Parameters
    ----------
    found : sequence of NamedGarden
    on : date
    today : date
        The day on which their numbers are written.
    """
    called = titles(found)
    longest = _cover(
        len(found),
        on,
        [f"{title} (sheet {LONGEST_NUMBER}, {LONGEST_TIME})" for title in called],
        LONGEST_TIME,
    )
    room = LENGTH - len(longest.lines) - len(RULE.lines)
    made: list[WeekSheet] = []
    told = []
    for one, title in zip(found, called, strict=True):
        if one.garden is None:
            told.append(f"{title} (not told: it cannot be read)")
            continue
        _, sheet = make_sheet(one.garden, today, {s.number for s in made}, LENGTH if made else room)
        made.append(sheet)
        number = f"sheet {sheet.number}, " if sheet.number else ""
        told.append(
            f"{title} ({number}{prose.minutes(_minutes(sheet))})" if sheet.jobs else f"{title} (nothing)"
        )
    cover = _cover(len(made), on, told, prose.minutes(sum(map(_minutes, made))))
    foot = safe_text(f"Week sheets of {names(called)}, {full_day(on)}")
    return Printed(paper=_on_pages([cover, *(s.paper for s in made)]), foot=foot, on=on, one_page=True)


def _cover(gardens: int, on: dt.date, told: Sequence[str], together: str) -> Paper:
    """The sentence above the sheets."""
    sheaf = Sheaf(safe_text)
    sheaf.say(f"{count(gardens, 'garden')}, {long_day(on)}: {names(told)}; together {together}.")
    return sheaf.paper


def _minutes(sheet: WeekSheet) -> float:
    return sum(job.minutes for job in sheet.week.jobs)


def _on_pages(papers: Sequence[Paper]) -> Paper:
    """Papers after each other, on one page of fixed type where there is room."""
    blocks: list[Block] = []
    high = 0
    for paper in papers:
        shared = high + len(RULE.lines) + len(paper.lines)
        if blocks:
            blocks.append(RULE if shared <= LENGTH else NEW_PAGE)
        blocks += paper.blocks
        high = shared if high and shared <= LENGTH else len(paper.lines)
    return Paper(blocks=tuple(blocks))


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
