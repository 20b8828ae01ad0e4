"""The keys p and e: a paper in few keys, its ticks entered all or not at all."""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
from pathlib import Path

import pytest
from fake_almanac import FakeAlmanac
from fake_garden import ON
from hostile import HOSTILE, raw_controls
from screens import screen_text, send_keys, settled
from test_hostile import hostile_almanac
from test_keys import press, typed

from leafturn.assembly.other_gardens import NamedGarden
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk import paper_keys
from leafturn_tui.pages import pages
from leafturn_tui.papers import week as week_paper
from leafturn_tui.papers.files import as_text, earlier_paper, write_paper


@dataclasses.dataclass(frozen=True)
class WithOthers(FakeAlmanac):
    """A garden whose file names others."""

    others: tuple[NamedGarden[FakeAlmanac], ...] = ()

    def also(self) -> tuple[NamedGarden[FakeAlmanac], ...]:
        return self.others


SHEET = {"early-plum:cover:2027", "bay-2:turn:2027"}


@pytest.fixture
def almanac(tmp_path: Path) -> FakeAlmanac:
    return FakeAlmanac(folder=tmp_path, log=[])


def paper(folder: Path) -> str:
    (found,) = (folder / "papers").glob("*.txt")
    return found.read_text(encoding="utf-8")


@pytest.mark.long
def test_a_week_sheet_in_two_keys_on_every_page(tmp_path: Path) -> None:
    for digit in pages():
        folder = tmp_path / digit
        folder.mkdir()
        seen = press(digit, "p", "enter", almanac=FakeAlmanac(folder=folder, log=[]))
        assert "Week sheet 16-A is in papers/week-2027-16-A.txt" in seen.text
        assert "Week sheet 16-A" in paper(folder)
        assert (seen.last.what, seen.last.sheet, {*seen.last.tasks} >= SHEET) == ("sheet", "16-A", True)


def test_the_same_sheet_is_noted_once(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "p", "enter", almanac=almanac)
    assert [e.what for e in seen.almanac.log] == ["sheet"]


def test_a_changed_sheet_gets_a_new_letter(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "space", "p", "enter", almanac=almanac)
    assert [getattr(e, "sheet", None) for e in seen.almanac.log] == ["16-A", None, "16-B"]
    assert "early-plum:cover:2027" not in seen.almanac.log[2].tasks


def test_ticks_are_entered_by_line(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "e", *typed("1 2"), "enter", almanac=almanac)
    lines = seen.almanac.log[0].tasks
    assert [(e.what, e.task, e.on) for e in seen.almanac.log[1:]] == [("done", lines[n], ON) for n in (0, 1)]
    assert all((e.by, e.minutes) == (None, None) for e in seen.almanac.log[1:])
    assert "sheet 16-A: done: 1 " in seen.text


def test_ticks_may_say_who_did_them_and_in_how_many_minutes(almanac: FakeAlmanac) -> None:
    """Minutes of several lines are shared out as the jobs were reckoned to take."""
    seen = press("p", "enter", "e", *typed("1 2 by Ann 90"), "enter", almanac=almanac)
    first, second = seen.almanac.log[1:]
    assert (first.by, second.by) == ("Ann", "Ann")
    assert first.minutes + second.minutes == pytest.approx(90.0)


def test_each_line_may_say_who_did_it_and_for_how_long(almanac: FakeAlmanac) -> None:
    keys = typed("16-A 1 by Ann 20; 2 by Ben 35; 3")
    seen = press("p", "enter", "e", *keys, "enter", almanac=almanac)
    lines = seen.almanac.log[0].tasks
    told = [(e.task, e.by, e.minutes) for e in seen.almanac.log[1:]]
    assert told == [(lines[0], "Ann", 20.0), (lines[1], "Ben", 35.0), (lines[2], None, None)]


@pytest.mark.parametrize("wrong", ["1 by Ann; 1 by Ben", "1; 99", "1;", "; 1"])
def test_a_line_in_doubt_notes_nothing(almanac: FakeAlmanac, wrong: str) -> None:
    seen = press("p", "enter", "e", *typed(wrong), "enter", almanac=almanac)
    assert [e.what for e in seen.almanac.log] == ["sheet"]


def test_ticks_of_another_gardens_sheet_go_into_its_journal(tmp_path: Path) -> None:
    for name in ("here", "there"):
        (tmp_path / name).mkdir()
    there, _ = week_paper.make_sheet(
        FakeAlmanac(folder=tmp_path / "there", log=[]),
        ON,
        {"16-A"},  # type: ignore[arg-type]
    )
    other = NamedGarden(path="../there", garden=there)
    here = WithOthers(folder=tmp_path / "here", log=[], others=(other,))  # type: ignore[arg-type]
    own, _ = week_paper.make_sheet(here, ON)  # type: ignore[arg-type]
    seen = press("e", *typed("16-B 1 by Ann"), "enter", almanac=own)  # type: ignore[arg-type]
    assert [(e.what, e.by) for e in there.log] == [("sheet", None), ("done", "Ann")]  # type: ignore[attr-defined]
    assert [e.what for e in here.log] == ["sheet"]
    assert "Noted in Weir Meadow: sheet 16-B: done: 1 " in seen.text


