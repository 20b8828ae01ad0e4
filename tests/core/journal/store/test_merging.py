"""Two copies of a journal written to apart: nothing is lost and each withdrawal hits its note."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from tests.samples.journal import HAND_WRITTEN, TODAY

from leafturn.journal.entries import Entry, HarvestNote, PlainNote, Withdrawal
from leafturn.journal.store import merging
from leafturn.journal.store.disk import locked
from leafturn.journal.store.errors import NotWritten
from leafturn.journal.store.merging import merge_files
from leafturn.journal.store.proof import prove
from leafturn.journal.store.store import Store
from leafturn.journal.withdrawals import not_withdrawn

FORMAT_1 = Path(__file__).parents[3] / "samples" / "journals" / "format-1.toml"


@pytest.fixture
def apart(tmp_path: Path) -> tuple[Path, Path]:
    """Copies of two: Anna adds 5 kg and takes back the first note; Ben adds 500 kg and takes that back."""
    anna, ben = tmp_path / "anna", tmp_path / "ben"
    anna.mkdir()
    first = Store(anna).append(PlainNote(on=TODAY, text="the gate stuck"), TODAY)
    Store(anna).append(HarvestNote(on=TODAY, plant="quince", kg=1.0), TODAY)
    shutil.copytree(anna, ben)
    Store(anna).append(HarvestNote(on=TODAY, plant="pear", kg=5.0), TODAY)
    Store(anna).withdraw(first.id, TODAY)
    slip = Store(ben).append(HarvestNote(on=TODAY, plant="pear", kg=500.0), TODAY)
    Store(ben).append(PlainNote(on=TODAY, text="a wren in the hedge"), TODAY)
    Store(ben).withdraw(slip.id, TODAY)
    return anna, ben


def file_of(folder: Path) -> Path:
    return folder / "journal" / "2027.toml"


def standing(folder: Path) -> list[str]:
    """What counts of a journal, in words, in order."""
    return sorted(said(entry) for entry in not_withdrawn(Store(folder).read().entries))


def said(entry: Entry) -> str:
    return f"{entry.plant} {entry.kg:g}" if isinstance(entry, HarvestNote) else str(entry.text)


MEANT = ["a wren in the hedge", "pear 5", "quince 1"]


@pytest.mark.parametrize("into", [0, 1])
def test_merging_in_either_order_keeps_every_note(apart: tuple[Path, Path], into: int) -> None:
    one, other = apart[into], apart[1 - into]
    before, others = file_of(one).read_bytes(), file_of(other).read_bytes()
    found = merge_files(file_of(one), file_of(other))
    assert file_of(one).read_bytes().startswith(before), "the file only grew"
    assert file_of(other).read_bytes() == others
    assert (len(found.added), found.renamed) == (3 if into == 0 else 2, 0)
    assert standing(one) == MEANT
    assert prove(one).faults == ()
    assert merge_files(file_of(one), file_of(other)).added == (), "a second time there is nothing to add"


def test_a_merge_waits_for_whoever_is_writing(
    apart: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(merging, "PATIENCE", 0.05)
    before = file_of(apart[0]).read_bytes()
    with locked(file_of(apart[0]).parent, 1), pytest.raises(NotWritten, match="another process"):
        merge_files(file_of(apart[0]), file_of(apart[1]))
    assert file_of(apart[0]).read_bytes() == before


@pytest.mark.parametrize("into", [0, 1])
def test_notes_of_one_put_under_those_of_the_other_by_hand(apart: tuple[Path, Path], into: int) -> None:
    one, other = apart[into], apart[1 - into]
    with file_of(one).open("ab") as file:
        file.write(b"\n" + file_of(other).read_bytes())
    assert standing(one) == MEANT


@pytest.mark.parametrize("into", [0, 1])
def test_a_conflict_copy_beside_the_file_is_read_too(apart: tuple[Path, Path], into: int) -> None:
    one, other = apart[into], apart[1 - into]
    copy = one / "journal" / "2027.sync-conflict-20270419-101530-ABCDEFG.toml"
    shutil.copy(file_of(other), copy)
    assert standing(one) == MEANT
    reading = Store(one).read()
    assert reading.faults == ()
    assert "leafturn book --merge journal/2027.toml" in reading.notes[0]
    kept = Store(one).append(PlainNote(on=TODAY, text="after"), TODAY)
    assert kept.file == "journal/2027.toml"
    assert copy.read_bytes() == file_of(other).read_bytes()
    merge_files(file_of(one), copy)
    copy.unlink()
    assert standing(one) == sorted([*MEANT, "after"])
    assert Store(one).read().notes == ()


def test_notes_by_hand_in_a_copy_count_once(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    file.parent.mkdir()
    file.write_text(HAND_WRITTEN + HAND_WRITTEN)
    copy = file.with_name("2027 (copy).toml")
    copy.write_text(HAND_WRITTEN + HAND_WRITTEN + HAND_WRITTEN.replace("12", "13"))
    assert [entry.kg for entry in Store(tmp_path).read().entries] == [12, 12, 13]
    assert [entry.kg for entry in merge_files(file, copy).added] == [13]


@pytest.mark.parametrize("union", [True, False])
def test_a_merge_line_by_line_keeps_every_note_whole(
    apart: tuple[Path, Path], union: bool, tmp_path: Path
) -> None:
    """As version control does: both sides' lines one after the other, or with marks that a hand deletes."""
    if shutil.which("git") is None:
        pytest.skip("git is not here")
    base = tmp_path / "base.toml"
    common = file_of(apart[0]).read_text().split("\n\n")[:3]
    base.write_text("\n\n".join(common) + "\n")
    command = [
        "git",
        "merge-file",
        *(["--union"] if union else []),
        file_of(apart[0]),
        base,
        file_of(apart[1]),
    ]
    subprocess.run(command, check=False, capture_output=True)
    text = file_of(apart[0]).read_text()
    assert ("<<<<<<<" in text) != union
    assert standing(apart[0]) == MEANT
    clean = [line for line in text.split("\n") if not line.startswith(("<<<<<<<", "=======", ">>>>>>>"))]
    file_of(apart[0]).write_text("\n".join(clean))
    assert standing(apart[0]) == MEANT
    assert Store(apart[0]).read().faults == ()


