"""Page 4: what changes when the old tree goes: light, heirs, reach; a plan, a view from the side, curves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.canopy.model import Elder, Release
from leafturn_tui import canopy_answers as told
from leafturn_tui import canopy_drawings as drawings
from leafturn_tui.pages.base import MARGINS, Key, Page, first_lines
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import BLANK, Column, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk import Desk

VIEWS = ("light", "plan", "side", "curves")
FULL_FROM = 70  # width from which the first column of light fits beside the reply
PLAN_LINES, WIDE_PLAN_LINES, SIDE_LINES = 13, 26, 11
STEP = 5
AHEAD = 30
NO_ASSURANCE = "No figure here is an assurance; have a competent inspector see an old tree."


class CanopyPage(Page):
    """What changes when the old tree goes?"""

    digit = "4"
    name = "Canopy"
    question = "What changes when the old tree goes?"

    def __init__(self) -> None:
        self.view = 0
        self.tree = 0
        self.ahead = 0

    def keys(self) -> tuple[Key, ...]:
        """What if, the next picture, other trees, other years."""
        return (
            Key("y", "what if", "leave it, keep a stem, fell it: side by side", self._what_if),
            Key(
                "v", VIEWS[(self.view + 1) % len(VIEWS)], "light, plan, side view, light by year", self._turn
            ),
            Key("right", "other tree", "the next old tree", lambda desk: self._other(desk, 1)),
            Key("left", "", "the old tree before", lambda desk: self._other(desk, -1)),
            Key("full_stop", "later", "five years later, in the plan and from the side", self._later),
            Key("comma", "", "five years earlier", self._earlier),
        )

    def _turn(self, desk: Desk) -> None:
        self.view = (self.view + 1) % len(VIEWS)
        desk.start_over()

    def _other(self, desk: Desk, step: int) -> None:
        trees = len(desk.almanac.canopy().elders)
        if trees < 2:
            desk.say("There is no other old tree in the garden file.")
            return
        self.tree = (self.tree + step) % trees
        desk.start_over()

    def _later(self, desk: Desk) -> None:
        self._go(desk, STEP)

    def _earlier(self, desk: Desk) -> None:
        self._go(desk, -STEP)

    def _go(self, desk: Desk, step: int) -> None:
        self.ahead = min(max(self.ahead + step, 0), AHEAD)
        if VIEWS[self.view] not in ("plan", "side"):
            desk.say(f"The plan and the view from the side now show {desk.almanac.on.year + self.ahead}.")

    def _what_if(self, desk: Desk) -> None:
        elder = self._elder(desk.almanac)
        if elder is None:
            desk.say("There is no tree to ask about.")
            return
        desk.ask(
            Sheet(
                f"{elder.plant}: what if?",
                [*(told.choice_words(c) for c in elder.choices), desk.almanac.canopy().caution],
            )
        )

    def _elder(self, almanac: Almanac) -> Elder | None:
        elders = almanac.canopy().elders
        return elders[self.tree % len(elders)] if elders else None

    def top(self, almanac: Almanac, width: int) -> list[Row]:
        """The tree, how its crown does, when it may be down."""
        elder = self._elder(almanac)
        if elder is None:
            return []
        down = next((s for s in elder.says if s.startswith("down:")), "")
        lines = paragraph(told.title(elder), width - 1, "heading", indent=1, most=1)
        for words in (elder.says[0], down):
            lines += paragraph(words, width - 1, indent=1, most=2)
        return lines

    def below(self, almanac: Almanac, width: int) -> list[Row]:
        """What no figure here may be taken for."""
        return paragraph(NO_ASSURANCE, width - 1, indent=1, most=2) if almanac.canopy().elders else []

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """The view turned to."""
        elder = self._elder(almanac)
        if elder is None:
            if not almanac.garden.plants:
                return first_lines(width)
            return paragraph(
                'No tree here has a place: give one in the garden file, such as at = "8 m west of the gate".',
                width,
            )
        view = VIEWS[self.view]
        return self._light(almanac, elder, width) if view == "light" else self._drawn(almanac, elder, width)

    def _drawn(self, almanac: Almanac, elder: Elder, width: int) -> list[Row]:
        canopy, year = almanac.canopy(), almanac.on.year + self.ahead
        view = VIEWS[self.view]
        if view == "plan":
            lines = PLAN_LINES if width < 100 else WIDE_PLAN_LINES
            drawn = drawings.plan(
                canopy,
                almanac.garden,
                almanac.ground_light,
                year,
                width,
                lines,
                elder if width < 100 else None,
            )
            names = drawings.codes(canopy.plants)
            drawn += ["letters: " + ", ".join(f"{names[p.plant]} {p.plant}" for p in canopy.plants)]
        elif view == "side":
            drawn = drawings.side(canopy, elder, year, width, SIDE_LINES)
        else:
            years = sorted(canopy.plants[0].light) if canopy.plants else []
            drawn = drawings.curves(elder.releases, years, width)
        rows: list[Row] = []
        for n, line in enumerate(drawn):
            if len(line) > width:
                rows += paragraph(line, width, key=f"{view} {n}")
            else:
                rows.append(Row((piece(line, limit=None),), f"{view} {n}"))
        return rows

    def _light(self, almanac: Almanac, elder: Elder, width: int) -> list[Row]:
        later = almanac.on.year + 10
        rows = [*self._table(elder.releases, later, width)] if elder.releases else []
        if not rows:
            rows = paragraph("It takes hardly any light from the plants of the garden file.", width)
        rows.append(BLANK)
        for n, line in enumerate(s for s in elder.says[1:] if not s.startswith("down:")):
            rows += paragraph(line, width, key=f"says {n}")
        canopy = almanac.canopy()
        groups = (
            ("the library would plant here", [f"{s.kind}: {s.why}" for s in elder.succession.suggestions]),
            ("seedlings", [told.seedling_words(s) for s in canopy.seedlings]),
            ("near the end of their life", list(canopy.short_lived)),
            ("left out or guessed", list(canopy.notes)),
            ("always", [canopy.caution]),
        )
        for title, lines in groups:
            if lines:
                rows += [BLANK, heading(title)]
                for n, line in enumerate(lines):
                    rows += paragraph(line, width, key=f"{title} {n}")
        return rows

    def _table(self, releases: tuple[Release, ...], later: int, width: int) -> list[Row]:
        wide = width + MARGINS >= FULL_FROM
        titles = ["May-Sep, % of open", "", "full", "now", "gone", str(later), "reply"]
        table = [[piece(t, "heading") for t in titles]]
        for r in releases:
            then = r.later.get(later)
            table.append(
                [
                    piece(r.plant + (" (guess)" if r.guessed else "")),
                    piece(f"{r.metres:.1f} m {r.bearing}"),
                    piece(f"{r.full:.0f}"),
                    piece(f"{r.now:.0f}"),
                    piece(f"{r.gone:.0f}"),
                    piece("" if then is None else f"{then:.0f}"),
                    piece(r.reply, "thin" if r.reply.startswith("scorch") else ""),
                ]
            )
        shape = [Column(26, 10, gives=1), Column(9, 6), *[Column(4, 4, right=True)] * 4, Column()]
        if not wide:
            table = [[cells[0], *cells[2:]] for cells in table]
            shape = [shape[0], *shape[2:]]
        laid = columns(table, shape, width)
        head = Row(laid[0])
        return [
            head,
            *(Row(line, r.plant, _why(r), r.plant) for r, line in zip(releases, laid[1:], strict=True)),
        ]

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """A plant's light by month and by year, or all that is said of the tree."""
        elder = self._elder(almanac)
        if elder is None:
            return None
        release = next((r for r in elder.releases if r.plant == row.key), None)
        if release is None:
            return Sheet(f"{elder.plant}: what is behind this?", [*elder.says, BASIS])
        return Sheet(f"{release.plant}: its light", _light_sentences(almanac, elder, release))


