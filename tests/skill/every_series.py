"""`python -m tests.skill.every_series FOLDER OUT`: the figures of docs/skill.md, one JSON file a measurement.

FOLDER holds what `python -m tests.skill.fetch FOLDER` wrote. Each file is what `python -m tests.skill --json`
prints, named `<series>.<lead>.k<notes>.json`; files that are there already are not made again. What is learnt
of a series serves all its measurements. On one core this takes about half an hour.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from pathlib import Path

from tests.skill.fetch import SERIES
from tests.skill.measure import priors, score, trials
from tests.skill.records import read_observations, read_weather

NAMED = ("kr_cherry", "kr_peach", "kr_forsythia", "jp_cherry_first", "jp_cherry_full", "jp_plum")
LEADS = ("none", "jan1", "30", "14", "7")
BY_NOTES = ("kr_cherry", "jp_cherry_first")
NOTES = 3


def wanted(series: str) -> Iterator[tuple[str, int]]:
    """Lead and number of notes of each measurement of a series."""
    yield from ((lead, NOTES) for lead in (LEADS if series in NAMED else ("none", "jan1", "14")))
    if series in BY_NOTES:
        yield from (("none", notes) for notes in (0, 1, 2, 4, 5))


def measure(series: str, folder: Path, out: Path, weather: dict) -> None:
    """Make the files of one series that are not there yet."""
    files = {out / f"{series}.{lead}.k{notes}.json": (lead, notes) for lead, notes in wanted(series)}
    if all(file.exists() for file in files):
        return
    records = read_observations(folder / f"{series}.csv").by_site
    learnt = priors(records, weather)
    for file, (lead, notes) in files.items():
        until = None if lead == "none" else lead if lead == "jan1" else int(lead)
        found = score(list(trials(records, weather, learnt, notes, until)))
        file.write_text(json.dumps(found.as_json()), encoding="utf-8")
        print(file.name, flush=True)


def main() -> None:
    """Measure all series in turn."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.skill.every_series", description=__doc__.split("\n")[0]
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("out", type=Path)
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    weather = {c: read_weather(given.folder / f"{c}_weather.csv").by_site for c in ("jp", "kr")}
    for series in (*NAMED, *(name for name in SERIES if name not in NAMED)):
        measure(series, given.folder, given.out, weather[series[:2]])


if __name__ == "__main__":
    main()
