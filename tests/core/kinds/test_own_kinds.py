"""A steward's own kinds file laid over the library."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

import msgspec
import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.faults import MOST_FAULTS, Fault
from leafturn.kinds.cultivar_elsewhere import kind_of_cultivar
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Fact, Kind

KEYS = st.sampled_from(
    (
        "bloom", "first_open_heat", "habit", "layer", "traits", "cautions", "cultivars", "Comice", "family",
        "common", "system", "pollination", "full_bloom", "frost", "evergreen", "name", "guessed", "ploidy",
    )
)  # fmt: skip


def load(tmp_path: Path, text: str | bytes) -> tuple[Library, tuple[Fault, ...]]:
    file = tmp_path / "kinds.toml"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return load_library(file)


def test_a_single_fact_is_put_right_and_the_rest_stays(tmp_path: Path) -> None:
    library, faults = load(tmp_path, '[pear.bloom]\nfirst_open_heat = [190, "my notes", "sure"]\n')
    assert faults == ()
    pear = library.match("pear").kind
    assert pear.bloom.first_open_heat == Fact(190.0, "my notes", "sure")
    assert pear.bloom.length_days == load_library()[0].kinds["pear"].bloom.length_days
    assert library.cultivar(pear, "Comice") is not None
    before = load_library()[0].kinds["pear"].bloom.first_open_heat
    assert before is not None
    assert before.value != 190.0  # the packaged library is untouched


def test_a_new_kind_needs_only_what_is_known(tmp_path: Path) -> None:
    library, faults = load(
        tmp_path,
        """
["sand quince"]
botanical = "Cydonia arenaria"
common = ["dune quince"]
family = "Rosaceae"
habit = "shrub"

["sand quince".bloom]
first_open_heat = 300

