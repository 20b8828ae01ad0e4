"""Strings that have harmed terminals, markup readers and line lengths elsewhere."""

from __future__ import annotations

import re
from pathlib import Path

HOSTILE = (
    "[/]",
    "[x]",
    "[bold]",
    "[link=https://example.org]here[/link]",
    "[@click=app.quit]leave[/]",
    "\x1b[31mred\x1b[0m",
    "\x1b]0;owned\x07",
    "\x1b[2J\x1b[H",
    "\x9b31mC1",
    "\x90dcs\x9c",
    "\u202egnol ot thgir",
    "\u2066isolated\u2069",
    "zero\u200bwidth\u200djoined\ufeff",
    "soft\u00adhyphen",
    "carriage\rreturn",
    "line\nfeed and\ttab",
    "line\u2028separator\u2029s",
    "bell\x07 back\x08space del\x7f",
    "tag\U000e0041s",
    "variation\ufe0f selector",
    "梨の木梨の木梨の木",
    "zalgo" + "\u0336\u0488\u030d\u0311" * 30,
    "\u0301leading mark",
    "ok %s {0} {name} $HOME `id`",
    "👩\u200d🌾 gardener",
    "long " * 2000,
    "x" * 10_000,
    "﷽" * 40,
)

# What must never reach a terminal from a file's text. The terminal's own sequences begin with ESC and
# are stripped before looking (ECMA-48 section 5.4: CSI parameters, intermediates, final byte).
_OWN = re.compile(
    rb"\x1b\[[0-?]*[ -/]*[@-~]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b[PX^_][^\x1b]*\x1b\\|\x1b[ -/]*[0-~]"
)
FORBIDDEN = (
    "\u202e",
    "\u202d",
    "\u2066",
    "\u2067",
    "\u2068",
    "\u2069",
    "\u200b",
    "\u200d",
    "\u200e",
    "\u200f",
    "\ufeff",
    "\u00ad",
    "\u2028",
    "\u2029",
    "\ufe0f",
    "\U000e0041",
)


def raw_controls(text: str) -> set[str]:
    """Characters of a text that a terminal would act on or hide."""
    return {c for c in text if (ord(c) < 32 and c != "\n") or 127 <= ord(c) < 160 or c in FORBIDDEN}


def raw_in_bytes(data: bytes) -> set[str]:
    """The same for what a terminal received, apart from the program's own sequences and line ends."""
    for sequence in (rb"\x1b\]0;owned", rb"\x1b\[31mred", rb"\x1b\[2J\x1b\[H"):
        assert not re.search(sequence, data), f"a sequence from a file was carried out: {sequence!r}"
    text = _OWN.sub(b"", data).decode("utf-8", errors="surrogateescape")
    return raw_controls(text.replace("\r\n", "\n").replace("\r", ""))


def hostile_garden(folder: Path) -> list[str]:
    """Write a garden file whose every name is hostile; the names.

    TOML basic strings can write any Unicode scalar value but no surrogate as an escape (TOML 1.0, String).
    """
    names = [h for h in HOSTILE if len(h) < 5000]
    plants = "".join(
        f'[[plant]]\nid = "p{n}"\nname = {_escaped(h)}\n'
        f"kind = {_escaped(h)}\nwords = {_escaped(h)}\nwhy = {_escaped(h)}\n\n"
        for n, h in enumerate(names)
    )
    jobs = "".join(
        f'[[job]]\nwhat = {_escaped(h)}\nwhen = "2027-04-19"\nwhy = {_escaped(h)}\n\n' for h in names
    )
    place = f"[place]\nname = {_escaped(names[5])}\nlat = 46.9\nlon = 15.9\n\n"
    text = f"{place}{plants}{jobs}[[helper]]\nname = {_escaped(names[6])}\n"
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return names


def _escaped(text: str) -> str:
    plain = (c if (c.isalnum() and c.isascii()) or c in " -." else f"\\U{ord(c):08x}" for c in text)
    return f'"{"".join(plain)}"'
