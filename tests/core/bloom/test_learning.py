"""A kind learnt from other sites and a plant's own notes, on invented sites whose truth is known."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.invented_sites import (
    ASKED,
    CHANCE,
    LEVEL,
    YEARS,
    invented_sites,
    invented_weather,
    moved,
    some,
    true_days,
)

from leafturn.bloom.learning import BloomDay, fit_prior, predict
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.priors.response import Response
from leafturn.bloom.site_years import site_years
from leafturn.weather.record import DailyRecord

HERE = invented_weather(50, mean=10.0)
BEFORE = (2004, 2005, 2006, 2007)


def width(day: BloomDay) -> float:
    return day.late - day.early


def test_without_notes_the_kind_speaks_alone(learnt: BloomPrior) -> None:
    day = predict(learnt, {}, HERE, ASKED)
    assert (day.likely, day.own, day.notes, day.own_share) == (day.book, None, 0, 0.0)
    assert day.weather == "observed"
    assert day.early < day.likely < day.late


def test_a_kind_learnt_elsewhere_foretells_a_place_it_never_saw(learnt: BloomPrior) -> None:
    """Within the chance put in: 0.07 between places and 0.05 between springs are about 3 d together."""
    missed, fixed = [], []
    for place in range(50, 56):
        weather = invented_weather(place, mean=9.5)
        days = true_days(weather, LEVEL, CHANCE, seed=place)
        missed += [predict(learnt, {}, weather, year).mean - day for year, day in days.items()]
        fixed += list(np.array(list(days.values())) - np.mean(list(days.values())))
    assert np.sqrt(np.mean(np.square(missed))) < 3.5
    assert np.std(fixed) > 7


@settings(max_examples=25, deadline=None)
@given(late=st.floats(0.05, 0.3), sign=st.sampled_from([-1, 1]))
def test_notes_that_agree_pull_towards_them(learnt: BloomPrior, late: float, sign: int) -> None:
    days = true_days(HERE, LEVEL + sign * late)
    truth = days[ASKED]
    asked = [predict(learnt, some(days, *BEFORE[4 - n :]), HERE, ASKED) for n in range(5)]
    missed = [abs(day.mean - truth) for day in asked]
    assert missed[4] <= missed[0] + 0.5
    assert missed[4] < max(0.5 * missed[0], 2.0)
    assert [day.notes for day in asked] == [0, 1, 2, 3, 4]


def test_notes_narrow_the_range(learnt: BloomPrior) -> None:
    days = true_days(HERE)
    widths = [width(predict(learnt, some(days, *BEFORE[4 - n :]), HERE, ASKED)) for n in range(5)]
    assert widths[4] < widths[2] < widths[0]


@pytest.mark.parametrize("days_off", [-30, 30])
def test_an_odd_note_is_named_and_moves_little(learnt: BloomPrior, days_off: int) -> None:
    notes = some(true_days(HERE, LEVEL + 0.05), 2002, 2003, *BEFORE)
    odd = {**notes, 2005: notes[2005] + days_off}
    right, asked = predict(learnt, notes, HERE, ASKED), predict(learnt, odd, HERE, ASKED)
    assert right.questioned == ()
    assert asked.questioned == (2005,)
    assert asked.notes == 6  # not thrown away
    assert abs(asked.likely - right.likely) < 2.0
    assert abs(asked.own - right.own) == pytest.approx(30 / 6)  # what a plain mean makes of it


@settings(max_examples=15, deadline=None)
@given(degrees=st.floats(0.5, 4.0), notes=st.booleans())
def test_a_warmer_spring_brings_bloom_earlier(learnt: BloomPrior, degrees: float, notes: bool) -> None:
    own = some(true_days(HERE), *BEFORE) if notes else {}
    warm = moved(HERE, degrees, dt.date(ASKED, 2, 15), dt.date(ASKED, 6, 30))
    assert predict(learnt, own, warm, ASKED).likely < predict(learnt, own, HERE, ASKED).likely - 0.5


def test_a_warm_autumn_without_cold_does_not_bring_it_earlier(learnt: BloomPrior) -> None:
    warm = moved(HERE, 3.0, dt.date(ASKED - 1, 10, 1), dt.date(ASKED - 1, 12, 15))
    assert predict(learnt, {}, warm, ASKED).likely >= predict(learnt, {}, HERE, ASKED).likely


def test_the_less_of_the_year_is_known_the_wider_the_range(learnt: BloomPrior) -> None:
    notes = some(true_days(HERE), *BEFORE)
    widths = [
        np.mean([width(predict(learnt, notes, HERE, year, until(year))) for year in range(2008, 2012)])
        for until in (lambda y: None, lambda y: dt.date(y, 3, 10), lambda y: dt.date(y, 1, 1))
    ]
    assert widths[0] < widths[1] < widths[2]


@settings(max_examples=30, deadline=None)
@given(
    until=st.integers(-300, 130),
    degrees=st.floats(-8, 8),
    lost=st.booleans(),
    later_note=st.integers(60, 120),
)
def test_nothing_after_the_last_known_day_is_looked_at(
    learnt: BloomPrior, until: int, degrees: float, lost: bool, later_note: int
) -> None:
    last = dt.date(ASKED, 1, 1) + dt.timedelta(days=until - 1)
    notes = some(true_days(HERE), *BEFORE)
    other = moved(HERE, float("nan") if lost else degrees, last + dt.timedelta(days=1))
    told = {**notes, ASKED: later_note, ASKED + 1: later_note}
    assert predict(learnt, told, other, ASKED, until) == predict(learnt, notes, HERE, ASKED, until)


def test_the_last_known_day_may_be_a_date_or_a_day_of_the_year(learnt: BloomPrior) -> None:
    notes = some(true_days(HERE), *BEFORE)
    by_date = predict(learnt, notes, HERE, ASKED, dt.date(ASKED, 3, 1))
    assert by_date == predict(learnt, notes, HERE, ASKED, 61)
    assert by_date.weather == "known to a day, then past years"


def test_a_note_of_the_year_itself_is_left_out(learnt: BloomPrior) -> None:
    notes = some(true_days(HERE), *BEFORE)
    assert predict(learnt, {**notes, ASKED: 33}, HERE, ASKED) == predict(learnt, notes, HERE, ASKED)


def test_notes_may_come_as_pairs(learnt: BloomPrior) -> None:
    notes = some(true_days(HERE), *BEFORE)
    assert predict(learnt, list(notes.items()), HERE, ASKED) == predict(learnt, notes, HERE, ASKED)


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 999), share=st.floats(0.01, 0.08))
def test_scattered_gaps_hardly_matter(learnt: BloomPrior, seed: int, share: float) -> None:
    gone = np.random.default_rng(seed).random(len(HERE)) < share
    holed = replace(HERE, tmin=np.where(gone, np.nan, HERE.tmin), tmax=np.where(gone, np.nan, HERE.tmax))
    notes = some(true_days(HERE), *BEFORE)
    assert predict(learnt, notes, holed, ASKED).likely == pytest.approx(
        predict(learnt, notes, HERE, ASKED).likely, abs=2.0
    )


def test_a_season_without_weather_goes_by_the_dates(learnt: BloomPrior) -> None:
    lost = moved(HERE, float("nan"), dt.date(ASKED - 1, 12, 1), dt.date(ASKED, 5, 1))
    notes = some(true_days(HERE), *BEFORE)
    day = predict(learnt, notes, lost, ASKED)
    assert (day.weather, day.own_share) == ("none", 1.0)
    assert min(notes.values()) <= day.likely <= max(notes.values())
    assert width(day) > width(predict(learnt, notes, HERE, ASKED))


@pytest.mark.parametrize("until", [None, dt.date(ASKED, 1, 1)])
def test_without_any_weather_dates_are_used_and_notes_pull(learnt: BloomPrior, until: dt.date | None) -> None:
    none, own = (
        predict(learnt, {}, None, ASKED, until),
        predict(learnt, dict.fromkeys(BEFORE, 110), None, ASKED),
    )
    assert none.likely == pytest.approx(learnt.typical_day)
    assert none.likely < own.likely < 110
    assert width(own) < width(none)


def test_notes_from_before_the_weather_still_count(learnt: BloomPrior) -> None:
    day = predict(learnt, {1950: 95, 1951: 97, 1952: 96}, HERE, ASKED)
    assert (day.notes, day.own_share) == (3, 1.0)


def test_a_plant_of_another_kind_is_soon_taken_at_its_own_word(learnt: BloomPrior) -> None:
    """Level two and a half times the kind's: about three weeks later."""
    days = true_days(HERE, LEVEL + 0.9)
    book = predict(learnt, {}, HERE, ASKED).likely
    asked = predict(learnt, some(days, *BEFORE[1:]), HERE, ASKED)
    assert days[ASKED] - book > 12
    assert abs(asked.likely - days[ASKED]) < 5


