"""Every fault, tried a few times in the plain suite and many times with `-m faults`: nothing is ever lost."""

from __future__ import annotations

import pytest

from tests.faults import of_several, of_the_machine
from tests.faults.trial import Trial

TRIALS = (*of_the_machine.TRIALS, *of_several.TRIALS)


@pytest.mark.parametrize("trial", TRIALS, ids=[trial.name for trial in TRIALS])
def test_a_few_faults_lose_nothing(trial: Trial) -> None:
    tally = trial.run(trial.short, 19)
    assert tally.clean, tally


@pytest.mark.faults
@pytest.mark.parametrize("trial", TRIALS, ids=[trial.name for trial in TRIALS])
def test_many_faults_lose_nothing(trial: Trial) -> None:
    tally = trial.run(trial.long, 20270419)
    assert tally.clean, tally
