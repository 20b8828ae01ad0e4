"""Page 2: what is coming, as a strip by week or a list of dates."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.answers.season import Season
from leafturn.answers.season_days import PlantDays
from leafturn.base import quantities
from leafturn.base.day_words import near_day
from leafturn.bloom.model import SeasonEvent
from leafturn_tui.charts.heat_curve import apart, curve_rows
from leafturn_tui.charts.season_strip import DAY, DAYS, Strip
from leafturn_tui.host import Key
from leafturn_tui.pages.base import WHOLE, Page, first_lines
from leafturn_tui.pages.one_plant import event_cells
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.season import QUESTION, chill_lines, frost_lines
from leafturn_tui.render.weather import heat_lines
from leafturn_tui.text import phrases
from leafturn_tui.text.glossary import meaning
from leafturn_tui.text.layout import (
    BLANK,
    LEAST_NAME,
    MARGINS,
    Column,
    Piece,
    Row,
    columns,
    heading,
    over_list,
    paragraph,
    piece,
    row,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

BASIS_FROM = 90
USUAL_FROM = 72
HEAT_ROWS = 12
ROUND = 13  # lines of the window that are not the curve's
FROST = "frost"  # what the lines on frost and chill are about
VIEWS = {"strip": "by day", "year": "the year", "list": "dates", "heat": "heat"}


class SeasonPage(Page, key="2", question=QUESTION):
    """What is coming, and when?"""

    def __init__(self) -> None:
        self.view = "strip"

    @property
    def list_width(self) -> int:
        """A strip wants all its days, the curve of heat the whole width."""
        return WHOLE if self.view == "heat" else LEAST_NAME + DAY + DAYS + MARGINS

    def keys(self) -> tuple[Key, ...]:
        """The other views."""
        return (
            self._key("v", "heat", "how far the year is: its heat beside past years, or the strip"),
            self._key("y", "year", "the year by weeks, or eight weeks by days"),
            self._key("i", "list", "the dates of all that comes as a list, or the strip"),
        )

    def _key(self, name: str, view: str, what: str) -> Key:
        other = "strip" if self.view == view else view
        return Key(name, VIEWS[other], what, partial(self._turn, other))

    def _turn(self, view: str, desk: Host) -> None:
        self.view = view
        desk.start_over()

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """What opens next."""
        return next_words(almanac)

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The dates over the strip, and the frost under them."""
        if self.view in ("list", "heat"):
            return []
        heads = self._strip(almanac, width).heads(almanac.season().frost.following(almanac.on))
        return [over_list(row.pieces) for row in heads]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a plant, or a line an event; below them frost and notes in words. Or the curve of heat."""
        season = almanac.season()
        if self.view == "heat":
            return heat_rows(almanac, width, max(HEAT_ROWS, self.height - ROUND))
        drawn = self._dates if self.view == "list" else self._strips
        rows = drawn(almanac, season, width)
        rows += [BLANK, heading("frost" if season.chill is None else "frost and chill")]
        for number, line in enumerate((*frost_lines(season, almanac.on), *chill_lines(season))):
            told = paragraph(line, width, key=f"{FROST} {number}")
            rows += [replace(one, about=FROST) for one in told]
        said = [r for n in season.notes for r in paragraph(n, width, "quiet")]
        return [*rows, BLANK, *said] if said else rows

    def _strip(self, almanac: AlmanacFace, width: int) -> Strip:
        frost = almanac.season().frost.following(almanac.on)
        return Strip.across(almanac.season_days(), frost, almanac.on, width, whole=self.view != "strip")

    def _strips(self, almanac: AlmanacFace, season: Season, width: int) -> list[Row]:
        """A strip a plant."""
        by_plant: dict[str, list[SeasonEvent]] = {}
        for event in sorted(season.events, key=_when):
            by_plant.setdefault(event.plant, []).append(event)

        def told(plant: PlantDays, row: Row) -> Row:
            why = _plant_words(plant.plant, by_plant.get(plant.plant, []), almanac.on)
            return replace(row, key=plant.plant, why=why, plant=plant.plant)

        rows = self._strip(almanac, width).rows(told)
        unseen = len(almanac.season_days().plants) - sum(bool(row.key) for row in rows)
        if unseen:
            rows += [BLANK, row(Piece(f"{phrases.count(unseen, 'more plant')}, over or later", "dim"))]
        if not almanac.garden.plants:
            return first_lines(width)
        return rows or paragraph("No plant here is known to flower or to be picked this season.", width)

    def _dates(self, almanac: AlmanacFace, season: Season, width: int) -> list[Row]:
        events = sorted(season.events, key=_when)
        shape = [
            Column(34, 22, gives=3),
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

    def has_why(self, row: Row) -> bool:
        """Of lines about frost it tells how they are read."""
        return row.about == FROST or super().has_why(row)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """A plant's whole season in sentences, then why it has no job."""
        season = almanac.season()
        if row.about == FROST:
            return Sheet("frost: how are these lines read?", _how_to_read(season))
        events = [e for e in season.events if e.plant == row.plant]
        if not events:
            return None
        said = [_event_words(e, almanac.on) for e in sorted(events, key=_when)]
        return Sheet(f"{row.plant}: what is coming, and why then?", [*said, *almanac.why_plant(row.plant)])


