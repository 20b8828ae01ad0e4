"""Tables of real measurements that come with the package vega-datasets, read without running its code."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path


def rows_of(name: str) -> Iterator[dict[str, str]]:
    """The rows of one of its files by their heads; its own reader wants pandas, which loads for seconds."""
    spec = find_spec("vega_datasets")
    assert spec is not None
    assert spec.origin is not None
    path = Path(spec.origin).with_name("_data") / name
    with path.open(encoding="utf-8", newline="") as source:
        yield from csv.DictReader(source)
