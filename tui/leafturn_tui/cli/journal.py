"""`leafturn book --verify` looks the journal through, `leafturn book --merge` makes one of two."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import Fault, Unreadable
from leafturn_tui.cli.arguments import OwnWords
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.printed import fault_lines, printed
from leafturn_tui.render.parts.values import Answer, fault, fields, json_text
from leafturn_tui.text.phrases import count

if TYPE_CHECKING:
    from leafturn.journal.store.merging import Merged
    from leafturn.journal.store.proof import JournalProof


def add(parser: argparse.ArgumentParser) -> None:
    """The words of this command that only the Book has."""
    parser.add_argument(
        "--verify",
        action="store_true",
        help="prove the journal whole: every file and note, no number missing",
    )
    said = "add to the journal file A the notes that only B holds; B stays as it is"
    parser.add_argument("--merge", nargs=2, metavar=("A", "B"), help=said)


def done(given: argparse.Namespace, on: dt.date) -> int | None:
    """Do the one of the two that is asked for; None where neither is."""
    if given.merge:
        return _merge(*map(Path, given.merge))
    return _verify(Path(given.garden), given.json) if given.verify else None


def _merge(into: Path, other: Path) -> int:
    from leafturn.journal.store.merging import merge_files

    sys.stdout.write(printed(_merged_lines(merge_files(into, other), into, other)))
    return FINE


def _merged_lines(found: Merged, into: Path, other: Path) -> Iterator[str]:
    if not found.added:
        yield f"{into} holds every note of {other} already; nothing was changed."
        return
    yield f"{count(len(found.added), 'note')} of {other} added to {into}."
    if found.renamed:
        had = (
            "had the id of another note and has" if found.renamed == 1 else "had ids of other notes and have"
        )
        yield f"{found.renamed} of them {had} a further letter group in the id now."


def _verify(path: Path, as_json: bool) -> int:
    from leafturn.journal.store.proof import prove

    if not path.exists():
        raise Unreadable(Fault(file=str(path), line=None, message="there is no such folder or file."))
    found = prove(path if path.is_dir() else path.parent)
    sys.stdout.write(f"{json_text(_as_json(found))}\n" if as_json else printed(_proof_lines(found)))
    return FINE if found.whole else FAULTS


def _proof_lines(found: JournalProof) -> Iterator[str]:
    for one in found.files:
        parts = [f"{one.sealed} as they were written"] if one.sealed else []
        parts += [f"{one.mended} changed by hand since"] if one.mended else []
        parts += [f"{one.by_hand} without a check sum"] if one.by_hand else []
        yield f"{one.file}: {count(one.sealed + one.mended + one.by_hand, 'note')}" + (
            f" ({', '.join(parts)})" if parts else ""
        )
    yield from found.remarks
    yield from fault_lines(found.faults)
    if found.whole:
        yield f"The journal is whole: {count(found.notes, 'note')} in {count(len(found.files), 'file')}."
    else:
        yield "The journal is not whole."


def _as_json(found: JournalProof) -> Answer:
    return {
        "whole": found.whole,
        "files": [fields(one, "file", "sealed", "mended", "by_hand") for one in found.files],
        "faults": [fault(one) for one in found.faults],
        "remarks": list(found.remarks),
    }


WORDS = OwnWords(add=add, instead=done)
