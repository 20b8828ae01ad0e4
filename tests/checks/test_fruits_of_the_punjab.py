"""When fruit of cultivars that the Punjab grows is ripe at Ludhiana.

Sources: Punjab Agricultural University, as told by Hindustan Times in October 2023 (Kinnow ripe from mid-
January to mid-February, of best taste in January and February; read) and by a page on the growing of plums
(Satluj Purple ripe in the first week of May, planted with Kala Amritsari since it does not set by itself;
read). Perlette is ripe there in the first week of June (recalled; a purple grape of the university's own
then too, read). Months of the town: from memory. Offsets were set on California's seasons for the grape,
and on these pages for the others.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import LUDHIANA

from leafturn.almanac import Almanac

PLUM = "japanese plum"


def at_ludhiana(folder: Path, *things: str) -> Almanac:
    return almanac_of(folder, garden_text(*things, climate=LUDHIANA, lat=30.9, lon=75.85), "2027-01-20")


@pytest.mark.parametrize(
    ("kind", "cultivar", "published", "away"),
    [("grape", "Perlette", "2027-06-04", 21), (PLUM, "Satluj Purple", "2027-05-04", 14)],
)
def test_they_are_ripe_about_the_day_of_growers(
    tmp_path: Path, kind: str, cultivar: str, published: str, away: int
) -> None:
    things = (
        plant("one", kind, cultivar=cultivar, year=2012, at=[0, 0]),
        plant("two", kind, cultivar="Kala Amritsari" if kind == PLUM else cultivar, year=2012, at=[5, 0]),
    )
    pick = at_ludhiana(tmp_path, *things).job("one:pick")
    assert pick is not None
    opens = pick.open.likely
    assert opens is not None
    assert abs((opens - dt.date.fromisoformat(published)).days) <= away


def test_kinnows_are_picked_at_new_year_and_not_in_november(tmp_path: Path) -> None:
    almanac = at_ludhiana(tmp_path, plant("one", "mandarin", cultivar="Kinnow", year=2012))
    jobs = [job for job in almanac.jobs() if job.verb == "pick"]
    assert jobs
    assert all(job.open.likely is not None and job.open.likely.month in (12, 1) for job in jobs)
    best = [job.close.likely for job in jobs]
    assert all(day is not None and day.month in (2, 3) for day in best)


def test_satluj_purple_is_served_by_kala_amritsari(tmp_path: Path) -> None:
    purple = plant("one", PLUM, cultivar="Satluj Purple", year=2012, at=[0, 0])
    alone = at_ludhiana(tmp_path / "alone", purple)
    (line,) = alone.partners()
    assert line.standing == "lacks"
    both = at_ludhiana(
        tmp_path / "both", purple, plant("two", PLUM, cultivar="Kala Amritsari", year=2012, at=[5, 0])
    )
    served = {line.plant: line.standing for line in both.partners()}
    assert served["one"] == "served"
