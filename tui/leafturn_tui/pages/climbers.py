"""Page 5: every climber, how far it has grown since its cut, and whether its host bears it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.climber_answers import ClimberView
from leafturn_tui import words
from leafturn_tui.pages.base import MARGINS, Page
from leafturn_tui.pages.told import Groups, Told
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import Column, Piece, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

HOST_FROM, CUT_FROM = 60, 100


class ClimbersPage(Page):
    """Which climber is too much for its host?"""

    digit = "5"
    name = "Climbers"
    question = "Which climber is too much for its host?"

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """A line a climber, the hardest on its host first."""
        climbers = sorted(almanac.climbers(), key=lambda c: c.verdict != "too much")
        if not climbers:
            return paragraph("No climber is in the garden file.", width)
        table = [self._cells(c, width) for c in climbers]
        shape = [Column(16, 8), Column(26, 8)]
        shape += [Column(18, 8)] if width + MARGINS >= HOST_FROM else []
        shape += [Column(24, 10)] if width + MARGINS >= CUT_FROM else []
        laid = columns(table, [*shape, Column()], width)
        return [
            Row(line, c.plant, " ".join(c.says[:2]), c.plant) for c, line in zip(climbers, laid, strict=True)
        ]

    def _cells(self, climber: ClimberView, width: int) -> list[Piece]:
        tone = "lacks" if climber.verdict == "too much" else ""
        cells = [piece(climber.plant), piece(climber.verdict, tone)]
        if width + MARGINS >= HOST_FROM:
            state = f", {climber.host_state}" if climber.host_state not in ("", "well") else ""
            cells.append(piece(f"{climber.host or 'no host given'}{state}"))
        if width + MARGINS >= CUT_FROM:
            cells.append(piece(grown_words(climber)))
        return [*cells, piece(climber.next_cut, "due" if climber.next_cut.endswith(" now") else "quiet")]

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """What its growth and its load come to, and from what."""
        climber = _climber(almanac, row.key)
        return None if climber is None else Sheet(f"{climber.plant}: {climber.verdict}", climber.says)

    def opened(self, almanac: Almanac, row: Row) -> Page | None:
        """The climber on its host."""
        climber = _climber(almanac, row.key)
        title = f"{row.key} on {climber.host}" if climber and climber.host else row.key
        return None if climber is None else Told(title, _groups_of(row.key), row.key)


def grown_words(climber: ClimberView) -> str:
    """ "grown 2.1 m, 0.4 m past top"."""
    side = "past" if climber.past_top_m > 0 else "below"
    past = words.two_figures(abs(climber.past_top_m))
    return f"grown {words.two_figures(climber.grown_m)} m, {past} m {side} top"


def climber_groups(climber: ClimberView, almanac: Almanac) -> Groups:
    """All that is told of a climber, in groups."""
    growth, rest = climber.says[:2], climber.says[2:]
    return (
        ("", [f"{climber.kind}: {climber.next_cut}"]),
        ("growth since the cut", list(growth)),
        ("load and other hosts", list(rest)),
    )


def _climber(almanac: Almanac, plant: str) -> ClimberView | None:
    return next((c for c in almanac.climbers() if c.plant == plant), None)


def _groups_of(plant: str) -> Callable[[Almanac], Groups | None]:
    """Finds a climber's groups in whatever almanac is shown."""

    def find(almanac: Almanac) -> Groups | None:
        climber = _climber(almanac, plant)
        return None if climber is None else climber_groups(climber, almanac)

    return find
