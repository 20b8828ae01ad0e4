"""A small invented garden whose jobs are asked for, its weather made up round its normals."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.entries import KINDS
from leafturn.tasks.model import Job

GARDEN = """
[place]
name = "Slip End"
lat = 46.93
lon = 15.87
{place}

[climate]
tmax_c = [2.5, 5.5, 10.8, 15.9, 20.4, 24.0, 26.0, 25.6, 20.6, 15.0, 8.2, 3.3]
tmin_c = [-5.0, -3.9, -0.3, 3.9, 8.4, 12.0, 13.6, 13.2, 9.3, 4.9, 0.8, -3.5]
rain_mm = [28, 32, 44, 55, 88, 112, 118, 105, 88, 68, 58, 42]

[[helper]]
name = "steward"
hours_per_week = 40
can = ["ladder", "saw", "lift", "kneel"]

[[plant]]
id = "apple"
kind = "apple"
cultivar = "Discovery"
year = 2012
at = "gate"

[[plant]]
id = "plum"
kind = "european plum"
year = 2000
state = "declining"
at = [10, 0]

[[plant]]
id = "rose"
kind = "rambling rose"
year = 2013
host = "plum"

[[plant]]
id = "kiwi"
kind = "hardy kiwi"
sex = "female"
year = 2014
at = [0, 8]

[[plant]]
id = "whip"
kind = "quince"
year = 2026
at = [0, 12]

[[heap]]
id = "bay"
stage = "working"
at = [3, 3]

[[job]]
id = "fence"
what = "mend the fence"
when = "3 d after last frost"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(GARDEN.format(place=""))
    return tmp_path


def on(folder: Path, day: str) -> Almanac:
    return open_almanac(folder, dt.date.fromisoformat(day))


def the(almanac: Almanac, job_id: str) -> Job:
    job = almanac.job(job_id)
    assert job is not None, [j.id for j in almanac.jobs()]
    return job


def note(almanac: Almanac, **fields: object) -> Almanac:
    entry = KINDS[str(fields.pop("what"))](on=fields.pop("on", almanac.on), **fields)  # type: ignore[arg-type]
    return almanac.note(entry, almanac.on)[0]
