"""A garden's climate is worked out once from all that is known of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.assembly import seasons
from leafturn.garden.model import Climate, Place
from leafturn.weather.normals.normals import Normals
from leafturn.weather.record import DailyRecord


def test_what_is_known_of_a_climate_is_fitted_once_where_no_weather_comes_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was known before the season and what is known now are the same: frost dates alone."""
    fitted: list[Climate | None] = []
    normal_year = seasons.normal_year

    def asked(place: Place, climate: Climate | None, record: DailyRecord | None) -> Normals:
        fitted.append(climate)
        return normal_year(place, climate, record)

    monkeypatch.setattr(seasons, "normal_year", asked)
    almanac = almanac_of(
        tmp_path, garden_text(plant("a", "apple"), climate=None, last_frost="04-24"), "2027-04-19"
    )
    almanac.heading()
    assert len(fitted) == 1
