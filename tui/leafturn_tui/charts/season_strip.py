"""The season as a strip: a row a plant, bloom and picking as hills, the chance of frost as the ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from leafturn.answers.season_days import BloomGroup, PlantDays, SeasonDays
from leafturn_tui.charts.heights import LEAST, Cell, hill, pieces, placed, slope
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, fit, piece

NAME = 15  # cells of a plant's name and a blank
DAY = 7  # a blank and "30 May"
DAYS = 56
WEEK = 7
GROUNDS = ((0.5, "frost3"), (0.2, "frost2"), (0.05, "frost1"))
FULL = 0.5  # share of draws in full bloom from which a day is drawn as such


@dataclass(frozen=True)
class Span:
    """The days of a strip: from `first`, so many cells of so many days; `today` is the day of asking."""

    first: dt.date
    cells: int
    days_a_cell: int
    today: dt.date

    @classmethod
    def of_weeks(cls, on: dt.date, room: int) -> Span:
        """Eight weeks at most, a cell a day, from the Monday a week before this one."""
        monday = on - dt.timedelta(days=on.weekday() + WEEK)
        return cls(monday, max(WEEK, min(DAYS, room)), 1, on)

    @classmethod
    def of_year(cls, first: dt.date, days: int, on: dt.date, room: int) -> Span:
        """The whole season, a cell a week, from the Monday of its first day."""
        monday = first - dt.timedelta(days=first.weekday())
        return cls(monday, max(1, min(-(-days // WEEK), room)), WEEK, on)

    def cell(self, day: dt.date) -> int:
        """The cell that holds a day; may lie outside."""
        return (day - self.first).days // self.days_a_cell

    def day(self, cell: int) -> dt.date:
        """The first day of a cell."""
        return self.first + dt.timedelta(days=cell * self.days_a_cell)

    def past(self, cell: int) -> bool:
        """Whether a cell lies wholly before today."""
        return self.day(cell + 1) <= self.today

    def values(self, days: SeasonDays, of: Sequence[float]) -> list[float]:
        """The highest value of each cell's days; 0 outside of the season."""
        start = (self.first - days.first).days
        found = []
        for cell in range(self.cells):
            at = start + cell * self.days_a_cell
            found.append(max((float(v) for v in of[max(0, at) : max(0, at + self.days_a_cell)]), default=0.0))
        return found


def head_row(span: Span) -> Row:
    """The dates of Mondays over their cells, months by name, and today."""
    today = span.cell(span.today)
    words = [(today, "today", "*accent")] if span.days_a_cell == 1 else [(today, "▾", "*accent")]
    month = 0
    for cell in range(span.cells):
        day = span.day(cell)
        new = day.month != month
        if span.days_a_cell == 1 and day.weekday() == 0:
            words.append((cell, phrases.day(day) if new else str(day.day), "dim"))
            month = day.month
        elif span.days_a_cell > 1 and new:
            words.append((cell, phrases.day(day).split()[1], "dim"))
            month = day.month
    return Row(
        (Piece(fit("", NAME)), *pieces(placed(words, span.cells)), Piece(fit("day", DAY, True), "dim"))
    )


def frost_row(days: SeasonDays, span: Span, frosts: Sequence[dt.date | None], last: str) -> Row:
    """The chance of frost as a slope, with the likely day of the next one at the right."""
    chances = span.values(days, list(days.frost))
    cells = [
        (" " if span.past(n) else slope(chance), f"f_cold{_ground(span, n, chance)}")
        for n, chance in enumerate(chances)
    ]
    return Row(
        (Piece(fit("frost", NAME), "cold"), *_with_today(cells, span), Piece(fit(last, DAY, True), "cold")),
        key="frost",
    )


def plant_row(plant: PlantDays, days: SeasonDays, span: Span, marks: Sequence[dt.date | None]) -> Row:
    """One plant's hills of bloom and picking over the frost, and the day of what is next.

    Parameters
    ----------
    plant : PlantDays
    days : SeasonDays
    span : Span
    marks : sequence of date or None
        Days of frost that are marked where there is no colour.
    """
    frost = span.values(days, list(days.frost))
    bloom = span.values(days, list(plant.in_bloom))
    full = span.values(days, list(plant.in_full_bloom))
    picking = span.values(days, list(plant.picking))
    marked = {span.cell(day) for day in marks if day is not None}
    cells: list[Cell] = []
    for n in range(span.cells):
        ground = _ground(span, n, frost[n])
        if bloom[n] >= LEAST:
            cells.append((hill(bloom[n]), ("f_full" if full[n] >= FULL else "f_bloom") + ground))
        elif picking[n] >= LEAST:
            cells.append((hill(picking[n]), "f_well" + ground))
        elif n in marked:
            cells.append(("┊", _hidden(ground)))
        else:
            cells.append((" ", ground.strip() and f"ink{ground}"))
    when, tone = next_day(plant, span.today)
    said = phrases.day(when) if when else ""
    name = Piece(fit(piece(plant.plant).text, NAME - 1) + " ")
    return Row((name, *_with_today(cells, span), Piece(fit(said, DAY, True), tone)))


