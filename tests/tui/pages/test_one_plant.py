"""A plant's own page says what is to be done at it, or that nothing is."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn_tui.pages.one_plant import OnePlant

GARDEN = garden_text(
    plant("pine", "scots pine", year=1980, at=[0, 0]),
    plant("snowdrops", "snowdrop", year=2010, at=[20, 0]),
    plant("boskoop", "apple", cultivar="Boskoop", year=2005, at=[40, 0]),
    plant("cox", "apple", cultivar="Cox's Orange Pippin", year=2005, at=[45, 0]),
)


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, GARDEN, "2027-08-20")


def page(almanac: Almanac, plant_id: str) -> str:
    return "\n".join(
        "".join(part.text for part in row.pieces) for row in OnePlant(plant_id).rows(almanac, 100)
    )


@pytest.mark.parametrize("plant_id", ["pine", "snowdrops"])
def test_kinds_that_need_nothing_say_so(almanac: Almanac, plant_id: str) -> None:
    assert not [job for job in almanac.jobs() if plant_id in (job.plant, *job.plants)]
    assert f"Nothing to do: no work falls to {plant_id} this season." in page(almanac, plant_id)


def test_jobs_of_a_plant_and_of_its_group_stand_on_its_page(almanac: Almanac) -> None:
    told = page(almanac, "boskoop")
    assert "summer prune" in told
    assert "Nothing to do" not in told
    card = almanac.plant("boskoop")
    assert card is not None
    shared = [job for job_id in card.jobs if (job := almanac.job(job_id)) is not None and len(job.plants) > 1]
    assert shared
    assert all("boskoop" in job.plants for job in shared)
