"""A seedling goes for spreading only where lists of its region name it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant


@pytest.mark.parametrize(
    ("kind", "region", "verdict"),
    [
        ("rowan", None, "keep"),
        ("rowan", "germany", "keep"),
        ("rowan", "new zealand", "remove"),
        ("tree of heaven", None, "remove"),
        ("tree of heaven", "germany", "remove"),
        ("tree of heaven", "japan", "remove"),
        ("norway maple", "germany", "keep"),
        ("holly", "germany", "keep"),
        ("sweet cherry", "oregon", "remove"),
        ("sweet cherry", "united kingdom", "keep"),
    ],
)
def test_a_seedling_goes_where_it_is_listed(
    tmp_path: Path, kind: str, region: str | None, verdict: str
) -> None:
    place = {} if region is None else {"region": region}
    text = garden_text(plant("it", kind, year=2025, origin="came by itself", at=[0, 0]), **place)
    (judged,) = almanac_of(tmp_path / "garden", text, "2027-05-01").canopy().seedlings
    assert judged.verdict == verdict


NEW_ZEALAND = {"lat": -41.2, "lon": 173.0, "region": "new zealand"}


def test_what_spreads_in_much_of_the_world_is_no_heir_where_no_list_names_it_yet(tmp_path: Path) -> None:
    """Page and job agree: it goes, however near its end the old tree beside it is."""
    text = garden_text(
        plant("old", "english oak", year=1900, at=[0, 0], height_m=18, state="declining"),
        plant("it", "tree of heaven", year=2025, origin="chance seedling", plan="undecided", at=[6, 0]),
        **NEW_ZEALAND,
    )
    almanac = almanac_of(tmp_path / "garden", text, "2027-11-25")
    canopy = almanac.canopy()
    (judged,) = canopy.seedlings
    assert judged.verdict == "remove"
    assert "spreads at others' cost" in judged.reasons[0]
    assert not any("heir of" in reason for reason in judged.reasons)
    assert {job.verb for job in almanac.jobs() if job.plant == "it"} & {"pull"}


def test_a_seedling_that_may_stay_is_not_pulled(tmp_path: Path) -> None:
    """Sea buckthorn is at home in Germany, and listed only on other coasts and prairies."""
    text = garden_text(
        plant("it", "sea buckthorn", year=2025, origin="came by itself", plan="undecided", at=[0, 0]),
        region="germany",
    )
    almanac = almanac_of(tmp_path / "garden", text, "2027-05-01")
    (judged,) = almanac.canopy().seedlings
    assert judged.verdict == "keep"
    assert not [job for job in almanac.jobs() if job.verb == "pull"]


@pytest.mark.parametrize(
    ("lat", "on", "winter"),
    [(-41.2, "2027-05-01", 2027), (-41.2, "2027-10-05", 2028), (46.9, "2027-10-05", 2027)],
)
def test_a_seedling_is_moved_by_a_winter_that_is_still_to_come(
    tmp_path: Path, lat: float, on: str, winter: int
) -> None:
    """Winters of the south are over by September."""
    text = garden_text(
        plant("it", "hazel", year=2022, origin="came by itself", plan="undecided", at=[1, 0]),
        '[[path]]\nname = "lane"\nline = [[0, -9], [0, 9]]\n',
        lat=lat,
    )
    (judged,) = almanac_of(tmp_path / "garden", text, on).canopy().seedlings
    assert (judged.verdict, judged.by) == ("move", winter)
