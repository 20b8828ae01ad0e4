"""An early spring is early for all, by its learnt size."""

from __future__ import annotations

import datetime as dt
import shutil
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.almanac import open_almanac
from leafturn.bloom.doubt import draws_of
from leafturn.bloom.notes.spring import COMMON, DEFAULT_SPRINGS, OF_KIND, learnt_correlation, read_spring
from leafturn.journal.entries import Entry

DEMO = Path(__file__).parents[3] / "demo_garden"
departure = st.floats(-3, 3)


def by_conditioning(seen: dict[str, list[float]], kind: str, correlation: float) -> tuple[float, float]:
    """Mean and variance of one more plant's departure, by conditioning the joint normal directly."""
    names = [(k, i) for k, values in seen.items() for i in range(len(values))]
    everyone = [*names, (kind, -1)]
    cov = np.array([
        [correlation + OF_KIND * (a[0] == b[0]) + (1 - correlation - OF_KIND) * (a == b) for b in everyone]
        for a in everyone
    ])  # fmt: skip
    z = np.array([v for values in seen.values() for v in values])
    gain = cov[-1, :-1] @ np.linalg.inv(cov[:-1, :-1])
    return float(gain @ z), float(cov[-1, -1] - gain @ cov[:-1, -1])


@given(
    st.dictionaries(st.sampled_from("abcd"), st.lists(departure, min_size=1, max_size=3), min_size=1),
    st.sampled_from("abcde"),
    st.floats(0.1, 0.7),
)
@settings(max_examples=60, deadline=None)
def test_the_pull_is_that_of_the_joint_normal(
    seen: dict[str, list[float]], kind: str, correlation: float
) -> None:
    drawn = read_spring(seen, correlation).departures(20_000, kind, "another")
    mean, variance = by_conditioning(seen, kind, correlation)
    assert drawn.mean() == pytest.approx(mean, abs=1e-9)
    assert drawn.var() == pytest.approx(variance, rel=0.12)


def test_without_notes_nothing_moves_and_nothing_is_surer() -> None:
    drawn = read_spring({}).departures(4000, "pear", "p")
    assert abs(drawn.mean()) < 1e-9
    assert drawn.var() == pytest.approx(1.0, abs=0.06)


def test_plants_of_one_kind_shift_together_more_than_others() -> None:
    spring = read_spring({})
    a, b, other = (spring.departures(4000, k, p) for k, p in (("pear", "a"), ("pear", "b"), ("apple", "c")))
    assert np.corrcoef(a, b)[0, 1] == pytest.approx(COMMON + OF_KIND, abs=0.05)
    assert np.corrcoef(a, other)[0, 1] == pytest.approx(COMMON, abs=0.05)


@given(st.integers(1, 400), st.text(max_size=8))
@settings(max_examples=40)
def test_draws_are_the_same_at_every_run_and_centred(draws: int, name: str) -> None:
    assert (draws_of(draws, name) == draws_of(draws, name)).all()
    assert abs(draws_of(draws, name).mean()) < 1e-9


def test_own_springs_pull_the_correlation_by_their_number() -> None:
    assert learnt_correlation({}) == COMMON
    alike = {year: {"pear": z, "apple": z, "plum": z} for year, z in enumerate((1.0, -1.0, 1.0, -1.0))}
    assert learnt_correlation(alike) == pytest.approx(
        (4 * 1.0 + DEFAULT_SPRINGS * COMMON) / (4 + DEFAULT_SPRINGS)
    )
    opposed = {1: {"pear": 1.0, "apple": -1.0}, 2: {"pear": -1.0, "apple": 1.0}}
    assert learnt_correlation(opposed) < COMMON
    assert learnt_correlation({1: {"pear": 2.0}}) == COMMON


def test_an_early_note_brings_other_kinds_forward_and_says_by_how_much(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(DEMO, tmp_path / "meadow"))
    asked = dt.date(2027, 4, 12)
    before = open_almanac(folder, asked)
    early = Entry(on=dt.date(2027, 4, 12), what="bloom", plant="old-plum", stage="first open")
    after, _ = before.note(early, asked)
    for plant in ("boskoop", "quince", "kiwi-f1"):
        assert after.forecasts[plant].moved_days < before.forecasts[plant].moved_days - 0.5
        assert np.median(after.forecasts[plant].first_open) < np.median(before.forecasts[plant].first_open)
    said = " ".join(after.season().notes)
    assert "days earlier" in said
