"""From the start of the program to the first job on its screen, against a bare Textual app in one run."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.bench.first_picture import first_pictures
from tests.samples.places import DEMO

pytestmark = pytest.mark.bench


def test_the_first_job_stands_on_the_screen_soon(tmp_path: Path) -> None:
    took = first_pictures([str(DEMO), "--on", "2027-04-19"], "boskoop", tmp_path, turns=7)
    ratios = {kind: took[kind] / took["bare"] for kind in ("warm", "cold", "uncached")}
    told = ", ".join(f"{kind} {ratio:.2f}" for kind, ratio in ratios.items())
    print(f"bare {took['bare']:.3f} s; {told}")
    assert ratios["warm"] < 0.9  # 0.5 was measured
    assert ratios["cold"] < 5  # 2.1 to 2.7 were measured
