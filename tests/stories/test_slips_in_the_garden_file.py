"""Slips that people make by nature in a garden file: one sentence each, and all the rest is answered.

The sentences are ours; that each slip is one people make is common practice, no source: decimal commas,
commas and comments of other languages, brackets of lists, feet, degrees of a map, merged copies.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run

from leafturn.garden.reading.reader import read_garden

DAY = ("--on", "2027-04-19")
GARDEN = """[place]
lat = 42.3
lon = -76.5
last_frost = "05-10"
first_frost = "10-05"

[[plant]]
id = "bosc"
kind = "pear"
year = 2012

[[plant]]
id = "haz"
kind = "hazel"
year = 2015
at = [3, 4]

[[plant]]
id = "kiwi"
kind = "hardy kiwi"
host = "haz"
at = [12, 5]

[[helper]]
name = "Ana"
hours_per_week = 3
can = ["kneel"]

[[job]]
what = "mend the fence"
when = "2027-05-01"
minutes = 90
"""
SLIPS = {
    "a decimal comma": ("lat = 42.3", "lat = 42,3", "It is read as lat = 42.3."),
    "thousands": ("lat = 42.3", "lat = 42.3\nheight_m = 1,250", "height_m = 1250 or height_m = 1.250"),
    "a comma at the end": ("year = 2015", "year = 2015,", "It is read as year = 2015."),
    "a comment of another language": ("year = 2015", "year = 2015 // guess", "It is read as year = 2015."),
    "true with a capital": ("year = 2015", "year = 2015\n[[path]]\nline = [[0, 0], [1, 1]]\npublic = True",
                            "It is read as public = true."),
    "round brackets": ("at = [3, 4]", "at = (3, 4)", "It is read as at = [3, 4]."),
    "a day without quote marks": ('last_frost = "05-10"', "last_frost = 05-10",
                                  'It is read as last_frost = "05-10".'),
    "month and day with a slash": ('"05-10"', '"5/10"', 'Write "10-05" or "05-10", whichever it is'),
    "one bracket lacks behind": ('[[plant]]\nid = "haz"', '[[plant]\nid = "haz"', "It is read as [[plant]]."),
    "one bracket lacks before": ('[[plant]]\nid = "haz"', '[plant]]\nid = "haz"', "It is read as [[plant]]."),
    "one pair of brackets": ('[[plant]]\nid = "bosc"', '[plant]\nid = "bosc"',
                             "line 7: [plant] has one pair of brackets"),
    "two pairs of brackets": ("[place]", "[[place]]", "Write [place]"),
    "an open bracket round the place": ("[place]", "[place", "It is read as [place]."),
    "a merge that was left": ("year = 2015", "<<<<<<< A\nyear = 2015\n=======\nyear = 2016\n>>>>>>> B",
                              "a merge of two versions"),
    "hours below nought": ("hours_per_week = 3", "hours_per_week = -3", "hours_per_week is left out."),
    "a host misspelt": ('host = "haz"', 'host = "hazz"', "Did you mean haz?"),
}  # fmt: skip
REMARKS = {
    "degrees of a map": ("at = [12, 5]", "at = [42.3001, -76.5002]", "looks like latitude and longitude"),
    "feet under metres": ("year = 2015", "year = 2015\nheight_m = 18", "In feet it is written height_ft."),
    "a skill nobody asks for": ('can = ["kneel"]', 'can = ["kneeling"]', "Did you mean kneel?"),
    "a day of another language": ('can = ["kneel"]', 'days = ["Sonntag"]', "is no day of the week"),
    "a slope in other words": ('can = ["kneel"]', 'slope = "no"', 'Write slope = "level only"'),
}  # fmt: skip


def slipped(tmp_path: Path, right: str, wrong: str) -> str:
    assert right in GARDEN
    (tmp_path / "garden.toml").write_text(GARDEN.replace(right, wrong, 1), encoding="utf-8")
    return str(tmp_path)


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_costs_one_sentence_and_the_rest_is_answered(name: str, tmp_path: Path) -> None:
    right, wrong, said = SLIPS[name]
    garden = slipped(tmp_path, right, wrong)
    checked = run("check", garden, *DAY)
    assert checked.returncode == 1
    assert said in checked.stderr + checked.stdout
    asked = run("round", garden, *DAY)
    assert (asked.returncode, "Traceback" in asked.stderr) == (1, False)
    told = run("plants", garden, *DAY).stdout
    assert [name for name in ("bosc", "haz", "kiwi") if f"\n{name}," in told] == ["bosc", "haz", "kiwi"]
    assert "3 h" in asked.stdout or "hours_per_week" in wrong


@pytest.mark.parametrize("name", REMARKS)
def test_what_is_read_and_can_hardly_be_meant_is_remarked(name: str, tmp_path: Path) -> None:
    right, wrong, said = REMARKS[name]
    done = run("check", slipped(tmp_path, right, wrong), *DAY)
    assert done.returncode == 0
    assert said in done.stdout
    assert "garden.toml, line " in done.stdout


def test_single_brackets_on_every_plant_cost_no_plant(tmp_path: Path) -> None:
    text = GARDEN.replace("[[plant]]", "[plant]") + "".join(
        f'[plant]\nid = "more-{n}"\nkind = "pear"\n' for n in range(30)
    )
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    reading = read_garden(tmp_path)
    assert len(reading.garden.plants) == 33
    assert len(reading.faults) == 1


@pytest.mark.parametrize(("written", "hours", "minutes"), [("3h", 3, 90), ("3 hours", 3, 90)])
def test_hours_with_their_unit_are_hours(written: str, hours: float, minutes: float, tmp_path: Path) -> None:
    text = GARDEN.replace("hours_per_week = 3", f'hours_per_week = "{written}"')
    (tmp_path / "garden.toml").write_text(text.replace("minutes = 90", 'minutes = "1.5 h"'), encoding="utf-8")
    garden = read_garden(tmp_path).garden
    assert (garden.helpers[0].hours_per_week, garden.jobs[0].minutes) == (hours, minutes)


@pytest.mark.parametrize(
    ("written", "used"),
    [('"1 March"', True), ('"03-01"', True), ('"first of March"', False), ('"bloom end of x"', False)],
)
def test_a_hold_whose_day_is_none_is_said_and_not_used(written: str, used: bool, tmp_path: Path) -> None:
    """It ended the week with a traceback, though the sentence said that it was not used."""
    garden = slipped(tmp_path, "[[helper]]", f"[rule]\nnesting_from = {written}\n\n[[helper]]")
    checked = run("check", garden, *DAY)
    assert ("nesting_from" in checked.stderr + checked.stdout, checked.returncode) == (
        not used,
        int(not used),
    )
    assert run("round", garden, *DAY).stdout.startswith("What needs hands this week?")


def test_one_line_in_another_encoding_costs_no_other(tmp_path: Path) -> None:
    """0xfc is u with two dots in Windows-1252 (Unicode Consortium, CP1252.TXT)."""
    text = GARDEN.replace("year = 2012", 'year = 2012\nwords = "hinter der M\xfchle"')
    other = "Gr\xf6\xdfe"
    latin = text.encode("cp1252") + f'\n[[plant]]\nid = "{other}"\nkind = "pear"\n'.encode()
    (tmp_path / "garden.toml").write_bytes(latin)
    reading = read_garden(tmp_path)
    assert reading.garden.plants[0].words == "hinter der M\xfchle"
    assert reading.garden.plants[3].id == other
    (fault,) = reading.faults
    assert (fault.line, fault.hint) == (11, "Save the file as UTF-8 text.")
    added = run("add", str(tmp_path), "quince", *DAY)
    assert (added.returncode, "not UTF-8" in added.stderr) == (2, True)
    assert (tmp_path / "garden.toml").read_bytes() == latin
