"""Which stage buds and flowers are at on a night, and the cold they bear there.

A stage is told by one number, its place. Before bloom it is the share of the warmth to first open that has
been had, less one; then 0 is first open, 1 full bloom, 2 petal fall, and 3 the end of what is counted.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.bloom_stages import FIRST_OPEN, FLOWERING, FULL_BLOOM, PETAL_FALL
from leafturn.base.evidence import Basis, weakest
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.priors.stated import level_of, timing_of
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.kinds.fact import basis_of
from leafturn.kinds.model import FROST_STAGES, Kind
from leafturn.season.ensemble import REPEATS

# Shares of the warmth to first open, as the pooled response counts it at places with cold winters, on the
# days that degree-days F above 43 give for McIntosh apple: green tip 100-120, tight cluster 204-257, pink
# 267-316 (UMass Extension, Healthy Fruit 2018-2019); silver tip 60-110 and first open about 355 recalled.
# Kinds without a share of their own are taken alike: a guess.
SWOLLEN_SHARE, GREEN_TIP_SHARE, TIGHT_CLUSTER_SHARE, PINK_SHARE = 0.42, 0.48, 0.75, 0.87
LAST_DAYS = 21.0  # counted after petal fall; guess: fruitlets are then past the worst
GREEN_FRUIT_DAYS = 7.0  # after petal fall; guess

OPEN, FULL, END, LAST = 0.0, 1.0, 2.0, 3.0
_AFTER_OPEN = {
    FIRST_OPEN.key: OPEN,
    FULL_BLOOM.key: FULL,
    PETAL_FALL.key: END,
    "green_fruit": END + GREEN_FRUIT_DAYS / LAST_DAYS,
}
_WORDS = {
    "swollen": "swelling buds", "green_tip": "green tip", "tight_cluster": "tight cluster",
    "pink": "first colour", **{stage.key: stage.name for stage in FLOWERING}, "green_fruit": "green fruit",
}  # fmt: skip
_MOST_C = 60.0  # a steward's own value beyond it is a slip of the hand
_SHORTEST_DAYS = 0.01


def places_of(kind: Kind) -> dict[str, float]:
    """The place of each of `FROST_STAGES`, in order.

    Buds of cherries stay shut longer than those of apples, for more of the way (`green_tip_share`).
    Vines bear their flowers on the new shoots, so theirs come out when the plant comes into leaf.
    """
    own = kind.frost.green_tip_share
    green = GREEN_TIP_SHARE if own is None else min(max(own.value, 0.05), 0.95)
    leaf, need = kind.leaf.out_heat, kind.bloom.first_open_heat
    if kind.habit == "climber" and leaf is not None and need is not None and need.value > 0:
        timing = timing_of(kind)
        gap = level_of(timing, leaf.value)[0] - level_of(timing, need.value)[0]
        green = min(max(math.exp(gap), 0.05), 0.95)
    later = (1 - green) / (1 - GREEN_TIP_SHARE)
    return {
        "swollen": green * SWOLLEN_SHARE / GREEN_TIP_SHARE - 1,
        "green_tip": green - 1,
        "tight_cluster": (TIGHT_CLUSTER_SHARE - 1) * later,
        "pink": (PINK_SHARE - 1) * later,
        **_AFTER_OPEN,
    }


class Hardiness(Value, eq=False):
    """What cold the buds and flowers of one kind bear, stage by stage.

    Parameters
    ----------
    stages : mapping of stage to its place
        All of `FROST_STAGES`.
    places : (known stages,)
        Places of the stages whose temperatures are known, rising.
    tenth_c, nine_tenths_c : (known stages,) [degC]
        Temperatures that kill 10 and 90 %.
    basis : Basis
        "handbook", or "guess" where any of the values is one.
    """

    kind: Kind
    stages: dict[str, float]
    places: FloatArray
    tenth_c: FloatArray
    nine_tenths_c: FloatArray
    basis: Basis

    @classmethod
    def of(cls, kind: Kind) -> Hardiness | None:
        """That of a kind; None where no critical temperature is known."""
        stages = places_of(kind)
        facts = ((place, kind.frost.at(stage)) for stage, place in stages.items())
        known = [
            (place, fact)
            for place, fact in facts
            if fact is not None and all(abs(celsius) <= _MOST_C for celsius in fact.value)
        ]
        if not known:
            return None
        return cls(
            kind=kind,
            stages=stages,
            places=np.array([place for place, _ in known]),
            tenth_c=np.array([max(fact.value) for _, fact in known]),
            nine_tenths_c=np.array([min(fact.value) for _, fact in known]),
            basis=weakest(*(basis_of(fact.sure) for _, fact in known)),
        )

    @property
    def first(self) -> float:
        """The place from which losses are told: the earliest stage known, at the latest first open."""
        return min(float(self.places[0]), OPEN)

    def at(self, place: float | FloatArray) -> tuple[FloatArray, FloatArray]:
        """Temperatures [degC] that kill 10 and 90 % at a place.

        On the straight line between the stages known, beyond them as at the nearest.
        """
        asked = np.asarray(place, dtype=float)
        tenth = np.interp(asked, self.places, self.tenth_c)
        return np.asarray(tenth), np.asarray(np.interp(asked, self.places, self.nine_tenths_c))

    def tells(self, place: FloatArray) -> BoolArray:
        """Whether places, of any shape, lie where losses are told; False for NaN."""
        return np.asarray((place >= self.first) & (place <= LAST))

    def stage(self, place: float) -> str:
        """The last of `FROST_STAGES` reached at a place; the first also before it."""
        reached = [stage for stage, at in self.stages.items() if at <= place + 1e-9]
        return reached[-1] if reached else FROST_STAGES[0]

    def words(self, stage: str) -> str:
        """A stage in the words of the trade; vines are told by their shoots until they flower."""
        of_shoots = self.kind.habit == "climber" and self.stages[stage] < OPEN
        return "young shoots" if of_shoots else _WORDS[stage]


class BudDates:
    """Where plants of one kind stand on the nights of a season, draw by draw.

    Parameters
    ----------
    forecasts : sequence of BloomForecast
        Of one kind.
    weather : SeasonWeather
        What the forecasts were made with.
    """

    def __init__(self, forecasts: Sequence[BloomForecast], kind: Kind, weather: SeasonWeather) -> None:
        members = weather.now.members
        shape = (len(forecasts), members, REPEATS)
        self.first_open = np.stack([f.first_open for f in forecasts]).reshape(shape)
        # Notes may contradict one another; a stage is never before the one it follows.
        full = np.stack([f.full for f in forecasts]).reshape(shape)
        self.full = np.maximum(full, self.first_open)
        end = np.stack([f.end for f in forecasts]).reshape(shape)
        self.end = np.maximum(end, self.full)
        need = forecasts[0].need
        timing = timing_of(kind) if need is None else need.timing
        self._warmth = weather.warmth.on_axis(timing)
        last = self._warmth.shape[1] - 1
        opens = np.clip(np.nan_to_num(self.first_open, posinf=last), 0, last).astype(np.intp)
        self._warmth_at_open = self._warmth[np.arange(members)[None, :, None], opens]

    def place(self, day: IndexArray) -> FloatArray:
        """Places on the mornings of some days.

        Parameters
        ----------
        day : (members, nights) or (1, nights) [day number]

        Returns
        -------
        (plants, members, REPEATS, nights) array
            NaN where a plant does not flower.
        """
        members = np.arange(self._warmth.shape[0])[:, None]
        # In the morning a day's own warmth is still to come.
        warmth = np.where(day > 0, self._warmth[members, np.clip(day - 1, 0, self._warmth.shape[1] - 1)], 0.0)
        night = day[None, :, None, :].astype(float)
        opens, full, end = (a[..., None] for a in (self.first_open, self.full, self.end))
        with np.errstate(invalid="ignore"):
            had = warmth[None, :, None, :] / np.maximum(self._warmth_at_open[..., None], 1e-6)
            swelling = np.where(night > opens, 0.0, np.minimum(had, 1.0) - 1.0)
            opening = np.clip((night - opens) / np.maximum(full - opens, _SHORTEST_DAYS), 0.0, 1.0)
            fading = np.clip((night - full) / np.maximum(end - full, _SHORTEST_DAYS), 0.0, 1.0)
            setting = np.maximum((night - end) / LAST_DAYS, 0.0)
            return np.asarray(swelling + opening + fading + setting)

    def span(self, first: float) -> tuple[FloatArray, FloatArray]:
        """The first day on which any plant may be at a place, and the last that counts, each (members,)."""
        flowers = np.isfinite(self.end)
        least = np.where(flowers, self._warmth_at_open, np.inf).min(axis=(0, 2)) * (1 + first)
        begins = np.count_nonzero(self._warmth < least[:, None], axis=1).astype(float)
        if first >= OPEN:
            begins = np.where(flowers, self.first_open, np.inf).min(axis=(0, 2))
        return begins, np.where(flowers, self.end, -np.inf).max(axis=(0, 2)) + LAST_DAYS
