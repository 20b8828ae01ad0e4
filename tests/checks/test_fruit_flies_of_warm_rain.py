"""Fruit fly traps hang in time where summers are wet, and what lives north of Mexico is not looked for in it.

Sources: days on which traps are hung in the Punjab, third week of May for mango, first of July for guava,
second of August for mandarin (Punjab Agricultural University, as told by a newspaper in February 2018, read);
flies in guava of Aguascalientes and Hidalgo (a trial of traps, Investigacion y Ciencia, abstract read);
Queensland flies are the commonest pest of the Fraser Coast (a newspaper, read); Tasmania is kept free of them
(recalled). No record of Japanese beetles in Central America, and none of Mexico (rapid risk analysis, United
Kingdom, 2015, read). Months of the towns: from memory.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import LUDHIANA, NAMBOUR, OAXACA

from leafturn.almanac import Almanac

AWAY = dt.timedelta(weeks=3)  # a mango is ripe seven weeks sooner or later in 8 of 10 years
HOBART = {
    "tmax_c": [22.3, 22.2, 20.6, 17.8, 15.1, 12.7, 12.3, 13.3, 15.3, 17.1, 18.9, 20.5],
    "tmin_c": [12.4, 12.4, 11.1, 9.0, 7.0, 5.1, 4.6, 5.2, 6.5, 7.9, 9.4, 10.9],
    "rain_mm": [44, 38, 40, 46, 42, 50, 50, 58, 56, 56, 52, 55],
}
FRUIT = (
    plant("mango", "mango", year=2005, at=[0, 0]),
    plant("guava", "guava", year=2010, at=[12, 0]),
    plant("mandarin", "mandarin", year=2012, at=[24, 0]),
    plant("peach", "peach", cultivar="Flordaprince", year=2015, at=[36, 0]),
)


def there(
    folder: Path, climate: dict[str, list[float]], lat: float, lon: float, on: str = "2027-04-10"
) -> Almanac:
    return almanac_of(folder, garden_text(*FRUIT, climate=climate, lat=lat, lon=lon), on)


@pytest.mark.parametrize(
    ("tree", "first", "last"),
    [("mango", "2027-05-15", "2027-05-21"), ("guava", "2027-07-01", "2027-07-07"),
     ("mandarin", "2027-08-08", "2027-08-14")],
)  # fmt: skip
def test_traps_hang_in_the_punjab_within_three_weeks_of_the_days_that_are_told(
    tmp_path: Path, tree: str, first: str, last: str
) -> None:
    job = there(tmp_path, LUDHIANA, 30.9, 75.85).job(f"{tree}:scout-fruit-flies")
    assert job is not None
    opens = job.open.likely
    assert opens is not None
    assert dt.date.fromisoformat(first) - AWAY <= opens <= dt.date.fromisoformat(last) + AWAY


def test_they_hang_in_oaxaca_and_queensland_and_not_in_tasmania(tmp_path: Path) -> None:
    assert there(tmp_path / "o", OAXACA, 17.07, -96.72).job("guava:scout-fruit-flies") is not None
    south = "2026-11-10"
    assert there(tmp_path / "q", NAMBOUR, -26.6, 152.96, south).job("guava:scout-fruit-flies") is not None
    tasmania = there(tmp_path / "t", HOBART, -42.9, 147.3, south)
    assert not [job for job in tasmania.jobs() if job.verb == "scout fruit flies"]


def test_beetles_and_borers_of_the_united_states_are_not_looked_for_in_oaxaca(tmp_path: Path) -> None:
    jobs = there(tmp_path, OAXACA, 17.07, -96.72).jobs()
    assert jobs
    assert not {job.rule for job in jobs} & {
        "pick-off-japanese-beetles", "worm-out-peach-borers", "scout-plum-curculio", "scout-apple-maggot",
    }  # fmt: skip
