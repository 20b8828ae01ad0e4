"""Writes docs/kind_years.md: every kind's year in three climates. Run from the project's root.

It takes some minutes. Each kind stands twice in one garden, a female and a male where the sexes are apart,
planted fifteen years ago and far from all others; and a third time, planted last year, of which it is told
whether it is too tender. What is only noted is left out.
"""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from leafturn.almanac import Almanac, open_almanac
from leafturn.kinds.library import load_library
from leafturn.kinds.model import Kind

PAGE = Path(__file__).parent / "kind_years.md"
YEAR, PLANTED, APART_M, A_ROW = 2027, 2012, 300, 20
ASKED_ON = (dt.date(YEAR, 1, 2), dt.date(YEAR, 7, 2))  # each shows the windows still to come
NO_WORK = ("note bloom", "look at partners", "bring pollen", "note set")
LAYERS = {
    "canopy": "Tall trees",
    "small tree": "Small trees",
    "shrub": "Shrubs and canes",
    "climber": "Climbers",
    "herb": "Herbs and bulbs",
    "ground": "Ground cover",
}


class Place(NamedTuple):
    """A climate by its monthly means [degC, mm]."""

    name: str
    lat: float
    lon: float
    tmax: tuple[float, ...]
    tmin: tuple[float, ...]
    rain: tuple[float, ...]


# Monthly normals, rounded and recalled: Winnipeg; hill country in the south-east of Austria; Seattle.
PLACES = (
    Place(
        "cold prairie", 49.9, -97.2,
        (-11.3, -8.1, -0.8, 10.9, 18.6, 23.2, 25.9, 25.4, 19.0, 10.5, -0.5, -8.5),
        (-21.4, -18.3, -10.7, -2.0, 4.5, 10.7, 13.5, 12.1, 6.4, -0.5, -9.2, -17.8),
        (20, 14, 25, 30, 57, 90, 80, 77, 46, 38, 25, 22),
    ),
    Place(
        "inland hills", 46.93, 15.87,
        (2.5, 5.5, 10.8, 15.9, 20.4, 24.0, 26.0, 25.6, 20.6, 15.0, 8.2, 3.3),
        (-5.0, -3.9, -0.3, 3.9, 8.4, 12.0, 13.6, 13.2, 9.3, 4.9, 0.8, -3.5),
        (28, 32, 44, 55, 88, 112, 118, 105, 88, 68, 58, 42),
    ),
    Place(
        "mild coast", 47.45, -122.31,
        (8.6, 9.9, 12.2, 15.4, 19.4, 22.1, 25.9, 26.0, 22.4, 15.9, 10.9, 8.1),
        (2.9, 2.9, 4.2, 6.1, 9.1, 11.8, 14.1, 14.2, 11.7, 8.2, 5.0, 2.7),
        (147, 95, 106, 81, 49, 37, 15, 24, 41, 99, 160, 146),
    ),
)  # fmt: skip

Span = tuple[dt.date, dt.date]
KindYear = dict[str, list[Span]]
"""What is done, or seen, to when."""


def years(place: Place, kinds: Mapping[str, Kind]) -> dict[str, KindYear]:
    """What each kind's year holds at a place; a kind that freezes there has "too tender" alone."""
    names = list(kinds)
    found: dict[str, KindYear] = {name: {} for name in names}
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "garden.toml").write_text("\n".join(_garden(place, kinds)), encoding="utf-8")
        for on in ASKED_ON:
            almanac = open_almanac(Path(folder), on)
            for name, what, span in (*_jobs(almanac, names), *_bloom(almanac, names)):
                _add(found[name].setdefault(what, []), span)
        for line in almanac.heed().tender:
            if line.standing == "too tender":
                found[_kind_of(line.plant, names)] = {"too tender": []}
    return found


