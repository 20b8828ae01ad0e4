"""What is wrong in a file, said in plain words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from leafturn.base.value import Value

MOST_FAULTS = 200  # of one file; nobody mends more at a sitting
MOST_OF_A_NAME = 300  # characters of a file's name in a sentence, so that what is wrong with it is still read


class Fault(Value):
    """One thing to mend in a file.

    Parameters
    ----------
    file : str
        The file as the user would name it (relative to the garden's folder where it can be).
    line : int or None
        First line concerned, counted from 1; None where the file gives none.
    message : str
        One plain sentence: what was understood, and what was left out because of it.
    hint : str
        What to write instead; may be empty.
    """

    file: str
    line: int | None
    message: str
    hint: str = ""

    def sentence(self) -> str:
        """The fault as one line to read: file, line, message, hint."""
        file = clipped(self.file, MOST_OF_A_NAME)
        where = file if self.line is None else f"{file}, line {self.line}"
        return f"{where}: {self.message}" + (f" {self.hint}" if self.hint else "")


class Unreadable(Exception):
    """A file that cannot be read at all. Holds the fault that says why."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.sentence())
        self.fault = fault


def listed(faults: Sequence[Fault], file: str) -> tuple[Fault, ...]:
    """Faults of one file as they are told: the first `MOST_FAULTS`, and how many more there are.

    Parameters
    ----------
    faults : sequence of Fault
        In the order in which they are told.
    file : str
        The file's name.
    """
    more = len(faults) - MOST_FAULTS
    if more <= 0:
        return tuple(faults)
    rest = Fault(file=file, line=None, message=f"{more:,} faults more are not listed here.")
    return (*faults[:MOST_FAULTS], rest)


def clipped(text: str, most: int = 60) -> str:
    """`text` cut to `most` characters, for quoting in a sentence whose end is to be read too."""
    return text if len(text) <= most else text[: most - 3] + "..."


class NoGarden(Unreadable):
    """A folder without a garden file."""


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """The known word that `word` most likely meant, or None if nothing is near."""
    import difflib

    lowered = {k.lower(): k for k in known}
    found = difflib.get_close_matches(word.lower(), lowered, n=1, cutoff=0.6)
    return lowered[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint sentence naming the nearest known word, or an empty string."""
    near = nearest_word(word, known)
    return f"Did you mean {near}?" if near else ""
