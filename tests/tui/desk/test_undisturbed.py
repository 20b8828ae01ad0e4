"""A picture is drawn in one piece."""

from __future__ import annotations

import gc
import sys

import pytest

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
