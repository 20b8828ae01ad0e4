"""The walk as a picture: numbers in the order of the way, at their places, the long side along the page."""

from __future__ import annotations

from fake_garden import GARDEN_PLAN, WALK
from msgspec.structs import replace

from leafturn.garden.model import Point
from leafturn.tasks.week.model import Stop, Walk
from leafturn_tui.charts.walk import walk_rows


def drawn(*, colour: bool, walk: Walk = WALK) -> list[str]:
    return [row.text for row in walk_rows(GARDEN_PLAN, walk, 60, 12, colour=colour)]


def place(lines: list[str], word: str) -> tuple[int, int]:
    row = next(n for n, line in enumerate(lines) if word in line)
    return row, lines[row].index(word)


def test_stops_are_numbered_and_named_in_the_order_of_the_way() -> None:
    for colour in (True, False):
        lines = drawn(colour=colour)
        assert all(len(line) == 60 for line in lines)
        (first, plum), (second, quince) = place(lines, "1"), place(lines, "2")
        assert plum < quince
        assert first < second
        assert any("gate" in line for line in lines)
        assert any("early-plum" in line for line in lines)


def test_the_way_is_dots_from_the_gate_on() -> None:
    lines = drawn(colour=False)
    dots = sum(0x2800 < ord(sign) <= 0x28FF for line in lines for sign in line)
    assert dots >= 6
    assert "▀" not in "".join(lines)


def test_a_garden_that_is_longer_to_the_north_lies_on_its_side() -> None:
    tall = replace(
        GARDEN_PLAN,
        plants=tuple(
            replace(s, point=Point(s.point.east / 10, 4 * s.point.north)) for s in GARDEN_PLAN.plants
        ),
        paths=(),
    )
    way = (Stop(name="gate", point=Point(0.0, 0.0)), Stop(name="far", point=Point(0.0, 8.0)))
    walk = Walk(stops=("gate", "far"), metres=8.0, way=way)
    lines = [row.text for row in walk_rows(tall, walk, 60, 12, colour=False)]
    assert "N ▸" in lines[0]
    assert place(lines, "1")[1] > place(lines, "gate")[1]


def test_two_stops_at_one_place_both_have_their_number() -> None:
    here = Point(3.0, 3.0)
    way = (*WALK.way[:1], *(Stop(name=name, point=here) for name in ("pears", "bench")))
    lines = drawn(colour=True, walk=Walk(stops=("gate", "pears", "bench"), metres=9.0, way=way))
    assert any("1" in line for line in lines)
    assert any("2" in line for line in lines)
