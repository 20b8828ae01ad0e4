"""What every page can do. A page answers one question from the almanac and knows no widget."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from leafturn.base.prose import RARE, in_years
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Row, cut, paragraph, piece, row

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk.screen import Desk


MARGINS = 3  # cells of a list that its rows do not have: bar and blank on the left, a blank on the right

_SHOWN_KEYS = {
    "space": "Space", "enter": "Enter", "escape": "Esc", "question_mark": "?", "full_stop": ".",
    "comma": ",", "left": "Left", "right": "Right",
}  # fmt: skip


class Key(NamedTuple):
    """A key, its label in the foot, what it does in full, and the doing."""

    name: str
    label: str
    what: str
    act: Callable[[Desk], None]

    @property
    def shown(self) -> str:
        """The key as it is written."""
        return _SHOWN_KEYS.get(self.name, self.name)


class Slow(NamedTuple):
    """Work that takes too long to wait for at a key: what it is, and the doing.

    The doing is called with a function that wants to know how much is done of how much, and that raises to
    stop the work.
    """

    what: str
    work: Callable[[Callable[[int, int], None]], object]


class Page:
    """One page. Rows are made anew whenever the almanac or the width changes."""

    digit = ""
    name = ""
    question = ""

    def keys(self) -> tuple[Key, ...]:
        """The page's own keys, beyond those of every page."""
        return ()

    def slow(self, almanac: Almanac) -> Slow | None:
        """Work to be done before the page can be shown; None if there is none left."""
        return None

    def heading(self, almanac: Almanac) -> str:
        """The first line's left side."""
        return self.question

    def top(self, almanac: Almanac, width: int) -> list[Row]:
        """Lines above the list that never scroll."""
        return []

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """The list."""
        raise NotImplementedError

    def start(self, almanac: Almanac, rows: list[Row]) -> int:
        """The line the bar rests on when the page opens."""
        return 0

    def below(self, almanac: Almanac, width: int) -> list[Row]:
        """Lines under the list that never scroll."""
        return []

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """What `w` tells of a line: by default why its plant is on the round, or not yet."""
        return why_plant(almanac, row.plant) if row.plant else None

    def opened(self, almanac: Almanac, row: Row) -> Page | None:
        """What Enter opens: by default the plant."""
        from leafturn_tui.pages.one_plant import OnePlant

        return OnePlant(row.plant) if row.plant and almanac.plant(row.plant) else None

    def gone(self, almanac: Almanac) -> bool:
        """Whether what the page is about is no longer there."""
        return False

    def taken_back(self, almanac: Almanac, row: Row | None) -> str | None:
        """Id of the note under the bar that `u` is to take back, if the page lists notes."""
        return None


def why_plant(almanac: Almanac, plant: str) -> Sheet:
    """Why a plant has a job on the round, or has none yet."""
    from leafturn_tui.pages.one_job import why_sheet

    job = next((j for j in almanac.round().jobs if plant == j.plant or plant in j.plants), None)
    if job is not None:
        return why_sheet(almanac, job)
    return Sheet(f"{plant}: why is there no job now?", almanac.why_plant(plant))


def sides(left: str, right: list[str], width: int) -> Row:
    """Words at the left, and at the right the longest of some wordings that fits."""
    from rich.cells import cell_len

    left = cut(safe_text(left), width)
    fits = [safe_text(r) for r in right]
    chosen = next((r for r in fits if cell_len(left) + 2 + cell_len(r) <= width), "")
    space = " " * (width - cell_len(left) - cell_len(chosen))
    return Row((piece(left, "question"), piece(space), piece(chosen)))


def longest(wordings: list[str], width: int) -> str:
    """The first wording that fits the width; the last is cut if none does."""
    from rich.cells import cell_len

    return next((w for w in wordings if cell_len(w) <= width), cut(wordings[-1], width))


NO_PLANTS = "No plants yet. These two lines in the garden file make the first:"
FIRST_PLANT = ("[[plant]]", 'kind = "pear"')


def first_lines(width: int) -> list[Row]:
    """What to write in an empty garden file, to be copied as it stands."""
    return [*paragraph(NO_PLANTS, width), BLANK, *(row(line) for line in FIRST_PLANT)]


def season_line(almanac: Almanac, width: int) -> str:
    """The second line of every page: heat and frost."""
    heading = almanac.heading()
    heat, frost = heading.heat, heading.frost
    pace = f", {said}" if (said := phrases.ahead(heat.days_ahead)) else ""
    warm = f"heat {phrases.count(heat.to_date, 'degree-day')}{pace}"
    gone = f"; {phrases.frost_gone(frost.last_gone)}"
    last = f"last frost likely {phrases.likely(frost.last, almanac.on)}"
    short = f"last frost likely {phrases.day(frost.last.likely, almanac.on)}"
    if frost.last.likely is None:
        years = max(frost.last_years, frost.first_years)
        short = f"frost rare, {in_years(years)}" if 0 < years < RARE else "no frost likely"
        last, gone = short, ""
    filled = f"; {safe_text(heading.filled)}" if heading.filled else ""
    return longest(
        [
            f"{warm}; {last}{gone}{filled}",
            f"{warm}; {last}{filled}",
            f"{warm}; {last}",
            f"{warm}; {short}",
            f"heat {round(heat.to_date)}{pace}; {short}",
            f"heat {round(heat.to_date)}{pace}",
        ],
        width,
    )
