"""Stories of the week and of notes, as a person at a terminal lives them: the week, why, bloom, mistake."""

from __future__ import annotations

import datetime as dt
import re
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from terminal import Terminal
from tests.at_the_desk import AtTheDesk
from tests.samples.journal import toml_entries
from tests.samples.places import GARDENS, ROOT

from leafturn.almanac import Almanac, open_almanac
from leafturn_tui.text.palette import COLOURS

ON = dt.date(2027, 4, 19)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """A copy of the demo garden."""
    return Path(
        shutil.copytree(ROOT / "demo_garden", tmp_path / "weir-meadow", ignore=shutil.ignore_patterns("*.py"))
    )


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A garden of ten lines, for all that asks of the terminal alone: it opens sooner."""
    return Path(shutil.copytree(GARDENS / "ten_lines", tmp_path / "ten-lines"))


@contextmanager
def at_the_round(garden: Path) -> Iterator[Terminal]:
    """The program at a terminal, its first page shown."""
    with Terminal([str(garden), "--on", ON.isoformat()], size=(80, 24)) as opened:
        opened.wait_for("What needs hands this week?")
        opened.settle()
        yield opened


@pytest.fixture
def terminal(small: Path) -> Iterator[Terminal]:
    with at_the_round(small) as opened:
        yield opened


@pytest.fixture
def desk(garden: Path) -> Iterator[AtTheDesk]:
    """The pages of the copy, within this process."""
    with AtTheDesk(garden, ON) as opened:
        yield opened


@pytest.fixture(scope="module")
def looking() -> Iterator[AtTheDesk]:
    """The demo itself, open for all that only look."""
    with AtTheDesk(ROOT / "demo_garden", ON) as opened:
        yield opened


@pytest.fixture
def reading(looking: AtTheDesk) -> AtTheDesk:
    """The same, back on the first line of the Round."""
    looking.press("escape", "escape", "escape", "1", "home")
    looking.wait_for("What needs hands this week?")
    return looking


def journal_entries(garden: Path) -> list[dict[str, object]]:
    files = sorted((garden / "journal").glob("*.toml"))
    return [entry for file in files for entry in toml_entries(file)]


def to_row(terminal: Terminal | AtTheDesk, words: str) -> str:
    """Move the bar down to the line that holds some words."""
    terminal.press("home")
    for _ in range(60):
        under = next((line for line in terminal.lines if line.startswith("> ")), "")
        if words in under:
            return under
        terminal.press("down")
    raise AssertionError(f"no line with {words!r}:\n{terminal.text}")


def hours_of(text: str) -> float:
    """Hours of work, from the sum beside the question."""
    found = re.search(r" (?:(\d+) h ?)?(?:(\d+)(?: min)?)? of work", text)
    assert found, text
    return int(found[1] or 0) + int(found[2] or 0) / 60


# ---- the week ------------------------------------------------------------------------------------


def test_the_week_opens_on_the_round_and_fits_the_hands(garden: Path, desk: AtTheDesk) -> None:
    assert "1Round" in desk.lines[0]
    assert desk.lines[1].endswith("Weir Meadow  19 Apr")
    assert "10 d early" in desk.lines[1]
    week = open_almanac(garden, ON).round()
    assert week.jobs
    for load in week.helpers:
        assert load.minutes <= load.hours_available * 60
    states = ("due", "late", "soon", "held", "passed", "done", "let go")
    assert all(job.state in states and job.why for job in (*week.jobs, *week.waiting))
    shown = ("!tonight", "* now", "d left", "* last day", "* past best", "coming", "held", "gone by",
             "+ done", "let go", "can wait")  # fmt: skip
    for line in desk.lines[5:]:
        if line.startswith("──"):
            break
        wrapped = line.startswith(" " * 14)  # a title goes on under itself while lines are free
        assert not line or wrapped or line[2:].strip().startswith(shown)


@pytest.mark.long
def test_a_job_done_stays_done(garden: Path) -> None:
    with at_the_round(garden) as terminal:
        before = hours_of(terminal.text)
        under = to_row(terminal, "turn bay-2")
        assert under[2:].startswith("* now")
        terminal.press("space")
        terminal.wait_for("noted: done: turn bay-2")
        terminal.wait_for("next time")
        assert terminal.row("  turn bay-2")[2:].startswith("+ done")
        terminal.wait_for(lambda text: hours_of(text) < before)
        assert journal_entries(garden)[-1]["what"] == "done"
        assert terminal.leave() == 0
    with AtTheDesk(garden, ON) as again:
        again.press("end")
        assert again.row("turn bay-2")[2:].startswith("+ done")
        to_row(again, "turn bay-2")
        again.press("space")
        again.wait_for("taken back")
        assert re.match(r"> \* now", next(line for line in again.lines if line.startswith("> ")))


# ---- why -----------------------------------------------------------------------------------------


def test_why_tells_the_cause_first_with_todays_number(reading: AtTheDesk) -> None:
    to_row(reading, "turn bay-2")
    reading.press("w")
    reading.wait_for("turn bay-2: why")
    at = next(n for n, line in enumerate(reading.lines) if "turn bay-2: why" in line)
    told = " ".join(line.strip() for line in reading.lines[at + 1 :])
    assert re.match(r"bay-2 was \d+ C on .* and \d+ C", told)
    assert "Basis:" in told


def test_why_not_yet_of_a_plant_without_a_job_gives_dates(reading: AtTheDesk, weir_meadow: Almanac) -> None:
    told = " ".join(weir_meadow.why_plant("quince"))
    reading.press("f")
    reading.type("quince")
    reading.press("enter", "w")
    reading.wait_for(told[:20])
    assert "yet" in told
    assert re.search(r"\d+ (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)", told)
    assert told.split(".")[0] in " ".join(" ".join(line.split()) for line in reading.lines)


# ---- like jobs in one line, to whom, and a hold lifted ---------------------------------------------


def test_every_line_of_the_week_fits_one_screen_and_what_can_wait_opens(reading: AtTheDesk) -> None:
    assert "more below" not in reading.text
    under = to_row(reading, "can wait")
    number = int(re.search(r"(\d+) more job", under)[1])  # type: ignore[index]
    reading.press("enter")
    reading.wait_for("What can wait, and until when?")
    listed = [line for line in reading.lines[3:] if re.match(r"[> ] +can wait", line)]
    assert len(listed) == number
    reading.press("escape")
    reading.wait_for("What needs hands this week?")


@pytest.mark.long
def test_several_alike_are_put_off_at_once_and_taken_back_at_once(garden: Path, desk: AtTheDesk) -> None:
    to_row(desk, "mulch hazel-j and 16 more")
    desk.press("d", "enter")
    desk.wait_for("noted:")
    noted = journal_entries(garden)[-1]
    assert noted["what"] == "put-off"
    assert len(noted["tasks"]) > 1  # type: ignore[arg-type]
    desk.wait_for(lambda text: "mulch hazel-j and 16 more" not in text)
    desk.press("u")
    desk.wait_for("Take back this note?")
    desk.press("enter")
    desk.wait_for("mulch hazel-j and 16 more")


@pytest.mark.long
def test_a_job_is_given_to_a_helper_by_name_and_back(garden: Path, desk: AtTheDesk) -> None:
    before = to_row(desk, "turn bay-2")
    assert "steward" not in before
    desk.press("a")
    desk.wait_for("To whom: turn bay-2")
    desk.press("1")
    desk.wait_for("noted: given to steward: turn bay-2")
    assert "steward" in desk.row("turn bay-2")
    entry = journal_entries(garden)[-1]
    assert (entry["what"], entry["to"], entry["task"]) == ("given", "steward", "bay-2:turn:2027:3")
    desk.press("u")
    desk.wait_for("Take back this note?")
    desk.press("enter")
    desk.wait_for("taken back:")
    assert "steward" not in desk.row("  turn bay-2")


def test_giving_says_what_a_helper_lacks(reading: AtTheDesk) -> None:
    number = len(journal_entries(ROOT / "demo_garden"))
    to_row(reading, "turn bay-2")
    reading.press("a")
    reading.wait_for("bench helper, though it wants lift")
    reading.press("escape")
    assert len(journal_entries(ROOT / "demo_garden")) == number


@pytest.mark.long
def test_a_hold_is_lifted_by_name_and_binds_again(garden: Path, desk: AtTheDesk) -> None:
    under = to_row(desk, "lighten rambler")
    assert under[2:].strip().startswith("held")
    desk.press("a")
    desk.wait_for("Held: birds may be nesting")
    desk.type("Anna Weir")
    desk.press("enter")
    desk.wait_for("noted: hold lifted: lighten rambler")
    entry = journal_entries(garden)[-1]
    assert (entry["what"], entry["by"], str(entry["until"])) == ("hold-lifted", "Anna Weir", "2027-09-01")
    lifted = open_almanac(garden, ON).job("rambler:lighten:2027")
    assert lifted is not None
    # Nests hold it no more; on a failing tree it still waits for a licence, which nobody can lift.
    assert lifted.hold is not None
    assert lifted.hold.wants == "a qualified tree worker"
    desk.press("u")
    desk.wait_for("Take back this note?")
    desk.press("enter")
    desk.wait_for("taken back:")
    desk.wait_for(lambda text: re.search(r"held +lighten rambler", text) is not None)


# ---- a cold night typed in -------------------------------------------------------------------------


def test_a_cold_night_is_typed_in_and_told_plant_by_plant(reading: AtTheDesk) -> None:
    reading.press("t")
    reading.type("\x15-3")  # in place of what is foretold
    reading.press("enter")
    reading.wait_for("early-plum")
    assert re.search(r"early-plum +\d \(\d to \d\) +green fruit", reading.text)


def test_fahrenheit_is_turned_to_celsius_and_asked_about(reading: AtTheDesk) -> None:
    reading.press("t")
    reading.type("\x15-3F")
    reading.press("enter")
    # -3 degF is (-3 - 32) / 1.8 = -19.4 degC, by definition of the scales.
    reading.wait_for("-19.4 C")
    assert "?" in reading.row("-19.4 C")


# ---- a bloom in two keys -------------------------------------------------------------------------


def test_a_bloom_in_two_keys_moves_the_forecast(garden: Path, desk: AtTheDesk) -> None:
    before = open_almanac(garden, ON)
    likeliest = before.likely_stages()[0]
    number = len(journal_entries(garden))
    desk.press("b", "enter")
    desk.wait_for("noted:")
    entries = journal_entries(garden)
    assert len(entries) == number + 1
    assert (entries[-1]["what"], entries[-1]["plant"]) == ("bloom", likeliest.plant)
    assert str(entries[-1]["on"]) == ON.isoformat()
    # BBCH principal growth stage 6: 61 first flowers open, 65 full, 69 end of flowering (Meier 2018).
    assert entries[-1]["bbch"] == {"first open": 61, "full bloom": 65, "petal fall": 69}[likeliest.stage]
    after = open_almanac(garden, ON)
    dates = [[e.when for e in a.season().events if e.plant == likeliest.plant] for a in (before, after)]
    assert dates[0] != dates[1]
    desk.press("9")
    assert f"{likeliest.plant}: {likeliest.stage}" in next(
        line for line in desk.lines if line.startswith("> ")
    )
    desk.press("2", "i")
    assert "noted 19 Apr" in desk.text


# ---- a mistake -----------------------------------------------------------------------------------


@pytest.mark.long
def test_a_mistake_is_taken_back_and_the_dates_return(garden: Path, desk: AtTheDesk) -> None:
    def dates() -> list[tuple[str, str, object]]:
        return [(e.plant, e.event, e.when) for e in open_almanac(garden, ON).season().events]

    before, number = dates(), len(journal_entries(garden))
    desk.press("b", "2", "enter")
    desk.wait_for("noted:")
    assert dates() != before
    mistaken = journal_entries(garden)[-1]
    desk.press("u")
    desk.wait_for("Take back this note?")
    assert str(mistaken["plant"]) in desk.text
    desk.press("enter")
    desk.wait_for("taken back:")
    assert dates() == before
    entries = journal_entries(garden)
    assert len(entries) == number + 2
    assert (entries[-1]["what"], entries[-1]["entry"]) == ("withdraw", mistaken["id"])
    desk.press("u")
    desk.wait_for("Take back this note?")
    offered = open_almanac(garden, ON).takeable()
    assert offered is not None
    assert offered.id != mistaken["id"]
    at = next(n for n, line in enumerate(desk.lines) if "Take back this note?" in line)
    assert str(mistaken["plant"]) not in desk.lines[at + 1]


# ---- small and plain -----------------------------------------------------------------------------


@pytest.mark.long
def test_leaving_a_window_too_small_puts_the_terminal_right(small: Path) -> None:
    with Terminal([str(small), "--on", ON.isoformat()], size=(29, 10)) as opened:
        opened.wait_for("Make the window larger")
        opened.settle()
        assert opened.leave() == 0
        # DEC private modes (xterm control sequences): 1049 the other screen, 25 the cursor, 2004 pasting.
        assert opened.bytes.rstrip().rfind(b"\x1b[?1049l") > opened.bytes.rfind(b"\x1b[?1049h")
        assert opened.bytes.rfind(b"\x1b[?25h") > opened.bytes.rfind(b"\x1b[?25l")
        assert opened.bytes.rfind(b"\x1b[?2004l") > opened.bytes.rfind(b"\x1b[?2004h")


CRASHING = """
import sys
from leafturn_tui.desk import screen
from leafturn_tui.command_line import main

