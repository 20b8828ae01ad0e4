"""Page 5: every climber, how far it has grown since its cut, and whether its host bears it."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.answers.climbers import ClimberView
from leafturn_tui.charts.load_bar import load_bar
from leafturn_tui.pages.base import Page, first_lines
from leafturn_tui.pages.detail import detail_of
from leafturn_tui.pages.job_keys import job_keys, job_under_bar
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.climbers import QUESTION, climber_groups, training_words
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, cut, cut_heads, fit, name_cells, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Key

LEAST = 13  # cells of a climber's name and a blank, and one more of its host's
NO_HOST = "no host"
BAR, SHORT_BAR, LEAST_BAR = 24, 12, 4
PASSES = 11  # cells of "not known" beside the bar
BAR_FROM = 37  # cells beside the names from which the long bar finds room


class ClimbersPage(Page, key="5", question=QUESTION):
    """Which climber is too much for its host?"""

    def keys(self) -> tuple[Key, ...]:
        """What is done to a climber's next cut."""
        return job_keys(partial(job_under_bar, _climber))

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """Which is, and from when it may be cut."""
        heavy = [c for c in almanac.climbers() if c.verdict == "too much"]
        if not heavy:
            return ("none is",) if almanac.climbers() else ()
        return (", ".join(c.plant for c in heavy) + (" is" if len(heavy) == 1 else " are"),)

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Climbers that are too much for their hosts."""
        return sum(c.verdict == "too much" for c in almanac.climbers()), "amber"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The ground, the host's top, when it passes that, what comes next."""
        if not almanac.climbers():
            return []
        name, host, bar = _cells(almanac, width)
        over = "ground" + "top".rjust(bar - 6) if bar >= SHORT_BAR else "top".rjust(bar)
        said = f"  {fit('climber', name)}{fit('on', host)}{over}  passes it"
        return [Row((Piece(cut_heads(said, width + 2), "dim"),))]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a climber, the hardest on its host first; below it why, where it is too much."""
        climbers = sorted(almanac.climbers(), key=lambda c: c.verdict != "too much")
        if not climbers:
            if not almanac.garden.plants:
                return first_lines(width)
            return paragraph("No climber is in the garden file. On page 0 the key a adds a plant.", width)
        rows: list[Row] = []
        for climber in climbers:
            rows.append(self._line(climber, almanac, width))
            rows += [replace(r, joined=True) for r in self._under(climber, almanac, width)]
        return rows

    def _line(self, climber: ClimberView, almanac: AlmanacFace, width: int) -> Row:
        heavy = climber.verdict == "too much"
        name, host, bar = _cells(almanac, width)
        passes = _passes(climber, almanac.on)
        told = (
            Piece(fit(piece(climber.plant).text, name - 1) + " "),
            Piece(fit(piece(climber.host or NO_HOST).text, host - 1) + " "),
            *load_bar(climber.up_host, heavy, bar),
            Piece(cut(f"  {passes}", width - name - host - bar), "dim" if climber.past_top_m is None else ""),
        )
        return Row(told, climber.plant, " ".join(climber.says[:2]), climber.plant)

    def _under(self, climber: ClimberView, almanac: AlmanacFace, width: int) -> list[Row]:
        """The next cut, why it is too much, and by when it is to be led elsewhere."""
        said = [(climber.next_cut, "amber" if climber.cut_due else "dim")]
        if climber.verdict == "too much":
            said.append((f"* too much for {climber.host}: {climber.load}", "amber"))
        if climber.train_by is not None:
            said.append((f"* {training_words(climber)}", "amber"))
        return [
            row
            for text, tone in said
            for row in paragraph(text, width, tone, indent=_cells(almanac, width)[0])
        ]

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What its growth and its load come to, and from what."""
        climber = _climber(almanac, row.plant)
        return None if climber is None else Sheet(f"{climber.plant}: {climber.verdict}", climber.says)

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The climber on its host."""
        climber = _climber(almanac, row.plant)
        title = f"{row.plant} on {climber.host}" if climber and climber.host else row.plant
        return (
            None
            if climber is None
            else detail_of(title, partial(_climber, plant=row.plant), climber_groups, row.plant)
        )


def _passes(climber: ClimberView, on: dt.date) -> str:
    """When it grows past its host's top."""
    if climber.past_top_m is None:
        return "not known"
    if climber.past_top_m > 0:
        return "already"
    return phrases.day(climber.topped.likely, on) if climber.topped.likely else "not this year"


def _cells(almanac: AlmanacFace, width: int) -> tuple[int, int, int]:
    """Cells of the climber's name, of its host's, each with a blank, and of the bar."""
    climbers = almanac.climbers()
    name = name_cells((c.plant for c in climbers), width, LEAST)
    host = name_cells((c.host or NO_HOST for c in climbers), width, LEAST + 1)
    left = width - name - host
    return name, host, BAR if left >= BAR_FROM else max(LEAST_BAR, min(SHORT_BAR, left - PASSES))


def _climber(almanac: AlmanacFace, plant: str) -> ClimberView | None:
    return next((c for c in almanac.climbers() if c.plant == plant), None)
