"""The faults of gardens beside an answer: told where errors go, and by the exit status."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import NamedTuple

from leafturn.base.faults import Fault
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.printed import fault_lines, printed
from leafturn_tui.render.parts.values import Answer, json_text


class Told(NamedTuple):
    """What a command has to tell.

    Parameters
    ----------
    text : str
        The answer, to standard output.
    beside : str
        Faults told beside it, to standard error.
    status : int
        The exit status.
    """

    text: str
    beside: str
    status: int

    def give(self) -> int:
        """Tell it; the exit status."""
        sys.stdout.write(self.text)
        if self.beside:
            sys.stdout.flush()
            sys.stderr.write(self.beside)
        return self.status


def status_of(faults: Sequence[Fault]) -> int:
    """The exit status of a command that has answered."""
    return FAULTS if faults else FINE


def tell_faults(faults: Sequence[Fault]) -> int:
    """Print faults, after what was printed of the answer; the exit status."""
    return with_faults("", faults).give()


def with_faults(text: str, faults: Sequence[Fault]) -> Told:
    """An answer with the faults of its gardens beside it."""
    return Told(text, printed(fault_lines(faults)), status_of(faults))


def in_json(answer: Answer, faults: Sequence[Fault]) -> Told:
    """An answer that tells of the faults itself."""
    return Told(f"{json_text(answer)}\n", "", status_of(faults))
