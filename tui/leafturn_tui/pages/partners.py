"""Page 3: which trees lack pollen, and what would help."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.partners.decisions import Answer
from leafturn.partners.model import TreeReview
from leafturn_tui.charts.years_ahead import year_head, year_rows
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page, first_lines
from leafturn_tui.pages.one_tree import OneTree
from leafturn_tui.pages.partner_remedies import be_content, choose_remedy
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.partners import QUESTION
from leafturn_tui.render.parts.partner_words import answer_words, review_of, sentences, spare_words
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import MARGINS, Column, Piece, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

REASON_FROM = 76
CROP_FROM = 96
RANGE_FROM = 116
STANDINGS = {"lacks": "lacks now", "thin": "thin", "served": "served"}


class PartnersPage(Page, key="3", question=QUESTION):
    """Who still lacks a partner?"""

    def __init__(self) -> None:
        self.by_year = False

    def keys(self) -> tuple[Key, ...]:
        """Choosing a remedy, being content without, and the years ahead."""
        other = "this year" if self.by_year else "by year"
        return (
            Key("x", "fixes", "choose what to do for a tree: it becomes jobs with dates", _remedies),
            Key("c", "content without", "content without fruit; asked again after three years", _content),
            Key("v", other, "chances of this year, or of the years to come", self._turn),
        )

    def _turn(self, desk: Host) -> None:
        self.by_year = not self.by_year

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The years above their figures."""
        years = next(([year for year, _ in r.by_year] for r in almanac.partners() if r.by_year), [])
        if not self.by_year or not years:
            return []
        head = year_head(years, width - MARGINS)
        return [Row((Piece("  "), *head.pieces))]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """By standing, lacking first."""
        reviews = almanac.partners()
        wanting = [r for r in reviews if r.standing in STANDINGS]
        made = year_rows(wanting, width) if self.by_year else self._lines(wanting, almanac, width)
        lines = dict(zip([r.plant for r in wanting], made, strict=True))
        rows = []
        for standing, title in STANDINGS.items():
            group = [lines[r.plant] for r in wanting if r.standing == standing]
            rows += [heading(title), *group] if group else []
        alone = [r.plant for r in reviews if r.standing == "needs none"]
        if alone:
            rows += [heading("needs none"), *paragraph(", ".join(alone), width, indent=1, hang=0)]
        rows += _spare(almanac, width)
        if not rows and not almanac.garden.plants:
            return first_lines(width)
        return rows or paragraph("No plant in the garden file has a kind that needs a partner.", width)

    def below(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What the figures by year mean, or how far the review has come."""
        if self.by_year:
            said = "chance in ten of enough pollen if nothing is done; - less than 1 in 20"
            return paragraph(said, width - 1, "quiet", indent=1)
        lacking = [r.plant for r in almanac.partners() if r.standing == "lacks"]
        answered = sum(plant in almanac.answers() for plant in lacking)
        if not lacking:
            return []
        if answered == len(lacking):
            said = "every tree that lacks a partner has an answer"
        else:
            said = f"{answered} of {len(lacking)} that lack a partner have an answer"
        return paragraph(said, width - 1, "quiet", indent=1)

    def _lines(self, reviews: list[TreeReview], almanac: AlmanacFace, width: int) -> list[Row]:
        shape = [Column(22, 10), Column(12, 9)]
        if width + MARGINS >= CROP_FROM:
            shape += [Column(15, 8)]
        if width + MARGINS >= RANGE_FROM:
            shape += [Column(24, 9)]
        if width + MARGINS >= REASON_FROM:
            shape.append(Column())
        answers, on = almanac.answers(), almanac.on
        table = [self._cells(r, answers.get(r.plant), width)[: len(shape)] for r in reviews]
        laid = columns(table, shape, width)
        return [
            Row(line, r.plant, _summary(r, answers.get(r.plant), on), r.plant)
            for r, line in zip(reviews, laid, strict=True)
        ]

    def _cells(self, review: TreeReview, answer: Answer | None, width: int) -> list[Piece]:
        said = answer_words(answer) if answer else review.weakest + ("; guess" if review.guessed else "")
        cells = [piece(review.plant), piece(_chance(review), review.standing)]
        if width + MARGINS >= CROP_FROM:
            cells.append(piece("" if review.crop is None else f"crop {phrases.chance(review.crop)}"))
        if width + MARGINS >= RANGE_FROM:
            cells.append(piece(phrases.chance_range(review.low, review.high), "quiet"))
        return [*cells, piece(said)]

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The weakest link, then everything else that counts."""
        review = review_of(almanac, row.key)
        if review is None:
            return None
        return Sheet(f"{review.plant}: why {_chance(review)}?", sentences(review, almanac.on))

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The tree's page: its partners one by one."""
        return OneTree(row.key) if review_of(almanac, row.key) else None


def _chance(review: TreeReview) -> str:
    return ("~" if review.guessed else "") + phrases.chance(review.adequacy)


def _summary(review: TreeReview, answer: Answer | None, on: dt.date) -> str:
    said = f"{review.plant}: {phrases.chance_range(review.low, review.high)}"
    if review.crop is not None:
        said += f", a crop {phrases.chance(review.crop)}"
    if answer is not None:
        return f"{said}; {answer_words(answer)}, asked again {phrases.day(answer.until, on)}"
    first = review.reasons[0] if review.reasons else review.weakest
    remedies = " / ".join(f"{f.what} ({f.year})" for f in review.remedies[:3])
    return f"{said}; {remedies}" if remedies else f"{said}; {first}"


def _spare(almanac: AlmanacFace, width: int) -> list[Row]:
    """Plants kept for their pollen that could go."""
    said = list(spare_words(almanac.redundant_donors()))
    if not said:
        return []
    lines = [row for sentence in said for row in paragraph(sentence, width, indent=1, hang=0)]
    return [heading("kept for pollen, and not missed"), *lines]


def _under_bar(desk: Host) -> TreeReview | None:
    under = desk.current
    review = review_of(desk.almanac, under.plant or under.key) if under else None
    if review is None:
        desk.say("There is no tree under the bar.")
    return review


def _remedies(desk: Host) -> None:
    if review := _under_bar(desk):
        choose_remedy(desk, review)


def _content(desk: Host) -> None:
    review = _under_bar(desk)
    if review is None:
        return
    answer = desk.almanac.answers().get(review.plant)
    if answer is not None and answer.way == "content":
        desk.say(f"{review.plant}: already content without; u on page 9 takes that back.")
        return
    be_content(desk, review)
