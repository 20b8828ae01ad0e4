"""Files whose values nobody meant, asked about by the commands as a user would: no traceback, nothing raw.

Unlike bytes changed at random, what is changed here stays a file that is read: values come to stand under
other keys, numbers and days lie at their bounds, ids stand twice, names hold what harms terminals.
"""

from __future__ import annotations

import contextlib
import copy
import csv
import datetime as dt
import io
import json
import random
import shlex
import tomllib
import zlib
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import tomli_w

from tests.faults.fuzz import GARDEN_SEED, KINDS_SEEDS, Fuzzed, Refusals
from tests.faults.trial import TODAY
from tests.in_process import run
from tests.samples.places import DEMO
from tests.tui.hostile import HOSTILE, raw_controls

Table = dict[str, Any]

NUMBERS = (
    0, 1, -1, 2, 12, 13, 29, 90, 91, 180, 181, 366, 1_849, 1_850, 2_027, 2_028, 9_999, 10_000, 10**6,
    2**31, 2**53, 2**63 - 1, -(2**63), -0.0, 0.5, 89.999999, -90.0, 1e-308, 5e-324, 1e16, 1e308, -1e308,
    float("nan"), float("inf"), float("-inf"),
)  # fmt: skip
DAYS = (
    dt.date(1, 1, 1), dt.date(1849, 12, 31), dt.date(1850, 1, 1), dt.date(2024, 2, 29), dt.date(2027, 4, 19),
    dt.date(2028, 12, 31), dt.date(2100, 2, 28), dt.date(9999, 12, 31), dt.datetime(2027, 4, 19, 23, 59),
    dt.time(8),
)  # fmt: skip
WORDS = (
    "", " ", "comice", "ash", "pear", "Comice", "gate", "gone", "declining", "us", "metric", "never", "nan",
    "02-29", "13-01", "00-00", "12-31", "2027-02-29", "9999-12-31", "0001-01-01", "1 year in 0", "-0", "5n",
    "1 year in 99999999999", "by comice", "5 paces north of comice", "0,0", "99999999999 m north of gate",
    "1e308 m east of gate", "3 d after bloom end", "99999999 w after bloom end", "::",
    "kinds.toml", "../../etc/passwd", "/dev/zero", "garden.toml", "journal", "=1+1", "1e999", "S1 S2", "\0",
    "a:b:2027", "comice:prune:2027", "9999999999 d before bloom", "\u0646" * 40, "e" * 10_000, "\ufffe",
    "a\u0300" * 200, *HOSTILE,
)  # fmt: skip
SHAPES: tuple[Any, ...] = (
    True, False, [], {}, [[]], [{}], [0, 0], [1e308, -1e308], [0, 0, 0], [[0, 0], [5, 8]], ["comice", 4],
    {"usual": "02-29"}, {"usual": 4, "x": []}, {"north": 5}, [["a"]] * 50, ["sat", "Sun", 7],
)  # fmt: skip


def _value(chance: random.Random) -> Any:
    return copy.deepcopy(chance.choice(chance.choice((NUMBERS, DAYS, WORDS, WORDS, SHAPES))))


def _places(table: Any, *, deep: int = 4) -> Iterator[tuple[Any, Any]]:
    """Every place in tables and lists: what holds it, and its key or number there."""
    keys = list(table) if isinstance(table, dict) else range(len(table)) if isinstance(table, list) else ()
    for key in keys:
        yield table, key
        if deep:
            yield from _places(table[key], deep=deep - 1)


def changed(tables: Table, chance: random.Random) -> Table:
    """Tables with one to six values that nobody meant."""
    made = copy.deepcopy(tables)
    for _ in range(chance.choice((1, 1, 2, 3, 6))):
        places = list(_places(made))
        if not places:
            break
        (holder, key), (other, its_key) = chance.choice(places), chance.choice(places)
        match chance.randrange(7):
            case 0 | 1 | 2:
                holder[key] = _value(chance)
            case 3:
                with contextlib.suppress(KeyError, IndexError):
                    one, two = copy.deepcopy(holder[key]), copy.deepcopy(other[its_key])
                    holder[key], other[its_key] = two, one
            case 4 if isinstance(holder, dict):
                holder[str(its_key) or "x"] = holder.pop(key)
            case 5 if isinstance(holder, list):
                holder.append(copy.deepcopy(holder[key]))  # the same id twice
            case _:
                del holder[key]
    return made