def test_what_was_seen_is_asked_for_when_its_line_is_ticked(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", almanac=almanac)
    line = seen.almanac.log[0].tasks.index("comice-2:note:2027") + 1
    found = week_paper.ticks(seen.almanac, str(line))  # type: ignore[arg-type]
    assert f"what was seen ({line}) is still to be noted, with b or n" in found.said


def test_each_tick_is_taken_back_by_itself(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "e", *typed("1 2"), "enter", "u", "enter", almanac=almanac)
    assert [e.what for e in seen.almanac.log] == ["sheet", "done", "done", "withdraw"]
    assert seen.last.entry == seen.almanac.log[2].id


def test_a_line_that_is_not_there_notes_nothing(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "e", *typed("1 99"), "enter", almanac=almanac)
    lines = len(seen.almanac.log[0].tasks)
    assert f"no line 99 on sheet 16-A; lines are 1 to {lines}" in seen.text
    assert [e.what for e in seen.almanac.log] == ["sheet"]
    assert seen.panel is not None  # so that it can be put right


def test_another_weeks_sheet_is_refused(almanac: FakeAlmanac) -> None:
    seen = press("p", "enter", "e", *typed("15-A 1"), "enter", almanac=almanac)
    assert "there is no sheet 15-A" in seen.text
    assert len(seen.almanac.log) == 1


def test_a_sheet_entered_the_week_after_says_on_which_day_it_is_noted(almanac: FakeAlmanac) -> None:
    noted, _ = week_paper.make_sheet(almanac, almanac.on)  # type: ignore[arg-type]
    later = dataclasses.replace(noted, on=ON + dt.timedelta(days=9))  # type: ignore[arg-type,type-var]
    found = week_paper.ticks(later, "1")
    assert found.said.endswith("noted on 28 Apr, though the sheet is of 19 Apr")
    assert "though the sheet" not in week_paper.ticks(noted, "1").said


def test_a_line_done_before_is_not_noted_twice(almanac: FakeAlmanac) -> None:
    again = ("e", "1", "enter")
    seen = press("p", "enter", *again, *again, almanac=almanac)
    assert [e.what for e in seen.almanac.log] == ["sheet", "done"]
    assert "Nothing new is noted" in seen.text


def test_without_a_sheet_nothing_can_be_entered() -> None:
    assert "No week sheet has been written yet" in press("e").text


def test_empty_and_escape_note_nothing(almanac: FakeAlmanac) -> None:
    assert "nothing is noted" in press("p", "enter", "e", "enter", almanac=almanac).text
    assert len(press("p", "enter", "e", "1", "escape", almanac=almanac).almanac.log) == 2


def test_a_journal_that_cannot_be_written_gives_a_sheet_without_a_number(tmp_path: Path) -> None:
    seen = press("p", "enter", almanac=FakeAlmanac(folder=tmp_path, read_only=True, log=[]))
    assert "it has no number" in " ".join(seen.text.split())
    assert "without a number" in paper(tmp_path)
    assert not seen.almanac.log


def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "papers").write_text("a file where the folder should be")
    assert "Not written:" in press("p", "enter", almanac=FakeAlmanac(folder=tmp_path, log=[])).text


def test_ticks_of_a_job_that_is_no_more_are_kept(almanac: FakeAlmanac) -> None:
    noted, _ = week_paper.make_sheet(almanac, almanac.on)  # type: ignore[arg-type]
    without = dataclasses.replace(noted, season_jobs=(), waiting=())  # type: ignore[arg-type]
    found = week_paper.ticks(without, "1")  # type: ignore[arg-type]
    assert [(e.what, e.task) for e in found.entries] == [("done", almanac.log[0].tasks[0])]


@pytest.mark.sweep(each=7)
@pytest.mark.parametrize("bad", HOSTILE)
def test_no_name_reaches_the_paper_raw(bad: str, tmp_path: Path) -> None:
    almanac = dataclasses.replace(hostile_almanac(bad), folder=tmp_path)
    seen = press("p", "enter", "e", *typed("1 2"), almanac=almanac)
    assert not raw_controls(seen.text)
    text = paper(tmp_path)
    assert not raw_controls(text)
    assert len(text.splitlines()) <= 60


# ---- files ---------------------------------------------------------------------------------------


def test_a_paper_replaces_an_earlier_one_whole_and_keeps_a_link_within_the_folder(tmp_path: Path) -> None:
    (tmp_path / "papers").mkdir()
    (tmp_path / "papers" / "week.txt").symlink_to(tmp_path / "real.txt")
    for text in (b"old", b"new"):
        assert write_paper(tmp_path, "papers/week.txt", text).read_bytes() == text
    assert (tmp_path / "papers" / "week.txt").is_symlink()
    assert (tmp_path / "real.txt").read_bytes() == b"new"
    assert earlier_paper(tmp_path, "papers/week.txt") == b"new"
    assert earlier_paper(tmp_path, "papers/none.txt") == b""
    assert sorted(p.name for p in (tmp_path / "papers").iterdir()) == [".written", "week.txt"]


