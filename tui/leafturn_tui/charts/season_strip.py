"""The season as a strip: a row a plant, bloom and picking as hills, the chance of frost as the ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from leafturn.answers.season_days import BloomGroup, PlantDays, SeasonDays
from leafturn.base.arrays import FloatArray
from leafturn.base.date_range import Likely
from leafturn.base.day_words import SHORT_MONTHS
from leafturn.base.value import Value
from leafturn_tui.charts.heights import LEAST, Cell, hill, lay, pieces, placed, slope
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import LEAST_NAME, Piece, Row, fit, name_cells, piece

DAY = 7  # a blank and "30 May"
DAYS = 56
MARK_ASIDE = 1  # cells that a row without a bar stands nearer to the left
WEEK = 7
GROUNDS = ((0.5, "frost3"), (0.2, "frost2"), (0.05, "frost1"))
FULL = 0.5  # share of draws in full bloom from which a day is drawn as such


class Span(Value, kw_only=False):
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

    def values(self, first: dt.date, of: FloatArray) -> list[float]:
        """The highest of each cell's days, of which the first is given; 0 where there are none."""
        days, start = np.zeros(self.cells * self.days_a_cell), (self.first - first).days
        within = of[max(start, 0) : max(start + len(days), 0)]
        days[max(-start, 0) :][: len(within)] = within
        highest: list[float] = days.reshape(self.cells, self.days_a_cell).max(axis=1).tolist()
        return highest


def head_row(span: Span, name: int = LEAST_NAME) -> Row:
    """The dates of Mondays over their cells, months by name, and today, beside names of so many cells."""
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
            words.append((cell, SHORT_MONTHS[day.month - 1], "dim"))
            month = day.month
    return Row(
        (Piece(fit("", name)), *pieces(placed(words, span.cells)), Piece(fit("day", DAY, True), "dim"))
    )


class PlantChances(NamedTuple):
    """One plant on a strip: chances of bloom, of full bloom and of picking, a value a cell."""

    plant: PlantDays
    bloom: list[float]
    full: list[float]
    picking: list[float]