BASIS = (
    "Crowns are solids that pass the published share of the light, as a mean over their outline; 55 % of it "
    "comes from the sun's track and 45 % from the whole sky (a guess); growth is a curve through what was "
    "measured. The yearly chances of a fall are rules of thumb that the garden file may change."
)


def _why(release: Release) -> str:
    return f"{release.plant}: {told.light_words(release)}"


def _light_sentences(almanac: Almanac, elder: Elder, release: Release) -> list[str]:
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    now, gone = almanac.light_by_month(), almanac.light_by_month(elder.plant)
    by_month = [
        f"{month} {a:.0f} and {b:.0f}"
        for month, a, b in zip(months, now.get(release.plant, ()), gone.get(release.plant, ()), strict=False)
    ]
    years = list(release.later)[::5]
    said = [
        f"{release.metres:.1f} m {release.bearing} of {elder.plant}: {told.light_words(release)}.",
        f"{release.points_back:.0f} of the {release.points:.0f} points are already back.",
        f"By month, now and without {elder.plant}: {', '.join(by_month)}.",
        f"By year: {', '.join(f'{y} {release.later[y]:.0f}' for y in years)}.",
    ]
    if release.need is not None:
        said.append(f"Its kind wants {release.need:.0f} % of open light.")
    if release.scorch is not None:
        said.append(f"Above {release.scorch:.0f} % its leaves scorch.")
    if release.below_need_from is not None:
        said.append(f"From {release.below_need_from} on it has less than that.")
    return [*said, BASIS]
