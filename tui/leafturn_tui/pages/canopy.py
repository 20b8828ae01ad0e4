"""Page 4: what changes when a tree goes: light, heirs, reach; a plan, and a view from the side."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.canopy.model import OldTree
from leafturn.canopy.stand.growing_season import growing_season
from leafturn_tui.charts.light_years import BAR, FIGURES, MOST_YEARS
from leafturn_tui.host import Key, Slow
from leafturn_tui.pages.base import WHOLE, Page, first_lines
from leafturn_tui.pages.canopy_light import light_sentences, release_rows, what_is_behind
from leafturn_tui.pages.canopy_pictures import (
    MODES,
    OF_LEGEND,
    WITH_LEGEND,
    View,
    plan_picture,
    plan_words,
    side_picture,
    side_words,
)
from leafturn_tui.pages.climate import climate_title, page_rows
from leafturn_tui.pages.crown_look import ask_crown_look
from leafturn_tui.pages.what_if import WhatIfPage
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render import canopy as canopy_lines
from leafturn_tui.render import drift
from leafturn_tui.render.canopy import QUESTION
from leafturn_tui.text.layout import BLANK, LEAST_NAME, MARGINS, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace, Progress
    from leafturn_tui.host import Host

VIEWS = ("light", "plan", "side", "climate")
PICTURES = ("plan", "side")
ROUND = 10  # lines of the window that are not a picture's
BESIDE = 12  # lines that must be free for the plan to stand below the table of light
LEAST_PLAN = 8
STEP = 5
NO_LIGHT_TAKEN = "It takes hardly any light from the plants of the garden file."
AHEAD = 30
NO_ASSURANCE = "No figure here is an assurance; have a competent inspector see a tree that is old or failing."


class CanopyPage(Page, key="4", question=QUESTION):
    """What changes when a tree goes?"""

    def __init__(self) -> None:
        self.view = 0
        self.tree = 0
        self.ahead = 0
        self.mode = 0

    @property
    def list_width(self) -> int:
        """Its table wants all its columns; a picture the whole width."""
        return WHOLE if self.shown in PICTURES else LEAST_NAME + BAR + FIGURES + MOST_YEARS + MARGINS

    @property
    def shown(self) -> str:
        """The name of the view turned to."""
        return VIEWS[self.view]

    def keys(self) -> tuple[Key, ...]:
        """What if, a look at the crown, the next picture, other trees, other years."""
        following = VIEWS[(self.view + 1) % len(VIEWS)]
        views = Key("v", following, "light, plan, side view, climate", self._turn, of_plants=True)
        if self.shown == "climate":
            return (views,)
        own = [
            Key("y", "what if", "leave it, keep a stem, fell it: side by side", self._what_if),
            Key("r", "look", "note a look at its crown", self._look),
            Key(
                "right",
                "other tree",
                "the next tree that is old or failing",
                lambda desk: self._other(desk, 1),
            ),
            Key("left", "", "the tree before", lambda desk: self._other(desk, -1)),
            Key("full_stop", "later", "five years later, in the plan and from the side", self._later),
            Key("comma", "", "five years earlier", self._earlier),
        ]
        if self.shown in PICTURES:
            own.append(
                Key(
                    "x",
                    "without it",
                    "without the tree; in the plan then light, and what is gained",
                    self._mode,
                )
            )
        first, second, *more = (replace(key, of_plants=True) for key in own)
        return first, second, views, *more

    def every_key(self) -> tuple[str, ...]:
        """Those of the plan, which has most."""
        plan = CanopyPage()
        plan.view = VIEWS.index("plan")
        most = plan.keys()
        return tuple(key.name for key in most)

    def slow(self, almanac: AlmanacFace) -> Slow | None:
        """Thirty years of light, or the climates to come."""
        if self.shown == "climate":
            return None if almanac.ready("drift") else Slow("the climates to come", partial(_drift, almanac))
        return None if almanac.ready("canopy") else Slow("thirty years of light", partial(_canopy, almanac))

    def _turn(self, desk: Host) -> None:
        self.view = (self.view + 1) % len(VIEWS)
        desk.start_over()

    def _mode(self, desk: Host) -> None:
        self.mode = (self.mode + 1) % (len(MODES) if self.shown == "plan" else 2)

    def _other(self, desk: Host, step: int) -> None:
        trees = len(desk.almanac.canopy().old_trees)
        if trees < 2:
            desk.say("No other tree here is old or failing.")
            return
        self.tree = (self.tree + step) % trees
        desk.start_over()

    def _later(self, desk: Host) -> None:
        self._go(desk, STEP)

    def _earlier(self, desk: Host) -> None:
        self._go(desk, -STEP)

    def _go(self, desk: Host, step: int) -> None:
        self.ahead = min(max(self.ahead + step, 0), AHEAD)
        if self.shown not in PICTURES:
            desk.say(f"The plan and the view from the side now show {desk.almanac.on.year + self.ahead}.")

    def _what_if(self, desk: Host) -> None:
        old_tree = self._old_tree(desk.almanac)
        if old_tree is None:
            desk.say("There is no tree to ask about.")
        else:
            desk.open(WhatIfPage(old_tree.plant))

    def _look(self, desk: Host) -> None:
        old_tree = self._old_tree(desk.almanac)
        if old_tree is None:
            desk.say("There is no tree to look at.")
        else:
            ask_crown_look(desk, old_tree.plant)

    def _old_tree(self, almanac: AlmanacFace) -> OldTree | None:
        old_trees = almanac.canopy().old_trees
        return old_trees[self.tree % len(old_trees)] if old_trees else None

    def heading(self, almanac: AlmanacFace) -> str:
        """The question; another one over the climates to come."""
        return drift.QUESTION.asked if self.shown == "climate" else self.question.asked

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """The tree, and when it may be down."""
        if self.slow(almanac) is not None or self.shown == "climate":
            return ()
        old_tree = self._old_tree(almanac)
        if old_tree is None:
            return ()
        down = old_tree.down
        if down.likely is None or down.early is None or down.late is None:
            return canopy_lines.short_title(old_tree)
        return f"{old_tree.plant}: down about {down.likely}", f"{down.early} to {down.late}"

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The tree, how its crown does, when it may be down; a picture needs the room for itself."""
        if self.slow(almanac) is not None or self.shown == "climate":
            return []
        old_tree = self._old_tree(almanac)
        if old_tree is None:
            return []
        if self.shown in PICTURES:
            return paragraph(self._title(almanac, old_tree, width), width - 1, "heading", indent=1, most=1)
        return paragraph(old_tree.crown_says, width - 1, "dim", indent=1, most=2)

    def _title(self, almanac: AlmanacFace, old_tree: OldTree, width: int) -> str:
        """The year and what the picture shows of it."""
        view = View(old_tree=old_tree, year=almanac.on.year + self.ahead, mode=MODES[self.mode])
        stands = any(p.plant == old_tree.plant and p.stands(view.year) for p in almanac.canopy().plants)
        if self.shown == "side":
            return side_words(view, stands=stands)
        told = plan_words(view, growing_season(almanac.garden.place.lat), stands=stands)
        return f"{told}{OF_LEGEND.get(view.mode, '')}" if width >= WITH_LEGEND else told

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """What no figure here may be taken for."""
        if self.slow(almanac) is not None or self.shown == "climate":
            return []
        return paragraph(NO_ASSURANCE, width - 1, indent=1, most=2) if almanac.canopy().old_trees else []

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The view turned to."""
        if self.shown == "climate":
            return page_rows(almanac.drift(), width)
        old_tree = self._old_tree(almanac)
        if old_tree is None:
            if not almanac.garden.plants:
                return first_lines(width)
            return paragraph(
                f"No tree with a place stands here in {almanac.on.year}: give one in the garden file, "
                'such as at = "8 m west of the gate".',
                width,
            )
        if self.shown == "light":
            return self._light(almanac, old_tree, width)
        return self._picture(almanac, old_tree, width, max(LEAST_PLAN, self.height - ROUND))

    def _picture(self, almanac: AlmanacFace, old_tree: OldTree, width: int, lines: int) -> list[Row]:
        """The plan, or the view from the side."""
        view = View(old_tree=old_tree, year=almanac.on.year + self.ahead, mode=MODES[self.mode])
        draw = side_picture if self.shown == "side" else plan_picture
        return draw(almanac, view, width, lines, colour=self.colours)

    def _light(self, almanac: AlmanacFace, old_tree: OldTree, width: int) -> list[Row]:
        year = almanac.on.year
        rows = release_rows(old_tree, year, width) if old_tree.releases else []
        if not rows:
            rows = paragraph(NO_LIGHT_TAKEN, width, key="none taken")
        rows.append(BLANK)
        room = self.height - ROUND - len(rows)
        if room >= BESIDE:
            rows += [*self._picture(almanac, old_tree, width, room - 1), BLANK]
        for n, line in enumerate(
            s for s in old_tree.says if s not in (old_tree.crown_says, old_tree.down_says)
        ):
            rows += paragraph(line, width, key=f"says {n}")
        canopy = almanac.canopy()
        groups = (
            ("the library would plant here", [f"{s.kind}: {s.why}" for s in old_tree.succession.suggestions]),
            ("seedlings", [canopy_lines.seedling_words(s) for s in canopy.seedlings]),
            ("near the end of their life", list(canopy.short_lived)),
            ("leaning", list(canopy.leans)),
            ("left out or guessed", list(canopy.notes)),
            ("always", [canopy.caution]),
        )
        for title, lines in groups:
            if lines:
                rows += [BLANK, heading(title)]
                for n, line in enumerate(lines):
                    rows += paragraph(line, width, key=f"{title} {n}")
        return rows

    def has_why(self, row: Row) -> bool:
        """What stands behind the light is told of every line."""
        return self.shown != "climate" or super().has_why(row)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """A plant's light by month and by year, or all that is said of the tree."""
        if self.shown == "climate":
            return Sheet(climate_title(almanac.drift(), row), [row.sentence]) if row.why else None
        old_tree = self._old_tree(almanac)
        if old_tree is None:
            return None
        release = next((r for r in old_tree.releases if r.plant == row.plant), None)
        if release is None:
            return what_is_behind(old_tree)
        return Sheet(f"{release.plant}: its light", light_sentences(almanac, old_tree, release))


def _canopy(almanac: AlmanacFace, progress: Progress) -> None:
    year = almanac.on.year
    almanac.canopy(lambda reckoned, last: progress(reckoned - year, last - year))


def _drift(almanac: AlmanacFace, progress: Progress) -> None:
    almanac.drift(progress)
