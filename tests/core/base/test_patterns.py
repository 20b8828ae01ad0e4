"""Patterns that are compiled at their first use answer as those of `re` do (the standard library)."""

from __future__ import annotations

import re

import pytest

from leafturn.base.patterns import pattern


@pytest.mark.parametrize("written", [r"(\d+)-(\w+)", r"^#.*$", "[äß]+"])
@pytest.mark.parametrize("flags", [0, re.MULTILINE, re.IGNORECASE])
def test_answers_as_re_does(written: str, flags: int) -> None:
    text = "# one\n12-elm 7-ash\nÄß\n# two"
    found, known = pattern(written, flags), re.compile(written, flags)
    assert found.findall(text) == known.findall(text)
    assert found.sub("-", text) == known.sub("-", text)
    assert found.split(text) == known.split(text)
    assert (found.pattern, found.flags, found.groups) == (known.pattern, known.flags, known.groups)


def test_bytes_are_searched_too() -> None:
    assert pattern(rb"\d+").findall(b"1 ash, 22 elms") == [b"1", b"22"]


def test_what_cannot_be_read_is_told_at_the_first_use() -> None:
    unread = pattern("(")
    with pytest.raises(re.error):
        unread.search("")
