"""Files in which something is wrong, and what is said of each: journals, points, lists of gardens.

for said in journal_faults(folder):
    ...
"""

from __future__ import annotations

import errno
import json
from collections.abc import Iterator
from pathlib import Path

from msgspec.structs import fields

from leafturn.base.faults import Fault, Unreadable
from leafturn.fleet.gardens import find_gardens
from leafturn.garden.points.placing import placed, read_points
from leafturn.garden.reading.reader import read_garden
from leafturn.journal.entries import KINDS
from leafturn.journal.store.disk import LockNotHad
from leafturn.journal.store.errors import not_read, not_set_aside, not_written
from leafturn.journal.store.merging import merge_files
from leafturn.journal.store.proof import prove
from leafturn.journal.store.store import NotWritten, Store
from tests.samples.odd_gardens import WRONG

OURS = '[[entry]] # 2027-04-19.{n}.abcd\nnote = {{ id = "2027-04-19.{n}.abcd", {said} }}\n'
ON = "on = 2027-04-19"
DAMAGED = (
    f'[[entry]]\n{ON}\nwhat = "harvest"\nplant = \'quince\nkg = 4\n',
    f'[entry]\n{ON}\nwhat = "note"\n',
    f'{ON}\nwhat = "note"\n',
    f'entry = [{{ {ON}, what = "note" }}, 4]\n',
    f'[[entry]]\n{ON}\nwhat = "harvset"\nplnat = "quince"\n',
    f'[[entry]]\n{ON}\nwhat = "bloom"\nplant = "quince"\n',
    f'[[entry]]\n{ON}\nwhat = "done"\n',
    f'[[entry]]\n{ON}\nwhat = "frost"\n',
    f'[[entry]]\n{ON}\nwhat = "harvest"\nkg = 4\nlb = 9\n',
    f'[[entry]]\n{ON}\nwhat = "withdraw"\nentry = "2027-04-18.1.x"\nwas = "quince: picked 4 kg"\n',
    '[[entry]]\non = 1203-04-19\nwhat = "note"\n',
    f'[[entry]]\nbegin = true\n{ON}\nwhat = "note"\n\n[[entry]]\n{ON}\nwhat = "note"\n',
    "# leafturn journal, format 9: of a time to come\n",
    f'<<<<<<< mine\n[[entry]]\n{ON}\nwhat = "note"\n=======\n>>>>>>> theirs\n',
    OURS.format(n=1, said=f'{ON}, what = "note", text = "a", sum = "00000000"')
    + OURS.format(n=1, said=f'{ON}, what = "note", text = "b"')
    + OURS.format(n=7, said=f'{ON}, what = "note", text = "c", sum = "00000000"'),
    OURS.format(n=1, said=f'{ON}, what = "note", text = "cut sh')[:-4],
    f'[[entry]]\n{ON}\nwhat = "note"\ntext = "{"x" * 30_000}"\n',
    f'[[entry]]\n{ON}\nwhat = "harvest"\nkg = {"9" * 5_000}\n',
    '[[entry]]\nwhat = "n\xf6te"\n',
    "\xff\xfe[\0",
    f"[[entry]]\n{ON}\nwhat = {'[' * 40}\n",
)


def journals_of_slips() -> Iterator[str]:
    """Journals, in each of which one word of one kind of note has every wrong value."""
    for what, kind in KINDS.items():
        for field in fields(kind):
            if field.name not in ("file", "line", "besides"):
                day = "" if field.name == "on" else ON
                yield "\n".join(
                    f'[[entry]]\n{day}\nwhat = "{what}"\n{field.name} = {wrong}\n' for wrong in WRONG
                )


def journal_faults(folder: Path) -> Iterator[str]:
    """What is said of each when the garden is opened; of damaged ones when they are proved or merged too."""
    year, other = folder / "journal" / "2027.toml", folder / "other.toml"
    year.parent.mkdir()
    other.write_text(OURS.format(n=1, said=f'{ON}, what = "note"'))
    for text in (*journals_of_slips(), *DAMAGED):
        year.write_text(text, encoding="utf-8" if text.isascii() else "latin-1")
        if text in DAMAGED:
            found = prove(folder)
            yield from (*_sentences(found.faults), *found.remarks)
        read = Store(folder).read()
        yield from (*_sentences(read.faults), *read.notes)
        if text in DAMAGED:
            yield from _merging(year, other)
        for aside in year.parent.glob("*.torn*"):
            aside.unlink()
    (year.parent / "2027 (copy).toml").write_text(OURS.format(n=2, said=f'{ON}, what = "not"'))
    (year.parent / "spring.toml").write_text("")
    read = Store(folder).read()
    yield from (*_sentences(read.faults), *read.notes)


def _merging(into: Path, other: Path) -> Iterator[str]:
    try:
        merge_files(into, other)
    except NotWritten as why:
        yield why.fault.sentence()


def disk_refusals() -> Iterator[str]:
    """What is said where the disk does not take a note, or give a file."""
    numbers = [number for name, number in vars(errno).items() if name.startswith("E")]
    errors: list[OSError | LockNotHad] = [OSError(number, "reason of the system") for number in numbers]
    for error in (*errors, LockNotHad()):
        yield not_written("journal", error).fault.sentence()
        yield not_set_aside("journal/2027.toml", 12, error)
        if isinstance(error, OSError):
            yield not_read("journal/2027.toml", error).sentence()


def point_faults(garden: Path) -> Iterator[str]:
    """What is said of files with points in which something is wrong."""
    point = {"type": "Point", "coordinates": [15.87, 46.93]}
    feature = {"type": "Feature", "id": "pear", "properties": {"kind": "pear"}, "geometry": point}
    odd: list[object] = [None, 4, "x", [], {}, [feature, 4], {"type": "FeatureCollection", "features": [4]}]
    for place in ([46.93, 15.87], [95, 95], [433_000.5, 5_197_000.2], [0, 0], [16.9, 46.93]):
        odd.append({**feature, "geometry": {**point, "coordinates": place}})
    files = [("points.geojson", json.dumps(one)) for one in odd]
    files += [("points.geojson", text) for text in ("", "{", "[" * 100_000, '{"type": "Feature"}\n}')]
    files += [
        ("points.gpx", text) for text in ("", "<gpx>", "<kml/>", '<gpx><wpt lat="north" lon="4"/></gpx>')
    ]
    files += [
        ("points.csv", text)
        for text in ("", "a,b\n1,2\n", "name,lat,lon\npear,46,93\n", "name,lat,lon\npear,x,15.9\n")
    ]
    files += [("points.kml", ""), ("points", "")]
    home = read_garden(garden).garden
    for name, text in files:
        try:
            placed(read_points(text.encode(), name), home, name)
        except Unreadable as why:
            yield why.fault.sentence()


def fleet_refusals(folder: Path) -> Iterator[str]:
    """What is said where gardens are asked together and cannot be."""
    (folder / "bare").mkdir()
    (folder / "list").write_bytes(b"\xff\xfe\0")
    (folder / "empty.txt").write_text("# none yet\n")
    for where in ("bare", "list", "empty.txt", "nowhere"):
        try:
            find_gardens(folder / where)
        except Unreadable as why:
            yield why.fault.sentence()


def _sentences(faults: tuple[Fault, ...]) -> Iterator[str]:
    return (fault.sentence() for fault in faults)
