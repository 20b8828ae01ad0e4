"""What a host can carry."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.climbers.load import ALLOWED, ORDER, Bearer, load_of, wanted_trunk_cm
from leafturn.garden.model import Plant, State
from leafturn.kinds.library import load_library

LIBRARY, _ = load_library()
CLIMBING = [name for name, kind in LIBRARY.kinds.items() if kind.habit == "climber"]


def host(state: State = "well", crown: float = 4.0, trunk: float = 30.0) -> Bearer:
    return Bearer(name="tree", crown_m=crown, trunk_cm=trunk, height_m=9.0, state=state)


def verdict(kind: str, bearer: Bearer, uncut: int = 0, year: int = 2016) -> str:
    climber = Plant(id="climber", kind=kind, year=year)
    return load_of(climber, LIBRARY.match(kind).kind, bearer, 2027, uncut).verdict


def test_strong_nut_trees_carry_woody_climbers_if_these_are_cut_yearly() -> None:
    """Common practice, no source."""
    nut = host(crown=4.5, trunk=32.0)
    for climber in ("hardy kiwi", "grape", "akebia"):
        assert verdict(climber, nut) == "bears it, cut yearly"
    assert ORDER.index(verdict("hardy kiwi", nut, uncut=3)) > ORDER.index(  # type: ignore[arg-type]
        "bears it, cut yearly"
    )


def test_a_nitrogen_fixing_climber_may_use_a_young_tree() -> None:
    """Common practice, no source; groundnut dies down each winter and grows weakly."""
    assert verdict("groundnut", host(crown=1.0, trunk=4.0), year=2024) == "bears it"
    assert verdict("wisteria", host(crown=1.0, trunk=4.0), year=2024) == "too much"


def test_a_rambler_is_too_much_for_a_declining_plum() -> None:
    """Common practice, no source: a failing tree is relieved first."""
    assert verdict("rambling rose", host("declining", crown=3.0, trunk=31.0)) == "too much"
    assert verdict("rambling rose", host("dead standing", crown=3.0, trunk=31.0)) == "too much"


@pytest.mark.parametrize("kind", ["hardy kiwi", "wisteria", "akebia", "honeysuckle"])
def test_a_woody_twiner_strangles_a_thin_stem(kind: str) -> None:
    """Twining girth constricts: never on a stem under 10 cm (reasons, no published figure)."""
    climber = Plant(id="climber", kind=kind, year=2026)
    thin = load_of(climber, LIBRARY.match(kind).kind, host(trunk=8.0), 2027)
    thick = load_of(climber, LIBRARY.match(kind).kind, host(trunk=30.0), 2027)
    assert thin.strangles
    assert not thick.strangles
    assert thin.verdict == "too much"


def test_tendrils_and_roots_do_not_strangle() -> None:
    for kind in ("grape", "virginia creeper", "ivy"):
        found = load_of(Plant(id="c", kind=kind, year=2026), LIBRARY.match(kind).kind, host(trunk=8.0), 2027)
        assert not found.strangles


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(CLIMBING),
    st.floats(0.5, 8),
    st.floats(3, 80),
    st.sampled_from(list(ALLOWED)),
    st.integers(0, 3),
    st.integers(1995, 2027),
)
def test_a_larger_or_healthier_host_is_never_worse(
    kind: str, crown: float, trunk: float, state: State, uncut: int, year: int
) -> None:
    def rank(bearer: Bearer, uncut: int) -> int:
        return ORDER.index(verdict(kind, bearer, uncut, year))  # type: ignore[arg-type]

    here = rank(host(state, crown, trunk), uncut)
    assert rank(host("well", crown, trunk), uncut) <= here
    assert rank(host(state, crown * 1.5, trunk), uncut) <= here
    assert rank(host(state, crown, trunk * 1.5), uncut) <= here
    assert rank(host(state, crown, trunk), 0) <= here


def test_every_climber_of_the_library_has_a_least_trunk() -> None:
    for name in CLIMBING:
        assert 2.0 <= wanted_trunk_cm(LIBRARY.match(name).kind) <= 40.0


def test_more_than_the_whole_crown_is_told_in_how_many_times() -> None:
    """A share of a whole has no 182 parts of 100."""
    rose, small = LIBRARY.match("rambling rose").kind, host(crown=1.0, trunk=9.0)
    load = load_of(Plant(id="rose", kind="rambling rose", year=2010), rose, small, 2027, 0)
    assert "would cover tree's crown" in load.says[0]
    assert "times over; a host that is well may bear 40 of 100 parts" in load.says[0]
