"""Bytes changed at random in all that is read: no traceback, nothing slow, refusals in sentences."""

from __future__ import annotations

import gc
import json
import random
import resource
import string
import tempfile
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.model import Garden
from leafturn.garden.points.placing import placed, read_points
from leafturn.garden.reading.reader import read_garden
from leafturn.journal.store.store import Store
from leafturn.kinds.library import load_library
from leafturn.papers.sheet_numbers import KeptSheet, NotOnSheet, ticked
from leafturn.weather.readers.reading import read_weather
from leafturn_tui.notes import NotUnderstood, dates, grammar
from tests.faults.trial import TODAY, is_sentence
from tests.samples.garden_text import garden_text, heap, helper, own_job, own_rule, plant
from tests.samples.journal import in_child
from tests.samples.places import DEMO

Refusals = list[str]
Read = Callable[[Path, bytes], Refusals]
Make = Callable[[random.Random], bytes]  # an input

NASTY = tuple(
    piece if isinstance(piece, bytes) else piece.encode()
    for piece in (
        "\0", "\r", b"\xff", b"\xc3", b"\xef\xbb\xbf", b"\xff\xfe", '"', '"' * 3, "'" * 3, "[", "[[",
        "{", "}", "=", "#", ".", "," * 50, "[" * 300, "a." * 300, "{a=" * 60, "9" * 5_000, "1e309",
        "-1e308", "nan", "inf", "-0.0",
        "0x7fffffffffffffff", "99999999999999999999", "0001-01-01", "9999-12-31", "2027-02-30",
        "[[entry]]\n", "[[plant]]\n", "[place]\n", "note = { ", "end = true\n", "\u202e\u0665\u20ac",
        "\U0001f333",
        "\x1b[31m", "<<<<<<< a\n", "=======\n", "%s%n", "../../x", "x" * 30_000, "\n" * 500,
    )
)  # fmt: skip


@dataclass
class Fuzz:
    """What came of many inputs. `slowest` [s of processor time], `grown` [MB]."""

    tried: int = 0
    refused: int = 0
    tracebacks: int = 0
    unsaid: int = 0
    slow: int = 0
    slowest: float = 0.0
    grown: float = 0.0
    first: str = ""

    @property
    def clean(self) -> bool:
        """Whether every input was read or refused as it should be."""
        return not (self.tracebacks or self.unsaid or self.slow) and self.grown < 500


@dataclass(frozen=True)
class Fuzzed:
    """A kind of input. `read` gives what was said of it; anything but that is a fault of the program."""

    name: str
    words: str
    make: Make
    read: Read
    short: int
    long: int
    slow: float = 1.0  # processor time that no input should take [s]


def mutated(*seeds: bytes) -> Make:
    """What gives one of the seeds with one to eight changes."""
    return lambda chance: _mutated(seeds, chance)


def _mutated(seeds: Sequence[bytes], chance: random.Random) -> bytes:
    data = bytearray(chance.choice(seeds))
    for _ in range(chance.choice((1, 1, 2, 3, 5, 8))):
        at = chance.randint(0, len(data))
        to = min(len(data), at + chance.choice((1, 1, 2, 8, 40, 400)))
        match chance.randrange(7):
            case 0 if data:
                data[min(at, len(data) - 1)] ^= 1 << chance.randrange(8)
            case 1:
                del data[at:to]
            case 2:
                data[at:at] = data[at:to] * chance.choice((1, 2, 20))
            case 3:
                data[at:to] = chance.choice(NASTY)
            case 4:
                other = chance.choice(seeds)
                begin = chance.randint(0, len(other))
                data[at:to] = other[begin : begin + chance.choice((5, 60, 600))]
            case 5:
                data[at:to] = bytes(chance.choices(string.printable.encode(), k=chance.choice((1, 4, 30))))
            case _:
                data[at:at] = chance.choice(NASTY)
    return bytes(data[:200_000])


def fuzz(one: Fuzzed, times: int, seed: int) -> Fuzz:
    """Read many inputs in a process of their own, whose memory is bounded."""

    def work(pipe: Connection) -> None:
        with tempfile.TemporaryDirectory() as folder:
            pipe.send(_fuzz(one, times, seed, Path(folder)))

    child, pipe = in_child(work)
    found: Fuzz = pipe.recv()
    child.join()
    return found


