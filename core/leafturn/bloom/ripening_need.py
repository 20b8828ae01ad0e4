"""What fruit takes to ripen: days of time and of warmth, in the climate for which books state days.

A day counts ``(1 - a) + a w / w_ref``: a part of it is time alone, a part the warmth of the day, as
degree-days above 5 degC of a day held at 22 degC, over their mean in the same weeks at the climate of the
books. What `a` is differs between kinds, and between the first weeks after bloom and the rest: stone and
pome fruit are hastened by warmth while they are small, and little or not at all by that of the summer; cold
nights bring apples and pears on. Where flowers come long before leaves, as on hazel, the count begins at
leaf-out.
"""

import math
from functools import lru_cache

import msgspec
import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, RisingRows
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.priors.stated import Climate, Reference, made_up_climate
from leafturn.bloom.warmth import BEFORE_AXIS
from leafturn.kinds.fact import value_of
from leafturn.kinds.harvest import Winters
from leafturn.kinds.model import Kind
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.degree_days import single_sine
from leafturn.season.ensemble import REPEATS, Ensemble
from leafturn.toml.packaged import packaged

BASE_C, HOTTEST_C = 5.0, 22.0
LEAST_CULTIVARS = 4  # whose days are known, from which their spread is taken; rule of thumb
# Nine nights of 50 F bring pears on as far as two of 45 F do (Oregon State University, FS 241, read): so a
# night counts by its degrees under 10.8 degC, 0.8 and 3.6 of them.
COLD_NIGHT_C, COLDEST_C = 10.8, 7.0
# So they do while days reach about 70 F (the same); how far below that they still do is a guess, of 10 to 15
# degC that which leaves Braeburn unripe at Anchorage and McIntosh of Quebec nearest its day.
WARM_DAY_C = 12.0


class RipeningFacts(msgspec.Struct, frozen=True):
    """ripening.toml: how much of ripening is warmth, and the climates that the books' days belong to."""

    first_days: float
    by_stages: dict[str, tuple[float, float]]
    by_part: dict[str, tuple[float, float]]
    by_kind: dict[str, tuple[float, float]]
    by_cold_nights: dict[str, float]
    kind_spread: float
    cultivar_spread: float
    own_spread: float
    books: dict[Winters, Reference]


facts = packaged("leafturn.bloom", "ripening.toml", RipeningFacts)


LEAST_DAYS = 5.0  # guess
# [d] after the season's days that fruit still ripens, about until the next flowers have theirs; guess
MOST_PAST = 120.0
UNKNOWN_SHARES = (0.5, 0.5)  # guess
A_LAST_DIGIT = 1e-6  # [d]


def warmth_shares(kind: Kind) -> tuple[float, float]:
    """How much of a kind's ripening goes by warmth, in the first weeks and later; below 0: held back."""
    known = facts()
    if kind.name in known.by_kind:
        return known.by_kind[kind.name]
    part = value_of(kind.harvest.part, "")
    if part in known.by_part:
        return known.by_part[part]
    return known.by_stages.get(value_of(kind.stages, ""), UNKNOWN_SHARES)


def days_by_cold_nights(kind: Kind) -> float:
    """How many days more a night counts by each degree under `COLD_NIGHT_C`, after the first weeks."""
    return facts().by_cold_nights.get(value_of(kind.stages, ""), 0.0)


class FruitWeather(Value, eq=False):
    """What days bring to fruit, summed from 1 October to the end of each, (..., days).

    Parameters
    ----------
    warmth : array [degC d]
        Degree-days above 5 degC of days held at 22 degC.
    cold : array [degC d]
        Degrees of each night under `COLD_NIGHT_C`, of nights held at `COLDEST_C` on days that reach
        `WARM_DAY_C`.
    """

    warmth: FloatArray
    cold: FloatArray

    @classmethod
    def summed(cls, tmin: FloatArray, tmax: FloatArray) -> "FruitWeather":
        """That of days with these extremes [degC]."""
        cold = np.where(tmax < WARM_DAY_C, 0.0, COLD_NIGHT_C - np.clip(tmin, COLDEST_C, COLD_NIGHT_C))
        return cls(warmth=np.cumsum(daily_warmth(tmin, tmax), axis=-1), cold=np.cumsum(cold, axis=-1))

    def mean(self) -> "FruitWeather":
        """The mean over its years, (days,)."""
        return FruitWeather(warmth=self.warmth.mean(axis=0), cold=self.cold.mean(axis=0))


