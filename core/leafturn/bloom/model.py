"""What a plant will do this season, as frozen values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Literal

from msgspec import field

from leafturn.base.arrays import FloatArray
from leafturn.base.bloom_stages import COURSE, Stage
from leafturn.base.date_range import Likely
from leafturn.base.evidence import Basis
from leafturn.base.value import Value
from leafturn.bloom.priors.response import Timing
from leafturn.bloom.warmth import Warmth


class Requirement(Value, eq=False):
    """What warmth a plant takes to open: as published, as notes of the garden moved it, and as used.

    Parameters
    ----------
    timing : Response or ShortDays
        How its warmth is counted.
    origin : str
        "fitted" to open records of the kind, or "stated" from a book.
    published, used, before_spring : float
        Logarithms of warmth; the last as it was before this spring's notes.
    own : float or None
        Mean level of the plant's own notes; None without any.
    place, kind_adds : float
        What the place adds, learnt from notes of all kinds, and what notes of its kind add to that.
    late_days : float [d]
        How much later than its kind the cultivar opens.
    by_dates : float
        Share of the answer that rests on its own dates by themselves, 0 to 1.
    degrees_outside : float [degC]
        How far the winters here lie outside those it was learnt in.
    """

    timing: Timing
    origin: Literal["fitted", "stated"]
    published: float
    used: float
    before_spring: float
    own: float | None = None
    place: float = 0.0
    kind_adds: float = 0.0
    late_days: float = 0.0
    by_dates: float = 0.0
    degrees_outside: float = 0.0

    def usual_day(self, level: float, usual: Warmth) -> float:
        """Day number on which it opens in the middle usual year if it takes such a level; inf: never."""
        return usual.median_day(self.timing, level) + self.late_days


Picking = tuple[FloatArray, FloatArray]
"""First ripe and end of picking of one plant, each (draws,) [day number]."""


class BloomForecast(Value, eq=False):
    """Flowering, leaves and picking of one plant, one value a draw.

    Parameters
    ----------
    plant : str
        The plant's id.
    first_open, full, end : (draws,) [day number of the season's axis]
        BBCH 61, 65 and 69; inf where it does not happen. Draw i of every plant belongs to the same
        version of the year, so plants may be compared draw by draw.
    picking : callable
        Gives `ripe` and `picked`, of all plants together when first asked; None for kinds nobody picks.
    ripens : bool
        Whether what is picked is a fruit or a nut; of leaves and roots `ripe` is when they can be picked.
    observed : mapping of stage to date
        What was noted this season.
    own_notes : int
        Earlier springs noted of the plant itself.
    kin_notes : int
        Earlier springs noted of other plants of its kind here.
    need : Requirement or None
        What warmth it takes; None where only notes tell.
    moved_days : float [d]
        How far this spring's notes of other plants have moved it (negative: earlier).
    chill_short : float or None
        Share of ensemble members that fall short of the chill it wants; None if none is stated.
    ripens_as_kind : bool
        Whether it ripens by its kind's days alone, though cultivars of the kind lie apart.
    questioned : tuple of str
        Own notes that lie far from the others, one sentence each; they count for little.
    told : bool
        Whether anything can be said of when it opens; if not, its days are inf and mean nothing.
    """

    plant: str
    first_open: FloatArray
    full: FloatArray
    end: FloatArray
    picking: Callable[[], Picking | None] = lambda: None
    ripens: bool = True
    observed: Mapping[str, dt.date] = field(default_factory=dict)
    basis: Basis = "handbook"
    own_notes: int = 0
    kin_notes: int = 0
    need: Requirement | None = None
    moved_days: float = 0.0
    chill_short: float | None = None
    ripens_as_kind: bool = False
    questioned: tuple[str, ...] = ()
    told: bool = True

    @property
    def ripe(self) -> FloatArray | None:
        """First ripe fruit (BBCH 87), (draws,) [day number]; None for kinds nobody picks."""
        picking = self.picking()
        return None if picking is None else picking[0]

    @property
    def picked(self) -> FloatArray | None:
        """End of picking, (draws,) [day number]; None for kinds nobody picks."""
        picking = self.picking()
        return None if picking is None else picking[1]

    def course(self) -> Iterator[tuple[Stage, FloatArray]]:
        """Every stage that is foreseen with its days, (draws,) [day number], in order."""
        for stage in COURSE:
            if (days := self.days(stage)) is not None:
                yield stage, days

    def days(self, stage: Stage) -> FloatArray | None:
        """Days of one stage, (draws,) [day number]; None of harvest where nobody picks."""
        days: FloatArray | None = getattr(self, stage.field)
        return days

    @property
    def ready(self) -> str:
        """What it is called when it can be picked: "ripe" or "ready to pick"."""
        return "ripe" if self.ripens else "ready to pick"


class SecondCount(Value):
    """When a plant would open by plain degree-days.

    Parameters
    ----------
    by_sine, by_four_cases : date
        The day on which this season has had as many degree-days above 5 degC since its start as a usual one
        by the plant's usual day: by a sine through each day, and by the four cases of met services.
    days : int
        Of the two the one further from the forecast, less the forecast [d].
    says : str
        Both in one sentence; empty where they lie within a few days of the forecast.
    """

    by_sine: dt.date
    by_four_cases: dt.date
    days: int
    says: str


class SeasonEvent(Value):
    """One line of the season: a plant, what happens, and when.

    `second` is the second opinion on a first flower still to come.
    """

    plant: str
    event: str
    bbch: int | None
    when: Likely
    observed: dt.date | None
    basis: Basis
    days_from_normal: int | None
    second: SecondCount | None = None


class LikelyStage(Value):
    """A plant that may have just reached a stage, for the list one picks a note from.

    `chance` is the chance that the stage was reached by the date of the almanac and not long before.
    """

    plant: str
    stage: str
    when: Likely
    chance: float
    words: str


class Outlook(Value, eq=False):
    """A season's forecasts, and what the notes behind them turned out to be worth.

    Parameters
    ----------
    blooms : mapping of plant id to BloomForecast
        As they are told: plants of which just the same is known have the same days.
    told_as : mapping of plant id to plant id
        The first plant that is told alike, by each that lives.
    apart : callable
        Gives the blooms as plants meet in one version of the year, where each goes its own way by chance.
    leaves : mapping of plant id to (draws,) [day number]
        Leaf-out of plants that shed their leaves.
    place_days : (float, float) [d]
        By how much all things open later here than published, and its standard deviation.
    unused : tuple of str
        One sentence for each note that moved nothing.
    beyond : tuple of str
        What is to be said of kinds that are forecast outside what they were learnt in.
    of_lost : mapping of plant id to int
        How many springs are noted of plants that are dead: they teach still.
    """

    blooms: dict[str, BloomForecast]
    leaves: dict[str, FloatArray]
    told_as: Mapping[str, str]
    apart: Callable[[], dict[str, BloomForecast]]
    place_days: tuple[float, float] = (0.0, 0.0)
    unused: tuple[str, ...] = ()
    beyond: tuple[str, ...] = ()
    of_lost: Mapping[str, int] = MappingProxyType({})
