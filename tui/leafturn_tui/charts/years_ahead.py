"""The chance of enough pollen in each of the coming years, one figure a year."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from leafturn.partners.model import TreeReview
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, fit, piece

CELL = 3  # a figure and two blanks
EVEN = 0.5


def year_head(years: Sequence[int], width: int, name: int) -> Row:
    """The years above the figures, as two figures each, beside names of so many cells."""
    shown = years[:: step(len(years), width - name)]
    return Row(
        (Piece(fit("", name)), Piece("".join(f"{year % 100:02d}".rjust(CELL) for year in shown), "heading"))
    )


def year_rows(reviews: Iterable[TreeReview], width: int, of_name: int) -> list[Row]:
    """A line a tree."""
    rows = []
    for review in reviews:
        chances = [chance for _, chance in review.by_year]
        cells = "".join(tenths(c).rjust(CELL) for c in chances[:: step(len(chances), width - of_name)])
        name = Piece(fit(piece(review.plant).text, of_name - 1) + " ")
        rows.append(Row((name, Piece(cells)), review.plant, turning_words(review), review.plant))
    return rows


def step(years: int, room: int) -> int:
    """Every how many years a figure is shown in so many cells, so that the last ones are not cut off."""
    return max(-(-years // max(room // CELL, 1)), 1)


def tenths(chance: float) -> str:
    """A chance in ten: "-" where it rounds to none, "10" where it is nearly always."""
    whole = round(chance * 10)
    return str(whole) if whole else "-"


def turning_words(review: TreeReview) -> str:
    """The first year in which the chance is even, or how far it comes."""
    if not review.by_year:
        return f"{review.plant}: no years ahead are reckoned."
    first, now = review.by_year[0]
    last, most = max(review.by_year, key=lambda one: one[1])
    even = next((year for year, chance in review.by_year if chance >= EVEN), None)
    said = f"{review.plant}: {phrases.chance(now)} now"
    if even == first:
        return f"{said}."
    if even is not None:
        return f"{said}; 5 of 10 from about {even} if nothing is done."
    if most - now < 0.01:
        return f"{said}, and no more by {review.by_year[-1][0]} if nothing is done."
    return f"{said}, at most {phrases.chance(most)} by {last} if nothing is done."
