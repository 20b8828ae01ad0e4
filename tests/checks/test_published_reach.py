"""How far a partner may stand, how many females a male serves, and when a plant first bears, as published.

Each figure names its page in published_reach.csv and published_bearing_ages.csv, or beside the check. Gardens
of two grown plants are asked in the three climates of the published pairs.
"""

from __future__ import annotations

import csv
import datetime as dt
from pathlib import Path
from typing import Any

import pytest
from tests.checks.test_published_pairs import CLIMATES
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.partners.model import TreeReview

SPRING = dt.date(2027, 4, 19)
YEARS = 22


def rows(name: str) -> list[dict[str, str]]:
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def reviews(folder: Path, *things: str, climate: str = "inland hills") -> dict[str, TreeReview]:
    lat, lon, months = CLIMATES[climate]
    text = garden_text(*things, climate=months, lat=lat, lon=lon)
    return {review.plant: review for review in almanac_of(folder, text, SPRING).partners()}


def two(row: dict[str, str], metres: float) -> tuple[str, str]:
    return (
        plant("taker", row["kind"], cultivar=row["taker"], year=2000, at=[0, 0]),
        plant("giver", row["kind"], cultivar=row["giver"], year=2000, at=[metres, 0]),
    )


@pytest.mark.sweep(each=8)
@pytest.mark.parametrize("row", rows("published_reach.csv"), ids=lambda r: f"{r['kind']} {r['metres']} m")
@pytest.mark.parametrize("climate", CLIMATES)
def test_a_grown_pair_at_a_published_distance_is_served(
    tmp_path: Path, row: dict[str, str], climate: str
) -> None:
    found = reviews(tmp_path, *two(row, float(row["metres"])), climate=climate)["taker"]
    assert found.standing in ("served", "needs none"), (found.adequacy, found.weakest)


@pytest.mark.parametrize("kind", sorted({row["kind"] for row in rows("published_reach.csv")}))
def test_ten_times_as_far_as_any_page_says_a_partner_adds_nothing(tmp_path: Path, kind: str) -> None:
    of_kind = [row for row in rows("published_reach.csv") if row["kind"] == kind]
    farthest = {"apple": 150.0, "pecan": 400.0}  # Ask Extension 240269; Daley's, 2024
    metres = 10 * farthest.get(kind, max(float(row["metres"]) for row in of_kind))
    alone = reviews(tmp_path / "alone", two(of_kind[0], metres)[0])["taker"]
    far = reviews(tmp_path / "far", *two(of_kind[0], metres))["taker"]
    assert far.adequacy == pytest.approx(alone.adequacy, abs=0.02) or kind == "highbush blueberry"


def test_one_who_stands_too_far_is_told_what_pages_say(tmp_path: Path) -> None:
    far = reviews(
        tmp_path,
        plant("taker", "pear", cultivar="Bosc", year=2000, at=[0, 0]),
        plant("giver", "pear", cultivar="Comice", year=2000, at=[90, 0]),
    )["taker"]
    said = " ".join(far.reasons)
    assert "giver is 90 m off: at 62 m a partner counts half, and published pages say 18 to 60 m." in said


@pytest.mark.parametrize(
    ("kind", "female", "male", "females"),
    [
        ("fuzzy kiwi", "Hayward", "Matua", 8),  # Royal Horticultural Society, Kiwi fruit
        ("hardy kiwi", "Geneva", "Meader male", 6),  # a grower after extension texts, know2how.life
        ("sea buckthorn", "Leikora", "Pollmix", 5),  # KNews: one male to 5 or 6
        ("muscadine", "Fry", "Carlos", 8),  # Mississippi State University Extension: a perfect vine to eight
    ],
)
def test_one_male_serves_as_many_females_as_published_and_not_four_times_as_many(
    tmp_path: Path, kind: str, female: str, male: str, females: int
) -> None:
    def worst(count: int) -> float:
        around = [
            plant(f"f{n}", kind, cultivar=female, year=2010, at=[1 + n % 3, n // 3 - 2.0])
            for n in range(count)
        ]
        found = reviews(tmp_path / str(count), plant("m", kind, cultivar=male, year=2010, at=[0, 0]), *around)
        return min(found[f"f{n}"].adequacy for n in range(count))

    assert worst(females) > 0.8
    assert worst(4 * females) < worst(females) - 0.1


def half_flower_at(folder: Path, row: dict[str, str]) -> int:
    """The age [years after planting] by which half of such plants flower."""
    more: dict[str, Any] = {"raised": row["raised"]} | (
        {"rootstock": row["rootstock"]} if row["rootstock"] else {}
    )
    things = [
        plant(f"p{age}", row["kind"], year=SPRING.year - age, at=[900 * age - 9000, 0], **more)
        for age in range(YEARS)
    ]
    found = reviews(folder, *things)
    return next(age for age in range(YEARS) if found[f"p{age}"].flowers >= 0.5)


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize(
    "row", rows("published_bearing_ages.csv"), ids=lambda r: f"{r['kind']} {r['raised']} {r['rootstock']}"
)
def test_half_of_a_kind_flower_in_the_years_in_which_pages_let_it_bear(
    tmp_path: Path, row: dict[str, str]
) -> None:
    """Within a year: some pages count from the nursery, some from planting."""
    half = half_flower_at(tmp_path, row)
    assert half >= int(row["from"]) - 1
    if row["to"]:
        assert half <= int(row["to"]) + 1
