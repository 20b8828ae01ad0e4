"""What fixes nitrogen, how much of a guild it is, and when shade ends it."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.soil.nitrogen import Nitrogen

ON = dt.date(2027, 4, 19)
GUILD = (
    plant("pea-shrub", "caragana", guild="oak", year=2010, crown_m=1.0, height_m=2.5, at=[0, 0]),
    plant("apple", "apple", guild="oak", year=2010, crown_m=2.0, height_m=4, at=[0, 9]),
)
OAKS = [
    plant(f"oak-{n}", "sessile oak", year=2025, age_when_planted=4, at=[east, north])
    for n, (east, north) in enumerate([(-3, -2), (3, -2), (0, -4), (-3, 3), (3, 3), (0, -2)])
]


def look(folder: Path, *more: str) -> Nitrogen:
    return almanac_of(folder, garden_text(*GUILD, *more), ON).nitrogen()


def test_cover_is_the_share_of_crown_area(tmp_path: Path) -> None:
    """A crown of 1 m radius beside one of 2 m: a fifth of the ground below crowns."""
    (guild,) = look(tmp_path).guilds
    assert guild.share == pytest.approx(1 / 5, abs=0.01)
    assert guild.fixers == ("pea-shrub",)
    assert (
        guild.says
        == "oak guild: 20 of 100 parts of its crowns fix nitrogen, maybe 4.7 to 19 g a year (pea-shrub)."
    )


def test_grams_come_from_the_librarys_kilograms_a_hectare(tmp_path: Path) -> None:
    """Caragana 15 to 60 kg a hectare on closed ground (digest of figures that differ threefold, a guess)."""
    (fixer,) = look(tmp_path).fixers
    assert fixer.grams is not None
    assert fixer.grams == pytest.approx((15 * math.pi / 10, 60 * math.pi / 10), rel=0.02)
    assert "may fix 4.7 to 19 g of nitrogen a year" in fixer.says


def test_a_fixer_grown_to_be_cut_is_cut_as_its_flowers_fade(tmp_path: Path) -> None:
    """Rule of practice, no source: most nitrogen at bloom, and none of it lost to seed."""
    almanac_bloom_end = dt.date(2027, 5, 10), dt.date(2027, 6, 25)
    (fixer,) = look(tmp_path).fixers
    assert fixer.chop is not None
    assert fixer.chop.likely is not None
    assert almanac_bloom_end[0] <= fixer.chop.likely <= almanac_bloom_end[1]


def test_young_oaks_close_round_it_and_shade_it_out(tmp_path: Path) -> None:
    (fixer,) = [f for f in look(tmp_path, *OAKS).fixers if f.plant == "pea-shrub"]
    assert fixer.need_percent == 50
    assert fixer.light is not None
    assert fixer.light > 50
    assert fixer.shaded_from is not None
    assert 2028 <= fixer.shaded_from <= 2057
    assert f"shaded out by {fixer.shaded_from}" in fixer.says
    (open_one,) = look(tmp_path).fixers
    assert open_one.shaded_from is None
    assert "will not be shaded out in thirty years" in open_one.says


def test_the_demo_guilds_and_their_fixers(weir_meadow: Almanac) -> None:
    found = weir_meadow.nitrogen()
    by_guild = {g.guild: set(g.fixers) for g in found.guilds}
    assert by_guild == {
        "ash": {"goumi"},
        "heartnut": {"buckthorn-f1", "buckthorn-f2", "buckthorn-m"},
        "pear": {"pea-shrub"},
        "alder": {"alder-west", "alder-east"},
    }
    assert all(0 < g.share < 1 for g in found.guilds)
    chopped = [f.plant for f in found.fixers if f.chop is not None]
    assert chopped == ["pea-shrub"], "the others are grown for fruit, nuts or as hosts"
