"""Heights of street trees by years since planting, against what a garden file with only the year is told.

McPherson, E. G., van Doorn, N. S., Peper, P. J. (2016). Urban tree database. Fort Collins, CO: Forest Service
Research Data Archive. RDS-2016-0005. In `street_tree_heights.csv` beside this file: ages binned about 5, 10,
20 and 40 years, by climate region and over ALL, from five trees on; 10, 50 and 90 % of the heights
[m] and the median crown radius [m]. Of each kind the library takes one figure of it, the median at 20 years
over ALL (and a grown height where 40 years told more); what trees come to at other ages, and from region to
region, is what is tested.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import pytest

from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import Plant
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import specimen_of

LIBRARY, _ = load_library()
PLANTED = 1980


@dataclass(frozen=True)
class Row:
    kind: str
    region: str
    age: int
    least: float
    median: float
    most: float

    @property
    def told(self) -> float:
        """Height [m] that the program tells of such a tree."""
        tree = Plant(kind=self.kind, year=PLANTED)
        year = PLANTED + self.age
        return float(growth_of(specimen_of(tree, LIBRARY), Numbers({}), year).heights(year))

    @property
    def met(self) -> bool:
        return self.least <= self.told <= self.most


def _rows() -> tuple[Row, ...]:
    with (Path(__file__).parent / "street_tree_heights.csv").open(encoding="utf-8") as file:
        return tuple(
            Row(r["kind"], r["region"], int(r["age"]), float(r["h10"]), float(r["h50"]), float(r["h90"]))
            for r in csv.DictReader(file)
        )


ROWS = _rows()


def test_four_in_five_lie_between_the_tenth_and_the_ninetieth() -> None:
    missed = [f"{r.kind} {r.region} {r.age}: {r.told:.1f} for {r.least}-{r.most}" for r in ROWS if not r.met]
    assert len(ROWS) >= 150
    assert len(missed) <= 0.2 * len(ROWS), missed


def test_four_in_five_are_met_of_those_that_nothing_was_taken_from() -> None:
    """The library takes the medians at twenty years over all regions; these are left out here."""
    asked = [row for row in ROWS if (row.region, row.age) != ("ALL", 20)]
    missed = [f"{r.kind} {r.region} {r.age}: {r.told:.1f} for {r.least}-{r.most}" for r in asked if not r.met]
    assert len(asked) >= 120
    assert len(missed) <= 0.2 * len(asked), missed


def test_nine_in_ten_of_the_rows_over_all_regions_do() -> None:
    asked = [row for row in ROWS if row.region == "ALL"]
    assert len(asked) >= 50
    assert sum(row.met for row in asked) >= 0.9 * len(asked)


@pytest.mark.parametrize("age", [5, 10, 20, 40])
def test_no_age_is_told_too_tall_or_too_low(age: int) -> None:
    """Half of the trees taller, half lower, within a sixth."""
    shares = sorted(row.told / row.median for row in ROWS if row.age == age and row.region != "ALL")
    assert shares[len(shares) // 2] == pytest.approx(1.0, abs=1 / 6)


def test_it_is_no_figure_of_a_row_that_is_told_back() -> None:
    """Most rows stand at other ages than the one the library knows."""
    assert sum(row.age != 20 for row in ROWS) > 80
