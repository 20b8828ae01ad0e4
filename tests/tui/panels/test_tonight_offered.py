"""A cold night that is foreseen stands on the line of the panel, in degrees of the garden."""

from __future__ import annotations

import datetime as dt

from fake_almanac import FakeAlmanac
from msgspec.structs import replace
from screens import shown_after

from leafturn.season.foreseen import ForeseenNight

NIGHT = ForeseenNight(eve=dt.date(2027, 4, 19), station_c=-2.0, typed=False)


def asked(*nights: ForeseenNight) -> str:
    return next(
        line
        for line in shown_after(FakeAlmanac(nights_foreseen=nights), (80, 24), "t")
        if line.startswith(" >")
    )


def test_the_night_to_come_is_offered_and_no_later_one() -> None:
    pocket = FakeAlmanac().garden.place.frost_pocket_c
    assert asked(NIGHT).split()[1] == f"{-2.0 + pocket:.1f}"
    assert asked().strip() == ">"
    assert asked(replace(NIGHT, eve=dt.date(2027, 4, 20))).strip() == ">"
    told = "\n".join(shown_after(FakeAlmanac(nights_foreseen=(NIGHT,)), (80, 24), "t", "enter"))
    assert "What would" in told


def test_degrees_that_are_typed_replace_what_is_offered() -> None:
    lines = shown_after(FakeAlmanac(nights_foreseen=(NIGHT,)), (80, 24), "t", "minus", "4")
    assert next(line for line in lines if line.startswith(" >")).split()[1] == "-4"


def test_plants_stand_in_a_table_and_all_is_told_in_words_below_it() -> None:
    lines = shown_after(FakeAlmanac(), (100, 40), "t", "minus", "3", "enter")
    text = [line.strip() for line in lines]
    heads = next(n for n, line in enumerate(text) if line.startswith("plant "))
    assert text[heads].split("  ")[0] == "plant"
    assert text[heads + 1].startswith("comice-1")
    assert "0 (up to 6)" in text[heads + 1], "of 10, as the head says"
    assert any(line.startswith("comice-1: hardly any (up to 6 of 10) lost") for line in text[heads + 2 :])
    narrow = [line.strip() for line in shown_after(FakeAlmanac(), (60, 24), "t", "minus", "3", "enter")]
    assert not any(line.startswith("plant ") for line in narrow)
