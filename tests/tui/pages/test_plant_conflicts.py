"""Where sources disagree, on a plant's own page."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn_tui.pages.one_plant import OnePlant

GARDEN = garden_text(
    plant("red-maple", "red maple", year=2001, at=[0, 10]), climate=None, name="Small", lat=47.6, lon=-122.3
)


@pytest.mark.parametrize("width", [40, 80, 120])
def test_a_plants_page_shows_what_its_sources_disagree_on(tmp_path: Path, width: int) -> None:
    rows = OnePlant("red-maple").rows(almanac_of(tmp_path, GARDEN, "2027-04-26"), width)
    said = ["".join(piece.text for piece in row.pieces) for row in rows]
    assert any("where sources disagree" in line for line in said)
    together = " ".join(" ".join(said).split())
    assert "shade borne by red maple: Tolerant. Intolerant" in together
    assert any(row.why.startswith("shade borne by red maple: from Spurr and Barnes") for row in rows)
