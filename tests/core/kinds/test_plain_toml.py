"""The fast reader of the packaged files against tomllib (Python's own TOML reader)."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest

from leafturn.kinds import plain_toml


def packaged() -> list[str]:
    return sorted(file.name for file in files("leafturn.kinds").joinpath("data").iterdir())


@pytest.mark.parametrize("name", packaged())
def test_every_packaged_file_is_plain_and_reads_the_same(name: str) -> None:
    text = files("leafturn.kinds").joinpath("data", name).read_text("utf-8")
    assert plain_toml._plain(text) == tomllib.loads(text)


@pytest.mark.parametrize(
    "text",
    [
        "a = 1 # a remark\n",
        "a = [1, 2,]\n",
        "a = { b = 1 }\n",
        "a.b = 1\n",
        "a = 'single'\n",
        'a = """\nlong\n"""\n',
        "a = [\n  1,\n  2,\n]\n",
        "  a = 1\n",
        "a=1\n",
        "[a]\nb = 1\n[c]\n[a.d]\ne = true\n",
        "[[x]]\na = 1\n[[x]]\na = 2\n",
        "[[x.y]]\na = 1\n",
        '["a.b".c]\nd = "\\u00e9"\n',
        "x = 2027-04-19\n",
        "x = 0x1f\n",
    ],
)
def test_the_rest_of_toml_is_left_to_tomllib(text: str) -> None:
    assert plain_toml.loads(text) == tomllib.loads(text)


@pytest.mark.parametrize(
    "text", ["a = 1\na = 2\n", "[a]\n[a]\n", "a = [1\n", "[a\n", "x = 1\n[[x]]\n", "[x]\n[[x]]\n"]
)
def test_what_is_no_toml_is_refused_as_tomllib_does(text: str) -> None:
    with pytest.raises(tomllib.TOMLDecodeError):
        plain_toml.loads(text)
