"""What tomllib finds wrong, as a steward would say it: the line, what was understood, what to write.

tomllib tells its errors in words alone, so here, and for msgspec in `garden/reading/messages.py`, words of a
library are read. Nothing reads the program's own.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import re
from collections.abc import Callable
from typing import Any

from leafturn.base.faults import Fault, clipped
from leafturn.base.patterns import pattern
from leafturn.toml.meant import (
    WORDS_FOR_TRUE,
    has_decimal_comma,
    line_meant,
    may_be_thousands,
    name_in_heading,
)
from leafturn.toml.positions import LONG_STRING, SHORT_STRING

MOST_SHOWN = 20  # of a list in a fault, which is cut short
MOST_DOTS_IN_A_KEY = 6  # a guess: a garden file needs two

# `plain` takes whole runs of ordinary lines at once: without it the check costs a third of the parse itself.
_PLAIN_VALUE = r"""(?:"[^"\\\n]*+"|'[^'\n]*+'|[0-9.+-]++|true|false|\[[0-9., +-]*+\])"""
_PLAIN_LINE = rf"(?:[A-Za-z0-9_-]++\ =\ {_PLAIN_VALUE}|\[\[[A-Za-z0-9_-]++\]\]|\[[A-Za-z0-9_-]++\]|)"
TOKEN = pattern(
    rf"""
    (?P<plain>(?:^[ \t]*+{_PLAIN_LINE}[ \t]*+(?:\#[^\n]*+)?\n)++)
    |(?P<comment>\#[^\n]*+)
    |(?P<string>{LONG_STRING}|(?!\"\"\"|\'\'\')(?:{SHORT_STRING}))
    |(?P<open_long>\"\"\"|\'\'\')
    |(?P<open_short>["'])
    |(?P<bracket>[\[\]{{}}])
    |(?P<dots>(?:\.[ \t]*+(?:[A-Za-z0-9_-]++|{SHORT_STRING})[ \t]*+){{{MOST_DOTS_IN_A_KEY + 1}}})
    """,
    re.VERBOSE | re.DOTALL | re.MULTILINE,
)
TEXT_OR_COMMENT = pattern(rf"{LONG_STRING}|{SHORT_STRING}|#[^\n]*+", re.DOTALL)


