"""What frost takes of flowers and crop over a season: its worst night, at the stage of that night."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.evidence import Basis
from leafturn.base.value import Value
from leafturn.bloom.frost.bud_stages import LAST, BudDates, Hardiness
from leafturn.bloom.frost.mortality import killed_share
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.kinds.model import Kind

TENTH = 0.1  # the least the tables tell of
THIRD = 1 / 3  # of a crop: a loss that a steward remembers; guess
_ROUNDING = 1e-9  # of shares and of degrees
_STEPS = 128  # table steps between two whole places: a fraction of a day
_EARLIEST = -1.0  # the place at which nothing of the heat to first open has been had
_PLANTS_AT_ONCE = 16  # keeps the arrays of one pass within a processor's cache


class FrostLoss(Value, eq=False):
    """What frost takes of one plant's flowers and crop this season, nights past and to come.

    Parameters
    ----------
    chance_of_a_tenth : float
        Share of ensemble members in which a tenth of the flowers or more are lost.
    mean_share : float
        Share of the flowers lost, mean over all members.
    share_so_far : float
        The same of the nights already past.
    worst_night : date or None
        The night's morning that takes most on the mean; None where nothing is lost.
    basis : Basis
        "handbook" or "guess": how sure the kind's critical temperatures are.
    crop_lost : float
        Share of a full crop lost to frost, mean over all members.
    killed : (draws,) array
        Share of the flowers lost in every member, in the order of the forecast's draws, so that it can be
        joined with what else befalls that member.
    crop_lost_by_draw : (draws,) array
        Share of a full crop lost to frost in every member, in the same order.
    """

    plant: str
    chance_of_a_tenth: float
    mean_share: float
    share_so_far: float
    worst_night: dt.date | None
    basis: Basis
    crop_lost: float
    killed: FloatArray
    crop_lost_by_draw: FloatArray

    @property
    def chance_of_a_third(self) -> float:
        """Share of ensemble members in which frost takes a third of the crop or more."""
        return float(np.mean(self.crop_lost_by_draw >= THIRD - _ROUNDING))


def is_a_tenth(killed: FloatArray) -> BoolArray:
    """Whether shares of flowers killed, of any shape, are a tenth or more."""
    return np.asarray(killed >= TENTH - _ROUNDING)


def crop_lost(killed: FloatArray, flowers_for_crop: float) -> FloatArray:
    """Share of a full crop lost where frost takes a share of the flowers.

    Parameters
    ----------
    killed : array, 0 to 1
        Share of the flowers lost.
    flowers_for_crop : float
        Share of the flowers that must live for a full crop, above 0 to 1. A tree that sets far more fruit
        than it can carry loses nothing while so many live; below, the crop falls with them.
    """
    return np.asarray(1.0 - np.minimum((1.0 - killed) / flowers_for_crop, 1.0))


def flowers_for_crop(kind: Kind) -> float:
    """Share of the flowers that a kind needs alive for a full crop; all of them where nothing is known."""
    fact = kind.frost.flowers_for_crop
    return 1.0 if fact is None else min(max(fact.value, 0.01), 1.0)


def frost_losses(
    forecasts: Mapping[str, BloomForecast], kinds: Mapping[str, Kind], weather: SeasonWeather, pocket_c: float
) -> dict[str, FrostLoss]:
    """Losses of every plant whose kind has critical temperatures.

    Parameters
    ----------
    forecasts : mapping of plant id to BloomForecast
    kinds : mapping of plant id to Kind
    weather : SeasonWeather
        What the forecasts were made with; its nights are observed up to today, then to come.
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights; below 0 in a frost pocket.

    Returns
    -------
    dict of plant id to FrostLoss

    Notes
    -----
    Of all nights the worst counts, at the stage of that night. Each flower bears its own cold: those that
    die on one night of a cold spell are much the same as would die on the next as cold, so that shares must
    not be multiplied night by night, which tells of ruin wherever several nights are alike. That the same
    flowers are the tender ones at every stage is our guess; nothing published was found on nights at
    different stages, and what they take together may be more than the worst takes alone. Nights warmer than
    the 10 % temperature are left out: their shares are the tail of a curve drawn through two points. Buds
    lost in midwinter, before they swell, are not counted.

    A crop is not its flowers: see `crop_lost`.

    References
    ----------
    .. [1] Extension tables of critical temperatures, see "critical temperatures" of the plant library.
    """
    by_kind: dict[str, list[BloomForecast]] = {}
    for plant, forecast in forecasts.items():
        by_kind.setdefault(kinds[plant].name, []).append(forecast)
    found: dict[str, FrostLoss] = {}
    for same in by_kind.values():
        kind = kinds[same[0].plant]
        hardiness = Hardiness.of(kind)
        if hardiness is None:
            continue
        nights = _Nights(hardiness, weather, pocket_c)
        for some in _in_parts(same):
            losses = nights.losses([f.plant for f in some], BudDates(some, kind, weather))
            found.update({loss.plant: loss for loss in losses})
    return found


def _in_parts(all_: Sequence[BloomForecast]) -> Iterator[Sequence[BloomForecast]]:
    return (all_[i : i + _PLANTS_AT_ONCE] for i in range(0, len(all_), _PLANTS_AT_ONCE))


class _Nights:
    """The nights of a season that can hurt one kind at any stage, and what they do to plants of it."""

    def __init__(self, hardiness: Hardiness, weather: SeasonWeather, pocket_c: float) -> None:
        places = np.arange(round((LAST - _EARLIEST) * _STEPS) + 1) / _STEPS + _EARLIEST
        self._tenth, self._nine_tenths = hardiness.at(places)
        # One place more on either side, where no cold counts: before and after what is told of.
        self._counts_below = np.full(places.size + 2, -np.inf)
        self._counts_below[1:-1] = np.where(hardiness.tells(places), self._tenth + _ROUNDING, -np.inf)
        self._first = hardiness.first
        self._needed = flowers_for_crop(hardiness.kind)
        self._basis = hardiness.basis
        self._axis = weather.axis
        self._today = weather.now.observed_to
        self._night_c = weather.now.tmin + pocket_c
        self._cold = self._night_c <= self._counts_below.max()

    def losses(self, names: Sequence[str], dates: BudDates) -> Iterator[FrostLoss]:
        """One loss a plant, in the order of the names and dates."""
        plants, members, repeats = dates.first_open.shape
        day, celsius = self._cold_nights(dates)
        place = np.nan_to_num(dates.place(day), nan=-np.inf)
        step = np.clip(np.rint((place - _EARLIEST) * _STEPS) + 1, 0, self._counts_below.size - 1)
        step = step.astype(np.intp)
        plant, member, repeat, night = np.nonzero(celsius[:, None, :] <= self._counts_below[step])
        step = step[plant, member, repeat, night] - 1
        day, celsius = day[member, night], celsius[member, night]
        killed = killed_share(celsius, self._tenth[step], self._nine_tenths[step])
        row = (plant * members + member) * repeats + repeat
        shape = (plants, members * repeats)
        past = day <= self._today
        whole, so_far = _worst(row, killed, shape), _worst(row[past], killed[past], shape)
        days = self._night_c.shape[1]
        by_day = np.bincount(plant * days + day, killed, plants * days).reshape(plants, days)
        worst = np.where(by_day.any(axis=1), by_day.argmax(axis=1), -1)
        lost = crop_lost(whole, self._needed)
        columns = (
            is_a_tenth(whole).mean(axis=1),
            whole.mean(axis=1),
            so_far.mean(axis=1),
            worst,
            whole,
            lost,
        )
        for name, chance, mean, past_mean, night, flowers, crop in zip(names, *columns, strict=True):
            yield FrostLoss(
                plant=name,
                chance_of_a_tenth=float(chance),
                mean_share=float(mean),
                share_so_far=float(past_mean),
                worst_night=self._axis.date(int(night)) if night >= 0 else None,
                basis=self._basis,
                crop_lost=float(crop.mean()),
                killed=flowers,
                crop_lost_by_draw=crop,
            )

    def _cold_nights(self, dates: BudDates) -> tuple[IndexArray, FloatArray]:
        """Days and temperatures [degC] of the nights that may matter, (members, most nights of a member).

        Rows are filled up with nights too warm to count.
        """
        days = np.arange(self._night_c.shape[1])
        begins, ends = dates.span(self._first)
        cold = self._cold & (days >= begins[:, None]) & (days <= ends[:, None])
        most = int(cold.sum(axis=1).max(initial=0))
        order = np.argsort(~cold, axis=1, kind="stable")[:, :most]
        celsius: FloatArray = np.take_along_axis(self._night_c, order, axis=1)
        celsius[~np.take_along_axis(cold, order, axis=1)] = np.inf
        return order.astype(np.intp), celsius


def _worst(row: IndexArray, killed: FloatArray, shape: tuple[int, int]) -> FloatArray:
    """The largest share that any night of a row kills; 0 for rows without one."""
    worst = np.zeros(shape[0] * shape[1])
    np.maximum.at(worst, row, killed)
    return worst.reshape(shape)
