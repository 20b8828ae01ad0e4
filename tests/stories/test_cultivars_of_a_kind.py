"""Cultivars of a kind bloom within days of each other; where ripening is not known the range says so."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, plant

from leafturn.kinds.library import load_library

ON = "2027-01-01"
# Monthly means [degC], about those of 1991 to 2020 (recalled).
CLEMSON = {
    "tmax_c": [11.2, 13.2, 17.8, 22.4, 26.7, 30.4, 32.1, 31.4, 28.2, 22.9, 17.4, 12.3],
    "tmin_c": [-0.6, 0.7, 4.2, 8.4, 13.3, 17.8, 19.8, 19.3, 15.9, 9.2, 4.0, 0.7],
}
SEATTLE = {
    "tmax_c": [8.4, 9.9, 12.2, 14.8, 18.6, 21.1, 24.6, 24.8, 21.6, 15.8, 10.9, 7.9],
    "tmin_c": [2.7, 2.8, 4.0, 5.6, 8.5, 11.2, 13.3, 13.5, 11.1, 7.8, 4.7, 2.6],
}
# The most days that a cultivar opens before or after its kind: what flowering charts of one orchard show
# (common practice; peaches of Clemson all within the week of 14 to 20 March, as published there). Those are
# cultivars of common chill: one bred for Florida opens weeks before them there.
WITHIN = {
    "peach": 4, "apricot": 4, "japanese plum": 4, "highbush blueberry": 4, "sour cherry": 7, "pear": 7,
    "european plum": 8, "sweet cherry": 10, "apple": 12,
}  # fmt: skip


def events(folder: Path, text: str, name: str, on: str = ON) -> dict[str, dict]:
    almanac_of(folder, text, on)
    answer = json.loads(run("season", str(folder), "--on", on, "--json").stdout)
    return {event["plant"]: event for event in answer["events"] if event["event"] == name}


def days_apart(one: str, other: str) -> int:
    return (dt.date.fromisoformat(one) - dt.date.fromisoformat(other)).days


def wants_less_chill(kind: str, cultivar: str) -> bool:
    """Whether a cultivar is known to want less than the middle of what its kind wants."""
    found = load_library()[0].kinds[kind]
    wanted, usual = found.cultivars[cultivar].chill_portions, found.chill.portions
    return wanted is not None and usual is not None and wanted.value < sum(usual.value) / 2


def test_a_peach_of_little_chill_opens_weeks_before_others_in_mild_winters_alone(
    tmp_path: Path,
) -> None:
    """Growers about Clemson are warned that peaches of little chill open too early there (from memory)."""
    peaches = [plant("low", "peach", cultivar="Flordaprince", year=1990), plant("common", "peach", year=1990)]
    apart = {}
    for name, climate, lat, lon in (("Clemson", CLEMSON, 34.7, -82.8), ("Styria", MONTHS, 46.9, 15.9)):
        (tmp_path / name).mkdir()
        text = garden_text(*peaches, climate=climate, lat=lat, lon=lon)
        found = events(tmp_path / name, text, "full bloom")
        apart[name] = days_apart(found["low"]["likely"], found["common"]["likely"])
    assert -35 <= apart["Clemson"] <= -14
    assert abs(apart["Styria"]) <= 4


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize(
    ("climate", "lat", "lon"), [(CLEMSON, 34.7, -82.8), (SEATTLE, 47.6, -122.3)], ids=["Clemson", "Seattle"]
)
def test_cultivars_bloom_within_days_of_their_kind(
    tmp_path: Path, climate: dict[str, object], lat: float, lon: float
) -> None:
    library = load_library()[0]
    things, of_kind = [], {}
    for kind in WITHIN:
        of_common_chill = (c for c in library.kinds[kind].cultivars if not wants_less_chill(kind, c))
        for number, cultivar in enumerate([None, *of_common_chill]):
            name = f"{kind.replace(' ', '-')}-{number}"
            of_kind[name] = (kind, cultivar)
            more = {} if cultivar is None else {"cultivar": cultivar}
            things.append(plant(name, kind, year=1990, **more))
    found = events(tmp_path, garden_text(*things, climate=climate, lat=lat, lon=lon), "full bloom")
    kinds = {kind: found[name]["likely"] for name, (kind, cultivar) in of_kind.items() if cultivar is None}
    assert len(found) == len(of_kind) > 300
    far = {
        (kind, cultivar): apart
        for name, (kind, cultivar) in of_kind.items()
        if abs(apart := days_apart(found[name]["likely"], kinds[kind])) > WITHIN[kind]
    }
    assert far == {}


APPLES = (
    plant("gala", "apple", cultivar="Gala", year=2000, at=[0, 0]),
    plant("unnamed", "apple", year=2000, at=[5, 0]),
    plant("odd", "apple", cultivar="Grandmother", year=2000, at=[9, 0]),
    plant("stated", "apple", year=2000, at=[9, 9], ripe="09-20"),
    plant("rowan", "rowan", year=2000, at=[20, 9]),
)


def width(event: dict) -> int:
    return days_apart(event["late"], event["early"])


def test_where_ripening_is_known_by_the_kind_alone_the_range_is_wider_and_it_is_said(tmp_path: Path) -> None:
    ripe = events(tmp_path, garden_text(*APPLES, climate=MONTHS), "ripe")
    assert width(ripe["unnamed"]) > 1.5 * width(ripe["gala"])
    assert width(ripe["odd"]) > 1.5 * width(ripe["gala"])
    assert width(ripe["stated"]) <= width(ripe["gala"]) + 3
    said = run("season", str(tmp_path), "--on", ON).stdout
    line = next(line for line in said.splitlines() if line.startswith("No cultivar is named, or its time"))
    assert line.endswith("so the range holds early and late ones of the kind: odd, unnamed.")


def test_own_pickings_tell_which_it_is(tmp_path: Path) -> None:
    before = events(tmp_path / "before", garden_text(*APPLES, climate=MONTHS), "ripe")
    folder = tmp_path / "after"
    folder.mkdir()
    notes = (
        f'[[entry]]\non = {year}-08-20\nwhat = "harvest"\nplant = "unnamed"\nkg = 9\n'
        for year in (2023, 2024, 2025, 2026)
    )
    (folder / "journal.toml").write_text("\n".join(notes), encoding="utf-8")
    after = events(folder, garden_text(*APPLES, climate=MONTHS), "ripe")
    assert width(after["unnamed"]) < 0.7 * width(before["unnamed"])
    assert abs(days_apart(after["unnamed"]["likely"], "2027-08-20")) <= 7
    said = run("season", str(folder), "--on", ON).stdout
    assert "early and late ones of the kind: odd." in said


def test_ripening_by_the_kind_alone_is_a_rule_of_thumb_at_best(tmp_path: Path) -> None:
    """With weather of its own a garden's other dates may rest on more."""
    rows = ["date,tmin_c,tmax_c"]
    day = dt.date(2010, 1, 1)
    while day < dt.date(2027, 1, 1):
        month = day.month - 1
        rows.append(f"{day},{MONTHS['tmin_c'][month]},{MONTHS['tmax_c'][month]}")
        day += dt.timedelta(days=1)
    (tmp_path / "weather.csv").write_text("\n".join(rows), encoding="utf-8")
    ripe = events(tmp_path, garden_text(*APPLES, climate=MONTHS, weather="weather.csv"), "ripe")
    assert ripe["gala"]["basis"] == "handbook"
    assert ripe["unnamed"]["basis"] == "rule of thumb"