def fails(self, name):
    raise RuntimeError("a fault of the program's own")

screen.Desk.action_press = fails
sys.exit(main(sys.argv[1:]))
"""


@pytest.mark.long
def test_a_fault_of_its_own_is_status_1_and_leaves_the_terminal_right(small: Path) -> None:
    with Terminal([str(small), "--on", ON.isoformat()], command=[sys.executable, "-c", CRASHING]) as opened:
        opened.wait_for("What needs hands this week?")
        opened.settle()
        assert opened.leave("w") == 1
        assert opened.bytes.rfind(b"\x1b[?1049l") > opened.bytes.rfind(b"\x1b[?1049h")
        assert opened.bytes.rfind(b"\x1b[?25h") > opened.bytes.rfind(b"\x1b[?25l")


@pytest.mark.long
def test_control_c_leaves_quietly(small: Path) -> None:
    with Terminal([str(small), "--on", ON.isoformat()]) as opened:
        opened.until_open()
        assert opened.leave("ctrl+c") == 0
        assert b"Traceback" not in opened.bytes


@pytest.mark.long
def test_a_resize_while_noting_loses_nothing(small: Path, terminal: Terminal) -> None:
    terminal.press("n")
    terminal.type("slow-worm under ")
    terminal.resize(60, 20)
    terminal.resize(30, 10)
    terminal.resize(100, 30)
    terminal.type("the lid")
    terminal.wait_for("slow-worm under the lid")
    terminal.press("enter")
    terminal.wait_for("noted:")
    assert journal_entries(small)[-1]["text"] == "slow-worm under the lid"


@pytest.mark.long
def test_killed_while_noting_the_journal_still_reads(small: Path, terminal: Terminal) -> None:
    number = len(journal_entries(small))
    terminal.press("n")
    terminal.type("half a no")
    terminal.kill()
    assert len(journal_entries(small)) == number
    with at_the_round(small) as again:
        again.press("n")
        again.type("a whole note")
        again.press("enter")
        again.wait_for("noted:")
    assert len(journal_entries(small)) == number + 1


@pytest.mark.long
def test_no_colour_means_none(small: Path) -> None:
    with Terminal(
        [str(small), "--on", ON.isoformat()], env={"NO_COLOR": "1", "COLORTERM": "truecolor"}
    ) as opened:
        opened.wait_for("What needs hands this week?")
        opened.press("3", "2", "b", "escape", "1")
        colours = set(re.findall(rb"\x1b\[[0-9;]*m", opened.bytes))
    # ECMA-48 SGR: 30-37, 40-47 and 90-107 set one of sixteen colours, 38 and 48 any other.
    for sequence in colours:
        codes = [int(c or 0) for c in sequence[2:-1].split(b";")]
        assert not any(30 <= c <= 38 or 40 <= c <= 48 or 90 <= c <= 107 for c in codes), sequence


@pytest.mark.long
@pytest.mark.parametrize(("depth", "own"), [("truecolor", rb"[34]8;2;"), ("", rb"[34]8;5;")])
def test_colours_are_those_of_the_palette(small: Path, depth: str, own: bytes) -> None:
    """ECMA-48 SGR with 38 and 48: 2 is followed by red, green and blue, 5 by one of 256."""
    env = {"COLORTERM": depth, "LEAFTURN_LOOK": "dark"}
    with Terminal([str(small), "--on", ON.isoformat()], env=env) as opened:
        opened.wait_for("What needs hands this week?")
        opened.press("3")
        sequences = set(re.findall(rb"\x1b\[[0-9;]*m", opened.bytes))
    assert [s for s in sequences if re.search(own, s)]
    known = {tuple(int(c.dark[i : i + 2], 16) for i in (1, 3, 5)) for c in COLOURS.values()}
    used = {
        tuple(map(int, found)) for s in sequences for found in re.findall(rb"[34]8;2;(\d+);(\d+);(\d+)", s)
    }
    assert used <= known
    few = {c.of_256 for c in COLOURS.values()}
    assert {int(n) for s in sequences for n in re.findall(rb"[34]8;5;(\d+)", s)} <= few


@pytest.mark.long
def test_a_file_gone_bad_while_open(garden: Path, desk: AtTheDesk) -> None:
    file = garden / "garden.toml"
    whole = file.read_text(encoding="utf-8")
    file.write_text(whole.replace("lat = ", "lat ? "), encoding="utf-8")  # without it nothing can be read
    desk.press("down")
    desk.wait_for("as read at")
    assert "garden.toml, line" in desk.text
    assert "turn bay-2" in desk.text
    file.write_text(whole, encoding="utf-8")
    desk.press("up")
    desk.wait_for(lambda text: "as read at" not in text)
