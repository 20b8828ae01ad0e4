"""Words that several papers share: when a job of the week is to be done, and how the season stands."""

from __future__ import annotations

import datetime as dt

import pytest
from msgspec.structs import replace
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.jobs import DAY, job

from leafturn.answers.season import Heading
from leafturn.base.date_range import Likely
from leafturn.papers.words import names, season_words, wanting, window_word


def on(days: int | None) -> Likely:
    """So many days from the day of asking; never for None."""
    day = None if days is None else DAY + dt.timedelta(days)
    return Likely(day, day, day)


@pytest.mark.parametrize(
    ("opens", "best", "closes", "more", "said"),
    [
        (-5, 0, 0, {}, "Today"), (-5, 0, 6, {}, "Best today"), (-5, 4, 6, {}, "Best by 23 Apr"),
        (-5, -2, 6, {}, "Before 25 Apr"), (2, 4, 6, {}, "From 21 Apr to 25 Apr"),
        (2, None, None, {}, "From 21 Apr"), (-5, None, None, {}, ""),
        (-9, -5, -3, {"state": "late", "days_late": 3}, "Late 3 days"),
    ],
)  # fmt: skip
def test_when_a_job_of_the_week_is_to_be_done(opens, best, closes, more, said):  # type: ignore[no-untyped-def]
    asked = job(open=on(opens), best=on(best), close=on(closes), **more)
    assert window_word(asked, DAY) == said


def test_who_does_it_and_who_is_missing() -> None:
    assert (names(["Ann", "Ben", "Cy"]), names([])) == ("Ann, Ben and Cy", "anyone")
    assert (wanting(job()), wanting(job(wants="a second person"))) == ("", "wants a second person")


@pytest.fixture(scope="module")
def heading(tmp_path_factory: pytest.TempPathFactory) -> Heading:
    text = garden_text(plant("pip", "apple", year=2012))
    return almanac_of(tmp_path_factory.mktemp("words"), text, DAY).heading()


@pytest.mark.parametrize(
    ("ahead", "said"),
    [
        (3, "The season is 3 days early"),
        (-1, "The season is 1 day late"),
        (0, "The season is as usual"),
    ],
)
def test_how_far_the_season_is(heading: Heading, ahead: int, said: str) -> None:
    told = season_words(replace(heading, heat=replace(heading.heat, days_ahead=ahead)))
    assert told.startswith(f"{said}; last frost any day now, most likely ")


def test_frost_that_is_past_or_rare(heading: Heading) -> None:
    no_pace = replace(heading.heat, days_ahead=None)
    past = replace(heading, heat=no_pace, frost=replace(heading.frost, last_gone=0.97))
    assert season_words(past) == "The last frost is past."
    seldom = replace(heading.frost, last=on(None), last_years=0.2, first_years=0.1)
    assert season_words(replace(heading, heat=no_pace, frost=seldom)) == "Frost comes here in 2 of 10 years."
    never = replace(seldom, last_years=0.0, first_years=0.0)
    assert season_words(replace(heading, heat=no_pace, frost=never)) == "No frost is likely."