def _fuzz(one: Fuzzed, times: int, seed: int, folder: Path) -> Fuzz:
    chance, found = random.Random(seed), Fuzz(tried=times)
    one.read(folder, one.make(random.Random(0)))
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for number in range(times):
        data = one.make(chance)
        if number % 20 == 0:
            gc.collect()  # a command is a process, which leaves that to its end
        start = time.process_time()
        try:
            said = one.read(folder, data)
        except Exception as error:
            found.tracebacks += 1
            found.first = found.first or f"{number}: {type(error).__name__}: {error}"[:300]
            continue
        took = time.process_time() - start
        found.slow += took > one.slow
        found.slowest = max(found.slowest, took)
        found.refused += bool(said)
        wrong = [sentence for sentence in said if not is_sentence(sentence)]
        found.unsaid += bool(wrong)
        found.first = found.first or (f"{number}: {wrong[0]!r}"[:900] if wrong else "")
    found.grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1_000
    return found


# ---- what is read ----------------------------------------------------------------------------------------


def _faults(faults: Sequence[Fault]) -> Refusals:
    return [fault.sentence() for fault in faults]


def _garden(folder: Path, data: bytes) -> Refusals:
    (folder / "garden.toml").write_bytes(data)
    try:
        return _faults(read_garden(folder).faults)
    except Unreadable as why:
        return _faults([why.fault])


def _journal(folder: Path, data: bytes) -> Refusals:
    (folder / "journal").mkdir(exist_ok=True)
    for old in (folder / "journal").iterdir():
        old.unlink()
    (folder / "journal" / "2027.toml").write_bytes(data)
    return _faults(Store(folder).read().faults)


def _kinds(folder: Path, data: bytes) -> Refusals:
    (folder / "kinds.toml").write_bytes(data)
    return _faults(load_library(folder / "kinds.toml")[1])


def _weather(folder: Path, data: bytes) -> Refusals:
    (folder / "weather.csv").write_bytes(data)
    return _faults(read_weather(folder / "weather.csv", "weather.csv", within=folder).faults)


def _ticks(folder: Path, data: bytes) -> Refusals:
    sheets = [KeptSheet(number=f"16-{letter}", on=TODAY, jobs=("a:b:2027", "c:d:2027")) for letter in "AB"]
    try:
        ticked(data.decode(errors="replace"), sheets, TODAY)
    except NotOnSheet as why:
        return [f"{why}."]
    return []


def _points(name: str) -> Read:
    def read(folder: Path, data: bytes) -> Refusals:
        try:
            placed(read_points(data, name), _TYPED_IN, name)
        except Unreadable as why:
            return _faults([why.fault])
        return []

    return read


def _typed(folder: Path, data: bytes) -> Refusals:
    words = data.decode(errors="replace")
    try:
        grammar.understand(words.split(), _TYPED_IN, TODAY, stage_words="first open", typed=words)
        dates.date(words, TODAY)
    except (NotUnderstood, grammar.Misspelt) as why:
        return [f"{why}."]
    return []


GARDEN_SEED = garden_text(
    plant("comice", "pear", cultivar="Comice", year=2012, at=[4, 0], rootstock="quince"),
    plant("ash", "ash", at="5 m north of gate", state="declining", height_m=18),
    plant("kiwi", "hardy kiwi", sex="female", host="ash"),
    helper("Ann", can=["seated"], days=["Sat"]),
    heap("bay-1", stage="hot", mix=[{"what": "straw", "kg": 12}], bay_m=[1.2, 1.2, 1.1]),
    own_job("gate", "paint the gate", when="3 d after bloom end"),
    own_rule("look", open="1 w after bloom end", close="6 w after bloom end"),
    "[[path]]\nline = [[0, 0], [5, 8]]\n",
)
GARDEN_SEEDS = (GARDEN_SEED.encode(), (DEMO / "garden.toml").read_bytes()[:4_000])
JOURNAL_SEEDS = (
    (Path(__file__).parents[1] / "samples" / "journals" / "format-1.toml").read_bytes(),
    (Path(__file__).parents[1] / "samples" / "journals" / "format-2.toml").read_bytes(),
    (DEMO / "journal" / "2023.toml").read_bytes(),
)
KINDS_SEEDS = (
    b'[medlar]\nhabit = "tree"\nfull_height_m = 5\n\n[medlar.pollination]\nsystem = "self fertile"\n',
    b"""["bog pear"]
botanical = "Pyrus palustris"
family = "Rosaceae"
habit = "tree"
layer = "low canopy"
common = ["bog pear"]
cautions = [["hurts", "own words", "guess"]]

["bog pear".cultivars."Early"]
also_called = ["Mud"]
""",
)
_DAYS = range(1, 29)


