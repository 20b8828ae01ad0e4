"""What can be noted, as frozen values."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Any, Literal

from msgspec import Meta, Struct

from leafturn.journal.job_id import JobId

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


class Entry(Struct, frozen=True, kw_only=True, tag_field="what"):
    """One note.

    `id` is "YYYY-MM-DD.n" and never given twice. `on` is the day the thing happened, which may be
    before the day it was written. `tasks` holds the ids of the jobs that one entry is about, `to` whom they
    are given to, `entry` the
    id of the one that a withdrawal takes back, `sheet` the number of a week sheet. `file` and `line` say
    where it stands; they are not written.
    """

    id: str = ""
    on: dt.date
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
    besides: tuple[tuple[str, Any], ...] = ()
    file: str = ""
    line: int = 0

    @property
    def what(self) -> str:
        """The kind of note, as it stands in the files."""
        return str(self.__struct_config__.tag)

    @property
    def closes(self) -> tuple[str, ...]:
        """Ids of the jobs this entry is about."""
        return (self.task, *self.tasks) if self.task else self.tasks

    @property
    def jobs(self) -> tuple[JobId, ...]:
        """The same, taken apart."""
        return tuple(JobId.read(text) for text in self.closes)


class Done(Entry, frozen=True, kw_only=True, tag="done"):
    """A job, or several, done."""


class LetGo(Entry, frozen=True, kw_only=True, tag="let-go"):
    """A job left undone for this time."""


class PutOff(Entry, frozen=True, kw_only=True, tag="put-off"):
    """A job left until a day."""


class Given(Entry, frozen=True, kw_only=True, tag="given"):
    """Whom a job is to fall to."""


class HoldLifted(Entry, frozen=True, kw_only=True, tag="hold-lifted"):
    """A job may be done though there is a reason to wait."""


class BloomNote(Entry, frozen=True, kw_only=True, tag="bloom"):
    """A stage of flowers or leaves, seen."""


class HarvestNote(Entry, frozen=True, kw_only=True, tag="harvest"):
    """Something picked."""


class FruitSetNote(Entry, frozen=True, kw_only=True, tag="set"):
    """How many fruits a plant set."""


class WeatherNote(Entry, frozen=True, kw_only=True, tag="weather"):
    """Weather of a day, measured in the garden."""


class ColdNightNote(Entry, frozen=True, kw_only=True, tag="cold"):
    """A cold night foretold, and taken as such."""


class HeapReading(Entry, frozen=True, kw_only=True, tag="reading"):
    """The warmth inside a heap."""


class CrownNote(Entry, frozen=True, kw_only=True, tag="crown"):
    """A look at a crown: how much of it lives."""


class LookNote(Entry, frozen=True, kw_only=True, tag="look"):
    """A look at a plant, in words."""


class DamageNote(Entry, frozen=True, kw_only=True, tag="damage"):
    """A plant harmed."""


class LossNote(Entry, frozen=True, kw_only=True, tag="loss"):
    """A plant lost."""


class PlantedNote(Entry, frozen=True, kw_only=True, tag="planted"):
    """A plant put into the ground."""


class MovedNote(Entry, frozen=True, kw_only=True, tag="moved"):
    """A plant moved to another spot."""


class JudgedNote(Entry, frozen=True, kw_only=True, tag="judged"):
    """A plant judged, in words."""


class AnsweredNote(Entry, frozen=True, kw_only=True, tag="answered"):
    """What was decided about a tree without a partner."""


class PlainNote(Entry, frozen=True, kw_only=True, tag="note"):
    """Anything else, in its own words."""


class SheetNote(Entry, frozen=True, kw_only=True, tag="sheet"):
    """A week sheet written, with the jobs of its lines in their order."""


class Withdrawal(Entry, frozen=True, kw_only=True, tag="withdraw"):
    """Another note taken back."""


KINDS: dict[str, type[Entry]] = {
    str(kind.__struct_config__.tag): kind
    for kind in (
        Done, LetGo, PutOff, BloomNote, HarvestNote, FruitSetNote, WeatherNote, HeapReading, CrownNote,
        LookNote, DamageNote, LossNote, PlantedNote, MovedNote, JudgedNote, AnsweredNote, Given, HoldLifted,
        ColdNightNote, PlainNote, SheetNote, Withdrawal,
    )
}  # fmt: skip
"""The kinds of note by their word `what`, in the order in which they are told to a person."""

WORDS = (
    "id", "on", "what", "plant", "heap", "task", "tasks", "stage", "bbch", "kg", "amount", "set", "tmin_c",
    "tmax_c", "rain_mm", "temp_c", "live_percent", "wind", "cause", "answer", "until", "by", "to", "minutes",
    "text", "entry", "sheet",
)  # fmt: skip
"""The words of all kinds of note, in the order in which they are written."""
