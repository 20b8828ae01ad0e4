"""Nights to come, for the plants of a garden."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.bloom.frost.cold_nights import ColdNights
from leafturn.bloom.model import BloomForecast


def test_plants_of_a_kind_meet_the_nights_together(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Twelve pears in bud are reckoned at one stroke, as if the first of them were asked about alone; of the
    others no more is known."""
    pears = (plant(f"pear-{n}", "pear", at=[6 * n, 0], year=2012) for n in range(12))
    almanac = almanac_of(tmp_path, garden_text(*pears), dt.date(2027, 4, 12))
    asked: list[list[BloomForecast]] = []
    of = ColdNights.of
    monkeypatch.setattr(ColdNights, "of", lambda plants, *more: asked.append(plants) or of(plants, *more))
    together = {one.plant: one for one in almanac.frost_ahead()}
    assert [len(plants) for plants in asked] == [12]
    assert len(together) == 12
    lone = plant("pear-0", "pear", at=[0, 0], year=2012)
    (tmp_path / "one").mkdir()
    alone = almanac_of(tmp_path / "one", garden_text(lone), dt.date(2027, 4, 12)).frost_ahead()
    assert alone == (together["pear-0"],)
    assert {one.chance for one in together.values()} == {alone[0].chance}
