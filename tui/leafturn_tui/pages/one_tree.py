"""One tree's partners, each with its shares."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.partners.model import Partner
from leafturn_tui import words
from leafturn_tui.pages.base import MARGINS, Page
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.pages.partners import review_of, sentences
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import BLANK, Column, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

SHARES_FROM = 80


class OneTree(Page):
    """Decimals are here and not on the page of all trees."""

    def __init__(self, plant_id: str) -> None:
        self.plant_id = plant_id

    def gone(self, almanac: Almanac) -> bool:
        """Whether the tree is no longer reviewed."""
        return review_of(almanac, self.plant_id) is None

    def heading(self, almanac: Almanac) -> str:
        """The tree, its kind and cultivar."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return ""
        return f"Who serves {', '.join(p for p in (review.plant, review.kind, review.cultivar) if p)}?"

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """Reasons, partners with their shares, what would help."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return []
        figures = f"enough pollen: {review.adequacy:.2f}, between {review.low:.2f} and {review.high:.2f}"
        rows = paragraph(f"{figures}; needs {review.needs}", width, key="figures")
        for n, line in enumerate(sentences(review, almanac.on)):
            rows += paragraph(line, width, key=f"reason {n}")
        if review.partners:
            rows += [BLANK, *_partners(review.partners, width)]
        return [Row(r.pieces, r.key, r.why, r.plant or self.plant_id) for r in rows]

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """What holds one partner back, or the whole tree."""
        review = review_of(almanac, self.plant_id)
        if review is None:
            return None
        partner = next((p for p in review.partners if p.plant == row.key), None)
        if partner is None:
            return Sheet(
                f"{review.plant}: why {words.chance(review.adequacy)}?", sentences(review, almanac.on)
            )
        return Sheet(
            f"{partner.plant} for {review.plant}: why {words.chance(partner.chance)}?", _why(partner)
        )

    def opened(self, almanac: Almanac, row: Row) -> Page | None:
        """The partner's own page, or the tree's."""
        plant = row.key if almanac.plant(row.key) else self.plant_id
        return OnePlant(plant) if almanac.plant(plant) else None


def _partners(partners: tuple[Partner, ...], width: int) -> list[Row]:
    title = "partners: the chance is the product of the five shares"
    shape = [Column(22, 10), Column(12, 4), Column(8, 6)]
    if width + MARGINS >= SHARES_FROM:
        shape += [Column(11)] * 5
    table = []
    for p in partners:
        shares = (
            f"fits {p.compatible:.2f}", f"of age {p.flowering:.2f}", f"days {p.overlap:.2f}",
            f"near {p.nearness:.2f}", f"pollen {p.pollen:.2f}",
        )  # fmt: skip
        near = words.metres(p.metres) if p.metres is not None else "place not given"
        cells = [piece(p.plant), piece(f"{p.chance:.2f}"), piece(near), *(piece(s) for s in shares)]
        table.append(cells[: len(shape)])
    laid = columns(table, shape, width)
    head = heading(title if width + MARGINS >= SHARES_FROM else "partners")
    lines = [Row(line, p.plant, " ".join(_why(p)[:1])) for p, line in zip(partners, laid, strict=True)]
    return [head, *lines]


def _why(partner: Partner) -> list[str]:
    days = f"Open together about {words.count(round(partner.days_overlap), 'day')}."
    between = f"Its chance lies between {partner.low:.2f} and {partner.high:.2f}."
    return [*partner.reasons, days, between]
