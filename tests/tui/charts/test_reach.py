"""The ring of a tree's reach, and the piece of path within it."""

from __future__ import annotations

import math

import pytest
from fake_garden import GARDEN_PLAN

from leafturn.garden.model import Point
from leafturn_tui.charts.crowns import Reach, discs
from leafturn_tui.charts.field import Field
from leafturn_tui.charts.letters import codes
from leafturn_tui.charts.reach_plan import reach_rows

NAMES = codes([p.plant for p in GARDEN_PLAN.plants])
FIELD = Field.around(0.0, -4.0, 0.5, 80, 40)


def harm(reach: Reach | None) -> list[tuple[float, float]]:
    """The middles of all pixels of harm [m]."""
    places = []
    for r, row in enumerate(discs(GARDEN_PLAN, FIELD, reach=reach)):
        for n, (sign, tone) in enumerate(row):
            upper, _, lower = tone.partition(" on ")
            for half, token in enumerate((upper if sign == "▀" else lower, lower)):
                if token == "harm":
                    north = FIELD.north - (2 * r + half + 0.5) * FIELD.metre
                    places.append((FIELD.west + (n + 0.5) * FIELD.metre, north))
    return places


def test_harm_is_the_ring_and_the_path_within_it_alone() -> None:
    assert not harm(None)
    tree, reach = Point(0.0, -4.0), 6.0
    away = [math.hypot(east - tree.east, north - tree.north) for east, north in harm(Reach(tree, reach))]
    assert max(away) <= reach + FIELD.metre
    on_ring = [d for d in away if d > reach - FIELD.metre]
    assert len(on_ring) > 30
    assert len(away) - len(on_ring) > 10, "the lane passes through the ring"


@pytest.mark.parametrize("colour", [True, False])
def test_the_whole_ring_is_seen_whatever_the_room(colour: bool) -> None:
    for columns, rows in ((44, 18), (30, 9)):
        drawn = reach_rows(GARDEN_PLAN, NAMES, Point(-6.0, 2.0), 8.0, columns, rows, colour=colour)
        assert len(drawn) == rows
        text = [row.text for row in drawn]
        assert all(len(line) == columns for line in text)
        assert any("ep" in line for line in text)
