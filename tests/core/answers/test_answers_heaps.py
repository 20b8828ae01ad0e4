"""Heaps as the page tells them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, heap, helper, plant

from leafturn.answers.heaps import HeapView
from leafturn.journal.entries import Done, Entry, HeapReading

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
    assert heap.to_do.startswith("too wet and too rich: add 18 kg straw")
    assert "water 60 %" in heap.to_do


def test_leaves_alone_get_one_advice_that_does_not_contradict_itself(tmp_path: Path) -> None:
    """C:N over 40 is too lean, water under 40 % too little (NRAES-54, recalled): grass mends both.

    What is told lies within those limits by one, so that the mix told of wants nothing more.
    """
    heap = view(tmp_path, "filling", "leaves")
    (mend,) = heap.mends
    assert mend == (
        "too dry and too lean: add 60 kg grass clippings, about 3 barrows (then C:N 39, water 58 %)"
    )
    assert (
        view(tmp_path, "filling", "hen manure").mends[0].endswith("litres of water (then C:N 25, water 50 %)")
    )


def test_a_heap_too_hot_is_turned_and_wetted(tmp_path: Path) -> None:
    """Above 70 degC it is too hot for what rots it (Manitoba Agriculture, read)."""
    heap = view(tmp_path, "working", "leaves", reading(24, 78))
    assert heap.to_do == "too hot: turn now, and wet it where it is dry"
    assert heap.due
    assert any("over 70 C what rots it dies" in line for line in heap.says)
    assert "too hot" not in view(tmp_path, "working", "leaves", reading(25, 64)).to_do


def test_a_heap_is_not_called_ripe_and_to_be_turned_in_one(tmp_path: Path) -> None:
    """A heap that lacks air cools too: only one that stays cool after a turn is ripe."""
    cooled = (reading(1, 62), reading(20, 19), reading(24, 20))
    heap = view(tmp_path, "working", "leaves", *cooled)
    assert heap.to_do == "turn now"
    assert not heap.mature
    turned = Done(on=dt.date(2027, 5, 10), task="bay:turn:2027")
    ripe = view(tmp_path / "turned", "working", "straw", *cooled, turned)
    assert ripe.mature
    assert "turn" not in ripe.to_do


def test_a_heap_never_hot_is_not_ripe_by_its_coolness(tmp_path: Path) -> None:
    heap = view(tmp_path, "curing", "leaves", reading(10, 18), reading(20, 19), reading(24, 20))
    assert not heap.mature
    assert any("no reading of 45 C or more is noted" in line for line in heap.says)


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
