"""Gardens that make the program say what it seldom says: odd plants, odd heaps, nobody's hands, no winter.

    almanac = odd_garden("odd", tmp_path)

All invented.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path

from leafturn.almanac import Almanac
from leafturn.garden.model import Heap, Helper, Place, Plant, Roof, Seat
from leafturn.garden.model import Path as Path_
from leafturn.garden.reading.tables import fields_of
from leafturn.journal.entries import BloomNote, CrownNote, DamageNote, HeapReading, LossNote, WeatherNote
from tests.samples.garden_text import almanac_of, garden_text, heap, helper, plant

ON = dt.date(2027, 5, 4)

_TREES = (
    plant("ash", "common ash", state="dead standing", year=1920, height_m=18, at=[0, 60]),
    plant("larch", "european larch", state="declining", year=1940, lean="N", at=[20, 60]),
    plant("poplar", "aspen", state="weak", year=1960, lean="slight SW", at=[40, 60]),
    plant("seedling-1", "persian walnut", raised="seedling", year=2020, at=[4, 57], plan="undecided"),
    plant("seedling-2", "hornbeam", raised="seedling", year=2018, at=[2, 62], plan="undecided"),
    plant("unplaced", "medlar", year=2015),
    plant("undated", "quince", at=[5, 5]),
    plant("moon", "moon thistle", year=2019, at=[3, 3]),
    plant("olive", "olive", year=2010, at=[9, 3]),
    plant("lemon", "lemon", year=2022, at=[11, 3], guard={"height_cm": 30, "year": 2015}),
)
_ORCHARD = (
    plant("strange-apple", "apple", cultivar="Nobody's Pippin", year=2010, at=[20, 0]),
    plant("bramley", "apple", cultivar="Bramley's Seedling", year=2011, at=[26, 0]),
    plant("cox", "apple", cultivar="Cox's Orange Pippin", year=2024, at=[180, 0]),
    plant("red-williams", "pear", cultivar="Red Bartlett", year=2005, at=[20, 8]),
    plant("williams", "pear", cultivar="Bartlett", year=2005, at=[26, 8]),
    plant("bing", "sweet cherry", cultivar="Bing", year=2008, at=[20, 16]),
    plant("lambert", "sweet cherry", cultivar="Lambert", year=2008, at=[26, 16]),
    plant("nonpareil", "almond", cultivar="Nonpareil", year=2015, at=[33, 16]),
    plant("santa-rosa", "japanese plum", cultivar="Santa Rosa", year=2012, at=[20, 24]),
    plant("myro", "myrobalan plum", year=2012, at=[26, 24]),
    plant("kiwis", "hardy kiwi", sex="female", count=14, year=2012, at=[40, 0]),
    plant("kiwi-m", "hardy kiwi", sex="male", year=2012, at=[44, 0]),
    plant("kiwi-x", "hardy kiwi", year=2012, at=[48, 0]),
    plant("kiwi-later", "hardy kiwi", sex="male", year=2029, at=[50, 0]),
    plant("walnut", "persian walnut", cultivar="Franquette", year=1990, at=[60, 30]),
    plant("pecan", "pecan", year=1995, at=[75, 30], flower_order="male first"),
)
_CLIMBERS = (
    plant("wisteria", "wisteria", year=2005, host="undated"),
    plant("bittersweet", "oriental bittersweet", year=2010, host="bramley"),
    plant("ivy", "ivy", year=1990, host="ash"),
    plant("grape-1", "grape", year=2015, host="myro"),
)
_HEAPS = (
    heap("hot", stage="working", bay_m=[1.2, 1.2, 1.1], at=[2, 2]),
    heap("dry", stage="filling", at=[4, 2], mix=[{"what": "straw", "kg": 80}]),
    heap("gone", stage="ready", at=[6, 2]),
)
_NOTES = (
    CrownNote(on=dt.date(2026, 8, 4), plant="larch", live_percent=70),
    CrownNote(on=dt.date(2024, 8, 4), plant="poplar", live_percent=80),
    CrownNote(on=dt.date(2026, 8, 4), plant="poplar", live_percent=84),
    DamageNote(on=dt.date(2027, 3, 30), plant="larch", cause="storm", wind=True),
    HeapReading(on=dt.date(2027, 4, 30), heap="hot", temp_c=74),
    HeapReading(on=dt.date(2027, 5, 3), heap="hot", temp_c=76),
    LossNote(on=dt.date(2025, 2, 1), plant="unplaced", cause="voles"),
    BloomNote(on=dt.date(2026, 4, 12), plant="myro", stage="none this year"),
    BloomNote(on=dt.date(2027, 4, 20), plant="bing", stage="first open", bbch=61),
    WeatherNote(on=dt.date(2027, 5, 3), tmin_c=-1.5),
)
_EVERYTHING = (*_TREES, *_ORCHARD, *_CLIMBERS, *_HEAPS)
ODD = {
    "odd": garden_text(*_EVERYTHING, helper("Ana", hours_per_week=2, can=["seated"]), name="Odd End"),
    "american": garden_text(
        *_EVERYTHING, lat=41.6, lon=-93.6, units="us", region="iowa", name="Odd End", soil="clay"
    ),
    "southern": garden_text(*_EVERYTHING, climate=None, lat=-43.5, lon=172.6, region="new zealand"),
    "tropical": garden_text(*_TREES, *_ORCHARD, climate=None, lat=1.3, lon=103.8),
    "empty": garden_text(),
}


def odd_garden(name: str, folder: Path) -> Almanac:
    """A garden of `ODD` as on its day; the empty one has no notes."""
    notes = () if name == "empty" else _NOTES
    return almanac_of(folder, ODD[name], ON, *notes)


# Values that hardly any key takes.
WRONG = (
    '"spring"',
    "99999999",
    "-7",
    "true",
    "[1, 2, 3]",
    '{ odd = "x" }',
    '"3 m or so"',
    "2027-05-05",
    '""',
)
_TABLES = {
    "plant": Plant, "heap": Heap, "helper": Helper, "path": Path_, "seat": Seat, "roof": Roof
}  # fmt: skip


def gardens_of_slips() -> Iterator[str]:
    """Garden files, in each of which one key of the place or of what stands there has every wrong value."""
    place = ["[place]", "lat = 46.9", "lon = 15.9"]
    for key in fields_of(Place):
        for wrong in WRONG:
            yield "\n".join([*(line for line in place if not line.startswith(f"{key} ")), f"{key} = {wrong}"])
    for table, kind in _TABLES.items():
        for key in fields_of(kind):
            lines = list(place)
            for n, wrong in enumerate(WRONG):
                given = {"id": f'"{table}-{n}"', "kind": '"pear"', "name": f'"{table} {n}"', key: wrong}
                lines += [f"[[{table}]]", *(f"{name} = {value}" for name, value in given.items())]
            yield "\n".join(lines)
