"""Months in leaf, from heat and frost."""

from __future__ import annotations

import msgspec

from leafturn.almanac import Almanac
from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.leaf_months import leaf_months
from leafturn.kinds.library import load_library
from leafturn.kinds.model import LeafFacts


def months(weir_meadow: Almanac, kind: str, **own: float) -> tuple[float, ...]:
    usual = weir_meadow._seasons.weather.usual_heat
    return leaf_months(weir_meadow.library.match(kind).kind, usual, Numbers(own), -1.0)


def test_summer_is_in_leaf_and_winter_is_not(weir_meadow: Almanac) -> None:
    for kind in ("common ash", "elderberry", "sessile oak", "pear"):
        found = months(weir_meadow, kind)
        assert found[5:9] == (1, 1, 1, 1)
        assert found[0] == found[1] == found[11] == 0


def test_an_early_leafer_is_green_before_a_late_one(weir_meadow: Almanac) -> None:
    """Elder and birch leaf before oak and walnut (common practice, no source)."""
    early, late = months(weir_meadow, "elderberry"), months(weir_meadow, "common ash")
    assert sum(early[2:5]) > sum(late[2:5])


def test_an_evergreen_always_is() -> None:
    usual = None
    assert leaf_months(load_library()[0].match("swiss stone pine").kind, usual, Numbers({})) == (1,) * 12  # type: ignore[arg-type]


def test_a_kind_that_states_nothing_goes_by_the_garden_s_own_numbers(weir_meadow: Almanac) -> None:
    bare = msgspec.structs.replace(weir_meadow.library.match("pear").kind, leaf=LeafFacts())
    usual = weir_meadow._seasons.weather.usual_heat
    early, late, never = (
        leaf_months(bare, usual, Numbers({"leaf_out_heat": heat})) for heat in (50, 400, 900)
    )
    assert sum(early) > sum(late) > sum(never)


def test_the_light_of_a_month_follows(weir_meadow: Almanac) -> None:
    medlar = weir_meadow.light_by_month(["medlar"])["medlar"]
    assert medlar[1] > medlar[6] + 5
    assert medlar[3] > medlar[6] - 1
