"""Text broken into lines of so many terminal cells."""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size

from leafturn.base.day_words import MONTHS, SHORT_MONTHS
from leafturn.base.patterns import pattern
from leafturn_tui.safe_text import MARKS_ON_ONE_LETTER

_MOST_LETTERS = MARKS_ON_ONE_LETTER + 1  # characters that can share one cell; keeps very long text quick
TOGETHER = "\ue000"  # for private use, a cell wide: stands for a blank that a line is not broken at
FEW_TOGETHER = 24  # cells under which it is: "28 Oct 2026-28 Oct 2027" has 23
_UNITS = "mm|cm|m|km|kg|g|l|C|F|h|min|ft|in|lb"
_HELD = pattern(
    rf"(?<=\d) (?=(?:{'|'.join((*MONTHS, *SHORT_MONTHS))}|{_UNITS})\b|%|of 10\b)"
    r"|(?<=of) (?=10\b)"
    rf"|(?<={'|'.join(SHORT_MONTHS)}) (?=\d{{4}}\b)"
)


def _fits(text: str, width: int) -> bool:
    return len(text) <= _MOST_LETTERS * width and cell_len(text) <= width


def wrap(text: str, width: int, hang: int = 0) -> list[str]:
    """Break safe text at blanks into lines of at most `width` cells; later lines are set in by `hang`.

    A number stays with its unit and a day with its month; a name longer than a line parts behind a hyphen.
    """
    width = max(width, hang + 2)
    if width >= FEW_TOGETHER and not _fits(text, width):
        text = _HELD.sub(TOGETHER, text)
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line.strip() else line + word
        if _fits(longer, width):
            line = longer
            continue
        if line.strip():
            lines.append(line)
            line = " " * hang
        line += word
        while not _fits(line, width):  # a word longer than a line
            head = set_cell_size(line[: _MOST_LETTERS * width], width).rstrip()
            if 2 * (parted := head.rfind("-") + 1) > len(head):
                head = head[:parted]
            lines.append(head)
            line = " " * hang + line[len(head) :]
    lines += [line] if line.strip() or not lines else []
    return [line.replace(TOGETHER, " ") for line in lines]
