"""The season in answers: heat, frost, and every plant's dates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

import numpy as np
from msgspec.structs import replace

from leafturn.answers.chill import Chill, chill
from leafturn.answers.frost import Frost, FrostFree, FrostTrend, frost, frost_free, frost_trend, harder_frosts
from leafturn.answers.unripe import by_kind_alone, frost_first, never_ripe
from leafturn.base.arrays import FloatArray, at_share, median, medians
from leafturn.base.bloom_stages import FIRST_OPEN, FLOWERING, HARVEST, RIPE, Stage
from leafturn.base.date_range import SHARES
from leafturn.base.evidence import Basis, weakest
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.beyond import without_winter
from leafturn.bloom.model import BloomForecast, SeasonEvent, SecondCount
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from leafturn.season.heat import HeatSums
from leafturn.season.heat_count import BASE_C
from leafturn.tasks.season_model import SeasonModel

# Shares of what the best fortnight gains; with less, heat tells no days. In autumn more is asked, since a
# warm year's heat is matched only in the next one: rules of thumb.
SPRING_GAIN, AUTUMN_GAIN = 0.07, 0.2
LEAST_SAID_DAYS = 0.5  # less is not worth a sentence: rule of thumb


class Heat(Value):
    """Degree-days above `base` [degC d] since the season's start, against this garden's usual year.

    `days_ahead` is None in the cold of the year, when heat tells nothing of it. On this day one past year in
    ten stood at `usual_behind` days or less, one in ten at `usual_ahead` or more. A sine through each day
    is counted, in `four_cases` by the four cases of met services.
    """

    base: float
    to_date: float
    normal: float
    days_ahead: int | None
    usual_behind: int = 0
    usual_ahead: int = 0
    four_cases: Heat | None = None


class Heading(Value):
    """The second line of every page."""

    place: str
    on: dt.date
    heat: Heat
    frost: Frost
    filled: str
    days_filled: int = 0


class Season(Value):
    """The whole season: events by date, heat, frost, and what was left out or filled.

    `frost` is that of 0 degC; `frosts` holds it and the harder ones.
    """

    events: tuple[SeasonEvent, ...]
    heat: Heat
    frost: Frost
    notes: tuple[str, ...] = ()
    frosts: tuple[Frost, ...] = ()
    frost_free: FrostFree | None = None
    frost_trend: FrostTrend | None = None
    chill: Chill | None = None


def heading(day: GardenDay, weather: SeasonWeather) -> Heading:
    """Place, day, heat and frost, for the top of every page."""
    ensemble = weather.now
    filled = ensemble.filled_words
    return Heading(
        place=day.garden.place.name,
        on=day.on,
        heat=heat(weather, day.on),
        frost=frost(day, weather),
        filled=f"{filled} from the usual year" if filled else "",
        days_filled=ensemble.filled if filled else 0,
    )


def season(said: Heading, now: SeasonModel, notes: tuple[str, ...]) -> Season:
    """Every event of the season, by likely date; heat and frost are those of the heading.

    Of plants that do not count as old enough to flower none is told, as no other answer counts on them.
    """
    day, weather, forecasts, second = now.day, now.weather, now.expected, now.second_counts
    garden = day.garden
    events = [e for f in forecasts.values() for e in _events(f, weather, second.get(f.plant))]
    events.sort(key=lambda e: (e.observed or e.when.likely or dt.date.max, name_order(e.plant)))
    cold_winter = chill(day, weather, now.forecasts)
    return Season(
        events=tuple(events),
        heat=said.heat,
        frost=said.frost,
        notes=(
            *notes,
            *now.outlook.beyond,
            *_too_young(now),
            *_spring_words(forecasts),
            *cold_winter.words[1:],
            *by_kind_alone(forecasts, weather),
            *frost_first(day, weather, forecasts),
            *never_ripe(forecasts, day),
            *_questioned(forecasts),
        ),
        frosts=(said.frost, *harder_frosts(day, weather)),
        frost_free=frost_free(garden, weather),
        frost_trend=frost_trend(garden, weather),
        chill=cold_winter,
    )


def _too_young(now: SeasonModel) -> Iterator[str]:
    """Plants of which nothing is told, since they do not count as old enough."""
    if young := sorted(now.forecasts.keys() - now.expected.keys()):
        yield f"More likely than not still too young to flower or bear this season: {', '.join(young)}."


def _spring_words(forecasts: Mapping[str, BloomForecast]) -> Iterator[str]:
    """How far this spring's notes have moved the plants not noted yet; nothing under half a day."""
    moved = [f.moved_days for f in forecasts.values() if FIRST_OPEN.name not in f.observed]
    typical = median(moved) if moved else 0.0
    if abs(typical) >= LEAST_SAID_DAYS:
        way = "earlier" if typical < 0 else "later"
        far = f"{abs(typical):.1f} days {way}"
        yield f"This spring's notes move the blooms still to come {far} than heat alone would."


