"""Noted days as levels of warmth, and what follows from them, as frozen values."""

from __future__ import annotations

from leafturn.base.value import Value


class LevelNote(Value):
    """One noted day as a level of warmth.

    Parameters
    ----------
    target : str
        What is foretold by it: a plant's id, or its id and "leaf".
    level : float
        Logarithm of the warmth gathered by noon of that day.
    day : float [day number]
    growth : float [1/day]
        How much the level grows on such a day.
    weather_variance : float
        Of the level, where the weather of that season is not known; else 0.
    reading_variance : float
        Of the level, where another stage than the first flower was noted.
    lasting : bool
        True for a usual date that was stated, which tells of no one spring.
    by : str or None
        Who noted it.
    """

    target: str
    season: int
    level: float
    day: float
    growth: float
    weather_variance: float = 0.0
    reading_variance: float = 0.0
    lasting: bool = False
    by: str | None = None


class Level(Value, eq=False):
    """What is known of one plant's level in the season asked for.

    Parameters
    ----------
    mean : float
        Logarithm of warmth.
    variance : float
        Chance of the spring included.
    common, of_kind : float
        What parts of it all plants, and plants of the kind, share.
    springs : int
        Earlier springs noted of the plant.
    own : float or None
        Mean level of its own notes.
    stranger : float
        Chance that its kind is not as the book says here.
    chance : float
        Variance of one spring's level, as learnt again from its notes.
    moved : float
        By how much this spring's notes moved it.
    place_adds, kind_adds : float
        What is in it of the place, learnt from notes of all kinds, and what notes of its kind add to that.
    """

    mean: float
    variance: float
    common: float
    of_kind: float
    springs: int = 0
    own: float | None = None
    stranger: float = 0.0
    chance: float = 0.0
    moved: float = 0.0
    place_adds: float = 0.0
    kind_adds: float = 0.0
