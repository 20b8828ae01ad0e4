"""What is said of a question: on its page, under its command, and in help."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Question:
    """A question that the almanac answers.

    Parameters
    ----------
    asked : str
        The question itself, above the answer.
    help : str
        What its command tells, in one sentence.
    about : str
        The same in a few words, for the list of commands.
    place : float
        Where it stands in the list of commands; the lowest first.
    """

    asked: str
    help: str
    about: str
    place: float = 150
