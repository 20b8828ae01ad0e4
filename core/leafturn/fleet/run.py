"""Asking many gardens: those that are not done yet, each answer written as it comes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from leafturn.base.value import Value
from leafturn.fleet.engines import Engine
from leafturn.fleet.gardens import FoundGarden
from leafturn.fleet.one_garden import Asked, ask
from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.tables import Answered, without_answers


class Progress(Value):
    """How far a run is.

    Parameters
    ----------
    gardens, done : int
        All that were named, and those done; `before` of them in earlier runs.
    without_answers : tuple of Answered
        Those that gave none.
    """

    gardens: int
    done: int
    before: int
    without_answers: tuple[Answered, ...]


def ask_all(
    gardens: Sequence[FoundGarden],
    settings: Settings,
    parts: Parts,
    engine: Engine,
    report: Callable[[Progress], None],
) -> Progress:
    """Ask all gardens that are not done.

    Parameters
    ----------
    gardens : sequence of FoundGarden
    settings : Settings
    parts : Parts
        Is written to as answers come, also when the run is interrupted.
    engine : Engine
        Asks them, in whatever order.
    report : callable
        Is called at the beginning and after each garden.
    """
    names = {garden.name for garden in gardens}
    done = {name: one for name, one in parts.done().items() if name in names}
    silent = [one for one in done.values() if one.state != "answered"]
    before = len(done)
    asked = (
        Asked(name=one.name, path=str(one.path), on=settings.on, questions=settings.questions)
        for one in gardens
        if one.name not in done
    )

    def progress(count: int) -> Progress:
        return Progress(gardens=len(gardens), done=count, before=before, without_answers=tuple(silent))

    report(progress(before))
    count = before
    try:
        for answered in engine(ask, asked, _lost):
            parts.add(answered)
            count += 1
            if answered.state != "answered":
                silent.append(answered)
            report(progress(count))
    finally:
        parts.write()
    return progress(count)


def _lost(asked: Asked, why: str) -> Answered:
    return without_answers(asked.name, "failed", why)
