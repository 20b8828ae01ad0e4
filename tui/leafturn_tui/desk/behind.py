"""Work in a thread that the program does not wait for when it ends."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")


def begin(work: Callable[[], object]) -> None:
    """Begin work that nothing is lost of if the program ends before it."""
    threading.Thread(target=work, daemon=True).start()


async def done(work: Callable[[], T]) -> T:
    """What such work gives, waited for while keys are answered; it raises what the work raises."""
    import asyncio

    loop = asyncio.get_running_loop()
    given: asyncio.Future[T] = loop.create_future()

    def give(result: T | None, why: Exception | None) -> None:
        if given.done():  # nobody waits any more
            return
        if why is not None:
            given.set_exception(why)
        else:
            given.set_result(result)  # type: ignore[arg-type]

    def run() -> None:
        result, failed = None, None
        try:
            result = work()
        except Exception as why:
            failed = why
        with contextlib.suppress(RuntimeError):  # the program has ended
            loop.call_soon_threadsafe(give, result, failed)

    begin(run)
    return await given
