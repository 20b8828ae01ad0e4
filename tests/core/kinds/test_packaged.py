"""Kinds read one by one, as they are asked for, against the whole files read at once."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import msgspec
import pytest

from leafturn.base.faults import Unreadable
from leafturn.kinds import packaged
from leafturn.kinds.defaults import fill
from leafturn.kinds.library import load_library
from leafturn.kinds.model import Kind
from leafturn.kinds.packaged import DATA, Kinds, Names, kind_tables, tables_of_kinds
from leafturn.toml.kept_tables import read_tables


@pytest.fixture(scope="module")
def whole() -> dict[str, Any]:
    """The kinds' tables by tomllib, Python's own TOML reader."""
    tables: dict[str, Any] = {}
    for file in sorted((DATA / "groups").rglob("*.toml")):
        tables |= tomllib.loads(file.read_text("utf-8"))
    for file in sorted((DATA / "cultivars").rglob("*.toml")):
        for name, further in tomllib.loads(file.read_text("utf-8")).items():
            for section, entries in further.items():
                tables[name][section] = tables[name].get(section, {}) | entries
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


def test_a_kind_may_be_laid_out_in_any_way_toml_allows(tmp_path: Path) -> None:
    plain = """
[pear]
botanical = "Pyrus communis"
common = ["european pear"]
family = "Rosaceae"
habit = "tree"
layer = "small tree"
cautions = [["Line one\\n[apple]\\n", "own guess", "guess"]]

[pear.bloom]
length_days = [9, "own guess", "guess"]

[medlar]
botanical = "Mespilus germanica"
family = "Rosaceae"
habit = "tree"
layer = "small tree"
"""
    free = (
        """
pear.bloom = {length_days = [9,
  "own guess",  # a remark
"guess"]}
  medlar . family = 'Rosaceae'
pear . "botanical"="Pyrus communis"
medlar.habit = "tree"
pear.common = [
    "european pear",
]
pear.habit = "tree"
medlar.botanical = "Mespilus germanica"
pear.layer = "small tree"
pear.family = "Rosaceae"
medlar.layer = "small tree"
pear.cautions = [
["""
        """'''Line one
[apple]
''', "own guess", "guess"],
]
"""
    )
    tables = [tables_of_kinds(read_tables({"groups/x.toml": text.encode()}, ())) for text in (plain, free)]
    assert dict(tables[0]) == dict(tables[1]) == tomllib.loads(free)
    assert tables[0].kind("pear") == tables[1].kind("pear")
    assert tables[1].names("pear") == Names("pear", "Pyrus communis", ("european pear",))


def test_a_kind_in_two_files_is_an_error_that_names_both(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "groups"
    folder.mkdir()
    (folder / "early.toml").write_text('[quince]\nbotanical = "a"\n\n["sea kale"]\nbotanical = "b"\n')
    (folder / "late.toml").write_text('\n["sea kale"]\nbotanical = "c"\n')
    monkeypatch.setattr(packaged, "DATA", tmp_path)
    files = {f"groups/{name}": (folder / name).read_bytes() for name in ("early.toml", "late.toml")}
    with pytest.raises(Unreadable) as raised:
        tables_of_kinds(read_tables(files, ()))
    assert raised.value.fault.sentence() == (
        'groups/late.toml, line 2: The kind "sea kale" stands in groups/early.toml, line 4 as well. '
        "Keep one of the two."
    )


def test_more_cultivars_of_a_kind_may_stand_in_a_file_of_their_own() -> None:
    kind = """
[quince]
botanical = "Cydonia oblonga"
family = "Rosaceae"
habit = "tree"
layer = "small tree"

[quince.cultivars.Vranja]
self_share = [0.5, "own guess", "guess"]
"""
    more = """
[quince.cultivars.Champion]
self_share = [0.4, "own guess", "guess"]

[quince.also_grown]
Portugal = ["Lusitanica"]
"""
    files = {"groups/pome.toml": kind.encode(), "cultivars/pome.toml": more.encode()}
    tables = tables_of_kinds(read_tables(files, ()))
    assert list(tables) == ["quince"]
    assert tables["quince"]["cultivars"].keys() == {"Vranja", "Champion"}
    assert tables["quince"]["also_grown"] == {"Portugal": ["Lusitanica"]}
    read = tables.kind("quince")
    assert read.cultivar_names == {"Vranja": (), "Champion": (), "Portugal": ("Lusitanica",)}
    assert read.cultivars["Champion"].self_share.value == 0.4


def test_only_group_files_hold_kinds() -> None:
    tables = tables_of_kinds(read_tables({"stages.toml": b"[pome]\n00 = 'at rest'\n"}, ()))
    assert len(tables) == 0
