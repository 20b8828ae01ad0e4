"""What tests of the learnt response share."""

from __future__ import annotations

import pytest
from tests.samples.invented_sites import invented_sites

from leafturn.bloom.learning import fit_prior
from leafturn.bloom.priors.prior import BloomPrior


@pytest.fixture(scope="session")
def learnt() -> BloomPrior:
    """A kind learnt from ten invented sites; site numbers from 50 on are free for plants it never saw."""
    return fit_prior(*invented_sites(10))
