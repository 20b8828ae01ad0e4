"""The terminal is given back as it was, whoever stops, continues or ends the pages, and whatever is closed.

Common practice of job control (POSIX.1-2017, General Terminal Interface): Ctrl-Z stops, `fg` continues, and
whoever has the terminal finds it as it was.
"""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import pytest
from terminal import COMMAND, IN, ITS_FIRST_QUESTION, OUT, SOURCES, Terminal, environment

ON = ["--on", "2027-04-19"]
FIRST = "What needs hands this week?"


@pytest.mark.long
def test_ctrl_z_gives_the_terminal_back_and_fg_takes_it_anew(garden: Path) -> None:
    with Terminal(["--norc", "--noediting", "-i"], command=["/bin/bash"], env={"PS1": "ready> "}) as shell:
        shell.wait_for("ready>")
        shell.type(" ".join([*COMMAND, str(garden), *ON]) + "\r")
        shell.wait_for(FIRST)
        shell.settle()
        for _ in range(2):
            assert not shell.echoes
            before = len(shell.bytes)
            shell.child.send("\x1a")
            shell.wait_for("Stopped")
            assert OUT in shell.bytes[before:]
            assert shell.echoes
            shell.type("clear\r")
            shell.type("fg\r")
            shell.wait_for(FIRST)
        shell.press("3")
        shell.wait_for("Who still lacks a partner?")
        shell.child.send("q")
        shell.wait_for("ready>")
        assert shell.echoes


@pytest.mark.long
@pytest.mark.parametrize(
    ("signals", "status"),
    [
        ((signal.SIGTERM, signal.SIGCONT), 143),  # as `timeout` ends a program
        ((signal.SIGHUP, signal.SIGCONT), 129),  # as a shell does that leaves
        ((signal.SIGCONT, signal.SIGTERM), 143),  # as a debugger that lets go of it
    ],
)
def test_ended_and_continued_at_once_it_gives_the_terminal_back(
    garden: Path, signals: tuple[signal.Signals, ...], status: int
) -> None:
    with Terminal([str(garden), *ON]) as terminal:
        assert terminal.echoes
        terminal.until_open()
        for one in signals:
            os.kill(terminal.child.pid, one)
        assert terminal.until_over() == status
        assert terminal.bytes.count(IN) == terminal.bytes.count(OUT)
        assert terminal.echoes


@pytest.mark.long
def test_continued_without_having_been_stopped_it_goes_on_and_leaves_clean(garden: Path) -> None:
    with Terminal([str(garden), *ON]) as terminal:
        terminal.until_open()
        os.kill(terminal.child.pid, signal.SIGCONT)
        terminal.settle()
        terminal.press("3")
        terminal.wait_for("Who still lacks a partner?")
        terminal.child.send("q")
        assert terminal.until_over() == 0
        assert terminal.echoes


def test_questions_of_a_new_garden_are_ended_from_outside(tmp_path: Path) -> None:
    with Terminal(["new", str(tmp_path / "new")]) as terminal:
        terminal.wait_for("What is the garden called?")
        terminal.settle()
        os.kill(terminal.child.pid, signal.SIGTERM)
        assert terminal.until_over() == 143
        assert OUT in terminal.bytes[-400:]
        assert not (tmp_path / "new").exists()


@pytest.mark.long
@pytest.mark.parametrize("size", [(1, 1), (1, 200), (500, 200)], ids=str)
def test_windows_of_sizes_nobody_has(garden: Path, size: tuple[int, int]) -> None:
    with Terminal([str(garden), *ON], size=size) as terminal:
        terminal.press("2", "down", "4", "w", "escape", "n", "escape")
        assert terminal.leave() == 0
        assert b"Traceback" not in terminal.bytes


