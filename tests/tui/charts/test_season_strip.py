"""The strip of the season: what a day's chance looks like, and which days stand where."""

from __future__ import annotations

import datetime as dt

import msgspec
from fake_garden import SEASON_DAYS

from leafturn.answers.season_days import BloomGroup
from leafturn_tui.charts.heights import column, hill, slope
from leafturn_tui.charts.season_strip import Span, Strip, head_row
from leafturn_tui.text.layout import Piece, Row

ON = dt.date(2027, 4, 21)
SPAN = Span.of_weeks(ON, 56)
STRIP = Strip(SEASON_DAYS, SPAN)


def test_the_taller_the_surer() -> None:
    assert [hill(p) for p in (0.0, 0.05, 0.1, 0.5, 0.9, 1.0)] == [" ", " ", "▁", "▄", "▇", "▇"]
    assert slope(1.0) == "█"
    assert column(0.5, 2) == [" ", "█"]


def test_the_strip_begins_on_the_monday_of_last_week() -> None:
    assert SPAN.first == dt.date(2027, 4, 12)
    assert SPAN.first.weekday() == 0
    assert SPAN.cell(ON) == 9
    head = head_row(SPAN).text
    assert head.index("12 Apr") == 15
    assert head.index("today") == 15 + 9


def test_frost_is_ground_under_every_row_from_today_on() -> None:
    plant = next(p for p in SEASON_DAYS.plants if p.plant == "comice-1")
    row = STRIP.plant_row(STRIP.chances_of(plant))
    tones = [piece.tone for piece in row.pieces]
    assert any(tone.endswith("on frost3") for tone in tones)
    cells = "".join(piece.text for piece in row.pieces)[15 : 15 + 56]
    assert len(cells) == 56
    assert cells[SPAN.cell(dt.date(2027, 4, 25))] == "▇"
    past = "".join(p.text for p in STRIP.frost_row("24 Apr").pieces)[15 : 15 + 8]
    assert past.strip("│ ") == ""


def test_a_group_without_a_pair_says_so() -> None:
    row = next(r for r in STRIP.rows(lambda plant, row: row) if r.text.startswith("  together"))
    assert "no pair this spring" in row.text
    assert any(piece.tone.endswith("on frost3") for piece in row.pieces), "frost is ground under it too"
    assert len(row.text) == 16 + 56, "a line on which no bar can rest begins a cell nearer to the left"


def test_a_pair_that_meets_on_days_nobody_knows_is_no_lack_of_one() -> None:
    """Four days on average, though none is shared in half of the draws: an unsure spring, no lonely tree."""
    (group,) = SEASON_DAYS.groups
    days = msgspec.structs.replace(SEASON_DAYS, groups=(BloomGroup(plants=group.plants, days=3.9),))
    row = next(r for r in Strip(days, SPAN).rows(lambda plant, row: row) if r.text.startswith("  together"))
    assert "~4 days, not known when" in row.text
    assert "no pair" not in row.text


def test_what_is_over_is_not_shown() -> None:
    def made(plant: object, row: Row) -> Row:
        return row

    texts = [row.text for row in STRIP.rows(made)]
    assert any(text.startswith("comice-1") for text in texts)
    late = Span.of_weeks(dt.date(2027, 8, 20), 56)
    assert not [row for row in Strip(SEASON_DAYS, late).rows(made) if row.text.strip()]


def test_a_year_has_a_cell_a_week() -> None:
    year = Span.of_year(SEASON_DAYS.first, len(SEASON_DAYS.frost), ON, 60)
    assert year.days_a_cell == 7
    assert year.cells == 58
    assert isinstance(head_row(year).pieces[0], Piece)
