"""A response found again from the days it made."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from msgspec.structs import replace
from tests.samples.invented_sites import CHANCE, LEVEL, TRUE, invented_weather, true_days

from leafturn.bloom.priors.fit import observed_seasons
from leafturn.bloom.priors.response import Response, day_reached, level_at
from leafturn.bloom.priors.response_fit import ObservedSeasons, fit_response, site_medians, spread
from leafturn.bloom.site_years import site_years


def noted(places: range, chance: float = CHANCE) -> ObservedSeasons:
    weather = {str(p): invented_weather(p, mean=8 + 0.4 * (p % 10)) for p in places}
    days = {name: true_days(w, LEVEL, chance, seed=int(name)) for name, w in weather.items()}
    return observed_seasons(days, {name: site_years(w) for name, w in weather.items()})[0]


def missed(response: Response, seasons: ObservedSeasons) -> np.ndarray:
    """Days off where every site opens at the sites' median level."""
    sums = response.sums(seasons.tmin, seasons.tmax)
    level, _ = level_at(sums, seasons.day)
    return np.asarray(day_reached(sums, np.full(len(seasons), np.median(level))) - seasons.day)


def test_days_of_other_places_are_told_as_well_as_by_the_true_response() -> None:
    found, elsewhere = fit_response(noted(range(8))), noted(range(80, 86))
    assert np.std(missed(found, elsewhere)) < np.std(missed(TRUE, elsewhere)) + 0.5
    assert np.std(missed(found, elsewhere)) < 0.4 * np.std(elsewhere.day)


def test_slips_do_not_bend_the_response() -> None:
    clean = noted(range(8))
    day = clean.day.copy()
    day[::15] += np.where(np.arange(len(day[::15])) % 2, 31, -31)  # a month misread
    found = fit_response(replace(clean, day=day))
    assert np.std(missed(found, clean)) < np.std(missed(fit_response(clean), clean)) + 0.5


def test_the_same_notes_give_the_same_response() -> None:
    assert fit_response(noted(range(3))) == fit_response(noted(range(3)))


def test_one_note_leaves_the_usual_response() -> None:
    found = fit_response(noted(range(1)).some(1))
    usual = Response()
    assert found.warmth_rate == pytest.approx(usual.warmth_rate, rel=0.2)
    assert found.cold_half == pytest.approx(usual.cold_half, abs=1.5)


def test_medians_of_sites_and_how_many_notes_they_have() -> None:
    site = np.array([2, 0, 0, 2, 2, 2])
    median, count = site_medians(site, np.array([4.0, 1.0, 2.0, 8.0, 100.0, 6.0]))
    assert median.tolist()[::2] == [1.5, 7.0]
    assert np.isnan(median[1])
    assert count.tolist() == [2, 0, 4]


def test_spread_is_a_standard_deviation_that_far_values_do_not_bend() -> None:
    """1.4826 times the median distance from the median; common practice."""
    values = np.random.default_rng(3).normal(5, 2, 4000)
    assert spread(values) == pytest.approx(2, rel=0.06)
    values[:200] = 1e6
    assert spread(values) == pytest.approx(2, rel=0.15)
    assert spread(np.empty(0)) == 0.0


def test_notes_of_seasons_without_weather_are_left_out() -> None:
    weather = invented_weather(1)
    sites = {"a": site_years(weather), "b": site_years(weather)}
    seasons, names = observed_seasons({"a": {1950: 90.0}, "b": {2000: 90.0, 2001: 95.0}}, sites)
    assert names == ["b"]
    assert seasons.year.tolist() == [2000, 2001]
    assert sites["b"].start(2000) == dt.date(2000, 1, 1)
