"""Forecasting noted blooms as a steward gets them: a garden of one plant, opened on a day.

For each bloom a garden is written to a folder of its own, with the weather of the site and the latest notes
before it, and the almanac is asked when the plant opens. Nothing of the program is bypassed but one thing: a
kind that has a fitted prior gets one fitted to the other sites only, or none at all. The weather of a site is
read once, and of each bloom only the notes.
"""

from __future__ import annotations

import datetime as dt
import math
import os
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from msgspec.structs import replace

from leafturn.almanac import Almanac
from leafturn.assembly.sources import read_sources
from leafturn.base.arrays import FloatArray
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.season_dates import season_days, season_start, typical_day
from leafturn.bloom.site_years import ENOUGH, site_years
from leafturn.journal.store.store import Store
from leafturn.kinds.library import load_library
from leafturn.weather.record import DailyRecord
from tests.skill.measure import EARLIER_NOTES, Score

PLANT = "watched"
DAY = dt.timedelta(days=1)


@dataclass(frozen=True, kw_only=True)
class Asked:
    """One bloom to forecast: its site, its season, the day it came, and the notes before it."""

    site: str
    season: int
    observed: dt.date
    notes: tuple[dt.date, ...]
    on: dt.date


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What the pages said of it; days are counted from the observed day."""

    asked: Asked
    likely: float
    early: float
    late: float
    mean_of_notes: float


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where all sites are taken to lie [deg]: records come without coordinates."""

    latitude: float
    longitude: float


def wanted(
    records: Mapping[str, Mapping[int, float]],
    weather: Mapping[str, DailyRecord],
    notes: int,
    lead: int | str | None,
    sample: int,
) -> list[Asked]:
    """All rows with ten earlier notes at their site and known weather; at most `sample`, 0 for all.

    A bloom that came less than `lead` days after its season began is asked on the first day of the season:
    before it the pages still speak of the season past.
    """
    names = sorted(name for name in records if name in weather and records[name])
    sites = {name: site_years(weather[name]) for name in names}
    southern = {name: site.southern for name, site in sites.items()}
    typical = typical_day({name: records[name] for name in names}, southern)
    found = []
    for name in names:
        site = sites[name]
        days = season_days(records[name], typical, site.southern)
        dates = {s: season_start(s, site.southern) + round(d - 1) * DAY for s, d in days.items()}
        seasons = sorted(days)
        for place in range(EARLIER_NOTES, len(seasons)):
            season = seasons[place]
            if site.known(season, days[season]) < ENOUGH:
                continue
            before = tuple(dates[s] for s in seasons[place - notes : place]) if notes else ()
            start, end = season_start(season, site.southern), season_start(season + 1, site.southern) - DAY
            on = end if lead is None else start if lead == "jan1" else dates[season] - int(lead) * DAY
            on = max(on, start)
            found.append(Asked(site=name, season=season, observed=dates[season], notes=before, on=on))
    if sample and sample < len(found):
        kept = np.sort(np.random.default_rng(2027).permutation(len(found))[:sample])
        found = [found[i] for i in kept]
    return found


def answers(
    asked: Sequence[Asked],
    weather: Mapping[str, DailyRecord],
    kind: str,
    place: Place,
    priors: Mapping[str, BloomPrior | None],
) -> list[Answered]:
    """What the pages say of each bloom.

    Parameters
    ----------
    asked : sequence of Asked
    weather : mapping of site to DailyRecord
    kind : str
        As the library calls it.
    place : Place
    priors : mapping of site to BloomPrior or None
        What is handed to the garden for the kind; a site that is not there gets the packaged prior.
    """
    by_site: dict[str, list[Asked]] = {}
    for one in asked:
        by_site.setdefault(one.site, []).append(one)
    work = [
        (rows, weather[site], kind, place, {kind: priors[site]} if site in priors else None)
        for site, rows in by_site.items()
    ]
    if len(asked) < 20:
        return [answer for part in work for answer in _of_site(part)]
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        return [answer for part in pool.map(_of_site, work) for answer in part]


def _of_site(work: tuple) -> list[Answered]:
    rows, record, kind, place, priors = work
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        southern = site_years(record).southern
        write_garden(folder, kind, place if not southern else _mirrored(place), record)
        return list(_answered(rows, folder, priors))


