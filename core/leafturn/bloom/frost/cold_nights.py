"""What cold nights meet: the stage that plants are at then, the cold they bear there, and what it kills.

Every answer that names a critical temperature for a day takes it from here.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, at_share
from leafturn.base.evidence import Basis
from leafturn.base.value import Value
from leafturn.bloom.frost.bud_stages import END, OPEN, BudDates, Hardiness
from leafturn.bloom.frost.loss import is_a_tenth
from leafturn.bloom.frost.mortality import killed_share
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.kinds.model import Kind

MOSTLY = 0.5  # share of the draws that decides whether a plant can be hurt, and whether it will be


class Limit(Value):
    """The cold that a plant bears on one night.

    Parameters
    ----------
    stage : str
        One of `FROST_STAGES`, as most of the draws have it.
    stage_words : str
        The stage in the words of the trade.
    part : str
        What dies: "bud", "flower" or "young fruit".
    tenth_c, nine_tenths_c : float [degC]
        Temperatures that kill 10 and 90 %.
    basis : Basis
        "handbook" or "guess".
    """

    stage: str
    stage_words: str
    part: str
    tenth_c: float
    nine_tenths_c: float
    basis: Basis


class ColdNights:
    """Some nights as plants of one kind meet them.

    Parameters
    ----------
    dates : BudDates
        Of the plants.
    mornings : sequence of int [day number]
        The mornings on which the nights end.
    """

    def __init__(self, hardiness: Hardiness, dates: BudDates, mornings: Sequence[int]) -> None:
        self.hardiness = hardiness
        places = dates.place(np.array([mornings], dtype=np.intp))
        self._members = places.shape[1]
        self._places = places.reshape(places.shape[0], -1, len(mornings))
        self._told = hardiness.tells(self._places)
        self._tenth, self._nine_tenths = hardiness.at(np.where(self._told, self._places, OPEN))

    @classmethod
    def of(
        cls, forecasts: Sequence[BloomForecast], kind: Kind, weather: SeasonWeather, mornings: Sequence[int]
    ) -> ColdNights | None:
        """Those of plants of one kind; None where no critical temperature of the kind is known."""
        hardiness = Hardiness.of(kind)
        return None if hardiness is None else cls(hardiness, BudDates(forecasts, kind, weather), mornings)

    def hurts(self) -> BoolArray:
        """Whether cold can hurt a plant on a night, (plants, nights)."""
        return np.asarray(self._told.mean(axis=1) >= MOSTLY)

    def killed(self, celsius: float | FloatArray) -> FloatArray:
        """Share of buds, flowers or young fruit killed, (plants, draws, nights).

        Parameters
        ----------
        celsius : float, or (members, nights) array [degC]
            Minima where the plants stand.
        """
        cold = np.asarray(celsius, dtype=float)
        if cold.ndim:
            cold = np.repeat(cold, self._places.shape[1] // self._members, axis=0)[None]
        shares = killed_share(cold, self._tenth, self._nine_tenths)
        return np.asarray(np.where(self._told, shares, 0.0))

    def limit(self, plant: int, night: int = 0) -> Limit:
        """What the plant of a number bears on the night of a number, at the stage it is most likely at."""
        places = np.nan_to_num(self._places[plant, :, night], nan=np.inf)
        place = at_share(places, 0.5)
        tenth, nine_tenths = self.hardiness.at(place)
        stage = self.hardiness.stage(place)
        return Limit(
            stage=stage,
            stage_words=self.hardiness.words(stage),
            part="bud" if place < OPEN else "flower" if place <= END else "young fruit",
            tenth_c=float(tenth),
            nine_tenths_c=float(nine_tenths),
            basis=self.hardiness.basis,
        )


def chance_of_a_tenth(killed: FloatArray) -> float:
    """Chance that some night takes a tenth or more, from shares (draws, nights) of one plant."""
    return float(is_a_tenth(killed).any(axis=1).mean()) if killed.size else 0.0


def takes_a_tenth(killed: FloatArray) -> bool:
    """Whether one night likely takes a tenth or more, from the shares (draws,) of one plant."""
    return chance_of_a_tenth(killed[:, None]) >= MOSTLY
