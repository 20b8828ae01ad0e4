"""Levels of a garden's plants from the book and from notes, against the joint normal written out."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from leafturn.bloom.notes.agreement import DRAWN_DAYS, lasting_uncertainty, scatter
from leafturn.bloom.notes.level_notes import LevelNote
from leafturn.bloom.notes.spring import DEFAULT_SPRINGS, common_share
from leafturn.bloom.notes.thresholds import (
    OF_KIND,
    OF_KIND_HERE,
    PLACE,
    SAME_WEATHER,
    WATCHER,
    Thresholds,
    thresholds,
)
from leafturn.bloom.priors.prior import LevelSpreads

BOOK = LevelSpreads(middle=3.5, lasting=0.02, drifting=0.003, chance=0.006)
WITHOUT_PLACE = replace(BOOK, lasting=BOOK.lasting - PLACE)
KINDS = {"pear-1": "pear", "pear-2": "pear", "apple": "apple", "plum": "plum"}
SPREADS = dict.fromkeys(KINDS, BOOK)
YEAR = 2027
COMMON = 0.3
ONE = math.sqrt(BOOK.chance)


def note(plant: str, season: int, off: float, **more: object) -> LevelNote:
    """A note whose level lies so far off the book's; a level grows by about a twenty-fifth a day."""
    given: dict[str, object] = {"day": 110.0 + 25 * off, "growth": 0.04, **more}
    return LevelNote(target=plant, season=season, level=BOOK.middle + off, **given)  # type: ignore[arg-type]


def known(notes: Sequence[LevelNote], common: float = COMMON) -> Thresholds:
    return thresholds(SPREADS, KINDS, notes, YEAR, common)


def off(found: Thresholds, plant: str) -> float:
    """By how much notes moved a plant off the book."""
    return found.levels[plant].mean - BOOK.middle


def conditioned(notes: Sequence[LevelNote], plant: str, common: float) -> tuple[float, float]:
    """Mean and variance of one level by writing every part down and conditioning one large normal."""
    own = {target: [n for n in notes if n.target == target] for target in KINDS}
    share = {target: scatter(own[target], BOOK) for target in KINDS}
    uncertainties = {
        kind: lasting_uncertainty({t: own[t] for t in KINDS if KINDS[t] == kind}, WITHOUT_PLACE, share)
        for kind in set(KINDS.values())
    }
    # a kind not noted learns of the place, and there the book counts at its word
    noted = KINDS[plant] in {KINDS[n.target] for n in notes}
    lasting = {kind: d.agreed if noted else d.published for kind, d in uncertainties.items()}
    asked = [*notes, note(plant, YEAR, 0.0)]
    size = len(asked)
    joint = np.zeros((size, size))
    for i, a in enumerate(asked):
        for j, b in enumerate(asked):
            kind_a, kind_b = KINDS[a.target], KINDS[b.target]
            total = PLACE
            if kind_a == kind_b:
                total += OF_KIND_HERE * lasting[kind_a]
            if a.target == b.target:
                total += (1 - OF_KIND_HERE) * lasting[kind_a]
                total += share[a.target] * BOOK.drifting * math.exp(-abs(a.season - b.season) / 4.0)
            if a.season == b.season:
                spring = BOOK.chance * math.sqrt(share[a.target] * share[b.target])
                total += spring * (common + OF_KIND * (kind_a == kind_b))
                total += SAME_WEATHER * math.sqrt(a.weather_variance * b.weather_variance)
            if i == j:
                total += share[a.target] * BOOK.chance * (1 - common - OF_KIND)
                total += (1 - SAME_WEATHER) * a.weather_variance + a.reading_variance
            joint[i, j] = total
    gain = np.linalg.solve(joint[:-1, :-1], joint[:-1, -1])
    mean = BOOK.middle + float(gain @ [n.level - BOOK.middle for n in notes])
    return mean, float(joint[-1, -1] - gain @ joint[:-1, -1])