def as_written(value: Any) -> str:
    """A value as the file writes it, cut short."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{clipped(value, 40)}"'
    if isinstance(value, float):
        return f"{value:.6g}"
    if isinstance(value, list):
        return clipped(f"[{', '.join(map(as_written, value[:MOST_SHOWN]))}]", 40)
    return "{ ... }" if isinstance(value, dict) else clipped(str(value), 40)


def line_at(text: str, position: int) -> int:
    """Line on which `position` lies, counted from 1."""
    return text.count("\n", 0, position) + 1


def text_of_line(text: str, line: int) -> str:
    """The words on a line, without the spaces round them."""
    lines = text.split("\n", line)
    return lines[line - 1].strip() if line <= len(lines) else ""


def quote_hint(line_text: str) -> str:
    """What to write for a line whose text lacks a quote mark."""
    meant = line_meant(line_text)
    return f"Write {meant}" if meant else "Text stands between two straight quote marks."


# What a merge of two versions leaves in a file where it could not choose.
MERGE_MARK = r"^(?:<{7}|={7}|>{7}|\|{7})(?: [^\n]*)?$"
HERE_MERGED = "Here begin marks that a merge of two versions left in the file"
UNMERGE = "Delete the lines of <<<<<<<, ======= and >>>>>>>."

_PLACE = pattern(r" \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$")
_STATEMENT = pattern(r"\s*(?:[A-Za-z0-9_-]+\s*=|\[\[?[A-Za-z])")


def in_plain_words(text: str, raw: str, file: str, first_line: int = 1) -> Fault:
    """What tomllib says, as a steward would say it; `first_line` is where in the file `text` begins.

    The fault's line is counted in `text`; where its words name lines, they are lines of the file.
    """
    place = _PLACE.search(raw)
    what = raw[: place.start()] if place else raw
    if place is None or place["line"] is None:
        position = len(text)
        line = text.rstrip().count("\n") + 1
    else:
        line = int(place["line"])
        position = _start_of_line(text, line) + int(place["column"]) - 1
    line_text = text_of_line(text, line)
    quoted = clipped(line_text)

    def fault(message: str, hint: str = "", on: int = line) -> Fault:
        return Fault(file=file, line=on, message=message, hint=hint)

    if line_text.startswith("<" * 7):
        return fault(f"{HERE_MERGED}.", UNMERGE)
    if line_text.startswith("[") and (meant := line_meant(line_text)) is not None:
        return fault(f"A bracket is missing in {quoted}.", f"Write {meant}")
    if what.startswith("Expected ']"):
        name = clipped(name_in_heading(line_text))
        whole = f"[[{name}]]" if line_text.startswith("[[") else f"[{name}]"
        return fault(f"A bracket is missing in {quoted}.", f"Write {whole}")
    if what.startswith("Cannot declare"):
        return fault(f"The table {quoted} stands in the file twice.", "Put both parts under one heading.")
    if what.startswith(("Cannot overwrite", "Duplicate", "Cannot redefine")):
        return _key_twice(text, line, line_text, file, first_line)
    if what.startswith("Cannot mutate"):
        return fault(f"{quoted} adds to a list that was already closed.", "Use one form for the whole list.")
    if what.startswith(("Unescaped", "Invalid hex", "Escaped")):
        return fault("A backslash in this text is not understood.", "Write it twice, or use 'single' quotes.")
    if what.startswith("Invalid date"):
        return fault(f"{quoted} holds a date that no calendar has.", "Write it as 2027-04-19.")
    opened = _innermost_bracket(text, position)
    if opened is not None:
        return _in_brackets(text, position, opened, fault)
    if what.startswith(("Expected '='", "Invalid statement", "Invalid initial")):
        if re.match(r"[A-Za-z0-9_-]+\s*:", line_text):
            meant = clipped(line_text.replace(":", " =", 1))
            return fault(f"{quoted} has a colon where = belongs.", f"Write {meant}")
        if not line_text.partition("=")[0].isascii():
            return fault(f"{quoted} is not understood.", "Names before the = use only a-z, 0-9, - and _.")
        return fault(f"{quoted} is not understood.", 'Each line reads name = value, such as kind = "pear".')
    return fault(*_bad_value(line_text))


def _in_brackets(text: str, position: int, opened: int, fault: Callable[..., Fault]) -> Fault:
    """A fault inside a list or an inline table that opened at `opened`."""
    open_line, line = line_at(text, opened), line_at(text, position)
    quoted = clipped(text_of_line(text, line))
    one_line = "Keep each { ... } on one line, with commas between its parts and none before the }."
    if text[opened] == "{":
        if open_line < line or text[position : position + 1] in ("", "\n"):
            return fault("The { opened here is not closed on the same line.", one_line, open_line)
        if text[position] == "}":
            return fault("A comma stands before the } here.", one_line)
        return fault(f"A comma, an = or a }} is missing in {quoted}.", one_line)
    start = text.rfind("\n", 0, position) + 1
    if position >= len(text.rstrip()) or (open_line < line and _STATEMENT.match(text, start)):
        return fault("The bracket [ opened here is not closed.", "Add the ] where the list ends.", open_line)
    hint = 'Commas stand between items, and text stands in quote marks: ["a", "b"].'
    return fault(f"This list is not understood: {quoted}.", hint)


def _days_meant(value: str) -> list[str]:
    """The days that "2.4.2027" or "4/2/2027" may mean, as TOML has them; with dots the day stands first."""
    found = re.fullmatch(r"(\d{1,2})([./])(\d{1,2})\2(\d{4})", value, re.ASCII)
    if found is None:
        return []
    one, other, year = int(found[1]), int(found[3]), int(found[4])
    days = []
    for day, month in ((one, other), (other, one)) if found[2] == "/" else ((one, other),):
        with contextlib.suppress(ValueError):
            days.append(dt.date(year, month, day).isoformat())
    return list(dict.fromkeys(days))


def _bad_value(line_text: str) -> tuple[str, str]:
    """Message and hint for a value that could not be read, or for something after it."""
    quoted = clipped(line_text)
    key, _, value = line_text.partition("=")
    key, value = clipped(key.strip()), value.split("#")[0].strip()
    if may_be_thousands(value):
        hint = f"Write {key} = {value.replace(',', '')} or {key} = {value.replace(',', '.')}"
        return f"{quoted} may have a decimal comma, or one between thousands.", hint
    if days := _days_meant(value):
        return f"{quoted} is no day as TOML has it.", f"Write {' or '.join(f'{key} = {day}' for day in days)}"
    if has_decimal_comma(value):
        return f"{quoted} has a decimal comma.", quote_hint(line_text)
    if value.endswith(",") and (meant := line_meant(line_text)) is not None:
        return f"{quoted} ends in a comma.", f"Write {meant}"
    if " //" in value:
        return f"{quoted} holds a comment that does not begin with #.", quote_hint(line_text)
    if not value:
        return f"{quoted} has no value after the =.", f'Write {key} = "..." or leave the line out.'
    if re.fullmatch(r"[+-]?0\d+(\.\d+)?", value):
        return f"{quoted} begins with a nought.", f"Write {key} = {clipped(value.replace('0', '', 1))}"
    if value.lower() in WORDS_FOR_TRUE:
        return f"{quoted} is not understood.", quote_hint(line_text)
    if value[0] == "(":
        return f"{quoted} has round brackets, and lists have square ones.", quote_hint(line_text)
    if value[0] not in "\"'[{":
        return f"{quoted} is text without quote marks.", quote_hint(line_text)
    return f"Something is left over on this line: {quoted}.", "Give each name its own line."


def _key_twice(text: str, line: int, line_text: str, file: str, first_line: int) -> Fault:
    key = line_text.partition("=")[0].strip()
    lines = text.split("\n")
    same = pattern(rf"\s*{re.escape(key)}\s*=")
    for above in range(line - 1, 0, -1):
        candidate = lines[above - 1]
        if same.match(candidate):
            one, other = above + first_line - 1, line + first_line - 1
            message = f"{clipped(key)} is given twice, on lines {one} and {other}."
            return Fault(file=file, line=line, message=message, hint="Keep one of them.")
        if candidate.lstrip().startswith("["):
            break
    message = f"A name is given twice in the same table: {clipped(line_text)}."
    return Fault(file=file, line=line, message=message, hint="Keep one of them.")


def _innermost_bracket(text: str, position: int) -> int | None:
    """Where the innermost bracket still open at `position` stands."""
    stack: list[int] = []
    for token in TOKEN.finditer(text, 0, position):
        if token.lastgroup == "bracket":
            if token[0] in "[{":
                stack.append(token.start())
            elif stack:
                stack.pop()
    return stack[-1] if stack else None


def _start_of_line(text: str, line: int) -> int:
    start = 0
    for _ in range(line - 1):
        start = text.index("\n", start) + 1
    return start
