"""The weeks of a season as one character each."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from leafturn.answers.frost import Frost
from leafturn.base.day_words import SHORT_MONTHS
from leafturn.bloom.model import SeasonEvent
from leafturn.season.axis import SeasonAxis

SPANS = (
    ("ripe", "picked over", "h"),
    ("ready to pick", "picked over", "h"),
    ("first open", "petal fall", "b"),
)
WEEKS_BEFORE = 6


@dataclass(frozen=True)
class Weeks:
    """So many weeks from a first day on."""

    first: dt.date
    count: int

    @classmethod
    def of_season(cls, on: dt.date, southern: bool, room: int) -> Weeks:
        """The season's year where there is room for it, else the part round `on`."""
        axis = SeasonAxis.holding(on, southern)
        start = axis.start
        count = max(1, min(53, room))
        if count < 53:
            passed = max(0, (on - start).days // 7 - WEEKS_BEFORE)
            start += dt.timedelta(weeks=min(passed, 53 - count))
        return cls(start, count)

    def week(self, day: dt.date) -> int:
        """Number of the week that holds a day; may lie outside."""
        return (day - self.first).days // 7

    def months(self) -> str:
        """Month names, each above its first whole week."""
        line = [" "] * (self.count + 3)
        day = self.first.replace(day=1)
        while self.week(day) < self.count:
            at = -(-(day - self.first).days // 7)
            if 0 <= at < self.count - 2 and all(c == " " for c in line[max(at - 1, 0) : at + 3]):
                line[at : at + 3] = SHORT_MONTHS[day.month - 1]
            day = (day + dt.timedelta(days=31)).replace(day=1)
        return "".join(line[: self.count])

    def marker(self, on: dt.date) -> str:
        """A mark at the week of a day."""
        at = self.week(on)
        return " " * at + "|" if 0 <= at < self.count else ""

    def frost(self, frost: Frost) -> str:
        """Where frost is likely (=) and possible (-)."""
        line = [" "] * self.count
        start, end = self.first, self.first + dt.timedelta(weeks=self.count)
        last, first = frost.last, frost.first
        until = last.late or last.likely
        self.fill(line, "-", until and start, until)
        self.fill(line, "=", last.likely and start, last.likely)
        self.fill(line, "-", first.early, end)
        self.fill(line, "=", first.likely, end)
        return "".join(line)

    def fill(self, line: list[str], mark: str, early: dt.date | None, late: dt.date | None) -> None:
        """Set a mark in every week from one day to another; nothing where either is None."""
        if early is None or late is None:
            return
        for week in range(max(0, self.week(early)), min(self.count - 1, self.week(late)) + 1):
            line[week] = mark


def week_marks(weeks: Weeks, events: Sequence[SeasonEvent]) -> str:
    """One plant's flowering and picking along the weeks."""
    by_event = {e.event: e for e in events}
    line = [" "] * weeks.count
    for begins, ends, mark in SPANS:
        start = by_event.get(begins)
        if start is None:
            continue
        end = by_event.get(ends, start)
        weeks.fill(line, ".", start.observed or start.when.early, end.observed or end.when.late)
        weeks.fill(line, mark, start.observed or start.when.likely, end.observed or end.when.likely)
    full = by_event.get("full bloom")
    if full is not None:
        weeks.fill(line, "B", full.observed or full.when.likely, full.observed or full.when.likely)
    return "".join(line)
