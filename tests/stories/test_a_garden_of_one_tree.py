"""A garden of one tree that bears nothing to eat, in the week its leaves are raked."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

ON = dt.date(2026, 11, 29)


def one_tree(folder: Path) -> Path:
    alder = plant("alder", "black alder", year=2010, at="5 paces north of gate")
    text = garden_text(alder, name="My Garden", climate=None, lat=67.8, lon=20.2)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return folder


def test_a_note_to_be_taken_back_names_the_job_and_not_its_id(tmp_path: Path) -> None:
    with AtTheDesk(one_tree(tmp_path), ON) as desk:
        desk.press(" ")
        desk.wait_for("noted: done: gather leaves")
        desk.press("u")
        assert "done: gather leaves, 29 Nov" in desk.text
        assert "garden:" not in desk.text


def test_a_larder_without_food_is_empty_all_year(tmp_path: Path) -> None:
    with AtTheDesk(one_tree(tmp_path), ON) as desk:
        desk.press("7")
        assert desk.lines[3].rstrip().endswith("nothing all year")
        assert "nothing 29 Dec" not in desk.text


def test_what_is_over_is_told_in_words_that_read(tmp_path: Path) -> None:
    with AtTheDesk(one_tree(tmp_path), ON) as desk:
        desk.press("2")
        assert "1 more plant, over or later" in desk.text


def test_where_no_place_is_given_nothing_is_said_of_it_but_on_the_page_of_plants(tmp_path: Path) -> None:
    text = garden_text(plant("apple", "apple", year=2010), climate=None, lat=52.2, lon=0.1)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    on = ("--on", "2027-04-25")
    for asked in (
        ["round"],
        ["sheet"],
        ["card", "month"],
        ["away", "--from", "2027-04-26", "--to", "2027-05-10"],
    ):
        told = run(asked[0], str(tmp_path), *asked[1:], *on).stdout
        assert "bring pollen to apple" in told, asked
        assert "place not given" not in told, asked
        assert ", ," not in told
    assert "place not given" in run("plants", str(tmp_path), *on).stdout


def test_light_and_looks_are_of_southern_months_in_the_south(tmp_path: Path) -> None:
    ash = plant("ash", "common ash", year=1930, state="declining", at=[0, 0])
    pear = plant("pear", "pear", year=2012, at="6 m north of ash")
    (tmp_path / "garden.toml").write_text(
        garden_text(ash, pear, climate=None, lat=-41.3, lon=173.3), encoding="utf-8"
    )
    with AtTheDesk(tmp_path, dt.date(2027, 10, 5)) as desk:
        desk.press("0", "v", "s")
        desk.wait_for("on the ground, November to March")
        desk.press("4")
        desk.wait_for("A job for February, when leaves tell")
        desk.press("r")
        desk.wait_for("best in February, when leaves tell")
        desk.press("escape", "v")
        desk.wait_for("the ring is as far as ash is high; % of open light")
        assert "May to September" not in desk.text
