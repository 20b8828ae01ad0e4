"""Names in the order in which a person would list them: by letters, and numbers by their size."""

from __future__ import annotations

import random

from leafturn.base.name_order import name_order


def test_numbers_in_names_are_counted_and_not_spelt() -> None:
    wanted = [
        "apple",
        "apple-1",
        "apple-2",
        "apple-10",
        "apple-10:prune:2027",
        "bay-2",
        "pear-1-2",
        "pear-1-10",
    ]
    mixed = random.Random(7).sample(wanted, len(wanted))
    assert sorted(mixed, key=name_order) == wanted


def test_names_that_begin_with_a_number_or_are_empty_stand_beside_others() -> None:
    assert sorted(["b", "12 a", "", "2 a"], key=name_order) == ["", "2 a", "12 a", "b"]
