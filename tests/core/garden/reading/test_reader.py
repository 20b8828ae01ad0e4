"""A garden file read whole: the ten-line file, both ways of writing a list, ids, units, places."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.samples.garden_files import PLACE, reading_of

from leafturn.base.faults import Unreadable
from leafturn.garden.model import FrostDate, Garden, Guard, HeapLayer, Point
from leafturn.garden.reading.reader import MOST_OF_A_LIST, read_garden

TEN_LINES = """\
[place]
lat = 46.9
lon = 15.9
last_frost = "04-24"
first_frost = "10-16"

plant = [
  { kind = "pear", cultivar = "Comice", year = 2012, at = "gate" },
  { kind = "heartnut", year = 2009, at = "20 m north of pear" },
]
"""


def garden_of(text: str, folder: Path) -> Garden:
    """The garden, read without a fault."""
    reading = reading_of(text, folder)
    assert reading.faults == ()
    return reading.garden


def test_ten_lines_work(tmp_path: Path) -> None:
    garden = garden_of(TEN_LINES, tmp_path)
    assert (garden.place.lat, garden.place.lon, garden.place.southern) == (46.9, 15.9, False)
    assert garden.climate is not None
    assert garden.climate.last_frost == FrostDate(usual="04-24")
    assert garden.climate.first_frost == FrostDate(usual="10-16")
    assert [(plant.id, plant.point, plant.line) for plant in garden.plants] == [
        ("pear", Point(0.0, 0.0), 8),
        ("heartnut", Point(0.0, 20.0), 9),
    ]


LISTS = {
    "plant": ('kind = "pear"', lambda garden: garden.plants),
    "heap": ('stage = "ready"', lambda garden: garden.heaps),
    "helper": ('name = "steward"', lambda garden: garden.helpers),
    "path": ("line = [[0, 0], [0, 9]]", lambda garden: garden.paths),
    "neighbour": ('kind = "hazel", how_far_m = 60', lambda garden: garden.neighbours),
    "job": ('what = "mend the fence", when = 2027-04-19', lambda garden: garden.jobs),
    "rule": ('verb = "cut"', lambda garden: garden.own_rules),
}


@pytest.mark.parametrize("key", LISTS)
def test_a_list_may_stand_anywhere_in_any_form(key: str, tmp_path: Path) -> None:
    fields, listed = LISTS[key]
    table = fields.replace(", ", "\n")
    if key == "path":
        table = fields
    for text in (
        f"{key} = [{{ {fields} }}, {{ {fields} }}]\n{PLACE}",
        f"{PLACE}{key} = [\n  {{ {fields} }},\n  {{ {fields} }},\n]\n",
        f"{PLACE}[[{key}]]\n{table}\n[[{key}]]\n{table}\n",
        f"{PLACE}[[place.{key}]]\n{table}\n[[{key}]]\n{table}\n",
    ):
        if key == "helper":
            text = 'name = "pair"'.join(text.rsplit(fields, 1))
        assert len(listed(garden_of(text, tmp_path))) == 2, text


def test_one_plant_in_single_brackets_is_a_plant(tmp_path: Path) -> None:
    assert [plant.id for plant in garden_of(PLACE + '[plant]\nkind = "pear"\n', tmp_path).plants] == ["pear"]


def test_ids_are_made_from_kinds_and_names(tmp_path: Path) -> None:
    text = PLACE + "".join(
        f"[[plant]]\n{fields}\n"
        for fields in (
            'kind = "pear"',
            'kind = "Common  Ash"',
            'kind = "pear"',
            'kind = "pear"\nname = "By the Gate"',
            'kind = "pear"\nid = "pear-2"',
            'kind = "pear"\nid = " "',
            'kind = "!?"',
        )
    )
    ids = [plant.id for plant in garden_of(text, tmp_path).plants]
    assert ids == ["pear", "common-ash", "pear-3", "by-the-gate", "pear-2", "pear-4", "unnamed"]


def test_an_accent_may_be_written_either_way(tmp_path: Path) -> None:
    text = (
        PLACE
        + '[[plant]]\nkind = "p\u00eacher"\nat = [1, 2]\n[[plant]]\nkind = "x"\nat = "by pe\u0302cher"\n'
    )
    assert garden_of(text, tmp_path).plants[1].point == Point(1, 2)


def test_feet_inches_and_fahrenheit(tmp_path: Path) -> None:
    # NIST SP 811: 1 ft = 0.3048 m, 1 in = 2.54 cm, t/degC = (t/degF - 32)/1.8, differences without the 32.
    text = """
