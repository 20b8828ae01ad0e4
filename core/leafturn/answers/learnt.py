"""What the garden's notes have taught: when each plant opens in a usual spring, and what the place adds."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import median
from leafturn.base.bloom_stages import FLOWERING_NAMES
from leafturn.base.evidence import Basis
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast, Outlook
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.garden_day import GardenDay


class NeedLine(Value):
    """When one plant opens in a usual spring here: as published, by own notes, and as used.

    Parameters
    ----------
    published : date or None
        By the book or the open records alone; None where it never comes.
    place_days : float [d]
        By how much the place moves it, as notes of all kinds tell; 0 without notes.
    kin_days : float [d]
        By how much notes of its kind, its own among them, move all plants of the kind beyond that.
    own : date or None
        By the plant's own notes alone; None without any.
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
    moved_by : tuple of str
        Others of its kind by whose notes it is moved.
    """

    plant: str
    kind: str
    published: dt.date | None
    place_days: float = 0.0
    kin_days: float = 0.0
    own: dt.date | None = None
    used: dt.date | None = None
    notes: int = 0
    kin_notes: int = 0
    origin: str = "stated"
    by_dates: float = 0.0
    degrees_outside: float = 0.0
    doubted: tuple[str, ...] = ()
    basis: Basis = "handbook"
    moved_by: tuple[str, ...] = ()

    @property
    def in_file(self) -> bool:
        """Whether `own` is the date that the garden file states; else only notes of this spring tell it."""
        return self.own is not None and not self.notes and self.basis == "own record"

    @property
    def is_moved(self) -> bool:
        """Whether what is published is moved by notes, though none of them is of the plant itself."""
        return self.basis != "own record" and bool(self.moved_by or round(self.place_days))

    @property
    def rests_on(self) -> str:
        """What its date rests on, in words: "handbook, moved by notes of hazel-b"."""
        if not self.is_moved:
            return self.basis
        return f"{self.basis}, moved by notes of {', '.join(self.moved_by) or 'other kinds here'}"


class Learnt(Value):
    """What the garden's notes have taught.

    Parameters
    ----------
    place_days : float [d]
        By how much everything opens later here than published (negative: earlier), about apple bloom.
    place_uncertainty_days : float [d]
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
    place_uncertainty_days: float
    notes: int
    kinds: int
    lines: tuple[NeedLine, ...]
    unused: tuple[str, ...] = ()


def learnt(day: GardenDay, weather: SeasonWeather, outlook: Outlook) -> Learnt:
    """What the notes have taught; plants with most notes first.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
    outlook : Outlook
        Of the same season.
    """
    kinds = {plant.id: day.kind(plant).name for plant in day.garden.plants}

    def noted_kin(plant: str) -> tuple[str, ...]:
        return tuple(
            other.plant
            for other in outlook.blooms.values()
            if other.own_notes and other.plant != plant and kinds.get(other.plant) == kinds[plant]
        )

    lines = [
        _line(forecast, kinds[forecast.plant], weather, noted_kin(forecast.plant))
        for forecast in outlook.blooms.values()
        if forecast.need is not None and forecast.plant in kinds
    ]
    lines.sort(key=lambda line: (-line.notes, line.used or dt.date.max, name_order(line.plant)))
    noted = {
        plant: forecast.own_notes + any(stage in forecast.observed for stage in FLOWERING_NAMES)
        for plant, forecast in outlook.blooms.items()
    } | dict(outlook.of_lost)
    return Learnt(
        place_days=outlook.place_days[0],
        place_uncertainty_days=outlook.place_days[1],
        notes=sum(noted.values()),
        kinds=len({kinds[plant] for plant, springs in noted.items() if springs and plant in kinds}),
        lines=tuple(lines),
        unused=outlook.unused,
    )


def published_days(
    weather: SeasonWeather, forecasts: Mapping[str, BloomForecast]
) -> dict[str, dt.date | None]:
    """The usual day of each plant's first flower, as published alone."""
    return {
        plant: None if forecast.need is None else _usual(forecast, forecast.need.published, weather)
        for plant, forecast in forecasts.items()
    }


def _usual(forecast: BloomForecast, level: float | None, weather: SeasonWeather) -> dt.date | None:
    """The date on which a level of warmth is reached in a usual spring; None where it never is."""
    if forecast.need is None or level is None or not np.isfinite(median(forecast.first_open)):
        return None
    day = forecast.need.usual_day(level, weather.usual_warmth)
    return weather.axis.date(day + 0.5) if np.isfinite(day) else None


def _line(forecast: BloomForecast, kind: str, weather: SeasonWeather, noted_kin: tuple[str, ...]) -> NeedLine:
    need = forecast.need
    assert need is not None
    with_place = need.published + need.place
    published, there, kin = (
        need.usual_day(at, weather.usual_warmth)
        for at in (need.published, with_place, with_place + need.kind_adds)
    )
    return NeedLine(
        plant=forecast.plant,
        kind=kind,
        published=_usual(forecast, need.published, weather),
        place_days=there - published if np.isfinite(there - published) else 0.0,
        kin_days=kin - there if np.isfinite(kin - there) else 0.0,
        own=_usual(forecast, need.own, weather),
        used=_usual(forecast, need.used, weather),
        notes=forecast.own_notes,
        kin_notes=forecast.kin_notes,
        origin=need.origin,
        by_dates=need.by_dates,
        degrees_outside=need.degrees_outside,
        doubted=forecast.questioned,
        basis=forecast.basis,
        moved_by=() if forecast.own_notes or not forecast.kin_notes else noted_kin,
    )
