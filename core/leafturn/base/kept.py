"""Answers kept by what was asked: `cached_property` for methods and functions that take something."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Concatenate, ParamSpec, TypeVar

S = TypeVar("S")
P = ParamSpec("P")
R = TypeVar("R")


def kept(function: Callable[Concatenate[S, P], R]) -> Callable[Concatenate[S, P], R]:
    """Makes a method answer what it was asked before from memory, for as long as its object lasts.

    So it does a function, for as long as the first thing lasts that it is asked of, for what is asked of a
    value of a lower room. What else is asked must be hashable. The object needs a `__dict__`: the answers are
    kept there, so that one of its copies begins anew and nothing stays of gardens that are gone. They do not
    hold the object themselves, since Python never looks whether values of plain numbers hold each other.
    """
    name = f"{function.__module__}.{function.__qualname__}"

    @functools.wraps(function)
    def answer(first: S, /, *asked: P.args, **named: P.kwargs) -> R:
        question = (asked, *named.items()) if named else asked
        answers: dict[str, dict[object, R]] = first.__dict__
        try:
            return answers[name][question]
        except KeyError:
            pass
        found = function(first, *asked, **named)
        answers.setdefault(name, {})[question] = found
        return found

    return answer
