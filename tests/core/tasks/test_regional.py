"""Jobs and cautions belong to regions: pests and animals of a continent, months of a hemisphere."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, heap, plant

from leafturn.almanac import Almanac
from leafturn.garden.regions import world_part
from leafturn.tasks.regional import ANIMALS
from leafturn.tasks.rule_model import load_rules

THINGS = (
    plant("nut", "hazel", year=2005, at=[0, 0]),
    plant("apple", "apple", year=2005, at=[20, 0]),
    plant("ash", "common ash", year=1950, state="declining", at=[60, 0]),
    heap("bay", stage="working", at=[5, 5]),
)
TASMANIA, MISSOURI, STYRIA = (
    {"lat": -42.9, "lon": 147.3},
    {"lat": 38.6, "lon": -92.2},
    {"lat": 46.9, "lon": 15.9},
)


def there(folder: Path, place: dict[str, float], on: str = "2027-02-20") -> Almanac:
    return almanac_of(folder, garden_text(*THINGS, **place), on)


@pytest.mark.parametrize(
    ("place", "part"),
    [(TASMANIA, "australia"), ({"lat": -41.3, "lon": 173.2}, "new zealand"),
     (MISSOURI, "north america"), (STYRIA, "europe"),
     ({"lat": -39.8, "lon": -73.2}, "south america"), ({"lat": 4.6, "lon": -74.1}, "south america"),
     ({"lat": 35.7, "lon": 139.7}, "eastern asia"), ({"lat": -33.9, "lon": 18.4}, "southern africa"),
     ({"lat": 9.0, "lon": 38.7}, "elsewhere"),
     ({"lat": 51.5, "lon": -9.5}, "europe"),
     # towns on either side of the southern border of the United States, and islands (an atlas, recalled)
     ({"lat": 32.7, "lon": -117.2}, "north america"), ({"lat": 32.2, "lon": -110.9}, "north america"),
     ({"lat": 26.2, "lon": -98.2}, "north america"), ({"lat": 24.6, "lon": -81.8}, "north america"),
     ({"lat": 29.1, "lon": -111.0}, "elsewhere"), ({"lat": 25.7, "lon": -100.3}, "elsewhere"),
     ({"lat": 17.1, "lon": -96.7}, "elsewhere"), ({"lat": 23.1, "lon": -82.4}, "elsewhere"),
     ({"lat": 20.8, "lon": -156.3}, "elsewhere")],
)  # fmt: skip
def test_the_part_of_the_world_is_told_by_the_place(place: dict[str, float], part: str) -> None:
    assert world_part(place["lat"], place["lon"]) == part


@pytest.mark.parametrize("place", [TASMANIA, MISSOURI])
def test_big_buds_and_slow_worms_are_told_in_europe_alone(tmp_path: Path, place: dict[str, float]) -> None:
    def told(almanac: Almanac) -> tuple[bool, bool]:
        jobs = almanac.jobs()
        cautions = [caution for job in jobs for caution in job.cautions]
        assert not any("{" in caution for caution in cautions)
        assert any("sleeping" in caution for caution in cautions)
        return any(job.verb == "pick big buds" for job in jobs), any("slow-worm" in c for c in cautions)

    assert told(there(tmp_path / "here", STYRIA)) == (True, True)
    assert told(there(tmp_path / "there", place)) == (False, False)


def test_southern_sentences_name_southern_months(tmp_path: Path) -> None:
    """Leaves raked in autumn are worms' by October there; a crown is looked at in February."""
    south, north = there(tmp_path / "s", TASMANIA), there(tmp_path / "n", STYRIA)
    for almanac, here, other in ((south, "October", "April"), (north, "April", "October")):
        rake = next(job for job in almanac.jobs() if job.verb == "rake leaves")
        assert any(f"by {here}" in line for line in rake.why)
        assert not any(f"by {other}" in line for line in rake.why)
    for almanac, month in ((south, "February"), (north, "August")):
        (elder,) = almanac.canopy().old_trees
        assert any(f"A job for {month}" in line for line in elder.says)


def test_every_animal_of_the_rules_has_its_words_in_every_part() -> None:
    rules = load_rules().rules
    named = {
        word for rule in rules for c in rule.cautions for word in ("{sleepers}", "{slug eaters}") if word in c
    }
    assert named
    assert all(named <= set(words) for words in ANIMALS.values())
    assert not any(
        "{" in c.replace("{sleepers}", "").replace("{slug eaters}", "") for r in rules for c in r.cautions
    )


def test_a_guard_keeps_off_what_gnaws_there(tmp_path: Path) -> None:
    """Of one bare stem, and of two told together."""
    for place, beasts in ((TASMANIA, "rabbits and wallabies"), (MISSOURI, "voles and rabbits")):
        text = garden_text(plant("a", "apple", year=2024), plant("b", "apple", year=2025), **place)
        folder = tmp_path / beasts.replace(" ", "-")
        folder.mkdir()
        hazards = almanac_of(folder, text, "2027-02-20").heed()
        assert [beasts in line.says for line in hazards.bark if line.matter == "no guard"] == [True, True]
        assert f"keeps {beasts} off" in hazards.mesh
