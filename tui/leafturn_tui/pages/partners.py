"""Page 3: which trees lack pollen, and what would help."""

from __future__ import annotations

import datetime as dt
from functools import partial
from itertools import chain
from typing import TYPE_CHECKING

from leafturn.base.prose import of_ten
from leafturn.base.tunables import Numbers
from leafturn.partners.decisions import Answer
from leafturn.partners.model import TreeReview
from leafturn_tui.charts.chance_bar import chance_bar, enough_mark
from leafturn_tui.charts.years_ahead import year_head, year_rows
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page, first_lines
from leafturn_tui.pages.one_tree import OneTree
from leafturn_tui.pages.partner_remedies import be_content, choose_remedy
from leafturn_tui.pages.partner_story import story_rows
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.partners import QUESTION
from leafturn_tui.render.parts.partner_words import (
    alone_words,
    answer_words,
    review_of,
    sentences,
    spare_words,
)
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    FULL,
    MARGINS,
    Piece,
    Row,
    as_there_is_room,
    cut_heads,
    fit,
    heading,
    in_lines,
    name_cells,
    over_list,
    paragraph,
    piece,
    row,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

CHANCE = 14  # of a chance in words and a blank
ROUND = 9  # lines of the window that are not the list's
LEAST_LINK = 12
LONG, SHORT = 20, 10  # cells of a bar
LONG_FROM = 100  # cells of a row from which the long bar leaves the weakest link its room
STANDINGS = {"lacks": "lack one", "thin": "thin", "served": "well served"}
TONES = {"lacks": "amber", "thin": "amber"}


def _head(title: str, standing: str, count: int, name: int, mark: str) -> Row:
    """The head of a group with how many stand in it, and over the first bars where they are enough."""
    said = Piece(f"{title} ", "*amber" if standing in TONES else "*well")
    rest = fit(str(count), name + 1 - len(said.text)) + mark
    return row(said, Piece(rest.rstrip(), "dim"))


def bar_cells(width: int) -> int:
    """Cells of a bar: two a spring, one where there is little room."""
    return LONG if width >= LONG_FROM else SHORT


def enough_from(almanac: AlmanacFace) -> float:
    """The chance from which on a tree counts as served, as the rules have it."""
    return Numbers(almanac.garden.rules)["partner_thin_below"]


