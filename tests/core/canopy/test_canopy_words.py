"""What the canopy says of an old tree: nothing seen that nobody looked at, no figures that contradict."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.canopy.model import OldTree
from leafturn.journal.entries import CrownNote

ON = "2027-04-19"


def ash(folder: Path, *more: str) -> OldTree:
    tree = plant("ash", "common ash", year=1950, state="declining", height_m=20.0, crown_m=7.0, at=[0, 0])
    return almanac_of(folder, garden_text(tree, *more), ON).canopy().old_trees[0]


def test_no_crown_has_thinned_that_nobody_looked_at(tmp_path: Path) -> None:
    told = " ".join(ash(tmp_path, plant("medlar", "medlar", year=2010, at=[3, 3])).says)
    assert "the crown has thinned" not in told
    assert "by its state alone" in told
    assert "nobody has looked at the crown" in told


def test_a_declining_tree_gets_no_years_from_its_age_beside_its_odds(tmp_path: Path) -> None:
    tree = ash(tmp_path)
    assert tree.down.likely is not None
    assert tree.down.likely < 2060
    told = " ".join(tree.says)
    assert "its kind often lives" not in told
    assert "It is declining: its age no longer tells how long it has." in told


def test_what_scorches_does_not_gain(tmp_path: Path) -> None:
    fern = plant("fern", "ostrich fern", year=2018, at=[2, 2])
    tree = ash(tmp_path, fern, plant("medlar", "medlar", year=2010, at=[-5, -4]))
    replies = {row.plant: row.scorches for row in tree.releases}
    assert replies["fern"]
    for choice in tree.choices:
        assert "fern" not in {name for name, _ in choice.gainers}
    assert any("medlar" in {name for name, _ in choice.gainers} for choice in tree.choices)


def test_later_light_says_with_which_fall_it_reckons(tmp_path: Path) -> None:
    tree = ash(tmp_path, plant("medlar", "medlar", year=2010, at=[3, 3]))
    assert any(f"reckons with its fall in {tree.down.likely}" in line for line in tree.says)


def test_a_word_of_the_middle_only_where_it_explains_something(tmp_path: Path) -> None:
    near = ash(tmp_path, plant("oak", "sessile oak", year=2026, at=[1, 0], role=["heir"]))
    assert "off its middle" not in " ".join(near.says)


def test_heirs_off_the_middle_are_said_to_need_longer(tmp_path: Path) -> None:
    tree = ash(tmp_path, plant("oak", "sessile oak", year=2026, at=[-7, 0], role=["heir"]))
    told = " ".join(tree.says)
    assert tree.succession.half_covered.likely is not None
    assert "planted now it covers half of the gap about" in told
    assert "those here stand off its middle and need longer." in told


def test_care_and_canopy_say_the_same_of_a_kept_stem(tmp_path: Path) -> None:
    tree = plant("ash", "common ash", year=1950, state="declining", height_m=20.0, at=[0, 0])
    path = '[[path]]\nname = "lane"\nused = "daily"\npublic = true\nline = [[-40, 9], [40, 9]]\n'
    almanac = almanac_of(tmp_path, garden_text(tree, path), ON)
    said = "A stem lower than 9.0 m is too short to reach them lying flat; it can still slide or roll."
    assert said in almanac.canopy().old_trees[0].says
    assert said in " ".join(line.says for line in almanac.heed().falls)


def test_one_look_is_no_trend_and_looks_that_agree_show_no_decline(tmp_path: Path) -> None:
    tree = garden_text(plant("ash", "common ash", year=1950, height_m=20.0, crown_m=7.0, at=[0, 0]))

    def told(*years: int) -> str:
        looks = [CrownNote(on=dt.date(year, 7, 1), plant="ash", live_percent=80.0) for year in years]
        almanac = almanac_of(tmp_path / "-".join(map(str, years)), tree, ON, *looks)
        return " ".join(almanac.canopy().old_trees[0].says)

    assert "live crown 80 % (Jul 2026); one look is not a trend." in told(2026)
    assert "live crown 80 % (Jul 2026); 3 looks show no decline." in told(2022, 2024, 2026)
