"""Lines of tables, keys and list items, against texts whose lines are known from how they were written."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.toml.positions import TomlLines

GARDEN = '''# [[plant]] in a comment
[place]                       # line 2
name = "a [[plant]] in a text"
why = """
[[plant]]
kind = "no"
"""

[[plant]] # line 9: ]]
kind = 'pear # not a comment ['
at = [
  24, # [
  18,
]
guard = { year = 2012, height_cm = 60 }
[[plant]]
id = "x"
[plant.guard]
height_cm = 3
[[ plant ]]
"kind" = "apple"
mix = [{ what = "leaves", kg = 1 },
  { what = "straw ]", kg = 2 }, [1,
  2]]
climate.last_frost.usual = "04-24"
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("place",), 2),
        (("place", "name"), 3),
        (("place", "why"), 4),
        (("plant",), 9),
        (("plant", 0), 9),
        (("plant", 0, "kind"), 10),
        (("plant", 0, "at"), 11),
        (("plant", 0, "at", 0), 12),
        (("plant", 0, "at", 1), 13),
        (("plant", 0, "guard", "height_cm"), 15),
        (("plant", 1), 16),
        (("plant", 1, "guard"), 18),
        (("plant", 1, "guard", "height_cm"), 19),
        (("plant", 2), 20),
        (("plant", 2, "kind"), 21),
        (("plant", 2, "mix", 0, "kg"), 22),
        (("plant", 2, "mix", 1), 23),
        (("plant", 2, "mix", 1, "what"), 23),
        (("plant", 2, "mix", 2, 1), 24),
        (("plant", 2, "climate", "last_frost", "usual"), 25),
        (("plant", 2, "year"), 20),  # not there: its table's line
        (("heap",), None),
    ],
)
def test_line_of(path: tuple[str | int, ...], line: int | None) -> None:
    assert TomlLines(GARDEN).line_of(*path) == line


def test_list_of_inline_tables_after_a_heading_belongs_to_it() -> None:
    text = (
        '[place]\nlat = 1\nplant = [\n  { kind = "pear" },\n\n'
        '  # one more\n  { kind = "apple", role = [\n "a" ] },\n]\n'
    )
    lines = TomlLines(text)
    assert [lines.line_of("place", "plant", item) for item in (0, 1)] == [4, 7]
    assert lines.line_of("place", "plant", 1, "role", 0) == 8


def test_byte_order_mark_and_crlf_do_not_shift_lines() -> None:
    lines = TomlLines("\ufeff[place]\r\nlat = 1\r\n\r\n[[plant]]\r\nat = [\r\n1,\r\n2]\r\n")
    assert (lines.line_of("plant", 0), lines.line_of("plant", 0, "at", 1)) == (4, 7)


WORDS = st.text(st.sampled_from("abc[]{}#=,.'\\é 1\n"), max_size=12)
SCALARS = st.one_of(st.integers(0, 99), st.booleans(), WORDS)


def written(value: object) -> str:
    """A value as TOML, texts in the three ways that hold no line break of their own."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    text = str(value).replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{text}"'


@settings(max_examples=60)
@given(
    st.lists(
        st.tuples(st.dictionaries(st.sampled_from("pqrst"), SCALARS), st.lists(SCALARS), st.integers(0, 2)),
        max_size=8,
    )
)
def test_lines_follow_the_writer(tables: list[tuple[dict[str, object], list[object], int]]) -> None:
    """Tables with plain keys, a list over several lines, a long text and comments between."""
    text: list[str] = []
    expected: dict[tuple[str | int, ...], int] = {}
    for number, (plain, items, blanks) in enumerate(tables):
        text += ["# [[t]]"] * blanks
        text.append("[[t]]")
        expected["t", number] = len(text)
        for key, value in plain.items():
            text.append(f"{key} = {written(value)}")
            expected["t", number, key] = len(text)
        text.append("items = [")
        for place, item in enumerate(items):
            text.append(f"  {written(item)}, # ]")
            expected["t", number, "items", place] = len(text)
        text += ["]", 'long = """', "[[t]]", '"""', "after = 1"]
        expected["t", number, "after"] = len(text)
    whole = "\n".join(text)
    assert len(tomllib.loads(whole).get("t", [])) == len(tables)  # what was written is TOML
    lines = TomlLines(whole)
    assert {path: lines.line_of(*path) for path in expected} == expected


@settings(max_examples=60)
@given(st.text(st.sampled_from("ab=[]{}\"',.#\n\\ 1"), max_size=80))
def test_the_walk_ends_on_any_text(text: str) -> None:
    line = TomlLines(text).line_of("a")
    assert line is None or 1 <= line <= text.count("\n") + 1
