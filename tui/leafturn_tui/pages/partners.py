"""Page 3: which trees lack pollen, and what would help."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.journal.entries import Entry
from leafturn.partners.model import Fix, TreeReview
from leafturn_tui import words
from leafturn_tui.pages.base import MARGINS, Key, Page, first_lines
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import Column, Piece, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk import Desk

CONTENT = "content without fruit"
ASKED_AGAIN_AFTER_YEARS = 3  # common practice, no source
REASON_FROM = 76
FROST_FROM = 116
STANDINGS = {"lacks": "lacks now", "thin": "thin", "served": "served"}


class PartnersPage(Page):
    """Who still lacks a partner?"""

    digit = "3"
    name = "Partners"
    question = "Who still lacks a partner?"

    def keys(self) -> tuple[Key, ...]:
        """Being content without."""
        return (
            Key("c", "content without", "content without fruit; asked again after three years", _content),
        )

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """By standing, lacking first."""
        reviews = almanac.partners()
        answered = content_without(almanac)
        wanting = [r for r in reviews if r.standing in STANDINGS]
        lines = dict(
            zip([r.plant for r in wanting], self._lines(wanting, answered, almanac.on, width), strict=True)
        )
        rows = []
        for standing, title in STANDINGS.items():
            group = [lines[r.plant] for r in wanting if r.standing == standing]
            rows += [heading(title), *group] if group else []
        alone = [r.plant for r in reviews if r.standing == "needs none"]
        if alone:
            rows += [heading("needs none"), *paragraph(", ".join(alone), width, indent=1, hang=0)]
        if not rows and not almanac.garden.plants:
            return first_lines(width)
        return rows or paragraph("No plant in the garden file has a kind that needs a partner.", width)

    def _lines(
        self, reviews: list[TreeReview], answered: dict[str, dt.date], on: dt.date, width: int
    ) -> list[Row]:
        shape = [Column(22, 10), Column(12, 9)]
        if width + MARGINS >= FROST_FROM:
            shape += [Column(24, 9), Column(17, 8)]
        if width + MARGINS >= REASON_FROM:
            shape.append(Column())
        table = [self._cells(r, answered, width)[: len(shape)] for r in reviews]
        laid = columns(table, shape, width)
        return [
            Row(line, r.plant, _summary(r, answered, on), r.plant)
            for r, line in zip(reviews, laid, strict=True)
        ]

    def _cells(self, review: TreeReview, answered: dict[str, dt.date], width: int) -> list[Piece]:
        said = review.weakest + ("; guess" if review.guessed else "")
        if review.plant in answered:
            said = "content without"
        cells = [piece(review.plant), piece(_chance(review), review.standing)]
        if width + MARGINS >= FROST_FROM:
            frost = review.frost_loss_chance
            cells += [
                piece(words.chance_range(review.low, review.high), "quiet"),
                piece(f"frost {words.chance(frost)}" if frost else ""),
            ]
        return [*cells, piece(said)]

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """The weakest link, then everything else that counts."""
        review = review_of(almanac, row.key)
        if review is None:
            return None
        return Sheet(f"{review.plant}: why {_chance(review)}?", sentences(review, almanac.on))

    def opened(self, almanac: Almanac, row: Row) -> Page | None:
        """The tree's page: its partners one by one."""
        from leafturn_tui.pages.one_tree import OneTree

        return OneTree(row.key) if review_of(almanac, row.key) else None


def review_of(almanac: Almanac, plant: str) -> TreeReview | None:
    """One tree's review."""
    return next((r for r in almanac.partners() if r.plant == plant), None)


def content_without(almanac: Almanac) -> dict[str, dt.date]:
    """Plants whose steward is content without fruit, and when they are asked again."""
    said: dict[str, dt.date] = {}
    for line in almanac.book():
        entry = line.entry
        if entry.what == "answered" and not line.taken_back and entry.plant and entry.plant not in said:
            again = _years_on(entry.on, ASKED_AGAIN_AFTER_YEARS)
            if entry.answer == CONTENT and again > almanac.on:
                said[entry.plant] = again
    return said


def _years_on(day: dt.date, years: int) -> dt.date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February, or the calendar's end
        return dt.date.max if day.year + years > dt.MAXYEAR else day.replace(year=day.year + years, day=28)


def _chance(review: TreeReview) -> str:
    return ("~" if review.guessed else "") + words.chance(review.adequacy)


def _summary(review: TreeReview, answered: dict[str, dt.date], on: dt.date) -> str:
    said = f"{review.plant}: {words.chance_range(review.low, review.high)}"
    if review.plant in answered:
        return f"{said}; content without, asked again {words.day(answered[review.plant], on)}"
    first = review.reasons[0] if review.reasons else review.weakest
    fixes = " / ".join(f"{f.what} ({f.year})" for f in review.fixes[:3])
    return f"{said}; {fixes}" if fixes else f"{said}; {first}"


def sentences(review: TreeReview, on: dt.date) -> list[str]:
    """A review in sentences, the weakest link first."""
    said = list(review.reasons) or [review.weakest]
    spread = words.chance_range(review.low, review.high)
    said.append(f"Chance of enough pollen this year: {words.chance(review.adequacy)}, range {spread}.")
    if later := _changes(review, on.year):
        said.append(f"If nothing is done: {', '.join(later)}.")
    if review.frost_loss_chance is not None:
        said.append(f"Frost takes a tenth of the flowers or more in {_springs(review.frost_loss_chance)}.")
    return said + [fix_words(fix) for fix in review.fixes]


def _changes(review: TreeReview, year: int) -> list[str]:
    """The years in which the chance comes to be said in other words."""
    said, before = [], words.chance(review.adequacy)
    for later, share in review.by_year:
        now = words.chance(share)
        if later > year and now != before:
            said.append(f"{now} from {later}")
            before = now
    return said


def fix_words(fix: Fix) -> str:
    """What would help, when it works, the chance then, and what it takes."""
    then = f"{words.chance(fix.adequacy)}{', a guess' if fix.guess else ''}"
    effort = f"; {fix.effort}" if fix.effort else ""
    return f"{fix.what[:1].upper()}{fix.what[1:]}: works in {fix.year}, then {then}{effort}."


def _springs(share: float) -> str:
    said = words.chance(share)
    return {
        "none": "hardly any spring",
        "nearly sure": "nearly every spring",
        "about even": "every other spring",
    }.get(said, f"{said} springs")


def _content(desk: Desk) -> None:
    under = desk.current
    review = review_of(desk.almanac, under.key) if under else None
    if review is None:
        desk.say("There is no tree under the bar.")
        return
    if review.plant in content_without(desk.almanac):
        desk.say(f"{review.plant}: already content without; u on page 9 takes that back.")
        return
    desk.keep(Entry(on=desk.almanac.on, what="answered", plant=review.plant, answer=CONTENT))
