"""Work of winter and of frost is told where there is winter and frost.

Common practice of growers in the tropics, no source: nothing dies back to be cut down where no month is
cool, and a heap works the year round where it never freezes. Monthly means from memory.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, heap, plant
from tests.samples.towns import KOCHI, TENERIFE

from leafturn.almanac import Almanac

PLACES: dict[str, tuple[float, float, dict[str, list[float]]]] = {
    "kochi": (10.0, 76.3, KOCHI),
    "tenerife": (28.5, -16.3, TENERIFE),
    "hills": (46.93, 15.87, MONTHS),
}


@pytest.fixture(scope="module")
def gardens(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Almanac]:
    things = (
        plant("comfrey", "comfrey", year=2015, at=[0, 0]),
        plant("orange", "orange", year=2015, at=[9, 0]),
        plant("pear", "pear", year=2027, at=[18, 0]),
        heap("bay", at=[0, 9], stage="working"),
    )
    folder: Path = tmp_path_factory.mktemp("places")
    return {
        name: almanac_of(folder / name, garden_text(*things, climate=months, lat=lat, lon=lon), "2027-01-20")
        for name, (lat, lon, months) in PLACES.items()
    }


def rules(almanac: Almanac) -> dict[str, str]:
    """The reasons of all jobs by their rule."""
    return {job.rule: " ".join(job.why) for job in almanac.jobs()}


def test_where_no_month_is_cool_nothing_is_made_ready_for_winter(gardens: dict[str, Almanac]) -> None:
    of_winter = {"clear-top-growth", "cover-heap", "check-stakes"}
    assert not of_winter & rules(gardens["kochi"]).keys()
    assert of_winter <= rules(gardens["hills"]).keys()


def test_a_heap_is_turned_in_winter_where_it_never_freezes(gardens: dict[str, Almanac]) -> None:
    for place in ("kochi", "tenerife"):
        assert gardens[place].job("bay:turn").state == "due", place
    assert gardens["hills"].job("bay:turn").state == "not yet"


def test_frost_is_a_reason_for_pruning_only_where_it_comes(gardens: dict[str, Almanac]) -> None:
    citrus = "prune-evergreen-tree"
    for place in ("kochi", "tenerife"):
        assert "freezes" not in rules(gardens[place])[citrus]
        assert "Frost" not in rules(gardens[place])[citrus]
    assert "freezes" in rules(gardens["hills"])[citrus]