def test_the_south_is_the_north_half_a_year_on(learnt: BloomPrior) -> None:
    """The same days, dated from 1 July where they were dated from 1 January."""
    shift = (dt.date(ASKED, 7, 1) - dt.date(ASKED, 1, 1)).days
    south = replace(HERE, first=HERE.first + dt.timedelta(days=shift))
    assert site_years(south).southern
    assert not site_years(HERE).southern
    north = true_days(HERE, LEVEL + 0.1)
    notes = some(north, *BEFORE)
    mirrored = {year: day + shift for year, day in notes.items()}
    for until in (None, 60):
        there = predict(learnt, mirrored, south, ASKED, until and until + shift)
        here = predict(learnt, notes, HERE, ASKED, until)
        assert there.likely - shift == pytest.approx(here.likely, abs=1.5)
        assert there.questioned == ()


@pytest.mark.long
def test_a_kind_is_learnt_alike_in_north_and_south() -> None:
    records, weather = invented_sites(3)
    shift = 181  # from 1 January to 1 July in most years
    mirrored = {name: {y: d + shift for y, d in days.items()} for name, days in records.items()}
    south = {name: replace(w, first=w.first + dt.timedelta(days=shift)) for name, w in weather.items()}
    here, there = fit_prior(records, weather), fit_prior(mirrored, south)
    assert there.typical_day == pytest.approx(here.typical_day, abs=1.5)
    asked = weather["site-00"]
    assert predict(there, {}, asked, ASKED).likely == pytest.approx(
        predict(here, {}, asked, ASKED).likely, abs=2
    )


