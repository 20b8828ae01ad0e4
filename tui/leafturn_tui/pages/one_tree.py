"""One tree's partners, each with its shares."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.partners.model import Partner
from leafturn_tui.charts.tree_days import day_rows
from leafturn_tui.charts.years_ahead import tenths
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.pages.partner_remedies import choose_remedy
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.partners import pollen_chance
from leafturn_tui.render.parts.partner_words import answer_sentence, review_of, sentences
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, MARGINS, Column, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

SHARES_FROM = 80


class OneTree(Page):
    """Decimals are here and not on the page of all trees."""

    def __init__(self, plant_id: str) -> None:
        self.plant_id = plant_id

    def keys(self) -> tuple[Key, ...]:
        """Choosing a remedy."""
        return (
            Key("x", "fixes", "choose what to do for this tree: it becomes jobs with dates", self._remedies),
        )

    def _remedies(self, desk: Host) -> None:
        review = review_of(desk.almanac, self.plant_id)
        if review is not None:
            choose_remedy(desk, review)

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether the tree is no longer reviewed."""
        return review_of(almanac, self.plant_id) is None

    def heading(self, almanac: AlmanacFace) -> str:
        """The tree, its kind and cultivar."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return ""
        return f"Who serves {', '.join(p for p in (review.plant, review.kind, review.cultivar) if p)}?"

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The weakest link, the days, partners with their shares, then everything else that counts."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return []
        rows = paragraph(
            f"enough pollen: {pollen_chance(review)}; needs {review.needs}", width, key="figures"
        )
        if answer := almanac.answers().get(review.plant):
            said = answer_sentence(answer, almanac.on)
            rows += paragraph(said, width, key="answer")
        first, *more = sentences(review, almanac.on)
        rows += [*paragraph(first, width, key="reason 0"), BLANK]
        if days := almanac.partner_days(review.plant):
            rows += day_rows(days, almanac.on, width)
        if review.partners:
            rows += [*_partners(review.partners, width), BLANK]
        for n, line in enumerate(more, start=1):
            rows += paragraph(line, width, key=f"reason {n}")
        return [replace(row, plant=row.plant or self.plant_id) for row in rows]

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What holds one partner back, or the whole tree."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return None
        partner = next((p for p in review.partners if p.plant == row.about), None)
        if partner is None:
            return Sheet(
                f"{review.plant}: why {phrases.chance(review.adequacy)}?", sentences(review, almanac.on)
            )
        return Sheet(
            f"{partner.plant} for {review.plant}: why {phrases.chance(partner.chance)}?", _why(partner)
        )

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The partner's own page, or the tree's."""
        plant = row.about if almanac.plant(row.about) else self.plant_id
        return OnePlant(plant) if almanac.plant(plant) else None


def _partners(partners: tuple[Partner, ...], width: int) -> list[Row]:
    """A line a partner; where there is room with the five shares whose product the chance is."""
    names = ["of 10", "serves", "adds", "off"]
    shape = [Column(22, 10), Column(6, 6, right=True), Column(6, 6, right=True), Column(8, 6, right=True)]
    if width + MARGINS >= SHARES_FROM:
        names += ["fits", "age", "days", "near", "pollen"]
        shape += [Column(6, 4, right=True)] * 5
    table = [[piece(name, "quiet") for name in names]]
    for p in partners:
        near = phrases.metres(p.metres) if p.metres is not None else "?"
        shares = (p.compatible, p.flowering, p.overlap, p.nearness, p.pollen)
        cells = [piece(p.plant), piece(tenths(p.chance)), piece(tenths(p.adds)), piece(near)]
        table.append([*cells, *(piece(tenths(share)) for share in shares)][: len(shape)])
    laid = columns(table, shape, width)
    title = "partners: of 10 springs, and the five shares that make it"
    head = heading(title if width + MARGINS >= SHARES_FROM else "partners")
    lines = [
        Row(line, p.plant, " ".join(_why(p)[:1]), about=p.plant)
        for p, line in zip(partners, laid[1:], strict=True)
    ]
    return [head, Row(laid[0]), *lines]


def _why(partner: Partner) -> list[str]:
    days = f"Open together about {phrases.count(round(partner.days_overlap), 'day')}."
    between = f"It may serve {phrases.chance_range(partner.low, partner.high)}."
    fewer = tenths(partner.adds)
    adds = (
        f"Without it the tree has enough pollen in {fewer} fewer of 10 springs."
        if fewer.isdigit()
        else "Without it the tree has enough pollen as often."
    )
    return [*partner.reasons, days, between, adds]
