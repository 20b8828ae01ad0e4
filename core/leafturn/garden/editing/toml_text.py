"""Changes of a garden file's text that leave every other character as it was. From text to text, no files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from leafturn.toml.positions import Steps
from leafturn.toml.spans import TableSpan, lists_of_tables
from leafturn.toml.writing import value_text

PLANTS: Steps = ("plant",)
HEAPS: Steps = ("heap",)
HELPERS: Steps = ("helper",)
PLACED_PLANTS: Steps = ("place", "plant")  # a list written after the heading [place] belongs to it

# In this order the keys of a plant or heap are written; a new key goes behind the last that comes before it.
ORDER = (
    "id", "name", "kind", "cultivar", "rootstock", "raised", "year", "age_when_planted", "count", "patch_m2",
    "at", "host", "guild", "role", "plan", "state", "stage",
)  # fmt: skip


def table_text(fields: Mapping[str, Any], into: Steps = PLANTS) -> str:
    """A plant or heap as a table of its own, a line a key, with line feeds."""
    return "".join(f"{line}\n" for line in (f"[[{into[-1]}]]", *key_lines(fields)))


def key_lines(fields: Mapping[str, Any]) -> Iterator[str]:
    """The lines of some keys, in the usual order."""
    for key in sorted(fields, key=_place):
        yield f"{key} = {value_text(fields[key])}"


def braces_text(fields: Mapping[str, Any]) -> str:
    """A plant or heap in braces, on one line."""
    return f"{{ {', '.join(key_lines(fields))} }}"


def by_hand(text: str, fields: Mapping[str, Any], into: Steps) -> tuple[tuple[str, ...], str]:
    """The lines of a plant or heap more as this file would hold it, and where they go, in words."""
    if _in_braces(text, into) is not None:
        return (f"{braces_text(fields)},",), f"in the list {into[-1]}"
    return tuple(table_text(fields, into).splitlines()), "at the end of the file"


def _in_braces(text: str, into: Steps) -> TableSpan | None:
    """The last of the file's own list of plants or heaps, if it is one of tables in braces."""
    listed = lists_of_tables(text, into)[into]
    return listed[-1] if listed and listed[-1].braces else None


def _place(key: str) -> int:
    return ORDER.index(key) if key in ORDER else len(ORDER)


def plant_tables(text: str) -> list[TableSpan]:
    """The tables of plants in the order in which they are read: those of the file, then those in [place]."""
    found = lists_of_tables(text, PLANTS, PLACED_PLANTS)
    return [*found[PLANTS], *found[PLACED_PLANTS]]


def with_one_more(text: str, fields: Mapping[str, Any], into: Steps) -> str:
    """The text with a plant, heap or helper more: at its end, or in the file's own list of them in braces.

    Parameters
    ----------
    text : str
        A garden file as it lies on disk, with its line ends.
    fields : mapping
        Its keys and values.
    into : tuple of str
        `PLANTS`, `HEAPS` or `HELPERS`.
    """
    newline = newline_of(text)
    last = _in_braces(text, into)
    if last is not None:
        return _with_item(text, last, braces_text(fields), newline)
    gap = "" if not text or text.endswith("\n") else newline
    blank = newline if text.strip("\ufeff\r\n") else ""
    return text + gap + blank + table_text(fields, into).replace("\n", newline)


def _with_item(text: str, last: TableSpan, item: str, newline: str) -> str:
    """The text with an item behind the last of a list: on a line of its own if that one has its own."""
    before = text[text.rfind("\n", 0, last.start) + 1 : last.start]
    if before.strip():
        return f"{text[: last.end]}, {item}{text[last.end :]}"
    rest = text[last.end : _line_end(text, last.end)].strip(" \t")
    if rest.startswith(",") and rest[1:].lstrip(" \t")[:1] in ("", "#"):  # that is about the item before it
        at = _line_end(text, last.end)
        return f"{text[:at]}{newline}{before}{item},{text[at:]}"
    return f"{text[: last.end]},{newline}{before}{item}{text[last.end :]}"


def with_changes(text: str, table: TableSpan, changes: Mapping[str, Any]) -> str:
    """The text with some keys of one table changed.

    Parameters
    ----------
    text : str
    table : TableSpan
        The plant's table, as `plant_tables` finds it in this text.
    changes : mapping
        Keys with their new values; None takes a key away.
    """
    edits = []
    new = {key: value for key, value in changes.items() if value is not None and table.pair(key) is None}
    for pair in table.pairs:
        if pair.key not in changes:
            continue
        value = changes[pair.key]
        if value is not None:
            edits.append((pair.value, pair.end, value_text(value)))
        elif table.braces:
            edits.append((*_with_its_comma(table, pair.key), ""))
        else:
            edits.append((*_whole_line(text, pair.start, pair.end), ""))
    for key in sorted(new, key=_place):
        edits.append(_insertion(text, table, key, new[key]))
    # From the end on, so that places before it hold; of several at one place the last goes in first.
    edits.sort(key=lambda edit: edit[:2])
    for start, end, put in reversed(edits):
        text = text[:start] + put + text[end:]
    return text


def _insertion(text: str, table: TableSpan, key: str, value: Any) -> tuple[int, int, str]:
    """Where and as what a new key is put in: behind the key of its table that it is usually behind."""
    line = f"{key} = {value_text(value)}"
    behind = [pair for pair in table.pairs if _place(pair.key) <= _place(key)]
    if table.braces:
        at, put = (behind[-1].end, f", {line}") if behind else (table.head, f" {line},")
        return at, at, put
    at = _line_end(text, behind[-1].end if behind else table.head)
    like = behind[-1] if behind else table.pairs[0] if table.pairs else None
    indent = "" if like is None else text[text.rfind("\n", 0, like.start) + 1 : like.start]
    return at, at, f"{newline_of(text)}{indent}{line}"


def _whole_line(text: str, start: int, end: int) -> tuple[int, int]:
    """The line of a key with its end, or where a comment stands behind it the key alone."""
    line_end = _line_end(text, end)
    if text[end:line_end].strip():
        return start, end
    after = text.find("\n", line_end)
    return text.rfind("\n", 0, start) + 1, len(text) if after < 0 else after + 1


def _with_its_comma(table: TableSpan, key: str) -> tuple[int, int]:
    """A key in braces and the comma that parts it from its neighbour."""
    keys = [pair.key for pair in table.pairs]
    at = keys.index(key)
    if at:
        return table.pairs[at - 1].end, table.pairs[at].end
    return table.pairs[0].start, table.pairs[1].start if len(keys) > 1 else table.pairs[0].end


def _line_end(text: str, position: int) -> int:
    """Where the line ends on which `position` lies, before its line end."""
    end = text.find("\n", position)
    end = len(text) if end < 0 else end
    return end - 1 if end > position and text[end - 1] == "\r" else end


def newline_of(text: str) -> str:
    """The line end of a text."""
    return "\r\n" if "\r\n" in text else "\n"
