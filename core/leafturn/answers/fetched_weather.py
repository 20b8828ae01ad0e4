"""What an archive gave for a garden, beside what the garden counts with, before it is used."""

from __future__ import annotations

from leafturn.answers.weather import Recorded, UsualMonth, WeatherKnown, recorded, usual_months
from leafturn.base.value import Value
from leafturn.weather.fetch.source import Fetched
from leafturn.weather.normals.normals import NormalsBasis, from_record
from leafturn.weather.normals.place_climate import LAPSE


class FetchedWeather(Value):
    """What was fetched, as it would be used.

    Parameters
    ----------
    archive, where : str
        Its source in words.
    recorded : Recorded
        Its days, gaps, and what was set aside.
    notes : tuple of str
        What the archive itself doubts.
    months : tuple of UsualMonth
        What is usual in it; empty if it has too few days to tell.
    here : tuple of UsualMonth
        What the garden counts with now.
    basis : str
        Where `here` comes from.
    above_m : float or None
        How much higher than the garden its place lies.
    """

    archive: str
    where: str
    recorded: Recorded
    notes: tuple[str, ...]
    months: tuple[UsualMonth, ...]
    here: tuple[UsualMonth, ...]
    basis: NormalsBasis
    above_m: float | None

    @property
    def warmer_c(self) -> float | None:
        """How much warmer the garden likely is for lying lower [degC]; None if the heights are not known."""
        return None if self.above_m is None else self.above_m * LAPSE / 1000


def fetched_weather(fetched: Fetched, known: WeatherKnown, height_m: float | None) -> FetchedWeather:
    """Set what was fetched beside what is known.

    Parameters
    ----------
    fetched : Fetched
    known : WeatherKnown
        Of the garden, without what was fetched.
    height_m : float or None
        The garden's.
    """
    usual = from_record(fetched.record)
    return FetchedWeather(
        archive=fetched.archive,
        where=fetched.where,
        recorded=recorded(fetched.record),
        notes=tuple(note for note in fetched.notes if note not in fetched.record.notes),
        months=() if usual is None else usual_months(usual),
        here=known.months,
        basis=known.basis,
        above_m=None if fetched.height_m is None or height_m is None else fetched.height_m - height_m,
    )