def _toml(tables: Table) -> Callable[[random.Random], bytes]:
    return lambda chance: tomli_w.dumps(changed(tables, chance)).encode("utf-8", "replace")


def weather_changed(chance: random.Random) -> bytes:
    rows = [["date", "tmin_c", "tmax_c", "rain_mm"]]
    first = chance.choice(
        (dt.date(2024, 2, 20), dt.date(1850, 1, 1), dt.date(2028, 12, 1), dt.date(2027, 3, 20))
    )
    rows += [[str(first + dt.timedelta(days=n)), str(n % 7 - 3), str(n % 9 + 4), "0.4"] for n in range(60)]
    for _ in range(chance.choice((1, 2, 8))):
        row = chance.choice(rows)
        row[chance.randrange(len(row))] = str(_value(chance))
    out = io.StringIO()
    csv.writer(out, delimiter=chance.choice(",;\t")).writerows(rows)
    return out.getvalue().encode("utf-8", "replace")


def _points(chance: random.Random) -> bytes:
    point = {"type": "Feature", "id": "pear-1", "properties": {"kind": "pear", "name": "Comice"},
             "geometry": {"type": "Point", "coordinates": [15.8701, 46.93]}}  # fmt: skip
    tables = {"type": "FeatureCollection", "features": [point, copy.deepcopy(point)]}
    return json.dumps(changed(tables, chance), default=str).encode()


def _typed(chance: random.Random) -> bytes:
    """The words of a command, a line each."""
    words = list(chance.choice(TYPED))
    for _ in range(chance.choice((1, 1, 2))):
        at = chance.randrange(1, len(words))
        words[at] = str(_value(chance)) if chance.random() < 0.8 else f"{words[at]}{_value(chance)}"
    return "\n".join(word.replace("\n", " ").replace("\0", " ") for word in words).encode("utf-8", "replace")


# ---- what is asked ---------------------------------------------------------------------------------------

BETWEEN_PAGES = "\f"  # of papers that are printed as text
LINES_TO_PUT_IN = "    "  # where a file is changed by hand, told below the sentence
ON = f"--on {TODAY}"
ASKED = [line.split() for line in f"""\
check GARDEN {ON}
check GARDEN --report
round GARDEN {ON}
round GARDEN --json {ON}
round GARDEN --on 2028-02-29
round GARDEN --on 2200-12-31
season GARDEN {ON}
season GARDEN --json {ON}
season GARDEN --on 1900-01-01
partners GARDEN {ON}
partners GARDEN --json {ON}
larder GARDEN {ON}
larder GARDEN --json {ON}
canopy GARDEN {ON}
canopy GARDEN --json {ON}
heaps GARDEN {ON}
climbers GARDEN {ON}
drift GARDEN {ON}
book GARDEN {ON}
book GARDEN --json {ON}
book GARDEN --verify
plants GARDEN {ON}
rules GARDEN {ON}
rules GARDEN look {ON}
heed GARDEN {ON}
weather GARDEN {ON}
weather read GARDEN
kinds GARDEN {ON}
sheet GARDEN {ON}
handover GARDEN {ON}
tonight GARDEN -3 {ON}
card GARDEN month {ON}
card GARDEN bloom {ON}
card GARDEN looks {ON}
card GARDEN comice {ON}
export GARDEN plants {ON}
export GARDEN everything {ON}
feed GARDEN {ON}
away GARDEN --from 2027-04-24 --to 2027-05-08 {ON}
picture GARDEN {ON}
note GARDEN bloom comice {ON}
note GARDEN anything {ON}
change GARDEN comice year 2011 --show {ON}
add GARDEN medlar --show {ON}
move GARDEN comice 5n --show {ON}
gone GARDEN ash --show {ON}
""".splitlines()]  # fmt: skip
POINTS = [f"points GARDEN GARDEN/p.geojson {ON}".split()]
TYPED = [shlex.split(line) for line in """\
note harvest comice "4.5 kg"
note bloom comice --stage "full bloom"
note reading bay-1 58C
note crown ash 33% "dead limbs"
note rain 0.5in
note weather min 1.5 max 31
note judged ash keep
note watering comice "40 l"
note moved comice --on yesterday
note a word --by Ann
note loss comice voles --on "1 Apr"
done "look comice" --minutes 35
put-off 1 --until 2027-05-01
let-go 16-A 1
change comice year 2012
change comice "age when planted" 2
change ash "crown, m" 4
add "pear comice" --year 2012 --at 5n
add medlar
move comice "5 paces north of ash"
gone kiwi hail --on "1 Apr"
card comice
tonight -3
tonight 27F --note
round --helper Ann
round --on 2027-04-19
season --json
kinds pear
rules look
sheet --done "16-A 1 2"
points points.geojson
away --from 2027-04-24 --to 2027-05-08
weather read weather.csv
export plants
book --table harvest
canopy --year 30
new new --lat 46 --lon 15 --last-frost 04-24 --region austria
""".splitlines()]  # fmt: skip


