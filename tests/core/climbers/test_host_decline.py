"""Hosts that fail beneath their climbers."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.answers.climbers import ClimberView
from leafturn.journal.entries import CrownNote

ON = dt.date(2027, 4, 19)


def garden(folder: Path, state: str, looks: dict[int, float]) -> Almanac:
    """A vine on an ash, two limes near and far; each look at the ash's crown is noted in August."""
    text = garden_text(
        plant("ash", "common ash", year=1940, state=state, height_m=15, trunk_cm=40, at=[0, 0]),
        plant("near-lime", "small-leaved lime", year=1960, trunk_cm=40, at=[12, 0]),
        plant("far-lime", "small-leaved lime", year=1960, trunk_cm=40, at=[30, 0]),
        plant("vine", "grape", year=2018, host="ash"),
        climate=None,
    )
    seen = [CrownNote(on=dt.date(year, 8, 20), plant="ash", live_percent=p) for year, p in looks.items()]
    return almanac_of(folder, text, ON, *seen)


def vine(folder: Path, state: str = "declining", looks: dict[int, float] | None = None) -> ClimberView:
    (found,) = garden(folder, state, looks or {}).climbers()
    return found


def test_a_host_that_will_be_bare_within_five_years_names_the_year_and_the_nearest_able_hosts(
    tmp_path: Path,
) -> None:
    """A straight line through 60, 50, 40, 30 % of August reaches the tenth that gives no shade in 2028."""
    found = vine(tmp_path, looks={2023: 60, 2024: 50, 2025: 40, 2026: 30})
    assert found.host_bare is not None
    assert found.host_bare.likely == 2028
    assert found.train_by == max(found.host_bare.early or 2028, 2027)
    told = " ".join(found.says)
    assert f"train the climber to another host by {found.train_by}" in told
    assert "4 looks at its crown" in told
    assert [other.plant for other in found.other_hosts] == ["near-lime", "far-lime"]
    assert "near-lime could carry it" in told


def test_a_host_that_will_soon_be_bare_itself_is_not_proposed(tmp_path: Path) -> None:
    almanac = garden(tmp_path, "declining", {})
    for year, percent in ((2024, 60), (2025, 45), (2026, 30)):
        seen = CrownNote(on=dt.date(year, 8, 20), plant="near-lime", live_percent=percent)
        almanac, _ = almanac.note(seen, seen.on)
    (found,) = almanac.climbers()
    assert [other.plant for other in found.other_hosts] == ["far-lime"]


def test_a_host_that_fails_slowly_is_left_for_now(tmp_path: Path) -> None:
    found = vine(tmp_path, "well", {2017: 92, 2020: 89, 2023: 86, 2026: 83})
    assert found.train_by is None
    assert "train the climber" not in " ".join(found.says)


def test_a_declining_host_without_looks_says_that_the_year_is_not_known(tmp_path: Path) -> None:
    found = vine(tmp_path)
    assert found.train_by == 2029
    told = " ".join(found.says)
    assert "not known (no look at its crown is noted" in told
    assert "a guess" in told


def test_a_dead_host_is_left_this_year(tmp_path: Path) -> None:
    assert vine(tmp_path, "dead standing").train_by == 2027


def test_the_year_never_lies_in_the_past(tmp_path: Path) -> None:
    found = vine(tmp_path, looks={2023: 50, 2024: 35, 2025: 20, 2026: 8})
    assert found.train_by == 2027
