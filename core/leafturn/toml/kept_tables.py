"""The tables of TOML files, parsed once for each state of the files.

Parsing the library takes a fifth of a second, so what came of it is kept in the user's cache folder, in
MessagePack, sealed by the TOML files as they are now (`files/sealed.py`).
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path

import msgspec

from leafturn.files.sealed import keep_sealed, unsealed
from leafturn.toml.guard import parse_toml

_LAYOUT = b"file name to tables"  # in the seal, so that a kept file laid out otherwise does not fit


def read_tables(files: Mapping[str, bytes], kept: Path | None) -> dict[str, msgspec.Raw]:
    """What TOML files hold.

    Parameters
    ----------
    files : mapping of str to bytes
        Name of each file and its bytes as they are now.
    kept : Path or None
        Where the tables are kept; None keeps nothing.

    Returns
    -------
    dict of str to msgspec.Raw
        The tables of each file in MessagePack.

    Raises
    ------
    Unreadable
        If a file is no TOML, with its name and line.
    """
    made_of = [_LAYOUT, *(part for name, data in files.items() for part in (name.encode(), data))]
    packed = unsealed(kept, made_of)
    if packed is None:
        packed = msgspec.msgpack.encode({name: _parsed(name, data) for name, data in files.items()})
        keep_sealed(kept, made_of, packed)
    return msgspec.msgpack.decode(packed, type=dict[str, msgspec.Raw])


def _parsed(name: str, data: bytes) -> dict[str, object]:
    try:
        return tomllib.loads(data.decode("utf-8"))
    except ValueError:  # no TOML, or no UTF-8
        return parse_toml(data, name)  # slower, and says in plain words what is wrong and where
