"""Every check on a file of kinds, each by one thing put wrong in an entry that has nothing wrong."""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from leafturn.base.faults import Unreadable
from leafturn.kinds import packaged
from leafturn.kinds.checks import kinds_file
from leafturn.kinds.checks.kinds_file import KindsCheck, check_kinds_file
from leafturn.toml import kept_tables

ENTRY = """\
["snow pear"]
botanical = "Pyrus nivalis"
common = ["nivalis pear"]
family = "Rosaceae"
habit = "tree"
layer = "small tree"
traits = [["pome"], "common practice", "fair"]
cautions = [["The seeds give off prussic acid when crushed: ask before using them.", "own guess", "guess"]]

["snow pear".bloom]
full_after_days = [4, "own guess", "guess"]
length_days = [9, "own guess", "guess"]

["snow pear".harvest]
part = ["fruit", "own guess", "guess"]
after_full_bloom_days = [150, "own guess", "guess"]

["snow pear".pollination]
system = ["self-incompatible", "own guess", "guess"]
self_share = [0.02, "own guess", "guess"]
s_system = ["gametophytic", "incompatibility rules", "sure"]

["snow pear".frost]
pink = [[-2.9, -5.0], "own guess", "guess"]
full_bloom = [[-2.2, -4.4], "own guess", "guess"]

["snow pear".cultivars."Early White"]
s_alleles = [["S1", "S2"], "own guess", "guess"]

["snow pear".cultivars."Late White"]
clone_of = ["Early White", "own guess", "guess"]
harvest_offset_days = [12, "own guess", "guess"]
"""


Check = Callable[[str], KindsCheck]
parsed_once = functools.cache(kept_tables._parsed)  # some forty files are the same in every test


