"""Words that people use by nature, and slips of the pen: what a hint says to write reads without a fault."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.model import Point
from leafturn.garden.reading.degrees import degrees_in
from leafturn.garden.reading.reader import read_garden

PLACE = "[place]\nlat = 46.9\nlon = 15.9\n"
PEAR = '[[plant]]\nkind = "pear"\nid = "a"\nat = [3, 4]\n'
SECOND = '[[plant]]\nkind = "quince"\n{}\n'

NATURAL = {
    "variety": PLACE + SECOND.format('variety = "Vranja"'),
    "planted, a year": PLACE + SECOND.format("planted = 2015"),
    "planted, a word": PLACE + SECOND.format('planted = "spring"'),
    "age": PLACE + SECOND.format("age = 12"),
    "location": PLACE + SECOND.format('location = "8 m west of the gate"'),
    "metres east": PLACE + SECOND.format("x_m = 4"),
    "height": PLACE + SECOND.format("height = 4"),
    "diameter": PLACE + SECOND.format("diameter = 20"),
    "quantity": PLACE + SECOND.format("quantity = 2"),
    "species": PLACE + PEAR + "[[plant]]\nkind = 'quince'\n" + 'notes = "by the wall"\n',
    "flowers": PLACE + SECOND.format('flowers = "early May"'),
    "a tree": PLACE + '[[tree]]\nkind = "quince"\n',
    "a bush": PLACE + '[[bush]]\nkind = "quince"\n',
    "a bench": PLACE + '[[bench]]\nname = "long bench"\nat = [3, 4]\n',
    "compost": PLACE + '[[compost]]\nname = "bay"\n',
    "elevation": PLACE + "elevation = 320\n",
    "country": PLACE + 'country = "germany"\n',
    "a place without of": PLACE + PEAR + SECOND.format('at = "5m N a"'),
    "a place without of, in words": PLACE + PEAR + SECOND.format('at = "5 m south-west a"'),
    "a pair as text": PLACE + SECOND.format('at = "24, 18"'),
    "a distance alone": PLACE + PEAR + SECOND.format('at = "5 m north"'),
    "a hemisphere without quote marks": "[place]\nlat = 46.9N\nlon = 15.9E\n" + PEAR,
    "kind without quote marks": PLACE + "[[plant]]\nkind = pear\n",
    "a quote mark lacking": PLACE + '[[plant]]\nkind = "pear\n',
    "a colon for =": PLACE + SECOND.format("year: 2012"),
    "a decimal comma": PLACE + SECOND.format("height_m = 2,5"),
    "a number in words": PLACE + SECOND.format('height_m = "2 to 3 m"'),
}  # fmt: skip


def followed(text: str, fault: Fault) -> str:
    """The text with the line of a fault as its hint says to write it."""
    lines = text.split("\n")
    assert fault.line is not None
    found = re.search(r"(?:Write |Did you mean |Say of what: )(?P<what>[^\n]*)", fault.hint)
    assert found is not None, fault
    what = re.sub(r"( Until then| without quote marks|, the year it was).*$", "", found["what"].rstrip())
    line = lines[fault.line - 1]
    if re.match(r"\[\[?\w+\]\]?|\w+ = ", what):
        lines[fault.line - 1] = what
    else:  # the value alone
        lines[fault.line - 1] = f"{line.split('=')[0]}= {what.rstrip('.')}"
    return "\n".join(lines)


@pytest.mark.parametrize("name", NATURAL)
def test_every_hint_followed_reads_without_a_fault(name: str, tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    text = NATURAL[name]
    file.write_text(text, encoding="utf-8")
    faults = read_garden(file).faults
    assert faults
    for fault in faults:
        text = followed(text, fault)
    file.write_text(text, encoding="utf-8")
    assert [fault.sentence() for fault in read_garden(file).faults] == [], text


def test_latitude_by_another_name_is_told(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text("[place]\nlatitude = 46.9\nlongitude = 15.9\n", encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        read_garden(file)
    assert caught.value.fault.sentence() == (
        "garden.toml, line 2: lat is missing, and without it there is no season. Write lat = 46.9 (and lon)."
    )


@pytest.mark.parametrize(
    ("text", "which", "degrees"),
    [
        ("46.9", "lat", 46.9), ("46,9", "lat", 46.9), ("-42", "lat", -42.0), ("−42", "lat", -42.0),
        ("42 S", "lat", -42.0), ("42S", "lat", -42.0), ("46.9N", "lat", 46.9), ("N 46.9", "lat", 46.9),
        ("71.1 west", "lon", -71.1), ("46°30' N", "lat", 46.5), ("46°30'36\" S", "lat", -46.51),
        ("15 30 0 E", "lon", 15.5), ("46.9°", "lat", 46.9),
        ("north", "lat", None), ("46.9 E", "lat", None), ("-42 S", "lat", None), ("46°99'", "lat", None),
        ("", "lat", None), ("12345", "lat", None),
    ],
)  # fmt: skip
def test_degrees_as_people_write_them(text: str, which: str, degrees: float | None) -> None:
    found = degrees_in(text, which)  # type: ignore[arg-type]
    assert found == (None if degrees is None else pytest.approx(degrees))


BROKEN = {
    "a line that is no TOML": ("[[plant]]\nkind = 'quince'\nwhat is this\nid = 'b'\n", ["a", "b", "c"]),
    "a list that is not closed": (
        "[[plant]]\nid = 'b'\nkind = 'quince'\nat = [3,\nyear = 2012\n",
        ["a", "b", "c"],
    ),
    "a key given twice": ("[[plant]]\nkind = 'quince'\nid = 'b'\nid = 'x'\n", ["a", "b", "c"]),
    "a place given twice": ("[place]\nlat = 3\nlon = 4\n", ["a", "c"]),
    "half a date": ("[[plant]]\nkind = 'quince'\nid = 'b'\nyear = 2012-02-31\n", ["a", "b", "c"]),
}


@pytest.mark.parametrize("name", BROKEN)
def test_one_slip_leaves_the_rest_of_the_garden(name: str, tmp_path: Path) -> None:
    broken, plants = BROKEN[name]
    file = tmp_path / "garden.toml"
    file.write_text(PLACE + PEAR + broken + "[[plant]]\nkind = 'medlar'\nid = 'c'\n", encoding="utf-8")
    reading = read_garden(file)
    assert [plant.id for plant in reading.garden.plants] == plants
    assert (reading.garden.place.lat, reading.garden.plants[0].point) == (46.9, Point(3, 4))
    (fault,) = reading.faults
    assert fault.line is not None
    assert 8 <= fault.line <= 12
    assert fault.message.endswith("is left out, the rest is read.")


@pytest.mark.parametrize(
    "text",
    [
        PLACE + "[[plant]]\nkind = 'quince'\nwhy = '''never closed\n" + PEAR,
        PLACE + "\n".join(f"what is this {n}" for n in range(40)),
    ],
    ids=["a long text", "forty lines"],
)
def test_where_the_rest_would_be_a_guess_nothing_is_read(text: str, tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        read_garden(file)
    assert caught.value.fault.line is not None
    assert "the rest is read" not in caught.value.fault.message
