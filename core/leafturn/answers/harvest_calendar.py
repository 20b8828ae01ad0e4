"""The larder: what is picked and what bees find week by week, the gaps, and what fills them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from leafturn.answers.alternation import OnOff, swings
from leafturn.base import day_words
from leafturn.base.arrays import FloatArray, at_share, medians
from leafturn.base.value import Value
from leafturn.bloom.beyond import tells_nothing
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.ripening import PICK_DAYS
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.targets import FULL_AFTER_DAYS, LENGTH_DAYS, prior_of
from leafturn.garden.model import DEAD
from leafturn.garden.regions import region_named
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.kinds.spreading import spreads_into_wild_land
from leafturn.kinds.wild import grows_wild
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_cold import coldest_nights, is_too_tender

FLYING_C = 12.0  # guess: weeks whose days are usually warmer than this see bees about
FEW = 2  # fewer forage plants open than this is a gap: common practice, no source
MOST_FILLERS = 4
PLANTED_FOR_BEES = (
    3  # of 4 in beekeepers' lists: a kind is only proposed for its flowers if bees seek it; guess
)
NO_MEAL = ("flowers", "cones")  # picked, but nobody plants them against hunger


class Week(Value):
    """One week, from Monday, with its number as of ISO 8601: that of its Thursday's year.

    `picked` are plants to pick, `kept` those whose crop still keeps in store, `forage` those open with
    nectar or pollen. `flying` tells whether bees are usually about.
    """

    number: int
    first: dt.date
    picked: tuple[str, ...]
    kept: tuple[str, ...]
    forage: tuple[str, ...]
    flying: bool


class Gap(Value):
    """Weeks in a row with nothing to pick, or with few plants open, and kinds that would fill them.

    `first` and `last` are their numbers, `start` and `end` the first and the last day.
    """

    first: int
    last: int
    start: dt.date
    end: dt.date
    fillers: tuple[str, ...]


class Larder(Value):
    """The whole year: weeks, gaps of picking and of forage, plants known to swing, and what hardly sets.

    Of plants that are `undated` no day of picking is told here, so what they bear stands in no week.
    """

    weeks: tuple[Week, ...]
    picking_gaps: tuple[Gap, ...]
    forage_gaps: tuple[Gap, ...]
    swings: tuple[OnOff, ...]
    not_known: tuple[str, ...]
    barren: tuple[str, ...] = ()
    undated: tuple[str, ...] = ()


Span = tuple[float, float]


def larder(
    day: GardenDay,
    weather: SeasonWeather,
    forecasts: Mapping[str, BloomForecast],
    barren: frozenset[str] = frozenset(),
) -> Larder:
    """Fill the weeks of one season, all that hold a day of it: 53, or 54 where both its ends are cut.

    Parameters
    ----------
    day : GardenDay
        Harvests among its notes tell of heavy and light years.
    forecasts : mapping of plant id to BloomForecast
        Of plants old enough to flower; the middle of their days counts.
    barren : frozenset of str
        Plants that will hardly set fruit: bees find their flowers, and nothing is picked of them.
    """
    axis = weather.axis
    able = [p for p in day.garden.plants if p.id in forecasts and p.state not in DEAD]
    kinds = {p.id: day.kind(p) for p in able}
    picking = {
        p.id: s
        for p in able
        if p.id not in barren and kinds[p.id].harvest.is_food and (s := _picking(forecasts[p.id])) is not None
    }
    keeping = {p: (s[1] + 1, s[1] + d) for p, s in picking.items() if (d := _keeps(kinds[p])) > 0}
    forage = {p.id: s for p in able if _feeds(kinds[p.id]) and (s := _open(forecasts[p.id])) is not None}
    warm = medians(weather.usual.tmax, axis=0)
    weeks = tuple(
        Week(
            number=axis.date(monday).isocalendar().week,
            first=axis.date(monday),
            picked=_round_the_year(picking, monday),
            kept=_round_the_year(keeping, monday),
            forage=_within(forage, monday),
            flying=bool(warm[monday : monday + 7].mean() >= FLYING_C),
        )
        for monday in _mondays(axis)
    )
    undated = tuple(p.id for p in able if _is_undated(forecasts[p.id], kinds[p.id]))
    told = weeks if picking or forage or not undated else ()
    hungry = [n for n, w in enumerate(told) if not w.picked and not w.kept]
    bare = [n for n, w in enumerate(told) if w.flying and len(w.forage) < FEW]
    nights = coldest_nights(weather.usual, day.garden.place.frost_pocket_c)
    have = {k.name for k in kinds.values()}
    spans = _spans_of_kinds(day, weather, have, nights) if hungry or bare else {}
    return Larder(
        weeks=weeks,
        picking_gaps=tuple(_gaps(hungry, weeks, axis, {k: s[1] for k, s in spans.items()})),
        forage_gaps=tuple(_gaps(bare, weeks, axis, {k: s[0] for k, s in spans.items()})),
        swings=tuple(swings(day.entries, axis.southern)),
        barren=tuple(p.id for p in able if p.id in barren and kinds[p.id].harvest.is_food),
        undated=undated,
        not_known=tuple(p.id for p in able if kinds[p.id].forage.nectar is None
                        and kinds[p.id].forage.pollen is None and not kinds[p.id].has("bee plant")),
    )  # fmt: skip


def _picking(forecast: BloomForecast) -> Span | None:
    if forecast.ripe is None or forecast.picked is None:
        return None
    return _middle(forecast.ripe, forecast.picked)


def _is_undated(forecast: BloomForecast, kind: Kind) -> bool:
    """Whether something is picked of a plant of whose flowers no day is told, nor any of picking."""
    picks = kind.harvest.is_food and forecast.ripe is not None
    return picks and not forecast.told and _picking(forecast) is None


def _open(forecast: BloomForecast) -> Span | None:
    return _middle(forecast.first_open, forecast.end)


def _middle(start: FloatArray, end: FloatArray) -> Span | None:
    first, last = (at_share(days, 0.5) for days in (start, end))
    return (first, last) if np.isfinite(first) and np.isfinite(last) else None


def _keeps(kind: Kind) -> float:
    """Days that a crop surely keeps: the shorter end of its range; 0 where not known."""
    return kind.harvest.keeps_days.value[0] if kind.harvest.keeps_days else 0.0


def _feeds(kind: Kind) -> bool:
    """Whether bees find something at its flowers."""
    return _forage(kind) >= 1 or (_forage(kind) < 0 and kind.has("bee plant"))


def _forage(kind: Kind) -> float:
    """The better of nectar and pollen, 0 to 4; below 0 where neither is known."""
    return max((f.value for f in (kind.forage.nectar, kind.forage.pollen) if f is not None), default=-1)


def _within(spans: Mapping[str, Span], start: float) -> tuple[str, ...]:
    return tuple(plant for plant, (first, last) in spans.items() if first < start + 7 and last >= start)


def _round_the_year(spans: Mapping[str, Span], start: float) -> tuple[str, ...]:
    """Plants whose span holds a day of a week, that of the season before taken to be on the same days."""
    here, last_year = _within(spans, start), _within(spans, start + 365)
    return tuple(plant for plant in spans if plant in here or plant in last_year)


def _mondays(axis: SeasonAxis) -> range:
    """Day numbers of the Mondays of all weeks that hold a day of the season."""
    start = axis.day(axis.start)
    return range(start - axis.start.weekday(), axis.day(axis.next.start), 7)


def _gaps(
    places: Sequence[int], weeks: Sequence[Week], axis: SeasonAxis, spans: Mapping[str, Span | None]
) -> Iterator[Gap]:
    """Weeks in a row, given by their places among all, as gaps with the kinds that cover most of it."""
    for run in _runs(places):
        first, last = axis.day(weeks[run[0]].first), axis.day(weeks[run[-1]].first) + 6
        covers = {kind: min(s[1], last) - max(s[0], first) for kind, s in spans.items() if s is not None}
        best = sorted((k for k, days in covers.items() if days >= 3), key=lambda k: (-covers[k], k))
        yield Gap(
            first=weeks[run[0]].number,
            last=weeks[run[-1]].number,
            start=axis.date(first),
            end=axis.date(last),
            fillers=tuple(best[:MOST_FILLERS]),
        )


def _runs(numbers: Sequence[int]) -> Iterator[list[int]]:
    run: list[int] = []
    for number in numbers:
        if run and number != run[-1] + 1:
            yield run
            run = []
        run.append(number)
    if run:
        yield run


def _spans_of_kinds(
    day: GardenDay, weather: SeasonWeather, have: set[str], nights: FloatArray
) -> dict[str, tuple[Span | None, Span | None]]:
    """When kinds not here would be open and be picked in a usual season of this garden, roughly.

    From when each kind opens here and its days to full bloom, to ripe and of picking. Never proposed are
    kinds of which no day is told in this climate, that poison, that spread into wild land here or, away from
    their home, anywhere, and those too tender for the coldest `nights` of the years.
    """
    found: dict[str, tuple[Span | None, Span | None]] = {}
    region = region_named(day.garden.place.region)
    for name, kind in day.library.kinds.items():
        prior = prior_of(kind, {})
        if name in have or prior is None or kind.has("poisonous"):
            continue
        strays = kind.has("invasive somewhere") and not grows_wild(kind, day.garden.place)
        if is_too_tender(kind, nights) or strays or spreads_into_wild_land(kind, region):
            continue
        here = prior.at(weather.winter, weather.summer)
        if here.any_month or tells_nothing(here, weather):
            continue
        opens = weather.usual_warmth.median_day(prior.response, here.levels.middle)
        if not np.isfinite(opens):
            continue
        length = value_of(kind.bloom.length_days, LENGTH_DAYS)
        found[name] = (
            (opens, opens + length) if _forage(kind) >= PLANTED_FOR_BEES else None,
            _pickable(kind, opens),
        )
    return found


def _pickable(kind: Kind, opens: float) -> Span | None:
    after, full = kind.harvest.after_full_bloom_days, kind.bloom.full_after_days
    part = kind.harvest.part
    if after is None or part is None or not kind.harvest.is_food or part.value in NO_MEAL:
        return None
    ripe = opens + value_of(full, FULL_AFTER_DAYS) + after.value
    return ripe, ripe + value_of(kind.harvest.length_days, PICK_DAYS) + _keeps(kind)


def gap_words(gap: Gap, on: dt.date) -> str:
    """ "weeks 14 to 17 (2 Apr to 29 Apr): could fill it: honeyberry, rhubarb"."""
    weeks = f"week {gap.first}" if gap.first == gap.last else f"weeks {gap.first} to {gap.last}"
    span = day_words.stretch(gap.start, gap.end, on)
    fill = f"could fill it: {', '.join(gap.fillers)}" if gap.fillers else "no kind known here would fill it"
    return f"{weeks} ({span}): {fill}"
