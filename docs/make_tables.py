"""Writes the table of built-in numbers into docs/garden.md. Run from the project's root."""

from __future__ import annotations

from pathlib import Path

from leafturn.base.tunables import NUMBERS

PAGE = Path(__file__).parent / "garden.md"
HEAD = "| name | usual | unit | where it comes from |\n|---|---|---|---|\n"

if __name__ == "__main__":
    rows = [f"| `{name}` | {n.value:g} | {n.unit} | {n.source} |\n" for name, n in NUMBERS.items()]
    text = PAGE.read_text(encoding="utf-8")
    before = text[: text.index(HEAD)]
    PAGE.write_text(before + HEAD + "".join(rows), encoding="utf-8")