def together_row(group: BloomGroup, span: Span) -> Row:
    """Under a group: the days on which two that suit each other are open, or that no pair is."""
    name = Piece(fit("  together", NAME), "dim")
    if group.first is None or group.last is None or round(group.days) < 1:
        words = [(span.cell(span.today) + 2, "no pair this spring", "amber")]
        return Row((name, *pieces(placed(words, span.cells))))
    first, last = max(0, span.cell(group.first)), min(span.cells - 1, span.cell(group.last))
    if last < first:
        return Row((name,))
    brace = "└" + "─" * (last - first - 1) + "┘" if last > first else "┴"
    words = [(first, brace, "well"), (last + 2, phrases.count(round(group.days), "day"), "dim")]
    return Row((name, *pieces(placed(words, span.cells))))


def next_day(plant: PlantDays, on: dt.date) -> tuple[dt.date | None, str]:
    """The day of full bloom while it is to come, then that of the first picking, and its tone."""
    full, ripe = plant.full.likely, plant.ripe.likely if plant.ripe else None
    if full is not None and (full >= on or ripe is None):
        return full, "bloom" if full >= on else "dim"
    return ripe, "well"


def is_shown(plant: PlantDays, days: SeasonDays, span: Span) -> bool:
    """Whether anything of a plant is still to be seen on the strip."""
    seen = [
        *zip(span.values(days, list(plant.in_bloom)), span.values(days, list(plant.picking)), strict=True)
    ]
    return any(max(both) >= LEAST for n, both in enumerate(seen) if not span.past(n))


def rows_of(
    days: SeasonDays, span: Span, make: Callable[[PlantDays, Row], Row], marks: Sequence[dt.date | None]
) -> list[Row]:
    """The rows of all plants that are shown, those that serve each other together, what comes first on top.

    Parameters
    ----------
    days : SeasonDays
    span : Span
    make : callable
        Gives a row its key and what it tells.
    marks : sequence of date or None
    """
    shown = {plant.plant: plant for plant in days.plants if is_shown(plant, days, span)}
    blocks: list[tuple[tuple[bool, dt.date], list[Row]]] = []
    grouped: set[str] = set()
    for group in days.groups:
        members = [shown[name] for name in group.plants if name in shown and _blooms(shown[name], days, span)]
        if len(members) < 2:
            continue
        grouped |= {plant.plant for plant in members}
        rows = [make(plant, plant_row(plant, days, span, marks)) for plant in members]
        blocks.append((_first(members, span.today), [*rows, together_row(group, span)]))
    for plant in shown.values():
        if plant.plant not in grouped:
            row = make(plant, plant_row(plant, days, span, marks))
            blocks.append((_first([plant], span.today), [row]))
    return [row for _, rows in sorted(blocks, key=lambda block: block[0]) for row in rows]


def _blooms(plant: PlantDays, days: SeasonDays, span: Span) -> bool:
    bloom = span.values(days, list(plant.in_bloom))
    return any(chance >= LEAST for n, chance in enumerate(bloom) if not span.past(n))


def _first(plants: Sequence[PlantDays], on: dt.date) -> tuple[bool, dt.date]:
    """What is still to come stands before what is past its best, each by its day."""
    days = [next_day(plant, on)[0] or dt.date.max for plant in plants]
    to_come = [day for day in days if day >= on]
    return not to_come, min(to_come or days)


def _ground(span: Span, cell: int, frost: float) -> str:
    """The ground of a cell as the end of a tone: frost in three steps, else every second week, else none."""
    if not span.past(cell):
        for least, ground in GROUNDS:
            if frost >= least:
                return f" on {ground}"
    if span.days_a_cell == 1 and (cell // WEEK) % 2:
        return " on week"
    return ""


def _hidden(ground: str) -> str:
    """A tone that is seen only where there is no colour."""
    token = ground.removeprefix(" on ") or "ground"
    return f"{token} on {token}"


def _with_today(cells: list[Cell], span: Span) -> tuple[Piece, ...]:
    """The line of today in the cell before today's; it never stands in place of a hill."""
    before = span.cell(span.today) - 1
    if 0 <= before < len(cells) and cells[before][0] in " ┊":
        cells[before] = ("│", "accent")
    return pieces(cells)
