"""Own jobs that follow the moment of a plant named by its id."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, own_job, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import BloomNote


def on(folder: Path, day: str, plum: str = "early-plum") -> Almanac:
    text = garden_text(
        plant("early-plum", "european plum", year=2005, at=[3, 4]),
        plant("pear", "pear", year=2005, at=[30, 4]),
        own_job("trap", "hang a trap in the pear", plant="pear", when=f"when {plum} fades"),
    )
    return almanac_of(folder, text, day)


def test_an_own_job_opens_with_the_moment_of_the_plant_it_names(tmp_path: Path) -> None:
    almanac = on(tmp_path, "2027-04-19")
    almanac, _ = almanac.note(
        BloomNote(on=dt.date(2027, 4, 18), plant="early-plum", stage="petal fall"), almanac.on
    )
    job = almanac.job("trap:own-job")
    assert job is not None
    assert job.open.likely == dt.date(2027, 4, 18)
    assert job.state == "due"
    assert job.plants == ("pear",)
    assert job.point is not None
    assert job.point.east == 30
    assert "Bloom of early-plum ended" in job.why[0]


def test_a_plant_nobody_has_costs_one_sentence(tmp_path: Path) -> None:
    almanac = on(tmp_path, "2027-04-19", plum="erly-plum")
    (fault,) = almanac.faults
    assert "there is no plant 'erly-plum'" in fault.message
    assert "Did you mean early-plum?" in fault.sentence()
    assert fault.line
    assert almanac.job("trap:own-job") is None
