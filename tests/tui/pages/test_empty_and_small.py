"""Gardens at their beginning, and days at the ends of what is answered: what is so, and what to do."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from screens import shown_after
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import Almanac, open_almanac
from leafturn_tui.pages import pages

ON = dt.date(2027, 4, 19)
SIZE = (80, 24)


def garden(folder: Path, *things: str, on: dt.date = ON, **more: object) -> Almanac:
    (folder / "garden.toml").write_text(garden_text(*things, **more), encoding="utf-8")
    return open_almanac(folder, on)


def told(almanac: Almanac, *keys: str) -> str:
    return " ".join(" ".join(shown_after(almanac, SIZE, *keys)).split())


@pytest.mark.parametrize("page", ["1", "2", "3", "4", "5", "7", "0"])
def test_a_garden_without_plants_is_told_how_to_get_the_first(tmp_path: Path, page: str) -> None:
    said = "\n".join(shown_after(garden(tmp_path), SIZE, page))
    assert "On page 0 the key a adds one." in said
    assert "[[plant]]" in said
    assert "×" not in said, "nothing is drawn of what is not there"


@pytest.mark.parametrize("page", ["3", "4", "6", "7", "0"])
def test_a_garden_without_plants_is_offered_no_key_that_shows_them(tmp_path: Path, page: str) -> None:
    shown = " ".join(shown_after(garden(tmp_path), (160, 24), page)[-1].split())
    assert " b bloom " in f" {shown} "
    assert not any(f" {key} " in f" {shown} " for key in ("v", "x", "y", "r", "Left", "Right")), shown
    full = " ".join(shown_after(garden(tmp_path, plant("apple", "apple")), (160, 24), page)[-1].split())
    assert " v " in f" {full} "


def test_a_wide_window_shows_the_weeks_ahead_and_the_gaps_beside_the_year(tmp_path: Path) -> None:
    almanac = garden(tmp_path, plant("apple", "apple", year=2000))
    lines = shown_after(almanac, (200, 50), "7")
    said = "\n".join(lines)
    assert "nothing to pick and nothing in store" in said
    assert "To pick:" not in said, "the story does not say the list's line again"
    ahead = [line for line in lines if line.lstrip().startswith(("26 Apr", "3 May", "10 May"))]
    assert len(ahead) == 3


@pytest.mark.parametrize(("page", "how"), [("6", "N begins one"), ("9", "b notes a bloom")])
def test_heaps_and_notes_that_are_not_there_are_begun_so(tmp_path: Path, page: str, how: str) -> None:
    assert how in told(garden(tmp_path), page)


def test_one_plant_without_a_place(tmp_path: Path) -> None:
    almanac = garden(tmp_path, plant("apple", "apple"))
    assert " 1 plant " in told(almanac, "0")
    assert "the key m gives one a place" in told(almanac, "0", "v")
    assert "There is no walk" in told(almanac, "v")
    assert "No climber is in the garden file. On page 0 the key a adds a plant." in told(almanac, "5")
    assert 'at = "8 m west of the gate"' in told(almanac, "4")


def test_where_nothing_is_known_of_the_weather_the_whole_advice_is_read(tmp_path: Path) -> None:
    almanac = garden(tmp_path, plant("apple", "apple"), climate=None)
    (whole,) = almanac.remarks
    assert "give the usual last and first frost" in whole
    assert whole in told(almanac)


def test_a_long_remark_takes_two_lines_of_the_week_and_its_key_tells_all_of_it(tmp_path: Path) -> None:
    almanac = garden(tmp_path, plant("apple", "apple"), region="quebec")
    (whole,) = almanac.remarks
    lines = shown_after(almanac, SIZE)
    first = next(n for n, line in enumerate(lines) if "garden.toml: region" in line)
    assert lines[first + 1].endswith("… R: all")
    assert lines[first + 2].split()[:2] == ["when", "what,"]
    assert whole in told(almanac, "R")


@pytest.mark.sweep(each=7)
@pytest.mark.parametrize("page", sorted(pages()))
@pytest.mark.parametrize("on", [dt.date(1900, 1, 1), dt.date(2027, 1, 10), dt.date(2200, 12, 31)])
def test_no_day_that_is_answered_breaks_a_page(tmp_path: Path, page: str, on: dt.date) -> None:
    things = (
        plant("old-ash", "common ash", year=1928, at=[0, 10], state="declining", height_m=20),
        plant("apple", "apple", year=2020, at=[4, 4], height_m=3),
        plant("kiwi", "hardy kiwi", year=2021, at=[5, 4], host="apple"),
    )
    almanac = garden(tmp_path, *things, on=on)
    lines = shown_after(almanac, SIZE, page)
    assert len(lines) == SIZE[1]
    assert pages()[page].question.asked.split("?")[0] in "\n".join(lines)


def test_a_heap_nobody_measured_says_what_a_thermometer_would_tell(tmp_path: Path) -> None:
    """The levels are the rules' own, which the garden file may change."""
    heap = '[[heap]]\nid = "bay-1"\nstage = "working"\n'
    said = told(garden(tmp_path, heap), "6")
    assert "deep in the middle" in said
    assert "Once hot and then under 45 C: turn it. 70 C and more: turn it at once." in said
    rules = "[rule]\nheap_too_hot_c = 68\n"
    assert "68 C and more: turn it at once." in told(garden(tmp_path, heap, rules), "6")