@pytest.mark.parametrize("linked", ["papers", "papers/week.txt"])
def test_no_paper_is_written_through_a_link_out_of_the_garden(linked: str, tmp_path: Path) -> None:
    garden, outside = tmp_path / "garden", tmp_path / "outside"
    (garden / linked).parent.mkdir(parents=True)
    outside.mkdir()
    victim = outside / "week.txt"
    victim.write_text("another's")
    (garden / linked).symlink_to(outside if linked == "papers" else victim)
    with pytest.raises(OSError, match="outside the garden's folder"):
        write_paper(garden, "papers/week.txt", b"new")
    assert victim.read_text() == "another's"
    assert [p.name for p in outside.iterdir()] == ["week.txt"]


def test_what_was_not_written_here_or_was_changed_since_is_kept(tmp_path: Path) -> None:
    paper = tmp_path / "papers" / "week.txt"
    paper.parent.mkdir()
    paper.write_text("by hand")
    for text in (b"one", b"two"):
        write_paper(tmp_path, "papers/week.txt", text)
    paper.write_text("two, with a remark")
    write_paper(tmp_path, "papers/week.txt", b"three")
    kept = {p.name: p.read_text() for p in paper.parent.glob("*.kept*")}
    assert kept == {"week.txt.kept": "by hand", "week.txt.kept-2": "two, with a remark"}
    assert paper.read_bytes() == b"three"


def test_text_is_made_safe() -> None:
    assert as_text(["a\x1b[31mb", "c\rd", "\udcff"]) == "a�[31mb\nc d\n�\n".encode()


def test_the_day_of_the_paper_is_that_of_the_pages(tmp_path: Path) -> None:
    later = FakeAlmanac(folder=tmp_path, log=[], on=ON + dt.timedelta(days=8))
    assert "17-A" in press("p", "enter", almanac=later).text


# ---- forms, and work behind the screen -----------------------------------------------------------


def until(
    folder: Path, name: str, *keys: str, almanac: FakeAlmanac, then: tuple[str, ...] = ()
) -> tuple[str, str]:
    """What the screen shows at once after some keys, and once the paper is there and told of."""

    async def run() -> tuple[str, str]:
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=(100, 30)) as pilot:
            await send_keys(app, keys)
            await send_keys(app, then)
            at_once = screen_text(app)
            await app.workers.wait_for_complete()
            await settled(pilot)
            return at_once, screen_text(app)

    shown = asyncio.run(run())
    assert (folder / "papers" / name).exists(), sorted((folder / "papers").glob("*"))
    return shown


def test_f_turns_from_text_to_markdown_to_pdf(tmp_path: Path, almanac: FakeAlmanac) -> None:
    assert "Write which paper, as text?" in press("p", almanac=almanac).text
    assert "Write which paper, as Markdown?" in press("p", "f", almanac=almanac).text
    assert "Write which paper, as PDF?" in press("p", "f", "f", almanac=almanac).text
    assert "Write which paper, as text?" in press("p", "f", "f", "f", almanac=almanac).text
    press("p", "f", "5", almanac=almanac)
    assert (tmp_path / "papers" / "month-2027-04.md").read_text(encoding="utf-8").startswith("# ")


def test_a_pdf_is_made_behind_the_screen(tmp_path: Path, almanac: FakeAlmanac) -> None:
    at_once, later = until(tmp_path, "week-2027-16-A.pdf", "p", "f", "f", "1", almanac=almanac, then=("2",))
    assert "What is coming, and when?" in at_once  # page 2, opened while it was made
    assert "Week sheet 16-A is in papers/week-2027-16-A.pdf" in later
    assert "What is coming, and when?" in later
    assert (tmp_path / "papers" / "week-2027-16-A.pdf").read_bytes().startswith(b"%PDF")


def test_without_its_library_no_pdf_is_offered(almanac: FakeAlmanac, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper_keys, "can_print", lambda: False)
    assert "Write which paper, as text?" in press("p", "f", "f", almanac=almanac).text


def test_several_gardens_are_one_paper_over_all(tmp_path: Path) -> None:
    for name in ("here", "there"):
        (tmp_path / name).mkdir()
    there = FakeAlmanac(folder=tmp_path / "there", log=[])
    here = WithOthers(folder=tmp_path / "here", log=[], others=(NamedGarden(path="../there", garden=there),))
    _, later = until(tmp_path / "here", "weeks-2027-16.txt", "p", "1", almanac=here)
    assert "The week sheets of 2 gardens are in papers/weeks-2027-16.txt" in " ".join(later.split())
    text = (tmp_path / "here" / "papers" / "weeks-2027-16.txt").read_text(encoding="utf-8")
    assert text.startswith("2 gardens, Mon 19 Apr 2027: ")
    assert ("Week sheet 16-A" in text, "Week sheet 16-B" in text) == (True, True)
