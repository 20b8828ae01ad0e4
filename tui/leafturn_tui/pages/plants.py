"""Page 0: every plant of the garden, as a list or on a plan, with the light on the ground."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.plant_card import PlantCard
from leafturn.canopy.stand.growing_season import growing_season
from leafturn_tui.charts.field import Field
from leafturn_tui.charts.garden_plan import beside, legend_rows, light_shade, plan_rows
from leafturn_tui.charts.letters import codes
from leafturn_tui.host import Key, Slow
from leafturn_tui.pages.base import WHOLE, Page, first_lines
from leafturn_tui.pages.plant_keys import PlantKeys
from leafturn_tui.render.plants import QUESTION
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    MARGINS,
    Column,
    Piece,
    Row,
    joined_rows,
    name_cells,
    over_list,
    paragraph,
    piece,
    wrapped_columns,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

WHERE_FROM = 60
LEGEND = 32  # cells beside the plan at least
LETTERS = 3  # cells of a name's letters and a blank
LEAST_NAME = LEGEND // 2 - LETTERS
ROUND = 9  # lines of the window that are not the plan's
NEAREST = 8.0
MOVES = (
    ("left", "west", (-0.25, 0.0)),
    ("right", "east", (0.25, 0.0)),
    ("shift+up", "north", (0.0, 0.25)),
    ("shift+down", "south", (0.0, -0.25)),
)  # shares of what is seen


class PlantsPage(Page, key="0", question=QUESTION):
    """What stands here?"""

    def __init__(self) -> None:
        self.view = "list"
        self._nearer = 1.0
        self._of_plant = PlantKeys(lambda desk: desk.current.plant if desk.current else "")
        self._east = self._north = 0.0

    @property
    def list_width(self) -> int:
        """The plan wants the whole width."""
        return 0 if self.view == "list" else WHOLE

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Name, kind and place over the list."""
        if self.view != "list" or not almanac.garden.plants:
            return []
        heads = next(_table(almanac, width))
        return [over_list(heads[0])]

    def keys(self) -> tuple[Key, ...]:
        """What is done to a plant; list or plan, light or crowns, nearer and further, and where to look."""
        plan = Key(
            "v", "plan" if self.view == "list" else "list", "a list or a plan", self._turn, of_plants=True
        )
        if self.view == "list":
            return (*self._of_plant.keys(), plan)
        other = "crowns" if self.view == "light" else "light"
        return (
            plan,
            Key("s", other, "the light on the ground while things grow, or the crowns", self._light),
            Key("plus", "nearer", "look from nearer", partial(self._zoom, 2.0)),
            Key("minus", "further", "look from further off", partial(self._zoom, 0.5)),
            *(Key(name, "", f"look further {where}", partial(self._move, *by)) for name, where, by in MOVES),
        )

    def _turn(self, desk: Host) -> None:
        self.view = "plan" if self.view == "list" else "list"
        desk.start_over()

    def _light(self, desk: Host) -> None:
        self.view = "light" if self.view == "plan" else "plan"

    def _zoom(self, times: float, desk: Host) -> None:
        self._nearer = min(NEAREST, max(1.0, self._nearer * times))
        if self._nearer == 1.0:
            self._east = self._north = 0.0

    def _move(self, east: float, north: float, desk: Host) -> None:
        self._east += east / self._nearer
        self._north += north / self._nearer

    def slow(self, almanac: AlmanacFace) -> Slow | None:
        """The light is reckoned once for all years."""
        if self.view != "light" or almanac.ready("canopy"):
            return None
        return Slow("the light of every year", almanac.canopy)

    def heading(self, almanac: AlmanacFace) -> str:
        """What the view answers."""
        return "Where is the light?" if self.view == "light" else self.question.asked

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """How many plants and guilds."""
        if self.view == "light":
            signs = () if self.colours else ("tens of 100, blank 90 and more",)
            return (f"on the ground, {growing_season(almanac.garden.place.lat)}", *signs)
        plants = [p for p in almanac.garden.plants if p.state != "gone"]
        guilds = {p.guild for p in plants if p.guild}
        counted = ((plants, "plant"), (guilds, "guild"))
        return (", ".join(phrases.count(len(found), word) for found, word in counted if found),)

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a plant: name, a few words, where; or the plan with its letters."""
        cards = almanac.plants()
        if not cards:
            return first_lines(width)
        if self.view != "list":
            return self._plan(almanac, width)
        _, *lines = _table(almanac, width)
        return [
            row
            for c, own in zip(cards, lines, strict=True)
            for row in joined_rows(own, c.id, f"{c.name}: {_line(c)}, {c.where}", c.id)
        ]

    def _plan(self, almanac: AlmanacFace, width: int) -> list[Row]:
        plan = almanac.garden_plan()
        if not plan.plants:
            said = "No plant has a place yet, so there is no plan. In the list the key m gives one a place."
            return paragraph(said, width)
        with_legend = width >= 2 * LEGEND
        legend = 2 * (LETTERS + name_cells((p.plant for p in plan.plants), width * 2 // 3, LEAST_NAME))
        across = width - legend - 2 if with_legend else width
        field = Field.whole(plan, across, max(4, self.height - ROUND))
        field = field.nearer(self._nearer, self._east, self._north)
        names = codes([p.plant for p in plan.plants])
        shade = light_shade(partial(almanac.ground_light, plan.year)) if self.view == "light" else None
        drawn = plan_rows(plan, field, names, colour=self.colours, shade=shade)
        return beside(drawn, legend_rows(plan, names, legend), across) if with_legend else drawn


def _line(card: PlantCard) -> str:
    return card.line or card.kind


def _table(almanac: AlmanacFace, width: int) -> Iterator[list[tuple[Piece, ...]]]:
    """The heads, then the lines of each plant."""
    shape = [Column(22, 10), Column(48, 12), Column()][: 3 if width + MARGINS >= WHERE_FROM else 2]
    heads = tuple(piece(head, "dim") for head in ("plant", "what it is", "where"))
    table = [(piece(c.id), piece(_line(c)), piece(c.where)) for c in almanac.plants()]
    return wrapped_columns([cells[: len(shape)] for cells in (heads, *table)], shape, width)
