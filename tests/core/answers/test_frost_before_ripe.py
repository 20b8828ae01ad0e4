"""Which plants a garden is told of whose fruit the first hard frost may take."""

from __future__ import annotations

from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

OLD = (
    plant("pine", "korean pine", year=1950, at=[0, 0]),
    plant("pine-2", "korean pine", year=1950, at=[9, 0]),
    plant("oak", "pedunculate oak", year=1950, at=[30, 0]),
    plant("medlar", "medlar", year=2000, at=[60, 0]),
)


def test_of_frost_before_ripeness_only_tender_fruit_is_told(tmp_path: Path) -> None:
    """Cones of pines hang over a winter before they are ripe, and acorns are not for the table."""
    notes = almanac_of(tmp_path, garden_text(*OLD), "2027-05-20").season().notes
    (told,) = (said for said in notes if said.startswith("A hard frost"))
    assert "medlar" in told
    assert "pine" not in told
    assert "oak" not in told