class Strip:
    """A season drawn on a span of days.

    Parameters
    ----------
    days : SeasonDays
    span : Span
    marks : sequence of date or None
        Days of frost that are marked where there is no colour.
    name : int [cells]
        Of a plant's name and a blank.
    """

    def __init__(
        self,
        days: SeasonDays,
        span: Span,
        marks: Sequence[dt.date | None] = (),
        name: int = LEAST_NAME,
    ) -> None:
        self._name = name
        self._days, self._span = days, span
        self._marked = {span.cell(day) for day in marks if day is not None}
        self._frost = span.values(days.first, days.frost)
        self._grounds = [_ground(span, n, chance) for n, chance in enumerate(self._frost)]
        self._to_come = [not span.past(n) for n in range(span.cells)]

    @classmethod
    def across(cls, days: SeasonDays, frost: Likely, on: dt.date, columns: int, *, whole: bool) -> Strip:
        """The season over so many columns, a week or a day a cell, with the names of its plants beside it.

        Parameters
        ----------
        days : SeasonDays
        frost : Likely
            The next one.
        on : date
        columns : int [cells]
        whole : bool
            Whether all of the season is wanted, or some eight weeks.
        """
        name = name_cells((plant.plant for plant in days.plants), columns)
        room = columns - name - DAY
        span = Span.of_year(days.first, len(days.frost), on, room) if whole else Span.of_weeks(on, room)
        return cls(days, span, (frost.likely, frost.late), name)

    def heads(self, frost: Likely) -> list[Row]:
        """The dates over the strip, and the frost under them."""
        return [
            head_row(self._span, self._name),
            self.frost_row(phrases.day(frost.likely) if frost.likely else ""),
        ]

    def frost_row(self, last: str) -> Row:
        """The chance of frost as a slope, with the likely day of the next one at the right."""
        cells = [
            (slope(chance) if to_come else " ", f"f_cold{ground}")
            for chance, to_come, ground in zip(self._frost, self._to_come, self._grounds, strict=True)
        ]
        name, day = Piece(fit("frost", self._name), "cold"), Piece(fit(last, DAY, True), "cold")
        return Row((name, *_with_today(cells, self._span), day), key="frost")

    def chances_of(self, plant: PlantDays) -> PlantChances:
        """A plant by the cells of the strip."""
        first, values = self._days.first, self._span.values
        return PlantChances(
            plant,
            values(first, plant.in_bloom),
            values(first, plant.in_full_bloom),
            values(first, plant.picking),
        )

    def plant_row(self, chances: PlantChances) -> Row:
        """One plant's hills of bloom and picking over the frost, and the day of what is next."""
        cells: list[Cell] = []
        for n, ground in enumerate(self._grounds):
            if chances.bloom[n] >= LEAST:
                cells.append(
                    (hill(chances.bloom[n]), ("f_full" if chances.full[n] >= FULL else "f_bloom") + ground)
                )
            elif chances.picking[n] >= LEAST:
                cells.append((hill(chances.picking[n]), "f_well" + ground))
            elif n in self._marked:
                cells.append(("┊", _hidden(ground)))
            else:
                cells.append((" ", ground.strip() and f"ink{ground}"))
        when, day_tone = next_day(chances.plant, self._span.today)
        name = Piece(fit(piece(chances.plant.plant).text, self._name - 1) + " ")
        day = Piece(fit(phrases.day(when) if when else "", DAY, True), day_tone)
        return Row((name, *_with_today(cells, self._span), day))

    def rows(self, make: Callable[[PlantDays, Row], Row]) -> list[Row]:
        """The rows of all plants of which anything is still to be seen, what comes first on top.

        Those that serve each other stand together. `make` gives a row its key and what it tells.
        """
        span = self._span
        found = map(self.chances_of, self._days.plants)
        shown = {s.plant.plant: s for s in found if self._comes(s.bloom) or self._comes(s.picking)}
        blocks: list[tuple[tuple[bool, dt.date], list[Row]]] = []
        grouped: set[str] = set()
        for group in self._days.groups:
            members = [
                shown[name] for name in group.plants if name in shown and self._comes(shown[name].bloom)
            ]
            if len(members) < 2:
                continue
            grouped |= {chances.plant.plant for chances in members}
            rows = [make(chances.plant, self.plant_row(chances)) for chances in members]
            first = _first([chances.plant for chances in members], span.today)
            blocks.append((first, [*rows, self._together(group)]))
        for name, chances in shown.items():
            if name not in grouped:
                row = make(chances.plant, self.plant_row(chances))
                blocks.append((_first([chances.plant], span.today), [row]))
        return [row for _, rows in sorted(blocks, key=lambda block: block[0]) for row in rows]

    def _together(self, group: BloomGroup) -> Row:
        """Under a group: the days on which two that suit each other are open, or that no pair is."""
        span = self._span
        cells: list[Cell] = [(" ", ground.strip() and f"ink{ground}") for ground in self._grounds]
        for at, text, tone in _together_words(group, span):
            lay(cells, at, text[: max(0, span.cells - at)], tone)
        name = Piece(fit("  together", self._name + MARK_ASIDE), "dim")
        return Row((name, *_with_today(cells, span)))

    def _comes(self, chances: Sequence[float]) -> bool:
        """Whether any chance from today on is worth a sign."""
        return any(c >= LEAST for c, to_come in zip(chances, self._to_come, strict=True) if to_come)


def _together_words(group: BloomGroup, span: Span) -> list[tuple[int, str, str]]:
    """What stands under a group, each with its cell and its tone."""
    ahead = max(0, span.cell(span.today)) + 2
    if round(group.days) < 1:
        return [(ahead, "no pair this spring", "amber")]
    if group.first is None or group.last is None:
        return [(ahead, f"~{phrases.count(round(group.days), 'day')}, not known when", "dim")]
    first, last = max(0, span.cell(group.first)), min(span.cells - 1, span.cell(group.last))
    if last < first:
        return []
    brace = "└" + "─" * (last - first - 1) + "┘" if last > first else "┴"
    return [(first, brace, "well"), (last + 2, phrases.count(round(group.days), "day"), "dim")]


def next_day(plant: PlantDays, on: dt.date) -> tuple[dt.date | None, str]:
    """The day of full bloom while it is to come, then that of the first picking, and its tone."""
    full, ripe = plant.full.likely, plant.ripe.likely if plant.ripe else None
    if full is not None and (full >= on or ripe is None):
        return full, "bloom" if full >= on else "dim"
    return ripe, "well"


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
