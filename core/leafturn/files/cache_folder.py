"""Where programs keep what can be made again."""

from __future__ import annotations

import importlib.util
import os
import sys
from pathlib import Path


def cache_folder() -> Path | None:
    """The folder in which a user's programs keep what can be made again; None if there is none.

    By the XDG Base Directory Specification 0.8, which has relative paths ignored; on a Mac by Apple's File
    System Programming Guide.
    """
    cache_home = os.environ.get("XDG_CACHE_HOME", "")
    home = Path(os.path.expanduser("~"))
    usual = home / "Library" / "Caches" if sys.platform == "darwin" else home / ".cache"
    folder = Path(cache_home) if os.path.isabs(cache_home) else usual
    return folder if folder.is_absolute() else None


def beside_bytecode(source: Path) -> Path | None:
    """Where what is made of files of the program lies as its bytecode does; None where none may be written.

    Parameters
    ----------
    source : Path
        The file or folder it is made from.

    Returns
    -------
    Path or None
        By PEP 3147 and PYTHONPYCACHEPREFIX; None where Python is told to write no bytecode.
    """
    if sys.dont_write_bytecode or sys.implementation.cache_tag is None:
        return None
    return Path(importlib.util.cache_from_source(str(source.with_suffix(".py")))).with_suffix(".kept")


def as_installed(source: Path) -> Path:
    """Where what an install made of a file or folder of the program lies; it is only read there."""
    return source.with_suffix(".kept")
