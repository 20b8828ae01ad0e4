"""A small invented garden whose jobs are asked for, its weather made up round its normals."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

import pytest

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.entries import KINDS
from leafturn.tasks.model import Job
from tests.samples.garden_text import MONTHS, garden_text, heap, helper, own_job, plant

PLANTS = (
    plant("apple", "apple", cultivar="Discovery", year=2012, at="gate"),
    plant("plum", "european plum", year=2000, state="declining", at=[10, 0]),
    plant("rose", "rambling rose", year=2013, host="plum"),
    plant("kiwi", "hardy kiwi", sex="female", year=2014, at=[0, 8]),
    plant("whip", "quince", year=2026, at=[0, 12]),
)
STEWARD = helper("steward", hours_per_week=40, can=["ladder", "saw", "lift", "kneel"])
TREE_WORKERS = helper("tree workers", people=2, hours_per_week=8, can=["licensed"])
BAY = heap("bay", stage="working", at=[3, 3])
FENCE = own_job("fence", "mend the fence", when="3 d after last frost")


def slip_end(*more: str, climate: Mapping[str, object] = MONTHS, **place: object) -> str:
    """The garden's text, with more that stands in it, or elsewhere."""
    return garden_text(
        STEWARD, TREE_WORKERS, *PLANTS, BAY, FENCE, *more, climate=climate, **{"name": "Slip End", **place}
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(slip_end())
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