def _asked(*words: str, cwd: Path) -> Refusals:
    """What a command says of what is wrong; what is raw, or ends otherwise, is no sentence."""
    done = run(*words, cwd=cwd)
    refusing = done.stderr or (done.stdout if done.returncode == 2 else "")
    told = [line for line in refusing.splitlines() if line and not line.startswith(LINES_TO_PUT_IN)]
    if raw := raw_controls(done.stdout + done.stderr) - {BETWEEN_PAGES}:
        told.append(f"raw {sorted(raw)!r} in {words[0]}")
    if done.returncode not in (0, 1, 2) or (done.returncode == 2 and not told):
        told.append(f"status {done.returncode} of {words[0]}")
    return told


def _about(file: str, asked: Sequence[Sequence[str]]) -> Callable[[Path, bytes], Refusals]:
    """Write the file into a garden, and ask one of the commands about it."""

    def read(folder: Path, data: bytes) -> Refusals:
        garden = garden_with(folder, file, data)
        words = asked[zlib.crc32(data) % len(asked)]
        return _asked(*(word.replace("GARDEN", str(garden)) for word in words), cwd=folder)

    return read


def _fresh(folder: Path) -> Path:
    garden = folder / "garden"
    (garden / "journal").mkdir(parents=True, exist_ok=True)
    for old in (*garden.glob("*.toml"), *garden.glob("journal/*")):
        old.unlink()
    (garden / "garden.toml").write_text(GARDEN_SEED.replace("[place]", '[place]\nweather = "weather.csv"'))
    return garden


def garden_with(folder: Path, file: str, data: bytes) -> Path:
    """A garden in which one file holds this."""
    garden = _fresh(folder)
    (garden / file).write_bytes(data)
    return garden


def _words(folder: Path, data: bytes) -> Refusals:
    words = data.decode().split("\n")
    return _asked(*words, cwd=_fresh(folder))


GARDEN = tomllib.loads(GARDEN_SEED)
_DEMO = tomllib.loads((DEMO / "garden.toml").read_text())
DEMO_TABLES = {
    name: table[:9] if isinstance(table, list) else {k: v for k, v in table.items() if k != "weather"}
    for name, table in _DEMO.items()
}
journal_changed = _toml({"entry": tomllib.loads((DEMO / "journal" / "2023.toml").read_text())["entry"][:30]})
KINDS = tomllib.loads(KINDS_SEEDS[1].decode())


def garden_changed(chance: random.Random) -> bytes:
    return _toml(chance.choice((GARDEN, DEMO_TABLES)))(chance)


_SLOW = 5.0  # a season is reckoned, and several processes may share a processor
BY_COMMANDS = tuple(
    Fuzzed(name, words, make, read, short, long, slow=_SLOW)
    for name, words, make, read, short, long in (
        (
            "asked garden",
            "garden, asked by all commands",
            garden_changed,
            _about("garden.toml", ASKED),
            12,
            1_500,
        ),
        (
            "asked journal",
            "journal, by commands",
            journal_changed,
            _about("journal/2027.toml", ASKED),
            6,
            500,
        ),
        ("asked kinds", "own kinds, by commands", _toml(KINDS), _about("kinds.toml", ASKED), 5, 400),
        ("asked weather", "weather, by commands", weather_changed, _about("weather.csv", ASKED), 5, 400),
        ("asked points", "points to be placed", _points, _about("p.geojson", POINTS), 30, 2_000),
        ("asked words", "words of every command", _typed, _words, 40, 2_000),
    )
)
