"""A paper as Markdown (CommonMark, with the task lists and tables of GitHub Flavored Markdown)."""

from __future__ import annotations

from collections.abc import Iterator

from leafturn.base.patterns import pattern
from leafturn.papers.page_layout import Block
from leafturn_tui.papers.printed import Printed

_SPECIAL = pattern(r"([\\`*_\[\]<>|~&#])|^([+-])|^(\d+)([.)])")


def as_markdown(printed: Printed) -> str:
    """The paper as Markdown text.

    Parameters
    ----------
    printed : Printed
    """
    lines: list[str] = []
    before = ""
    for block in printed.paper.blocks:
        if block.kind == "blank":
            continue
        said = list(_said(block, printed))
        if said and lines and not (before == block.kind and block.kind in ("item", "tick", "cells")):
            lines.append("")
        lines += said
        before = block.kind if said else before
    return "\n".join([*lines, "", f"*{_escaped(printed.foot)}*", ""])


def _said(block: Block, printed: Printed) -> Iterator[str]:
    text, right = _escaped(block.text), _escaped(block.right)
    match block.kind:
        case "title":
            yield f"# {text}{' · ' + right if right else ''}"
        case "heading":
            yield f"## {text}"
        case "part":
            yield f"### {text}"
        case "item":
            yield f"- {text}"
        case "tick":
            mark = f"**{_escaped(block.mark)}** " if block.mark else ""
            yield f"- [ ] {mark}{text}{', ' + right if right else ''}"
        case "under":
            yield f"  {text}"
        case "cells":
            cells = [_escaped(cell) for cell, _ in block.cells]
            yield f"| {' | '.join(cells)} |"
            if block.head:
                yield f"|{'---|' * len(cells)}"
        case "room" | "rule" | "page":
            yield "____"
        case "picture":
            drawn = printed.picture_lines(block.text)
            if drawn:
                yield from ("```text", *drawn, "```")
        case _:
            yield text


def _escaped(text: str) -> str:
    """A text that Markdown shows as it is."""
    return _SPECIAL.sub(lambda m: f"\\{m[1] or m[2]}" if m[1] or m[2] else f"{m[3]}\\{m[4]}", text)