@pytest.mark.parametrize("into", [0, 1])
def test_ids_of_the_first_format_that_clash(tmp_path: Path, into: int) -> None:
    """Format 1 gave both copies the id .5 for their next note; each withdrawal still hits its own."""
    folders = [tmp_path / name for name in ("anna", "ben")]
    for folder, kilos, back in zip(folders, ("5.0", "700.0"), (False, True), strict=True):
        file_of(folder).parent.mkdir(parents=True)
        fields = f'on = 2027-04-19\nwhat = "harvest"\nplant = "pear"\nkg = {kilos}'
        text = f'\n[[entry]]\nbegin = true\nid = "2027-04-20.2"\n{fields}\nend = true\n'
        if back:
            fields = 'on = 2027-04-19\nwhat = "withdraw"\nentry = "2027-04-20.2"'
            text += f'\n[[entry]]\nbegin = true\nid = "2027-04-20.3"\n{fields}\nend = true\n'
        file_of(folder).write_text(FORMAT_1.read_text() + text)
    one, other = folders[into], folders[1 - into]
    by_hand = tmp_path / "hand"
    file_of(by_hand).parent.mkdir(parents=True)
    file_of(by_hand).write_text(file_of(one).read_text() + "\n" + file_of(other).read_text())
    assert merge_files(file_of(one), file_of(other)).renamed == 1
    for folder in (one, by_hand):
        kilos = [e.kg for e in not_withdrawn(Store(folder).read().entries) if isinstance(e, HarvestNote)]
        assert kilos == [4.5, 5.0], folder
    assert Store(one).read().faults == ()


def test_a_withdrawal_without_its_note_takes_back_no_other(tmp_path: Path) -> None:
    """As when only half of the other's notes came over."""
    kept = Store(tmp_path).append(HarvestNote(on=TODAY, plant="pear", kg=5.0), TODAY)
    wrong = Withdrawal(on=TODAY, entry=kept.id, was="2027-04-19, pear: picked 500 kg", mark="0123abcd")
    Store(tmp_path).append(wrong, TODAY)
    reading = Store(tmp_path).read()
    assert [said(entry) for entry in not_withdrawn(reading.entries)] == ["pear 5"]
    assert ["picked 500 kg" in fault.message for fault in reading.faults] == [True]


