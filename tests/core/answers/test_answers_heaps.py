"""Heaps as the page tells them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, heap, helper, plant

from leafturn.answers.heaps import HeapView
from leafturn.journal.entries import Entry, HeapReading

ON = dt.date(2027, 5, 25)
PORCH = (
    helper("porch helper", can=["light"], reach_from=[0, 0], reach_m=12),
    plant("far-rhubarb", "rhubarb", year=2020, at=[60, 0]),
    plant("near-currant", "redcurrant", year=2020, at=[4, 0]),
    plant("alder", "grey alder", year=2012, at=[3, 1]),
)


def view(folder: Path, stage: str, what: str = "grass clippings", *notes: Entry) -> HeapView:
    bay = heap("bay", at=[1, 0], bay_m=[1, 1, 1], stage=stage, mix=[{"what": what, "kg": 50}])
    return almanac_of(folder, garden_text(*PORCH, bay), ON, *notes).heaps()[0]


def reading(day: int, celsius: float) -> Entry:
    return HeapReading(on=dt.date(2027, 5, day), heap="bay", temp_c=celsius)


def test_a_wet_mix_is_told_what_dries_it(tmp_path: Path) -> None:
    """More than 65 % water is too wet (NRAES-54, recalled)."""
    heap = view(tmp_path, "filling")
    assert heap.water_percent == 77
    assert heap.to_do.startswith("too wet: add ")
    assert "water 60 %" in heap.to_do


def test_a_lean_dry_mix_wants_green_and_water(tmp_path: Path) -> None:
    """C:N over 40 is too lean, water under 40 % too little (NRAES-54, recalled)."""
    heap = view(tmp_path, "filling", "wood chips")
    assert any(mend.startswith("too lean: add ") and "grass clippings" in mend for mend in heap.mends)
    assert any("litres of water" in mend for mend in view(tmp_path, "filling", "straw").mends)


def test_what_is_not_in_the_table_is_named(tmp_path: Path) -> None:
    heap = view(tmp_path, "filling", "old boots")
    assert heap.unknown == ("old boots",)
    assert heap.c_to_n is None


def test_two_cool_looks_running_are_ripe_and_one_is_not(tmp_path: Path) -> None:
    """Within 10 degC of the air and no rise: the self-heating test (Cornell, NRAES-54; recalled)."""
    once = view(tmp_path, "curing", "leaves", reading(10, 45), reading(20, 19))
    assert not once.mature
    assert any("Not shown to be ripe" in line for line in once.says)
    twice = view(tmp_path, "curing", "leaves", reading(24, 20))
    assert twice.mature
    warm_again = view(tmp_path, "curing", "leaves", reading(25, 48))
    assert not warm_again.mature


def test_ripe_compost_goes_to_the_hungry_and_near_and_never_to_what_feeds_itself(tmp_path: Path) -> None:
    """Common practice, no source: soft fruit and heavy feeders before alders, which fix nitrogen."""
    heap = view(tmp_path, "ready")
    assert [line.plant for line in heap.spread] == ["near-currant", "far-rhubarb"]
    assert sum(line.litres for line in heap.spread) <= (heap.litres or 0)
    assert heap.to_do.startswith("spread: near-currant")


def test_a_heap_near_the_door_serves_those_who_walk_least(tmp_path: Path) -> None:
    """Common practice, no source: what lies within their reach is named for them."""
    near, far = view(tmp_path, "ready").spread
    assert near.reach == ("porch helper",)
    assert far.reach == ()


def test_a_heap_is_never_spread_before_it_is_ready(tmp_path: Path) -> None:
    assert view(tmp_path, "working").spread == ()