ordinary = st.lists(
    st.tuples(st.sampled_from(sorted(KINDS)), st.integers(1, 20), st.floats(-0.4, 0.4), st.booleans()),
    min_size=1, max_size=8, unique_by=lambda n: n[:2],
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(ordinary, st.sampled_from(sorted(KINDS)), st.floats(0.0, 0.8))
def test_ordinary_notes_follow_the_normal_distribution(
    drawn: list[tuple[str, int, float, bool]], plant: str, common: float
) -> None:
    notes = [
        note(t, YEAR - ago, ONE * o, weather_variance=0.01 * dim, reading_variance=0.001 * dim)
        for t, ago, o, dim in drawn
    ]
    found = known(notes, common)
    mean, variance = conditioned(notes, plant, common)
    assert found.levels[plant].mean == pytest.approx(mean, abs=0.05 * ONE)
    assert found.levels[plant].variance == pytest.approx(variance, rel=0.05)


def test_without_notes_the_book_stands() -> None:
    found = known([])
    for level in found.levels.values():
        assert level.mean == BOOK.middle
        assert level.variance == pytest.approx(BOOK.lasting + BOOK.drifting + BOOK.chance)
        assert (level.own, level.springs, level.moved) == (None, 0, 0.0)
    assert found.place == (0.0, pytest.approx(math.sqrt(PLACE)))


@settings(max_examples=40, deadline=None)
@given(far=st.floats(0.02, 0.25), sign=st.sampled_from([-1, 1]), springs=st.integers(1, 8))
def test_each_further_note_that_agrees_pulls_more_and_narrows(far: float, sign: int, springs: int) -> None:
    fewer, more = (
        known([note("pear-1", YEAR - 1 - ago, sign * far) for ago in range(n)])
        for n in (springs, springs + 1)
    )
    # Where springs agree the book gives way at once, so the third note may pull as much as the fourth.
    assert 0 < sign * off(fewer, "pear-1") <= sign * off(more, "pear-1") + 0.002 * far / 0.1 <= far * 1.03
    assert more.levels["pear-1"].variance <= fewer.levels["pear-1"].variance + 1e-12
    assert more.levels["pear-1"].springs == springs + 1
    assert more.levels["pear-1"].own == pytest.approx(BOOK.middle + sign * far)


def test_recent_notes_count_more() -> None:
    late_lately = known([note("pear-1", 2026, 0.08), note("pear-1", 2008, -0.08)])
    late_long_ago = known([note("pear-1", 2026, -0.08), note("pear-1", 2008, 0.08)])
    assert off(late_lately, "pear-1") > 0.005 > -0.005 > off(late_long_ago, "pear-1")


def test_notes_of_kin_pull_less_than_own_and_those_of_other_kinds_least() -> None:
    found = known([note("pear-1", YEAR - 1 - ago, 0.1) for ago in range(4)])
    assert 0.1 > off(found, "pear-1") > 1.2 * off(found, "pear-2") > 2 * off(found, "apple") > 0
    assert off(found, "apple") == off(found, "plum")
    assert found.levels["pear-2"].own is None


@pytest.mark.parametrize("late", [-0.12, 0.12])
def test_a_place_that_is_late_for_other_kinds_is_late_for_a_kind_never_noted(late: float) -> None:
    """By less than own notes would make it, and by less than the others were late."""
    others = [note(p, YEAR - 1 - ago, late) for p in ("apple", "plum") for ago in range(5)]
    by_place = off(known(others), "pear-1") / late
    by_own = off(known([note("pear-1", YEAR - 1 - ago, late) for ago in range(5)]), "pear-1") / late
    assert 0.02 < by_place < 0.6 * by_own < 0.6
    place, sd = known(others).place
    assert place == pytest.approx(late * by_place)
    assert sd < math.sqrt(PLACE)


@settings(max_examples=40, deadline=None)
@given(slip=st.floats(0.5, 3.0), sign=st.sampled_from([-1, 1]), which=st.integers(0, 5))
def test_a_note_far_from_the_others_loses_weight(slip: float, sign: int, which: int) -> None:
    notes = [note("pear-1", YEAR - 1 - ago, 0.05) for ago in range(6)]
    clean = off(known(notes), "pear-1")
    notes[which] = note("pear-1", YEAR - 1 - which, 0.05 + sign * slip)
    found = known(notes)
    assert int(np.argmin(found.weights)) == which
    assert found.weights[which] < 0.5
    assert sign * found.misses[which] > 2 * ONE
    assert abs(off(found, "pear-1") - clean) < slip / 6  # what a plain mean would move
    if slip > 1:
        assert abs(off(found, "pear-1") - clean) < 0.08


def test_one_note_alone_is_never_called_a_slip() -> None:
    found = known([note("pear-1", 2026, 2.0)])
    assert found.weights.tolist() == [1.0]


def test_a_plant_far_off_in_all_its_notes_is_a_stranger_and_followed() -> None:
    found = known([note("pear-1", YEAR - 1 - ago, 1.5 + 0.02 * (-1) ** ago) for ago in range(3)])
    assert found.levels["pear-1"].stranger > 0.9
    assert off(found, "pear-1") == pytest.approx(1.5, abs=0.06)
    assert found.levels["apple"].stranger == 0.0
    assert abs(off(found, "apple")) < 0.2


def test_three_agreeing_springs_win_over_any_book() -> None:
    """They lie a day apart and twenty days from the book; with two springs the book still has its say."""
    three = [note("pear-1", 2024 + i, 0.8, day=130.0 + day) for i, day in enumerate((0.0, 1.0, 0.5))]
    assert off(known(three), "pear-1") == pytest.approx(0.8, abs=0.05)
    nearer = [replace(n, level=BOOK.middle + 0.2) for n in three]
    drawn = [(0.2 - off(known(nearer[:springs]), "pear-1")) / nearer[0].growth for springs in (1, 2, 3)]
    assert drawn[0] > drawn[1] > drawn[2]
    assert drawn[2] < DRAWN_DAYS


@given(away=st.floats(-1.0, 1.0))
def test_a_book_draws_agreeing_notes_by_a_day_and_a_half_at_most(away: float) -> None:
    """However little plants of the kind differ by the book, and however far from it the notes lie."""
    agreeing = [note("pear-1", 2024 + i, away, day=130.0) for i in range(3)]
    assert drawn_by_a_sure_book(agreeing) < DRAWN_DAYS + 0.5  # what the place adds is drawn to the book too


def test_a_sure_book_draws_notes_that_scatter_further() -> None:
    scattered = [note("pear-1", 2024 + i, 0.2, day=130.0 + 9 * i) for i in range(3)]
    agreeing = [replace(n, day=130.0) for n in scattered]
    assert drawn_by_a_sure_book(scattered) > DRAWN_DAYS > drawn_by_a_sure_book(agreeing)


def drawn_by_a_sure_book(notes: Sequence[LevelNote]) -> float:
    """By how many days a book under which plants of the kind hardly differ draws the mean of notes."""
    sure = replace(BOOK, lasting=0.0005)
    found = thresholds({"pear-1": sure}, {"pear-1": "pear"}, notes, YEAR, COMMON).levels["pear-1"]
    noted = float(np.mean([n.level for n in notes]))
    return abs(noted - found.mean) / notes[0].growth


def test_springs_that_scatter_more_are_trusted_less() -> None:
    even, wild = (
        [note("pear-1", YEAR - 1 - ago, 0.1 + far * (-1) ** ago) for ago in range(6)] for far in (0.01, 0.2)
    )
    assert scatter(even, BOOK) < 0.8 < 1.5 < scatter(wild, BOOK)
    assert known(wild).levels["pear-1"].variance > 2 * known(even).levels["pear-1"].variance
    assert scatter(even[:1], BOOK) == 1.0


def test_a_watcher_who_calls_things_late_is_allowed_for() -> None:
    steward = [
        note(p, year, 0.0, by="steward") for p in ("pear-1", "apple") for year in (2023, 2024, 2025, 2026)
    ]
    helper = [note(p, year, 0.1, by="helper") for p in ("pear-1", "apple") for year in (2025, 2026)]
    by_helper = [note("plum", year, 0.1, by="helper") for year in (2025, 2026)]
    allowed = off(known([*steward, *helper, *by_helper]), "plum")
    nobody = [replace(n, by=None) for n in (*steward, *helper, *by_helper)]
    assert allowed < off(known(nobody), "plum")
    alone = off(known(by_helper), "plum")
    assert allowed < alone
    # what one watcher alone wrote cannot be told from the plants' own
    assert alone == pytest.approx(off(known([replace(n, by=None) for n in by_helper]), "plum"))
    assert 0 < WATCHER < BOOK.lasting


@pytest.mark.parametrize("early", [-0.15, 0.15])
def test_a_spring_that_is_early_for_one_kind_is_so_for_the_others(early: float) -> None:
    earlier = [note(p, year, 0.0) for p in ("pear-1", "apple") for year in (2024, 2025, 2026)]
    found = known([*earlier, note("pear-1", YEAR, early)])
    moved = {plant: level.moved / early for plant, level in found.levels.items()}
    assert 0 < moved["plum"] < moved["pear-1"] < 1
    assert 0 < moved["apple"] < moved["pear-2"] < moved["pear-1"]
    before = known(earlier)
    for plant, level in found.levels.items():
        assert level.mean - before.levels[plant].mean == pytest.approx(level.moved)
    assert all(level.moved == 0.0 for level in before.levels.values())
    # the more kinds share of a spring, the more one tells of the other
    shared = known([*earlier, note("pear-1", YEAR, early)], common=0.7)
    assert shared.levels["apple"].moved / early > moved["apple"]


def test_a_note_without_weather_counts_for_less_and_more_of_them_for_more() -> None:
    dim = [note("pear-1", YEAR - 1 - ago, 0.2, weather_variance=0.03) for ago in range(3)]
    clear = [replace(n, weather_variance=0.0) for n in dim]
    one, three = off(known(dim[:1]), "pear-1"), off(known(dim), "pear-1")
    assert 0 < one < off(known(clear[:1]), "pear-1")
    assert one < three <= off(known(clear), "pear-1") + 1e-9


def test_a_stated_usual_date_wins_over_the_book() -> None:
    found = known([note("pear-1", YEAR, 0.5, lasting=True, reading_variance=0.004)])
    assert off(found, "pear-1") == pytest.approx(0.5, abs=0.05)
    assert found.levels["pear-1"].moved == 0.0
    assert found.levels["pear-1"].springs == 0


def test_shared_parts_are_no_more_than_the_whole() -> None:
    notes = [note(p, 2020 + i, 0.05 * i) for i, p in enumerate(["pear-1", "apple", "pear-1", "plum"])]
    for found in (known([]), known(notes), known([*notes, note("apple", YEAR, -0.2)])):
        for level in found.levels.values():
            assert 0 <= level.common <= level.variance
            assert 0 <= level.of_kind <= level.variance - level.common + 1e-12


def share(notes: Sequence[LevelNote], kinds: Mapping[str, str] = KINDS) -> float:
    return common_share(notes, SPREADS, kinds, YEAR, COMMON)


def test_own_springs_pull_the_common_share_by_their_number() -> None:
    assert share([]) == COMMON
    springs = dict(zip(range(2021, 2027), (1.0, -1.0) * 3, strict=True))
    alike = [note(p, y, ONE * z) for p in ("pear-1", "apple", "plum") for y, z in springs.items()]
    assert share(alike) == pytest.approx((6 * 1.0 + DEFAULT_SPRINGS * COMMON) / (6 + DEFAULT_SPRINGS))
    opposed = [
        note(p, y, ONE * z * way) for p, way in (("pear-1", 1), ("apple", -1)) for y, z in springs.items()
    ]
    assert 0.0 <= share(opposed) < COMMON
    # neither plants of one kind, nor this spring, nor usual dates tell how kinds go together
    assert share([n for n in alike if n.target == "pear-1"]) == COMMON
    assert share([replace(n, season=YEAR) for n in alike]) == COMMON
    assert share([replace(n, lasting=True) for n in alike]) == COMMON
