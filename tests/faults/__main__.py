"""`python -m tests.faults [NAME ...]`: every trial in its long form, and docs/reliability.md from the counts.

With names only those trials are run; what the others came to last time stands in docs/reliability.json.
"""

from __future__ import annotations

import json
import platform
import sys
import time
from collections.abc import Callable
from dataclasses import asdict
from functools import partial
from pathlib import Path
from typing import Any

from tests.faults.by_commands import BY_COMMANDS
from tests.faults.by_pages import BY_PAGES
from tests.faults.fuzz import FUZZED, Fuzz, Fuzzed, fuzz
from tests.faults.test_faults import TRIALS
from tests.faults.trial import Tally, Trial

ASKED = (*BY_COMMANDS, *BY_PAGES)
DOCS = Path(__file__).parents[2] / "docs"
COUNTS = DOCS / "reliability.json"
SEED = 20270419
COUNTED = ("tried", "acknowledged", "lost", "wrong", "unsaid")
HEAD = """\
# Reliability

What was done to the program to make it lose a note, and what came of it. Each trial drives the program as
it is used: notes are made by `leafturn note`, or by the journal through which all commands and pages write,
in processes of their own where that matters. *Acknowledged* are notes that the program said were kept;
*lost* are those of them that were not there afterwards; *wrong* are notes read that nobody wrote, that were
written otherwise or that stood twice; *unsaid* are tracebacks, and refusals that are no plain sentence. The
plain suite runs a few of each (`tests/faults`), `pytest -m faults` all of them; `python -m tests.faults`
writes this page.

| fault | tried | notes acknowledged | lost | wrong | unsaid |
|---|---|---|---|---|---|
"""
FUZZ_HEAD = """
## Input that nobody meant

Files and typed words with bytes changed at random: flipped, cut, doubled, taken from one another, and
pieces put in that break readers (huge numbers, brackets without end, NUL, words of every script). *Told of*
counts inputs that were refused or of which something was said, *unsaid* refusals that are no sentence,
*slow* inputs that took over a second of processor time; *memory* is by how many megabytes the process grew
over all of them.

"""
ASKED_HEAD = """
## Values that nobody meant

Files that are read as what they are, in which values stand under one another's keys, numbers and days lie at
their bounds, ids stand twice and names hold what harms terminals; and words typed after commands likewise.
Each is asked about by one of all the commands, as a user does it, or opened in the pages, where keys are
pressed and such words typed at random. Something let through that a terminal would carry out counts as
*unsaid*; slow is here a command that took over five seconds, and a walk through the pages over thirty.

"""
COLUMNS = """\
| input | tried | told of | tracebacks | unsaid | slow | slowest [s] | memory |
|---|---|---|---|---|---|---|---|
"""


def main(names: list[str]) -> None:
    """Run, and write the page; a name that no trial has is refused, with those there are."""
    known = [one.name for one in (*TRIALS, *FUZZED, *ASKED)]
    if unknown := [name for name in names if name not in known]:
        sys.exit(f"No trial is called {unknown[0]}. There are: {', '.join(known)}.")
    counts: dict[str, Any] = json.loads(COUNTS.read_text()) if COUNTS.exists() else {}
    runs: list[tuple[Trial | Fuzzed, Callable[[], Tally | Fuzz]]]
    runs = [(one, partial(one.run, one.long, SEED)) for one in TRIALS]
    runs += [(one, partial(fuzz, one, one.long, SEED)) for one in (*FUZZED, *ASKED)]
    for one, run in runs:
        if not names or one.name in names:
            before = time.monotonic()
            found = run()
            print(f"{one.name}: {found}, {time.monotonic() - before:.0f} s", flush=True)
            counts[one.name] = {"words": one.words, **asdict(found)}
            COUNTS.write_text(json.dumps(counts, indent=2) + "\n")  # so that one may stop, and go on by names
            (DOCS / "reliability.md").write_text(page(counts))


def page(counts: dict[str, Any]) -> str:
    """The page as its counts tell it."""
    rows = [counts[trial.name] for trial in TRIALS if trial.name in counts]
    text = HEAD + "".join(_row(row, *COUNTED) for row in rows)
    whole = {
        name: sum(row[name] for row in rows) for name in ("tried", "acknowledged", "lost", "wrong", "unsaid")
    }
    text += _row({"words": "**together**", **whole}, *whole)
    names = ("tried", "refused", "tracebacks", "unsaid", "slow", "slowest", "grown")
    for head, inputs in ((FUZZ_HEAD, FUZZED), (ASKED_HEAD, ASKED)):
        text += head + COLUMNS
        text += "".join(_row(counts[one.name], *names) for one in inputs if one.name in counts)
    return text + f"\nCounted with Python {platform.python_version()} on {platform.system()}.\n"


def _row(row: dict[str, Any], *names: str) -> str:
    cells = [f"{row[n]:,.2f}" if isinstance(row[n], float) else f"{row[n]:,}" for n in names]
    return f"| {row['words']} | {' | '.join(cells)} |\n"


if __name__ == "__main__":
    main(sys.argv[1:])
