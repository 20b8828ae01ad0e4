"""Who has the interpreter: keys and their pictures, and while they wait the work in threads.

Python lets a thread that wants the interpreter ask for it after a while, which is one for all. Here it
is short while keys are waited for, so that they have it soon, and long while one is answered.
"""

from __future__ import annotations

import gc
import selectors
import sys
import time
from collections.abc import Coroutine, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

T = TypeVar("T")

# So long may the work keep the interpreter from the keys; Python has 25 times that.
TURN_S = 0.0002
# So long may a key and its picture keep it from the work: mostly until they are done. Who must give it away
# before that waits as long until it is given back.
ANSWERING_S = 0.01
# So long are files not looked at while there is more to do, since the interpreter is given away to look.
LOOK_AFTER_S = 0.005


@contextmanager
def given_away() -> Iterator[None]:
    """In the thread of the keys: let work in threads have the interpreter while something is waited for."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(TURN_S)
    try:
        yield
    finally:
        sys.setswitchinterval(before)


class KeysFirst(selectors.DefaultSelector):
    """Waits for keys and for what threads tell; what is to be done comes before another look for more.

    Rings of objects that nobody holds are looked for while it waits, and not while a key is answered.
    """

    _looked = 0.0  # when it was

    def select(self, timeout: float | None = None) -> list[tuple[selectors.SelectorKey, int]]:
        """What is there to be read within so many seconds, as of every selector."""
        more_to_do = timeout is not None and timeout <= 0
        if more_to_do and time.monotonic() < self._looked + LOOK_AFTER_S:
            return []
        gc.enable()
        with given_away():
            found = super().select(timeout)
        gc.disable()
        self._looked = time.monotonic()
        return found


def run(answers: Coroutine[Any, Any, T]) -> T:
    """Run what answers keys to its end, as `asyncio.run` does, and let it come before work in threads."""
    import asyncio

    before = sys.getswitchinterval()
    sys.setswitchinterval(ANSWERING_S)
    try:
        with asyncio.Runner(loop_factory=lambda: asyncio.SelectorEventLoop(KeysFirst())) as runner:
            return runner.run(answers)
    finally:
        sys.setswitchinterval(before)
        gc.enable()
