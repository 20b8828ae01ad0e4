"""Heed: a line a matter, the gravest first; Enter unfolds it; a look is noted; the reach of a tree drawn."""

from __future__ import annotations

import pytest
from fake_almanac import FakeAlmanac
from rich.cells import cell_len
from screens import shown_after

from leafturn.almanac import Almanac
from leafturn.journal.entries import CrownNote
from leafturn_tui.pages.heed_rows import parts_of, rows_of
from leafturn_tui.text.layout import MARGINS

WIDTHS = [30, 60, 80, 120]


@pytest.mark.parametrize("columns", WIDTHS)
def test_each_matter_is_told_by_whole_clauses_and_those_over_people_stand_first(
    columns: int, weir_meadow: Almanac
) -> None:
    width = columns - MARGINS
    rows = rows_of(weir_meadow, width, ())
    assert all(cell_len(row.text.rstrip()) <= width for row in rows)
    assert rows[0].text.startswith("! toll-ash")
    folded = rows_of(weir_meadow, width, ("over people 0",))
    named = [part for part in parts_of(weir_meadow) if part.title != "who to call"]
    lines = [row for row in folded if row.key and not row.key.startswith("who to call")]
    assert len(lines) == sum(len(part.matters) for part in named)
    tall = [row for row in folded[: folded.index(lines[-1])] if row.joined]
    assert len(tall) <= 2 * len(lines), "in three lines at most"
    if columns >= 80:
        assert not any("…" in row.text for row in rows)


@pytest.mark.parametrize("columns", WIDTHS)
def test_unfolded_a_line_tells_all_there_is(columns: int, weir_meadow: Almanac) -> None:
    width = columns - MARGINS
    keys = [row.key for row in rows_of(weir_meadow, width, ()) if row.key]
    unfolded = [key for key in keys if not key.startswith("over people")]
    said = " ".join(" ".join(row.text for row in rows_of(weir_meadow, width, unfolded)).split())
    for part in parts_of(weir_meadow):
        for matter in part.matters:
            for told in matter.more or (matter.whole,):
                assert "".join(told.split()) in "".join(said.split())


def test_amber_stands_only_where_harm_is_going_on(weir_meadow: Almanac) -> None:
    marked = [row.text for row in rows_of(weir_meadow, 77, ()) if row.text.startswith("* ")]
    assert marked
    assert all("now" in line or "took" in line or "short of water" in line for line in marked)


def test_enter_folds_and_unfolds() -> None:
    first = shown_after(FakeAlmanac(), (80, 24), "8")
    assert any("call: a competent tree inspector" in line for line in first)
    folded = shown_after(FakeAlmanac(), (80, 24), "8", "enter")
    assert not any("call: a competent tree inspector" in line for line in folded)
    assert shown_after(FakeAlmanac(), (80, 24), "8", "enter", "enter") == first
    dry = shown_after(FakeAlmanac(), (80, 24), "8", "down", "enter")
    assert any("it has used 40" in line for line in dry)


def test_a_look_is_noted_of_the_tree_under_the_bar() -> None:
    almanac = FakeAlmanac()
    shown_after(almanac, (80, 24), "8", "r", "3", "0", "%", "enter")
    noted = almanac.log[-1]
    assert isinstance(noted, CrownNote)
    assert noted.live_percent == 30
    said = shown_after(FakeAlmanac(), (80, 24), "8", "down", "r")
    assert any("A look is noted at trees that may fall" in line for line in said)


def test_beside_the_list_the_reach_is_drawn_round_the_tree() -> None:
    wide = shown_after(FakeAlmanac(), (120, 40), "8")
    beside = [line.partition("│")[2] for line in wide]
    assert any("within the height of early-plum" in line for line in beside)
    assert sum(0x2800 < ord(sign) <= 0x28FF for line in beside for sign in line) > 60
    assert not any("within the height" in line for line in shown_after(FakeAlmanac(), (80, 24), "8"))
    assert not any("within the height" in line for line in shown_after(FakeAlmanac(), (120, 40), "8", "down"))