["sand quince".cultivars.Windward]
self_share = 0.9
""",
    )
    assert faults == ()
    match = library.match("Dune Quinces")
    assert match.exact
    kind = match.kind
    assert (kind.layer, kind.guessed) == ("shrub", False)
    assert kind.bloom.first_open_heat == Fact(300.0, "kinds.toml", "fair")  # a plain value is the file's own
    assert kind.bloom.length_days is not None
    assert kind.bloom.length_days.sure == "guess"
    assert kind.cultivars["Windward"].self_share == Fact(0.9, "kinds.toml", "fair")


def test_own_names_go_before_borrowed_ones(tmp_path: Path) -> None:
    library, _ = load(
        tmp_path, '["river birch"]\nbotanical = "Betula nigra"\nfamily = "Betulaceae"\nhabit = "tree"\n'
    )
    match = library.match("river birch")
    assert (match.kind.name, match.exact) == ("river birch", True)


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ('[pear.bloom]\nfirst_open_heat = ["late", "me", "fair"]\n', 2, "bloom.first_open_heat"),
        (
            '[pear.bloom]\nlength_days = [9, "me", "fair"]\nfirst_heat = [9, "me", "fair"]\n',
            3,
            "bloom.first_heat",
        ),
        ('[pear.bloom]\nfirst_open_heat = [200, "me", "certain"]\n', 2, "bloom.first_open_heat"),
        ('[pear]\n\ntraits = [["pome", "stone frut"], "me", "fair"]\n', 3, "stone frut"),
        ('[pear]\nhabit = "treeish"\n', 2, "habit"),
        ('[pear.cultivars.Comice]\nploidy = ["two", "me", "fair"]\n', 2, "ploidy"),
        ("pear = 3\n", 1, "pear is not a kind"),
        ("[pear]\nleafs = 1\n", 2, "leafs"),
        ('[pear.pollination]\nsystem = ["selfish", "me", "fair"]\n', 2, "pollination.system"),
        ('[pear]\ncautions = [["Do not eat.", "me"]]\n', 2, "cautions.0"),
        ('[pear.hardiness]\nzone = ["cold", "me", "fair"]\n', 2, "hardiness.zone"),
        ('[pear.forage]\nnectar = [4, "me", "fair"]\npolen = [4, "me", "fair"]\n', 3, "forage.polen"),
        (
            '[pear]\nheat_sums = [["bloom", 300, 310, "degrees", 43, "01-01", "average", "me", "fair"]]\n',
            2,
            "heat_sums.0",
        ),
        ('[pear]\ninvasive_where = ["here", "me"]\n', 2, "invasive_where"),
    ],
)
def test_what_is_wrong_is_said_with_its_line_and_the_rest_counts(
    tmp_path: Path, text: str, line: int, said: str
) -> None:
    library, faults = load(tmp_path, text + '\n[quince.bloom]\nfirst_open_heat = [333, "me", "fair"]\n')
    assert [fault.line for fault in faults] == [line]
    assert said in faults[0].message
    assert faults[0].file == "kinds.toml"
    assert library.kinds["quince"].bloom.first_open_heat == Fact(333.0, "me", "fair")
    assert library.kinds["pear"].botanical == "Pyrus communis"
    ours, theirs = library.kinds["pear"], load_library()[0].kinds["pear"]
    assert (ours.habit, ours.pollination) == (theirs.habit, theirs.pollination)
    assert (
        ours.bloom.first_open_heat == theirs.bloom.first_open_heat
    )  # a bad value does not blot out a good one


def test_a_misspelt_entry_names_the_nearest(tmp_path: Path) -> None:
    _, faults = load(tmp_path, '[pear.bloom]\nfirst_open_heet = [9, "me", "fair"]\n')
    assert faults[0].hint == "Did you mean first_open_heat?"


def test_a_sum_of_ones_own_is_kept_in_its_own_unit(tmp_path: Path) -> None:
    library, faults = load(
        tmp_path,
        '[pear]\nheat_sums = [["full bloom", 300, 320, "F-days", 43, "03-01", "average", "me", "fair"]]\n',
    )
    assert faults == ()
    (own,) = library.kinds["pear"].heat_sums
    assert (own.low, own.unit, own.base, own.start, own.method) == (300, "F-days", 43, "03-01", "average")


def test_a_sum_not_understood_says_how_to_write_it(tmp_path: Path) -> None:
    _, faults = load(tmp_path, '[pear]\nheat_sums = [["full bloom", 300]]\n')
    assert faults[0].hint.startswith("Write each sum as")


def test_several_faults_in_one_kind_are_all_said(tmp_path: Path) -> None:
    text = (
        '[pear.bloom]\nfirst_open_heat = ["x", "me", "fair"]\nlength_days = ["y", "me", "fair"]\nspread = 1\n'
    )
    library, faults = load(tmp_path, text)
    assert sorted(fault.line or 0 for fault in faults) == [2, 3, 4]
    assert library.kinds["pear"].bloom.full_after_days is not None


@pytest.mark.parametrize("day", ["September", "02-30", "9-20", "13-01"])
def test_a_day_that_is_none_is_said_and_not_used(tmp_path: Path, day: str) -> None:
    text = (
        f'[pear.bloom]\nstart = "{day}"\n[pear.harvest]\nnot_before = "{day}"\n'
        f'["persian walnut".harvest]\nseason = [["05-01", "{day}"], "me", "fair"]\n'
    )
    library, faults = load(tmp_path, text)
    assert sorted(fault.line or 0 for fault in faults) == [2, 4, 6]
    assert all('as in "09-20"' in fault.hint for fault in faults)
    pear, packaged = library.kinds["pear"], load_library()[0].kinds["pear"]
    assert pear.bloom.start == packaged.bloom.start
    assert pear.harvest.not_before is None


@pytest.mark.parametrize(
    "text",
    [
        b"\xff\xfe\x00",
        b"[pear\n",
        b"a = [[[[[[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]]]]]\n",
        b"[a]\nb = 1\nb = 2\n",
    ],
)
def test_a_broken_file_leaves_the_library_whole(tmp_path: Path, text: bytes) -> None:
    library, faults = load(tmp_path, text)
    assert len(faults) == 1
    assert library.kinds == load_library()[0].kinds


def test_a_missing_file_is_said(tmp_path: Path) -> None:
    library, faults = load_library(tmp_path / "kinds.toml")
    assert "cannot be read" in faults[0].message
    assert library.match("pear").exact


SCALARS = st.integers(-5, 5) | st.floats(-9, 9) | st.booleans() | st.sampled_from(["", "fair", "pome", "x"])
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=2),
    max_leaves=5,
)
NAMES = st.sampled_from(["pear", "new kind", "hazel"])


@pytest.mark.long
@settings(max_examples=60, deadline=None)
@given(st.dictionaries(NAMES, st.dictionaries(KEYS, VALUES, max_size=4), max_size=2))
def test_whatever_the_values_the_library_still_answers(tables: dict[str, dict[str, object]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        library, faults = load(Path(folder), tomli_w.dumps(tables))
    assert library.match("pear").kind.bloom.first_open_heat is not None
    assert all(fault.line for fault in faults)
    packaged = load_library()[0].kinds
    for kind in (kind for name, kind in library.kinds.items() if kind != packaged.get(name)):
        msgspec.convert(msgspec.to_builtins(kind), Kind)


def test_cultivars_that_are_no_table_are_said(tmp_path: Path) -> None:
    file = tmp_path / "kinds.toml"
    file.write_text("[pear]\ncultivars = 3\n")
    library, (fault,) = load_library(file)
    assert library.kinds["pear"].cultivars == load_library()[0].kinds["pear"].cultivars
    assert fault.sentence() == (
        "kinds.toml, line 2: pear: cultivars is no table, and was left out. "
        'Write [kind.cultivars."Name"] above the facts of each.'
    )


@pytest.mark.parametrize(
    "text",
    [
        "".join(f"[kind{n}]\nodd = 1\n" for n in range(4_000)),
        "[pear]\n" + "".join(f"odd{n} = 1\n" for n in range(4_000)),
        f"[{'k' * 15_000}]\n{'o' * 4_000} = 1\n",
        f'["pear"]\nhabit = "{"h" * 15_000}"\n',
        "[pear.cultivars]\n" + "".join(f"c{n} = 1\n" for n in range(4_000)),
    ],
    ids=["kinds", "entries", "long name", "long word", "cultivars"],
)
def test_very_much_that_is_wrong_is_told_briefly_and_soon(tmp_path: Path, text: str) -> None:
    (tmp_path / "kinds.toml").write_text(text)
    before = time.process_time()
    faults = load_library(tmp_path / "kinds.toml")[1]
    assert time.process_time() - before < 5
    assert 0 < len(faults) <= MOST_FAULTS + 1
    assert all(len(fault.sentence()) < 400 for fault in faults)


@pytest.mark.parametrize("botanical", ["", " ", "\\n"])
def test_a_botanical_name_of_spaces_alone_hides_no_kind(tmp_path: Path, botanical: str) -> None:
    library, _ = load(tmp_path, f'["bog pear"]\nbotanical = "{botanical}"\n')
    assert library.match("bog pear").exact
    assert kind_of_cultivar(library, library.kinds["bog pear"], "Comice") is None
