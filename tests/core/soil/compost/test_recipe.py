"""What to add to a heap: one answer for carbon to nitrogen and water at once."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.soil.compost.mix import Part, c_to_n, material, materials, water_percent
from leafturn.soil.compost.recipe import MAY_C_TO_N, MAY_WATER, WITHIN_REACH, recipe_for

NAMES = sorted(materials())
AMOUNTS = st.lists(st.tuples(st.sampled_from(NAMES), st.floats(0.5, 200)), min_size=1, max_size=5)


def part(name: str, kg: float) -> Part:
    found = material(name)
    assert found is not None
    return Part(material=found, kg=kg)


@settings(max_examples=60, deadline=None)
@given(AMOUNTS)
def test_whatever_lies_in_a_heap_is_brought_right_in_both_at_once(amounts: list[tuple[str, float]]) -> None:
    parts = [part(name, kg) for name, kg in amounts]
    recipe = recipe_for(parts)
    assert recipe is not None
    whole = [*parts, *recipe.added]
    assert all(added.kg > 0 for added in recipe.added)
    assert MAY_C_TO_N[0] - 1e-6 <= c_to_n(whole) <= MAY_C_TO_N[1] + 1e-6
    assert MAY_WATER[0] - 1e-6 <= water_percent(whole) <= MAY_WATER[1] + 1e-6
    assert recipe.c_to_n == pytest.approx(c_to_n(whole))


def test_no_lighter_addition_is_found_by_trying_many() -> None:
    """Wet grass wants a dry thing: of all one could add alone, in steps of half a kilogram, none is less."""
    grass = [part("grass clippings", 50)]
    recipe = recipe_for(grass)
    assert recipe is not None
    least = sum(added.kg for added in recipe.added)
    for name in WITHIN_REACH:
        tried = [part(name, half / 2) for half in range(1, int(least * 2) - 1)]
        assert not any(
            25 <= c_to_n([*grass, more]) <= 30 and 50 <= water_percent([*grass, more]) <= 60 for more in tried
        )


def test_what_the_garden_has_besides_is_used() -> None:
    """Chips alone want nitrogen in little water: with hen manure far less is added than without."""
    chips, hens = [part("wood chips", 50)], material("hen manure")
    assert hens is not None
    without, with_hens = recipe_for(chips), recipe_for(chips, [hens])
    assert without is not None
    assert with_hens is not None
    assert any(added.material is hens for added in with_hens.added)
    assert sum(a.kg for a in with_hens.added) < sum(a.kg for a in without.added) / 2


def test_nothing_is_added_to_an_empty_heap() -> None:
    assert recipe_for(()) is None
