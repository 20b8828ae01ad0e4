"""Lines for a printed page: broken at blanks, measured as a fixed-width printer shows them.

Widths are those of `wcwidth`, imported only once a text is not plain ASCII.
"""

from __future__ import annotations

from collections.abc import Callable

WIDTH = 72  # columns that fit A4 and Letter upright in 12-point fixed type with a margin; common practice

Clean = Callable[[str], str]
"""Makes any string harmless to print, and leaves no character that cannot be seen."""


def cells(text: str) -> int:
    """Columns that a text takes: wide East Asian letters two, marks on a letter none."""
    if text.isascii():
        return len(text)
    from wcwidth import width

    return width(text, control_codes="ignore")


def wrap(text: str, width: int) -> list[str]:
    """A text as lines of at most `width` columns.

    Breaks stand at blanks; only a word that is itself wider than a line is divided.
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if cells(longer) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _divided(word, width)
        lines += whole
    return [*lines, line] if line else lines


def _divided(word: str, width: int) -> list[str]:
    """A word in pieces of at most `width` columns; marks stay on their letter."""
    if word.isascii():
        return [word[i : i + width] for i in range(0, len(word), width)]
    from wcwidth import wrap

    return wrap(word, width, break_on_hyphens=False, propagate_sgr=False)


def shortened(text: str, width: int) -> str:
    """A text that fits one line: whole words, and an ellipsis where some are left out."""
    found = wrap(text, width)
    if len(found) < 2:
        return found[0] if found else ""
    first = wrap(text, max(width - 2, 1))[0]
    return f"{first} …"


class Sheaf:
    """Lines of a paper, gathered one after the other.

    Parameters
    ----------
    clean : callable
        Every text passes it before it is measured.
    width : int
        Columns.
    """

    def __init__(self, clean: Clean, width: int = WIDTH) -> None:
        self._clean = clean
        self.width = width
        self.lines: list[str] = []

    def say(self, text: str, *, indent: int = 0, hang: int = 0, most: int | None = None) -> None:
        """A paragraph set in by `indent`, its later lines by `hang` more; nothing for an empty text.

        Parameters
        ----------
        most : int or None
            The most lines; what is left out of a longer text leaves an ellipsis.
        """
        text = self.cleaned(text)
        room = self.width - indent - hang
        head = wrap(text, room + hang)
        if not head:
            return
        rest = wrap(text[len(head[0]) :], room) if len(head) > 1 else []
        found = [head[0], *(" " * hang + line for line in rest)]
        if most is not None and len(found) > most:
            kept = found[:most]
            kept[-1] = " " * (hang if most > 1 else 0) + shortened(
                " ".join(found[most - 1 :]), room if most > 1 else room + hang
            )
            found = kept
        self.lines += [" " * indent + line for line in found]

    def beside(self, text: str, right: str, *, indent: int = 0) -> None:
        """A paragraph whose first line ends in something at the right margin."""
        right = shortened(self.cleaned(right), self.width // 2)
        room = self.width - indent - cells(right) - 2
        found = wrap(self.cleaned(text), room) or [""]
        gap = " " * (room - cells(found[0]) + 2)
        self.lines.append(" " * indent + found[0] + gap + right)
        self.lines += [" " * indent + line for line in found[1:]]

    def after(self, start: str, text: str, *, most: int | None = None) -> None:
        """A paragraph that stands wholly to the right of `start`, which is printed as it is."""
        body = Sheaf(self._clean, self.width - cells(start))
        body.say(text, most=most)
        first, *rest = body.lines or [""]
        self.lines.append(start + first)
        self.lines += [" " * cells(start) + line for line in rest]

    def blank(self) -> None:
        """An empty line, unless the page begins here or the last one is empty already."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def rule(self, mark: str = "-") -> None:
        """A line across."""
        self.lines.append(mark * self.width)

    def cleaned(self, text: str) -> str:
        """A text made harmless, on one line, with single blanks."""
        return " ".join(self._clean(text).split())
