"""How a command ends whose reader has gone, or that a key stopped: by its status, never with a traceback."""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import pytest
from tests.stories.terminal import COMMAND, SIGNALLED_WHILE_LOADING, environment

INTERRUPTED = 130  # 128 and the number of the signal, common practice of shells


@pytest.mark.parametrize("how", ["found", "a_class_made"])
@pytest.mark.parametrize(
    "module", ["msgspec", "leafturn.base.faults", "leafturn_tui.render", "leafturn.almanac"]
)
def test_ctrl_c_while_the_program_loads_is_a_key_and_no_fault(module: str, how: str, tmp_path: Path) -> None:
    run = subprocess.run(
        [*SIGNALLED_WHILE_LOADING, str(int(signal.SIGINT)), module, how, "round", "."],
        capture_output=True,
        text=True,
        env=environment(),
        cwd=tmp_path,
        timeout=60,
    )
    assert (run.returncode, run.stdout, run.stderr) == (INTERRUPTED, "", "")


def test_what_cannot_be_read_is_told_though_the_reader_of_answers_has_gone(tmp_path: Path) -> None:
    """Of `--json` the refusal is an object too, still to be given out when the sentence is told."""
    reading, writing = os.pipe()
    os.close(reading)
    run = subprocess.run(
        [*COMMAND, "round", "nowhere", "--json"],
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        env=environment(),
        cwd=tmp_path,
        timeout=60,
    )
    os.close(writing)
    assert run.stderr == "nowhere: there is no such folder or file. Check the name.\n"
    assert run.returncode == 2
