"""Faults between the two files of one act: the note of a loss, and the garden file that says so too."""

from __future__ import annotations

import io
import os
import random
import signal
import sys
import tempfile
import time
from multiprocessing.connection import Connection
from pathlib import Path

from leafturn.almanac import open_almanac
from leafturn_tui.command_line import main
from tests.faults.trial import TODAY, Tally, Trial, heard
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.journal import in_child

PLANTS = 12  # more than anyone loses before it is killed


def killed_between(times: int, seed: int) -> Tally:
    """A process that tells plants as gone, one after another, is killed at a random moment."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with tempfile.TemporaryDirectory() as made:
            garden = Path(made)
            plants = [plant(f"plum-{n}", "european plum", at=[5 * n, 0]) for n in range(PLANTS)]
            (garden / "garden.toml").write_text(garden_text(*plants))
            child, pipe = in_child(lambda pipe, garden=garden: _losing(pipe, garden))
            begun = time.monotonic()
            acknowledged = [pipe.recv()]
            time.sleep(chance.uniform(0.0, 2 * (time.monotonic() - begun)))
            os.kill(child.pid, signal.SIGKILL)
            child.join()
            tally.add(_told(garden, [*acknowledged, *heard(pipe)]))
    return tally


def _losing(pipe: Connection, garden: Path) -> None:
    sys.stdout = sys.stderr = io.TextIOWrapper(io.BytesIO(), write_through=True)
    for number in range(PLANTS):
        if main(["gone", str(garden), f"plum-{number}", "voles"], today=TODAY) == 0:
            pipe.send(f"plum-{number}")
    pipe.send(None)


def _told(garden: Path, acknowledged: list[str]) -> Tally:
    """What is lost in either file of what was acknowledged; wrong is a file that says more than the notes."""
    almanac = open_almanac(garden, TODAY)
    noted = [entry.plant or "" for entry in almanac.entries]
    written = (garden / "garden.toml").read_text().count('state = "gone"')
    one = Tally(acknowledged=len(acknowledged), lost=len(set(acknowledged) - set(noted)))
    one.lost += max(0, len(acknowledged) - written)
    one.wrong = (written > len(noted)) + (len(noted) - len(set(noted))) + bool(almanac.faults)
    one.unsaid = run("check", str(garden), "--on", TODAY.isoformat()).returncode != 0
    return one


TRIALS = (Trial("two", "kill -9 between the note of a loss and the garden file", killed_between, 4, 200),)
