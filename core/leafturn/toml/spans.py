"""Where in a TOML text the tables of a list stand, and each of their keys, so that one can be changed."""

from __future__ import annotations

import re
from collections.abc import Iterator

from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.toml.positions import (
    GAP,
    HEADER,
    LONG_STRING,
    NOTHING,
    PAIR,
    SCALAR,
    SHORT_STRING,
    Steps,
    parts_of_key,
)

_IN_BRACKETS = pattern(
    rf"{LONG_STRING}|{SHORT_STRING}|#[^\n]*+|(?P<open>[\[{{])|(?P<close>[\]}}])|[^\"'#\[\]{{}}]++", re.DOTALL
)


class Pair(Value):
    """One `key = value` of a table, by places in the text.

    Parameters
    ----------
    key : str
        Its key; of a dotted one ("guard.year") the first part.
    start, value, end : int
        Where the key begins, where its value begins, and where that ends.
    dotted : bool
        Whether the key has several parts.
    """

    key: str
    start: int
    value: int
    end: int
    dotted: bool = False


class TableSpan(Value):
    """One table of a list.

    Parameters
    ----------
    start : int
        Where its header or its opening brace stands.
    head : int
        Where that ends.
    pairs : tuple of Pair
        Its own keys in the order they are written; those of tables within it are not among them.
    braces : bool
        Whether it is written in braces, ``{ kind = "pear" }``.
    end : int
        Where its last key, or its closing brace, ends.
    """

    start: int
    head: int
    pairs: tuple[Pair, ...]
    braces: bool
    end: int

    def pair(self, key: str) -> Pair | None:
        """The key of this name."""
        return next((pair for pair in self.pairs if pair.key == key), None)


def lists_of_tables(text: str, *paths: Steps) -> dict[Steps, list[TableSpan]]:
    """Where every table of some lists stands.

    Parameters
    ----------
    text : str
        Valid TOML as it lies on disk, with its byte order mark and line ends. Of other text less is found.
    *paths : tuple of str
        The lists, as ("plant",), whether written ``[[plant]]`` or ``plant = [{ ... }]``.

    Returns
    -------
    dict
        For each list its tables in order; a list that the text does not hold has none.
    """
    found: dict[Steps, list[TableSpan]] = {path: [] for path in paths}
    position = 1 if text.startswith("\ufeff") else 0
    table: Steps = ()
    header: tuple[Steps, int, int] | None = None
    pairs: list[Pair] = []

    def close() -> None:
        if header is not None:
            path, start, head = header
            end = pairs[-1].end if pairs else head
            found[path].append(TableSpan(start=start, head=head, pairs=tuple(pairs), braces=False, end=end))
        pairs.clear()

    while position < len(text):
        if nothing := NOTHING.match(text, position):
            position = nothing.end()
            continue
        if heading := HEADER.match(text, position):
            close()
            table = tuple(parts_of_key(heading["key"]))
            is_list = len(heading["open"]) == 2
            end = heading.end() + is_list
            header = (table, heading.start("open"), end) if is_list and table in found else None
            position = end
        elif found_pair := PAIR.match(text, position):
            path = (*table, *parts_of_key(found_pair["key"]))
            pair = _pair(found_pair, text)
            position = pair.end
            pairs.append(pair)
            if path in found and text.startswith("[", pair.value):
                found[path].extend(_items(text, pair.value + 1))
        end_of_line = text.find("\n", position)
        position = len(text) if end_of_line < 0 else end_of_line + 1
    close()
    return found


def _pair(found: re.Match[str], text: str) -> Pair:
    keys = parts_of_key(found["key"])
    end = _end_of_value(text, found.end())
    return Pair(key=keys[0], start=found.start("key"), value=found.end(), end=end, dotted=len(keys) > 1)


def _end_of_value(text: str, position: int) -> int:
    """Where the value that begins at `position` ends."""
    if text[position : position + 1] not in ("[", "{"):
        scalar = SCALAR.match(text, position)
        return scalar.end() if scalar else position
    depth = 0
    for token in _IN_BRACKETS.finditer(text, position):
        depth += bool(token["open"]) - bool(token["close"])
        if depth == 0:
            return token.end()
    return len(text)


def _items(text: str, position: int) -> Iterator[TableSpan]:
    """The tables in braces of a list whose first item may begin at `position`."""
    while True:
        position = _after_gap(text, position)
        mark = text[position : position + 1]
        if mark == "{":
            start, pairs = position, []
            position = _after_gap(text, position + 1)
            while found := PAIR.match(text, position):
                pairs.append(_pair(found, text))
                position = _after_gap(text, pairs[-1].end)
                position = _after_gap(text, position + text.startswith(",", position))
            position += 1
            yield TableSpan(start=start, head=start + 1, pairs=tuple(pairs), braces=True, end=position)
        elif mark == ",":
            position += 1
        elif mark in ("]", ""):
            return
        else:
            after = _end_of_value(text, position)
            if after == position:
                return
            position = after


def _after_gap(text: str, position: int) -> int:
    gap = GAP.match(text, position)
    return gap.end() if gap else position
