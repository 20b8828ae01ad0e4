"""The plan of the garden: places and sizes to scale, in colour and without."""

from __future__ import annotations

import math
import re

import pytest
from fake_garden import GARDEN_PLAN
from msgspec.structs import replace

from leafturn.garden.model import Point
from leafturn_tui.charts.field import Field
from leafturn_tui.charts.garden_plan import legend_rows, light_shade, plan_rows
from leafturn_tui.charts.letters import codes

NAMES = codes([p.plant for p in GARDEN_PLAN.plants])
FIELD = Field.whole(GARDEN_PLAN, 44, 18)


def test_everything_lies_within_and_one_scale_holds_both_ways() -> None:
    for plant in GARDEN_PLAN.plants:
        x, y = FIELD.pixel(plant.point.east, plant.point.north)
        assert 0 <= x < 44
        assert 0 <= y < 2 * 18
    (x0, y0), (x1, y1) = FIELD.pixel(0, 0), FIELD.pixel(3, 4)
    assert math.hypot(x1 - x0, y1 - y0) * FIELD.metre == pytest.approx(5.0)


def test_a_crown_covers_its_area() -> None:
    field = Field.around(-6.0, 2.0, 0.5, 40, 20)
    rows = plan_rows(GARDEN_PLAN, field, NAMES, colour=True)
    pixels = 0
    for row in rows:
        for piece in row.pieces:
            upper, _, lower = piece.tone.partition(" on ")
            tones = (upper, lower) if piece.text.startswith("▀") else (lower, lower)
            pixels += len(piece.text) * sum(tone.startswith("crown_old") for tone in tones)
    assert pixels * 0.25 == pytest.approx(math.pi * 3.0**2, rel=0.2)


def test_without_colour_it_is_rings_of_braille_and_letters() -> None:
    rows = plan_rows(GARDEN_PLAN, FIELD, NAMES, colour=False)
    text = "\n".join(row.text for row in rows)
    assert "▀" not in text
    assert any(0x2800 < ord(sign) <= 0x28FF for sign in text)
    for sign in "#.+:^%=":
        assert sign not in text
    assert NAMES["early-plum"] in text
    assert "10 m" in text


def test_light_is_digits_without_colour_and_blank_where_it_is_open() -> None:
    rows = plan_rows(
        GARDEN_PLAN,
        FIELD,
        NAMES,
        colour=False,
        shade=light_shade(lambda at: [95.0 if e < 0 else 62.0 for e, _ in at]),
    )
    text = "\n".join(row.text for row in rows)
    assert "666" in text
    assert "9" not in text


def test_nearer_looks_at_half_the_ground() -> None:
    assert FIELD.nearer(2.0).metre == pytest.approx(FIELD.metre / 2)


def test_the_legend_groups_by_height() -> None:
    said = [row.text.strip() for row in legend_rows(GARDEN_PLAN, NAMES, 32)]
    assert said[0] == "failing"
    assert "3 to 7 m" in said
    assert "under 3 m" in said


def test_names_keep_apart_in_a_dense_guild() -> None:
    """Nine shrubs a metre from each other: each pair of letters stands by itself, or is left out."""
    shrub = replace(GARDEN_PLAN.plants[0], radius_m=0.4, failing=False)
    plants = tuple(
        replace(shrub, plant=f"{first}{second}-x", point=Point(1.0 * e, 1.0 * n))
        for (e, first) in enumerate("abc")
        for (n, second) in enumerate("rst")
    )
    plan = replace(GARDEN_PLAN, plants=plants, spots=())
    names = codes([p.plant for p in plants])
    field = Field.around(1.0, 1.0, 0.9, 24, 10)
    text = "\n".join(row.text for row in plan_rows(plan, field, names, colour=True))
    found = re.findall(r"[a-z0-9]+", text.replace(" m", ""))
    written = [word for word in found if word in names.values()]
    assert len(written) >= 4
    assert not [word for word in found if len(word) > 2], text


def test_spots_beside_each_other_are_not_run_together() -> None:
    spots = tuple((f"bay-{n}", Point(1.4 * n, 0.0)) for n in (1, 2, 3))
    plan = replace(GARDEN_PLAN, plants=(), spots=spots)
    rows = plan_rows(plan, Field.around(3.0, 0.0, 0.5, 30, 8), {}, colour=True)
    written = re.findall(r"[\w-]*bay[\w-]*", "\n".join(row.text for row in rows))
    assert len(written) > 1
    assert set(written) <= {"bay-1", "bay-2", "bay-3"}
