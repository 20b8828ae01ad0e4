"""A slip in a garden file costs one sentence with its line, and nothing but what it touches."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.garden_files import PLACE, reading_of, sentences

from leafturn.base.faults import MOST_FAULTS, Unreadable
from leafturn.garden.model import Climate, Heap, Helper, Neighbour, OwnJob, Place, Plant, Point
from leafturn.garden.model import Path as Way
from leafturn.garden.reading.reader import GardenReading, read_garden
from leafturn.garden.reading.tables import known_keys

GOOD = '[[plant]]\nid = "toll-ash"\nkind = "common ash"\nat = [24, 18]\n'  # lines 4 to 7
HEADED = PLACE + GOOD


def headed(*plants: str) -> str:
    """The good plant, and more of which these are the lines; the first begins on line 9."""
    return HEADED + "".join(f"[[plant]]\n{lines}\n" for lines in plants)


def only(text: str, folder: Path) -> tuple[GardenReading, str]:
    """The reading, and its one fault."""
    reading = reading_of(text, folder)
    assert len(reading.faults) == 1, sentences(reading)
    return reading, sentences(reading)[0]


# ---- the four of the wrong-file story --------------------------------------------------------------------


def test_misspelt_plant_in_a_place(tmp_path: Path) -> None:
    text = headed('kind = "medlar"\nat = "5 m west of tol-ash"', 'kind = "pear"\nat = "gate"')
    reading, said = only(text, tmp_path)
    assert said.startswith("line 10: no plant 'tol-ash'. Did you mean toll-ash?")
    assert "medlar has no place" in said
    assert [plant.point for plant in reading.garden.plants] == [Point(24, 18), None, Point(0, 0)]


def test_ring_of_two(tmp_path: Path) -> None:
    text = headed('id = "a"\nkind = "x"\nat = "1 m n of b"', 'id = "b"\nkind = "x"\nat = "by a"')
    reading, said = only(text, tmp_path)
    assert said.startswith("line 11: places go round in a ring: a -> b -> a;")
    assert [plant.id for plant in reading.garden.plants] == ["toll-ash", "a", "b"]
    assert reading.garden.plants[0].point == Point(24, 18)


@pytest.mark.parametrize(("written", "used"), [("460", 45.0), ("-460", -45.0)])
def test_latitude_out_of_bounds(written: str, used: float, tmp_path: Path) -> None:
    reading, said = only(HEADED.replace("46.9", written), tmp_path)
    assert said.startswith(f"line 2: lat = {written} is no latitude; {used:g} is used meanwhile")
    assert reading.garden.place.lat == used
    assert len(reading.garden.plants) == 1


def test_missing_quote_mark(tmp_path: Path) -> None:
    reading, said = only(HEADED.replace('"common ash"', '"common ash'), tmp_path)
    assert said == (
        'line 6: A quote mark (") has no partner on this line. It is read as kind = "common ash". '
        'Write kind = "common ash"'
    )
    assert reading.garden.plants[0].kind == "common ash"


# ---- the place -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", None),
        ('[[plant]]\nkind = "pear"\n', None),
        ("place = 3\n", 1),
        ("[place]\nlon = 15.9\n", 1),
        ('[place]\nlat = "north"\nlon = 15.9\n', 2),
        ("[place]\nlat = true\nlon = 15.9\n", 2),
        ("[place]\nlat = [46.9]\nlon = 15.9\n", 2),
    ],
)
def test_without_a_latitude_the_two_lines_are_given(text: str, line: int | None, tmp_path: Path) -> None:
    with pytest.raises(Unreadable) as caught:
        reading_of(text, tmp_path)
    fault = caught.value.fault
    assert fault.line == line
    assert "lat = 46.9 and lon = 15.9" in fault.hint


@pytest.mark.parametrize("lon", ["lon = 999", 'lon = "x"', "# none"])
def test_bad_longitude_alone_is_no_hindrance(lon: str, tmp_path: Path) -> None:
    reading, said = only(HEADED.replace("lon = 15.9", lon), tmp_path)
    assert reading.garden.place.lon == 0.0
    assert "0 is used meanwhile" in said


def test_numbers_in_quote_marks_are_understood(tmp_path: Path) -> None:
    reading, said = only('[place]\nlat = "46,9"\nlon = 15.9\n', tmp_path)
    assert reading.garden.place.lat == 46.9
    assert said == 'line 2: lat = "46,9" is text; it is read as 46.9. Write lat = 46.9'


def test_a_misspelt_frost_in_the_place_is_told_its_name(tmp_path: Path) -> None:
    reading = reading_of(f'{PLACE}last_forst = "04-24"\nfirst_frots = "10-16"\n', tmp_path)
    assert sentences(reading) == [
        "line 4: unknown key 'last_forst' ignored. Did you mean last_frost?",
        "line 5: unknown key 'first_frots' ignored. Did you mean first_frost?",
    ]


def test_other_slips_in_the_place_leave_its_usual_values(tmp_path: Path) -> None:
    reading = reading_of(f'{PLACE}soil = "lome"\npace_m = 9\nwether = "w.csv"\nname = 3\n', tmp_path)
    assert sentences(reading) == [
        'line 4: soil = "lome" is not a word known here; soil is left out. Did you mean loam?',
        "line 5: pace_m = 9 lies above 1.5; pace_m is left out. Write 1.5 or less.",
        "line 6: unknown key 'wether' ignored. Did you mean weather?",
        'line 7: name = 3 is a whole number, not text; name is left out. Write name = "steward"',
    ]
    assert (reading.garden.place.soil, reading.garden.place.pace_m) == ("loam", 0.75)


def test_keys_above_the_place_are_shown_where_they_belong(tmp_path: Path) -> None:
    reading = reading_of(f'soil = "clay"\n{PLACE}', tmp_path)
    assert sentences(reading) == ["line 1: soil stands outside [place]; it is left out. Move it there."]


# ---- one table of a list -----------------------------------------------------------------------------------


LEFT_OUT = {
    'kind = 3': 'line 9: kind = 3 is a whole number, not text; this plant is left out. Write kind = "pear"',
    'name = "x"': 'line 8: kind is missing; this plant is left out. Write kind = "pear"',
    'kind = " "': 'line 8: kind is missing; this plant is left out. Write kind = "pear"',
}  # fmt: skip
KEPT = {
    'sex = "femal"': 'sex = "femal" is not a word known here; sex is left out. Did you mean female?',
    'sex = "q"': (
        'sex = "q" is not a word known here; sex is left out. Write one of: female, male, both.'
    ),
    'year = "spring"': 'year = "spring" is text, not a whole number; year is left out. Write year = 2012',
    'year = "in 2015"': 'year = "in 2015" is text, not a whole number; year is left out. Write year = 2015',
    "year = 20122": "year = 20122 lies above 2999; year is left out. Write year = 2012",
    'height_m = "2 to 3 m"': (
        'height_m = "2 to 3 m" is text, not a number; height_m is left out. Write height_m = 2'
    ),
    "height_ft = 99999": (
        "height_ft = 30479.7 lies above 10000 in height_m; height_ft is left out. "
        "Check the number and its unit."
    ),
    "count = 0": "count = 0 lies below 1; count is left out. Write 1 or more.",
    "count = true": "count = true is true or false, not a whole number; count is left out. Write count = 3",
    "role = [3]": '3 in role is a whole number, not text; role is left out. Write role = "3"',
    'guard = { year = "x" }': (
        'year = "x" in guard is text, not a whole number; guard is left out. '
        "Write guard = { height_cm = 60, year = 2027 }"
    ),
}  # fmt: skip


@pytest.mark.parametrize("fields", LEFT_OUT)
def test_a_plant_without_its_kind_is_left_out_and_the_rest_stands(fields: str, tmp_path: Path) -> None:
    reading, said = only(headed(fields, 'kind = "pear"'), tmp_path)
    assert said == LEFT_OUT[fields]
    assert [plant.id for plant in reading.garden.plants] == ["toll-ash", "pear"]


@pytest.mark.parametrize("field", KEPT)
def test_one_bad_word_never_drops_a_plant(field: str, tmp_path: Path) -> None:
    reading, said = only(headed(f'kind = "x"\n{field}', 'kind = "pear"'), tmp_path)
    assert said == f"line 10: {KEPT[field]}"
    assert [plant.id for plant in reading.garden.plants] == ["toll-ash", "x", "pear"]


@pytest.mark.parametrize(
    ("field", "key", "value"),
    [
        ('sex = "f"', "sex", "female"), ('sex = "M"', "sex", "male"), ('year = "2015"', "year", 2015),
        ("year = 2015-03-01", "year", 2015), ('state = "Healthy"', "state", "well"),
        ('state = "dead"', "state", "dead standing"), ('raised = "grafted"', "raised", "graft"),
        ('raised = "from seed"', "raised", "seedling"), ('crown_m = "3 m"', "crown_m", 3.0),
        ('crown_m = "10 ft"', "crown_m", 3.048), ('crown_ft = "10"', "crown_m", 3.048),
        ('crown_ft = "3 m"', "crown_m", 3.0), ('height_m = "2,5"', "height_m", 2.5),
        ('height_m = "about 250 cm"', "height_m", 2.5), ('trunk_cm = "4 in"', "trunk_cm", 10.16),
        ('patch_m2 = "6 m2"', "patch_m2", 6.0), ('count = "3"', "count", 3),
        ('age_when_planted = "2 years"', "age_when_planted", 2.0),
        ('flower_order = "protogynous"', "flower_order", "female first"),
    ],
)  # fmt: skip
def test_a_word_whose_meaning_is_plain_is_read(field: str, key: str, value: object, tmp_path: Path) -> None:
    reading = reading_of(headed(f'kind = "x"\n{field}'), tmp_path)
    assert sentences(reading) == []
    found = getattr(reading.garden.plants[1], key)
    assert found == (pytest.approx(value) if isinstance(value, float) else value)


def test_a_helper_who_may_not_do_what_the_file_fails_to_say_is_left_out(tmp_path: Path) -> None:
    """Without its list of what they can do, a helper would be given anything, a saw among it."""
    reading, said = only(f'{PLACE}[[helper]]\nname = "Ann"\ncan = [3]\n', tmp_path)
    assert "this helper is left out" in said
    assert reading.garden.helpers == ()


def test_every_slip_of_a_plant_is_said_at_once(tmp_path: Path) -> None:
    text = f'{PLACE}[[plant]]\nkind = "x"\nsex = "femal"\ncount = 0\nyear = "x"\n'
    assert [fault.line for fault in reading_of(text, tmp_path).faults] == [6, 7, 8]


@pytest.mark.parametrize(
    "at", ["[24, 5, 3]", "[24]", "3", '["a", 3]', "{ x = 1 }", "[1e300, 0.0]", "[0, -10_001]"]
)
def test_a_plant_whose_place_is_no_place_stays_without_one(at: str, tmp_path: Path) -> None:
    reading, said = only(headed(f'kind = "pear"\nat = {at}'), tmp_path)
    assert said.startswith("line 10: ")
    assert "at is left out" in said
    assert 'Write at = [24, 18] or "8 m west of gate"' in said
    assert reading.garden.plants[1].point is None


def test_a_plant_left_out_still_holds_its_place_for_others(tmp_path: Path) -> None:
    quince = 'id = "quince"\nkind = 3\nat = "2 m east of toll-ash"'
    text = headed(quince, 'kind = "pear"\nat = "1 m north of quince"')
    reading, said = only(text, tmp_path)
    assert said.startswith("line 10: kind")
    assert [plant.id for plant in reading.garden.plants] == ["toll-ash", "pear"]
    assert reading.garden.plants[1].point == Point(26.0, 19.0)


def test_unknown_keys_are_ignored_and_said_once(tmp_path: Path) -> None:
    text = (
        PLACE
        + '[[plant]]\nkind = "x"\nheigth_m = 3\npoint = [1, 2]\nguard = { yaer = 3, height_cm = 60 }\n' * 3
    )
    reading = reading_of(text, tmp_path)
    assert sentences(reading) == [
        "line 6: unknown key 'heigth_m' ignored (3 times, first here). Did you mean height_m?",
        "line 7: unknown key 'point' ignored (3 times, first here). Did you mean count?",
        "line 8: unknown key 'yaer' ignored (3 times, first here). Did you mean year?",
    ]
    assert len(reading.garden.plants) == 3
    assert reading.garden.plants[0].guard is not None


def test_unknown_tables_too(tmp_path: Path) -> None:
    text = f'plants = [{{ kind = "x" }}]\n{PLACE}heeps = [{{ stage = "ready" }}]\n[climat]\nrain_mm = []\n'
    assert sentences(reading_of(text, tmp_path)) == [
        "line 1: unknown key 'plants' ignored. Write [[plant]]",
        "line 5: unknown key 'heeps' ignored. Did you mean heap?",
        "line 6: unknown key 'climat' ignored. Did you mean climate?",
    ]


def test_both_twins_name_both_lines(tmp_path: Path) -> None:
    reading, said = only(headed('kind = "x"\nheight_ft = 10\nheight_m = 4'), tmp_path)
    assert said == (
        "line 11: height_ft (line 10) and height_m (line 11) are both given; height_ft is used. "
        "Keep one of them."
    )
    assert reading.garden.plants[1].height_m == pytest.approx(3.048)


def test_an_id_given_twice_names_both_lines(tmp_path: Path) -> None:
    reading, said = only(headed('kind = "x"\nid = "toll-ash"'), tmp_path)
    assert said.startswith("line 10: 'toll-ash' is the id of two plants, on lines 5 and 10;")
    assert [plant.id for plant in reading.garden.plants] == ["toll-ash", "toll-ash-2"]


def test_two_helpers_of_one_name_are_said(tmp_path: Path) -> None:
    _, said = only(f'{PLACE}[[helper]]\nname = "pair"\n[[helper]]\nname = "pair"\n', tmp_path)
    assert said.startswith("line 7: two helpers are called 'pair', on lines 5 and 7.")


def test_a_colon_would_part_the_id_of_a_job(tmp_path: Path) -> None:
    reading, said = only(f'{PLACE}[[plant]]\nkind = "x"\nid = "a:b"\n', tmp_path)
    assert said.startswith("line 6: the id 'a:b' holds a colon")
    assert reading.garden.plants[0].id == "a-b"


def test_slips_elsewhere(tmp_path: Path) -> None:
    text = PLACE + (
        "[[heap]]\nbay_m = [1, 2]\n"  # 4
        '[[heap]]\nmix = [{ what = "leaves", kg = "much" }]\n'  # 6
        "[[helper]]\nhours_per_week = 3\n"  # 8
        "[[path]]\nline = [[1, 2]]\n"  # 10
        "[[path]]\nline = [[1, 2], [3]]\n"  # 12
        '[[neighbour]]\nkind = "hazel"\n'  # 14
        '[[neighbour]]\nkind = "hazel"\nat = "by tol-ash"\n'  # 16
        '[[job]]\nwhat = "mend"\nwhen = 2027-04-19\nplant = "pluum"\n'  # 19
        "[rule]\nx = [1]\n"  # 23
        "[rule.y]\na = 1\n"  # 25
    )
    reading = reading_of(text, tmp_path)
    assert [(fault.line, fault.message.split(";")[0]) for fault in reading.faults] == [
        (5, "bay_m = [1, 2] holds 2 items where 3 belong"),
        (7, 'kg = "much" in mix is text, not a number'),
        (8, "name is missing"),
        (11, "a path with fewer than two points has no length"),
        (13, "[3] in line holds 1 items where 2 belong"),
        (14, "how_far_m is missing"),
        (18, "no plant 'tol-ash'."),
        (18, "how_far_m is missing"),
        (22, "no plant 'pluum'"),
        (24, "rule x is no number, text, true or false"),
        (25, "rule y is no number, text, true or false"),
    ]
    garden = reading.garden
    assert [(heap.bay_m, heap.mix) for heap in garden.heaps] == [(None, ()), (None, ())]
    assert (garden.helpers, garden.paths, garden.neighbours, garden.rules) == ((), (), (), {})
    assert garden.jobs[0].plant is None


def test_what_is_no_table_is_said(tmp_path: Path) -> None:
    reading = reading_of(f'plant = ["pear", {{ kind = "apple" }}]\nheap = 3\n{PLACE}', tmp_path)
    assert sentences(reading) == [
        'line 1: this plant is not a table; it is left out. Write { kind = "pear" }',
        'line 2: this heap is not a table; it is left out. Write { name = "by the gate" }',
    ]
    assert [plant.id for plant in reading.garden.plants] == ["apple"]


# ---- floods ------------------------------------------------------------------------------------------------


def test_a_flood_of_faults_is_cut_short(tmp_path: Path) -> None:
    unknown = "".join(f"key_{number} = 1\n" for number in range(20_000))
    reading = reading_of(f'{PLACE}[[plant]]\nkind = "x"\n{unknown}', tmp_path)
    assert len(reading.faults) == MOST_FAULTS + 1
    assert "19,800 faults more" in reading.faults[-1].message
    assert len(reading.garden.plants) == 1


VALUES = st.recursive(
    st.sampled_from(["3", "-1", "2.5", "true", '"x"', '"pear"', '"by pear"', "2027-04-19", "[]", "{}", '""'])
    | st.integers(-(2**63), 2**63 - 1).map(str),
    lambda inner: (
        st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]")
        | st.tuples(st.sampled_from(["what", "kg", "year", "usual"]), inner).map(
            lambda pair: f"{{ {pair[0]} = {pair[1]} }}"
        )
    ),
    max_leaves=4,
)
KINDS = (Place, Climate, Plant, Heap, Helper, Way, Neighbour, OwnJob)
KEYS = st.sampled_from(sorted(set().union(*(known_keys(kind) for kind in KINDS), {"point", "odd", "plant"})))
HEADINGS = ["[[plant]]", "[[heap]]", "[[helper]]", "[[path]]", "[[neighbour]]", "[[job]]", "[[rule]]"]
TABLES = st.lists(
    st.tuples(st.sampled_from(HEADINGS), st.dictionaries(KEYS, VALUES, max_size=5)),
    max_size=5,
)


@settings(max_examples=60)
@given(place=st.dictionaries(KEYS, VALUES, max_size=6), tables=TABLES)
def test_any_values_are_read_or_said(
    place: dict[str, str], tables: list[tuple[str, dict[str, str]]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    lines = ["[place]", *(f"{key} = {value}" for key, value in ({"lat": "46.9"} | place).items())]
    for heading, fields in tables:
        lines += [heading, *(f"{key} = {value}" for key, value in fields.items())]
    file = tmp_path_factory.mktemp("any") / "garden.toml"
    file.write_text("\n".join(lines), encoding="utf-8")
    try:
        reading = read_garden(file)
    except Unreadable as refused:
        found = [refused.fault]
    else:
        found = list(reading.faults)
    assert all(fault.line is None or 1 <= fault.line <= len(lines) for fault in found)
    assert all("`" not in fault.message and "$." not in fault.message for fault in found), (
        "no library's own words"
    )


def test_a_bin_is_a_heap_and_what_it_is_made_of_stands_in_its_words(tmp_path: Path) -> None:
    said = sentences(reading_of(PLACE + '[[bin]]\nid = "a"\n[[heap]]\nid = "b"\nkind = "bin"\n', tmp_path))
    assert any("unknown key 'bin' ignored. Write [[heap]]" in one for one in said), said
    assert any("unknown key 'kind' ignored. Write words = \"bin\"" in one for one in said), said
