"""Answers kept by what was asked: `cached_property` for methods that take something."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Concatenate, Generic, ParamSpec, TypeVar

S = TypeVar("S")
P = ParamSpec("P")
R = TypeVar("R")


class kept(Generic[S, P, R]):
    """Makes a method answer what it was asked before from memory, for as long as its object lasts.

    What is asked must be hashable. The object needs a `__dict__`, where the answers are kept, so that one of
    its copies begins anew.
    """

    def __init__(self, method: Callable[Concatenate[S, P], R]) -> None:
        self._method = method
        functools.update_wrapper(self, method)  # type: ignore[arg-type]

    def __get__(self, instance: S, owner: type[S] | None = None) -> Callable[P, R]:
        if instance is None:  # asked of the class, as by what reads docstrings
            return self._method  # type: ignore[return-value]
        answers = functools.cache(functools.partial(self._method, instance))
        instance.__dict__[self._method.__name__] = answers  # found there from now on
        return answers  # type: ignore[return-value]
