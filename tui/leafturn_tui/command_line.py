"""The command `leafturn`: how it begins, and how it ends whatever befalls it.

The clock is read here and nowhere else. All else is imported when the command runs, so that a key which stops
it while modules load ends it as quietly as one that stops it later.
"""

from __future__ import annotations

import atexit
import contextlib
import datetime as dt
import gc
import os
import sys
from collections.abc import Sequence

from leafturn_tui.cli.statuses import FINE, INTERRUPTED, UNREADABLE
from leafturn_tui.desk.hushed import HUSH

# Objects made before Python looks for rings of them that nobody holds. Most of what is made here is kept to
# the end; to look through it each 700 objects took a twentieth of the time of a week.
LOOKED_THROUGH_AFTER = 200_000


def main(arguments: Sequence[str] | None = None, today: dt.date | None = None) -> int:
    """Run the command.

    Parameters
    ----------
    arguments : sequence of str, optional
        The words after `leafturn`; those of the process if left out.
    today : date, optional
        That of the clock if left out.

    Returns
    -------
    int
        0 fine, 1 faults in the garden, 2 cannot be read or not understood.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    gc.set_threshold(LOOKED_THROUGH_AFTER)
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # numpy would start threads that no sum here is worth
    atexit.register(gc.freeze)  # nor is it looked through once more as the process ends, which frees it all
    _open_closed_streams()
    with contextlib.suppress(AttributeError, ValueError):
        sys.stderr.reconfigure(errors="replace")  # type: ignore[union-attr]
        # Kept until told whole, so that what cannot be written is known apart from what the disk refused.
        sys.stdout.reconfigure(errors="replace", write_through=False)  # type: ignore[union-attr]
    if not words or os.path.exists(words[0]):  # pages, most likely, for which what is typed now waits
        HUSH.begin()
    try:
        return _run(words, today or dt.date.today())
    except BrokenPipeError:
        _forget_output()  # the reader has gone; there is nobody to tell
        return FINE
    except KeyboardInterrupt:
        return INTERRUPTED
    except RuntimeError as error:  # as which Python 3.11 passes on whatever is raised while a class is made
        if isinstance(error.__cause__, KeyboardInterrupt):
            return INTERRUPTED
        raise
    finally:
        HUSH.end()


def _run(words: list[str], today: dt.date) -> int:
    """Run the command that words name, and say why where it cannot be done; the exit status."""
    from leafturn.base.faults import Fault, Unreadable
    from leafturn.files.reasons import reason
    from leafturn_tui.cli.kept_answers import answered_before

    try:
        answer = answered_before(words, today)
        if answer is None:
            from leafturn_tui.commands import command_of, opens_pages

            command, own = command_of(words)
            if not opens_pages(command):
                HUSH.end()
            status = command(own, today)
        else:
            sys.stdout.write(answer)
            status = FINE
    except SystemExit as leaving:  # argparse has said what there was to say
        status = leaving.code if isinstance(leaving.code, int) else FINE
    except Unreadable as why:
        return _refused(why.fault.sentence())
    except BrokenPipeError:
        raise
    except OSError as why:  # of a disk that refused where nothing more can be told of it
        fault = Fault(file=str(why.filename or "leafturn"), line=None, message=f"{reason(why)}.")
        return _refused(fault.sentence())
    return status if _given_out() else UNREADABLE


def _refused(why: str) -> int:
    """Say why a command was not done, after what it has told; the exit status."""
    from leafturn_tui.safe_text import safe_text

    try:
        _given_out()
    except BrokenPipeError:  # who read the answer has gone; who reads what went wrong may be there
        _forget_output()
    print(safe_text(why, limit=2000), file=sys.stderr)
    return UNREADABLE


def _open_closed_streams() -> None:
    """Open to nothing what whoever started the program has closed, so that no file takes its number."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_RDWR), mode))


def _given_out() -> bool:
    """Give out what is still to be told; where that fails, say so, and that what was done stands."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as why:
        from leafturn.files.reasons import reason

        _forget_output()
        print(
            f"The answer could not be written: {reason(why)}. What was noted or changed stands.",
            file=sys.stderr,
        )
        return False
    return True


def _forget_output() -> None:
    """What is still buffered goes nowhere."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


if __name__ == "__main__":
    sys.exit(main())
