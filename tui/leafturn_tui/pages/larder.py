"""Page 7: what is picked and what bees find in every week, and what would fill the gaps."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.harvest_calendar import FEW, Gap, Week
from leafturn_tui.charts.larder_year import LABEL, year_rows
from leafturn_tui.host import Key
from leafturn_tui.pages.base import WHOLE, Page, first_lines
from leafturn_tui.pages.detail import Detail, group_rows
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.larder import QUESTION, larder_groups, week_lines, week_words
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    BLANK,
    MARGINS,
    Column,
    Piece,
    Row,
    fit,
    joined_rows,
    over_list,
    piece,
    wrapped_columns,
)
from leafturn_tui.text.wrapping import wrap

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

WEEKS = 54  # at most, that hold a day of one year
ROUND = 9  # lines of the window that are not the list's
LEAST_AHEAD = 5  # lines: a blank, the heads, and three weeks to come, fewer of which tell nothing


class LarderPage(Page, key="7", question=QUESTION):
    """When is there nothing to pick, and nothing for the bees?"""

    def __init__(self) -> None:
        self.as_list = False
        self._steps = 0  # weeks from that of the day

    @property
    def list_width(self) -> int:
        """The year wants two cells a week before a story stands beside it; its weeks in words tell all."""
        return WHOLE if self.as_list else LABEL + 2 * WEEKS + MARGINS

    def keys(self) -> tuple[Key, ...]:
        """Another week, the weeks in words, the gaps."""
        other = "the year" if self.as_list else "in words"
        return (
            Key("v", other, "the year as a picture, or its weeks in words", self._turn, of_plants=True),
            Key(
                "x",
                "fill gaps",
                "weeks without picking or forage, and what would fill them",
                _show_gaps,
                of_plants=True,
            ),
            Key("left", "week before", "the week before", partial(self._step, -1), of_plants=True),
            Key("right", "week after", "the week after", partial(self._step, 1), of_plants=True),
        )

    def _step(self, weeks: int, desk: Host) -> None:
        last = len(desk.almanac.larder().weeks) - 1
        today = _week_of(desk.almanac)
        self._steps = max(-today, min(last - today, self._steps + weeks))

    def _turn(self, desk: Host) -> None:
        self.as_list = not self.as_list
        desk.start_over()

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """When there is nothing to pick from today on, and when bees go short."""
        if not almanac.garden.plants:
            return ()
        found, on = almanac.larder(), almanac.on
        empty = [phrases.stretch(g.start, g.end, on) for g in _ahead(found.picking_gaps, on)[:2]]
        none = "no more empty weeks this year" if found.picking_gaps else "no empty week"
        said = (f"nothing {empty[0]}", *empty[1:]) if empty else (none,)
        if not any(week.picked or week.kept for week in found.weeks):
            said = ("no week is told" if found.undated else "nothing all year",)
        few = _ahead(found.forage_gaps, on)[:1]
        short = [f"bees go short {phrases.stretch(g.start, g.end, on)}" for g in few]
        return (*said, *short)

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Over the weeks in words."""
        if not self.as_list or not almanac.garden.plants:
            return []
        heads = next(self._table(almanac, width))
        return [over_list(heads[0])]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The year as hills and a week in words, or a line a week."""
        weeks = almanac.larder().weeks
        if not almanac.garden.plants:
            return first_lines(width)
        if self.as_list:
            return self._weeks(almanac, width)
        at = _week_of(almanac) + self._steps
        if not 0 <= at < len(weeks):
            return []
        week = weeks[at]
        rows = year_rows(weeks, at, almanac.on, width + 1)
        fillers = next(
            (g.fillers for g in almanac.larder().forage_gaps if g.start <= week.first <= g.end), ()
        )
        told = (
            ("To pick", ", ".join(week.picked) or "nothing"),
            ("In store", ", ".join(week.kept)),
            ("Bees", ", ".join(week.forage) or ("nothing open" if week.flying else "")),
            ("Could fill", ", ".join(fillers)),
        )
        for label, said in told:
            if said:
                first, *more = wrap(piece(said).text, width - LABEL)
                pieces = (Piece(fit(label, LABEL), "dim"), Piece(first))
                key = f"week from {week.first} {label}"
                rows.append(Row(pieces, key, week_words(week), about=week.first.isoformat()))
                rows += [Row((Piece(" " * LABEL), Piece(line)), joined=True) for line in more]
        return [*rows, *self._ahead(almanac, width, at, self.height - ROUND - len(rows))]

    def _ahead(self, almanac: AlmanacFace, width: int, at: int, room: int) -> list[Row]:
        """The weeks after the one shown, in words, as far as there is room."""
        if room < LEAST_AHEAD:
            return []
        (heads, *_), *weeks = self._table(almanac, width)
        rows = [BLANK, Row((Piece(" "), *heads))]
        for week, own in list(zip(almanac.larder().weeks, weeks, strict=True))[at + 1 :]:
            if len(rows) + len(own) > room:
                break
            rows += _week_rows(week, own)
        return rows

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """Beside the year, whose weeks tell themselves, its gaps and what would fill them."""
        return group_rows(larder_groups(almanac.larder(), almanac), width)

    def _weeks(self, almanac: AlmanacFace, width: int) -> list[Row]:
        weeks = almanac.larder().weeks
        _, *lines = self._table(almanac, width)
        return [row for week, own in zip(weeks, lines, strict=True) for row in _week_rows(week, own)]

    def _table(self, almanac: AlmanacFace, width: int) -> Iterator[list[tuple[Piece, ...]]]:
        """The heads, then the lines of each week."""
        heads = (piece("week from", "dim"), piece("to pick", "dim"), piece("open for bees", "dim"))
        weeks = [
            (
                piece(phrases.day(w.first, almanac.on)),
                piece(picked_words(w), "" if w.picked else "dim" if w.kept else "amber"),
                piece(forage_words(w), "amber" if w.flying and len(w.forage) < FEW else ""),
            )
            for w in almanac.larder().weeks
        ]
        columns = Column(11, 6), Column(60, 12), Column(400, 12)
        return wrapped_columns([heads, *weeks], columns, width, most=9)

    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int:
        """In the list, the week of the day."""
        this = almanac.larder().weeks[_week_of(almanac)].first.isoformat() if self.as_list else ""
        return next((n for n, row in enumerate(rows) if row.about == this), 0)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The whole week."""
        week = next((w for w in almanac.larder().weeks if w.first.isoformat() == row.about), None)
        if week is None:
            return None
        return Sheet(f"the week from {phrases.day(week.first, almanac.on)}", week_lines(week))

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The gaps."""
        return _gaps()


def _week_rows(week: Week, lines: Sequence[tuple[Piece, ...]]) -> list[Row]:
    """A week's line of the list, with what it goes on in."""
    about = week.first.isoformat()
    return joined_rows(lines, f"week from {about}", week_words(week), about=about)


def _ahead(gaps: Sequence[Gap], on: dt.date) -> list[Gap]:
    """Those not over on a day."""
    return [gap for gap in gaps if gap.end >= on]


def _week_of(almanac: AlmanacFace) -> int:
    """Index of the week that holds the day."""
    return max((n for n, w in enumerate(almanac.larder().weeks) if w.first <= almanac.on), default=0)


def _show_gaps(desk: Host) -> None:
    desk.open(_gaps())


def _gaps() -> Page:
    return Detail("gaps of the larder", lambda almanac: larder_groups(almanac.larder(), almanac))


def picked_words(week: Week) -> str:
    """What is picked, else what keeps, else that there is nothing."""
    if week.picked:
        return ", ".join(week.picked)
    return f"in store: {', '.join(week.kept)}" if week.kept else "nothing"


def forage_words(week: Week) -> str:
    """Which plants are open for bees."""
    if week.forage:
        return ", ".join(week.forage)
    return "nothing open" if week.flying else ""
