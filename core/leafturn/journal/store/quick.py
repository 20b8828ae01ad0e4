"""The quick reading of notes that stand plainly: as the tool writes them, or by hand a field a line."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

import msgspec

from leafturn.base.patterns import pattern
from leafturn.journal.store.sealing import HEADING

# Text in the escapes that TOML and JSON write alike; and a list of such texts.
_TEXT = r'"(?:[^"\\\x00-\x1f\x7f]|\\[btnfr"\\]|\\u(?![dD][89a-fA-F])[0-9a-fA-F]{4})*+"'
_VALUE = (
    r'"([^"\\\x00-\x08\x0a-\x1f\x7f]*+)"|([0-9]{4}-[0-9]{2}-[0-9]{2})'
    r"|(-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,17})?)|(true|false)"
    rf"|({_TEXT}|\[{_TEXT}(?:, {_TEXT})*+\])"
)
_NAME = "[a-z_]{1,40}"  # bounded, as each letter of a long run would be tried as the first of a name
_LINE = pattern(rf"^(({_NAME}) = (?:{_VALUE}))$", re.MULTILINE)
_OURS = pattern(r"\[\[entry\]\] # [^\n\x00-\x08\x0b-\x1f\x7f]*\nnote = \{ ([^\n]*) \}\n*")
_FIELD = pattern(rf"(({_NAME}) = (?:{_VALUE})(?:, |\Z))")


def plain_fields(note: str) -> dict[str, Any] | None:
    """The fields of a note that stands plainly; None for any other text.

    Reading these line by line is several times faster than the whole of TOML, and all but a few notes are
    so. Whatever has a comment, an exponent or another form gives None, and is then read as TOML; what is
    read here reads the same there.

    Parameters
    ----------
    note : str
        From a heading to the next note's heading.
    """
    if ours := _OURS.fullmatch(note):
        found = _fields_inline(ours[1])
    elif note.startswith(f"{HEADING}\n"):
        body = note[len(HEADING) + 1 :].rstrip("\n")
        found = _LINE.findall(body)
        if body and len(found) != body.count("\n") + 1:
            return None
    else:
        return None
    return None if found is None else _values(found)


def _fields_inline(inside: str) -> list[tuple[str, ...]] | None:
    """What stands between the braces, field by field; None if something else stands there too."""
    found = _FIELD.findall(inside)
    read = sum([len(field[0]) for field in found])
    return None if read < len(inside) or inside.endswith(", ") else found


def _values(found: list[tuple[str, ...]]) -> dict[str, Any] | None:
    fields: dict[str, Any] = {}
    for _, name, text, day, number, word, json in found:
        if json:
            fields[name] = msgspec.json.decode(json)
        elif day:
            try:
                fields[name] = dt.date.fromisoformat(day)
            except ValueError:
                return None
        elif number:
            fields[name] = float(number) if "." in number else int(number)
        else:
            fields[name] = word == "true" if word else text
    # A name given twice is an error in TOML: let TOML say so.
    return fields if len(fields) == len(found) else None
