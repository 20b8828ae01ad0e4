"""The way from the garden file to the line of a job grows no longer unnoticed; docs/main_path.md lists it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
MOST_FUNCTIONS, MOST_TYPES = 45, 21


def test_the_way_from_file_to_line_is_no_longer_than_it_was() -> None:
    """Apart from this process, whose tests are traced by other tools and have kept what was read."""
    run = subprocess.run(
        [sys.executable, str(ROOT / "docs" / "main_path.py")], capture_output=True, text=True, check=True
    )
    counted = [int(line.split()[0]) for line in run.stdout.splitlines() if line.endswith(":")]
    functions, types = counted
    assert 20 < functions <= MOST_FUNCTIONS, run.stdout
    assert 10 < types <= MOST_TYPES, run.stdout
