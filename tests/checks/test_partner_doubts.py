"""What is not known of a tree or its partner is said and doubted, and age counts on both sides.

Small gardens asked as a user asks them; no figure is published, the rules are those of docs/garden.md.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.journal.entries import FruitSetNote
from leafturn.partners.model import TreeReview

SPRING = dt.date(2027, 4, 19)


def reviews(folder: Path, *things: str, notes: tuple[FruitSetNote, ...] = ()) -> dict[str, TreeReview]:
    return {r.plant: r for r in almanac_of(folder, garden_text(*things), SPRING, *notes).partners()}


def pear(id: str, east: float, cultivar: str | None, year: int = 2000) -> str:
    named = {} if cultivar is None else {"cultivar": cultivar}
    return plant(id, "pear", at=[east, 0], year=year, raised="graft", **named)


def test_a_tree_too_young_to_flower_is_promised_no_crop(tmp_path: Path) -> None:
    young = reviews(tmp_path, pear("young", 0, "Comice", 2026), pear("old", 6, "Bosc"))["young"]
    assert young.standing == "lacks"
    assert young.too_young
    assert young.crop is not None
    assert young.crop < 0.05
    assert young.weakest.startswith("young is itself unlikely to flower this year")
    assert [fix.way for fix in young.remedies] == ["wait"]
    assert "young itself comes to flower" in young.remedies[0].what
    assert young.remedies[0].adequacy > 0.45
    assert dict(young.by_year)[2042] > 0.8


def test_a_young_tree_that_fruits_alone_is_promised_no_crop_either(tmp_path: Path) -> None:
    quince = plant("quince", "quince", year=2027, at=[0, 0])
    found = reviews(tmp_path, quince)["quince"]
    assert found.standing == "needs none"
    assert found.adequacy < 0.1
    assert any("unlikely to flower this year" in reason for reason in found.reasons)


def test_a_partner_to_be_planted_gives_pollen_from_its_year_on(tmp_path: Path) -> None:
    found = reviews(tmp_path, pear("comice", 0, "Comice"), pear("bosc", 6, "Bosc", 2029))
    assert set(found) == {"comice"}, "what does not stand yet is not asked about"
    by_year = dict(found["comice"].by_year)
    assert found["comice"].standing == "lacks"
    assert by_year[2028] == pytest.approx(by_year[2027], abs=1e-4)
    assert by_year[2038] > 0.8
    assert "bosc is to be planted in 2029 and flowers about 20" in found["comice"].weakest


@pytest.mark.parametrize("unknown", ["Sensation", None])
def test_an_unknown_cultivar_is_said_and_doubted_and_never_a_proven_partner(
    tmp_path: Path, unknown: str | None
) -> None:
    found = reviews(tmp_path, pear("tree", 0, "Bartlett"), pear("stranger", 6, unknown))
    for review in found.values():
        assert review.standing == "thin"
        assert review.guessed
        assert review.low < 0.1
        assert review.high > 0.9
    said = " ".join(found["tree"].reasons)
    assert ("the plant library knows not Sensation" if unknown else "has no cultivar noted") in said


def test_a_plum_of_an_unknown_name_is_no_sure_partner_where_no_alleles_are_known_at_all(
    tmp_path: Path,
) -> None:
    plums = [
        plant(name, "european plum", cultivar=cultivar, year=2000, at=[east, 0])
        for name, cultivar, east in (("known", "Coe's Golden Drop", 0), ("stranger", "Mill Plum", 6))
    ]
    assert reviews(tmp_path, *plums)["known"].standing == "thin"


@pytest.mark.parametrize(
    ("kind", "taker", "giver"),
    [("muscadine", "Fry", "Scuppernong"), ("garden strawberry", "Elsanta", "Mieze Schindler")],
)
def test_a_female_gives_no_pollen_in_any_kind(tmp_path: Path, kind: str, taker: str, giver: str) -> None:
    plants = [
        plant(name, kind, cultivar=cultivar, year=2020, at=[east, 0], sex=sex)
        for name, cultivar, east, sex in (("taker", taker, 0, "female"), ("giver", giver, 1, "female"))
    ]
    found = reviews(tmp_path, *plants)["taker"]
    assert found.standing == "lacks"
    assert "is female too" in found.weakest


def test_a_sex_that_is_not_noted_is_asked_for_and_not_taken_for_a_female(tmp_path: Path) -> None:
    found = reviews(tmp_path, plant("p", "american persimmon", year=2000, at=[0, 0]))["p"]
    assert found.weakest.startswith("The sex of p is not noted: look at its flowers about ")
    assert "some plants bear alone" in found.weakest
    assert found.low == 0
    assert found.high > 0.5
    male = plant("m", "american persimmon", year=2000, at=[5, 0], sex="male")
    beside = reviews(tmp_path, plant("p", "american persimmon", year=2000, at=[0, 0]), male)["p"]
    assert beside.standing == "thin"
    assert beside.high > 0.9


@pytest.mark.parametrize(
    ("day", "when"),
    [("2027-02-01", "about "), ("2027-08-01", "when they open next year; ")],
)
def test_flowers_that_are_over_are_looked_at_next_year(tmp_path: Path, day: str, when: str) -> None:
    garden = garden_text(plant("p", "american persimmon", year=2000, at=[0, 0]))
    (found,) = almanac_of(tmp_path, garden, day).partners()
    assert f"look at its flowers {when}" in found.weakest


def test_flowers_that_are_open_are_looked_at_now(tmp_path: Path) -> None:
    garden = garden_text(plant("p", "american persimmon", year=2000, at=[0, 0]))
    almanac = almanac_of(tmp_path, garden, SPRING)
    opens = next(e.when.likely for e in almanac.season().events if e.event == "first open")
    assert opens is not None
    (found,) = almanac.at(opens + dt.timedelta(days=1)).partners()
    assert "look at its flowers now; " in found.weakest


def test_two_seedling_walnuts_of_unknown_order_are_doubted(tmp_path: Path) -> None:
    nuts = [plant(name, "persian walnut", year=1990, at=[east, 0]) for name, east in (("a", 0), ("b", 9))]
    found = reviews(tmp_path, *nuts)["a"]
    assert found.standing == "thin"
    assert found.high > 0.8
    assert any("female or male flowers first is not noted" in reason for reason in found.reasons)


def test_old_poor_sets_do_not_hold_a_tree_down_once_a_good_partner_flowers(tmp_path: Path) -> None:
    """The steward of the story planted Bosc beside two Comices; the poor years were before it flowered."""
    poor = tuple(FruitSetNote(on=dt.date(year, 6, 20), plant="one", set="poor") for year in range(2015, 2023))
    two = (pear("one", 0, "Comice"), pear("two", 6, "Comice"))
    before = reviews(tmp_path, *two, notes=poor)["one"]
    assert before.standing != "served"
    after = reviews(tmp_path, *two, pear("bosc", 3, "Bosc", 2019))["one"]
    assert after.computed is not None
    assert after.computed > 0.8
    assert after.standing == "served"
    assert after.adequacy > 0.75, "eight poor years before it flowered take next to nothing away"


def test_a_help_that_adds_nothing_is_not_offered(tmp_path: Path) -> None:
    found = reviews(tmp_path, pear("one", 0, "Comice"), pear("two", 6, "Comice"))["one"]
    assert found.remedies
    for fix in found.remedies:
        assert fix.adequacy >= found.adequacy + 0.02


@pytest.mark.parametrize(
    ("kind", "tree", "beside", "standing"),
    [
        # Alleles and types; their sources stand beside the cultivars in the plant library.
        ("apricot", "Hargrand", "Goldrich", "lacks"),
        ("apricot", "Lambertin-1", "Hargrand", "lacks"),
        ("sweet cherry", "Brooks", "Marvin", "lacks"),
        ("almond", "Carmel", "Livingston", "lacks"),
        ("japanese plum", "Black Amber", "October Sun", "lacks"),
        ("hazel", "McDonald", "Felix", "lacks"),
        ("fig", "Calimyrna", "Brown Turkey", "lacks"),
        # University of Georgia Extension 2018: a list goes before flower order. The first two pairs share
        # their order, the last does not.
        ("pecan", "Pawnee", "Desirable", "served"),
        ("pecan", "Cape Fear", "Caddo", "served"),
        ("pecan", "Desirable", "Pawnee", "thin"),
        ("pecan", "Pawnee", "Stuart", "thin"),
    ],
)
def test_a_published_verdict_decides(
    tmp_path: Path, kind: str, tree: str, beside: str, standing: str
) -> None:
    pair = [
        plant(name, kind, cultivar=cultivar, year=1990, at=[east, 0])
        for name, cultivar, east in (("tree", tree, 0), ("beside", beside, 6))
    ]
    assert reviews(tmp_path, *pair)["tree"].standing == standing


@pytest.mark.parametrize("cultivar", ["New Star", "Cristobalina"])
def test_self_fertile_cherries_need_none(tmp_path: Path, cultivar: str) -> None:
    tree = plant("tree", "sweet cherry", cultivar=cultivar, year=2000, at=[0, 0])
    assert reviews(tmp_path, tree)["tree"].standing == "needs none"


@pytest.mark.parametrize(
    ("tree", "beside", "named_by", "refused_by"),
    [
        ("Seckel", "Bartlett", "Washington State University", "a chart of the Home Orchard Society"),
        ("Louise Bonne of Jersey", "Williams", "pear growers' lists", "an English pear chart"),
    ],
)
def test_where_published_pages_disagree_both_are_told_and_the_pair_is_doubted(
    tmp_path: Path, tree: str, beside: str, named_by: str, refused_by: str
) -> None:
    found = reviews(tmp_path, pear("tree", 0, tree), pear("beside", 6, beside))["tree"]
    assert found.standing == "thin"
    assert found.guessed
    assert found.low < 0.1
    assert found.high > 0.9
    assert found.weakest.startswith("beside is in dispute as a partner of ")
    assert f"named by {named_by}, refused by {refused_by}" in found.weakest


def test_a_page_that_refuses_a_pair_is_named(tmp_path: Path) -> None:
    pair = [
        plant(name, "apricot", cultivar=cultivar, year=2000, at=[east, 0])
        for name, cultivar, east in (("tree", "Goldrich", 0), ("beside", "Perfection", 6))
    ]
    found = reviews(tmp_path, *pair)["tree"]
    assert found.standing == "lacks"
    assert "beside does not serve Goldrich (a Washington nursery)" in found.weakest


def test_the_other_flower_order_against_a_published_list_is_told_as_both(tmp_path: Path) -> None:
    """Pawnee sheds first, Kanza takes first (Penn State Extension 2012); Georgia's list lacks Kanza."""
    pair = [
        plant(name, "pecan", cultivar=cultivar, year=1990, at=[east, 0])
        for name, cultivar, east in (("tree", "Pawnee", 0), ("beside", "Kanza", 6))
    ]
    found = reviews(tmp_path, *pair)["tree"]
    assert found.standing == "thin"
    assert found.high > 0.9
    assert "is of the other flower order, which serves as a rule, but is not among" in found.weakest
    assert "Georgia pecan pollinators" in found.weakest
