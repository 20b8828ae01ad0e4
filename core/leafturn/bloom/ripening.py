"""When fruit ripens by warmth from full bloom, and when leaves and roots are in season.

A day counts ``(1 - a) + a w / w_ref``: a part of it is time alone, a part the warmth of the day, as degree-days
above 5 degC of a day held at 25 degC, over their mean in the same weeks at the climate of the books. What is
`a` differs: soft and stone fruit go by warmth whole, pome fruit by half, nuts and grapes by a quarter. Where
flowers come long before leaves, as on hazel, the count begins at leaf-out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

import msgspec
import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.doubt import draws_of
from leafturn.bloom.notes.observations import LEAF
from leafturn.bloom.priors.response import FIRST_DAY
from leafturn.bloom.priors.stated import level_of, stated
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.site_years import ENOUGH
from leafturn.garden.model import Plant
from leafturn.journal.entries import Entry
from leafturn.kinds.library import Library
from leafturn.kinds.model import Fact, Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.degree_days import single_sine
from leafturn.season.ensemble import REPEATS

FloatArray = NDArray[np.float64]

PICK_DAYS = 14.0  # guess, where a kind states none
RIPE_SPREAD_DAYS = 6.0  # guess
BASE_C, HOTTEST_C = 5.0, 25.0


class RipeningFacts(msgspec.Struct, frozen=True):
    """ripening.toml: how much of ripening is warmth, and the climate that the books' days belong to."""

    place: str
    source: str
    latitude: float
    tmax_c: tuple[float, ...]
    tmin_c: tuple[float, ...]
    spread_c: float
    by_stages: dict[str, float]
    by_part: dict[str, float]
    by_kind: dict[str, float]
    kind_spread: float
    cultivar_spread: float
    own_spread: float


@lru_cache(maxsize=1)
def facts() -> RipeningFacts:
    """What the packaged file states."""
    text = files("leafturn.bloom").joinpath("ripening.toml").read_bytes()
    return msgspec.toml.decode(text, type=RipeningFacts)


def warmth_share(kind: Kind) -> float:
    """How much of a kind's ripening goes by warmth, 0 to 1."""
    known = facts()
    if kind.name in known.by_kind:
        return known.by_kind[kind.name]
    part = kind.harvest.part.value if kind.harvest.part else ""
    if part in known.by_part:
        return known.by_part[part]
    return known.by_stages.get(kind.stages.value if kind.stages else "", 0.5)
