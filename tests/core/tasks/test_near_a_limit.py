"""A chance that creeps over a limit between two words of pollen takes no job away; one well past does."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

import msgspec
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.partners.model import TreeReview
from leafturn.tasks.inputs import SeasonState

PLANTS = (plant("apple", "apple", year=2010, at=[5, 0]), plant("pear", "pear", year=2010, at=[9, 0]))


@pytest.fixture
def state(tmp_path: Path) -> SeasonState:
    almanac = almanac_of(tmp_path, garden_text(*PLANTS), dt.date(2027, 4, 10))
    return almanac._seasons.now.state


def reviews(state: SeasonState, adequacy: float, standing: str) -> Callable[[], Iterable[TreeReview]]:
    (one,) = (r for r in state.reviewed() if r.plant == "apple")
    return lambda: (msgspec.structs.replace(one, adequacy=adequacy, standing=standing),)


@pytest.mark.parametrize(
    ("now", "standing", "usually", "told"),
    [
        (0.451, "served", "thin", "thin"),
        (0.449, "thin", "thin", "thin"),
        (0.449, "thin", "served", "served"),
        (0.159, "thin", "lacks", "lacks"),
        (0.60, "served", "thin", "served"),
        (0.30, "thin", "served", "thin"),
        (0.02, "lacks", "thin", "lacks"),
    ],
)
def test_near_a_limit_the_usual_year_decides(
    state: SeasonState, now: float, standing: str, usually: str, told: str
) -> None:
    asked = replace(
        state, reviewed=reviews(state, now, standing), usually_reviewed=reviews(state, now, usually)
    )
    assert asked.standings == {"apple": told}


def test_the_usual_year_is_asked_only_near_a_limit(state: SeasonState) -> None:
    def never() -> Iterable[TreeReview]:
        raise AssertionError("the usual year was asked for")

    far = replace(state, reviewed=reviews(state, 0.8, "served"), usually_reviewed=never)
    assert far.standings == {"apple": "served"}
