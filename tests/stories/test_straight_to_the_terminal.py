"""The week stands on the screen before Textual is loaded, and nothing typed or ended meanwhile goes wrong."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import termios
import time
from collections.abc import Callable
from pathlib import Path

import pyte
import pytest
from terminal import COMMAND, IN, ITS_FIRST_QUESTION, OUT, SIGNALLED_WHILE_LOADING, Terminal
from tests.bench.grown_garden import grown_garden

ON = ["--on", "2027-04-19"]
RECKONED, FIRST = "is being reckoned", "What needs hands this week?"


@pytest.fixture
def large(tmp_path: Path) -> Path:
    """A garden that is reckoned for some seconds."""
    return grown_garden(tmp_path, 1000)


@pytest.fixture
def env(tmp_path: Path) -> dict[str, str]:
    """A terminal of true colour, and no picture kept."""
    return {"XDG_CACHE_HOME": str(tmp_path / "cache"), "COLORTERM": "truecolor"}


Cells = list[list[tuple[object, ...]]]


def cells(screen: pyte.Screen) -> Cells:
    """Every cell of a screen with all that is seen of it, line by line."""
    shown, columns = screen.buffer, range(screen.columns)
    return [
        [(c.data, c.fg, c.bg, c.bold, c.reverse) for c in (shown[y][x] for x in columns)]
        for y in range(screen.lines)
    ]


def written_straight(terminal: Terminal) -> Cells:
    """The screen as it was when Textual took it over, however the bytes came in."""
    screen = pyte.Screen(terminal.screen.columns, terminal.screen.lines)
    pyte.ByteStream(screen).feed(terminal.bytes.partition(ITS_FIRST_QUESTION)[0])
    return cells(screen)


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("kept", [False, True])
def test_what_is_written_straight_is_what_the_pages_show(
    garden: Path, env: dict[str, str], size: tuple[int, int], kept: bool
) -> None:
    if kept:
        with Terminal([str(garden), *ON], size=size, env=env) as before:
            before.until_open()
            before.leave()
    with Terminal([str(garden), *ON], size=size, env=env) as terminal:
        terminal.until_open()
        assert FIRST.encode() in terminal.bytes.partition(ITS_FIRST_QUESTION)[0]
        straight = written_straight(terminal)
        terminal.settle(1.0)
        # what waits on other pages is counted when the week stands there
        terminal.wait_for(lambda _: differing(straight, cells(terminal.screen)) in ([], [0]), most=20)
        assert terminal.bytes.count(IN) == 1  # to ask for it anew clears it in many terminals


def differing(one: Cells, other: Cells) -> list[int]:
    """The lines in which two screens differ."""
    return [y for y, (mine, theirs) in enumerate(zip(one, other, strict=True)) if mine != theirs]


@pytest.mark.long
def test_who_looks_and_leaves_at_once_finds_the_week_again(garden: Path, env: dict[str, str]) -> None:
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.wait_for(FIRST)
        assert terminal.leave() == 0  # typed before the pages are there
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.wait_for(FIRST)
        assert RECKONED.encode() not in terminal.bytes


def test_it_says_at_once_that_the_week_is_reckoned(garden: Path, env: dict[str, str]) -> None:
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.wait_for(RECKONED)
        assert terminal.lines[0].strip() == "The week of garden is being reckoned."
        assert FIRST not in terminal.text
        terminal.wait_for(FIRST)
        assert RECKONED not in terminal.text


@pytest.mark.long
@pytest.mark.parametrize("keys", [(), ("n",)])
def test_a_window_dragged_away_and_back_is_painted_anew(
    garden: Path, env: dict[str, str], keys: tuple[str, ...]
) -> None:
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.until_open()
        terminal.press(*keys)
        before = terminal.text
        terminal.screen.reset()  # a terminal made small lets go of what found no room
        os.kill(terminal.child.pid, signal.SIGWINCH)  # and has its old size again before the program looks
        terminal.wait_for(lambda text: text == before, most=10)


def test_keys_typed_before_the_pages_are_there_are_answered(garden: Path, env: dict[str, str]) -> None:
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.wait_for(RECKONED)
        terminal.child.send("n")
        terminal.child.send("two swifts\r")
        terminal.wait_for("noted:")
        assert terminal.leave() == 0
    (journal,) = (garden / "journal").glob("*.toml")
    assert "two swifts" in journal.read_text("utf-8")


def test_ctrl_c_while_the_week_is_reckoned_ends_it(large: Path, env: dict[str, str]) -> None:
    with Terminal([str(large), *ON], env=env) as terminal:
        terminal.wait_for(RECKONED)
        assert not terminal.echoes
        terminal.child.send("\x03")
        assert terminal.until_over() == 130
        assert OUT in terminal.bytes
        assert b"Traceback" not in terminal.bytes


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("signal_", [signal.SIGTERM, signal.SIGHUP])
def test_ended_while_the_week_is_reckoned_it_gives_the_terminal_back(
    large: Path, env: dict[str, str], signal_: signal.Signals
) -> None:
    words = " ".join([*COMMAND, str(large), *ON])
    with Terminal(
        ["--norc", "--noediting", "-i"], command=["/bin/bash"], env={"PS1": "ready> ", **env}
    ) as shell:
        shell.wait_for("ready>")
        shell.type(f"{words}; echo ended with $?\r")
        shell.wait_for(RECKONED)
        subprocess.run(["pkill", f"-{signal_.value}", "-f", str(large)], check=False)
        shell.wait_for(f"ended with {128 + signal_}")
        assert OUT in shell.bytes
        assert shell.echoes


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("how", ["found", "a_class_made"])
@pytest.mark.parametrize("signal_", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_ends_it_whatever_it_comes_in_the_middle_of(
    garden: Path, env: dict[str, str], signal_: signal.Signals, how: str
) -> None:
    words = [str(int(signal_)), "leafturn.almanac", how, str(garden), *ON]
    with Terminal(words, command=SIGNALLED_WHILE_LOADING, env=env) as terminal:
        assert terminal.until_over() == 128 + signal_
        assert OUT in terminal.bytes
        assert b"Traceback" not in terminal.bytes


def test_a_garden_that_cannot_be_read_is_told_on_the_screen_one_came_from(
    garden: Path, env: dict[str, str]
) -> None:
    (garden / "garden.toml").write_text("[place\n")
    with Terminal([str(garden), *ON], env=env) as terminal:
        assert terminal.until_over() == 2
        told = terminal.bytes.rpartition(OUT)[2].decode()
    assert "garden.toml, line 1" in told


WAITING = (0, termios.ICRNL | termios.IXON), (3, termios.ECHO | termios.ICANON | termios.IEXTEN)
TYPED = "".join(f"{number} " for number in range(10, 500))
LOOKS_A_KEY, LOOK_AFTER_S = 10, 0.0005


def flags_while_typing(terminal: Terminal, until: Callable[[], bool]) -> tuple[str, list[int]]:
    """Type from the moment the program has the terminal; what was typed, and the wrong flags at each key."""
    typed, flags = "", []
    while not any(flags) or flags[-1]:
        flags.append(_set(terminal))
    flags.clear()
    terminal.child.send("n")
    for letter in TYPED:
        if until():
            break
        terminal.child.send(letter)
        typed += letter
        for _ in range(LOOKS_A_KEY):
            flags.append(_set(terminal))
            time.sleep(LOOK_AFTER_S)
        terminal.read(0)
    return typed, flags


def _set(terminal: Terminal) -> int:
    attributes = termios.tcgetattr(terminal.child.fileno())
    return sum(attributes[place] & wrong for place, wrong in WAITING)


@pytest.mark.long
@pytest.mark.parametrize("kept", [False, True])
def test_keys_typed_all_the_while_act_once_each_in_order_and_none_is_echoed(
    garden: Path, env: dict[str, str], kept: bool
) -> None:
    """From before the first picture until the pages answer; the flags are those of POSIX (termios.h)."""
    if kept:
        with Terminal([str(garden), *ON], env=env) as before:
            before.until_open()
            before.leave()
    with Terminal([str(garden), *ON], env=env) as terminal:
        as_before = termios.tcgetattr(terminal.child.fileno())
        typed, flags = flags_while_typing(terminal, lambda: "10 11 12" in terminal.text)
        assert not any(flags)
        terminal.child.send("end\r")
        terminal.wait_for("noted:")
        assert not _set(terminal)
        terminal.child.send("q")
        assert terminal.until_over() == 0
        assert termios.tcgetattr(terminal.child.fileno()) == as_before
    (journal,) = (garden / "journal").glob("*.toml")
    assert f'text = "{typed}end"' in journal.read_text("utf-8")


@pytest.mark.long
def test_a_letter_that_leaves_is_a_letter_in_a_note_begun_before_the_pages_are_there(
    garden: Path, env: dict[str, str]
) -> None:
    with Terminal([str(garden), *ON], env=env) as before:
        before.until_open()
        before.leave()
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.wait_for(FIRST)
        terminal.child.send("nquinces\r")
        terminal.wait_for("noted: quinces")
        assert terminal.leave() == 0


@pytest.mark.long
def test_what_is_typed_before_the_program_has_the_terminal_is_taken(
    garden: Path, env: dict[str, str]
) -> None:
    """A terminal that nobody has taken yet makes a line feed of an Enter (ICRNL)."""
    with Terminal([str(garden), *ON], env=env) as terminal:
        terminal.child.send("ntwo swifts\r")
        terminal.wait_for("noted: two swifts")
        assert terminal.leave() == 0


@pytest.mark.long
def test_what_is_typed_before_a_garden_is_begun_is_not_echoed_and_answers_its_first_question(
    tmp_path: Path, env: dict[str, str]
) -> None:
    with Terminal(["new", str(tmp_path / "new")], env=env) as terminal:
        while _set(terminal):
            time.sleep(LOOK_AFTER_S)
        terminal.child.send("46.9N 15.9E")
        flags = []
        while "15.9E" not in terminal.text:
            flags.append(_set(terminal))
            terminal.read(LOOK_AFTER_S)
        assert not any(flags)
        assert terminal.leave("ctrl+c") == 0
        assert not (tmp_path / "new" / "garden.toml").exists()


# Starts the command as its script does, and tells, as the commands are found, whether keys are echoed.
_LOOKED_AT = """
import sys, termios

