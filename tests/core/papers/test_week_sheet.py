"""The week sheet holds everything or says what it left out, on one page, whatever the names are."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from rich.cells import cell_len
from tests.samples.papers import HELPERS, ON, job, round_of

from leafturn.base.explained_days import NightAhead
from leafturn.garden.model import Helper
from leafturn.papers.page_layout import LENGTH, WIDTH, Sheaf, cells, shortened, wrap
from leafturn.papers.short_reasons import one_line
from leafturn.papers.week_sheet import Occasion, WeekSheet, week_sheet
from leafturn.papers.words import window_word
from leafturn.tasks.model import Hold, Job
from leafturn_tui.safe_text import safe_text

OCCASION = Occasion(place="Weir Meadow", season="The season is 10 days ahead.", helpers=HELPERS)

NAMES = st.one_of(
    st.text(max_size=90),
    st.sampled_from(
        ["\x1b[31mred", "a\u202eb", "x" * 300, "梨" * 60, "[/]", "e\u0301" * 80, "", "\r", "   "]
    ),
)


def sheet(jobs: list[Job], waiting: list[Job] | None = None, occasion: Occasion = OCCASION) -> WeekSheet:
    return week_sheet(occasion, round_of(jobs, waiting or []), ON, lambda ids: "16-A", safe_text)


def text(made: WeekSheet) -> str:
    return "\n".join(made.lines)


@st.composite
def hostile_jobs(draw: st.DrawFn) -> list[Job]:
    return [
        job(
            f"p{n}",
            draw(st.sampled_from(["due", "late", "soon", "held", "passed", "done"])),
            title=draw(NAMES),
            where=draw(NAMES),
            helpers=draw(st.sampled_from([("steward",), ("bench helper",), ("steward", "bench helper"), ()])),
            why=tuple(draw(st.lists(NAMES, max_size=4))),
            cautions=tuple(draw(st.lists(NAMES, max_size=3))),
            minutes=draw(st.floats(0, 900)),
            cost_of_delay=draw(st.floats(0, 4)),
            opens=draw(st.integers(-20, 20)),
            closes=draw(st.integers(0, 60)),
            hold=draw(st.one_of(st.none(), st.builds(Hold, reason=NAMES, until=st.none()))),
        )
        for n in range(draw(st.integers(0, 20)))
    ]


@pytest.mark.long
@settings(max_examples=25, deadline=None)
@given(jobs=hostile_jobs(), waiting=hostile_jobs(), place=NAMES, helper=NAMES)
def test_any_names_fit_the_page_and_nothing_is_lost(
    jobs: list[Job], waiting: list[Job], place: str, helper: str
) -> None:
    waiting = [replace(j, id=f"w{n}", state="due") for n, j in enumerate(waiting)]
    helpers = (*HELPERS, Helper(name=helper, days=("sat",)))
    made = sheet(jobs, waiting, replace(OCCASION, place=place, helpers=helpers))
    assert len(made.lines) <= LENGTH
    assert all(cell_len(line) <= WIDTH and cells(line) <= WIDTH for line in made.lines)
    assert all(safe_text(line) == line for line in made.lines)
    whole = text(made)
    assert [int(n) for n in re.findall(r"^ {0,2}(\d+)  _____  ", whole, re.MULTILINE)] == list(
        range(1, len(made.jobs) + 1)
    )
    week = made.week
    kept = [*week.jobs, *week.left, *week.coming, *week.held, *week.passed, *week.beyond]
    assert sorted(j.id for j in kept) == sorted(j.id for j in (*jobs, *waiting) if j.state != "done")
    assert tuple(j.id for j in week.jobs) == made.jobs


def test_what_has_no_line_is_named_with_its_date_or_counted() -> None:
    jobs = [job(f"tree-{n}", minutes=1.0, closes=n + 1, helpers=("steward",)) for n in range(45)]
    made = sheet(jobs)
    whole = text(made)
    assert len(made.lines) <= LENGTH
    below = whole[whole.index("Not on this sheet") : whole.index("Seen today")]
    named = re.findall(r"mulch tree-(\d+) \(until \d+ \w+\)", " ".join(below.split()))
    more = int(re.search(r"and (\d+) more", below)[1])  # type: ignore[index]
    assert len(made.jobs) + len(named) + more == 45
    assert more + len(named) > 0
    # The dearest to delay stay: here those that close first.
    assert sorted(made.jobs) == sorted(j.id for j in jobs[: len(made.jobs)])
    assert named == [str(n) for n in range(len(made.jobs), len(made.jobs) + len(named))]


def test_a_line_tells_job_place_minutes_when_why_and_cautions() -> None:
    caution = "Look for sleeping toads and slow-worms first, all of them, however long that takes you today."
    whole = text(sheet([job("bay-2", cautions=(caution,), helpers=("steward",), minutes=35)]))
    assert re.search(r"^  1  _____  mulch bay-2, 19 m N of the gate +35 min$", whole, re.MULTILINE)
    assert "Best by 21 Apr: The ground is warm and wet." in whole
    assert caution in " ".join(whole.split())
    assert "STEWARD: 35 min" in whole
    assert "[" not in whole


def test_a_line_that_asks_for_something_seen_has_room_for_its_day() -> None:
    noted = job("a", helpers=("steward",), verb="note bloom", counts_as="note")
    assert "Seen on: ____" in text(sheet([noted]))
    assert "Seen on" not in text(sheet([job("a", helpers=("steward",))]))


def test_lines_are_numbered_over_all_helpers_and_grouped() -> None:
    jobs = [
        job("a", helpers=("bench helper",)),
        job("b", helpers=("steward",)),
        job("c", helpers=("bench helper",)),
    ]
    made = sheet(jobs)
    assert made.jobs == ("b:mulch:2027", "a:mulch:2027", "c:mulch:2027")
    whole = text(made)
    assert (
        whole.index("STEWARD") < whole.index("mulch b") < whole.index("BENCH HELPER") < whole.index("mulch a")
    )


def test_a_caution_of_several_lines_stands_once_over_them() -> None:
    jobs = [job(n, helpers=("steward",), cautions=("Never alone.",)) for n in "abc"]
    whole = text(sheet(jobs))
    assert whole.count("Never alone.") == 1
    assert "Lines 1 to 3: Never alone." in whole


def test_a_caution_of_scattered_lines_names_them() -> None:
    jobs = [job(n, helpers=("steward",), cautions=("Never alone.",) if n in "abce" else ()) for n in "abcde"]
    assert "Lines 1 to 3 and 5: Never alone." in text(sheet(jobs))


def test_jobs_that_open_this_week_are_dealt_out_and_later_ones_named() -> None:
    jobs = [job("a", "soon", opens=4), job("b", "soon", opens=8)]
    made = sheet(jobs)
    assert made.jobs == ("a:mulch:2027",)
    assert "From 23 Apr" in text(made)
    assert "Later: mulch b (from 27 Apr)." in text(made)


def test_what_the_round_asks_for_stays_before_what_could_be_done_too() -> None:
    pressing = [job("bay-2", helpers=("steward",), minutes=1.0, closes=200)]
    extra = [job(f"tree-{n}", minutes=1.0, closes=12) for n in range(30)]
    made = sheet(pressing, extra)
    assert "bay-2:mulch:2027" in made.jobs
    assert len(made.week.left) == 31 - len(made.jobs) > 0


def test_the_hours_at_hand_bound_what_is_added() -> None:
    waiting = [job(f"t{n}", minutes=120.0, closes=20 + n) for n in range(9)]
    made = sheet([], waiting)
    minutes = sum(j.minutes for j in made.week.jobs)
    assert 0 < minutes <= 8 * 60
    assert len(made.week.left) == 9 - len(made.jobs)


def test_held_passed_and_impossible_jobs_have_no_line_but_are_said() -> None:
    hold = Hold(reason="birds may be nesting", until=dt.date(2027, 9, 1))
    jobs = [
        job("rose", "held", hold=hold),
        job("kiwi", "passed", next_open=dt.date(2027, 12, 10), harms_late=True),
        job("elder", "passed"),
    ]
    made = sheet(jobs, [job("ash", demands=("licensed",))])
    whole = text(made)
    assert made.jobs == ()
    assert "Nothing needs hands now." in whole
    assert "mulch rose (until 1 Sep: birds may be nesting)" in whole
    past = "Its time is past: mulch kiwi (do not do it now; next 10 Dec); mulch elder."
    assert past in " ".join(whole.split())
    assert "Nobody here can do this; ask for help: mulch ash" in whole


def test_a_long_name_of_a_garden_stands_whole_without_the_question() -> None:
    place = "Der alte Obstgarten hinter der Wassermühle"
    made = sheet([], occasion=replace(OCCASION, place=place))
    assert made.lines[0].startswith(f"{place}  ")


def test_a_sheet_without_a_number_says_so() -> None:
    made = week_sheet(OCCASION, round_of([job("a", helpers=("steward",))]), ON, None, safe_text)
    assert made.number == ""
    assert "this sheet has no number" in text(made)


# ---- lines ---------------------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(said=st.text(max_size=300), width=st.integers(4, 40))
def test_wrapping_keeps_every_letter_and_the_width(said: str, width: int) -> None:
    clean = safe_text(said)
    lines = wrap(clean, width)
    assert "".join(lines).replace(" ", "") == "".join(clean.split())
    assert all(cells(line) <= width for line in lines)


@pytest.mark.parametrize(
    ("said", "width", "short"),
    [("three blind mice", 20, "three blind mice"), ("three blind mice", 12, "three …"), ("", 5, "")],
)
def test_shortening_leaves_whole_words(said: str, width: int, short: str) -> None:
    assert shortened(said, width) == short


def test_words_are_cut_only_where_they_are_wider_than_the_line() -> None:
    sheaf = Sheaf(str, 20)
    sheaf.say("a reason of several words for nothing at all", indent=4, hang=2)
    assert sheaf.lines == ("    a reason of", "      several words", "      for nothing at", "      all")


def test_a_day_is_not_told_twice() -> None:
    tonight = job(
        "pear",
        "due",
        opens=0,
        best=0,
        closes=2,
        tonight=NightAhead(likely_c=-3.0, tenth_c=-2.2, part="flower"),
    )
    assert window_word(tonight, ON) == ""
    assert window_word(job("pear", "due", opens=0, best=0, closes=2), ON) == "Best today"
    assert one_line("", "Tonight may fall to -3 C", 60) == "Tonight may fall to -3 C"
    assert one_line("From 23 Apr", "Warm and dry", 60) == "From 23 Apr: Warm and dry"
