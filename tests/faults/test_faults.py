"""Every fault, tried a few times in the plain suite and many times with `-m faults`: nothing is ever lost."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.faults import of_several, of_the_machine, of_two_files
from tests.faults.trial import Trial
from tests.samples.places import ROOT

TRIALS = (*of_the_machine.TRIALS, *of_two_files.TRIALS, *of_several.TRIALS)


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize("trial", TRIALS, ids=[trial.name for trial in TRIALS])
def test_a_few_faults_lose_nothing(trial: Trial) -> None:
    tally = trial.run(trial.short, 19)
    assert tally.clean, tally


@pytest.mark.faults
@pytest.mark.parametrize("trial", TRIALS, ids=[trial.name for trial in TRIALS])
def test_many_faults_lose_nothing(trial: Trial) -> None:
    tally = trial.run(trial.long, 20270419)
    assert tally.clean, tally


@pytest.mark.long
def test_the_long_form_starts_from_the_root_of_the_project() -> None:
    """As DEVELOPERS.md writes it, with nothing said of where modules lie."""
    without = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [sys.executable, "-m", "tests.faults", "nothing"],
        cwd=ROOT,
        env=without,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 1
    assert done.stderr.startswith("No trial is called nothing. There are: cut, kill, ")
