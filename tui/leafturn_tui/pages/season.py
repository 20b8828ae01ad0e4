"""Page 2: what is coming, as a strip by week or a list of dates."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.answers.season import Season
from leafturn.bloom.model import SeasonEvent
from leafturn_tui.charts.season_weeks import Weeks, week_marks
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.one_plant import event_cells
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.season import QUESTION, chill_lines, frost_lines
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    BLANK,
    MARGINS,
    Column,
    Piece,
    Row,
    columns,
    fit,
    heading,
    paragraph,
    piece,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

NAME = 15  # cells of a plant's name beside the strip
DATE = 7  # a gap and "30 May" after it
BASIS_FROM = 80
USUAL_FROM = 60


class SeasonPage(Page, key="2", question=QUESTION):
    """What is coming, and when?"""

    def __init__(self) -> None:
        self.as_list = False

    def keys(self) -> tuple[Key, ...]:
        """The other view."""
        other = "by week" if self.as_list else "list of dates"
        return (Key("v", other, "the season as a strip by week or as a list of dates", self._turn),)

    def _turn(self, desk: Host) -> None:
        self.as_list = not self.as_list
        desk.start_over()

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The months above the strip."""
        if self.as_list:
            return []
        weeks = _weeks(almanac, width - MARGINS)
        return [
            Row((Piece("  " + fit("", NAME + 1)), Piece(weeks.months(), "heading"))),
            Row((Piece("  " + fit("now", NAME + 1)), Piece(weeks.marker(almanac.on)))),
        ]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a plant, or a line an event."""
        season = almanac.season()
        rows = self._dates(almanac, season, width) if self.as_list else self._strip(almanac, season, width)
        rows += [BLANK, heading("frost" if season.chill is None else "frost and chill")]
        for number, line in enumerate((*frost_lines(season, almanac.on), *chill_lines(season))):
            rows += paragraph(line, width, key=f"frost {number}")
        said = [r for n in season.notes for r in paragraph(n, width, "quiet")]
        return [*rows, BLANK, *said] if said else rows

    def below(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What the letters mean."""
        if self.as_list:
            return []
        said = "b in flower, B full, h picking, . may be; = frost likely, - frost may be"
        return paragraph(said, width - 1, "quiet", indent=1)

    def _strip(self, almanac: AlmanacFace, season: Season, width: int) -> list[Row]:
        weeks = _weeks(almanac, width)
        by_plant: dict[str, list[SeasonEvent]] = {}
        for event in sorted(season.events, key=_when):
            by_plant.setdefault(event.plant, []).append(event)
        frost = season.frost
        last = phrases.day(frost.last.likely) if frost.last.likely else ""
        rows = [
            Row(
                (Piece(fit("frost", NAME + 1)), Piece(weeks.frost(frost)), Piece(f" {last}")),
                key="frost",
                why=_frost_words(season, almanac.on),
            )
        ]
        for plant, events in by_plant.items():
            name = Piece(fit(piece(plant).text, NAME) + " ")
            marks = Piece(fit(week_marks(weeks, events), weeks.count))
            after = Piece(" " + phrases.day(_date(_next(events, almanac.on))))
            rows.append(Row((name, marks, after), plant, _plant_words(plant, events, almanac.on), plant))
        return rows

    def _dates(self, almanac: AlmanacFace, season: Season, width: int) -> list[Row]:
        events = sorted(season.events, key=_when)
        shape = [
            Column(34, 22),
            Column(20, 10, gives=1),
            Column(18, 10),
            Column(14, 8, gives=2),
            Column(gives=3),
        ]
        shape = shape[: 5 if width + MARGINS >= BASIS_FROM else 4 if width + MARGINS >= USUAL_FROM else 3]
        table = []
        for event in events:
            what, when, usual, basis = event_cells(event, almanac)
            table.append([when, piece(event.plant), what, usual, basis][: len(shape)])
        laid = columns(table, shape, width)
        rows = []
        shown_later = False
        for event, line in zip(events, laid, strict=True):
            if not shown_later and _when(event) >= almanac.on:
                shown_later = True
                rows.append(heading(f"from {phrases.long_day(almanac.on)} on"))
            rows.append(Row(line, _key(event), _event_words(event, almanac.on), event.plant))
        return rows

    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int:
        """The list begins at what is still to come."""
        to_come = {_key(e) for e in almanac.season().events if _when(e) >= almanac.on}
        return next((n for n, row in enumerate(rows) if row.key in to_come), 0)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """A plant's whole season in sentences, then why it has no job."""
        season = almanac.season()
        if row.key == "frost":
            return Sheet("frost: how likely, and until when?", _frost_sentences(season, almanac.on))
        events = [e for e in season.events if e.plant == row.plant]
        if not events:
            return None
        said = [_event_words(e, almanac.on) for e in sorted(events, key=_when)]
        return Sheet(f"{row.plant}: what is coming, and why then?", [*said, *almanac.why_plant(row.plant)])


def _key(event: SeasonEvent) -> str:
    return f"{event.plant} {event.event}"


def _weeks(almanac: AlmanacFace, width: int) -> Weeks:
    return Weeks.of_season(almanac.on, almanac.garden.place.southern, width - NAME - 1 - DATE)


def _date(event: SeasonEvent) -> dt.date | None:
    return event.observed or event.when.likely


def _when(event: SeasonEvent) -> dt.date:
    return _date(event) or event.when.early or dt.date.max


def _next(events: list[SeasonEvent], on: dt.date) -> SeasonEvent:
    return next((e for e in events if (_date(e) or dt.date.min) >= on), events[-1])


def _plant_words(plant: str, events: list[SeasonEvent], on: dt.date) -> str:
    said = []
    for event in events:
        if event.observed:
            said.append(f"{event.event} noted {phrases.day(event.observed, on)}")
        else:
            said.append(f"{event.event} {phrases.likely(event.when, on)}")
    return f"{plant}: {', '.join(said)}"


def _event_words(event: SeasonEvent, on: dt.date) -> str:
    if event.observed:
        said = f"{event.plant}, {event.event}: noted {phrases.day(event.observed, on)}"
    else:
        said = f"{event.plant}, {event.event}: {phrases.likely(event.when, on)}, {event.basis}"
    if event.days_from_normal:
        said += f"; {phrases.against_usual(event)} for this garden"
    second = f" {event.second.says}" if event.second is not None and event.second.says else ""
    return f"{said}.{second}"


def _frost_words(season: Season, on: dt.date) -> str:
    return " ".join(_frost_sentences(season, on)[:2])


def _frost_sentences(season: Season, on: dt.date) -> list[str]:
    frost = season.frost
    limit = f"{phrases.two_figures(frost.threshold)} C or colder"
    gone = f"; {phrases.frost_gone(frost.last_gone)}" if frost.last.likely else ""
    station = []
    if frost.station_last is not None and frost.station_first is not None:
        last, first = phrases.likely(frost.station_last, on), phrases.likely(frost.station_first, on)
        station = [f"At the weather station: last {last}, first in autumn {first}."]
    return [
        f"Last night of {limit}: {phrases.frost_day(frost.last, frost.last_years, on)}{gone}.",
        f"First in autumn: {phrases.frost_day(frost.first, frost.first_years, on)}.",
        *station,
        "The dates in brackets leave out one year in ten at each end.",
    ]
