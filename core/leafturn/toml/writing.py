"""Values as TOML, on one line."""

from __future__ import annotations

import datetime as dt
from typing import Any

from leafturn.base.patterns import pattern

_BARE = pattern(r'[^"\\\x00-\x1f\x7f-\x9f\ud800-\udfff]*')  # needs no escape within quotes


def value_text(value: Any) -> str:
    """A text, number, truth value, date or list of these as TOML on one line."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(value_text, value))}]"
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, str) and _BARE.fullmatch(value):
        return f'"{value}"'
    import tomli_w

    return tomli_w.dumps({"x": value}).removeprefix("x = ").rstrip("\n")
