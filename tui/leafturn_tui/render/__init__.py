"""What an almanac answers, in plain lines and as JSON: one module a question, found by its name.

A module of this folder answers one question and is the command of that name. It holds

- `QUESTION`, what is said of it above the answer and in the list of commands (`parts.question.Question`),
- `lines(almanac)`, the answer in plain lines, without the question, which is set above it here; its docstring
  is what the command tells in help; and
- `as_json(almanac)`, the same as plain nouns; without it the command reports no JSON.

The names are read from the folder; a module is imported when it is asked. `leafturn --help` imports all of
them, so they import what is heavy of `leafturn` inside the functions that need it.
What several questions share lies in `parts`.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from leafturn.base.value import Value
from leafturn_tui.render.parts.heading import head
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, shell

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class Answering(Value, kw_only=False):
    """A question with the ways to answer it; `as_json` is None where it reports no JSON."""

    command: str
    question: Question
    answer: Callable[..., Iterator[str]]
    as_json: Callable[..., Answer] | None

    def lines(self, almanac: AlmanacFace, **asked: str | bool | None) -> Iterator[str]:
        """The question with day, place, heat and frost, then the answer in plain lines."""
        if self.question.headed:
            yield from head(
                almanac, self.question.words(*(one for one in asked.values() if isinstance(one, str)))
            )
        yield from self.answer(almanac, **asked)

    @property
    def help(self) -> str:
        """What the command tells, in one sentence."""
        return self.answer.__doc__ or self.question.asked


def commands() -> tuple[str, ...]:
    """The names of the questions, without importing any."""
    return tuple(module.name for module in pkgutil.iter_modules(__path__) if not module.ispkg)


def answering(command: str) -> Answering:
    """The question of a command.

    Raises
    ------
    TypeError
        If the module lacks what a question must have; says which file and what.
    """
    module = importlib.import_module(f"{__name__}.{command}")
    if not isinstance(getattr(module, "QUESTION", None), Question):
        raise TypeError(f"render/{command}.py: a module of this folder needs QUESTION = Question(...)")
    if not (lines := getattr(module, "lines", None)) or not lines.__doc__:
        raise TypeError(f"render/{command}.py: a module of this folder needs lines(almanac) with a docstring")
    return Answering(command, module.QUESTION, lines, getattr(module, "as_json", None))


def every_question() -> list[Answering]:
    """All questions in the order of help."""
    return sorted(map(answering, commands()), key=lambda one: (one.question.place, one.command))


def whole_json(one: Answering, almanac: AlmanacFace, **asked: str | bool | None) -> Answer:
    """The answer as one object: garden, day, faults, and what was asked."""
    if one.as_json is None:
        raise TypeError(f"render/{one.command}.py: it has no as_json(almanac)")
    return shell(almanac) | one.as_json(almanac, **asked)
