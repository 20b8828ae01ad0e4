"""`python -m tests.skill.fit_tables RECORDS.csv WEATHER -o OUT.toml`: kinds fitted to a large table of dates.

RECORDS.csv has the columns `kind,site,year,day_of_year`, as an open archive of phenology gives them once its
species have been told apart as kinds; it is read in one pass and held as numbers, 8 bytes a row. WEATHER is a
folder with a file a site, `SITE.csv` or `SITE.dly`, in any form that leafturn reads; each is read where its
kind is fitted. A kind is one piece of work: `--workers 2` fits two at once, `--scheduler ADDRESS` as many as
a cluster of Dask has workers (extra `fleet`); they need this folder of tests and the same WEATHER.

Where a kind has more than MOST_NOTES dates, whole sites are drawn until it has so many; the same table gives
the same file. OUT.toml has the form of `leafturn/bloom/priors/fitted.toml`.
"""

from __future__ import annotations

import argparse
import random
import sys
from array import array
from dataclasses import dataclass
from pathlib import Path

import msgspec
import tomli_w

from leafturn.base.faults import Unreadable
from leafturn.bloom.learning import fit_prior
from leafturn.bloom.priors.fitted import FittedKind, Provenance
from leafturn.fleet.engines import engine_of
from leafturn.weather.readers.reading import read_weather
from leafturn.weather.record import DailyRecord
from tests.skill.records import LEAST_YEAR, MOST_YEAR, Unusable, rows

MOST_NOTES = 20_000  # of a kind: its seasons' weather then takes some 130 MB
COLUMNS = ("kind", "site", "year", "day_of_year")
FORMS = (".csv", ".dly")


@dataclass
class Notes:
    """Dates of one kind: number of the site, year and day of the year, one each a row."""

    site: array
    year: array
    day: array

    @classmethod
    def none(cls) -> Notes:
        return cls(array("i"), array("h"), array("h"))


@dataclass(frozen=True)
class Work:
    """A kind to be fitted: its dates by site, and where the weather lies."""

    kind: str
    dates: dict[str, dict[int, int]]
    weather: Path
    source: str


@dataclass(frozen=True)
class Fit:
    """A kind as it is written, or why it could not be fitted."""

    kind: str
    written: dict | None
    said: str = ""


def read_table(path: Path) -> tuple[dict[str, Notes], list[str], int]:
    """Dates by kind, the names of sites by their numbers, and how many rows could not be used."""
    kinds: dict[str, Notes] = {}
    numbers: dict[str, int] = {}
    left_out = 0
    for _, (kind, site, year, day) in rows(path, COLUMNS):
        try:
            if not kind or Path(site).name != site or not LEAST_YEAR <= int(year) <= MOST_YEAR:
                raise ValueError
            if not -200 <= int(day) <= 400:
                raise ValueError
        except ValueError:
            left_out += 1
            continue
        notes = kinds.setdefault(kind, Notes.none())
        notes.site.append(numbers.setdefault(site, len(numbers)))
        notes.year.append(int(year))
        notes.day.append(int(day))
    return kinds, list(numbers), left_out


def by_site(notes: Notes, names: list[str], most: int = MOST_NOTES) -> dict[str, dict[int, int]]:
    """First date of each site and year; of too many sites some, drawn alike at every run."""
    dates: dict[str, dict[int, int]] = {}
    for site, year, day in zip(notes.site, notes.year, notes.day, strict=True):
        own = dates.setdefault(names[site], {})
        own[year] = min(day, own.get(year, day))
    drawn = sorted(dates)
    random.Random(len(drawn)).shuffle(drawn)
    kept: dict[str, dict[int, int]] = {}
    count = 0
    for site in drawn:
        if count + len(dates[site]) <= most:
            kept[site] = dates[site]
            count += len(dates[site])
    return {site: kept[site] for site in sorted(kept)}


def fit(work: Work) -> Fit:
    """One kind."""
    weather = {site: record for site in work.dates if (record := _weather(work.weather, site)) is not None}
    dates = {site: days for site, days in work.dates.items() if site in weather}
    years = [year for days in dates.values() for year in days]
    try:
        prior = fit_prior(dates, weather)
    except ValueError as why:
        return Fit(work.kind, None, str(why))
    where = Provenance(
        records=work.source, species=work.kind, sites=len(dates), notes=len(years),
        years=(min(years), max(years)),
    )  # fmt: skip
    return Fit(work.kind, rounded(msgspec.to_builtins(FittedKind.of(prior, where))))


def lost(work: Work, why: str) -> Fit:
    """A kind whose process ended with it."""
    return Fit(work.kind, None, why)


def rounded(value: object) -> object:
    """Numbers to five figures, so that the file reads; infinities stay."""
    if isinstance(value, dict):
        return {key: rounded(one) for key, one in value.items() if one is not None}
    if isinstance(value, list | tuple):
        return [rounded(one) for one in value]
    return float(f"{value:.5g}") if isinstance(value, float) else value


def add_engine(parser: argparse.ArgumentParser) -> None:
    """The words that choose it."""
    help_text = "processes of Dask on this machine (extra fleet); 0: this one alone"
    parser.add_argument("--workers", type=int, default=0, help=help_text)
    parser.add_argument("--scheduler", metavar="ADDRESS", help="a scheduler of Dask instead")


def _weather(folder: Path, site: str) -> DailyRecord | None:
    for form in FORMS:
        if (file := folder / f"{site}{form}").exists():
            return read_weather(file, file.name).record
    return None


def main(words: list[str] | None = None) -> int:
    """Fit all kinds of a table and write them; 0, 1 if some could not be fitted, 2 with a plain sentence."""
    parser = argparse.ArgumentParser(prog="python -m tests.skill.fit_tables")
    parser.add_argument("records", type=Path)
    parser.add_argument("weather", type=Path)
    parser.add_argument("-o", "--out", type=Path, required=True)
    parser.add_argument("--source", default="", help="where the records are from, kept beside the figures")
    add_engine(parser)
    given = parser.parse_args(words)
    try:
        kinds, names, left_out = read_table(given.records)
        source, folder = given.source or given.records.name, given.weather.absolute()
        work = (Work(kind, by_site(notes, names), folder, source) for kind, notes in sorted(kinds.items()))
        with engine_of(given.workers, given.scheduler) as engine:
            fits = list(engine(fit, work, lost))
    except Unusable as why:
        print(why, file=sys.stderr)
        return 2
    except Unreadable as why:
        print(why.fault.sentence(), file=sys.stderr)
        return 2
    for one in sorted(fits, key=lambda one: one.kind):
        if one.written is None:
            print(f"{one.kind}: {one.said}", file=sys.stderr)
    written = {one.kind: one.written for one in sorted(fits, key=lambda one: one.kind) if one.written}
    given.out.write_text(tomli_w.dumps(written), encoding="utf-8")
    print(f"{len(written)} of {len(kinds)} kinds are in {given.out}; {left_out} rows could not be used.")
    return 0 if len(written) == len(kinds) else 1


if __name__ == "__main__":
    sys.exit(main())
