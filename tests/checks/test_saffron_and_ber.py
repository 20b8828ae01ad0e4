"""Saffron where it is grown for sale, and ber of the Punjab.

Monthly means from memory, to about a degree.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.tasks.model import Job

PAMPORE = {
    "tmax_c": [7, 10, 15.5, 20.5, 24.5, 29, 30, 29.6, 27, 22.5, 15, 9],
    "tmin_c": [-2, -0.5, 3.5, 7.5, 11, 15, 18.2, 17.5, 12.5, 6, 1, -1.5],
}
SEMNAN = {
    "tmax_c": [8.5, 11.5, 17, 24, 29.5, 35, 37, 36, 32, 24.5, 16.5, 10.5],
    "tmin_c": [-0.5, 1.5, 6, 12, 17, 22, 25, 23.5, 19, 13, 6.5, 1.5],
}
ALBACETE = {
    "tmax_c": [10.5, 12.5, 16.4, 18.2, 23, 29, 33, 32.5, 27, 20.5, 14, 11],
    "tmin_c": [-0.5, 0.5, 3, 5, 9, 14, 17, 17, 13, 8.5, 3.5, 0.7],
}
LUDHIANA = {
    "tmax_c": [18.5, 21.8, 27, 34.5, 38.8, 38.5, 34.2, 33.2, 33, 31.5, 26.5, 20.8],
    "tmin_c": [6.5, 9, 13.2, 18.5, 23.5, 26.2, 26.5, 25.8, 23.5, 17.5, 11.5, 7.3],
    "rain_mm": [25, 30, 28, 18, 22, 70, 210, 190, 100, 12, 6, 15],
}


@pytest.mark.parametrize(
    ("lat", "lon", "months", "first", "last"),
    [
        (34.0, 74.9, PAMPORE, "10-10", "11-10"),  # October (a trader of Kashmir), early November (AFP): read
        (35.6, 53.4, SEMNAN, "10-20", "11-25"),  # late October to late November (a news agency, 2020, read)
        (
            39.0,
            -1.9,
            ALBACETE,
            "10-10",
            "11-10",
        ),  # the end of October, with a feast (a page on saffron, read; that it is La Mancha's: memory)
    ],
)
def test_saffron_is_picked_as_it_opens_in_autumn(
    tmp_path: Path, lat: float, lon: float, months: dict[str, list[float]], first: str, last: str
) -> None:
    text = garden_text(plant("s", "saffron", year=2020, patch_m2=2), climate=months, lat=lat, lon=lon)
    almanac = almanac_of(tmp_path, text, "2027-09-01")
    (pick,) = (job for job in almanac.jobs() if job.verb == "pick")
    assert pick.open.likely is not None
    opens = almanac.axis.date(float(np.median(almanac.forecasts["s"].first_open)))
    assert 0 <= (pick.open.likely - opens).days <= 4  # in the morning on which they open (the trader's page)
    assert _day(first) <= pick.open.likely <= _day(last)
    assert "Autumn crocus" in " ".join(pick.cautions)


def _ber_of_ludhiana(folder: Path, on: str) -> dict[str, Job]:
    trees = (
        plant("gola", "ber", cultivar="Gola", year=2010, at=[0, 0]),
        plant("umran", "ber", cultivar="Umran", year=2010, at=[8, 0]),
    )
    text = garden_text(*trees, climate=LUDHIANA, lat=30.9, lon=75.9)
    return {job.id.rsplit(":", 1)[0]: job for job in almanac_of(folder, text, on).jobs()}


def test_ber_of_the_punjab_is_picked_before_spring_is_over_the_early_kind_first(tmp_path: Path) -> None:
    """February to April in the north of India; Gola early, Umran late (course pages, read)."""
    jobs = _ber_of_ludhiana(tmp_path, "2027-01-02")
    early, late = (jobs[f"{name}:pick"].open.likely for name in ("gola", "umran"))
    assert early is not None
    assert late is not None
    assert _day("01-15") <= early < late <= _day("04-05")


def test_ber_is_pruned_bare_before_the_rains(tmp_path: Path) -> None:
    """The last week of April to the second half of May (Singh and Bal 2008, abstract read), still begun in
    the second week of June (Punjab Agricultural University, as told by The Tribune, June 2023, read).
    """
    job = _ber_of_ludhiana(tmp_path, "2027-05-01")["umran:spring-prune"]
    assert job.open.likely is not None
    assert job.close.likely is not None
    assert _day("04-20") <= job.open.likely <= job.close.likely <= _day("06-15")


def test_orchards_of_the_punjab_are_watered_before_the_rains(tmp_path: Path) -> None:
    """Peach, plum and pear kept moist, citrus and litchi watered at intervals, in the heat of May (Punjab
    Agricultural University, as told by The Tribune, May 2021, read). That the rains of July and August do it
    for them is from memory.
    """
    kinds = ("peach", "japanese plum", "pear", "mandarin", "lychee")
    grown = [plant(kind.replace(" ", "-"), kind, year=2005, at=[9 * n, 0]) for n, kind in enumerate(kinds)]
    text = garden_text(*grown, climate=LUDHIANA, lat=30.9, lon=75.9)
    for on, watered in (("2027-05-19", True), ("2027-08-15", False)):
        jobs = almanac_of(tmp_path, text, on).jobs()
        due = {job.plant for job in jobs if job.verb == "water" and job.state in ("due", "late")}
        assert due == ({tree.replace(" ", "-") for tree in kinds} if watered else set())


def _day(text: str) -> dt.date:
    return dt.date.fromisoformat(f"2027-{text}")
