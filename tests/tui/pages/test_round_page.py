"""The round as people meet it: what dies tonight first, with its scale; the story by labels; the walk."""

from __future__ import annotations

import pytest
from fake_almanac import FakeAlmanac
from fake_garden import JOBS, ON
from msgspec.structs import replace
from screens import shown_after

from leafturn.base.faults import Fault
from leafturn.tasks.model import Job
from leafturn.tasks.week.model import Line, Walk
from leafturn_tui.pages.reasons import why_sheet
from leafturn_tui.pages.round_lines import Stood
from leafturn_tui.text import phrases

WIDE = (120, 40)


def test_what_dies_tonight_stands_first_with_its_scale_beside_it() -> None:
    lines = shown_after(FakeAlmanac(), WIDE)
    first = next(line for line in lines if "!tonight" in line)
    assert first.startswith(("▌ !tonight", "> !tonight"))
    assert lines.index(first) == 5
    assert any("tonight -3" in line and "-2.2: one in ten dies" in line for line in lines)
    scale = next(line.rpartition("│")[2] for line in lines if "━┃" in line)
    assert scale.index("●") < scale.index("┃")


def test_a_job_that_is_not_of_tonight_has_no_scale() -> None:
    lines = shown_after(FakeAlmanac(), WIDE, "down")
    assert not any("one in ten dies" in line for line in lines)


def test_the_story_tells_by_labels_what_comes_of_leaving_it() -> None:
    said = shown_after(FakeAlmanac(), WIDE)
    labels = {
        label: line for line in said for label in ("If left", "Who", "Known by") if f"│ {label} " in line
    }
    assert labels["If left"].endswith("a third may go.")
    assert labels["Who"].endswith("steward")
    assert labels["Known by"].endswith("handbook. Source: a book.")
    assert sum("a third may go" in line for line in said) == 1


def test_the_page_of_the_job_has_the_scale_in_a_narrow_window_too() -> None:
    assert any("one in ten dies" in line for line in shown_after(FakeAlmanac(), (80, 24), "enter"))


def test_the_page_of_the_job_tells_each_reason_once_in_a_wide_window_too() -> None:
    lines = shown_after(FakeAlmanac(), WIDE, "enter")
    assert sum("a third may go" in line for line in lines) == 1
    assert not any("│" in line for line in lines[4:-4])


def test_a_job_gone_by_is_told_by_that_word_where_its_reasons_are_told() -> None:
    """`passed` is the word of the code; words.toml tells what `gone by` is."""
    passed = next(job for job in FakeAlmanac().jobs() if job.state == "passed")
    assert why_sheet(FakeAlmanac(), passed).title == f"{passed.title}: gone by"


def test_the_walk_is_drawn_where_the_list_leaves_room_and_on_v() -> None:
    wide = shown_after(FakeAlmanac(), WIDE)
    assert any("1" in line and "early-plum" in line for line in wide[16:-4])
    narrow = shown_after(FakeAlmanac(), (80, 24), "v")
    assert any(0x2800 < ord(sign) <= 0x28FF for line in narrow for sign in line)
    assert "walk 164 m" in "\n".join(narrow)
    assert "!tonight" not in "\n".join(narrow)
    assert "!tonight" in "\n".join(shown_after(FakeAlmanac(), (80, 24), "v", "v"))


@pytest.mark.parametrize("height", range(12, 24))
def test_the_walk_is_drawn_though_faults_leave_it_no_room(height: int) -> None:
    """It is then longer than the window, and goes up and down as a list does."""
    fault = Fault(file="weather.csv", line=7, message="this line is left out, since it is no day. " * 3)
    lines = shown_after(FakeAlmanac(faults=(fault,) * 9), (60, height), "v")
    assert any(0x2800 < ord(sign) <= 0x28FF for line in lines for sign in line) or height < 16


def test_without_a_walk_v_says_so() -> None:
    quiet = FakeAlmanac(season_jobs=(), waiting=(), walk=Walk(stops=("gate",), metres=0.0))
    assert any("There is no walk" in line for line in shown_after(quiet, (80, 24), "v"))


def test_no_title_is_cut_while_lines_stand_empty() -> None:
    long = " ".join(["cover everything that flowers at the north wall"] * 2)
    almanac = FakeAlmanac(season_jobs=(replace(JOBS[0], title=long),), waiting=())
    lines = shown_after(almanac, (80, 24))
    assert not any("…" in line for line in lines[5:12])
    assert "north wall" in " ".join(lines)


def test_a_story_longer_than_the_window_says_that_there_is_more() -> None:
    first = shown_after(FakeAlmanac(), (120, 12))
    assert any("w and Enter tell more" in line for line in first)


def test_in_a_narrow_window_place_and_reason_are_sentences_of_their_own() -> None:
    foot = " ".join(shown_after(FakeAlmanac(), (80, 16), "down")[-6:])
    assert "By the bench. bay-2 was 58 C" in " ".join(foot.split())


def test_that_a_job_was_done_is_no_guess() -> None:
    done = next(job for job in JOBS if job.state == "done")
    why = phrases.first_reason(replace(done, basis="guess"))
    assert "guess" not in why
    assert phrases.first_reason(replace(done, basis="guess", state="due")) == f"{why} A guess."


# ---- what is ticked stays where it stood ---------------------------------------------------------


def line_of(title: str, *jobs: Job) -> Line:
    return Line(
        title=title, state=jobs[0].state, days_late=0, jobs=jobs, dearest=jobs[0], minutes=0, where="", who=""
    )


DUE = next(job for job in JOBS if job.state == "due" and job.best.likely)
A, B, C, D = (replace(DUE, id=f"{name}:cut:2027") for name in "abcd")


def done(job: Job) -> Job:
    return replace(job, state="done")


def titles(stood: Stood, *lines: Line) -> list[str]:
    return [f"{line.state} {line.title}" for line in stood.with_done(lines, ON)[0]]


def test_a_line_that_is_done_stays_where_it_stood_and_as_it_was_told() -> None:
    stood = Stood()
    before = (line_of("a", A), line_of("b and 1 more", B, C), line_of("d", D))
    assert titles(stood, *before) == ["due a", "due b and 1 more", "due d"]
    apart = (line_of("a", A), line_of("d", D), line_of("b", done(B)), line_of("c", done(C)))
    assert titles(stood, *apart) == ["due a", "done b and 1 more", "due d"]
    assert stood.with_done(apart, ON)[0][1].jobs == (done(B), done(C))
    half = (line_of("a", A), line_of("c", C), line_of("d", D), line_of("b", done(B)))
    assert titles(stood, *half) == ["due a", "due c", "done b", "due d"]
    every = [line_of(name, done(job)) for name, job in zip("abcd", (A, B, C, D), strict=True)]
    assert titles(stood, *every) == ["done a", "done b and 1 more", "done d"]
    assert titles(stood, *before) == ["due a", "due b and 1 more", "due d"], "taken back"


def test_what_was_done_before_the_page_was_opened_stands_at_its_end() -> None:
    lines = (line_of("a", A), line_of("b", done(B)), line_of("d", D))
    assert titles(Stood(), *lines) == ["due a", "due d", "done b"]
