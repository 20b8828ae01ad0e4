"""What can be noted: one frozen class a kind of note, told apart in the files by the word `what`."""

import datetime as dt
import re
from typing import Annotated, Any

from msgspec import Meta, Struct

from leafturn.base.bloom_stages import StageName
from leafturn.base.bounds import COLDEST_AIR_C, HOTTEST_AIR_C
from leafturn.base.closed_words import JUDGEMENTS, FruitSet, Judgement
from leafturn.journal.job_id import JobId

# Rain: above the wettest day measured, 1,825 mm (WMO Archive of Weather and Climate Extremes; from memory).
# The limits below it are guesses that only catch slips of the hand.
AirCelsius = Annotated[float, Meta(ge=COLDEST_AIR_C, le=HOTTEST_AIR_C)]
RainMillimetres = Annotated[float, Meta(ge=0, le=2_000)]
HeapCelsius = Annotated[float, Meta(ge=-40, le=100)]
Percent = Annotated[float, Meta(ge=0, le=100)]
Kilograms = Annotated[float, Meta(ge=0, le=100_000)]
Minutes = Annotated[float, Meta(ge=0, le=100_000)]
StageNumber = Annotated[int, Meta(ge=0, le=99)]


class Entry(Struct, frozen=True, kw_only=True, gc=False, tag_field="what"):
    """What every kind of note may say.

    `id` is "YYYY-MM-DD.n.xxxx", with letters drawn at random, and never given twice. `on` is the day the
    thing happened, which may be before the day it was written; `plant` or `heap` is what it is about, `by`
    who noted it. `besides` holds words that only other kinds of note have, as a hand may write them: they
    are kept, and count for nothing.
    `file` and `line` say where the note stands, `sum` is the check sum written with it; none is a word of
    the note.
    """

    id: str = ""
    on: dt.date
    plant: str | None = None
    heap: str | None = None
    by: str | None = None
    minutes: Minutes | None = None
    text: str | None = None
    besides: tuple[tuple[str, Any], ...] = ()
    file: str = ""
    line: int = 0
    sum: str = ""

    @property
    def what(self) -> str:
        """The kind of note, as it stands in the files."""
        return str(self.__struct_config__.tag)

    @property
    def closes(self) -> tuple[str, ...]:
        """Ids of the jobs the note is about."""
        return ()

    @property
    def jobs(self) -> tuple[JobId, ...]:
        """The same, taken apart."""
        return tuple(JobId.read(text) for text in self.closes)


class OfJobs(Entry, frozen=True, kw_only=True):
    """What notes of one job (`task`) or several (`tasks`) have in common; no kind by itself."""

    task: str | None = None
    tasks: tuple[str, ...] = ()

    @property
    def closes(self) -> tuple[str, ...]:
        """Ids of the jobs the note is about."""
        return (self.task, *self.tasks) if self.task else self.tasks


class Done(OfJobs, frozen=True, kw_only=True, tag="done"):
    """A job, or several, done. `amount` tells litres of a watering, `temp_c` a heap's warmth when turned."""

    amount: str | None = None
    temp_c: HeapCelsius | None = None


class LetGo(OfJobs, frozen=True, kw_only=True, tag="let-go"):
    """A job left undone for this time."""


class PutOff(OfJobs, frozen=True, kw_only=True, tag="put-off"):
    """A job left until a day."""

    until: dt.date


class Given(OfJobs, frozen=True, kw_only=True, tag="given"):
    """Whom a job is to fall to."""

    to: str


class HoldLifted(OfJobs, frozen=True, kw_only=True, tag="hold-lifted"):
    """A job may be done though there is a reason to wait: who says so, and when the hold would have ended."""

    by: str
    until: dt.date | None = None


class BloomNote(Entry, frozen=True, kw_only=True, tag="bloom"):
    """A stage of flowers or leaves that was seen: in words, as a BBCH number, or both."""

    plant: str
    stage: StageName | None = None
    bbch: StageNumber | None = None


class HarvestNote(Entry, frozen=True, kw_only=True, tag="harvest"):
    """Something picked: kilograms, or an amount in words."""

    kg: Kilograms | None = None
    amount: str | None = None


class FruitSetNote(Entry, frozen=True, kw_only=True, tag="set"):
    """How many fruits a plant set, and what is thought to have been the cause."""

    plant: str
    set: FruitSet
    cause: str | None = None


class WeatherNote(Entry, frozen=True, kw_only=True, tag="weather"):
    """Weather of a day, measured in the garden."""

    tmin_c: AirCelsius | None = None
    tmax_c: AirCelsius | None = None
    rain_mm: RainMillimetres | None = None
    wind: bool | None = None
    snow: bool | None = None


class ColdNightNote(Entry, frozen=True, kw_only=True, tag="cold"):
    """The minimum foreseen for a night."""

    tmin_c: AirCelsius | None = None


class HeapReading(Entry, frozen=True, kw_only=True, tag="reading"):
    """The warmth inside a heap."""

    heap: str
    temp_c: HeapCelsius


class CrownNote(Entry, frozen=True, kw_only=True, tag="crown"):
    """A look at a crown: how much of it lives."""

    plant: str
    live_percent: Percent


class LookNote(Entry, frozen=True, kw_only=True, tag="look"):
    """A look at a plant, in words."""


class DamageNote(Entry, frozen=True, kw_only=True, tag="damage"):
    """A plant harmed, by what, and whether by wind."""

    cause: str | None = None
    wind: bool | None = None


class LossNote(Entry, frozen=True, kw_only=True, tag="loss"):
    """A plant lost, and to what."""

    cause: str | None = None


class PlantedNote(Entry, frozen=True, kw_only=True, tag="planted"):
    """A plant put into the ground."""


class MovedNote(Entry, frozen=True, kw_only=True, tag="moved"):
    """A plant moved to another spot."""


class JudgedNote(Entry, frozen=True, kw_only=True, tag="judged"):
    """A plant judged: `plan` is what is to become of it, from that day its plan.

    Where a hand wrote only `text`, its first word is the plan if it is one: "keep, it fruits well".
    """

    plan: Judgement | None = None

    @property
    def judgement(self) -> Judgement | None:
        """What it was judged to be; None where neither the plan nor the first word of the text says so."""
        first = re.match(r"\w*", (self.text or "").strip().lower())
        word = first[0] if first else ""
        return self.plan or next((known for known in JUDGEMENTS if known == word), None)


class AnsweredNote(Entry, frozen=True, kw_only=True, tag="answered"):
    """What was decided about a tree without a partner, and the day it is asked again."""

    answer: str | None = None
    until: dt.date | None = None


class PlainNote(Entry, frozen=True, kw_only=True, tag="note"):
    """Anything else, in its own words."""


class SheetNote(OfJobs, frozen=True, kw_only=True, tag="sheet"):
    """A week sheet written: its number, and the jobs of its lines in their order."""

    sheet: str


class Withdrawal(Entry, frozen=True, kw_only=True, tag="withdraw"):
    """Another note taken back: `entry` is its id, `was` what it said, `mark` a check sum of that.

    The mark tells the note from another of the same id, as two copies of a journal may come to hold.
    """

    entry: str
    was: str | None = None
    mark: str | None = None


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
    "tmax_c", "rain_mm", "temp_c", "live_percent", "wind", "snow", "cause", "plan", "answer", "until", "by",
    "to", "minutes", "text", "entry", "was", "mark", "sheet",
)  # fmt: skip
"""The words of all kinds of note, in the order in which they are written."""
