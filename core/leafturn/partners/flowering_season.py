"""What is known of one season's flowers in a garden: forecasts, notes, light, weather and frost."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import field

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.partners.observations import ObservedBloom
from leafturn.season.ensemble import Ensemble


class FloweringSeason(Value, eq=False):
    """One season as partners meet in it.

    Parameters
    ----------
    year : int
        The season's year.
    forecasts : mapping of plant id to BloomForecast
        This season's flowering, all with the same draws. A plant without one gets a wide range.
    observed : ObservedBloom
        What the journal tells of flowers and set, of all seasons.
    light : mapping of plant id to light from May to September [% of open light]
        Plants with less than their kind needs flower later; those not in it have enough.
    weather : Ensemble or None
        What the forecasts were made with: days then count by the warmth and rain that carriers meet.
    frost_loss : mapping of plant id to the chance that frost spoils the bloom
        Passed on as it is.
    crop_lost : mapping of plant id to (draws,) array
        Share of a full crop that frost takes in every ensemble member.
    too_tall : frozenset of str
        Plants whose flowers no brush reaches, so that no pollen is borrowed for them.
    """

    year: int
    forecasts: Mapping[str, BloomForecast] = field(default_factory=dict)
    observed: ObservedBloom = field(default_factory=ObservedBloom)
    light: Mapping[str, float] = field(default_factory=dict)
    weather: Ensemble | None = None
    frost_loss: Mapping[str, float] = field(default_factory=dict)
    crop_lost: Mapping[str, FloatArray] = field(default_factory=dict)
    too_tall: frozenset[str] = frozenset()
