"""Lists of a garden file are read wherever TOML puts them (TOML 1.0.0: Table)."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.garden.reading.reader import read_garden

PLACE = "[place]\nlat = 46.9\nlon = 15.9\n"
LIST = 'plant = [\n  { kind = "pear", at = "gate" },\n  { kind = "hazel", at = "5 m north of pear" },\n]\n'


@pytest.mark.parametrize(
    "before",
    [
        '[[helper]]\nname = "Ada"\n',
        '[[heap]]\nid = "bay"\n',
        (
            "[climate]\ntmax_c = [2, 5, 10, 15, 20, 24, 26, 25, 20, 15, 8, 3]\n"
            "tmin_c = [-5, -4, 0, 4, 8, 12, 13, 13, 9, 5, 1, -3]\n"
        ),
        '[[plant]]\nkind = "medlar"\n',
        "[rule]\nhard_frost_c = -3\n",
    ],
)
def test_plants_listed_after_another_heading_are_plants(tmp_path: Path, before: str) -> None:
    (tmp_path / "garden.toml").write_text(PLACE + before + LIST, "utf-8")
    reading = read_garden(tmp_path)
    assert not reading.faults
    assert {"pear", "hazel"} <= {plant.kind for plant in reading.garden.plants}
    assert {plant.line for plant in reading.garden.plants if plant.kind == "hazel"} == {
        len((PLACE + before).splitlines()) + 3
    }


@given(order=st.permutations(range(4)))
def test_what_is_read_hangs_on_no_order(tmp_path_factory: pytest.TempPathFactory, order: list[int]) -> None:
    parts = [
        PLACE,
        '[[helper]]\nname = "Ada"\n',
        '[[heap]]\nid = "bay"\n',
        '[[seat]]\nname = "bench"\nat = [4, 3]\n',
    ]
    folder = tmp_path_factory.mktemp("garden")
    (folder / "garden.toml").write_text("".join(parts[n] for n in order) + LIST, "utf-8")
    reading = read_garden(folder)
    assert not reading.faults
    garden = reading.garden
    assert (len(garden.plants), len(garden.helpers), len(garden.heaps), len(garden.seats)) == (2, 1, 1, 1)