class Stretch(Value):
    """A stretch of ripening in which days count alike.

    Parameters
    ----------
    share : float
        How much of it goes by warmth.
    warmth_a_day : float [degC d]
        What a day brings at the climate of the books in this stretch.
    cold_nights : float [d/degC]
        How much more a day counts by each degree of a cold night.
    cold_a_day : float [degC d]
        Such degrees of a night at the climate of the books in this stretch.
    """

    share: float
    warmth_a_day: float
    cold_nights: float = 0.0
    cold_a_day: float = 0.0

    def counted(self, weather: FruitWeather) -> FloatArray:
        """Days as they count, (..., days)."""
        days = np.arange(1.0, weather.warmth.shape[-1] + 1)
        by_warmth = self.share / self.warmth_a_day * weather.warmth
        by_cold = self.cold_nights * (weather.cold - self.cold_a_day * days)
        return np.asarray((1 - self.share) * days + by_warmth + by_cold)


class Need(Value):
    """What a plant's fruit takes to ripen.

    Parameters
    ----------
    days : float [d]
        Of time and warmth together, in days as they count at the climate of the books.
    first_days : float [d]
        How many of them, at most, count as in the first stretch.
    first, rest : Stretch
    """

    days: float
    first_days: float
    first: Stretch
    rest: Stretch

    def between(self, weather: FruitWeather, begins: int, ends: int) -> float:
        """Days as they count from one day to another, in weather of one year, (days,)."""
        first = self.first.counted(weather)
        if (counted := float(first[ends] - first[begins])) <= self.first_days:
            return counted
        # At the climate of the books they end with a day, to the last digit, which processors round apart.
        turns = int(np.searchsorted(first, first[begins] + self.first_days - A_LAST_DIGIT))
        rest = self.rest.counted(weather)
        return self.first_days + float(rest[ends] - rest[turns])


class CountedDays:
    """The days of a season as they count, from 1 October on, in every member."""

    def __init__(self, now: Ensemble) -> None:
        self._weather = FruitWeather.summed(*now.from_autumn(BEFORE_AXIS))
        self._member = np.repeat(np.arange(now.members), REPEATS)

    def reached(self, need: Need, begins: FloatArray, days: FloatArray) -> FloatArray:
        """When so many days have counted since some day, (plants, draws) [day number]; inf: they do not.

        Parameters
        ----------
        need : Need
            How they count.
        begins : (plants, draws) [day number]
        days : (plants, 1) [d]
        """
        reached = self._passed(need.first, begins, np.minimum(days, need.first_days))
        longer = days[:, 0] > need.first_days
        if longer.any():
            reached[longer] = self._passed(need.rest, reached[longer], days[longer] - need.first_days)
        return reached

    def _passed(self, stretch: Stretch, begins: FloatArray, days: FloatArray) -> FloatArray:
        """The same within one stretch; past the season's days each day counts one, as in the books."""
        counted, rows = self._counted(stretch)
        last = counted.shape[1] - 1
        opens = np.isfinite(begins)
        place = np.minimum(np.where(opens, begins, 0.0) + BEFORE_AXIS, last)
        whole = place.astype(int)
        at = counted[self._member, whole]
        at = at + (counted[self._member, np.minimum(whole + 1, last)] - at) * (place - whole)
        left = at + days - rows.last[self._member]
        within = opens & (left <= 0)
        found = rows.place(np.where(within, at + days, 0.0), self._member)
        past = np.where(left <= MOST_PAST, np.maximum(begins, last - BEFORE_AXIS) + left, np.inf)
        return np.where(
            within, found - rows.begins(self._member) - BEFORE_AXIS, np.where(opens, past, np.inf)
        )

    @kept
    def _counted(self, stretch: Stretch) -> tuple[FloatArray, RisingRows]:
        """Days as they count in every member, (members, days), and the same to search in."""
        counted = stretch.counted(self._weather)
        return counted, RisingRows(counted)


