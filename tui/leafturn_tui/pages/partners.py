"""Page 3: which trees lack pollen, and what would help."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING

from leafturn.partners.decisions import Answer, content_entry, fix_entry
from leafturn.partners.model import Fix, TreeReview
from leafturn_tui.charts.years_ahead import year_head, year_rows
from leafturn_tui.pages.base import MARGINS, Key, Page, first_lines
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Column, Piece, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk.screen import Desk

REASON_FROM = 76
CROP_FROM = 96
RANGE_FROM = 116
STANDINGS = {"lacks": "lacks now", "thin": "thin", "served": "served"}


class PartnersPage(Page):
    """Who still lacks a partner?"""

    digit = "3"
    name = "Partners"
    question = "Who still lacks a partner?"

    def __init__(self) -> None:
        self.by_year = False

    def keys(self) -> tuple[Key, ...]:
        """Choosing a fix, being content without, and the years ahead."""
        other = "this year" if self.by_year else "by year"
        return (
            Key("x", "fixes", "choose what to do for a tree: it becomes jobs with dates", _fixes),
            Key("c", "content without", "content without fruit; asked again after three years", _content),
            Key("v", other, "chances of this year, or of the years to come", self._turn),
        )

    def _turn(self, desk: Desk) -> None:
        self.by_year = not self.by_year

    def top(self, almanac: Almanac, width: int) -> list[Row]:
        """The years above their figures."""
        years = next(([year for year, _ in r.by_year] for r in almanac.partners() if r.by_year), [])
        if not self.by_year or not years:
            return []
        head = year_head(years, width - MARGINS)
        return [Row((Piece("  "), *head.pieces))]

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
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

    def below(self, almanac: Almanac, width: int) -> list[Row]:
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

    def _lines(self, reviews: list[TreeReview], almanac: Almanac, width: int) -> list[Row]:
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


def _chance(review: TreeReview) -> str:
    return ("~" if review.guessed else "") + phrases.chance(review.adequacy)


def answer_words(answer: Answer) -> str:
    """An answer in a few words."""
    if answer.way in ("content", "wait"):
        return answer.said
    return f"fix chosen: {answer.said}"


def _summary(review: TreeReview, answer: Answer | None, on: dt.date) -> str:
    said = f"{review.plant}: {phrases.chance_range(review.low, review.high)}"
    if review.crop is not None:
        said += f", a crop {phrases.chance(review.crop)}"
    if answer is not None:
        return f"{said}; {answer_words(answer)}, asked again {phrases.day(answer.until, on)}"
    first = review.reasons[0] if review.reasons else review.weakest
    fixes = " / ".join(f"{f.what} ({f.year})" for f in review.fixes[:3])
    return f"{said}; {fixes}" if fixes else f"{said}; {first}"


def _spare(almanac: Almanac, width: int) -> list[Row]:
    """Plants kept for their pollen that could go."""
    spare = [s.plant for s in almanac.spare_pollen()]
    if not spare:
        return []
    said = f"{', '.join(spare)}: without it no tree's chance falls by more than 1 in 50"
    return [heading("kept for pollen, and not missed"), *paragraph(said, width, indent=1, hang=0)]


def sentences(review: TreeReview, on: dt.date) -> list[str]:
    """A review in sentences, the weakest link first."""
    said = list(review.reasons) or [review.weakest]
    spread = phrases.chance_range(review.low, review.high)
    said.append(f"Chance of enough pollen this year: {phrases.chance(review.adequacy)}, range {spread}.")
    if later := _changes(review, on.year):
        said.append(f"If nothing is done: {', '.join(later)}.")
    if review.frost_loss_chance is not None:
        said.append(
            "Chance that frost takes a tenth of the flowers or more this spring: "
            f"{phrases.chance(review.frost_loss_chance)}."
        )
    if review.crop is not None:
        said.append(
            "Chance of a worthwhile crop this year, pollen and frost and flying weather taken together: "
            f"{phrases.chance(review.crop)}."
        )
    return said + [fix_words(fix) for fix in review.fixes]


def _changes(review: TreeReview, year: int) -> list[str]:
    """The years in which the chance comes to be said in other words; of many three."""
    said, before = [], phrases.chance(review.adequacy)
    for later, share in review.by_year:
        now = phrases.chance(share)
        if later > year and now != before:
            said.append(f"{now} from {later}")
            before = now
    return said if len(said) <= 3 else [said[0], said[len(said) // 2], said[-1]]


def fix_words(fix: Fix) -> str:
    """What would help, when it works, the chance then, and what it takes."""
    then = f"{phrases.chance(fix.adequacy)}{', a guess' if fix.guess else ''}"
    effort = f"; {fix.effort}" if fix.effort else ""
    return f"{fix.what[:1].upper()}{fix.what[1:]}: works in {fix.year}, then {then}{effort}."


def choose_fix(desk: Desk, review: TreeReview) -> None:
    """Lay out what would help a tree; what is picked is noted, and makes jobs."""
    if not review.fixes:
        desk.say(f"{review.plant}: nothing better is known than what stands there.")
        return
    fixes = [fix for fix in review.fixes if fix.way is not None][:9]
    options = [
        Option(str(n), _offer(fix), partial(_take, desk, review, fix)) for n, fix in enumerate(fixes, 1)
    ]
    options.append(Option("c", "be content without fruit", partial(_be_content, desk, review)))
    desk.ask(Choice(f"{review.plant}: what shall be done?", options))


def _offer(fix: Fix) -> str:
    return f"{fix.year}, {phrases.chance(fix.adequacy)}: {fix.what}"


def _take(desk: Desk, review: TreeReview, fix: Fix) -> None:
    southern = desk.almanac.garden.place.southern
    before = {job.id for job in desk.almanac.jobs()}

    def jobs_made(almanac: Almanac) -> str:
        made = [job for job in almanac.jobs() if job.id not in before and review.plant in job.plants]
        first = min(made, key=lambda job: job.open.likely or dt.date.max, default=None)
        if first is None or first.open.likely is None:
            return ""
        return f"; first job: {first.title}, from {phrases.day(first.open.likely, almanac.on)}"

    desk.keep(fix_entry(review.plant, fix, desk.almanac.on, southern=southern), jobs_made)


def _be_content(desk: Desk, review: TreeReview) -> None:
    desk.keep(content_entry(review.plant, desk.almanac.on))


def _under_bar(desk: Desk) -> TreeReview | None:
    under = desk.current
    review = review_of(desk.almanac, under.plant or under.key) if under else None
    if review is None:
        desk.say("There is no tree under the bar.")
    return review


def _fixes(desk: Desk) -> None:
    if review := _under_bar(desk):
        choose_fix(desk, review)


def _content(desk: Desk) -> None:
    review = _under_bar(desk)
    if review is None:
        return
    answer = desk.almanac.answers().get(review.plant)
    if answer is not None and answer.way == "content":
        desk.say(f"{review.plant}: already content without; u on page 9 takes that back.")
        return
    _be_content(desk, review)
