"""Climate drift: what a uniform warming must do, whatever the garden."""

from __future__ import annotations

import datetime as dt
import shutil
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from tests.samples.places import DEMO

from leafturn.almanac import Almanac, open_almanac
from leafturn.projection.edges import tens
from leafturn.projection.model import ClimateProjection, Span
from leafturn.projection.warmed import warmed

APRIL = dt.date(2027, 4, 19)


@pytest.fixture(scope="module")
def drift(weir_meadow: Almanac) -> ClimateProjection:
    return weir_meadow.drift()


def test_years_and_warming_are_those_stated(drift: ClimateProjection) -> None:
    """0.4 C a decade, half as much to half as much again: by hand."""
    assert drift.years == (2027, 2042, 2057)
    assert [tuple(c.warming) for c in drift.climates] == [
        (0.0, 0.0, 0.0),
        pytest.approx((0.3, 0.6, 0.9)),
        pytest.approx((0.6, 1.2, 1.8)),
    ]
    assert "0.4 C a decade" in drift.notes[0]


def test_now_has_no_shift_and_later_is_earlier_with_a_range_that_widens(drift: ClimateProjection) -> None:
    for row in drift.plants:
        now, soon, late = row.then
        assert tuple(now.shift) == (0, 0, 0)
        assert late.shift.low <= late.shift.likely <= late.shift.high
        assert late.shift.likely < soon.shift.likely < 0
        assert late.shift.high - late.shift.low >= soon.shift.high - soon.shift.low
        for chance in (late.frost, late.chill_short, late.unripe):
            assert chance is None or 0 <= chance.low <= chance.likely <= chance.high <= 1


def test_warmer_years_have_fewer_frosts_more_heat_and_less_cold(drift: ClimateProjection) -> None:
    now, soon, late = drift.climates
    assert now.frost_free.likely < soon.frost_free.likely < late.frost_free.likely
    assert now.heat.likely < soon.heat.likely < late.heat.likely
    assert late.coldest.likely - now.coldest.likely == pytest.approx(1.2)
    assert now.last_frost.likely is not None
    assert late.last_frost.likely is not None
    assert late.last_frost.likely <= now.last_frost.likely


def test_the_last_frost_of_a_warmer_year_is_the_last_night_that_cold_now(weir_meadow: Almanac) -> None:
    """Frost at 0 C with one degree more is a night of -1 C without it."""
    usual = weir_meadow._seasons.weather
    garden, before = weir_meadow.garden, replace(weir_meadow.day, entries=())
    now, later = (warmed(before, usual, celsius) for celsius in (0.0, 1.0))
    pocket = garden.place.frost_pocket_c
    for member in range(now.ensemble.members):
        cold = np.flatnonzero(now.ensemble.tmin[member, 61:242] + pocket <= -1.0)
        assert later.last_frost[member] == (61 + cold[-1] if cold.size else -np.inf)


def test_without_a_statement_nothing_is_warmed_and_it_is_said(tmp_path: Path) -> None:
    copy = Path(shutil.copytree(DEMO, tmp_path / "garden"))
    file = copy / "garden.toml"
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if "warming_c" not in line]
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    found = open_almanac(copy, APRIL).drift()
    assert found.stated == 0
    assert "write warming_c_per_decade = 0.3" in found.notes[0]
    for row in found.plants:
        assert all(tuple(then.shift) == (0, 0, 0) for then in row.then)
        assert len({then.first_open for then in row.then}) == 1
    assert len({tuple(c.heat) for c in found.climates}) == 1


def test_own_notes_of_this_spring_do_not_make_it_look_decided(drift: ClimateProjection) -> None:
    """The early plum of this spring is noted, but a usual year has its range all the same."""
    plum = next(row for row in drift.plants if "early-plum" in row.plants)
    when = plum.then[0].first_open
    assert when.early is not None
    assert when.late is not None
    assert (when.late - when.early).days > 10


def test_one_line_for_plants_of_one_kind_and_cultivar(drift: ClimateProjection) -> None:
    assert any(row.plants == ("comice-1", "comice-2") for row in drift.plants)
    seen = [plant for row in drift.plants for plant in row.plants]
    assert len(seen) == len(set(seen))


def test_plants_near_an_edge_are_named_with_years_in_ten(drift: ClimateProjection) -> None:
    frost = [e for e in drift.edges if e.edge == "frost"]
    assert any("early-plum" in e.plants for e in frost)
    assert all("of 10 springs here now" in e.says for e in frost)
    assert all("2042" in e.says and "2057" in e.says for e in drift.edges)


def test_progress_counts_up_and_may_stop(weir_meadow: Almanac) -> None:
    class Enough(Exception):
        pass

    seen: list[int] = []

    def progress(done: int, of: int) -> None:
        seen.append(done)
        if done == 2:
            raise Enough

    with pytest.raises(Enough):
        weir_meadow._seasons.drift(progress)
    assert seen == [1, 2]


def test_a_mild_winter_runs_short_of_chill_as_it_warms(tmp_path: Path) -> None:
    """Apples want about 50 portions (kinds' own figure); a place with winters above 12 C falls short."""
    text = (
        "[place]\nlat = 37.0\nlon = -6.0\nwarming_c_per_decade = 0.8\n[climate]\n"
        "tmax_c = [17, 18, 20, 23, 26, 30, 33, 33, 30, 26, 20, 17]\n"
        "tmin_c = [8, 9, 10, 13, 15, 18, 20, 21, 19, 16, 11, 9]\n"
        '[[plant]]\nkind = "apple"\nyear = 2010\nat = [0, 0]\n'
    )
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    found = open_almanac(tmp_path, APRIL).drift()
    now, _, late = found.climates
    assert late.chill.likely < now.chill.likely < 50
    assert any(e.edge == "chill" for e in found.edges)


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize(("lat", "lon", "way"), [(-44, 148.0, -1), (-33, 151.5, 1)])
def test_the_south_is_looked_at_too(tmp_path: Path, lat: int, lon: float, way: int) -> None:
    """Cold winters: warmth brings bloom forward. Mild ones: what they lose in cold puts it off."""
    text = (
        f"[place]\nlat = {lat}.0\nlon = {lon}\nwarming_c_per_decade = 0.3\n"
        '[[plant]]\nkind = "pear"\nyear = 2010\nat = [0, 0]\n'
    )
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    found = open_almanac(tmp_path, dt.date(2027, 10, 1)).drift()
    assert found.plants[0].then[2].shift.likely * way > 0


@pytest.mark.parametrize(("span", "words"), [
    ((0.31, 0.31, 0.31), "3"), ((0.1, 0.3, 0.52), "3 (1-5)"), ((0, 0, 0), "0"),
])  # fmt: skip
def test_years_in_ten(span: tuple[float, float, float], words: str) -> None:
    assert tens(Span(*span)) == words
