"""While a key is answered it has the interpreter; work in threads has it while keys are waited for."""

from __future__ import annotations

import asyncio
import gc
import io
import os
import sys
import time

import pytest
from textual.drivers.linux_driver import LinuxDriver

from leafturn_tui.desk import turns
from leafturn_tui.desk.drivers import AtOnce
from leafturn_tui.desk.once import Once, Patience
from leafturn_tui.desk.turns import ANSWERING_S, TURN_S, KeysFirst, given_away


def test_what_answers_keeps_the_interpreter_and_gives_it_away_while_it_waits() -> None:
    before, seen = sys.getswitchinterval(), []

    def work() -> None:
        time.sleep(0.1)  # until what answers waits for it
        seen.append((sys.getswitchinterval(), gc.isenabled()))

    async def answers() -> None:
        await asyncio.to_thread(work)
        seen.append((sys.getswitchinterval(), gc.isenabled()))

    turns.run(answers())
    assert seen == [(pytest.approx(TURN_S), True), (pytest.approx(ANSWERING_S), False)]
    assert (sys.getswitchinterval(), gc.isenabled()) == (pytest.approx(before), True)


def test_a_slip_leaves_all_as_before() -> None:
    before = sys.getswitchinterval()

    async def answers() -> None:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        turns.run(answers())
    with pytest.raises(ZeroDivisionError), given_away():
        raise ZeroDivisionError
    assert (sys.getswitchinterval(), gc.isenabled()) == (pytest.approx(before), True)


def test_while_there_is_more_to_do_nothing_is_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(turns, "LOOK_AFTER_S", 60)
    out, into = os.pipe()
    with KeysFirst() as selector:
        selector.register(out, turns.selectors.EVENT_READ)
        os.write(into, b"a key")
        assert selector.select(0.01)
        assert not selector.select(0)
        monkeypatch.setattr(turns, "LOOK_AFTER_S", 0)
        assert selector.select(0)
    gc.enable()
    for end in (out, into):
        os.close(end)


def test_a_key_that_waits_for_an_answer_gives_the_interpreter_away() -> None:
    seen: list[float] = []
    with_patience = Patience(seconds=60, come=lambda: None)
    assert Once(lambda: seen.append(sys.getswitchinterval())).is_there(with_patience)
    assert seen == [pytest.approx(TURN_S)]


def test_a_picture_is_written_in_one_piece_by_who_drew_it(monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal(io.StringIO):
        def write(self, text: str) -> int:
            written.append(text)
            return len(text)

    written: list[str] = []
    monkeypatch.setattr(LinuxDriver, "__init__", lambda self: None)
    driver = AtOnce()  # type: ignore[call-arg]
    driver._file = Terminal()  # type: ignore[assignment]
    driver.write("begun, ")
    driver.write("ended")
    assert not written
    driver.flush()
    assert [text for text in written if text] == ["begun, ended"]
