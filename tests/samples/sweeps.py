"""Sweeps: every page at every size, every kind in every place. A plain run takes some cases, CI takes all.

@pytest.mark.sweep(each=5)
@pytest.mark.parametrize(...)
def test_...: the first case of each five is plain, the others are marked `long`
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import pytest


def mark_sweeps(items: Iterable[pytest.Item]) -> None:
    """Mark as `long` all but the first of each so many cases of a sweep, in the order they are written in."""
    seen = Counter[str]()
    for item in items:
        sweep = item.get_closest_marker("sweep")
        if sweep is not None:
            test = item.nodeid.partition("[")[0]
            if seen[test] % sweep.kwargs["each"]:
                item.add_marker(pytest.mark.long)
            seen[test] += 1