def test_four_in_five_days_of_places_never_seen_fall_in_the_range(learnt: BloomPrior) -> None:
    held = []
    for place in range(60, 70):
        weather = invented_weather(place, mean=9.5)
        level = LEVEL + np.random.default_rng(place).normal(0, 0.07)
        days = true_days(weather, level, CHANCE, seed=place)
        for year in range(1995, 1990 + YEARS, 2):
            day = predict(learnt, some(days, year - 3, year - 2, year - 1), weather, year)
            held.append(day.early <= days[year] <= day.late)
    assert 0.68 < np.mean(held) < 0.92


def test_nothing_to_learn_from_is_said() -> None:
    records, weather = invented_sites(1)
    with pytest.raises(ValueError, match="no site has both notes and weather"):
        fit_prior(records, {})
    with pytest.raises(ValueError, match="no note falls in a season"):
        fit_prior({"site-00": {1901: 90}}, weather)


def test_one_note_at_one_site_is_enough_for_a_prior_near_the_usual(learnt: BloomPrior) -> None:
    records, weather = invented_sites(1)
    prior = fit_prior({"site-00": {2000: records["site-00"][2000]}}, weather)
    day = predict(prior, {}, weather["site-00"], 2000)
    assert day.likely == pytest.approx(records["site-00"][2000], abs=2.0)
    assert width(day) > width(predict(learnt, {}, weather["site-00"], 2000))


def empty_record() -> DailyRecord:
    gaps = np.full(800, np.nan)
    return DailyRecord(first=dt.date(2007, 1, 1), tmin=gaps, tmax=gaps, rain=gaps)


@pytest.mark.parametrize("until", [None, dt.date(ASKED, 2, 1)])
def test_a_record_of_gaps_only_is_no_weather(learnt: BloomPrior, until: dt.date | None) -> None:
    day = predict(learnt, dict.fromkeys(BEFORE, 100), empty_record(), ASKED, until)
    assert day.weather == "none"
    assert np.isfinite([day.mean, day.early, day.late]).all()


@pytest.mark.long
def test_a_kind_that_opens_about_new_year_has_days_on_both_sides_of_it() -> None:
    """Days below 1 are those of the December before; notes written as late December are read so."""
    early = Response(warmth_rate=0.1, cold_need=12.0, cold_width=3.0, cold_half=12.0, cold_slope=0.3)
    records, weather, openings = {}, {}, []
    for place in range(5):
        name = f"mild-{place}"
        weather[name] = invented_weather(90 + place, mean=15.0)
        numbers = true_days(weather[name], 3.6, 0.05, seed=place, response=early)
        openings += list(numbers.values())
        dates = {y: dt.date(y, 1, 1) + dt.timedelta(days=day - 1) for y, day in numbers.items()}
        records[name] = {date.year: date.timetuple().tm_yday for date in dates.values()}
    assert min(openings) < 1 < max(openings)
    prior = fit_prior({name: records[name] for name in list(records)[1:]}, weather)
    numbers = true_days(weather["mild-0"], 3.6, 0.05, seed=0, response=early)
    missed = [predict(prior, {}, weather["mild-0"], year).mean - day for year, day in numbers.items()]
    assert abs(prior.typical_day - np.median(openings)) < 8
    assert np.sqrt(np.mean(np.square(missed))) < 0.8 * np.std(list(numbers.values()))
