"""Stories of other programs: a garden on a map, a survey of points, tables in a spreadsheet, an archive."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import re
import shutil
import tomllib
from collections.abc import Iterable
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.places import DEMO

ON = ["--on", "2027-04-19"]


@pytest.fixture
def written(tmp_path: Path) -> Path:
    """A copy of the demo to note in."""
    return Path(shutil.copytree(DEMO, tmp_path / "meadow", ignore=shutil.ignore_patterns("*.py")))


def table(text: str) -> list[dict[str, str]]:
    assert text.count("\r\n") == text.count("\n")  # RFC 4180
    return list(csv.DictReader(io.StringIO(text, newline="")))


def assert_of_texts_and_numbers(cells: Iterable[str]) -> None:
    """No cell is one that a spreadsheet takes for a formula; what begins with a minus is a number."""
    assert not any(cell.startswith(("=", "@", "+")) for cell in cells)
    assert all(re.fullmatch(r"-[\d.e-]+", cell) for cell in cells if cell.startswith("-"))


# ---- maps ----------------------------------------------------------------------------------------


def test_plants_go_to_a_map_and_come_back_within_a_centimetre(asked: Path, tmp_path: Path) -> None:
    out = tmp_path / "plants.geojson"
    assert run("export", str(asked), "plants", *ON, "-o", str(out)).returncode == 0
    found = json.loads(out.read_text())
    assert found["type"] == "FeatureCollection"
    by_id = {one["id"]: one for one in found["features"]}
    east, north = by_id["toll-ash"]["geometry"]["coordinates"]
    assert (east, north) == pytest.approx(
        (15.870315, 46.930162), abs=1e-5
    )  # [24, 18] m from 46.93 N, 15.87 E
    assert by_id["toll-ash"]["properties"]["kind"] == "common ash"
    # The same plants read into an empty garden with this datum.
    empty = tmp_path / "empty"
    empty.mkdir()
    (empty / "garden.toml").write_text(
        "[place]\nlat = 46.93\nlon = 15.87\nheight_m = 360\n", encoding="utf-8"
    )
    lines = run("points", str(empty), str(out), *ON)
    assert lines.returncode == 0
    (empty / "garden.toml").write_text((empty / "garden.toml").read_text() + lines.stdout, encoding="utf-8")
    again = json.loads(run("export", str(empty), "plants", *ON).stdout)
    assert {one["id"] for one in again["features"]} == set(by_id)
    for one in again["features"]:
        for now, before in zip(
            one["geometry"]["coordinates"], by_id[one["id"]]["geometry"]["coordinates"], strict=True
        ):
            assert abs(now - before) * 111_320 < 0.01


GPX = """<?xml version="1.0"?>
<gpx version="1.1" creator="a receiver" xmlns="http://www.topografix.com/GPX/1/1">
  <wpt lat="46.9301" lon="15.8702"><name>New Quince</name><type>quince</type></wpt>
  <wpt lat="46.9302" lon="15.8702"><name>toll-ash</name></wpt>
  <trk><trkseg><trkpt lat="46.93" lon="15.87"/></trkseg></trk>