def _mirrored(place: Place) -> Place:
    return Place(latitude=-abs(place.latitude), longitude=place.longitude)


def write_garden(folder: Path, kind: str, place: Place, record: DailyRecord) -> None:
    """A garden of one plant with a weather file."""
    (folder / "garden.toml").write_text(
        f'[place]\nname = "Watched"\nlat = {place.latitude}\nlon = {place.longitude}\n'
        'weather = "weather.csv"\n'
        f'\n[[plant]]\nid = "{PLANT}"\nkind = "{kind}"\nyear = 1900\n',
        encoding="utf-8",
    )
    days = np.datetime_as_string(record.days).tolist()
    rows = map("{},{},{},".format, days, _cells(record.tmin), _cells(record.tmax))
    text = "\n".join(["date,tmin_c,tmax_c,rain_mm", *rows, ""])
    (folder / "weather.csv").write_text(text, encoding="utf-8")


def _cells(values: FloatArray) -> list[str]:
    """As a weather file has them, with nothing where a day is not known."""
    return ["" if math.isnan(value) else f"{value:.1f}" for value in values.tolist()]


def _answered(
    rows: Sequence[Asked], folder: Path, priors: Mapping[str, BloomPrior | None] | None
) -> Iterator[Answered]:
    journal = folder / "journal"
    journal.mkdir(exist_ok=True)
    sources = replace(read_sources(folder), priors=priors)
    for one in rows:
        for old in journal.glob("*.toml"):
            old.unlink()
        for year in {date.year for date in one.notes}:
            text = "".join(
                f'[[entry]]\non = {date}\nwhat = "bloom"\nplant = "{PLANT}"\nstage = "first open"\n\n'
                for date in one.notes
                if date.year == year
            )
            (journal / f"{year}.toml").write_text(text, encoding="utf-8")
        almanac = Almanac(replace(sources, journal=Store(folder).read()), one.on)
        event = next((e for e in almanac.season().events if e.event == "first open"), None)
        yield _against(one, None if event is None else event.when)


def _against(asked: Asked, when: object) -> Answered:
    """An answer in days from what was observed, NaN where no date is given."""

    def days(date: dt.date | None) -> float:
        return np.nan if date is None else float((date - asked.observed).days)

    likely, early, late = (getattr(when, part, None) for part in ("likely", "early", "late"))
    offsets = [_from_usual(date, asked) for date in asked.notes]
    return Answered(
        asked=asked, likely=days(likely), early=days(early), late=days(late),
        mean_of_notes=float(np.mean(offsets)) if offsets else np.nan,
    )  # fmt: skip


def _from_usual(note: dt.date, asked: Asked) -> float:
    """A note's day of its season less the observed day of its own [d]."""
    day = min(note.day, 28)
    beyond = (note.day - day) * DAY
    years = (asked.observed.year + shift for shift in (-1, 0, 1))
    dates = [dt.date(year, note.month, day) + beyond for year in years]
    return float(min(((date - asked.observed).days for date in dates), key=abs))


def library_name(kind: str) -> str:
    """What the library calls a kind.

    Raises
    ------
    ValueError
        If it does not know it.
    """
    found = load_library()[0].match(kind).kind
    if found.guessed:
        raise ValueError(f'the library knows no kind "{kind}", so no garden of it can be asked')
    return found.name


def score_of(answered: Sequence[Answered]) -> Score:
    """Figures over all answers that give a date; the others are counted beside them.

    Raises
    ------
    ValueError
        If there are none.
    """
    unsaid = sum(np.isnan(one.likely) for one in answered)
    answered = [one for one in answered if not np.isnan(one.likely)]
    if not answered:
        raise ValueError(
            f"no row has {EARLIER_NOTES} earlier notes at its site and known weather: nothing to measure"
        )
    missed = np.array([one.likely for one in answered])
    by_notes = np.array([one.mean_of_notes for one in answered])
    held = [one.early <= 0 <= one.late for one in answered]
    return Score(
        n=len(answered), rmse=float(np.sqrt(np.mean(missed**2))), mae=float(np.mean(np.abs(missed))),
        bias=float(np.mean(missed)), coverage80=float(np.mean(held)),
        notes_rmse=float(np.sqrt(np.mean(by_notes**2))), notes_mae=float(np.mean(np.abs(by_notes))),
        unsaid=int(unsaid),
    )  # fmt: skip
