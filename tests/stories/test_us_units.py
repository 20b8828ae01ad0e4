"""A garden that speaks feet, Fahrenheit, inches, pounds and gallons: every page, command, paper and feed.

Kept as they are: the steward's own words, sources as they are cited, and what a page publishes in its own
units (sums of heat as published, and where sources disagree).
"""

from __future__ import annotations

import datetime as dt
import json
import re
import shutil
from pathlib import Path

import pypdf
import pytest
from tests import in_process
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn.base import quantities
from leafturn_tui.charts.heap_course import course_rows
from leafturn_tui.charts.heat_curve import curve_rows
from leafturn_tui.pages import pages

ON = "2027-04-19"
METRIC = re.compile(
    r"-?\d(?:[.,]\d+)? ?(?:m2|m²|mm|cm|kg|km|m|C|l|litres?)(?![\w:%])|\blitres?\b|\bmetres?\b|°C"
    r"|-0 F|\d\.\d{3}|, (?:m|cm|kg|l)(?= )"  # the last: a unit after the name of a row of figures
)
QUESTIONS = ["round", "season", "partners", "canopy", "climbers", "heaps", "larder", "heed", "book", "plants",
             "weather", "drift", "rules", "check"]  # fmt: skip
OTHERS = [["tonight", "27F"], ["card", "month"], ["card", "bloom"], ["card", "looks"], ["card", "comice-1"],
          ["handover"], ["sheet"], ["away", "--from", "2027-04-24", "--to", "2027-05-08"],
          ["weather", "read"]]  # fmt: skip


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, told by someone in the United States: places of words in feet; only asked."""
    folder = Path(shutil.copytree(DEMO, tmp_path_factory.mktemp("us") / "meadow"))
    text = (folder / "garden.toml").read_text(encoding="utf-8")
    text = text.replace("lat = ", 'units = "us"\nlat = ', 1)
    text = text.replace("a stem of 5 m", "a tall stem").replace("standing stem of 5 m", "tall standing stem")
    feet = re.sub(r'at = "([\d.]+) m ', lambda found: f'at = "{round(float(found[1]) / 0.3048)} ft ', text)
    (folder / "garden.toml").write_text(feet, encoding="utf-8")
    return folder


@pytest.fixture
def written(garden: Path, tmp_path: Path) -> Path:
    """A copy of it to note in."""
    return Path(shutil.copytree(garden, tmp_path / "meadow"))


def metric_in(text: str) -> list[str]:
    """Lines that tell a metric unit, what is cited of sources left away."""
    return [line for line in text.split("\n") if METRIC.search(line)]


def without_sources(paragraphs: list[str]) -> str:
    return "\n".join(re.split(r"\bSource:", said)[0] for said in paragraphs)


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("words", [[q] for q in QUESTIONS] + OTHERS, ids=" ".join)
def test_no_command_or_paper_tells_a_metric_unit(garden: Path, written: Path, words: list[str]) -> None:
    at = 2 if words[:2] == ["weather", "read"] else 1
    of = str(written if words == ["sheet"] else garden)  # what is printed of a sheet is noted
    done = in_process.run(*words[:at], of, *words[at:], "--on", ON)
    assert done.returncode in (0, 1), done.stderr
    assert len(done.stdout) > 60
    assert metric_in(done.stdout + done.stderr) == []


def test_a_pdf_is_made_for_letter_where_feet_are_spoken(garden: Path, tmp_path: Path) -> None:
    """Letter is 8.5 by 11 inches (ANSI/ASME Y14.1, from memory)."""
    done = in_process.run("card", str(garden), "month", "--on", ON, "-o", str(tmp_path / "month.pdf"))
    assert done.returncode == 0
    box = pypdf.PdfReader(tmp_path / "month.pdf").pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((8.5 * 72, 11 * 72), abs=0.1)


def test_no_feed_tells_a_metric_unit(garden: Path) -> None:
    assert in_process.run("feed", str(garden), "--on", ON).returncode == 0
    feeds = list((garden / "papers").glob("*.ics"))
    assert feeds
    for feed in feeds:
        unfolded = feed.read_bytes().decode().replace("\r\n ", "").replace("\\,", ",")
        said = unfolded.replace("\\n", "\n").split("\n")
        assert metric_in(without_sources(said)) == []


@pytest.mark.parametrize("key", sorted(pages()))
@pytest.mark.parametrize("day", [ON, "2027-07-10"])
def test_no_page_tells_a_metric_unit(garden: Path, key: str, day: str) -> None:
    almanac = in_process.opened(garden, dt.date.fromisoformat(day))
    page = pages()[key]()
    page.colours = False
    told = [page.heading(almanac), *page.sum(almanac)]
    rows = page.rows(almanac, 110)
    rows = [*rows, *page.heads(almanac, 110), *page.top(almanac, 110)]
    told += [row.text for row in rows]
    for beside in rows:  # what `w` tells of it, and what stands beside it, wrapped
        sheet = page.why(almanac, beside)
        told += sheet.paragraphs if sheet else [row.text for row in page.story(almanac, beside, 2000)]
    assert metric_in(without_sources(told)) == []


def test_values_in_json_stay_metric(garden: Path) -> None:
    us = json.loads(in_process.run("season", str(garden), "--on", ON, "--json").stdout)
    quantities.speak("metric")
    metric = json.loads(in_process.run("season", str(DEMO), "--on", ON, "--json").stdout)
    assert us["heat"] == metric["heat"]
    assert us["frost"] == metric["frost"]
    assert [e["likely"] for e in us["events"]] == [e["likely"] for e in metric["events"]]


def test_a_kind_is_told_in_them_but_for_what_pages_publish(garden: Path) -> None:
    said = in_process.run("plants", str(garden), "--kind", "pear", "--on", ON).stdout
    known = said.split("where sources disagree:")[0]
    lines = [line for line in known.split("\n") if "growing degree hours" not in line]
    assert metric_in("\n".join(lines)) == []
    assert "10 and 90 % killed at full bloom, F: 28, 24" in said  # Murray 2011, Utah State: 28 and 24 F


def test_the_files_own_suffixes_tell_it_where_no_units_are_named(tmp_path: Path) -> None:
    head = "[place]\nlat = 40\nlon = -75\n"
    plants = '[[plant]]\nkind = "pear"\n{}\n[[plant]]\nkind = "plum"\n{}\n'
    for first, second, units in [
        ("height_ft = 9", "crown_ft = 4", "us"),
        ("height_ft = 9", "crown_m = 4", "metric"),
        ("", "", "metric"),
    ]:
        (tmp_path / "garden.toml").write_text(head + plants.format(first, second), encoding="utf-8")
        assert open_almanac(tmp_path, dt.date(2027, 4, 19)).garden.place.units == units
        assert quantities.spoken() == units


def test_a_bare_number_typed_is_of_the_garden_s_own_degrees(written: Path) -> None:
    done = in_process.run("tonight", str(written), "27", "--on", ON)
    assert "What would a night of 27 F do?" in done.stdout
    done = in_process.run("note", str(written), "frost", "28", "--on", ON)
    assert done.returncode == 0, done.stderr
    assert "min 28 F" in done.stdout
    noted = (written / "journal" / "2027.toml").read_text(encoding="utf-8")
    assert "tmin_c = -2.2" in noted


def test_figures_of_charts_are_those_of_their_heads(garden: Path) -> None:
    """A heap at 58 C is hot at 136 F; axes count in feet, Fahrenheit and its degree-days."""
    almanac = open_almanac(garden, dt.date.fromisoformat(ON))
    readings = [(dt.date(2027, 4, 10), 58.0)]
    rows = [row.text for row in course_rows("bay-2", readings, [], almanac.on, 80)]
    assert rows[0].startswith("bay-2 inside, F")
    told = "\n".join(rows)
    assert "136" in told
    assert "hot: 131-149" in told
    curve = [row.text for row in curve_rows(almanac.heat_course(), [], almanac.on, 80, 10)]
    assert any(figure in line[:8] for line in curve for figure in ("500", "1000"))


def test_several_gardens_are_told_in_the_units_of_the_first(garden: Path, tmp_path: Path) -> None:
    metric = Path(shutil.copytree(DEMO, tmp_path / "other"))
    said = in_process.run("round", str(garden), str(metric), "--on", ON).stdout
    assert "may fall to 27 F" in said
    assert not re.search(r"may fall to -?[\d.]+ C", said)
