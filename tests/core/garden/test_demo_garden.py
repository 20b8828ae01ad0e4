"""The demo garden reads without a fault and stands where it says."""

from __future__ import annotations

import pytest
from tests.samples.places import DEMO

from leafturn.garden.model import Point
from leafturn.garden.reading.reader import read_garden


def test_demo_garden_reads_without_a_fault() -> None:
    reading = read_garden(DEMO)
    garden = reading.garden
    assert reading.faults == ()
    assert len(garden.plants) == 44
    assert all(plant.point is not None for plant in garden.plants)
    oak, ash = garden.plant("next-oak"), garden.plant("toll-ash")
    assert oak is not None
    assert ash is not None
    assert (oak.point, ash.point) == (Point(16, 18), Point(24, 18))


@pytest.mark.parametrize(("climber", "host"), [("kiwi-f1", "alder-west"), ("golden-hop", "hazel-b")])
def test_climbers_stand_on_their_hosts(climber: str, host: str) -> None:
    garden = read_garden(DEMO).garden
    first, second = garden.plant(climber), garden.plant(host)
    assert first is not None
    assert second is not None
    assert first.point == second.point


def test_lines_are_those_of_the_file() -> None:
    reading = read_garden(DEMO)
    lines = reading.file.read_text(encoding="utf-8").split("\n")
    for plant in reading.garden.plants:
        assert lines[plant.line - 1].startswith("[[plant]]")
        assert f'id = "{plant.id}"' in "\n".join(lines[plant.line : plant.line + 3])