[place]
lat = -43.4
lon = 172.6
height_ft = 100
frost_pocket_f = -1.8
pace_ft = 2.5
warming_f_per_decade = 0.9
[climate]
tmax_f = [68, 68, 68, 68, 68, 68, 68, 68, 68, 68, 68, 77]
tmin_f = [32, 32, 32, 32, 32, 32, 32, 32, 32, 32, 32, -40]
rain_in = [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2]
[[plant]]
kind = "apple"
height_ft = 10
crown_ft = 5
trunk_in = 4
patch_ft2 = 100
guard = { height_in = 24, year = 2027 }
at_ft = [10, -20]
[[plant]]
kind = "pear"
at = "10 paces north of apple"
[[heap]]
bay_ft = [4, 4, 3]
[[helper]]
name = "pair"
reach_ft = 80
reach_from = "10 ft west of apple"
[[neighbour]]
kind = "hazel"
how_far_ft = 200
[[path]]
line_ft = [[0, 0], [10, 0]]
"""
    garden = garden_of(text, tmp_path)
    place, climate, (apple, pear) = garden.place, garden.climate, garden.plants
    assert place.southern
    assert place.height_m == pytest.approx(30.48)
    assert place.frost_pocket_c == pytest.approx(-1.0)
    assert place.pace_m == pytest.approx(0.762)
    assert place.warming_c_per_decade == pytest.approx(0.5)
    assert climate is not None
    assert climate.tmax_c == pytest.approx((20.0,) * 11 + (25.0,))
    assert climate.tmin_c == pytest.approx((0.0,) * 11 + (-40.0,))
    assert climate.rain_mm == pytest.approx((25.4,) * 11 + (50.8,))
    assert (apple.height_m, apple.crown_m) == pytest.approx((3.048, 1.524))
    assert apple.trunk_cm == pytest.approx(10.16)
    assert apple.patch_m2 == pytest.approx(9.290304)
    assert apple.guard == Guard(height_cm=60.96, year=2027)
    assert apple.point == pytest.approx((3.048, -6.096))
    assert pear.point == pytest.approx((3.048, -6.096 + 7.62))
    assert garden.heaps[0].bay_m == pytest.approx((1.2192, 1.2192, 0.9144))
    assert garden.helpers[0].reach_m == pytest.approx(24.384)
    assert garden.helpers[0].reach_point == pytest.approx((0.0, -6.096))
    assert garden.neighbours[0].how_far_m == pytest.approx(60.96)
    assert garden.paths[0].line == ((0.0, 0.0), (pytest.approx(3.048), 0.0))


def test_small_slips_that_need_no_asking(tmp_path: Path) -> None:
    text = PLACE + (
        '[[plant]]\nkind = " pear "\nsex = "Female"\nrole = "successor, keystone"\ns_alleles = "S4S5"\n'
        'state = "Dead  standing"\nwhy = """two\nlines"""\n'
        '[[job]]\nwhat = "prune"\nwhen = 2027-04-19\nplant = "Pear"\n'
    )
    garden = garden_of(text, tmp_path)
    pear = garden.plants[0]
    assert (pear.kind, pear.sex, pear.state) == ("pear", "female", "dead standing")
    assert (pear.role, pear.s_alleles) == (("successor", "keystone"), ("S4", "S5"))
    assert pear.why == "two\nlines"
    assert (garden.jobs[0].when, garden.jobs[0].plant) == ("2027-04-19", "pear")


def test_heaps_helpers_and_plants_lean_on_one_another(tmp_path: Path) -> None:
    text = PLACE + (
        '[[heap]]\nname = "Old Bay"\nat = "2 m east of pear"\nmix = [{ what = "leaves", kg = 18 }]\n'
        '[[heap]]\n[[plant]]\nkind = "pear"\nat = [1, 1]\n'
        '[[plant]]\nkind = "rhubarb"\nat = "1 m north of old bay"\n'
        '[[plant]]\nkind = "hop"\nhost = "Pear"\n'
        '[[helper]]\nname = "bench helper"\nreach_from = "by old bay"\n'
    )
    garden = garden_of(text, tmp_path)
    bay, other = garden.heaps
    assert (bay.id, bay.point, bay.mix) == ("old-bay", Point(3, 1), (HeapLayer(what="leaves", kg=18),))
    assert (other.id, other.point) == ("heap", None)
    assert [plant.point for plant in garden.plants] == [Point(1, 1), Point(3, 2), Point(1, 1)]
    assert garden.plants[2].host == "pear"
    assert garden.helpers[0].reach_point == Point(3, 1)


def test_a_neighbours_place_gives_its_distance(tmp_path: Path) -> None:
    text = PLACE + (
        '[[plant]]\nkind = "hazel"\nat = [0, 10]\n[[plant]]\nkind = "hazel"\nat = [0, 90]\n'
        '[[plant]]\nkind = "pear"\nat = [0, 39]\n'
        '[[neighbour]]\nkind = "hazel"\nat = [0, 40]\n[[neighbour]]\nkind = "apple"\nat = [0, 40]\n'
    )
    assert [one.how_far_m for one in garden_of(text, tmp_path).neighbours] == [30.0, 40.0]


def test_rules(tmp_path: Path) -> None:
    text = (
        f'{PLACE}[rule]\nfall_chance_declining = 0.12\nmethod = "average"\nbees = true\n'
        '[[place.rule]]\nverb = "cut"\n'
    )
    garden = garden_of(text, tmp_path)
    assert garden.rules == {"fall_chance_declining": 0.12, "method": "average", "bees": True}
    assert garden.own_rules == ({"verb": "cut", "line": 8},)


def test_numbers_may_stand_beside_rules_of_ones_own(tmp_path: Path) -> None:
    """TOML lets no file hold both [rule] and [[rule]], so that a list of rules takes numbers as well."""
    text = f'{PLACE}[[rule]]\nfall_chance_declining = 0.12\n[[rule]]\nverb = "cut"\nharm = 1\n'
    garden = garden_of(text, tmp_path)
    assert garden.rules == {"fall_chance_declining": 0.12}
    assert garden.own_rules == ({"verb": "cut", "harm": 1, "line": 6},)


def test_five_thousand_plants_at_most(tmp_path: Path) -> None:
    text = PLACE + '[[plant]]\nkind = "pear"\n' * (MOST_OF_A_LIST + 2)
    reading = reading_of(text, tmp_path)
    assert len(reading.garden.plants) == MOST_OF_A_LIST
    (fault,) = reading.faults
    assert fault.line == 4 + 2 * MOST_OF_A_LIST
    assert "5,002 plants; only the first 5,000" in fault.message


def test_a_folder_or_a_file(tmp_path: Path) -> None:
    reading = reading_of(TEN_LINES, tmp_path)
    assert (reading.folder, reading.file) == (tmp_path, tmp_path / "garden.toml")
    assert read_garden(tmp_path).garden == reading.garden
    (tmp_path / "journal.toml").write_text("[[entry]]\n")
    (tmp_path / "garden.toml").rename(tmp_path / "weir.toml")
    assert read_garden(tmp_path).file.name == "weir.toml"


def test_which_file_is_meant_must_be_clear(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="no such folder or file"):
        read_garden(tmp_path / "nowhere")
    with pytest.raises(Unreadable, match=r"holds no garden\.toml"):
        read_garden(tmp_path)
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text(TEN_LINES)
    with pytest.raises(Unreadable, match=r"several garden files: a\.toml, b\.toml"):
        read_garden(tmp_path)


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    with pytest.raises(Unreadable, match="a pipe, not a file"):
        read_garden(pipe)
    with pytest.raises(Unreadable, match=r"holds no garden\.toml"):
        read_garden(tmp_path)


def test_weather_file_lies_inside_the_folder(tmp_path: Path) -> None:
    folder = tmp_path / "garden"
    folder.mkdir()
    (tmp_path / "secret.csv").write_text("x")
    (folder / "link.csv").symlink_to(tmp_path / "secret.csv")
    (folder / "ring.csv").symlink_to(folder / "ring.csv")
    (folder / "weather.csv").write_text("x")
    (folder / "inside.csv").symlink_to(folder / "weather.csv")
    for name in ("weather.csv", "inside.csv", "sub/../weather.csv"):
        assert garden_of(f'{PLACE}weather = "{name}"\n', folder).place.weather == name
    for name in ("../secret.csv", "link.csv", "/etc/hostname", "sub/../../secret.csv", "\\u0000"):
        reading = reading_of(f'{PLACE}weather = "{name}"\n', folder)
        assert reading.garden.place.weather is None
        assert "line 4" in reading.faults[0].sentence()
        assert "folder" in reading.faults[0].message
