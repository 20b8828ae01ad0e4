"""Where sources disagree, on a plant's own page."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from leafturn.almanac import open_almanac
from leafturn_tui.pages.one_plant import OnePlant

GARDEN = """
[place]
name = "Small"
lat = 47.6
lon = -122.3

[[plant]]
id = "red-maple"
kind = "red maple"
year = 2001
at = [0, 10]
"""


@pytest.mark.parametrize("width", [40, 80, 120])
def test_a_plants_page_shows_what_its_sources_disagree_on(tmp_path: Path, width: int) -> None:
    (tmp_path / "garden.toml").write_text(GARDEN, encoding="utf-8")
    rows = OnePlant("red-maple").rows(open_almanac(tmp_path, dt.date(2027, 4, 26)), width)
    said = ["".join(piece.text for piece in row.pieces) for row in rows]
    assert any("where sources disagree" in line for line in said)
    together = " ".join(" ".join(said).split())
    assert "shade borne by red maple: Tolerant. Intolerant" in together
    assert any(row.why.startswith("shade borne by red maple: from Spurr and Barnes") for row in rows)