def _questioned(forecasts: Mapping[str, BloomForecast]) -> Iterator[str]:
    """Notes of earlier springs that lie far from what the others say."""
    for forecast in forecasts.values():
        yield from forecast.questioned


def heat(weather: SeasonWeather, on: dt.date) -> Heat:
    """Degree-days so far against the usual year, and how many days that is ahead (negative: behind).

    The days are None in the cold of the year.
    """
    second = _heat(weather.axis, weather.now_four_cases, weather.usual_four_cases, on)
    return replace(_heat(weather.axis, weather.now_heat, weather.usual_heat, on), four_cases=second)


def _heat(axis: SeasonAxis, now: HeatSums, before: HeatSums, on: dt.date) -> Heat:
    start, today = axis.day(axis.start), axis.day(on)
    to_date = now.to_date(BASE_C, start) if today >= start else 0.0
    years = before.cumulative(BASE_C, start)
    usual = medians(years, axis=0)
    normal = float(usual[min(max(today, 0), len(usual) - 1)]) if today >= start else 0.0
    ahead = _days_ahead(usual, to_date, today) if today >= start else None
    if ahead is None:
        return Heat(base=BASE_C, to_date=to_date, normal=normal, days_ahead=None)
    reached = np.searchsorted(usual, years[:, today] - 1e-6, side="left") - today
    behind, _, early = (round(float(at_share(reached.astype(float), share))) for share in SHARES)
    return Heat(
        base=BASE_C,
        to_date=to_date,
        normal=normal,
        days_ahead=ahead,
        usual_behind=behind,
        usual_ahead=early,
    )


def _days_ahead(usual: FloatArray, to_date: float, today: int) -> int | None:
    """Days between today and the day on which the usual year reaches today's heat.

    None where either lies in the cold of the year: so little warmth is gained there that a mild week would
    read as months.
    """
    if not 0 <= today < len(usual):
        return None
    reached = min(int(np.searchsorted(usual, to_date - 1e-6, side="left")), len(usual) - 1)
    gains = np.convolve(np.gradient(usual), np.full(15, 1 / 15), mode="same")
    best = int(np.argmax(gains))
    told = all(
        gains[day] > gains[best] * (SPRING_GAIN if day < best else AUTUMN_GAIN) for day in (today, reached)
    )
    return reached - today if told else None


def _events(
    forecast: BloomForecast, weather: SeasonWeather, second: SecondCount | None
) -> Iterator[SeasonEvent]:
    ensemble, axis = weather.now, weather.axis
    usual = _usual_first_open(forecast, weather)
    shift = median(forecast.first_open) - usual
    from_normal = round(shift) if np.isfinite(shift) else None
    for stage, days in forecast.course():
        if not np.isfinite(median(days)):
            continue
        event = forecast.ready if stage is RIPE else stage.name
        bbch = stage.bbch if stage in FLOWERING or forecast.ripens else None  # BBCH 8 is of fruit alone
        observed = forecast.observed.get(event)
        when = ensemble.likely(days)
        yield SeasonEvent(
            plant=forecast.plant,
            event=event,
            bbch=bbch,
            when=when,
            observed=observed,
            basis="own record" if observed else _basis_of(stage, forecast, ensemble),
            days_from_normal=axis.day(observed) - round(usual)
            if observed and stage is FIRST_OPEN and np.isfinite(usual)
            else from_normal,
            second=second if stage is FIRST_OPEN else None,
        )


def _usual_first_open(forecast: BloomForecast, weather: SeasonWeather) -> float:
    """Median day number of first open in this garden's past years; NaN where warmth does not tell it."""
    need = forecast.need
    if need is None or without_winter(weather):
        return float("nan")
    return need.usual_day(need.before_spring, weather.usual_warmth)


def _basis_of(stage: Stage, forecast: BloomForecast, ensemble: Ensemble) -> Basis:
    """As the forecast's; ripening by the days of the kind alone is a rule of thumb at best."""
    basis = _basis(forecast, ensemble)
    return weakest(basis, "rule of thumb") if forecast.ripens_as_kind and stage in HARVEST else basis


def _basis(forecast: BloomForecast, ensemble: Ensemble) -> Basis:
    """A plant's own notes name themselves; everything else is as sure as the weather behind it."""
    if forecast.own_notes and ensemble.sureness == "own record":
        return forecast.basis
    return weakest(forecast.basis, ensemble.sureness)
