"""The share that stands after so many years, against published values and another library."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.base.survival import Life, survival

# Weeks of remission under 6-mercaptopurine, those that had ended and those that had not: Freireich and
# others 1963, Blood 21: 699.
ENDED, LASTING = (6, 6, 6, 7, 10, 13, 16, 22, 23), (6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
LIVES = [*(Life(weeks, over=True) for weeks in ENDED), *(Life(weeks, over=False) for weeks in LASTING)]
# The estimate as textbooks print it for these weeks (recalled).
PRINTED = {6: 0.857, 7: 0.807, 10: 0.753, 13: 0.690, 16: 0.627, 22: 0.538, 23: 0.448}


def test_the_textbook_example() -> None:
    found = {share.years: round(share.share, 3) for share in survival(LIVES)}
    assert {week: found[week] for week in PRINTED} == PRINTED


@pytest.mark.reference
def test_shares_and_ranges_are_those_of_scipy() -> None:
    stats = pytest.importorskip("scipy.stats")
    data = stats.CensoredData(
        uncensored=[life.years for life in LIVES if life.over],
        right=[life.years for life in LIVES if not life.over],
    )
    theirs = stats.ecdf(data).sf
    within = theirs.confidence_interval(0.8, method="log-log")
    for share in survival(LIVES):
        at = int(np.searchsorted(theirs.quantiles, share.years))
        assert share.share == pytest.approx(theirs.probabilities[at])
        assert share.low == pytest.approx(within.low.probabilities[at])
        assert share.high == pytest.approx(within.high.probabilities[at])


def test_without_a_loss_the_low_end_is_what_would_lose_none_once_in_ten() -> None:
    (share,) = survival([Life(3, over=False)] * 6)
    assert (share.share, share.high, share.at_risk) == (1.0, 1.0, 6)
    assert share.low**6 == pytest.approx(0.1)


def test_all_lost() -> None:
    last = survival([Life(1, over=True), Life(2, over=True)])[-1]
    assert (last.share, last.low) == (0.0, 0.0)
    assert last.high == pytest.approx(0.9)
    assert survival([]) == ()
