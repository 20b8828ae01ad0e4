"""Page 7: what is picked and what bees find in every week, and what would fill the gaps."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.answers.harvest_calendar import Gap, Week
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.told import Told
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.larder import QUESTION, larder_groups, week_lines, week_words
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Column, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


class LarderPage(Page, key="7", question=QUESTION):
    """When is there nothing to pick, and nothing for the bees?"""

    def keys(self) -> tuple[Key, ...]:
        """The gaps in words."""
        return (Key("v", "gaps", "weeks without picking or forage, and what would fill them", _show_gaps),)

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The gaps, never scrolled away."""
        found, on = almanac.larder(), almanac.on
        hungry = "; ".join(span_words(g, on) for g in found.picking_gaps) or "no week"
        bare = "; ".join(span_words(g, on) for g in found.forage_gaps) or "no week"
        return [
            *paragraph(f"nothing to pick or in store: {hungry}", width, indent=1, most=2),
            *paragraph(f"under two plants open while bees fly: {bare}", width, indent=1, most=2),
        ]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a week: what is picked or keeps, and what is open for bees."""
        weeks = almanac.larder().weeks
        table = [
            [
                piece(f"{w.number}"),
                piece(phrases.day(w.first, almanac.on)),
                piece(picked_words(w), "lacks" if not w.picked and not w.kept else ""),
                piece(forage_words(w), "lacks" if w.flying and len(w.forage) < 2 else ""),
            ]
            for w in weeks
        ]
        shape = (Column(2, 2, right=True), Column(11, 6), Column(60, 12), Column(400, 12))
        laid = columns(table, shape, width)
        return [Row(line, f"week {w.number}", week_words(w)) for w, line in zip(weeks, laid, strict=True)]

    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int:
        """The week of the day."""
        weeks = almanac.larder().weeks
        return max((n for n, w in enumerate(weeks) if w.first <= almanac.on), default=0)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The whole week."""
        week = next((w for w in almanac.larder().weeks if f"week {w.number}" == row.key), None)
        return None if week is None else Sheet(f"week {week.number}", week_lines(week))

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The gaps."""
        return Told("gaps of the larder", lambda a: larder_groups(a.larder(), a))


def _show_gaps(desk: Host) -> None:
    desk.open(Told("gaps of the larder", lambda a: larder_groups(a.larder(), a)))


def span_words(gap: Gap, on: dt.date) -> str:
    """ "18 Jun to 4 Nov (yarrow, phacelia would be there)"."""
    fill = f" ({', '.join(gap.fillers)} would be there)" if gap.fillers else ""
    return f"{phrases.stretch(gap.start, gap.end, on)}{fill}"


def picked_words(week: Week) -> str:
    """What is picked, else what keeps, else that there is nothing."""
    if week.picked:
        return f"{len(week.picked)}: {', '.join(week.picked)}"
    return f"in store: {', '.join(week.kept)}" if week.kept else "nothing to pick"


def forage_words(week: Week) -> str:
    """How many plants are open for bees, and which."""
    if week.forage:
        return f"bees {len(week.forage)}: {', '.join(week.forage)}"
    return "bees: nothing open" if week.flying else ""
