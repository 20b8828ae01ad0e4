"""What a heap is made of."""

from __future__ import annotations

import pytest

from leafturn.garden.model import HeapLayer
from leafturn.soil.compost.mix import (
    Part,
    material,
    materials,
    mix_of,
)

NAMES = sorted(materials())


def part(name: str, kg: float) -> Part:
    found = material(name)
    assert found is not None
    return Part(material=found, kg=kg)


def test_every_material_is_whole_and_names_its_source() -> None:
    for name, row in materials().items():
        assert 0 < row.nitrogen < 20, name
        assert 30 <= row.carbon <= 65, name
        assert 0 < row.water < 95, name
        assert len(row.source) > 10, name


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [("grass clippings", 9, 25), ("straw", 48, 150), ("wheat straw", 100, 150), ("vegetable waste", 11, 13),
     ("kitchen scraps", 14, 16), ("fruit waste", 20, 49), ("horse manure", 22, 50), ("wood chips", 451, 819),
     ("sawdust", 200, 750), ("newspaper", 398, 852), ("poultry manure", 3, 10), ("sheep manure", 13, 20),
     ("cattle manure", 11, 30), ("hay, legume", 15, 19), ("seaweed", 5, 27)],
)  # fmt: skip
def test_ratios_lie_in_the_published_ranges(name: str, least: float, most: float) -> None:
    """NRAES-54 (Rynk 1992), Table A.1; part read in tables that quote it, part recalled."""
    found = material(name)
    assert found is not None
    assert least <= found.carbon / found.nitrogen <= most


def test_the_table_knows_the_names_people_use() -> None:
    grass = material("Lawn  clippings")
    assert grass is not None
    assert grass.name == "grass clippings"
    assert material("bicycle") is None
    mixed = mix_of((HeapLayer(what="bicycle", kg=3), HeapLayer(what="leaves", kg=5)))
    assert mixed.unknown == ("bicycle",)
    assert mixed.water_percent == pytest.approx(35)
    assert mix_of(()).c_to_n is None
