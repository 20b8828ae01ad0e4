"""A small garden told in a line for each thing that stands in it, as the text of its file.

    garden_text(
        plant("plum", "european plum", year=1990, state="declining", at=[0, 0]),
        plant("kiwi", "hardy kiwi", sex="female", host="plum"),
    )

is a place with its months, in which a plum bears a kiwi.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from pathlib import Path

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.entries import Entry

# Invented, as in hills inland at 46.9 degrees north.
MONTHS = {
    "tmax_c": [2.5, 5.5, 10.8, 15.9, 20.4, 24.0, 26.0, 25.6, 20.6, 15.0, 8.2, 3.3],
    "tmin_c": [-5.0, -3.9, -0.3, 3.9, 8.4, 12.0, 13.6, 13.2, 9.3, 4.9, 0.8, -3.5],
    "rain_mm": [28, 32, 44, 55, 88, 112, 118, 105, 88, 68, 58, 42],
}


def garden_text(*things: str, climate: Mapping[str, object] | None = MONTHS, **place: object) -> str:
    """The text of a garden file.

    Parameters
    ----------
    *things : str
        TOML text of what stands there, as the functions below write it.
    climate : mapping or None
        Its normals; None for a garden that knows only its latitude.
    **place : object
        More of its place, or another latitude and longitude.
    """
    head = [_table("[place]", {"lat": 46.93, "lon": 15.87, **place})]
    if climate is not None:
        head.append(climate_text(climate))
    return "\n".join([*head, *things])


def climate_text(normals: Mapping[str, object]) -> str:
    return _table("[climate]", normals)


def plant(id: str, kind: str, **more: object) -> str:
    return _table("[[plant]]", {"id": id, "kind": kind, **more})


def helper(name: str, **more: object) -> str:
    return _table("[[helper]]", {"name": name, **more})


def heap(id: str, **more: object) -> str:
    return _table("[[heap]]", {"id": id, **more})


def own_job(id: str, what: str, **more: object) -> str:
    return _table("[[job]]", {"id": id, "what": what, **more})


def own_rule(verb: str, **more: object) -> str:
    return _table("[[rule]]", {"verb": verb, **more})


def numbers(**changed: object) -> str:
    """The garden's own values of tunable numbers."""
    return _table("[rule]", changed)


def almanac_of(folder: Path, text: str, on: dt.date | str, *notes: Entry) -> Almanac:
    """The almanac of a garden file with this text on a day, after notes, each taken on its own day."""
    folder.mkdir(exist_ok=True)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    almanac = open_almanac(folder, dt.date.fromisoformat(on) if isinstance(on, str) else on)
    for note in notes:
        almanac, _ = almanac.note(note, note.on)
    return almanac


def _table(head: str, fields: Mapping[str, object]) -> str:
    return "\n".join([head, *(f"{key} = {_value(value)}" for key, value in fields.items()), ""])


def _value(value: object) -> str:
    """A value on one line, as people write it; tomli_w would spread lists and tables over several."""
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {_value(v)}" for key, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    return value.isoformat() if isinstance(value, dt.date) else json.dumps(value, ensure_ascii=False)
