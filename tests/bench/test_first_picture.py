"""From the start of the program to the first job on its screen, against a bare Textual app in one run."""

from __future__ import annotations

import datetime as dt
import statistics
from pathlib import Path

import pytest
from tests.bench.first_picture import BARE_COMMAND, until_shown
from tests.samples.places import DEMO
from tests.stories.terminal import COMMAND, Terminal

pytestmark = pytest.mark.bench

ON = dt.date(2027, 4, 19)
FIRST_JOB = b"boskoop"
SIZE = (120, 40)


def test_the_first_job_stands_on_the_screen_soon(tmp_path: Path) -> None:
    """Uncached reads the library's TOML too, cold reads the garden, warm shows what was kept on leaving."""
    words = [str(DEMO), "--on", ON.isoformat()]
    with_cache = {"XDG_CACHE_HOME": str(tmp_path / "warm")}
    only_library = {"XDG_CACHE_HOME": str(tmp_path / "cold")}
    with Terminal(words, size=SIZE, env=with_cache) as terminal:
        terminal.wait_for("boskoop")
        assert terminal.leave() == 0
    bare, warm, cold = [], [], []
    for _ in range(7):
        bare.append(until_shown(BARE_COMMAND, b"the first job", size=SIZE))
        warm.append(until_shown([*COMMAND, *words], FIRST_JOB, size=SIZE, env=with_cache))
        cold.append(until_shown([*COMMAND, *words], FIRST_JOB, size=SIZE, env=only_library))
    uncached = until_shown([*COMMAND, *words], FIRST_JOB, size=SIZE, env={"XDG_CACHE_HOME": "/dev/null/x"})
    base = statistics.median(bare)
    ratios = [statistics.median(times) / base for times in (warm, cold)]
    print(f"bare {base:.3f} s; warm {ratios[0]:.2f}, cold {ratios[1]:.2f}, uncached {uncached / base:.2f}")
    assert ratios[0] < 1.6  # 1.25 to 1.3 was measured
    assert ratios[1] < 12
