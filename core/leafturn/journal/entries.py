"""What can be noted, as frozen values."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from msgspec import Meta, Struct

What = Literal[
    "done", "let-go", "put-off", "bloom", "harvest", "set", "weather", "reading", "crown", "look",
    "damage", "loss", "planted", "moved", "judged", "answered", "given", "hold-lifted", "cold", "note",
    "sheet", "withdraw",
]  # fmt: skip

Stage = Literal["first open", "full bloom", "petal fall", "none this year", "bud break", "leaf fall"]

# BBCH codes of the noted stages. Meier (ed.) 2018, Growth stages of mono- and dicotyledonous plants, JKI.
BBCH: dict[str, int] = {
    "bud break": 7, "first open": 61, "full bloom": 65, "petal fall": 69, "leaf fall": 93,
}  # fmt: skip

# Air: between the lowest and highest ever measured, -89.2 and 56.7 degC (WMO Archive of Weather and Climate
# Extremes; from memory). Rain: above the wettest day measured, 1,825 mm (same). The other limits are guesses
# that only catch slips of the hand.
AirCelsius = Annotated[float, Meta(ge=-90, le=60)]
RainMillimetres = Annotated[float, Meta(ge=0, le=2_000)]
HeapCelsius = Annotated[float, Meta(ge=-40, le=100)]
Percent = Annotated[float, Meta(ge=0, le=100)]
Kilograms = Annotated[float, Meta(ge=0, le=100_000)]
Minutes = Annotated[float, Meta(ge=0, le=100_000)]
StageNumber = Annotated[int, Meta(ge=0, le=99)]


class Entry(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One note.

    `id` is "YYYY-MM-DD.n" and never given twice. `on` is the day the thing happened, which may be
    before the day it was written. `tasks` holds the ids of the jobs that one entry is about, `to` whom they
    are given to, `entry` the
    id of the one that a withdrawal takes back, `sheet` the number of a week sheet. `file` and `line` say
    where it stands; they are not written.
    """

    id: str = ""
    on: dt.date
    what: What
    plant: str | None = None
    heap: str | None = None
    task: str | None = None
    tasks: tuple[str, ...] = ()
    stage: Stage | None = None
    bbch: StageNumber | None = None
    kg: Kilograms | None = None
    amount: str | None = None
    set: Literal["none", "poor", "fair", "good"] | None = None
    tmin_c: AirCelsius | None = None
    tmax_c: AirCelsius | None = None
    rain_mm: RainMillimetres | None = None
    temp_c: HeapCelsius | None = None
    live_percent: Percent | None = None
    wind: bool | None = None
    cause: str | None = None
    answer: str | None = None
    until: dt.date | None = None
    by: str | None = None
    to: str | None = None
    minutes: Minutes | None = None
    text: str | None = None
    entry: str | None = None
    sheet: str | None = None
    file: str = ""
    line: int = 0

    @property
    def closes(self) -> tuple[str, ...]:
        """Ids of the jobs this entry is about."""
        return (self.task, *self.tasks) if self.task else self.tasks