def _key(event: SeasonEvent) -> str:
    return f"{event.plant} {event.event}"


def next_words(almanac: AlmanacFace) -> tuple[str, ...]:
    """ "next: comice-1 and 2 more, about 23 Apr"; what is noted as open already is not told."""
    opens = _to_open(almanac)
    if not opens:
        return ()
    first = opens[0][0]
    names = [plant for day, plant in opens if (day - first).days <= 1]
    more = f" and {len(names) - 1} more" if len(names) > 2 else f" and {names[1]}" if len(names) == 2 else ""
    when = "any day now" if first <= almanac.on else f"about {near_day(first, almanac.on)}"
    return (f"next: {names[0]}{more}, {when}",)


def heat_rows(almanac: AlmanacFace, width: int, lines: int = HEAT_ROWS) -> list[Row]:
    """The curve of heat with the next blooms on it, and what it means."""
    heat = almanac.heading().heat
    title = f"heat above {quantities.celsius(heat.base, 0)} since {phrases.day(almanac.heat_course().first)}"
    said = (
        f"{title}: {phrases.count(quantities.heat(heat.to_date), 'degree-day')}; "
        f"usual for today {quantities.heat(heat.normal)}"
    )
    blooms = apart(_to_open(almanac), almanac.on)
    rows = curve_rows(almanac.heat_course(), blooms, almanac.on, width, lines)
    meaning = "The band holds 8 past years of 10; dots ahead are this year as it may go on."
    second = [r for line in heat_lines(heat) for r in paragraph(line, width, "dim")]
    return [*paragraph(said, width, "dim"), *rows, *paragraph(meaning, width, "dim"), *second]


def _to_open(almanac: AlmanacFace) -> list[tuple[dt.date, str]]:
    """What is still to open, soonest first."""
    return sorted(
        (e.when.likely, piece(e.plant).text)
        for e in almanac.season().events
        if e.event == "first open" and not e.observed and e.when.likely and e.when.likely >= almanac.on
    )


def _date(event: SeasonEvent) -> dt.date | None:
    return event.observed or event.when.likely


def _when(event: SeasonEvent) -> dt.date:
    return _date(event) or event.when.early or dt.date.max


def _plant_words(plant: str, events: list[SeasonEvent], on: dt.date) -> str:
    said = ", ".join(f"{event.event} {phrases.event_day(event, on)}" for event in events)
    return f"{plant}: {said}"


def _event_words(event: SeasonEvent, on: dt.date) -> str:
    said = f"{event.plant}, {event.event}: {phrases.event_day(event, on)}"
    if not event.observed:
        said += f", {event.basis}"
    if event.days_from_normal:
        said += f"; {phrases.against_usual(event)} for this garden"
    second = f" {event.second.says}" if event.second is not None and event.second.says else ""
    return f"{said}.{second}"


def _how_to_read(season: Season) -> list[str]:
    """What the lines on frost and chill mean; what they tell stands in the list."""
    chill = [] if season.chill is None else [meaning("chill")]
    return [
        f"A frost is a night of {phrases.celsius(season.frost.threshold)} or colder.",
        "The first date is the likely one; those in brackets leave out one year in ten at each end.",
        *chill,
    ]
