"""Seedlings under an old tree that is going: heirs, those in the way, and juglone."""

from __future__ import annotations

from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.canopy.model import Seedling

ON = "2027-04-19"
CHERRY = plant(
    "old-cherry", "sweet cherry", year=1950, state="declining", height_m=12.0, crown_m=6.0, at=[0, 0]
)
PERSIMMON = plant("persimmon", "american persimmon", year=2005, at=[6, 0])
ITSELF = "came by itself"


def judged(folder: Path, *things: str) -> dict[str, Seedling]:
    canopy = almanac_of(folder, garden_text(*things), ON).canopy()
    return {seedling.plant: seedling for seedling in canopy.seedlings}


def test_the_only_trees_that_would_fill_a_gap_are_not_ordered_out(tmp_path: Path) -> None:
    """A self-sown walnut and hickory left standing as the next canopy, one crowding a persimmon."""
    found = judged(
        tmp_path, CHERRY, PERSIMMON,
        plant("walnut", "black walnut", year=2015, origin=ITSELF, height_m=6.0, at=[3, 1]),
        plant("hickory", "shagbark hickory", year=2015, origin=ITSELF, height_m=5.0, at=[-4, -2]),
    )  # fmt: skip
    assert found["walnut"].verdict == "keep"
    told = " ".join(found["walnut"].reasons)
    assert "heir of old-cherry: of its gap" in told
    assert "persimmon stands 3.2 m off and both crowns want the room" in told
    assert "choose between the two only when their crowns meet" in told


def test_a_seedling_that_gives_nothing_to_the_gap_goes_where_it_crowds(tmp_path: Path) -> None:
    crowding = plant("oak", "red oak", year=2015, origin=ITSELF, at=[33, 0])
    neighbour = plant("pear", "pear", year=2000, at=[30, 0])
    found = judged(tmp_path, CHERRY, neighbour, crowding)
    assert found["oak"].verdict == "remove"
    assert not any("heir" in reason for reason in found["oak"].reasons)


def test_a_chosen_heir_stays_and_the_page_follows(tmp_path: Path) -> None:
    """`role = "heir"`: kept though undecided, and among those who take the gap."""
    heir = plant("walnut", "black walnut", year=2024, role=["heir"], plan="undecided", at=[3, 1])
    text = garden_text(CHERRY, PERSIMMON, heir)
    canopy = almanac_of(tmp_path, text, ON).canopy()
    assert [s.verdict for s in canopy.seedlings] == ["keep"]
    (cherry,) = canopy.old_trees
    assert "walnut" in [s.plant for s in cherry.succession.successors]


def test_a_kind_that_suffers_from_juglone_is_not_in_nobodys_way_beside_a_walnut(tmp_path: Path) -> None:
    walnut = plant("walnut", "black walnut", year=1990, at=[0, 0])
    found = judged(tmp_path, walnut, plant("apple", "apple", year=2025, plan="undecided", at=[12, 0]))
    assert found["apple"].verdict == "move"
    assert "walnut stands 12 m off, and its kind suffers from juglone" in found["apple"].reasons


def test_what_it_harms_is_told(tmp_path: Path) -> None:
    found = judged(
        tmp_path, plant("apple", "apple", year=2000, at=[14, 0]),
        plant("walnut", "black walnut", year=2025, plan="undecided", at=[0, 0]),
    )  # fmt: skip
    assert "grown, its roots harm apple by juglone" in found["walnut"].reasons
