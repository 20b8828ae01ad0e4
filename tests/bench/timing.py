"""How long a piece of work takes, on a machine that does other things meanwhile."""

from __future__ import annotations

import math
import time
from collections.abc import Callable

Work = Callable[[], object]


def best_of(*works: Work, rounds: int = 5, clock: Callable[[], float] = time.perf_counter) -> list[float]:
    """Seconds each piece of work takes: the best of rounds in which they take turns, to be slowed alike."""
    best = [math.inf] * len(works)
    for _ in range(rounds):
        for i, work in enumerate(works):
            start = clock()
            work()
            best[i] = min(best[i], clock() - start)
    return best


def seconds(work: Work, rounds: int = 3) -> float:
    """Seconds one piece of work takes, the best of some rounds."""
    return best_of(work, rounds=rounds)[0]
