"""Regular expressions that are compiled when they are first asked, not when the module loads."""

from __future__ import annotations

import re
from typing import Any, AnyStr, cast


class _Unread:
    """Stands for a pattern until one of its methods is wanted."""

    def __init__(self, written: str | bytes, flags: int) -> None:
        self._written, self._flags = written, flags

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(self._written, self._flags), name)
        setattr(self, name, found)
        return found


def pattern(written: AnyStr, flags: int = 0) -> re.Pattern[AnyStr]:
    """A regular expression; a start that never asks it does not wait until it is compiled.

    Parameters
    ----------
    written : str or bytes
        As `re.compile` takes it.
    flags : int
        Of `re`.

    Raises
    ------
    re.error
        At its first use, where it cannot be read.
    """
    return cast("re.Pattern[AnyStr]", _Unread(written, flags))
