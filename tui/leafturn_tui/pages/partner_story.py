"""The story of one tree beside the list of partners: what is wrong, what would help, the years ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.partners.model import Remedy, TreeReview
from leafturn_tui.charts.chance_bar import chance_bar, heights
from leafturn_tui.render.parts.partner_words import answer_sentence, sentences
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Piece, Row, paragraph, row
from leafturn_tui.text.wrapping import wrap

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

REMEDIES = 3
CELLS = 10
YEAR = 2  # cells of a year


def story_rows(review: TreeReview, almanac: AlmanacFace, width: int) -> list[Row]:
    """The story of one tree, in rows of `width` cells."""
    plant = almanac.garden.plant(review.plant)
    year = f", {plant.year}" if plant is not None and plant.year else ""
    rows = paragraph(f"{review.plant}  {review.cultivar or review.kind}{year}", width, "name", hang=0)
    for said in review.reasons or (review.weakest,):
        rows += [BLANK, *paragraph(said, width, hang=0)]
    if answer := almanac.answers().get(review.plant):
        said = answer_sentence(answer, almanac.on)
        rows += [BLANK, *paragraph(said, width, hang=0)]
    if review.remedies:
        rows += [BLANK, row(Piece("What would help", "name"))]
        for remedy in review.remedies[:REMEDIES]:
            rows += [*_remedy(remedy, almanac, width), BLANK]
    if review.by_year:
        rows += [*([] if review.remedies else [BLANK]), *_years(review, width), BLANK]
    told = {*review.reasons, review.weakest}
    for said in sentences(review, almanac.on)[: -len(review.remedies) or None]:
        if said not in told:
            rows += [*paragraph(said, width, "dim", hang=0), BLANK]
    return rows


def _remedy(remedy: Remedy, almanac: AlmanacFace, width: int) -> list[Row]:
    """What to do, and below it its chance as a bar, in words, and from when."""
    bar = chance_bar(remedy.adequacy, remedy.adequacy, remedy.adequacy, CELLS)
    guess = "~ " if remedy.guess else ""
    words = f"{guess}{phrases.works_words(remedy.year, remedy.adequacy, almanac.on)}"
    first, *more = wrap(words, max(10, width - CELLS - 1))
    rows = [*paragraph(remedy.what, width, hang=0), Row((*bar, Piece(f" {first}")))]
    rows += [Row((Piece(" " * (CELLS + 1) + line),)) for line in more]
    return rows + (paragraph(remedy.effort, width, "dim", hang=0) if remedy.effort else [])


def _years(review: TreeReview, width: int) -> list[Row]:
    """The chance if nothing is done, two cells a year, and below it some of the years."""
    shown = review.by_year[: width // YEAR]
    line = [" "] * (len(shown) * YEAR)
    for n in range(0, len(shown), 4):
        year = str(shown[n][0])
        if n * YEAR + len(year) <= len(line):
            line[n * YEAR : n * YEAR + len(year)] = year
    return [
        row(Piece("If nothing is done", "name")),
        Row(heights([chance for _, chance in shown])),
        row(Piece("".join(line), "dim")),
    ]
