"""What the nights of the next week may take, beside what a night as cold as that would do."""

from __future__ import annotations

from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.journal.entries import ColdNightNote

TREES = (
    plant("plum", "european plum", year=2000, at=[0, 0]),
    plant("sapling", "european plum", year=2027, at=[9, 0]),
)


def test_a_night_that_kills_open_flowers_is_seen_a_week_ahead_and_not_after_it(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path / "a", garden_text(*TREES), "2027-04-20")
    cold = almanac_of(
        tmp_path / "b", garden_text(*TREES), "2027-04-20", ColdNightNote(on=almanac.on, tmin_c=-4.0)
    )
    (one,) = cold.frost_ahead()  # a sapling of this spring has no flowers to lose
    assert (one.plant, one.kind) == ("plum", "european plum")
    assert one.tonight_c == -4.0
    assert one.chance > 0.5
    hit = next(hit for hit in cold.tonight(-4.0).plants if hit.plant == "plum")
    assert one.tenth_c == hit.tenth_c
    without = {one.plant: one.chance for one in almanac.frost_ahead()}
    assert without.get("plum", 0.0) < one.chance
    assert almanac_of(tmp_path / "c", garden_text(*TREES), "2027-07-20").frost_ahead() == ()
