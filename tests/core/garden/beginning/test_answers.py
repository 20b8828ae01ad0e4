"""What is answered when a garden is begun, in the ways people write it."""

from __future__ import annotations

from pathlib import Path

import pytest

from leafturn.garden.beginning.answers import frost_typed, height_typed, helper_typed, region_typed
from leafturn.garden.beginning.coordinates import read_coordinates
from leafturn.garden.beginning.first_file import Beginning
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.editing.garden_text import text_of
from leafturn.garden.editing.typed import place_keys, place_typed, value_typed
from leafturn.garden.model import Place


@pytest.mark.parametrize(
    ("typed", "lat", "lon"),
    [
        ("46.9N 15.9E", 46.9, 15.9),
        ("15.9E, 46.9N", 46.9, 15.9),
        ("46°54'", 46.9, None),
        ("46°54' N 15°54' W", 46.9, -15.9),
        ("42 S", -42, None),
        ("71.1 W", None, -71.1),
        ("-42.5 171.2", -42.5, 171.2),
        ("46.93,15.87", 46.93, 15.87),
        ("46,9", 46.9, None),
        ("46,9 15,9", 46.9, 15.9),
        ("46 15", 46, 15),
    ],
)
def test_where_it_lies(typed: str, lat: float | None, lon: float | None) -> None:
    assert read_coordinates(typed) == (lat, lon)


@pytest.mark.parametrize(
    ("typed", "said"), [("95 N", "no latitude"), ("10 N 190 E", "no longitude"), ("Graz", "not understood")]
)
def test_where_it_cannot_lie(typed: str, said: str) -> None:
    with pytest.raises(NotTaken, match=said):
        read_coordinates(typed)


@pytest.mark.parametrize(
    "typed", ["30 October", "Oct 30", "October 30th, 2026", "30th of October", "30.10.", "10-30"]
)
def test_a_day_of_frost(typed: str) -> None:
    assert frost_typed(typed) == "10-30"


def test_how_often_it_freezes_and_what_is_neither() -> None:
    assert frost_typed("1 Year in 5") == "1 year in 5"
    with pytest.raises(NotTaken, match="no day of the year"):
        frost_typed("rarely")


def test_height_and_helpers() -> None:
    assert height_typed("360") == height_typed("360 m") == {"height_m": 360}
    assert height_typed("1200 ft") == {"height_ft": 1200}
    assert helper_typed("bench helper 2,5 h seated light") == {
        "name": "bench helper", "hours_per_week": 2.5, "can": ["seated", "light"],
    }  # fmt: skip
    assert helper_typed("Ana") == {"name": "Ana"}
    for wrong in ("3", "Ana 3 climb", "Ana 200", "Ana 1-2", "Ana 2 no ladder"):
        with pytest.raises(NotTaken):
            helper_typed(wrong)


@pytest.mark.parametrize(
    ("typed", "name", "hours", "can"),
    [
        ("Anna two hours", "Anna", 2, ["anything"]),
        ("Anna, 2 hours a week", "Anna", 2, ["anything"]),
        ("Tom 1 hour, ladders and kneeling", "Tom", 1, ["ladder", "kneel"]),
        ("Tom: 3 hrs/week saw", "Tom", 3, ["saw"]),
        ("Eva half an hour", "Eva", 0.5, ["anything"]),
        ("Eva 90 min seated", "Eva", 1.5, ["seated"]),
        ("the two sisters 4", "the two sisters", 4, ["anything"]),
        ("class 4b 2", "class 4b", 2, ["anything"]),
    ],
)
def test_a_helper_as_people_write_one(typed: str, name: str, hours: float, can: list[str]) -> None:
    assert helper_typed(typed) == {"name": name, "hours_per_week": hours, "can": can}


@pytest.mark.parametrize("typed", ["high", "360 yards", "36O", "-"])
def test_what_is_no_height_is_said_with_what_to_write(typed: str) -> None:
    with pytest.raises(NotTaken, match=r"is no height above the sea\. Write 360, 360 m or 1200 ft\."):
        height_typed(typed)


def test_a_frost_may_be_told_by_the_part_of_its_month() -> None:
    assert [frost_typed(said) for said in ("mid October", "end of April")] == ["10-15", "04-30"]


def test_a_region_is_one_whose_dates_are_known() -> None:
    assert region_typed("  Germany ") == "Germany"
    assert region_typed("elsewhere") == "elsewhere"
    assert region_typed(" ") == ""
    with pytest.raises(NotTaken, match="'Nowhere at all' is not known here"):
        region_typed("Nowhere  at all")


def test_places_in_paces_and_words() -> None:
    assert place_typed("5n", "comice") == "5 paces north of comice"
    assert place_typed("1 ssw") == "1 pace south-southwest of gate"
    assert place_typed("2.5 m n 3 e of toll-ash") == "2.5 m north and 3 paces east of toll-ash"
    assert place_typed("24, -18") == [24, -18]
    assert place_typed("between a and b") == "between a and b"
    assert place_typed(" ") is None
    with pytest.raises(NotTaken, match="no length known here"):
        place_typed("5 bananas north")


def test_bare_numbers_are_of_the_gardens_units() -> None:
    metric, us = Place(lat=46.9, lon=15.9), Place(lat=40, lon=-90, units="us")
    assert place_keys("24 18", "gate", metric) == {"at": [24, 18]}
    assert place_keys("24 18", "gate", us) == {"at_ft": [24, 18]}
    assert place_keys("5 m n", "ash", us) == {"at": "5 m north of ash"}
    assert place_keys("", "ash", us) == {}
    text = '[place]\nlat = 40\nlon = -90\n[[plant]]\nid = "a"\nkind = "ash"\nat = [1, 2]\n'
    edit = text_of(text.encode(), Path("garden.toml")).changing("a", {"at_ft": [24, 18]})
    assert edit.after.decode() == text.replace("at = [1, 2]", "at_ft = [24, 18]")


def test_values_of_keys() -> None:
    assert value_typed("year", " 2012 ") == 2012
    assert value_typed("height_m", "4,5") == 4.5
    assert value_typed("role", "heir, nurse") == ["heir", "nurse"]
    assert value_typed("state", "Weak") == "weak"
    assert value_typed("why", "") is None
    assert value_typed("year", "about 2012") == "about 2012", "the reader says what to write"


def test_the_first_file_is_read_without_a_fault() -> None:
    beginning = Beginning(
        name='The "long" [strip] \x1b\n',
        lat=46.9,
        height=(("height_ft", 1200.0),),
        last_frost="04-24",
        first_frost="10-16",
        helpers=(helper_typed("Ana"), helper_typed("B 2 seated")),
    )
    reading = text_of(beginning.text().encode(), Path("garden.toml")).reading
    assert reading.faults == ()
    assert [h.name for h in reading.garden.helpers] == ["Ana", "B"]
    assert round(reading.garden.place.height_m or 0) == 366
    with pytest.raises(ValueError, match="latitude"):
        Beginning().text()
