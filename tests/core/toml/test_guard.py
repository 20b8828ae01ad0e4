"""Whatever the bytes, the answer is the tables or one plain sentence with its line."""

from __future__ import annotations

import tomllib
import tracemalloc
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bench.timing import best_of

from leafturn.base.faults import Unreadable
from leafturn.toml.guard import MOST_BYTES, parse_toml


def refusal(data: bytes | str) -> Unreadable:
    """The refusal of a file called garden.toml."""
    with pytest.raises(Unreadable) as caught:
        parse_toml(data.encode() if isinstance(data, str) else data, "garden.toml")
    return caught.value


def test_plain_file_reads_as_tomllib_reads_it() -> None:
    text = '[place]\nlat = 46.9\n[[plant]]\nkind = "pear" # a "note" with [brackets\nat = [\n  1,\n  2 ]\n'
    assert parse_toml(text.encode(), "garden.toml") == tomllib.loads(text)


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_byte_order_mark_and_crlf_are_accepted(mark: bytes, line_end: str) -> None:
    text = f'lat = 46.9{line_end}name = "Weir"{line_end}'
    assert parse_toml(mark + text.encode(), "garden.toml") == {"lat": 46.9, "name": "Weir"}


BROKEN = {
    "unclosed text": ('a = 1\nkind = "pear\nyear = 2012\n', 2, 'Write kind = "pear"'),
    "unopened text": ('a = 1\nkind = pear"\n', 2, 'Write kind = "pear"'),
    "text without quote marks": ("kind = pear\n", 1, 'Write kind = "pear"'),
    "apostrophe": ("cultivar = Hall's Giant\n", 1, 'Write cultivar = "Hall\'s Giant"'),
    "word processor's quote marks": ("kind = “pear”\n", 1, 'Write kind = "pear"'),
    "place without quote marks": ("\n\nat = 8 m west of x\n", 3, 'Write at = "8 m west of x"'),
    "unclosed long text": ('a = 1\n\nwhy = """one\ntwo\n\n', 3, "is never closed"),
    "unclosed long literal": ("why = '''one\n", 1, "is never closed"),
    "unclosed list": ("a = 1\nat = [24, 18\nheight_m = 3\n", 2, "Add the ]"),
    "unclosed list at the end": ("a = 1\nat = [24, 18\n\n\n", 2, "Add the ]"),
    "list without commas": ("a = 1\nat = [24 18]\n", 2, "Commas stand between items"),
    "unclosed heading": ('[place]\nlat = 3\n[[plant]\nkind = "x"\n', 3, "Write [[plant]]"),
    "unclosed inline table": ("guard = { year = 2012\n", 1, "on one line"),
    "inline table over lines": ('plant = [\n{ kind = "a",\nyear = 3 },\n]\n', 2, "on one line"),
    "comma before the brace": ('plant = [\n{ kind = "a", },\n]\n', 2, "none before the }"),
    "no comma in an inline table": ("x = { a = 1 b = 2 }", 1, "is missing"),
    "key twice": ("[place]\nlat = 1\nlon = 2\nlat = 3\n", 4, "on lines 2 and 4"),
    "key twice in an inline table": ("x = { a = 1, a = 2 }", 1, "twice"),
    "table twice": ("[place]\nlat = 1\n[rule]\n[place]\n", 4, "stands in the file twice"),
    "list and tables": ("plant = [{ a = 1 }]\n[[plant]]\nb = 1\n", 2, "one form"),
    "colon": ("lat: 46.9\n", 1, "Write lat = 46.9"),
    "decimal comma": ("lat = 46,9\n", 1, "Write lat = 46.9"),
    "comma at the end": ("year = 2012,\n", 1, "Write year = 2012"),
    "no value": ("year =\n", 1, "no value"),
    "leading nought": ("year = 046\n", 1, "Write year = 46"),
    "capital True": ("public = True\n", 1, "Write public = true"),
    "backslash": ('weather = "C:\\garden.csv"\n', 1, "Write it twice"),
    "no such date": ("when = 2027-02-30\n", 1, "no calendar has"),
    "two on a line": ('a = "x" b = "y"\n', 1, "own line"),
    "prose": ("hello there\n", 1, "name = value"),
    "accented name": ("größe = 3\n", 1, "use only a-z"),
    "lone carriage return": ("a = 1\nb = 2\rc = 3\n", 2, "line ends"),
    "old line ends": ("a = 1\rb = 2\r", 1, "line ends"),
    "control character": ('a = 1\nb = "\x01"\n', 2, "0x01"),
    "not a number": ("a = 1\nb = nan\n", 2, "b is nan"),
    "too large for a float": ("a = 1\nb = [1,\n2,\n1e309]\n", 4, "b is inf"),
    "infinite in a table": ("[[plant]]\n[[plant]]\nheight_m = inf\n", 3, "height_m is inf"),
    "five thousand digits": ("a = 1\nb = " + "1" * 5000 + "\n", 2, "thousands of digits"),
    "digits in a text do not mislead": ('a = "' + "1" * 5000 + '"\nb = ' + "1" * 5000 + "\n", 2, "digits"),
    "more than 64 bits": ("a = 1\nb = 0x" + "f" * 17 + "\n", 2, "64 bits"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_broken_file_is_said_with_its_line_and_what_to_write(name: str) -> None:
    text, line, words = BROKEN[name]
    fault = refusal(text).fault
    assert fault.line == line
    assert words in f"{fault.message} {fault.hint}"
    assert "\n" not in fault.sentence()


def test_bytes_that_are_not_utf8_are_said_with_their_line() -> None:
    fault = refusal(b"a = 1\nname = 'caf\xe9'\n").fault
    assert (fault.line, "0xe9" in fault.message) == (2, True)
    assert "UTF-16" in refusal("a = 1".encode("utf-16")).fault.message


# Each of these costs tomllib a recursion error, a value error, or memory and time without bound.
HOSTILE = {
    "nested brackets": b"x = " + b"[" * 5_000,
    "nested brackets over lines": b"x = " + b"[\n" * 5_000,
    "nested braces": b"x = " + b"{ a = " * 500,
    "dotted key": b".".join([b"a"] * 9_000) + b" = 1\n",
    "long dotted key": b".".join([b"a"] * 20_000) + b" = 1\n",
    "dotted key in quote marks": b".".join([b'"a"'] * 4_000) + b" = 1\n",
    "dotted heading": b"[" + b".".join([b"a"] * 9_000) + b"]\n",
    "dotted key in braces": b"x = { " + b".".join([b"a"] * 9_000) + b" = 1 }\n",
    "many dotted keys": b"".join(b"a%d.b.c.d.e.f=1\n" % number for number in range(180_000)),
    "many tables": b"[[p]]\n" * 600_000,
    "many braces": b"x=[" + b"{},\n" * 900_000 + b"]",
    "many items": b"x=[" + b"1,\n" * 1_300_000 + b"]",
    "long line": b"x = '" + b"a" * 30_000 + b"'",
    "too large": b"#" * (MOST_BYTES + 1),
    "huge unclosed text": b'a = 1\nb = """' + b"x\n" * 1_900_000,
    "huge unclosed text of escapes": b'a = 1\nb = """' + b"\\\\\n" * 1_300_000,
    "huge unclosed text of quote marks": b'a = 1\nb = """' + b'""\\\n' * 900_000,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_file_is_refused(name: str) -> None:
    assert refusal(HOSTILE[name]).fault.message


@pytest.mark.parametrize("name", ["dotted key", "dotted heading", "dotted key in braces", "many dotted keys"])
def test_refusing_a_dotted_key_bomb_takes_no_memory_to_speak_of(name: str) -> None:
    data = HOSTILE[name]
    tracemalloc.start()
    try:
        refusal(data)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 20_000_000 + 3 * len(data)


@pytest.mark.bench
@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_file_is_refused_at_once(name: str) -> None:
    """In 0.2 s where tomllib reads a garden of 2,000 plants in 92 ms: as a ratio, since machines differ."""
    data = HOSTILE[name]
    plant = '[[plant]]\nid = "p"\nkind = "common ash"\nat = "8 m west of p"\nyear = 1928\nguild = "ash"\n'
    garden = (plant + f'why = "{"a" * 190}"\n') * 2_000
    assert 560_000 < len(garden) < 580_000
    refused, read = best_of(lambda: refusal(data), lambda: tomllib.loads(garden))
    assert refused < 200 / 92 * read


def test_a_garden_at_the_limits_is_read() -> None:
    plants = "".join(
        f'[[plant]]\nid = "plant-{number}"\nkind = "pear"\nat = [{number}, 1.5]\nguard = {{ year = 2020 }}\n'
        f'why = """It stood\nhere. {{ [ " ."""\n'
        for number in range(5_000)
    )
    assert len(parse_toml(plants.encode(), "garden.toml")["plant"]) == 5_000


def read_or_refused(data: bytes) -> dict[str, Any] | Unreadable:
    """The tables, or the refusal; anything else that is raised fails the test."""
    try:
        return parse_toml(data, "garden.toml")
    except Unreadable as refused:
        return refused


@settings(max_examples=60)
@given(st.binary(max_size=200))
def test_any_bytes_read_or_are_refused(data: bytes) -> None:
    answer = read_or_refused(data)
    if isinstance(answer, Unreadable):
        assert str(answer).startswith("garden.toml")
    else:
        assert answer == tomllib.loads(data.decode("utf-8-sig"))


PIECES = [
    *(
        "a",
        "b",
        "kind",
        " = ",
        "=",
        '"',
        '"""',
        "'",
        "'''",
        "[",
        "]",
        "[[",
        "]]",
        "{",
        "}",
        ",",
        ".",
        "\n",
        "\r\n",
    ),
    *(
        "#",
        " ",
        "\t",
        "\\",
        "\\u",
        "1",
        "-",
        "0x",
        "1e9",
        "inf",
        "nan",
        "true",
        "2027-04-19",
        "é",
        "\ufeff",
        "\x00",
    ),
    *('a = "b"\n', "b = [1, 2]\n", "[a]\n", "[[b]]\n", "1 = { a = 1 }\n"),
]
TEXTS = st.lists(st.sampled_from(PIECES), max_size=40).map("".join)


@settings(max_examples=60)
@given(TEXTS)
def test_any_text_reads_as_tomllib_reads_it_or_is_refused_within_the_file(text: str) -> None:
    answer = read_or_refused(text.encode())
    if isinstance(answer, Unreadable):
        line = answer.fault.line
        assert line is None or 1 <= line <= text.count("\n") + text.count("\r") + 1
    else:
        assert answer == tomllib.loads(text.removeprefix("\ufeff"))


@settings(max_examples=60)
@given(TEXTS)
def test_of_short_texts_that_tomllib_reads_only_endless_numbers_and_long_names_are_refused(text: str) -> None:
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return
    answer = read_or_refused(text.encode())
    if isinstance(answer, Unreadable):
        assert any(words in answer.fault.message for words in (" is inf", " is nan", "dots", "deep"))
