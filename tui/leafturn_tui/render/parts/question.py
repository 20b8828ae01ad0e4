"""What is said of a question: on its page, under its command, and in help."""

from __future__ import annotations

from leafturn.base.value import Value


class Question(Value):
    """A question that the almanac answers.

    Parameters
    ----------
    asked : str
        The question itself: above the answer, on the page and in the list of commands.
    place : float
        Where it stands in the list of commands; the lowest first.
    of_one : str
        The question where it is asked of one only, with `{}` for who or what that is.
    headed : bool
        Whether the day, the place, heat and frost stand above the answer.
    """

    asked: str
    place: float = 150
    of_one: str = ""
    headed: bool = True

    def words(self, one: str | None = None) -> str:
        """The question, of one helper or thing where it is asked of one."""
        return self.of_one.format(one) if one and self.of_one else self.asked
