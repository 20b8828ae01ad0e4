"""What a heap is made of, and what it lacks."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.garden.model import HeapLayer
from leafturn.soil.compost.mix import (
    Part,
    c_to_n,
    kg_for_c_to_n,
    kg_for_water,
    litres_of_water,
    material,
    materials,
    mix_of,
    water_percent,
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


AMOUNTS = st.lists(st.tuples(st.sampled_from(NAMES), st.floats(0.5, 200)), min_size=1, max_size=5)


@settings(max_examples=60, deadline=None)
@given(AMOUNTS, st.sampled_from(NAMES), st.floats(15, 60), st.floats(40, 65))
def test_the_amount_to_add_brings_the_mix_where_it_should(
    amounts: list[tuple[str, float]], more: str, ratio: float, water: float
) -> None:
    parts = [part(name, kg) for name, kg in amounts]
    extra = part(more, 0).material
    kg = kg_for_c_to_n(parts, extra, ratio)
    if kg is not None:
        assert kg > 0
        assert c_to_n([*parts, part(more, kg)]) == pytest.approx(ratio, rel=1e-6)
    kg = kg_for_water(parts, extra, water)
    if kg is not None:
        assert kg > 0
        assert water_percent([*parts, part(more, kg)]) == pytest.approx(water, rel=1e-6)
    litres = litres_of_water(parts, water)
    mass, held = sum(p.kg for p in parts), sum(p.kg * p.material.water / 100 for p in parts)
    assert (held + litres) / (mass + litres) * 100 >= water - 1e-6