@pytest.fixture(autouse=True)
def library_is_parsed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the check of one folder keeps is not that of another, so the next test would parse all anew."""
    monkeypatch.setattr(kept_tables, "_parsed", parsed_once)


@pytest.fixture
def check(tmp_path: Path) -> Check:
    def checked(text: str) -> KindsCheck:
        file = tmp_path / "kinds.toml"
        file.write_text(text)
        return check_kinds_file(file)

    return checked


@pytest.fixture
def check_packaged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Check]:
    """The check of a file that lies among the packaged files of kinds."""

    def checked(text: str) -> KindsCheck:
        folder = tmp_path / "data" / "groups"
        folder.mkdir(parents=True)
        for file in packaged.DATA.rglob("*.toml"):
            copy = tmp_path / "data" / file.relative_to(packaged.DATA)
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(file.read_bytes())
        (folder / "fresh.toml").write_text(text)
        monkeypatch.setattr(packaged, "DATA", tmp_path / "data")
        monkeypatch.setattr(kinds_file, "DATA", tmp_path / "data")
        packaged.packaged_tables.cache_clear()
        return check_kinds_file(folder / "fresh.toml")

    yield checked
    packaged.packaged_tables.cache_clear()


@pytest.mark.parametrize(
    "file",
    [file for folder in ("groups", "cultivars") for file in sorted((packaged.DATA / folder).rglob("*.toml"))],
    ids=lambda file: file.stem,
)
def test_packaged_files_have_no_faults(file: Path) -> None:
    found = check_kinds_file(file)
    assert [fault.sentence() for fault in found.faults] == []
    assert found.remarks == ()
    assert found.kinds


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ('[quince.cultivars.Vranja]\nself_share = [0.5, "own guess", "guess"]', "Vranja stands in"),
        ("[quince.also_grown]\nVranja = []", "Vranja stands in"),
        ("[quince.bloom]\nlength_days = [9, 'own guess', 'guess']", "bloom belongs into"),
    ],
)
def test_a_file_of_further_cultivars_holds_nothing_else(
    check_packaged: Check, tmp_path: Path, written: str, says: str
) -> None:
    check_packaged(ENTRY)  # copies the packaged files
    packaged.packaged_tables.cache_clear()
    file = tmp_path / "data" / "cultivars" / "fresh.toml"
    file.write_text(written)
    faults = [fault.sentence() for fault in check_kinds_file(file).faults]
    assert any(says in fault and "groups/" in fault for fault in faults), faults


def test_a_whole_entry_has_no_faults_in_either_place(check: Check, check_packaged: Check) -> None:
    own, ours = check(ENTRY), check_packaged(ENTRY)
    assert own.kinds == ours.kinds == ("snow pear",)
    assert own.faults == ours.faults == ()
    assert own.remarks == ours.remarks == ()
    assert [gap.message for gap in own.assumed] == [gap.message for gap in ours.assumed] != []


WRONG = tomllib.loads(Path(__file__).with_name("wrong_entries.toml").read_text("utf-8"))


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("wrong", WRONG)
def test_what_is_wrong_is_said_with_its_line(wrong: str, check: Check, check_packaged: Check) -> None:
    row = WRONG[wrong]
    assert row["written"] in ENTRY
    text = ENTRY.replace(row["written"], row["instead"], 1)
    for found in (check(text), check_packaged(text)):
        said = [fault.sentence() for fault in found.faults]
        assert any(row["says"] in one for one in said), said
        assert all(fault.line for fault in found.faults)


@pytest.mark.parametrize(("sex", "clash"), [("", True), ("male", True), ("female", False), ("both", False)])
def test_a_share_of_its_own_wants_a_sex_that_bears(check: Check, sex: str, clash: bool) -> None:
    told = f'\nsex = ["{sex}", "own guess", "guess"]' if sex else ""
    text = ENTRY.replace('"self-incompatible"', '"dioecious"').replace(
        "harvest_offset_days", f'self_share = [0.5, "own guess", "guess"]{told}\nharvest_offset_days'
    )
    said = [fault.sentence() for fault in check(text).faults]
    assert (
        any("Late White: it sets alone, but the kind is dioecious: say its sex" in one for one in said)
        == clash
    )


def test_what_is_assumed_names_the_value_and_whose_it_is(check: Check) -> None:
    said = {gap.message for gap in check(ENTRY).assumed}
    assert (
        "snow pear does not say when its first flowers open (bloom.first_open_heat): 270 is taken, "
        "a guess for the family Rosaceae."
    ) in said
    assert (
        "snow pear does not say how tall it grows and what it shades (size.height_m): 14 is taken, "
        "a guess for plants of the habit tree."
    ) in said
    assert not any("how long it flowers" in one for one in said)  # the entry says it


def test_sources_in_own_words_are_remarked_in_a_stewards_file_and_faults_in_ours(
    check: Check, check_packaged: Check
) -> None:
    text = ENTRY.replace('"own guess", "guess"]', '"heat scael", "fair"]', 1).replace(
        '[9, "own guess", "guess"]', "9"
    )
    own, ours = check(text), check_packaged(text)
    assert own.faults == ours.remarks == ()
    assert [note.line for note in own.remarks] == [fault.line for fault in ours.faults] == [8, 12]
    assert own.remarks[0].hint == ours.faults[0].hint == "Did you mean heat scale?"
    assert "bloom.length_days has no source; this file is taken for it" in own.remarks[1].message
    assert 'Write [value, "where it is from", "fair"].' in ours.faults[1].hint


def test_a_kind_of_the_library_may_be_changed_by_a_steward_and_not_written_twice_by_us(
    check: Check, check_packaged: Check
) -> None:
    text = '\n[Pear.bloom]\nlength_days = [10, "own guess", "guess"]\n'
    own = check(text)
    assert own.kinds == ("pear",)
    assert own.faults == own.assumed == ()
    (remark,) = own.remarks
    assert remark.line == 2
    assert remark.message.startswith("pear is a kind of the library (groups/pome/pear.toml, line ")
    ours = check_packaged(text)
    (fault,) = ours.faults
    assert fault.sentence().startswith(
        'fresh.toml, line 2: The kind "pear" stands in groups/pome/pear.toml, line '
    )
    assert fault.hint == "Keep one of the two."


def test_a_name_that_looks_like_a_slip_is_asked_about(check: Check) -> None:
    found = check(ENTRY.replace("snow pear", "sea bukthorn"))
    (remark,) = found.remarks
    assert remark.hint == "Did you mean sea buckthorn?"


def test_two_kinds_of_one_file_may_not_claim_one_name(check: Check) -> None:
    text = ENTRY.replace("habit", 'synonyms = ["Pyrus alba"]\nhabit', 1)
    found = check(text + '\n[nashi-like]\nbotanical = "Pyrus nivalis"\nserves_for = ["pyrus alba"]\n')
    assert any('the relative "pyrus alba" belongs to snow pear.' in f.message for f in found.faults)
    assert any('the botanical name "Pyrus nivalis" belongs to snow pear.' in f.message for f in found.faults)


def test_one_kind_of_the_library_may_not_stand_twice_under_two_spellings(check: Check) -> None:
    found = check('["Sea-Buckthorn"]\nevergreen = false\n["sea buckthorn"]\nevergreen = false\n')
    (fault,) = found.faults
    assert (
        fault.sentence() == 'kinds.toml, line 3: sea buckthorn stands here twice, as "Sea-Buckthorn" before.'
    )


def test_what_cannot_be_read_is_one_sentence(check: Check, tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="decimal comma"):
        check("[pear.bloom]\nlength_days = 1,5\n")
    with pytest.raises(Unreadable, match="it is missing"):
        check_kinds_file(tmp_path / "none.toml")
    with pytest.raises(Unreadable, match="cannot be read"):
        check_kinds_file(tmp_path)
