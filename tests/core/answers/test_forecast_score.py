"""The last seasons' misses, beside the published date and the mean of notes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Mapping

import pytest
from tests.samples.places import DEMO, DEMO_DAY

from leafturn.almanac import Almanac, open_almanac
from leafturn.answers.forecast_events import LEAD_DAYS, Event, Hindcast, observed_events
from leafturn.answers.forecast_score import NOTHING, Hindcasts, Progress, Score
from leafturn.answers.forecast_score import forecast_score as judged
from leafturn.journal.entries import BloomNote, Entry
from leafturn.season.axis import SeasonAxis

AXIS = SeasonAxis(2027)
PEAR, PLUM, HAZEL = (Event("first open", plant) for plant in ("pear", "plum", "hazel"))
USUAL: dict[Event, dt.date | None] = {PEAR: dt.date(2027, 4, 25)}


def forecast_score(
    axis: SeasonAxis,
    notes: list[Entry],
    usual: Mapping[Event, dt.date | None],
    told: Hindcasts,
    progress: Progress | None = None,
) -> Score:
    return judged(axis, observed_events(axis, notes, usual), told, progress)


def opened(plant: str, day: dt.date) -> Entry:
    return BloomNote(on=day, plant=plant, stage="first open")


def always(
    month: int, day: int, published: tuple[int, int] | None = None
) -> Callable[[dt.date, SeasonAxis, Collection[str]], Mapping[Event, Hindcast]]:
    """Foretells the same day every year."""

    def told(asked: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        usual = None if published is None else dt.date(axis.year, *published)
        return {PEAR: Hindcast(dt.date(axis.year, month, day), usual)}

    return told


def test_misses_are_counted_from_what_was_said_two_weeks_before() -> None:
    asked: list[dt.date] = []

    def told(day: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        asked.append(day)
        return always(4, 23, (4, 26))(day, axis, plants)

    notes = [
        opened("pear", dt.date(2019, 4, 10)),
        opened("pear", dt.date(2020, 4, 12)),
        opened("pear", dt.date(2026, 4, 20)),
    ]
    score = forecast_score(AXIS, notes, USUAL, told)
    latest = score.seasons[0]
    assert latest.season == 2026
    assert dt.date(2026, 4, 20) - dt.timedelta(days=LEAD_DAYS) in asked
    (miss,) = latest.misses
    assert (miss.miss, miss.fixed_miss, miss.notes_miss) == (3, 6, -9)
    assert (miss.published, miss.notes_mean) == (dt.date(2026, 4, 26), dt.date(2026, 4, 11))
    assert score.says == (
        "In 2026 forecasts made 14 days ahead missed by 3.0 days on average over 1 bloom. "
        "The published date missed by 6.0: the forecast did better. "
        "The mean of earlier notes missed by 9.0: the forecast did better."
    )


def test_the_last_three_seasons_that_have_notes_are_judged_and_this_one_is_not() -> None:
    years = (2018, 2020, 2023, 2025, 2027)
    notes = [opened("pear", dt.date(year, 4, 10 + n)) for n, year in enumerate(years)]
    score = forecast_score(AXIS, notes, USUAL, always(4, 20, (4, 25)))
    assert [s.season for s in score.seasons] == [2025, 2023, 2020]
    assert [s.forecast_mean for s in score.seasons] == [7.0, 8.0, 9.0]
    assert [s.fixed_mean for s in score.seasons] == [12.0, 13.0, 14.0]
    assert [s.notes_mean for s in score.seasons] == [2.0, 2.0, 1.0]
    assert score.says == score.seasons[0].says


def test_each_day_is_asked_once_and_the_progress_is_told() -> None:
    asked: list[dt.date] = []
    told: list[tuple[int, int]] = []

    def hindcasts_on(day: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        asked.append(day)
        assert plants == {"pear", "plum"}, "no plant is forecast that was not noted then"
        return {p: Hindcast(dt.date(axis.year, 4, 20), None) for p in (PEAR, PLUM)}

    notes = [opened(p, dt.date(y, 4, 18)) for y in (2024, 2025, 2026) for p in ("pear", "plum")]
    usual = {**USUAL, PLUM: None}
    score = forecast_score(AXIS, notes, usual, hindcasts_on, lambda *far: told.append(far))
    assert len(asked) == len(set(asked)) == 3
    assert told == [(0, 3), (1, 3), (2, 3)]
    assert [len(s.misses) for s in score.seasons] == [2, 2, 2]


def test_where_fixed_dates_did_better_it_is_said() -> None:
    notes = [opened("pear", dt.date(2025, 4, 20)), opened("pear", dt.date(2026, 4, 20))]
    says = forecast_score(AXIS, notes, USUAL, always(4, 26, (4, 22))).says
    assert "The published date missed by 2.0: it would have done better." in says
    assert "The mean of earlier notes missed by 0.0: it would have done better." in says


def test_neither_better_nor_worse_is_said_too() -> None:
    says = forecast_score(AXIS, [opened("pear", dt.date(2026, 4, 20))], USUAL, always(4, 23, (4, 17))).says
    assert says.endswith("The published date missed by 3.0: no better and no worse.")


def test_like_is_compared_with_like_where_only_some_have_earlier_notes() -> None:
    def told(day: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        return {
            PEAR: Hindcast(dt.date(axis.year, 4, 21), None),
            PLUM: Hindcast(dt.date(axis.year, 4, 30), None),
        }

    notes = [
        opened("pear", dt.date(2025, 4, 24)),
        *(opened(p, dt.date(2026, 4, 20)) for p in ("pear", "plum")),
    ]
    score = forecast_score(AXIS, notes, {**USUAL, PLUM: None}, told)
    assert score.seasons[0].forecast_mean == 5.5
    assert score.says.endswith(
        "The mean of earlier notes missed by 4.0 where there is one (1 of 2), there the forecast by 1.0: "
        "the forecast did better."
    )


def test_a_winter_flower_is_judged_by_the_season_it_belongs_to() -> None:
    asked: list[tuple[dt.date, int]] = []

    def told(day: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        asked.append((day, axis.year))
        return {HAZEL: Hindcast(dt.date(axis.year, 1, 6), dt.date(axis.year, 1, 9))}

    notes = [opened("hazel", dt.date(2024, 1, 4)), opened("hazel", dt.date(2025, 12, 29))]
    score = forecast_score(AXIS, notes, {HAZEL: dt.date(2027, 1, 9)}, told)
    assert [s.season for s in score.seasons] == [2026, 2024]
    (miss,) = score.seasons[0].misses
    assert (miss.miss, miss.fixed_miss, miss.notes_miss) == (8, 11, 6)
    assert asked == [(dt.date(2023, 12, 21), 2024), (dt.date(2025, 12, 15), 2026)]


def test_of_several_watchers_the_first_counts_and_a_leap_day_is_a_date() -> None:
    notes = [
        opened("pear", dt.date(2024, 2, 29)),
        opened("pear", dt.date(2026, 3, 5)),
        opened("pear", dt.date(2026, 3, 2)),
    ]
    score = forecast_score(AXIS, notes, {PEAR: dt.date(2027, 3, 1)}, always(3, 4))
    (miss,) = score.seasons[0].misses
    assert (miss.observed, miss.miss, miss.notes_miss) == (dt.date(2026, 3, 2), 2, -2)


@pytest.mark.parametrize(
    "notes",
    [[], [opened("pear", dt.date(2027, 4, 20))], [opened("unknown", dt.date(2026, 4, 20))]],
)
def test_without_a_note_of_an_earlier_spring_nothing_is_judged(notes: list[Entry]) -> None:
    score = forecast_score(AXIS, notes, USUAL, always(4, 26))
    assert score.seasons == ()
    assert score.says == NOTHING


def test_the_score_is_not_ready_before_it_was_asked() -> None:
    assert not open_almanac(DEMO, DEMO_DAY).ready("score")


@pytest.mark.long
def test_the_demo_judges_its_last_springs(weir_meadow: Almanac) -> None:
    score = weir_meadow.score()
    assert weir_meadow.ready("score")
    assert [s.season for s in score.seasons] == [2026, 2025, 2024]
    assert all(len(s.misses) >= 10 for s in score.seasons)
    assert all(m.observed.year == s.season for s in score.seasons for m in s.misses)
    assert all(m.published is not None for m in score.seasons[0].misses)


@pytest.mark.long
def test_what_was_foretold_is_what_the_pages_said_that_day(weir_meadow: Almanac) -> None:
    for season in weir_meadow.score().seasons:
        miss = season.misses[len(season.misses) // 2]
        then = weir_meadow.at(miss.asked)
        event = next(e for e in then.season().events if e.plant == miss.plant and e.event == "first open")
        line = next(n for n in then.learnt().lines if n.plant == miss.plant)
        assert (miss.forecast, miss.published) == (event.when.likely, line.published)
