"""Page 8: what could hurt someone or a plant, the gravest first, and who to call."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.hazards.overview import POISON
from leafturn_tui.charts.letters import codes
from leafturn_tui.charts.reach_plan import reach_rows
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.crown_look import ask_crown_look
from leafturn_tui.pages.heed_rows import head_row, number_of, rows_of
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.heed import QUESTION
from leafturn_tui.text.layout import BLANK, Row, as_there_is_room, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


PLAN_ROWS = 18  # of the reach plan, where the window has as many
ROUND = 10  # lines of the window that are not the list's
STORY = 18  # lines of the window that are left for words


class HeedPage(Page, key="8", question=QUESTION):
    """What could hurt someone, or a plant?"""

    def __init__(self) -> None:
        self._turned: frozenset[str] = frozenset()

    def keys(self) -> tuple[Key, ...]:
        """Enter folds and unfolds a line; a look is noted."""
        return (
            Key("enter", "fold, unfold", "fold a line or unfold it", self._turn, of_line=True),
            Key("r", "looked at", "note a look at the crown of a tree over people", self._look, of_line=True),
        )

    def _turn(self, desk: Host) -> None:
        if desk.current is not None:
            self._turned ^= {desk.current.key}

    def _look(self, desk: Host) -> None:
        plant = desk.current.plant if desk.current else ""
        if any(line.plant == plant for line in desk.almanac.heed().falls):
            ask_crown_look(desk, plant)
        else:
            desk.say("A look is noted at trees that may fall; n notes anything else.")

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """How many matters of each kind."""
        found = almanac.heed()
        named = (
            (len(found.over_people), "over people"),
            (len(found.juglone), "roots"),
            (len(found.bark), "bark"),
            (len(found.look_alikes), "to eat or not"),
            (len(found.warned), "poisonous"),
        )
        return tuple(f"{number} {what}" for number, what in named if number) or ("nothing known",)

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Failing trees with someone or something in reach."""
        return len(almanac.heed().over_people), "harm"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What, and who is in reach."""
        return [head_row(width)]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Over people first, unfolded; then a line a matter under its head."""
        rows = as_there_is_room(
            partial(rows_of, almanac, width, self._turned), number_of(almanac), self.height - ROUND
        )
        return rows or paragraph("Nothing in the garden file is known to hurt anyone.", width)

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """Of a tree over people its reach from above; then all that is told of the line."""
        over = {line.plant: line for line in almanac.heed().over_people}
        told = super().story(almanac, row, width)
        plan = almanac.garden_plan()
        tree = next((s.point for s in plan.plants if s.plant == row.plant), None)
        lines = min(PLAN_ROWS, self.height - STORY)
        if row.plant not in over or tree is None or lines < PLAN_ROWS // 2:
            return told
        names, reach = codes([p.plant for p in plan.plants]), over[row.plant].falling.reach_m
        drawn = reach_rows(plan, names, tree, reach, width, lines, colour=self.colours)
        return [
            *paragraph(f"within the height of {row.plant}, {quantities.metres(reach, 0)}", width, "dim"),
            *drawn,
            BLANK,
            *told,
        ]

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """What to do if something was eaten."""
        said = "Call the poison centre at once if you doubt what was eaten; keep the plant."
        poison = POISON in almanac.heed().calls
        return paragraph(said, width - 1, "harm", indent=1, hang=0) if poison else []

    def has_why(self, row: Row) -> bool:
        """Who to call is told of every line."""
        return True

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The matter in full, its cautions, and who to call."""
        found = almanac.heed()
        cautions = [c for line in found.look_alikes if line.plant == row.plant for c in line.cautions]
        return Sheet(
            row.plant or "who to call", [row.sentence, *cautions, *(found.calls if row.plant else ())]
        )