def _table(head: str, rows: Iterable[str]) -> bytes:
    return "".join(f"{line}\n" for line in (head, *rows)).encode()


WEATHER_SEEDS = (
    _table("date,tmin_c,tmax_c,rain_mm", (f"2024-02-{d:02},{d % 7 - 3},{d % 9 + 4},0.4" for d in _DAYS)),
    _table("Date;Tmin;Tmax", (f"{d}.2.2024;{d % 7 - 3},5;{d % 9 + 4},1" for d in _DAYS)),
)  # fmt: skip
STATION_SEEDS = (
    "".join(
        f"USW000242332024{m:02}{e}" + "".join(f"{(d * 7) % 90:5d}  X" + " " for d in range(31)) + "\n"
        for m in range(1, 4)
        for e in ("TMAX", "TMIN", "PRCP")
    ).encode(),
    "".join(
        f"USW00024233,202402{d:02},{e},{d * 5},,,X,2400\n" for d in _DAYS for e in ("TMAX", "TMIN")
    ).encode(),
)
GEOJSON_SEEDS = (
    json.dumps(
        {"type": "FeatureCollection", "features": [
            {"type": "Feature", "id": f"pear-{n}", "properties": {"kind": "pear", "name": "Comice"},
             "geometry": {"type": "Point", "coordinates": [15.87 + n / 10_000, 46.93]}}
            for n in range(4)
        ]}
    ).encode(),
)  # fmt: skip
GPX_SEEDS = (
    b"""<?xml version="1.0"?>
<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="46.9301" lon="15.8702"><name>pear</name><type>pear</type></wpt>
<wpt lat="46.9303" lon="15.8705"><name>plum</name></wpt>
</gpx>
""",
)
TICK_SEEDS = (b"1 2", b"16-A 1, 2", b"16-B 2 and 1", b"3 5 8", b"53-AA 1")
TYPED_SEEDS = (
    b"harvest comice 4.5 kg", b"bloom comice", b"reading bay-1 58C", b"crown ash 33% dead limbs",
    b"rain 0.5in",
    b"watering comice 40 l", b"frost -2.8", b"judged ash keep", b"2027-04-26", b"26 Apr", b"+7", b"2 weeks",
    b"set comice good", b"loss comice voles, no guard", b"weather max 31",
)  # fmt: skip


def _read_seed() -> Garden:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "garden.toml").write_text(GARDEN_SEED)
        return read_garden(Path(folder)).garden


_TYPED_IN = _read_seed()

FUZZED = (
    Fuzzed("garden", "garden file", mutated(*GARDEN_SEEDS), _garden, 60, 20_000),
    Fuzzed("journal", "journal file", mutated(*JOURNAL_SEEDS), _journal, 60, 25_000),
    Fuzzed("kinds", "file of own kinds", mutated(*KINDS_SEEDS), _kinds, 40, 10_000),
    Fuzzed("weather", "weather file", mutated(*WEATHER_SEEDS), _weather, 60, 15_000),
    Fuzzed("station", "station file", mutated(*STATION_SEEDS), _weather, 60, 10_000),
    Fuzzed("geojson", "points as GeoJSON", mutated(*GEOJSON_SEEDS), _points("points.geojson"), 100, 5_000),
    Fuzzed("gpx", "points as GPX", mutated(*GPX_SEEDS), _points("points.gpx"), 100, 5_000),
    Fuzzed("ticks", "ticked lines of a sheet", mutated(*TICK_SEEDS), _ticks, 200, 10_000),
    Fuzzed("typed", "typed notes and dates", mutated(*TYPED_SEEDS), _typed, 200, 10_000),
)  # fmt: skip
