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