def test_a_note_mended_by_hand_can_be_taken_back_before_and_after(tmp_path: Path) -> None:
    store = Store(tmp_path)
    first, second = store.append_many([HarvestNote(on=TODAY, plant="pear", kg=k) for k in (5.0, 6.0)], TODAY)
    store.withdraw(first.id, TODAY)
    text = file_of(tmp_path).read_text().replace("kg = 5.0", "kg = 5.5").replace("kg = 6.0", "kg = 6.5")
    file_of(tmp_path).write_text(text)
    store.withdraw(second.id, TODAY)
    assert standing(tmp_path) == []
    assert store.read().faults == ()


@pytest.mark.parametrize(
    ("damage", "why"),
    [
        (b'\n[[entry]]\nwhat = "look\n', "quote mark"),
        (b"\n[[entry]] # 2027-04-19.9.abcd\nnote = { id", "cut short"),
        (b"\xff\xfe", "as UTF-8 text"),
    ],
)
@pytest.mark.parametrize("side", [0, 1])
def test_what_cannot_be_read_is_not_merged(
    apart: tuple[Path, Path], damage: bytes, why: str, side: int
) -> None:
    with file_of(apart[side]).open("ab") as file:
        file.write(damage)
    before = file_of(apart[0]).read_bytes()
    with pytest.raises(NotWritten, match=why):
        merge_files(file_of(apart[0]), file_of(apart[1]))
    assert file_of(apart[0]).read_bytes() == before


def test_what_is_not_there_is_not_merged(apart: tuple[Path, Path]) -> None:
    before = file_of(apart[0]).read_bytes()
    with pytest.raises(NotWritten, match=r"cannot be read: .*\. Nothing was merged\."):
        merge_files(file_of(apart[0]), apart[1] / "nowhere.toml")
    assert file_of(apart[0]).read_bytes() == before


def test_more_than_is_read_is_not_merged(apart: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch) -> None:
    into, other = (file_of(folder) for folder in apart)
    monkeypatch.setattr(merging, "MOST_BYTES", max(len(into.read_bytes()), len(other.read_bytes())))
    before = into.read_bytes()
    with pytest.raises(NotWritten, match=r"Together they would hold .* is the most that is read"):
        merge_files(into, other)
    assert into.read_bytes() == before


def test_the_proof_says_which_file_it_could_not_look_through(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.append(PlainNote(on=TODAY, text="a wren"), TODAY)
    (tmp_path / "journal" / "2026.toml").mkdir()
    found = prove(tmp_path)
    assert [fault.file for fault in found.faults] == ["journal/2026.toml"]
    assert (found.whole, found.notes) == (False, 1)


def test_the_proof_finds_what_is_missing_changed_or_cut(tmp_path: Path) -> None:
    store = Store(tmp_path)
    for kilos in (1.0, 2.0, 3.0):
        store.append(HarvestNote(on=TODAY, plant="pear", kg=kilos), TODAY)
    whole = file_of(tmp_path).read_text()
    found = prove(tmp_path)
    assert (found.whole, found.notes, found.files[0].sealed) == (True, 3, 3)
    blocks = whole.split("\n\n")
    file_of(tmp_path).write_text("\n\n".join([blocks[0], blocks[1], blocks[3]]))
    assert ["2027-04-19.2 is not there" in fault.message for fault in prove(tmp_path).faults] == [True]
    file_of(tmp_path).write_text(whole.replace("kg = 2.0", "kg = 7.0"))
    found = prove(tmp_path)
    assert (found.whole, found.files[0].mended) == (True, 1)
    assert "was changed by hand" in found.remarks[0]
    file_of(tmp_path).write_text(whole[:-20])
    assert ["cut short" in fault.message for fault in prove(tmp_path).faults] == [True]
    assert file_of(tmp_path).read_text() == whole[:-20], "a proof moves nothing"
