"""Pictures and lines in plain ASCII, for terminals and fonts that have no more: one cell for one cell.

A height becomes its number of eighths, a line its nearest sign, braille dots a sign for the half of the cell
they lie in; letters lose their accents.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from functools import lru_cache

from rich.cells import cell_len

SETTING = "LEAFTURN_GLYPHS"
SETS = ("plain", "full")
_UPPER, _LOWER = 0b00011011, 0b11100100  # the dots of a braille cell's two upper rows, and of its two lower
_ASCII = {
    **{block: str(n) for n, block in enumerate("▁▂▃▄▅▆▇█", 1)},
    **dict(zip("─━┄│┃┊├┤└┘┴", "-=-||:||`''", strict=True)),
    **dict(zip("●•·×▌▸▾▲░…−", "o..x>>v^-.-", strict=True)),
}  # fmt: skip


def wants_plain(environ: Mapping[str, str], encoding: str | None) -> bool:
    """Whether to draw in ASCII: as `LEAFTURN_GLYPHS` says, else where more would not be shown.

    Parameters
    ----------
    environ : mapping of str to str
    encoding : str or None
        That of the standard output.
    """
    asked = environ.get(SETTING, "").strip().lower()
    if asked in SETS:
        return asked == "plain"
    locale = next((environ[name] for name in ("LC_ALL", "LC_CTYPE", "LANG") if environ.get(name)), "utf-8")
    return environ.get("TERM") == "linux" or not all(_is_utf(name) for name in (locale, encoding or "utf-8"))


def _is_utf(name: str) -> bool:
    return "utf" in name.lower()


def plain(text: str) -> str:
    """A text in ASCII, as many cells wide."""
    return text if text.isascii() else "".join(map(_plain_sign, text))


@lru_cache(maxsize=4096)
def _plain_sign(sign: str) -> str:
    if sign.isascii():
        return sign
    if sign in _ASCII:
        return _ASCII[sign]
    if 0x2800 <= ord(sign) <= 0x28FF:
        bits = ord(sign) - 0x2800
        return " '.:"[bool(bits & _UPPER) + 2 * bool(bits & _LOWER)]
    letters = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode()
    wide = cell_len(sign)
    return letters if letters and len(letters) == wide else "?" * wide
