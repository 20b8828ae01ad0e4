"""Where a user's programs keep what can be made again."""

from __future__ import annotations

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
