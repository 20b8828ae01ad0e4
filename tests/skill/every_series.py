"""`python -m tests.skill.every_series FOLDER OUT`: the figures of docs/skill.md, one JSON file a measurement.

FOLDER holds what `python -m tests.skill.fetch FOLDER` wrote. Each file is what `python -m tests.skill
--kind NAME --json` prints of blooms drawn at random, through gardens opened on the day: "fitted" with a
prior learnt from the other sites, "stated" with none. Files are named `<series>.<fitted or
stated>.<lead>.k<notes>.json`; those that are there already are not made again. On two cores this takes
about a quarter of an hour.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from leafturn.bloom.priors.prior import BloomPrior
from tests.skill.measure import priors
from tests.skill.pages import Place, answers, score_of, wanted
from tests.skill.records import read_observations, read_weather

SAMPLE = 100  # blooms of each measurement
# With three notes and the weather known, which matters most: of the six named series and of the others.
NAMED_FOR_THREE, OTHERS_FOR_THREE = 1000, 300
NOTES = 3
NAMED = {
    "kr_cherry": "flowering cherry",
    "kr_peach": "peach",
    "kr_forsythia": "forsythia",
    "jp_cherry_first": "flowering cherry",
    "jp_cherry_full": "flowering cherry",
    "jp_plum": "japanese apricot",
}
OTHERS = {
    "kr_pear": "asian pear",
    "kr_locust": "black locust",
    "kr_azalea": "azalea",
    "jp_wisteria": "wisteria",
    "jp_camellia": "camellia",
}
SERIES = NAMED | OTHERS
WAYS = ("fitted", "stated")
LEADS = ("none", "jan1", "30", "14", "7")
BY_NOTES = (0, 1, 3, 8)
PLACES = {"jp": Place(latitude=36.0, longitude=138.0), "kr": Place(latitude=36.5, longitude=128.0)}


def measurements() -> Iterator[tuple[str, int]]:
    """Lead and number of notes of each."""
    yield from (("none", notes) for notes in BY_NOTES)
    yield from ((lead, NOTES) for lead in LEADS[1:])


def measure(series: str, folder: Path, out: Path, weather: Mapping) -> None:
    """Make the files of one series that are not there yet."""
    files = {
        out / f"{series}.{way}.{lead}.k{notes}.json": (way, lead, notes)
        for way in WAYS
        for lead, notes in measurements()
    }
    if all(file.exists() for file in files):
        return
    records = read_observations(folder / f"{series}.csv").by_site
    learnt: dict[str, BloomPrior] = priors(records, weather)
    for file, (way, lead, notes) in files.items():
        if file.exists():
            continue
        for_three = NAMED_FOR_THREE if series in NAMED else OTHERS_FOR_THREE
        sample = for_three if (lead, notes) == ("none", NOTES) else SAMPLE
        asked = wanted(records, weather, notes, _until(lead), sample)
        handed = learnt if way == "fitted" else dict.fromkeys(records)
        found = score_of(answers(asked, weather, SERIES[series], PLACES[series[:2]], handed))
        file.write_text(json.dumps(found.as_json()), encoding="utf-8")
        print(file.name, json.dumps(found.as_json()), flush=True)


def _until(lead: str) -> int | str | None:
    return None if lead == "none" else lead if lead == "jan1" else int(lead)


def main() -> None:
    """Measure all series in turn."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.skill.every_series", description=__doc__.split("\n")[0]
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--only", help="one series")
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    weather = {c: read_weather(given.folder / f"{c}_weather.csv").by_site for c in ("jp", "kr")}
    for series in SERIES if given.only is None else (given.only,):
        measure(series, given.folder, given.out, weather[series[:2]])


if __name__ == "__main__":
    main()
