"""What the almanac answers, as frozen values; the pages and commands show these and nothing else."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from leafturn.base.date_range import Likely
from leafturn.base.evidence import Basis
from leafturn.bloom.model import SeasonEvent
from leafturn.journal.entries import Entry


@dataclass(frozen=True, kw_only=True)
class Heat:
    """Degree-days above `base` [degC d] since the season's start, against this garden's usual year.

    `days_ahead` is None in the cold of the year, when heat tells nothing of it.
    """

    base: float
    to_date: float
    normal: float
    days_ahead: int | None


@dataclass(frozen=True, kw_only=True)
class Frost:
    """Last spring and first autumn night at or below `threshold` [degC] in the garden.

    `last_gone` is the share of the versions of this year in which the last frost is past. `station_last`
    and `station_first` are the same dates at the weather station, where the garden is a frost pocket.
    `last_years` and `first_years` are the shares of usual years that have such a night at all.
    """

    threshold: float
    last: Likely
    first: Likely
    last_gone: float
    station_last: Likely | None = None
    station_first: Likely | None = None
    last_years: float = 1.0
    first_years: float = 1.0


@dataclass(frozen=True, kw_only=True)
class FrostFree:
    """Days between the last frost of spring and the first of autumn.

    One year in ten has fewer than `short`, one in ten more than `long`.
    """

    short: int
    usual: int
    long: int


@dataclass(frozen=True, kw_only=True)
class FrostTrend:
    """How the last spring frost has moved [days a decade; below 0 it comes earlier], in numbers and words.

    `low` and `high` hold the trend in four cases of five; `years` of record since `since` were used.
    """

    days_per_decade: float
    low: float
    high: float
    since: int
    years: int
    words: str


@dataclass(frozen=True, kw_only=True)
class Heading:
    """The second line of every page."""

    place: str
    on: dt.date
    heat: Heat
    frost: Frost
    filled: str


@dataclass(frozen=True, kw_only=True)
class Season:
    """The whole season: events by date, heat, frost, and what was left out or filled.

    `frost` is that of 0 degC; `frosts` holds it and the harder ones.
    """

    events: tuple[SeasonEvent, ...]
    heat: Heat
    frost: Frost
    notes: tuple[str, ...] = ()
    frosts: tuple[Frost, ...] = ()
    frost_free: FrostFree | None = None
    frost_trend: FrostTrend | None = None


@dataclass(frozen=True, kw_only=True)
class FactLine:
    """One thing known of a plant: what, the value in words, how sure, and the source in words."""

    what: str
    value: str
    sure: str
    source: str


@dataclass(frozen=True, kw_only=True)
class ConflictLine:
    """A matter on which sources disagree: what each says, and what the program takes."""

    about: str
    readings: tuple[FactLine, ...]
    taken: str


@dataclass(frozen=True, kw_only=True)
class CultivarLine:
    """A cultivar with what it does otherwise than its kind."""

    name: str
    also_called: tuple[str, ...]
    facts: tuple[FactLine, ...]


@dataclass(frozen=True, kw_only=True)
class KindCard:
    """All that the library knows of one kind.

    `said` tells what was assumed of the name asked for, empty if nothing; `choices` the kinds it may
    mean. `crosses` are groups that fertilise it in part, `stages` BBCH codes with words, and `not_known`
    the matters of which nothing is known.
    """

    name: str
    botanical: str
    common: tuple[str, ...]
    synonyms: tuple[str, ...]
    serves_for: tuple[str, ...]
    family: str
    habit: str
    layer: str
    guessed: bool
    said: str
    choices: tuple[str, ...]
    cautions: tuple[str, ...]
    facts: tuple[FactLine, ...]
    not_known: tuple[str, ...]
    crosses: tuple[FactLine, ...]
    stages: tuple[tuple[str, str], ...]
    conflicts: tuple[ConflictLine, ...]
    cultivars: tuple[CultivarLine, ...]
    rootstocks: tuple[FactLine, ...]


@dataclass(frozen=True, kw_only=True)
class PlantCard:
    """A plant's own page."""

    id: str
    name: str
    kind: str
    botanical: str
    guessed: bool
    where: str
    metres_from_gate: float | None
    line: str
    facts: tuple[FactLine, ...] = ()
    conflicts: tuple[ConflictLine, ...] = ()
    events: tuple[SeasonEvent, ...] = ()
    jobs: tuple[str, ...] = ()
    notes: tuple[Entry, ...] = ()
    cautions: tuple[str, ...] = ()
    own_words: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class NeedLine:
    """When one plant opens in a usual spring here: as published, by own notes, and as used.

    Parameters
    ----------
    plant, kind : str
    published : date or None
        By the book or the open records alone; None where it never comes.
    place_days : float [d]
        By how much the notes of all kinds move everything that opens here; 0 without notes.
    own : date or None
        By the plant's own notes alone; None without any.
    used : date or None
    notes : int
        Earlier springs noted of the plant; 0 with `own` where the garden file states a usual date.
    kin_notes : int
        Earlier springs noted of others of its kind.
    origin : str
        "fitted" to open records, or "stated" from a book.
    by_dates : float
        Share of the answer that rests on its own dates by themselves.
    degrees_outside : float [degC]
        How far the winters here lie outside those that the kind was learnt in.
    doubted : tuple of str
        Notes that count for little, one sentence each.
    """

    plant: str
    kind: str
    published: dt.date | None
    place_days: float = 0.0
    own: dt.date | None = None
    used: dt.date | None = None
    notes: int = 0
    kin_notes: int = 0
    origin: str = "stated"
    by_dates: float = 0.0
    degrees_outside: float = 0.0
    doubted: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Learnt:
    """What the garden's notes have taught.

    Parameters
    ----------
    place_days : float [d]
        By how much everything opens later here than published (negative: earlier), about apple bloom.
    place_doubt_days : float [d]
        Standard deviation of it.
    notes : int
        Springs noted, of each plant by itself, this spring's included.
    kinds : int
        Kinds that those plants are of.
    lines : tuple of NeedLine
        Of every plant that flowers; most notes first.
    unused : tuple of str
        One sentence for each note that moved nothing.
    """

    place_days: float
    place_doubt_days: float
    notes: int
    kinds: int
    lines: tuple[NeedLine, ...]
    unused: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class ColdHit:
    """What a cold night does to one plant.

    Parameters
    ----------
    plant, kind : str
    stage : str
        What buds or flowers are at, in words.
    stage_from : str
        "noted 12 Apr", "computed from first open noted 12 Apr" or "computed".
    share, low, high : float
        Share of the flowers likely lost, 0 to 1; the range holds the doubt of the stage and a degree
        of the temperature either way.
    tenth_c, nine_tenths_c : float [degC]
        Temperatures that kill 10 and 90 % at this stage.
    height_m : float or None
        As measured, or grown by its age; None if nothing tells it.
    cover : bool
        Whether it likely loses a tenth or more, is low enough to be covered, and is kept for its fruit. What
        only may lose a tenth, a degree colder or at a later stage, is told to have a cover ready.
    cover_words, words : str
    basis : Basis
        "handbook" or "guess".
    """

    plant: str
    kind: str
    stage: str
    stage_from: str
    share: float
    low: float
    high: float
    tenth_c: float
    nine_tenths_c: float
    height_m: float | None
    cover: bool
    cover_words: str
    words: str
    basis: Basis


@dataclass(frozen=True, kw_only=True)
class Tonight:
    """A cold night foreseen: what it does to every plant in a stage that cold can hurt, worst first.

    `garden_c` and `station_c` [degC] are the night's minimum in the garden and at the weather station;
    `said` puts them in words. `not_known` are plants in flower for whose kind no table was found.
    """

    on: dt.date
    garden_c: float
    station_c: float
    said: str
    plants: tuple[ColdHit, ...]
    not_known: tuple[str, ...]
    caution: str
