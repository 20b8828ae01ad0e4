"""What a line of TOML with a slip in it plainly means, where it can mean one thing only."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterator

from leafturn.base.patterns import pattern

LONGEST_MEANT = 80  # a longer line is nobody's slip of the pen; a guess

_ANY_QUOTES = "[\"'“”„‘’]*"
_UNQUOTED = pattern(
    rf"(?P<key>[A-Za-z0-9_-]+)\s*[=:]\s*{_ANY_QUOTES}(?P<value>[^\"“”„#]*?){_ANY_QUOTES}\s*(?:#.*)?$"
)
_PAIR = pattern(r"(?P<key>[A-Za-z0-9_-]+)\s*[=:]\s*(?P<value>[^#]*?)\s*(?:#.*)?$")
_DAY_OR_ABOUT = pattern(r"\d{1,2}(?:[-./]\d{1,4}){1,2}\.?|~\s*\d+(?:\.\d+)?")  # 05-10, 20.4.2026, ~2012
_DECIMAL_COMMA = pattern(r"[+-]?\d+,\d+")
_THOUSANDS = pattern(r"[+-]?[1-9]\d{0,2},\d{3}")
_ROUND_BRACKETS = pattern(r"\(([^()]*)\)")
WORDS_FOR_TRUE = {"true": "true", "yes": "true", "false": "false", "no": "false"}
_HEADING = pattern(r"(?P<open>\[{1,2})\s*(?P<name>[A-Za-z0-9_.-]+)\s*(?P<close>\]{0,2})\s*(?:#.*)?$")
_IN_TWO = pattern(r"^[ \t]*\[\[[ \t]*([A-Za-z0-9_.-]+)[ \t]*\]\]", re.MULTILINE)


def line_meant(line_text: str) -> str | None:
    """The line that a line with a slip stands for, as valid TOML; None where that is not plain."""
    if len(line_text) > LONGEST_MEANT or is_toml(line_text):
        return None
    return next((meant for meant in _readings(line_text.strip()) if is_toml(meant)), None)


def is_toml(written: str) -> bool:
    """Whether a line is valid TOML by itself."""
    try:
        tomllib.loads(written)
    except ValueError:
        return False
    return True


def name_in_heading(line_text: str) -> str:
    """The words of a heading without brackets and comment, whether or not these are as they should be."""
    return line_text.split("#")[0].strip(" \t[]")


def one_of_many(line_text: str, lists: Collection[str]) -> str | None:
    """The name under a heading that has one pair of brackets, where tables of that name come in lists."""
    heading = _HEADING.fullmatch(line_text.strip())
    if heading is None or len(heading["open"]) != 1 or len(heading["close"]) != 1:
        return None
    return heading["name"] if heading["name"] in lists else None


def names_of_lists(text: str) -> frozenset[str]:
    """Names that have two pairs of brackets somewhere in a text: their tables come in lists."""
    return frozenset(_IN_TWO.findall(text))


def has_decimal_comma(value: str) -> bool:
    """Whether a value is a number with a comma in it."""
    return _DECIMAL_COMMA.fullmatch(value) is not None


def may_be_thousands(value: str) -> bool:
    """Whether a comma in a number may part its thousands ("1,250") as well as its decimals."""
    return _THOUSANDS.fullmatch(value) is not None


def _readings(line_text: str) -> Iterator[str]:
    if heading := _HEADING.fullmatch(line_text):
        yield _heading_meant(heading)
        return
    if pair := _PAIR.fullmatch(line_text):
        for reading in (_bare_comment, _comma_at_the_end, _decimal_point, _list_in_brackets, _true_or_false):
            if (value := reading(pair["value"])) is not None:
                yield f"{pair['key']} = {value}"
    if (quoted := with_quotes(line_text)) is not None:
        yield quoted


def _heading_meant(heading: re.Match[str]) -> str:
    """A heading with as many brackets behind its name as before it, or the other way round."""
    brackets = max(len(heading["open"]), len(heading["close"]))
    return f"{'[' * brackets}{heading['name']}{']' * brackets}"


def _bare_comment(value: str) -> str | None:
    """The value before a comment that begins as other languages have it."""
    before, mark, _ = value.partition(" //")
    return before.strip() if mark else None


def _comma_at_the_end(value: str) -> str | None:
    return value[:-1].rstrip() if value.endswith(",") else None


def _decimal_point(value: str) -> str | None:
    return value.replace(",", ".") if has_decimal_comma(value) and not may_be_thousands(value) else None


def _list_in_brackets(value: str) -> str | None:
    return f"[{inside[1]}]" if (inside := _ROUND_BRACKETS.fullmatch(value)) else None


def _true_or_false(value: str) -> str | None:
    return WORDS_FOR_TRUE.get(value.lower())


def with_quotes(line_text: str) -> str | None:
    """A line such as `kind = pear` with both its quote marks; None where what was meant is not plain."""
    meant = _UNQUOTED.match(line_text)
    if meant is None or len(line_text) > LONGEST_MEANT or set(meant["value"]) & set("[{="):
        return None
    value = meant["value"].strip()
    if not any(mark.isalpha() for mark in value) and not _DAY_OR_ABOUT.fullmatch(value):
        return None
    return f'{meant["key"]} = "{value}"'