class PartnersPage(Page, key="3", question=QUESTION):
    """Who still lacks a partner?"""

    def __init__(self) -> None:
        self.by_year = False

    def keys(self) -> tuple[Key, ...]:
        """Choosing a remedy, being content without, and the years ahead."""
        other = "this year" if self.by_year else "by year"
        return (
            Key(
                "x",
                "fixes",
                "choose what to do for a tree: it becomes jobs with dates",
                _remedies,
                of_line=True,
            ),
            Key(
                "c",
                "content without",
                "content without fruit; asked again after three years",
                _content,
                of_line=True,
            ),
            Key("v", other, "chances of this year, or of the years to come", self._turn, of_plants=True),
        )

    def _turn(self, desk: Host) -> None:
        self.by_year = not self.by_year

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """How many lack a partner, and for how many of them something is decided."""
        return lacking_words(almanac)

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Trees that lack a partner and have no answer yet."""
        lacking = [r.plant for r in almanac.partners() if r.standing == "lacks"]
        return sum(plant not in almanac.answers() for plant in lacking), "amber"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What the bars tell, and from where on they are enough."""
        if self.by_year or not almanac.partners():
            return []
        cells = bar_cells(width)
        bar = "sets fruit in springs of 10" if cells > SHORT else "of 10 springs"
        line = (
            "  "
            + fit("tree", _name_cells(almanac, width))
            + fit(bar, cells + 1 + CHANCE)
            + "the weakest link"
        )
        return [Row((Piece(cut_heads(line, width + 2), "dim"),))]

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The years above their figures."""
        years = next(([year for year, _ in r.by_year] for r in almanac.partners() if r.by_year), [])
        if not self.by_year or not years:
            return []
        head = year_head(years, width - MARGINS, _name_cells(almanac, width - MARGINS))
        return [over_list(head.pieces)]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """By standing, lacking first."""
        trees = len(almanac.partners())
        return as_there_is_room(partial(self._rows, almanac, width), trees, self.height - ROUND)

    def _rows(self, almanac: AlmanacFace, width: int, full: int) -> list[Row]:
        """The same, with the weakest links of so many trees in full."""
        reviews = almanac.partners()
        wanting = [r for r in reviews if r.standing in STANDINGS]
        name = _name_cells(almanac, width)
        made = (
            [[row] for row in year_rows(wanting, width, name)]
            if self.by_year
            else self._lines(wanting, almanac, width, full)
        )
        lines = dict(zip([r.plant for r in wanting], made, strict=True))
        rows: list[Row] = []
        for standing, title in STANDINGS.items():
            group = [lines[r.plant] for r in wanting if r.standing == standing]
            mark = "" if rows or self.by_year else enough_mark(enough_from(almanac), bar_cells(width))
            rows += (
                [_head(title, standing, len(group), name, mark), *chain.from_iterable(group)] if group else []
            )
        alone = [alone_words(r) for r in reviews if r.standing == "needs none"]
        if alone:
            rows += [heading("needs none"), *paragraph(", ".join(alone), width, indent=1, hang=0)]
        rows += _spare(almanac, width)
        if not rows and not almanac.garden.plants:
            return first_lines(width)
        return rows or paragraph("No plant in the garden file has a kind that needs a partner.", width)

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """What the figures by year mean."""
        if not self.by_year:
            return []
        said = "springs of 10 with enough pollen if nothing is done; - hardly ever"
        return paragraph(said, width - 1, "quiet", indent=1)

    def _lines(
        self, reviews: list[TreeReview], almanac: AlmanacFace, width: int, full: int
    ) -> list[list[Row]]:
        """Name, bar, chance, and the weakest link or what was answered, of so many trees in full."""
        answers, enough, name = almanac.answers(), enough_from(almanac), _name_cells(almanac, width)
        rows: list[list[Row]] = []
        for n, review in enumerate(reviews):
            answer = answers.get(review.plant)
            said = answer_words(answer) if answer else review.weakest
            cells = bar_cells(width)
            left = (
                Piece(fit(piece(review.plant).text, name - 1) + " "),
                *chance_bar(review.low, review.adequacy, review.high, cells, enough),
                Piece(" " + fit(_chance(review), CHANCE), TONES.get(review.standing, "")),
            )
            room = width - name - cells - 1 - CHANCE
            first, *more = (
                in_lines(piece(said).text, room, FULL if n < full else 1) if room >= LEAST_LINK else [""]
            )
            tone = "dim" if answer else ""
            summary = _summary(review, answer, almanac.on)
            told = [Row((*left, Piece(first, tone)), review.plant, summary, review.plant)]
            rows.append(
                told + [Row((Piece(" " * (width - room)), Piece(r, tone)), joined=True) for r in more]
            )
        return rows

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """The weakest link, what would help with its chance, the years ahead, and the rest."""
        review = review_of(almanac, row.plant)
        return [] if review is None else story_rows(review, almanac, width)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The weakest link, then everything else that counts."""
        review = review_of(almanac, row.plant)
        if review is None:
            return None
        return Sheet(f"{review.plant}: why {_chance(review)}?", sentences(review, almanac.on))

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The tree's page: its partners one by one."""
        return OneTree(row.plant) if review_of(almanac, row.plant) else None


def _name_cells(almanac: AlmanacFace, width: int) -> int:
    """Cells of the names of all that want a partner."""
    return name_cells((r.plant for r in almanac.partners() if r.standing in STANDINGS), width)


def lacking_words(almanac: AlmanacFace) -> tuple[str, ...]:
    """ "9 lack one", "not yet decided for any"."""
    lacking = [r.plant for r in almanac.partners() if r.standing == "lacks"]
    answered = sum(plant in almanac.answers() for plant in lacking)
    if not lacking:
        return ("none lacks one",)
    if answered == len(lacking):
        return f"{len(lacking)} lack one", "each has your answer"
    decided = f"you have decided for {answered} of them" if answered else "not yet decided for any"
    return f"{len(lacking)} lack one", decided


def _chance(review: TreeReview) -> str:
    return ("~" if review.guessed else "") + of_ten(review.adequacy)


def _summary(review: TreeReview, answer: Answer | None, on: dt.date) -> str:
    said = f"{review.plant}: enough pollen {phrases.chance_range(review.low, review.high)}"
    crop = "" if review.crop is None else phrases.chance(review.crop)
    if crop not in ("", phrases.chance(review.adequacy)):
        said += f", a crop {crop}"
    if answer is not None:
        return f"{said}; {answer_words(answer)}, asked again {phrases.day(answer.until, on)}"
    first = review.reasons[0] if review.reasons else review.weakest
    remedies = "; ".join(f"{f.what} ({f.year})" for f in review.remedies[:3])
    return f"{said}; {remedies or first}"


def _spare(almanac: AlmanacFace, width: int) -> list[Row]:
    """Plants kept for their pollen that could go."""
    said = list(spare_words(almanac.redundant_donors()))
    if not said:
        return []
    lines = [row for sentence in said for row in paragraph(sentence, width, indent=1, hang=0)]
    return [heading("kept for pollen, and not missed"), *lines]


def _under_bar(desk: Host) -> TreeReview | None:
    under = desk.current
    review = review_of(desk.almanac, under.plant) if under else None
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
