"""Kinds read one by one, as they are asked for, against the whole files read at once."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any

import msgspec
import pytest

from leafturn.kinds.defaults import fill
from leafturn.kinds.library import load_library
from leafturn.kinds.model import Kind
from leafturn.kinds.packaged import NOT_KINDS, Kinds, Later, Names, Tables, kind_tables


@pytest.fixture(scope="module")
def whole() -> dict[str, Any]:
    """The kinds' tables by tomllib, Python's own TOML reader."""
    tables: dict[str, Any] = {}
    for file in files("leafturn.kinds").joinpath("data").iterdir():
        if file.name.removesuffix(".toml") not in NOT_KINDS:
            tables |= tomllib.loads(file.read_text("utf-8"))
    return tables


def test_tables_one_by_one_are_those_of_the_whole_files(whole: dict[str, Any]) -> None:
    assert dict(kind_tables()) == whole


def test_kinds_one_by_one_are_those_of_the_whole_files(whole: dict[str, Any]) -> None:
    library, _ = load_library()
    eager = msgspec.convert(whole, dict[str, Kind])
    for name, kind in eager.items():
        named = msgspec.structs.replace(kind, name=name)
        assert library.kinds[name] == fill(named, library.defaults), name
    assert set(library.kinds) == set(eager)


def test_names_are_found_without_the_facts(whole: dict[str, Any]) -> None:
    fresh = Kinds(kind_tables(), load_library()[0].defaults)
    for names in fresh.names():
        table = whole[names.name]
        assert names.botanical == table["botanical"]
        assert names == Names.of(msgspec.structs.replace(msgspec.convert(table, Kind), name=names.name))
    assert not fresh._kinds  # nothing was decoded on the way


def test_a_kind_is_decoded_once_and_asking_whether_it_is_there_decodes_nothing() -> None:
    fresh = Kinds(kind_tables(), load_library()[0].defaults)
    assert "quince" in fresh
    assert "no such kind" not in fresh
    assert not fresh._kinds
    assert fresh["quince"] is fresh["quince"]
    with pytest.raises(KeyError):
        fresh["no such kind"]


def test_an_added_kind_stands_before_the_packaged_one() -> None:
    library, _ = load_library()
    own = msgspec.structs.replace(library.kinds["quince"], common=("bee quince",))
    laid = Kinds(kind_tables(), library.defaults, {"quince": own})
    assert laid["quince"] is own
    assert len(laid) == len(library.kinds)
    assert [names.common for names in laid.names() if names.name == "quince"] == [("bee quince",)]


def test_a_mapping_read_later_is_read_once() -> None:
    read: list[int] = []

    def tables() -> dict[str, int]:
        read.append(1)
        return {"one": 1}

    later = Later(tables)
    assert not read
    assert (later["one"], len(later), list(later)) == (1, 1, ["one"])
    assert read == [1]


def test_long_lists_of_names_are_read_too() -> None:
    tables = Tables(
        {"x": '[x]\nbotanical = "X y"\ncommon = [\n  "a",\n  "b"\n]\n\n[x.bloom]\nlength_days = 1\n'}
    )
    assert tables.names("x") == Names("x", "X y", ("a", "b"))
