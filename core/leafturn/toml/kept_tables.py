"""The tables of TOML files, parsed once for each state of the files.

Parsing the library takes some tenths of a second, so what came of it is kept in MessagePack, sealed by the
TOML files as they are now (`files/sealed.py`): where an install made it (`toml/ready_tables.py`), beside the
program's bytecode, or else in the cache folder.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path

import msgspec

from leafturn.files.cache_folder import as_installed, beside_bytecode, cache_folder
from leafturn.files.sealed import keep_sealed, unsealed
from leafturn.toml.guard import parse_toml

_LAYOUT = b"file name to tables"  # in the seal, so that a kept file laid out otherwise does not fit


def places(source: Path, name: str) -> list[Path]:
    """Where the tables of packaged files may be kept, the best place first.

    Parameters
    ----------
    source : Path
        The packaged file, or the folder of all.
    name : str
        What it is called in the user's cache folder; may begin with folders.
    """
    folder = cache_folder()
    found = beside_bytecode(source), None if folder is None else folder / "leafturn" / name
    return [place for place in found if place is not None]


def files_below(folder: Path) -> dict[str, bytes]:
    """What every TOML file below a folder holds, by its name there, in order of names."""
    root = str(folder)
    found = {}
    for inner, _, names in os.walk(root):
        below = inner[len(root) + 1 :].replace(os.sep, "/")
        for name in names:
            if name.endswith(".toml"):
                with open(os.path.join(inner, name), "rb") as file:
                    found[f"{below}/{name}" if below else name] = file.read()
    return dict(sorted(found.items()))


def read_tables(
    files: Mapping[str, bytes], kept: Sequence[Path], source: Path | None = None
) -> dict[str, msgspec.Raw]:
    """What TOML files hold.

    Parameters
    ----------
    files : mapping of str to bytes
        Name of each file and its bytes as they are now.
    kept : sequence of Path
        Where the tables may be kept; they are in the first that can be written.
    source : Path, optional
        The packaged file or folder of which an install may have made them already.

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
    installed = [] if source is None else [as_installed(source)]
    found = (unsealed(place, made_of) for place in (*installed, *kept))
    packed = next((each for each in found if each is not None), None)
    if packed is None:
        packed = msgspec.msgpack.encode({name: _parsed(name, data) for name, data in files.items()})
        for place in kept:
            if keep_sealed(place, made_of, packed, one_of_many=False):
                break
    return msgspec.msgpack.decode(packed, type=dict[str, msgspec.Raw])


def _parsed(name: str, data: bytes) -> dict[str, object]:
    try:
        return tomllib.loads(data.decode("utf-8"))
    except ValueError:  # no TOML, or no UTF-8
        return parse_toml(data, name)  # slower, and says in plain words what is wrong and where
