"""What the garden's notes have taught: own heat needs beside the book's, and last season's misses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.score import Miss
from leafturn.views import NeedLine
from leafturn_tui import words
from leafturn_tui.rows import BLANK, Column, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac


def need_rows(almanac: Almanac, width: int) -> list[Row]:
    """A line a plant: heat to first open by the book, by own notes, and as used."""
    lines = almanac.needs()
    if not lines:
        return paragraph("No plant here has a heat need: none of them flowers, or none is known.", width)
    table = [[piece(w, "heading") for w in ("heat to first open", "book", "own notes", "used")]]
    table += [[piece(n.plant), piece(f"{n.book:.0f}"), piece(_own(n)), piece(f"{n.used:.0f}")] for n in lines]
    laid = columns(table, (Column(22, 10), Column(8, 5), Column(22, 8), Column()), width)
    rows = [Row(laid[0])]
    for line, need in zip(laid[1:], lines, strict=True):
        rows.append(Row(line, f"need {need.plant}", _need_words(need), need.plant))
    return rows


def score_rows(almanac: Almanac, width: int) -> list[Row]:
    """The season's average miss in a sentence, then a line a noted bloom."""
    score = almanac.score()
    said = paragraph(score.says, width)
    if not score.misses:
        return said
    table = [
        [piece(m.plant), piece(words.day(m.noted)), piece(words.day(m.foretold)), piece(_off(m.miss)),
         piece("" if m.fixed_miss is None else _off(m.fixed_miss))]
        for m in score.misses
    ]  # fmt: skip
    head = ["opened", "noted", "foretold", "forecast", "fixed date"]
    shape = (Column(20, 10), Column(8, 7), Column(10, 8), Column(14, 9), Column(gives=1))
    laid = columns([[piece(w, "heading") for w in head], *table], shape, width)
    rows = [*said, BLANK, Row(laid[0])]
    for line, miss in zip(laid[1:], score.misses, strict=True):
        rows.append(Row(line, f"miss {miss.plant} {miss.noted}", _miss_words(miss), miss.plant))
    return rows


def _own(need: NeedLine) -> str:
    return "none yet" if need.own is None else f"{need.own:.0f} ({words.count(need.notes, 'spring')})"


def _need_words(need: NeedLine) -> str:
    told = f"{need.plant}: {need.used:.0f} degree-days above {need.base:.0f} C are used"
    if need.own is None:
        return f"{told}, the handbook's figure; a note of its first open flower begins to teach better."
    springs = words.count(need.notes, "spring")
    return f"{told}: the handbook says {need.book:.0f}, notes of {springs} {need.own:.0f}."


def _miss_words(miss: Miss) -> str:
    told = f"{miss.plant} opened on {words.day(miss.noted)}; on {words.day(miss.asked)} it was foretold"
    return f"{told} for {words.day(miss.foretold)}, {_off(miss.miss)}."


def _off(days: int) -> str:
    if days == 0:
        return "on the day"
    return f"{words.count(abs(days), 'day')} {'late' if days > 0 else 'early'}"
