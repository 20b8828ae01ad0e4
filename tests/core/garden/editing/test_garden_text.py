"""Edits of a garden file: one plant changes, every other byte stays, and what cannot be done is not done."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.faults import Unreadable
from leafturn.garden.editing.edits import Edit, NotTaken, TooUnusual
from leafturn.garden.editing.garden_text import GardenText, free_id, garden_text, text_of
from leafturn.garden.editing.toml_text import HEAPS
from leafturn.toml.guard import parse_toml

FILE = Path("garden.toml")
PLACE = "[place]\nlat = 46.9\nlon = 15.9\n"
WRITTEN = """\
# Weir Meadow, begun in 2009
[place]   # by the weir
lat = 46.9
lon = 15.9

[[plant]]
id   = "comice-1"      # the old one
kind = 'pear'
cultivar = "Comice"
year = 2011            # or 2012?
words = \"\"\"
by the [[plant]] gate,
kind = "no"\"\"\"
  [plant.guard]
  height_cm = 60

# the walnuts
[[plant]]
kind = "heartnut"
at = [ 4,
       30 ]   # paced
guard.year = 2024

[[helper]]
name = "steward"
"""
IN_BRACES = """\
[place]
lat = 46.9
lon = 15.9
plant = [
  { kind = "pear", cultivar = "Comice", year = 2012, at = "gate" }, # a, b
  { kind = "heartnut", year = 2009, at = "20 m north of pear" },  # {
]
"""


def garden(text: str) -> GardenText:
    return text_of(text.encode(), FILE)


def after(edit: Edit) -> str:
    return edit.after.decode()


def test_one_value_is_replaced_and_all_else_stays() -> None:
    edit = garden(WRITTEN).changing("comice-1", {"year": 2012})
    assert after(edit) == WRITTEN.replace("year = 2011 ", "year = 2012 ")
    assert [(line.number, line.was, line.now) for line in edit.lines()] == [
        (10, "year = 2011            # or 2012?", "year = 2012            # or 2012?")
    ]
    assert edit.undone().after.decode() == WRITTEN


def test_a_new_key_goes_where_it_is_usually_written() -> None:
    edit = garden(WRITTEN).changing("comice-1", {"rootstock": "quince A"})
    assert after(edit) == WRITTEN.replace(
        'cultivar = "Comice"\n', 'cultivar = "Comice"\nrootstock = "quince A"\n'
    )


def test_a_value_over_two_lines_and_a_plant_without_an_id() -> None:
    edit = garden(WRITTEN).changing("heartnut", {"at": "5 m north of gate"})
    assert after(edit) == WRITTEN.replace("[ 4,\n       30 ]", '"5 m north of gate"')
    kept = garden(WRITTEN).changing("heartnut", {"kind": "walnut"})
    assert 'id = "heartnut"\nkind = "walnut"\n' in after(kept), "notes name it by the id it had"


def test_a_key_is_taken_away_with_its_line_but_never_with_a_comment() -> None:
    assert after(garden(WRITTEN).changing("comice-1", {"cultivar": None})) == WRITTEN.replace(
        'cultivar = "Comice"\n', ""
    )
    assert "            # or 2012?\n" in after(garden(WRITTEN).changing("comice-1", {"year": None}))


def test_plants_in_braces() -> None:
    held = garden(IN_BRACES)
    changed = after(held.changing("heartnut", {"year": 2010, "state": "gone"}))
    assert changed == IN_BRACES.replace("year = 2009", "year = 2010").replace(
        'north of pear" }', 'north of pear", state = "gone" }'
    )
    assert after(held.changing("pear", {"cultivar": None})) == IN_BRACES.replace(', cultivar = "Comice"', "")
    assert after(held.changing("pear", {"name": "old one"})) == IN_BRACES.replace(
        '{ kind = "pear"', '{ id = "pear", name = "old one", kind = "pear"'
    )
    added = after(held.adding({"id": "quince", "kind": "quince"}))
    assert added == IN_BRACES + '\n[[plant]]\nid = "quince"\nkind = "quince"\n'
    top = IN_BRACES.replace("[place]\nlat = 46.9\nlon = 15.9\n", "") + PLACE
    again = after(garden(top).adding({"id": "quince", "kind": "quince"}))
    assert again == top.replace("# {\n", '# {\n  { id = "quince", kind = "quince" },\n')


def test_what_is_wrong_with_a_value_is_said_as_the_reader_says_it() -> None:
    held = garden(WRITTEN)
    with pytest.raises(NotTaken, match="year"):
        held.changing("comice-1", {"year": 99999})
    with pytest.raises(NotTaken, match="toll-ash"):
        held.adding({"id": "quince", "kind": "quince", "at": "5 m north of toll-ash"})
    with pytest.raises(NotTaken, match="ring"):
        garden(IN_BRACES).changing("pear", {"at": "5 m north of heartnut"})
    with pytest.raises(NotTaken, match="says so already"):
        held.changing("comice-1", {"year": 2011})
    with pytest.raises(NotTaken, match="holds no plant 'ash'"):
        held.changing("ash", {"year": 2011})


def test_a_way_of_writing_that_is_not_known_gets_lines_to_put_in() -> None:
    with pytest.raises(TooUnusual, match="in the plant of line 18") as told:
        garden(WRITTEN).changing("heartnut", {"guard": None, "year": 2001})
    assert told.value.lines == ("year = 2001",)
    with pytest.raises(NotTaken, match=r"do not stand under \[\[plant\]\]; write that there first"):
        garden(PLACE + '[plant]\nkind = "pear"\n').adding({"id": "ash", "kind": "ash"})


@pytest.mark.parametrize("plants", ["plant = 4\n", 'plant = "pear"\n', '[plant]\nkind = "pear"\n'])
def test_where_plants_stand_otherwise_none_is_added(tmp_path: Path, plants: str) -> None:
    (tmp_path / "garden.toml").write_text(f"{plants}[place]\nlat = 46.9\n")
    with pytest.raises(NotTaken, match=r"do not stand under \[\[plant\]\]"):
        garden_text(tmp_path).adding({"id": "quince", "kind": "quince"})


def test_a_file_with_a_slip_in_it_is_mended_by_hand_first() -> None:
    """What is read round a slip is not what the file says, so nothing is written beside it."""
    with pytest.raises(Unreadable, match="what is this"):
        text_of(f"{PLACE}[[plant]]\nkind = 'pear'\nwhat is this\n".encode(), FILE)


def test_a_file_that_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN)
    edit = garden_text(tmp_path).changing("comice-1", {"year": 2012})
    edit.write()
    assert file.read_bytes() == edit.after
    edit.undone().write()
    assert file.read_text() == WRITTEN
    file.write_text(WRITTEN + "# more\n")
    with pytest.raises(NotTaken, match="has changed meanwhile; nothing was written"):
        edit.write()
    assert file.read_text() == WRITTEN + "# more\n"
    assert os.listdir(tmp_path) == ["garden.toml"]


def test_a_link_stays_a_link_and_the_file_keeps_who_may_read_it(tmp_path: Path) -> None:
    folder = tmp_path / "garden"
    folder.mkdir()
    real = folder / "kept.txt"
    real.write_text(WRITTEN)
    real.chmod(0o640)
    (folder / "garden.toml").symlink_to(real)
    garden_text(folder).changing("comice-1", {"year": 2012}).write()
    assert (folder / "garden.toml").is_symlink()
    assert "year = 2012 " in real.read_text()
    assert real.stat().st_mode & 0o777 == 0o640


# ---- whatever a file holds --------------------------------------------------------------------------

words = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1, max_size=12)
comments = st.sampled_from(["", "   # a [[plant]]", '\t# kind = "x', "  # { ]"])
blanks = st.sampled_from(["", "\n", "\n# between\n\n", "\n[[heap]]\nid = 'h'\nstage = \"filling\"\n"])


@st.composite
def plants(draw: st.DrawFn, number: int) -> str:
    quote = draw(st.sampled_from("\"'"))
    keys = [f'id {draw(st.sampled_from(["=", " =  "]))} "p{number}"', f"kind={quote}pear{quote}"]
    keys += draw(
        st.lists(
            st.sampled_from(
                [
                    "year = 2011",
                    "at = [1,\n # here\n 2]",
                    'words = """\n[[plant]]\nid = 1"""',
                    "count = 3",
                    's_alleles = ["S1", "S#2"]',
                ]
            ),
            unique=True,
        )
    )
    indent = draw(st.sampled_from(["", "  "]))
    tail = draw(st.sampled_from(["", "  [plant.guard]\n  year = 2020\n"]))
    body = "".join(f"{indent}{key}{draw(comments)}\n" for key in draw(st.permutations(keys)))
    return f"{draw(blanks)}{indent}[[plant]]{draw(comments)}\n{body}{tail}"


@st.composite
def files(draw: st.DrawFn) -> bytes:
    text = PLACE + "".join(draw(plants(n)) for n in range(draw(st.integers(1, 4))))
    text = text.replace('stage = "filling"\n', 'stage = "filling"\n', 1)
    heaps = text.count("[[heap]]")
    for n in range(heaps):
        text = text.replace("id = 'h'", f"id = 'h{n}'", 1)
    if draw(st.booleans()):
        text = text.rstrip("\n")
    if draw(st.booleans()):
        text = text.replace("\n", "\r\n")
    return (("\ufeff" if draw(st.booleans()) else "") + text).encode()


KEYS_IN_BRACES = ("year = 2011", "at = [1, 2]", "words = '{ ] #'", 's_alleles = ["S1", "S#2"]')


@st.composite
def files_in_braces(draw: st.DrawFn) -> bytes:
    items = []
    for n in range(draw(st.integers(1, 4))):
        keys = [f'id = "p{n}"', "kind='pear'", *draw(st.lists(st.sampled_from(KEYS_IN_BRACES), unique=True))]
        items.append(f"{{ {', '.join(keys)} }}")
    commas = st.sampled_from([",\n  ", ", # { a\n  ", " ,", "\n  ,\n\t"])
    listed = "".join(item + draw(commas) for item in items[:-1]) + items[-1]
    begin, end = draw(st.sampled_from(["", "\n  "])), draw(st.sampled_from(["", ",", "\n", ", # }\n"]))
    listed = f"plant = [{begin}{listed}{end}]\n"
    text = listed + PLACE if draw(st.booleans()) else f"{PLACE}{listed}\n[[helper]]\nname = 'ann'\n"
    return (text.replace("\n", "\r\n") if draw(st.booleans()) else text).encode()


CHANGES: list[dict[str, Any]] = [
    {"year": 1999}, {"year": None}, {"at": "3 paces north of gate"}, {"state": "gone"},
    {"at": [5, 6], "rootstock": "quince A"}, {"count": None, "cultivar": "Comice"},
]  # fmt: skip


@settings(deadline=None)  # a garden is read twice in each
@given(files(), st.sampled_from(CHANGES), words)
def test_any_file_changes_in_one_plant_only(data: bytes, changes: dict[str, Any], name: str) -> None:
    held = text_of(data, FILE)
    meant = {**changes, "why": name}
    edit = held.changing("p0", meant)
    was, now = parse_toml(data, "f"), parse_toml(edit.after, "f")
    assert now["plant"][1:] == was["plant"][1:]
    assert {k: v for k, v in now.items() if k != "plant"} == {k: v for k, v in was.items() if k != "plant"}
    expected = {**was["plant"][0], **{k: v for k, v in meant.items() if v is not None}}
    assert now["plant"][0] == {k: v for k, v in expected.items() if meant.get(k, v) is not None}
    start = data.find(b"[[plant]]")
    assert edit.after.startswith(data[:start])
    second = data.find(b'"p1"')
    if second > 0:
        tail = data[data.rfind(b"[[plant]]", 0, second) :]
        assert edit.after.endswith(tail)
    assert edit.undone().after == data


@pytest.mark.long
@settings(deadline=None)  # a garden is read twice in each
@given(files(), words, words)
def test_a_plant_with_any_name_is_added_at_the_end(data: bytes, kind: str, name: str) -> None:
    held = text_of(data, FILE)
    fields = {
        "id": free_id(held.reading.garden, name),
        "kind": f"x{kind}",
        "cultivar": f"y{name}",
        "year": 2027,
    }
    edit = held.adding(fields)
    assert edit.after.startswith(data)
    plants = parse_toml(edit.after, "f")["plant"]
    assert plants[-1] == fields
    assert plants[:-1] == parse_toml(data, "f")["plant"]
    read = text_of(edit.after, FILE).reading
    assert read.faults == held.reading.faults
    assert read.garden.plants[-1].cultivar is not None


def in_file(tables: dict[str, Any]) -> list[Any]:
    """The plants wherever TOML puts them."""
    found: list[Any] = [*tables.get("plant", []), *tables["place"].get("plant", [])]
    return found


@pytest.mark.long
@settings(deadline=None)  # a garden is read twice in each
@given(files_in_braces(), st.sampled_from(CHANGES), words)
def test_plants_in_braces_change_and_grow_alone(data: bytes, changes: dict[str, Any], name: str) -> None:
    held = text_of(data, FILE)
    edit = held.changing("p0", {**changes, "why": name})
    was, now = in_file(parse_toml(data, "f")), in_file(parse_toml(edit.after, "f"))
    assert now[1:] == was[1:]
    assert now[0] == {k: v for k, v in {**was[0], **changes, "why": name}.items() if v is not None}
    assert edit.after.startswith(data[: data.find(b"p0")])
    grown = held.adding({"id": "new", "kind": f"x{name}"})
    plants = in_file(parse_toml(grown.after, "f"))
    assert {"id": "new", "kind": f"x{name}"} in plants
    assert [p for p in plants if p["id"] != "new"] == was


def test_a_heap_is_added_as_the_file_writes_its_heaps() -> None:
    fields = {"id": "bay-3", "stage": "filling"}
    assert after(garden(WRITTEN).adding(fields, HEAPS)) == (
        WRITTEN + '\n[[heap]]\nid = "bay-3"\nstage = "filling"\n'
    )
    listed = 'heap = [\n  { id = "bay-1" },\n]\n' + PLACE
    assert after(garden(listed).adding(fields, HEAPS)) == listed.replace(
        "},\n", '},\n  { id = "bay-3", stage = "filling" },\n'
    )
    with pytest.raises(NotTaken, match="stage"):
        garden(WRITTEN).adding({"id": "bay-3", "stage": "hot"}, HEAPS)
    single = WRITTEN + '\n[heap]\nid = "bay-1"\n'
    with pytest.raises(NotTaken, match=r"do not stand under \[\[heap\]\]"):
        garden(single).adding(fields, HEAPS)
