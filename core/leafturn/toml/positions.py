"""Which line of a TOML text holds which table, key or list item.

`tomllib` gives values without their places; a fault without its line is of little use to someone with a
file of two thousand plants. This walks the text a second time and notes lines only.
"""

from __future__ import annotations

import re
import tomllib

from leafturn.base.patterns import pattern

Step = str | int
Steps = tuple[Step, ...]

SHORT_STRING = r'"(?:[^"\\\n]++|\\[^\n])*+"|' + r"'[^'\n]*+'"
# Unrolled: with an alternation for every character, four million of them take a quarter of a second.
# The outer loop gives back: Python before 3.11.5 ends a possessive one too early (its issue gh-106052).
LONG_STRING = (
    r'"""[^"\\]*+(?:(?:\\.|""?(?!"))[^"\\]*+)*"""(?:"{0,2})|'
    r"'''[^']*+(?:''?(?!')[^']*+)*'''(?:'{0,2})"
)
_KEY_PART = rf"(?:[A-Za-z0-9_-]++|{SHORT_STRING})"
_KEY = rf"{_KEY_PART}(?:[ \t]*+\.[ \t]*+{_KEY_PART})*+"
_REST = r"[ \t\r]*+(?:\#[^\n]*+)?(?:\n|\Z)"

NOTHING = pattern(_REST)
HEADER = pattern(rf"[ \t]*+(?P<open>\[\[?)[ \t]*+(?P<key>{_KEY})[ \t]*+\]")
PAIR = pattern(rf"[ \t]*+(?P<key>{_KEY})[ \t]*+=[ \t]*+")
# A pair that ends on its own line and holds no table: most of a garden file, so matched in one go. Items of
# a list that stands on one line need no note of their own: `line_of` falls back to the key's line.
_PLAIN_PAIR = pattern(
    rf"[ \t]*+(?P<key>[A-Za-z0-9_-]++)[ \t]*+=[ \t]*+"
    rf"(?:(?!\"\"\"|''')(?:{SHORT_STRING})|[^\s\"'#\[\]{{}},]++|\[(?:{SHORT_STRING}|[^\n\[\]{{}}\"'#]++)*+\]){_REST}"
)
SCALAR = pattern(rf"{LONG_STRING}|{SHORT_STRING}|[^\s\"'#\[\]{{}},]++", re.DOTALL)
GAP = pattern(r"(?:[ \t\r\n]++|\#[^\n]*+)*+")
_PART = pattern(_KEY_PART)


class TomlLines:
    """Lines of every table, key and list item in a TOML text.

    Parameters
    ----------
    text : str
        The text; a byte order mark and CRLF are accepted. It should be valid TOML. Of text that is not,
        the lines up to the damage are right and the walk still ends.
    """

    def __init__(self, text: str) -> None:
        self._text = text.removeprefix("\ufeff")
        self._position = 0
        self._line = 1
        self._lines: dict[Steps, int] = {}
        self._tables_so_far: dict[Steps, int] = {}
        self._walk()

    def line_of(self, *path: Step) -> int | None:
        """Line of what stands at `path`, counted from 1.

        Parameters
        ----------
        *path : str or int
            Keys, and places in lists counted from 0: ``line_of("plant", 3, "at")``. A table written
            ``[[plant]]`` counts as a list item.

        Returns
        -------
        int or None
            The line of the longest part of `path` that the text holds, so that a missing key gives its
            table's line; None if not even the first step is there.
        """
        for length in range(len(path), 0, -1):
            line = self._lines.get(path[:length])
            if line is not None:
                return line
        return None

    def _walk(self) -> None:
        table: Steps = ()
        while self._position < len(self._text):
            if found := _PLAIN_PAIR.match(self._text, self._position):
                self._lines.setdefault((*table, found["key"]), self._line)
                self._position = found.end()
                self._line += 1
            elif found := NOTHING.match(self._text, self._position):
                self._move_to(found.end())
            elif found := HEADER.match(self._text, self._position):
                table = self._enter_table(parts_of_key(found["key"]), is_list=len(found["open"]) == 2)
                self._next_line()
            elif found := PAIR.match(self._text, self._position):
                path = self._note_key(table, parts_of_key(found["key"]))
                self._move_to(found.end())
                self._walk_value(path)
                self._next_line()
            else:
                self._next_line()

    def _move_to(self, position: int) -> None:
        self._line += self._text.count("\n", self._position, position)
        self._position = position

    def _next_line(self) -> None:
        end = self._text.find("\n", self._position)
        self._move_to(len(self._text) if end < 0 else end + 1)

    def _enter_table(self, parts: list[str], *, is_list: bool) -> Steps:
        """Note a table's header; a part that names a list of tables means its latest."""
        path: Steps = ()
        for part in parts[:-1]:
            path = (*path, part)
            self._lines.setdefault(path, self._line)
            if path in self._tables_so_far:
                path = (*path, self._tables_so_far[path] - 1)
        path = (*path, parts[-1])
        self._lines.setdefault(path, self._line)
        if is_list:
            number = self._tables_so_far.get(path, 0)
            self._tables_so_far[path] = number + 1
            path = (*path, number)
            self._lines[path] = self._line
        return path

    def _note_key(self, table: Steps, parts: list[str]) -> Steps:
        path = table
        for part in parts:
            path = (*path, part)
            self._lines.setdefault(path, self._line)
        return path

    def _walk_value(self, path: Steps) -> None:
        """Walk one value, noting what lists and tables in it hold. Stops at the first thing out of place."""
        open_lists: list[tuple[Steps, int | None]] = []  # path, and the next item's number; None for { }
        text = self._text
        while True:
            if open_lists:
                self._move_to(GAP.match(text, self._position).end())  # type: ignore[union-attr]
            mark = text[self._position : self._position + 1]
            if open_lists and mark in ("]", "}"):
                open_lists.pop()
                self._position += 1
                if not open_lists:
                    return
                continue
            if open_lists and mark == ",":
                self._position += 1
                continue
            if open_lists:
                owner, number = open_lists[-1]
                if number is None:
                    pair = PAIR.match(text, self._position)
                    if pair is None:
                        return
                    path = self._note_key(owner, parts_of_key(pair["key"]))
                    self._move_to(pair.end())
                    mark = text[self._position : self._position + 1]
                else:
                    path = (*owner, number)
                    self._lines[path] = self._line
                    open_lists[-1] = (owner, number + 1)
            if mark in ("[", "{"):
                open_lists.append((path, 0 if mark == "[" else None))
                self._position += 1
                continue
            scalar = SCALAR.match(text, self._position)
            if scalar is None:
                return
            self._move_to(scalar.end())
            if not open_lists:
                return


def parts_of_key(key: str) -> list[str]:
    """The parts of a dotted key, without their quote marks."""
    return [_unquoted(part) for part in _PART.findall(key)]


def _unquoted(part: str) -> str:
    if part[0] not in "\"'":
        return part
    if "\\" not in part:
        return part[1:-1]
    try:
        return str(tomllib.loads(f"x = {part}")["x"])
    except ValueError:
        return part[1:-1]