def _garden(place: Place, kinds: Mapping[str, Kind]) -> Iterator[str]:
    yield f"[place]\nlat = {place.lat}\nlon = {place.lon}\n[climate]"
    yield f"tmax_c = {list(place.tmax)}\ntmin_c = {list(place.tmin)}\nrain_mm = {list(place.rain)}"
    for n, (name, kind) in enumerate(kinds.items()):
        system = kind.pollination.system
        for twin, sex in enumerate(("female", "male")):
            at = [n % A_ROW * APART_M + 8 * twin, n // A_ROW * APART_M]
            yield f'[[plant]]\nid = "k{n}-{twin}"\nkind = "{name}"\nyear = {PLANTED}\nat = {at}'
            if system is not None and system.value == "dioecious":
                yield f'sex = "{sex}"'
        yield f'[[plant]]\nid = "k{n}-2"\nkind = "{name}"\nyear = {YEAR - 1}'


def _kind_of(plant: str, names: list[str]) -> str:
    return names[int(plant[1:].partition("-")[0])]


def _jobs(almanac: Almanac, names: list[str]) -> Iterator[tuple[str, str, Span]]:
    for job in almanac.jobs():
        first, last = job.open.likely, job.close.likely
        if first is None or last is None or job.verb in NO_WORK or f":{YEAR}" not in job.id:
            continue
        for plant in job.plants:
            if plant.endswith("-0"):
                yield _kind_of(plant, names), job.verb, (first, last)


def _bloom(almanac: Almanac, names: list[str]) -> Iterator[tuple[str, str, Span]]:
    seen: dict[str, dict[str, dt.date]] = {}
    for event in almanac.season().events:
        if event.plant.endswith("-0") and event.when.likely is not None:
            seen.setdefault(event.plant, {})[event.event] = event.when.likely
    for plant, events in seen.items():
        if "first open" in events and "petal fall" in events:
            yield _kind_of(plant, names), "in flower", (events["first open"], events["petal fall"])


def _add(spans: list[Span], span: Span) -> None:
    """Put a span beside others, unless it is one of them told on another day."""
    if not any(first <= span[1] and span[0] <= last for first, last in spans):
        spans.append(span)


def tables(kinds: Mapping[str, Kind], by_place: Mapping[str, Mapping[str, KindYear]]) -> Iterator[str]:
    """The page's tables, kind by kind under the layers."""
    for layer, title in LAYERS.items():
        yield f"## {title}\n"
        for name, kind in kinds.items():
            if kind.layer == layer:
                yield from _table(name, kind, [year[name] for year in by_place.values()])


def _table(name: str, kind: Kind, years_of: list[KindYear]) -> Iterator[str]:
    whats = sorted(
        {what for year in years_of for what in year if what != "too tender"},
        key=lambda what: (min(_day(s) for year in years_of for s in year.get(what, [])), what),
    )
    yield f"### {name}\n"
    yield f"| *{kind.botanical}* | {' | '.join(place.name for place in PLACES)} |"
    yield "|---|---|---|---|"
    for what in whats:
        yield f"| {what} | {' | '.join(_cell(year, what) for year in years_of)} |"
    if not whats:
        yield f"| no work is told | {' | '.join(_cell(year, '') for year in years_of)} |"
    yield ""


def _day(span: Span) -> int:
    """Where a span stands in the year that runs from November."""
    return (span[0] - dt.date(YEAR - 1, 11, 1)).days


def _cell(year: KindYear, what: str) -> str:
    if "too tender" in year:
        return "too tender"
    return "; ".join(f"{_said(first)} to {_said(last)}" for first, last in sorted(year.get(what, [])))


def _said(day: dt.date) -> str:
    return f"{day.day} {day:%b}"


def page(kinds: Mapping[str, Kind], places: Iterable[Place] = PLACES) -> str:
    """The whole page."""
    head = (
        "# Every kind's year in three climates\n\n"
        "Written by `docs/make_kind_years.py` from the library and the rules as they are, for growers to\n"
        "read through. A window is the likely one of a usual year, from its first day to its last, for two\n"
        "plants of the kind that have stood for fifteen years; what is only noted is left out.\n\n"
        "| climate | coldest and warmest month, means | rain of the year |\n|---|---|---|\n"
    )
    rows = [
        f"| {p.name} ({p.lat:.0f} N) | {(p.tmin[0] + p.tmax[0]) / 2:.0f} and "
        f"{(p.tmin[6] + p.tmax[6]) / 2:.0f} C | {sum(p.rain):.0f} mm |\n"
        for p in PLACES
    ]
    by_place = {place.name: years(place, kinds) for place in places}
    return head + "".join(rows) + "\n" + "\n".join(tables(kinds, by_place)).rstrip("\n") + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(load_library()[0].kinds), encoding="utf-8")
