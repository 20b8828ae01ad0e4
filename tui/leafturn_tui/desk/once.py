"""An answer that is worked out once, in whichever thread asks first; keys wait for it a moment at most."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

from leafturn.base.value import Value
from leafturn_tui.desk.behind import begin
from leafturn_tui.desk.turns import given_away

T = TypeVar("T")


class Patience(Value):
    """How long keys wait for an answer.

    Parameters
    ----------
    seconds : float or None
        So long; None waits until it is there, as in gardens of few plants.
    come : callable
        Called in a thread once an answer is there that was not waited for.
    """

    seconds: float | None
    come: Callable[[], None]


class Once(Generic[T]):
    """One answer.

    Parameters
    ----------
    work : callable
        Gives the answer; called once. What it raises is raised to all who ask.
    """

    def __init__(self, work: Callable[[], T]) -> None:
        self._work: Callable[[], T] | None = work
        self._begun = threading.Lock()  # held from the beginning on
        self._there = threading.Event()
        self._given: list[T] = []
        self._failed: Exception | None = None
        self._come: Callable[[], None] | None = None  # once a key was answered without

    @property
    def is_done(self) -> bool:
        """Whether it is there now."""
        return self._there.is_set()

    def wait(self) -> T:
        """The answer, however long it takes."""
        self._await()
        if self._failed is not None:
            raise self._failed
        return self._given[0]

    def is_there(self, patience: Patience) -> bool:
        """Whether the answer comes within so long; if not it comes later, from a thread."""
        if self.is_done:
            return True
        with given_away():
            self._wait_at_key(patience)
        return self.is_done  # what came since is told of too, which does no harm

    def _wait_at_key(self, patience: Patience) -> None:
        if patience.seconds is None:
            self._await()
            return
        if self._begun.acquire(blocking=False):
            begin(self._answer)
        if self._come is None and not self._there.wait(patience.seconds):
            self._come = patience.come

    def _await(self) -> None:
        if self._begun.acquire(blocking=False):
            self._answer()
        self._there.wait()

    def _answer(self) -> None:
        work, self._work = self._work, None  # and with it what it holds
        assert work is not None
        try:
            self._given.append(work())
        except Exception as why:
            self._failed = why
        self._there.set()
        if self._come is not None:
            self._come()
