"""`leafturn weather read`: how a weather file is read, as its owner sees it before it is used."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import numpy as np
from tests import in_process
from tests.samples.garden_text import garden_text, plant

GARDEN = garden_text(plant("plum", "european plum"), lat=40.0, lon=-75.0, weather="station.csv")


def station(folder: Path, head: str, *, fahrenheit: bool = True) -> Path:
    """Two years of an invented station at 40 degrees north, with one day that cannot be true and a gap."""
    rows = [head]
    for n in range(731):
        day = dt.date(2023, 1, 1) + dt.timedelta(days=n)
        mean = 11 - 12 * np.cos(2 * np.pi * (n - 20) / 365.25) + 2 * np.sin(n)
        low, high = mean - 5, mean + 6
        if day == dt.date(2023, 7, 4):
            high = 70.0
        if fahrenheit:
            low, high = low * 1.8 + 32, high * 1.8 + 32
        if day.month != 3 or day.year != 2024:
            rows.append(f"{day.month}/{day.day}/{day.year},{low:.1f},{high:.1f},{'T' if n % 5 else 0.2},3")
    folder.mkdir(exist_ok=True)
    (folder / "station.csv").write_text("\n".join(rows) + "\n")
    (folder / "garden.toml").write_text(GARDEN)
    return folder


def test_columns_days_gaps_rejections_and_normals_are_shown(tmp_path: Path) -> None:
    folder = station(tmp_path / "g", "Date,Low (°F),High (°F),Precip (in),wind")
    done = in_process.run("weather", "read", str(folder))
    assert done.returncode == 0, done.stderr
    said = done.stdout
    assert "Low (°F)     minimum, degrees Fahrenheit" in said
    assert "wind         not used" in said
    assert "Recorded: Sun 1 Jan 2023 to Tue 31 Dec 2024, 699 days of 731 with both temperatures." in said
    assert "Not known: 1 Mar 2024 to 31 Mar 2024, 31 days" in said
    assert "2023-07-04 (70.0 C) was set aside as wrong" in said
    assert "January" in said
    assert "Without this file:" in said


def test_a_file_alone_is_shown_without_a_garden(tmp_path: Path) -> None:
    folder = station(tmp_path / "g", "Date,Low (F),High (F),Precip (in),wind")
    file = (folder / "station.csv").rename(tmp_path / "alone.csv")
    done = in_process.run("weather", "read", str(file), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "maximum, degrees Fahrenheit" in done.stdout
    assert "Without this file" not in done.stdout


def test_fahrenheit_under_a_celsius_head_is_one_question_everywhere(tmp_path: Path) -> None:
    folder = station(tmp_path / "g", "date,tmin_c,tmax_c,rain_in,wind")
    done = in_process.run("weather", "read", str(folder))
    assert "Are tmin_c and tmax_c in degrees Fahrenheit rather than degrees Celsius?" in done.stdout
    assert "If so, name the columns tmin_f and tmax_f." in done.stdout
    asked = in_process.run("round", str(folder), "--on", "2025-03-01")
    assert len(asked.stderr.strip().splitlines()) == 1
    text = (folder / "station.csv").read_text().replace("tmin_c,tmax_c", "tmin_f,tmax_f")
    (folder / "station.csv").write_text(text)
    assert in_process.run("round", str(folder), "--on", "2025-03-01").stderr == ""


def test_json_tells_the_same(tmp_path: Path) -> None:
    folder = station(tmp_path / "g", "Date,TMIN,TMAX,PRCP,wind")
    found = json.loads(in_process.run("weather", "read", str(folder), "--json").stdout)
    assert found["columns"][1] == {"name": "TMIN", "read_as": "minimum, degrees Fahrenheit"}
    assert found["columns"][3]["read_as"] == "rain, inches"
    assert found["recorded"]["known"] == 699
    assert len(found["months"]) == len(found["without"]) == 12


def test_help_as_a_word_and_notes_that_say_too_little(tmp_path: Path) -> None:
    folder = station(tmp_path / "g", "Date,TMIN,TMAX,PRCP,wind")
    assert in_process.run("help").stdout.startswith("usage: leafturn [GARDEN]")
    assert in_process.run("help", "done").stdout.startswith("usage: leafturn done [GARDEN] JOB ")
    done = in_process.run("note", str(folder))
    assert done.returncode == 2
    assert "What is to be noted in" in done.stderr
    done = in_process.run("note", str(folder), "bloom")
    assert done.returncode == 2
    assert done.stderr.startswith("Bloom alone tells too little; write it as in: bloom comice-1.")
    with (folder / "garden.toml").open("a") as file:
        file.write('[[plant]]\nid = "comice-1"\nkind = "pear"\n')
    done = in_process.run("note", str(folder), "comice-1")
    assert done.returncode == 2
    assert done.stderr.startswith("Comice-1 alone tells too little; write what was seen of it, too.")
    assert not (folder / "journal").exists()
