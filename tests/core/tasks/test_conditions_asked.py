"""Every condition that a rule can give is asked of something."""

from __future__ import annotations

from leafturn.tasks.conditions import _OF_KIND, _OF_KIND_ALONE, _OF_PLANT
from leafturn.tasks.rule_model import Applies

# Asked of the garden, of heaps and of nights to come, or changes how another is asked.
ELSEWHERE = {
    "subject", "stages", "frost_comes", "water_rests", "climates", "frost_within_days", "frost_chance_over",
    "whatever_plan", "answered_by", "not_in", "coldest_month_over_c", "coldest_month_under_c",
    "without_climates", "snow_over_mm",
}  # fmt: skip


def test_each_condition_is_asked_in_one_place() -> None:
    asked = [*ELSEWHERE, *_OF_KIND_ALONE, *_OF_KIND, *_OF_PLANT]
    assert sorted(Applies.__struct_fields__) == sorted(asked)
