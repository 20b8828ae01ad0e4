"""Notes written into the journal by hand with slips: each is told, where it stands, and what to write.

The sentences are ours; that people make these slips is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run

DAY = ("--on", "2027-04-19")
NOTE = '[[entry]]\non = 2026-04-20\nwhat = "bloom"\nplant = "comice"\nstage = "full bloom"\n'
SLIPS = {
    "a line that is none": (
        f"{NOTE}asdf jkl\n",
        "asdf jkl is not understood. The note round it is left out.",
    ),
    "a day as Germans write it": (
        NOTE.replace("2026-04-20", "2.4.2026"),
        "on = 2.4.2026 is no day as TOML has it. The note round it is left out. Write on = 2026-04-02",
    ),
    "a day with slashes": (NOTE.replace("2026-04-20", "2/4/2026"), "on = 2026-04-02 or on = 2026-02-04"),
    "a day with slashes that is one": (NOTE.replace("2026-04-20", "4/20/2026"), "Write on = 2026-04-20"),
    "a minimum without its unit": (
        '[[entry]]\non = 2026-04-20\nwhat = "weather"\ntmin = -3\n',
        "Did you mean tmin_c or tmin_f?",
    ),
    "a warmth without its unit": (
        '[[entry]]\non = 2026-04-20\nwhat = "reading"\nheap = "bay"\ntemp = 58\n',
        "Did you mean temp_c or temp_f?",
    ),
}
REMARKS = {
    "a plant misspelt": (NOTE.replace("comice", "comcie"), "line 1). They are kept. Did you mean comice?"),
    "two plants misspelt": (
        NOTE.replace("comice", "comcie") + NOTE.replace("comice", "Comice"),
        "They are kept. Did you mean comice for Comice, comice for comcie?",
    ),
    "a heap that is none": (
        '[[entry]]\non = 2026-04-20\nwhat = "reading"\nheap = "bay-9"\ntemp_c = 58\n',
        "Notes name heaps that are not in the garden file: bay-9 (journal/2026.toml, line 1).",
    ),
    "a job in words": (
        '[[entry]]\non = 2026-04-20\nwhat = "done"\ntask = "prune comice"\n',
        'line 1: "prune comice" is no job, so this note closes none.',
    ),
    "a year to come": (NOTE.replace("2026-04-20", "2036-04-20"), "line 1: this note is of 2036"),
}  # fmt: skip


def checked(garden: Path, journal: str) -> str:
    (garden / "journal").mkdir()
    (garden / "journal" / "2026.toml").write_text(journal, encoding="utf-8")
    done = run("check", str(garden), *DAY)
    return done.stdout + done.stderr


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_in_a_note_is_told_with_what_to_write(name: str, garden: Path) -> None:
    journal, said = SLIPS[name]
    assert said in checked(garden, journal)


@pytest.mark.parametrize("name", REMARKS)
def test_a_note_that_counts_for_nothing_is_remarked(name: str, garden: Path) -> None:
    journal, said = REMARKS[name]
    assert said in checked(garden, journal)


def test_a_frost_noted_in_fahrenheit_has_no_more_figures_than_people_read(garden: Path) -> None:
    """27 F is -2.78 C, (27 - 32) / 1.8."""
    checked(garden, '[[entry]]\non = 2026-04-20\nwhat = "frost"\ntmin_f = 27\n')
    assert "min -2.78 C," in run("book", str(garden), *DAY).stdout