class Finder:
    def find_spec(self, name, path=None, target=None):
        if name == "leafturn_tui.commands":
            echoed = termios.tcgetattr(sys.stdin)[3] & termios.ECHO
            print("keys are", "echoed" if echoed else "not echoed", flush=True)

sys.meta_path.insert(0, Finder())
from leafturn_tui.command_line import main
sys.exit(main(sys.argv[1:]))
"""
LOOKED_AT_WHILE_LOADING = [sys.executable, "-c", _LOOKED_AT]


def test_no_key_is_echoed_while_the_commands_are_still_loaded(garden: Path, env: dict[str, str]) -> None:
    with Terminal([str(garden), *ON], command=LOOKED_AT_WHILE_LOADING, env=env) as terminal:
        as_before = termios.tcgetattr(terminal.child.fileno())
        terminal.until_open()
        assert b"keys are not echoed" in terminal.bytes
        terminal.child.send("q")
        assert terminal.until_over() == 0
        assert termios.tcgetattr(terminal.child.fileno()) == as_before


def test_a_command_that_is_not_the_pages_is_typed_to_as_ever(tmp_path: Path, env: dict[str, str]) -> None:
    """A folder may be called like a command: `leafturn new` then still asks in lines that one sees."""
    (tmp_path / "new").mkdir()
    words = ["new", "beds", "--no-pages"]
    with Terminal(words, command=LOOKED_AT_WHILE_LOADING, env=env, cwd=tmp_path) as terminal:
        terminal.wait_for("called?")
        assert terminal.echoes
        terminal.child.send("\x03")
        terminal.until_over()
        assert terminal.echoes


@pytest.mark.parametrize("signal_", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_ended_while_the_commands_are_loaded_it_gives_the_terminal_back(
    garden: Path, env: dict[str, str], signal_: signal.Signals
) -> None:
    words = [str(int(signal_)), "leafturn_tui.commands", "found", str(garden), *ON]
    with Terminal(words, command=SIGNALLED_WHILE_LOADING, env=env) as terminal:
        as_before = termios.tcgetattr(terminal.child.fileno())
        assert terminal.until_over() == 128 + signal_
        assert termios.tcgetattr(terminal.child.fileno()) == as_before
        assert b"Traceback" not in terminal.bytes