def need_of(
    kind: Kind, prior: BloomPrior, leaf: BloomPrior | None, full_after: float, later: float
) -> Need | None:
    """What ripening takes, read off the climate of the books.

    Parameters
    ----------
    kind : Kind
    prior, leaf : BloomPrior
        Of its first flower and of its leaf-out.
    full_after : float [d]
        From first flower to full bloom.
    later : float [d]
        How much later than its kind the cultivar ripens there.

    Returns
    -------
    Need or None
        None for kinds whose fruit takes more than a year, or whose days are not known.
    """
    days = kind.harvest.after_full_bloom_days
    if days is None or days.value > 366:
        return None
    where: Winters = value_of(kind.harvest.counted_where, "cold winters")
    climate, weather = _climate(where), _weather_of_the_books(where)
    full = climate.usual_day(prior) + full_after
    begins = full if leaf is None else max(full, climate.usual_day(leaf))
    place = [
        round(day) + BEFORE_AXIS + LEAD_DAYS - 1
        for day in (begins, full + days.value, full + days.value + later)
    ]
    start, ripe, own = (min(max(p, 1), len(weather.warmth) - 1) for p in place)
    turns = start + round(facts().first_days)

    def a_day(summed: FloatArray, since: int, to: int) -> float:
        return float(summed[to] - summed[since]) / max(to - since, 1)

    spans = (start, min(turns, ripe)), (turns, ripe) if turns < ripe else (start, ripe)
    first, rest = (
        Stretch(share=share, warmth_a_day=max(a_day(weather.warmth, *span), 1.0))
        for share, span in zip(warmth_shares(kind), spans, strict=True)
    )
    if cold_nights := days_by_cold_nights(kind):
        rest = replace(rest, cold_nights=cold_nights, cold_a_day=a_day(weather.cold, *spans[1]))
    need = Need(days=0.0, first_days=facts().first_days, first=first, rest=rest)
    return replace(need, days=max(need.between(weather, start, own), least_days(kind)))


def least_days(kind: Kind) -> float:
    """Days from full bloom before which no fruit is ripe; flowers are picked as they open."""
    return LEAST_DAYS if kind.harvest.ripens else 0.0


@kept
def cultivars_apart(kind: Kind) -> float:
    """Standard deviation of when the cultivars of a kind ripen [d]; 0 for kinds without cultivars."""
    stated = (cultivar.harvest_offset_days for cultivar in kind.cultivars.values())
    known = [days.value for days in stated if days is not None]
    if len(known) >= LEAST_CULTIVARS:
        return float(np.std(known))
    if len(kind.cultivars) < LEAST_CULTIVARS:
        return 0.0
    return math.sqrt(facts().kind_spread ** 2 - facts().cultivar_spread ** 2)


def _climate(where: Winters) -> Climate:
    known = facts().books[where]
    return made_up_climate(known.latitude, known.tmax_c, known.tmin_c)


@lru_cache(maxsize=2)
def _weather_of_the_books(where: Winters) -> FruitWeather:
    """Mean weather from 1 October on, through the second autumn too, (days,)."""
    climate = _climate(where)
    two_years = [np.tile(extreme[:, :365], 2) for extreme in (climate.tmin, climate.tmax)]
    return FruitWeather.summed(*two_years).mean()


def daily_warmth(tmin: FloatArray, tmax: FloatArray) -> FloatArray:
    """Degree-days above 5 degC of days held at 22 degC, by extremes [degC] and in their shape."""
    return single_sine(tmin, tmax, BASE_C, HOTTEST_C)
