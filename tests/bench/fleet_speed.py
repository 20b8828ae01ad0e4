"""How fast many gardens are asked: by how many processes, and as gardens grow.

    python -m tests.bench.fleet_speed [GARDENS]

Generated gardens of five plants (`tests/samples/many_gardens.py`), all four questions. Engines take turns
within one run on the same gardens, three times, and the median counts; a cluster is up before its clock
starts. To be run on a quiet machine: the load at the beginning is printed with the figures.
"""

from __future__ import annotations

import datetime as dt
import math
import os
import statistics
import sys
import tempfile
import time
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path

from tests.samples.many_gardens import write_gardens

from leafturn.fleet.engines import Engine, local_cluster, this_process
from leafturn.fleet.gardens import FoundGarden, find_gardens
from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.run import ask_all

ON = dt.date(2027, 4, 19)
TURNS = 3


def seconds(gardens: Sequence[FoundGarden], engine: Engine, form: str = "csv") -> float:
    """How long asking all takes, with writing the answers."""
    settings = Settings(on=ON, questions=("round", "partners", "frost", "forecasts"), form=form)  # type: ignore[arg-type]
    with tempfile.TemporaryDirectory() as folder:
        parts = Parts(Path(folder) / "out", settings, time.monotonic, str)
        begun = time.perf_counter()
        ask_all(gardens, settings, parts, engine, lambda progress: None)
        took = time.perf_counter() - begun
        parts.close()
    return took


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        write_gardens(Path(folder), count)
        gardens = find_gardens(Path(folder))
        print(f"load at the beginning {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
        engines = {
            "this process": stack.enter_context(this_process()),
            "1 worker": stack.enter_context(local_cluster(1)),
            "2 workers": stack.enter_context(local_cluster(2)),
        }
        warm = gardens[:8]
        for engine in engines.values():
            seconds(warm, engine)
        took: dict[str, list[float]] = {name: [] for name in engines}
        for _ in range(TURNS):
            for name, engine in engines.items():
                took[name].append(seconds(gardens, engine))
        alone = statistics.median(took["this process"])
        for name, each in took.items():
            median = statistics.median(each)
            print(f"{name}: {count / median:.2f} gardens a second, {alone / median:.2f} times this process")
        sizes = [count // 8, count // 4, count // 2, count]
        by_size = [seconds(gardens[:size], engines["2 workers"]) for size in sizes]
        slope = statistics.linear_regression(
            [math.log(n) for n in sizes], [math.log(t) for t in by_size]
        ).slope
        print("2 workers:", ", ".join(f"{n} in {t:.1f} s" for n, t in zip(sizes, by_size, strict=True)))
        print(f"exponent {slope:.2f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