</gpx>"""


def test_a_survey_is_shown_as_lines_for_the_garden_file_and_written_nowhere(
    asked: Path, tmp_path: Path
) -> None:
    before = (asked / "garden.toml").read_bytes()
    survey = tmp_path / "survey.gpx"
    survey.write_text(GPX, encoding="utf-8")
    done = run("points", str(asked), str(survey), *ON)
    assert done.returncode == 0
    assert "Nothing is written" in done.stdout
    assert "# 1 thing left out" in done.stdout
    first, second = tomllib.loads(done.stdout)["plant"]
    assert (first["id"], first["kind"]) == ("new-quince", "quince")
    assert first["at"] == pytest.approx([15.23, 11.12], abs=0.01)
    assert second["id"] == "toll-ash-2"  # a plant of the garden has that id already
    assert 'kind = ""  # which kind?' in done.stdout
    assert (asked / "garden.toml").read_bytes() == before


@pytest.mark.parametrize(
    ("text", "between"),
    [("name,lat,lon\r\nA pear,46.9301,15.8702\r\n", ","), ("Name;Lat;Lon\nA pear;46,9301;15,8702\n", ";")],
)
def test_a_table_of_points_in_both_ways_of_writing_numbers(
    asked: Path, tmp_path: Path, text: str, between: str
) -> None:
    survey = tmp_path / "survey.csv"
    survey.write_text(text, encoding="utf-8")
    (plant,) = tomllib.loads(run("points", str(asked), str(survey), *ON).stdout)["plant"]
    assert plant["id"] == "a-pear"
    assert plant["at"] == pytest.approx([15.23, 11.12], abs=0.01)


def test_a_printed_minus_in_a_table_of_points_is_a_minus(tmp_path: Path) -> None:
    """U+2212, as spreadsheets in several languages write it: such points were left out as no place."""
    (tmp_path / "garden.toml").write_text("[place]\nlat = -42.5\nlon = 171.2\n", encoding="utf-8")
    survey = tmp_path / "survey.csv"
    survey.write_text("name,lat,lon\nA pear,\N{MINUS SIGN}42.5,171.2\n", encoding="utf-8")
    (plant,) = tomllib.loads(run("points", str(tmp_path), str(survey), *ON).stdout)["plant"]
    assert plant["at"] == pytest.approx([0, 0], abs=0.01)


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("a.csv", "name,north\nx,1\n", "line 1: no column is called lat."),
        ("a.csv", "", "no column is called lat."),
        ("a.csv", "lat,lon\n12,77\n", "lies more than 10 km from the datum, north post of the weir gate"),
        ("a.csv", "lat,lon\n95,15\n", "has latitude 95 and longitude 15, which is no place on Earth"),
        ("a.csv", "lat,lon\nnan,15\n", "which is no place on Earth"),
        ("a.gpx", "<kml/>", "its outermost part is 'kml' and not 'gpx'"),
        ("a.gpx", "<gpx>", "this is not XML."),
        ("a.gpx", '<!DOCTYPE x [<!ENTITY a "b">]><gpx/>', "defines names of its own"),
        ("a.geojson", "{", "this is not JSON."),
        ("a.geojson", "[" * 100_000, "nested too deeply"),
        ("a.geojson", '{"type": "Topology"}', "no GeoJSON with features"),
        ("a.shp", "x", ".shp is no kind of file with points"),
    ],
)  # fmt: skip
def test_what_is_no_survey_gets_one_sentence(
    asked: Path, tmp_path: Path, name: str, text: str, said: str
) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    done = run("points", str(asked), str(tmp_path / name), *ON)
    assert done.returncode == 2
    assert said in done.stderr
    assert done.stderr.count("\n") == 1


# ---- spreadsheets --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("question", "column"),
    [("round", "id"), ("season", "event"), ("partners", "adequacy"), ("plants", "kind"), ("larder", "first"),
     ("rules", "id"), ("canopy", "plant"), ("heaps", "stage"),
     pytest.param("book", "on", marks=pytest.mark.long)],
)  # fmt: skip
def test_a_question_is_answered_as_a_table(question: str, column: str) -> None:
    done = run(question, str(DEMO), *ON, "--csv")
    assert done.returncode == 0
    rows = table(done.stdout)
    assert rows
    assert column in rows[0]
    assert_of_texts_and_numbers([cell for row in rows for cell in row.values()])


def test_each_table_of_an_answer_can_be_asked_for(asked: Path) -> None:
    frosts = table(run("season", str(DEMO), *ON, "--csv", "--table", "frosts").stdout)
    assert frosts[0]["threshold_celsius"] == "0"
    assert re.fullmatch(r"2027-\d\d-\d\d", frosts[0]["last.p50"])
    done = run("season", str(DEMO), *ON, "--csv", "--table", "snow")
    assert done.returncode == 2
    assert "There is no table 'snow' here; tables: " in done.stderr
    assert "frosts" in done.stderr


@pytest.mark.long
def test_the_week_of_several_gardens_is_one_table(asked: Path, tmp_path: Path) -> None:
    other = Path(shutil.copytree(asked, tmp_path / "mill"))
    text = (other / "garden.toml").read_text(encoding="utf-8")
    (other / "garden.toml").write_text(text.replace("Weir Meadow", "Mill House"), encoding="utf-8")
    rows = table(run("round", str(asked), str(other), *ON, "--csv").stdout)
    for folder, name in ((asked, "Weir Meadow"), (other, "Mill House")):
        alone = [row["id"] for row in table(run("round", str(folder), *ON, "--csv").stdout)]
        assert [row["id"] for row in rows if row["garden"] == name] == alone
        assert len(alone) > 5


def test_no_cell_is_reckoned_by_a_spreadsheet(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text("[place]\nlat = 46.93\nlon = 15.87\n", encoding="utf-8")
    formulas = ("=1+1", "+1", "-1+1", "@SUM(A1)", " =1+1", "=cmd|' /C calc'!A0")
    for formula in formulas:
        assert run("note", str(tmp_path), formula, *ON).returncode == 0
    rows = table(run("book", str(tmp_path), *ON, "--csv").stdout)
    cells = [cell for row in rows for cell in row.values()]
    assert {f"'{formula.strip()}" for formula in formulas} <= set(cells)
    assert_of_texts_and_numbers(cells)


def test_everything_is_one_object_with_every_question() -> None:
    found = json.loads(run("export", str(DEMO), "everything", *ON).stdout)
    assert {"round", "season", "partners", "canopy", "larder", "heed", "book", "plants", "weather"} <= set(
        found
    )
    alone = json.loads(run("season", str(DEMO), *ON, "--json").stdout)
    assert found["season"]["events"] == alone["events"]


# ---- an archive of phenology ---------------------------------------------------------------------


def test_the_bloom_noted_is_a_table_with_stage_numbers_places_and_days(written: Path) -> None:
    run("note", str(written), "bloom", "early-plum", "--stage", "full bloom", "--on", "2027-04-18")
    rows = table(run("export", str(written), "bloom", *ON).stdout)
    assert len(rows) > 30
    last = rows[-1]
    assert (last["eventDate"], last["organismID"], last["bbch"]) == ("2027-04-18", "early-plum", "65")
    assert (last["scientificName"], last["startDayOfYear"]) == ("Prunus cerasifera", "108")
    for row in rows:
        assert dt.date.fromisoformat(row["eventDate"]).year == int(row["year"])
        assert row["occurrenceStatus"] == "absent" or 0 <= int(row["bbch"]) <= 99
        assert float(row["decimalLatitude"]) == pytest.approx(46.93, abs=0.01)
        assert float(row["decimalLongitude"]) == pytest.approx(15.87, abs=0.01)
        assert row["geodeticDatum"] == "WGS84"
    assert len({row["occurrenceID"] for row in rows}) == len(rows)


@pytest.mark.long
def test_what_was_taken_back_is_not_in_the_record(written: Path) -> None:
    before = len(table(run("export", str(written), "bloom", *ON).stdout))
    run("note", str(written), "bloom", "early-plum", "--stage", "full bloom", *ON)
    assert len(table(run("export", str(written), "bloom", *ON).stdout)) == before + 1
