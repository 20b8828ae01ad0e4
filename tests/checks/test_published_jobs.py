"""When jobs beyond pruning come, in four climates, against the days that published pages give for them.

Each row: a job and between which days it may come; its page stands beside it.
"""

from __future__ import annotations

import datetime as dt
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import pytest
from tests.samples.climates import COLD, MILD, WARM
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import DamageNote

PLANTS = (
    plant("blue", "highbush blueberry", year=2008, cultivar="Duke", at=[0, 0]),
    plant("blue-2", "highbush blueberry", year=2008, cultivar="Bluecrop", at=[2, 0]),
    plant("cherry", "sour cherry", year=2021, rootstock="Gisela 5", at=[5, 0]),
    plant("apple", "apple", cultivar="Discovery", year=2005, at=[10, 0]),
    plant("apple-2", "apple", cultivar="Winesap", year=2005, at=[14, 0]),
    plant("rooted", "pear", year=2026, at=[17, 0]),
    plant("peach", "peach", year=2015, at=[20, 0]),
    plant("nut", "hazel", year=2010, cultivar="Barcelona", at=[24, 0]),
    plant("nut-2", "hazel", year=2010, cultivar="Jefferson", at=[28, 0]),
    plant("sunchoke", "jerusalem artichoke", year=2020, at=[3, 5]),
    plant("horseradish", "horseradish", year=2020, at=[4, 5]),
    plant("straw", "garden strawberry", year=2025, at=[6, 5]),
    plant("clover", "white clover", year=2024, at=[7, 5]),
    plant("osier", "osier", year=2015, at=[30, 5]),
    plant("lavender", "lavender", year=2020, at=[33, 5]),
    plant("sage", "sage", year=2020, at=[34, 5]),
    plant("thyme", "thyme", year=2020, at=[35, 5]),
)
PLACES = {
    "england": (MILD, {"lat": 51.5, "lon": -0.4}),
    "wisconsin": (COLD, {"lat": 43.1, "lon": -89.4}),
    "georgia": (WARM, {"lat": 34.0, "lon": -83.3}),
    "tasmania": ({k: m[6:] + m[:6] for k, m in MILD.items()}, {"lat": -42.9, "lon": 147.3}),
}
NORTH = ("england", "wisconsin", "georgia")
NOTES = (
    DamageNote(on=dt.date(2026, 7, 3), plant="apple", cause="scale"),
    DamageNote(on=dt.date(2026, 7, 3), plant="nut", cause="filbert blight"),
)


@cache
def garden(place: str) -> Almanac:
    climate, there = PLACES[place]
    on = "2026-08-10" if place == "tasmania" else "2027-02-10"
    text = garden_text(*PLANTS, climate=climate, **there)
    return almanac_of(Path(mkdtemp()) / place, text, on, *(NOTES if place == "wisconsin" else ()))


def window(place: str, job_id: str) -> tuple[dt.date, dt.date]:
    job = garden(place).job(job_id)
    assert job is not None, (place, job_id)
    assert job.open.likely is not None
    assert job.close.likely is not None
    return job.open.likely, job.close.likely


def day(place: str, month_day: str) -> dt.date:
    """A northern month and day in the season; November and December are those before it."""
    axis = garden(place).axis
    return axis.date(axis.month_day(month_day, winter=month_day >= "11"))


@pytest.mark.parametrize("place", [*NORTH, "tasmania"])
@pytest.mark.parametrize(
    ("job", "not_before", "not_after"),
    [
        # After the first hard frosts, "late November through March", before sprouting (pages, read).
        ("jerusalem-artichoke:lift", "11-01", "03-31"),
        # After a hard frost or in very early spring before new leaves (pages, read).
        ("horseradish:lift", "11-01", "03-31"),
        # Willow stools are cut while leafless, before spring (common practice, no source).
        ("osier:coppice", "11-20", "03-15"),
        # Runners after fruiting, June to August (pages on strawberry runners, read); earlier in the south.
        ("garden-strawberry:take-runners", "05-01", "09-10"),
        # Mown when in flower, not in the weeks before frost (common practice).
        ("garden:mow", "05-01", "09-30"),
        # Nets two to three weeks before ripe: June and July where berries are of July (pages, read).
        ("highbush-blueberry:put-nets-on", "04-20", "08-10"),
        # While the wood is bare, before the time of oil (common practice, no source).
        ("apple:look-for-scale", "11-20", "04-15"),
    ],
)
def test_a_job_comes_within_the_days_of_the_pages(
    place: str, job: str, not_before: str, not_after: str
) -> None:
    opens, closes = window(place, job)
    assert day(place, not_before) <= opens < closes <= day(place, not_after)


