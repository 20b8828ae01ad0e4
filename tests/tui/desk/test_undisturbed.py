"""A picture is drawn in one piece, and what was reckoned keeps nobody who leaves."""

from __future__ import annotations

import datetime as dt
import gc
import os
import sys

import pytest
from tests.samples.places import DEMO

from leafturn_tui import commands
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.worker import TURN_S, undisturbed


def test_while_a_picture_is_drawn_no_rings_are_looked_for_and_threads_wait() -> None:
    with undisturbed():
        assert not gc.isenabled()
        assert sys.getswitchinterval() > 10 * TURN_S
    assert gc.isenabled()
    assert sys.getswitchinterval() == pytest.approx(TURN_S)


def test_after_a_slip_all_is_as_before() -> None:
    with pytest.raises(ZeroDivisionError), undisturbed():
        raise ZeroDivisionError
    assert gc.isenabled()


def test_what_was_reckoned_is_not_looked_through_when_the_program_ends(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Objects that are frozen are left alone by the search for rings with which Python ends."""
    monkeypatch.setattr(commands, "_at_a_terminal", lambda: True)
    monkeypatch.setattr(os, "get_terminal_size", lambda: os.terminal_size((80, 24)))
    monkeypatch.setattr(LeafturnApp, "run", lambda self, **named: None)
    monkeypatch.setattr(commands, "open_garden", lambda named, on: object())
    try:
        commands._show(str(DEMO), dt.date(2027, 4, 19), follow=False)
        assert gc.get_freeze_count() > 1000
    finally:
        gc.unfreeze()
