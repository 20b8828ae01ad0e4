"""Hundreds of gardens on a cluster of this machine, killed half-way and gone on with (needs Dask).

LEAFTURN_GARDENS=2000 in the environment asks of so many; one in a hundred is broken.
"""

from __future__ import annotations

import csv
import os
import signal
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

import pytest
from tests.samples.many_gardens import write_gardens
from tests.samples.places import ROOT

pytestmark = pytest.mark.reference

GARDENS = int(os.environ.get("LEAFTURN_GARDENS", "200"))
BROKEN = GARDENS // 100


def command(folder: Path) -> list[str]:
    code = f"import sys; sys.path[:0] = [{str(ROOT / 'core')!r}, {str(ROOT / 'tui')!r}]"
    run = folder / "run.py"
    run.write_text(
        f"{code}\nfrom leafturn_tui.command_line import main\n"
        "if __name__ == '__main__':\n    sys.exit(main())\n"
    )
    words = ["--on", "2027-04-19", "-o", str(folder / "out"), "--workers", "2", "--ask", "partners,frost"]
    return [sys.executable, str(run), "fleet", str(folder / "all"), *words]


def ledger(folder: Path) -> list[dict[str, str]]:
    rows = []
    for part in sorted((folder / "out" / "gardens").glob("part-*.csv")):
        with part.open(encoding="utf-8", newline="") as file:
            rows += list(csv.DictReader(file))
    return rows


def descendants(pid: int) -> set[int]:
    """The processes below one, by /proc."""
    children: dict[int, set[int]] = {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            parent = int((folder / "stat").read_text().rsplit(")", 1)[1].split()[1])
        except (OSError, IndexError, ValueError):
            continue
        children.setdefault(parent, set()).add(int(folder.name))
    found, new = set(), {pid}
    while new:
        new = set().union(*(children.get(one, set()) for one in new)) - found
        found |= new
    return found


def test_all_but_the_broken_are_answered_once_though_killed_half_way(tmp_path: Path) -> None:
    pytest.importorskip("distributed")
    sound, broken = write_gardens(tmp_path / "all", GARDENS, broken=BROKEN)
    assert (len(sound), len(broken)) == (GARDENS - BROKEN, BROKEN)
    first = subprocess.Popen(command(tmp_path), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    while len(ledger(tmp_path)) < GARDENS // 2:
        assert first.poll() is None, "it ended before it was killed"
        time.sleep(0.5)
    below = descendants(first.pid)
    first.send_signal(signal.SIGKILL)
    first.wait()
    before = ledger(tmp_path)
    parts = {file: file.stat().st_mtime_ns for file in (tmp_path / "out").glob("*/part-*")}
    deadline = time.monotonic() + 60
    while any(Path(f"/proc/{pid}").exists() for pid in below) and time.monotonic() < deadline:
        time.sleep(0.5)
    assert not any(Path(f"/proc/{pid}").exists() for pid in below), "workers outlive a killed run"

    done = subprocess.run(command(tmp_path), capture_output=True, text=True)
    assert done.returncode == 1, done.stderr[-2000:]
    after = ledger(tmp_path)
    assert after[: len(before)] == before
    assert Counter(row["garden"] for row in after) == Counter(sound + broken)
    states = {row["garden"]: row["state"] for row in after}
    assert {name for name, state in states.items() if state != "answered"} == set(broken)
    kept = {file: when for file, when in parts.items() if file.exists()}
    assert {file: file.stat().st_mtime_ns for file in kept} == kept  # nothing written was written again
    for name in broken:
        assert f"\n{name}: garden.toml" in done.stderr
    assert f"{GARDENS} gardens of {GARDENS}: {len(sound)} answered, {BROKEN} gave no answers." in done.stdout
    assert os.listdir(tmp_path / "out" / "summary")
