"""What the notes have taught, in sentences: the same on the Book page and in the handover book."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.learnt import Learnt, NeedLine

MORE_BY_DATES = 0.5
NONE_YET = (
    "No flower is noted here yet: all dates are as published. A note of a first open flower teaches most."
)


def place_said(learnt: Learnt) -> str:
    """What the place adds to all that opens here, and from how many notes it is known."""
    if not learnt.notes:
        return NONE_YET
    source = f"from {phrases.count(learnt.notes, 'note')} of {phrases.count(learnt.kinds, 'kind')}"
    doubt = phrases.count(max(1, round(learnt.place_uncertainty_days)), "day")
    days = round(learnt.place_days)
    if not days:
        return f"Everything opens here about when it is published to, give or take {doubt}, {source}."
    side = "later" if days > 0 else "earlier"
    far = phrases.count(abs(days), "day")
    return f"Everything opens about {far} {side} here than published, give or take {doubt}, {source}."


def need_said(line: NeedLine) -> str:
    """When a plant opens in a usual spring, by what, and what to bear in mind."""
    return " ".join(_sentences(line))


def _sentences(line: NeedLine) -> Iterator[str]:
    parts = [_published(line)]
    if days := round(line.place_days):
        parts.append(f"this place {phrases.count(abs(days), 'day')} {'later' if days > 0 else 'earlier'}")
    if days := round(line.kin_days):
        parts.append(f"its kind {phrases.count(abs(days), 'day')} {'later' if days > 0 else 'earlier'} here")
    if line.own is not None and line.notes:
        parts.append(f"own notes of {phrases.count(line.notes, 'spring')} {phrases.day(line.own)}")
    elif line.own is not None:
        whose = "the garden file" if line.in_file else "notes of this spring"
        parts.append(f"{whose} {phrases.day(line.own)}")
    used = "it is not foreseen to open" if line.used is None else f"{phrases.day(line.used)} is used"
    said = f"{', '.join(parts)}; {used}."
    if line.notes:
        yield f"{line.plant}: {said}"
    else:
        kin = f"; {phrases.count(line.kin_notes, 'spring')} of its kind here" if line.kin_notes else ""
        yield f"{line.plant}: no notes of its own{kin}."
        yield prose.capital(said)
    yield f"Basis: {line.rests_on}."
    if line.by_dates > MORE_BY_DATES:
        yield "It goes by its own dates more than by warmth."
    if line.degrees_outside > 0:
        far = phrases.two_figures(max(line.degrees_outside, 0.1))
        degrees = f"{far} degree{'' if far == '1' else 's'}"
        yield f"The climate here lies {degrees} outside those it was learnt in: ranges are wider."


def _published(line: NeedLine) -> str:
    if line.published is None:
        return "published not to open here"
    records = " (open records)" if line.origin == "fitted" else ""
    return f"published {phrases.day(line.published)}{records}"
