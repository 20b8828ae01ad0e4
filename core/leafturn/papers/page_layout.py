"""Papers in blocks, each with its lines in fixed type: broken at blanks, measured as a printer shows them.

Widths are those of `wcwidth`, imported only once a text is not plain ASCII.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from msgspec.structs import replace

from leafturn.base.value import Value

GAP = "_____"  # where the pencil goes
LENGTH = 60  # lines that fit A4 and Letter upright at six lines to the inch with a margin; common practice
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


Kind = Literal[
    "title", "heading", "part", "text", "item", "tick", "under", "cells", "room", "picture", "blank", "rule",
    "page",
]  # fmt: skip


class Block(Value):
    """A part of a paper, as it is said, with its lines in fixed type.

    Parameters
    ----------
    kind : str
        A `part` is a heading below a heading, `under` a paragraph that belongs to the tick above it, `room` a
        line to write on, `cells` a row of a table, `picture` a place where a drawing may stand, `page` the
        end of a page.
    lines : tuple of str
        On a page of fixed type.
    text : str
        What it says; of a picture its name.
    right : str
        What stands at the right margin.
    mark : str
        What stands before the box of a tick: its number or its day.
    indent : int
        How far it is set in [columns].
    cells : tuple of (str, int)
        Of a row: words and how many columns they may take.
    head : bool
        Whether a row is the head of its table.
    """

    kind: Kind
    lines: tuple[str, ...]
    text: str = ""
    right: str = ""
    mark: str = ""
    indent: int = 0
    cells: tuple[tuple[str, int], ...] = ()
    head: bool = False


RULE = Block(kind="rule", lines=("", "=" * WIDTH))
NEW_PAGE = Block(kind="page", lines=())


class Paper(Value):
    """A paper from top to bottom."""

    blocks: tuple[Block, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """The paper in fixed type."""
        return tuple(line for block in self.blocks for line in block.lines)


class Sheaf:
    """Blocks of a paper, gathered one after the other.

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
        self.blocks: list[Block] = []
        self._under = 0  # columns by which what belongs to the last tick is set in

    @property
    def paper(self) -> Paper:
        """What is gathered so far."""
        return Paper(blocks=tuple(self.blocks))

    @property
    def lines(self) -> tuple[str, ...]:
        """What is gathered so far in fixed type."""
        return self.paper.lines

    def say(
        self, text: str, *, kind: Kind = "text", indent: int = 0, hang: int = 0, most: int | None = None
    ) -> None:
        """A paragraph set in by `indent`, its later lines by `hang` more; nothing for an empty text.

        Parameters
        ----------
        most : int or None
            The most lines; what is left out of a longer text leaves an ellipsis.
        """
        text = self.cleaned(text)
        found = _hanging(text, self.width - indent, hang, most)
        if not found:
            return
        if most is not None and len(found) == most:
            text = " ".join(line.strip() for line in found)
        self.blocks.append(
            Block(kind=kind, text=text, indent=indent, lines=tuple(" " * indent + line for line in found))
        )

    def item(self, text: str, *, indent: int = 0, most: int | None = None) -> None:
        """A sentence of a list."""
        text = self.cleaned(text)
        body = Sheaf(str, self.width)
        body.say(f"- {text}", kind="item", indent=indent, hang=2, most=most)
        self.blocks += [replace(block, text=block.text.removeprefix("- ")) for block in body.blocks]

    def title(self, text: str, right: str = "", *, shown: str | None = None, most: int | None = None) -> None:
        """The name of the paper, with what stands at the right margin.

        Parameters
        ----------
        shown : str, optional
            The name as fixed type shows it.
        """
        text, shown, right = self.cleaned(text), self.cleaned(shown or text), self.cleaned(right)
        if not right:
            found = _hanging(shown, self.width, 0, most)
        else:
            right = shortened(right, self.width // 2)
            room = self.width - cells(right) - 2
            found = wrap(shown, room) or [""]
            found[0] += " " * (room - cells(found[0]) + 2) + right
        self.blocks.append(Block(kind="title", text=text, right=right, lines=tuple(found)))

    def heading(
        self, text: str, *, shown: str | None = None, underlined: bool = False, most: int | None = None
    ) -> None:
        """What stands over a part of the paper; `shown` as fixed type shows it."""
        found = _hanging(self.cleaned(shown or text), self.width, 0, most)
        if underlined:
            found.append("-" * cells(found[0]))
        self.blocks.append(Block(kind="heading", text=self.cleaned(text), lines=tuple(found)))

    def tick(self, what: str, right: str = "", *, mark: str = "", most: int | None = None) -> None:
        """A line with a gap for the pencil; what is said `under` it stands below its words."""
        what, start = self.cleaned(what), f"{mark}  {GAP}  "
        self._under, room = cells(start), self.tick_width(mark, right)
        first, *rest = _hanging(what, room, 2, most) or [""]
        line = f"{start}{first}{' ' * (room - cells(first) + 2)}{right}" if right else f"{start}{first}"
        lines = (line, *(" " * self._under + more for more in rest))
        self.blocks.append(Block(kind="tick", text=what, right=right, mark=mark.strip(), lines=lines))

    def tick_width(self, mark: str, right: str) -> int:
        """Columns that the words of a tick may take."""
        return self.width - cells(f"{mark}  {GAP}  ") - (cells(right) + 2 if right else 0)

    def under(self, text: str, *, most: int | None = None) -> None:
        """A paragraph that belongs to the last tick."""
        self.say(text, kind="under", indent=self._under, most=most)

    @property
    def under_width(self) -> int:
        """Columns that a paragraph under the last tick may take."""
        return self.width - self._under

    def row(self, texts: Sequence[str], widths: Sequence[int], *, head: bool = False) -> None:
        """A row of a table: texts in columns of their widths."""
        fitted = [shortened(self.cleaned(text), wide - 1) for text, wide in zip(texts, widths, strict=True)]
        line = "".join(
            text + " " * (wide - cells(text)) for text, wide in zip(fitted, widths, strict=True)
        ).rstrip()
        kept = tuple(zip(fitted, widths, strict=True))
        self.blocks.append(Block(kind="cells", cells=kept, head=head, lines=(line,)))

    def room(self, count: int = 1, *, indent: int = 0) -> None:
        """Lines to write on, an empty one before each."""
        for _ in range(count):
            self.blank()
            line = " " * indent + "_" * (self.width - indent)
            self.blocks.append(Block(kind="room", indent=indent, lines=(line,)))

    def picture(self, name: str) -> None:
        """A place where a drawing may stand."""
        self.blocks.append(Block(kind="picture", text=name, lines=()))

    def blank(self) -> None:
        """An empty line, unless the page begins here or the last one is empty already."""
        last = next((block for block in reversed(self.blocks) if block.lines), None)
        if last is not None and last.kind != "blank":
            self.blocks.append(Block(kind="blank", lines=("",)))

    def cleaned(self, text: str) -> str:
        """A text made harmless, on one line, with single blanks."""
        return " ".join(self._clean(text).split())


def _hanging(text: str, width: int, hang: int, most: int | None) -> list[str]:
    """A cleaned text as lines, the later ones set in by `hang`; what is left out leaves an ellipsis."""
    room = width - hang
    head = wrap(text, width)
    if not head:
        return []
    rest = wrap(text[len(head[0]) :], room) if len(head) > 1 else []
    found = [head[0], *(" " * hang + line for line in rest)]
    if most is None or len(found) <= most:
        return found
    last = " ".join(found[most - 1 :])
    kept = shortened(last, room if most > 1 else width)
    return [*found[: most - 1], " " * (hang if most > 1 else 0) + kept]