@pytest.mark.parametrize(
    ("page", "keys"), [("6", ("Space", "r reading", "w why")), ("5", ("Space", "S done by"))]
)
def test_the_foot_of_an_empty_list_offers_no_key_that_wants_a_line(
    tmp_path: Path, page: str, keys: tuple[str, ...]
) -> None:
    foot = shown_after(garden(tmp_path), SIZE, page)[-1]
    assert "b bloom" in foot
    assert not any(key in foot for key in keys)


def test_what_was_ripe_and_when_is_read_whole(tmp_path: Path) -> None:
    things = (
        plant("strawberries", "woodland strawberry", year=2020),
        plant("redcurrant", "redcurrant", year=2015),
    )
    lines = shown_after(garden(tmp_path, *things), SIZE, "h")
    assert not any("…" in line for line in lines[12:])
    assert any("woodland strawberry" in line for line in lines)


def test_the_story_takes_empty_lines_rather_than_being_cut(tmp_path: Path) -> None:
    things = (
        plant("oak", "sessile oak", year=1990, at=[0, 10], height_m=12),
        plant("rambler", "rambling rose", year=2016, host="oak", at=[0, 10]),
    )
    lines = shown_after(garden(tmp_path, *things), SIZE, "5")
    assert not any("…" in line for line in lines)


def test_the_walk_alone_takes_the_whole_width(tmp_path: Path) -> None:
    things = (
        plant("pear", "pear", year=2015, at=[0, 20]),
        plant("plum", "european plum", year=2015, at=[40, 0]),
    )
    lines = shown_after(garden(tmp_path, *things), (200, 50), "v")
    assert not any("│" in line for line in lines[4:])


def test_what_lies_out_of_sight_is_named(weir_meadow: Almanac) -> None:
    rule = next(line for line in shown_after(weir_meadow, SIZE, "8") if "more below" in line)
    assert "more below: bark · to eat, or not" in rule


def test_a_tree_that_shades_nothing_begins_at_the_top(tmp_path: Path) -> None:
    """The bar rests on the first sentence, so that none of the page has scrolled away."""
    lines = shown_after(garden(tmp_path, plant("apple", "apple", year=2005, at=[0, 8])), SIZE, "4")
    assert any(line.startswith("> It takes hardly any light") for line in lines)
    assert not any("more above" in line for line in lines)


def test_that_nothing_presses_stands_over_the_heads_of_the_list(tmp_path: Path) -> None:
    apple = plant("apple", "apple", year=2005, at=[0, 8])
    lines = shown_after(garden(tmp_path, apple, on=dt.date(2027, 1, 10)), SIZE)
    heads = next(n for n, line in enumerate(lines) if line.startswith("  when "))
    assert any("Nothing" in line for line in lines[:heads])
    assert lines[heads + 1].startswith("> ")


def test_in_the_smallest_window_the_line_under_the_bar_is_in_sight(tmp_path: Path) -> None:
    """Even where a fault and what presses stand above it."""
    things = (
        plant("apple", "apple", year=2005, at=[0, 8]),
        plant("thing", "unheard", year=2005, at=[0, 9]),
    )
    for on in (ON, dt.date(2027, 1, 10)):
        lines = shown_after(garden(tmp_path, *things, on=on), (30, 10))
        assert any(line.startswith("> ") for line in lines)


def test_in_a_narrow_window_what_a_heap_wants_stands_below_its_name(tmp_path: Path) -> None:
    almanac = garden(tmp_path, '[[heap]]\nid = "bay"\nstage = "filling"\n')
    lines = shown_after(almanac, (40, 20), "6")
    assert any(line.strip("▌ ") == "goes on filling" for line in lines)
    assert any("what it wants" in line for line in shown_after(almanac, (60, 20), "6"))