@pytest.mark.long
def test_a_size_that_is_only_said_is_not_believed(garden: Path) -> None:
    with Terminal([str(garden), *ON], env={"COLUMNS": "99999999", "LINES": "9999999"}) as terminal:
        terminal.wait_for(FIRST)
        terminal.resize(100, 30)
        terminal.wait_for(lambda _: "all keys" in terminal.lines[29])
        assert terminal.leave() == 0


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("term", ["dumb", ""])
def test_a_terminal_that_can_do_nothing_gets_plain_lines(garden: Path, term: str) -> None:
    with Terminal([str(garden), *ON], env={"TERM": term}) as terminal:
        assert terminal.until_over() == 0
        assert FIRST.encode() in terminal.bytes
        assert b"\x1b" not in terminal.bytes


# ---- streams closed, full, or read no further ----------------------------------------------------


def shell(words: str, garden: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """A line of a shell in which $LEAFTURN is the program and $GARDEN the garden."""
    env = environment(more) | {"GARDEN": str(garden), "LEAFTURN": " ".join(COMMAND), "PYTHONPATH": SOURCES}
    return subprocess.run(["bash", "-c", words], env=env, capture_output=True, text=True, timeout=120)


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ('$LEAFTURN round "$GARDEN" --on 2027-04-19 >&-', ""),
        ('$LEAFTURN round "$GARDEN" --on 2027-04-19 2>&-', FIRST),
        ('$LEAFTURN "$GARDEN" --on 2027-04-19 <&-', FIRST),
        ('$LEAFTURN round "$GARDEN" --on 2027-04-19 | head -1', FIRST),
        ('$LEAFTURN note "$GARDEN" a word --on 2027-04-19 <&- >&- 2>&-', ""),
    ],
)
def test_what_is_closed_stops_nothing(garden: Path, words: str, told: str) -> None:
    done = shell(words, garden)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith(told)


def test_a_note_kept_with_all_streams_closed_is_in_the_journal_and_nothing_else_is(garden: Path) -> None:
    shell('$LEAFTURN note "$GARDEN" a word --on 2027-04-19 <&- >&- 2>&-', garden)
    (file,) = (garden / "journal").glob("*.toml")
    assert file.read_text().count("a word") == 1
    assert "noted" not in file.read_text()


def test_new_without_anybody_to_answer_says_what_it_needs(tmp_path: Path) -> None:
    done = shell('$LEAFTURN new "$GARDEN" <&-', tmp_path / "new")
    assert done.returncode == 2
    assert done.stderr.startswith("A latitude is needed")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_an_answer_that_cannot_be_written_does_not_deny_the_note(garden: Path) -> None:
    done = shell('$LEAFTURN note "$GARDEN" a word --on 2027-04-19 >/dev/full', garden)
    assert done.returncode == 2
    assert done.stderr == (
        "The answer could not be written: the disk is full. What was noted or changed stands.\n"
    )
    assert "a word" in next((garden / "journal").glob("*.toml")).read_text()


@pytest.mark.long
def test_without_a_locale_all_is_told(garden: Path) -> None:
    plain = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    for command in ("round", "season", "partners", "check"):
        done = shell(f'$LEAFTURN {command} "$GARDEN" --on 2027-04-19', garden, **plain)
        assert (done.returncode, done.stderr) == (0, ""), command
        assert done.stdout


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("until", [IN, ITS_FIRST_QUESTION])
def test_a_terminal_that_goes_without_a_signal_ends_the_pages(garden: Path, until: bytes) -> None:
    """As of a program started by `setsid` or `nohup`, which is sent none (POSIX: to those it controls)."""
    ours, its = os.openpty()
    child = subprocess.Popen(
        [*COMMAND, str(garden), "--on", "2027-04-19"],
        stdin=its, stdout=its, stderr=its, start_new_session=True, env=environment(),
    )  # fmt: skip
    os.close(its)
    written = b""
    while until not in written:
        written += os.read(ours, 65536)
    os.close(ours)
    try:
        assert child.wait(30) != 0
    finally:
        child.kill()
