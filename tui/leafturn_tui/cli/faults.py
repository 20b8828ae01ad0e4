"""The faults of gardens beside an answer: printed where errors go, and told by the exit status."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from leafturn.base.faults import Fault
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.printed import fault_lines, printed


def status_of(faults: Sequence[Fault]) -> int:
    """The exit status of a command that has answered."""
    return FAULTS if faults else FINE


def tell_faults(faults: Sequence[Fault]) -> int:
    """Print faults, after what was printed of the answer; the exit status."""
    if faults:
        sys.stdout.flush()
        sys.stderr.write(printed(fault_lines(faults)))
    return status_of(faults)
