"""A seedling goes for spreading only where lists of its region name it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant


@pytest.mark.parametrize(
    ("kind", "region", "verdict"),
    [
        ("rowan", None, "keep"),
        ("rowan", "germany", "keep"),
        ("rowan", "new zealand", "remove"),
        ("tree of heaven", None, "remove"),
        ("tree of heaven", "germany", "remove"),
        ("sweet cherry", "oregon", "remove"),
        ("sweet cherry", "united kingdom", "keep"),
    ],
)
def test_a_seedling_goes_where_it_is_listed(
    tmp_path: Path, kind: str, region: str | None, verdict: str
) -> None:
    place = {} if region is None else {"region": region}
    text = garden_text(plant("it", kind, year=2025, origin="came by itself", at=[0, 0]), **place)
    (judged,) = almanac_of(tmp_path / "garden", text, "2027-05-01").canopy().seedlings
    assert judged.verdict == verdict
