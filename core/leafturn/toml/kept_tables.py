"""The tables of TOML files, parsed once for each state of the files.

Parsing the library takes a fifth of a second, so what came of it is kept in the user's cache folder, in one
file: a seal of 32 bytes, then the tables in MessagePack. The seal is a hash over the TOML files, as they are
now, and the kept tables. Where it does not fit, the TOML is parsed and the tables are kept anew. So a file
that was changed, a kept file of another version, one cut short, and one that two processes wrote at once all
end alike, without a version number, a time stamp or a lock. A kept file that is lost, or cannot be written,
costs the time of parsing and nothing else.
"""

from __future__ import annotations

import contextlib
import hashlib
import tomllib
from collections.abc import Mapping
from pathlib import Path

import msgspec

from leafturn.files.reading import file_bytes
from leafturn.toml.guard import parse_toml

_LAYOUT = b"file name to tables"  # in the seal, so that a kept file laid out otherwise does not fit
_SEAL_BYTES = 32
_MOST_BYTES = 64_000_000  # some twenty times what is kept


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
    packed = _unsealed(files, kept)
    if packed is None:
        packed = msgspec.msgpack.encode({name: _parsed(name, data) for name, data in files.items()})
        if kept is not None:
            with contextlib.suppress(OSError):
                kept.parent.mkdir(parents=True, exist_ok=True)
                kept.write_bytes(_seal(files, packed) + packed)
    return msgspec.msgpack.decode(packed, type=dict[str, msgspec.Raw])


def _unsealed(files: Mapping[str, bytes], kept: Path | None) -> bytes | None:
    """The kept tables, if they are whole and of just these files."""
    if kept is None:
        return None
    try:
        data = file_bytes(kept, _MOST_BYTES)
    except OSError:
        return None
    packed = data[_SEAL_BYTES:]
    return packed if data[:_SEAL_BYTES] == _seal(files, packed) else None


def _seal(files: Mapping[str, bytes], packed: bytes) -> bytes:
    seal = hashlib.blake2b(digest_size=_SEAL_BYTES)
    for part in (_LAYOUT, *(part for name, data in files.items() for part in (name.encode(), data)), packed):
        seal.update(len(part).to_bytes(8, "big"))
        seal.update(part)
    return seal.digest()


def _parsed(name: str, data: bytes) -> dict[str, object]:
    try:
        return tomllib.loads(data.decode("utf-8"))
    except ValueError:  # no TOML, or no UTF-8
        return parse_toml(data, name)  # slower, and says in plain words what is wrong and where