@pytest.mark.parametrize("place", ["wisconsin", "georgia"])
def test_borers_are_wormed_out_in_late_summer_and_autumn(place: str) -> None:
    """Late summer and fall (Missouri Botanical Garden and Utah extension, as retold; read)."""
    opens, closes = window(place, "garden:look-for-borers")
    assert dt.date(2027, 8, 20) <= opens < closes <= dt.date(2027, 11, 10)


@pytest.mark.parametrize("place", ["england", "georgia"])
def test_nuts_are_picked_up_before_the_grubs_have_left_them(place: str) -> None:
    """Grubs leave late September to December, earlier kinds sooner (Kentucky ENTFACT-206, read)."""
    opens, closes = window(place, "hazel:pick-up-nuts")
    assert dt.date(2027, 7, 20) <= opens <= dt.date(2027, 10, 10)
    assert closes <= dt.date(2027, 11, 30)


@pytest.mark.parametrize("place", NORTH)
def test_stakes_come_off_after_a_summer_and_before_the_gales(place: str) -> None:
    """6 to 12 months after staking (University of Florida IFAS, Remove stakes; read)."""
    opens, closes = window(place, "rooted:take-stakes-off")
    assert dt.date(2027, 7, 1) <= opens < closes <= dt.date(2027, 10, 31)


def test_lavender_is_trimmed_after_flowering_by_early_september_where_winters_are_mild() -> None:
    """Britain: after flowering, late summer, to 10 September."""
    opens, closes = window("england", "lavender:trim")
    assert dt.date(2027, 7, 1) <= opens < closes <= dt.date(2027, 9, 10)
    cold_opens, cold_closes = window("wisconsin", "lavender:trim")
    assert dt.date(2027, 4, 1) <= cold_opens < cold_closes <= dt.date(2027, 6, 15)


def test_sage_and_thyme_are_trimmed_in_their_season_in_every_climate() -> None:
    for place in NORTH:
        sage, thyme = window(place, "sage:trim"), window(place, "thyme:trim")
        assert dt.date(2027, 2, 1) <= sage[0] < sage[1] <= dt.date(2027, 6, 30)
        assert dt.date(2027, 5, 1) <= thyme[0] < thyme[1] <= dt.date(2027, 8, 31)
        assert "bare wood" in garden(place).job("thyme:trim").title  # type: ignore[union-attr]


def test_oil_and_blight_are_done_with_before_buds_open() -> None:
    """Oil before buds swell (North Carolina and West Virginia); blight before bud break (Oregon)."""
    for job in ("apple:oil", "nut:cut-out-blight"):
        opens, closes = window("wisconsin", job)
        assert opens >= dt.date(2026, 12, 1)
        assert closes <= dt.date(2027, 4, 20)
    apple = garden("wisconsin").job("apple:oil")
    assert apple is not None
    assert apple.open.likely >= dt.date(2027, 2, 15)  # type: ignore[operator]


@pytest.mark.parametrize("place", NORTH)
def test_blueberries_of_any_age_have_their_mulch_renewed(place: str) -> None:
    """Replenished as it deteriorates, or roots lie bare (eXtension, Mulching blueberry bushes; read)."""
    job = garden(place).job("highbush-blueberry:renew-mulch")
    assert job is not None
    assert set(job.plants) == {"blue", "blue-2"}
    assert "barrow" in " ".join(job.why) or "litre" in " ".join(job.why)
    assert garden(place).job("blue:spring-mulch") is None
