"""What the screen, its pages and its panels ask of each other: none of them imports the screen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import Protocol

from leafturn.base.value import Value
from leafturn.garden.editing.edits import Edit
from leafturn.journal.entries import Entry
from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.text.layout import Piece, Row

LOW = 24  # lines of a window below which blank ones go, and what stands over a list may scroll with it
_SHOWN_KEYS = {
    "space": "Space", "enter": "Enter", "escape": "Esc", "question_mark": "?", "full_stop": ".",
    "comma": ",", "plus": "+", "minus": "-", "left": "Left", "right": "Right", "up": "Up", "down": "Down",
    "tab": "Tab", "slash": "/",
}  # fmt: skip


class Offer(Value, kw_only=False):
    """One line of a panel that may be chosen.

    Parameters
    ----------
    pieces : tuple of Piece
        What it says.
    act : callable
        What Enter does on it. It may ask on; raises NotUnderstood to keep the panel open with its sentence.
    key : str
        A digit or letter that picks it at once, if any.
    name : str
        What it stands for, for the panel's own keys.
    whole : str
        What it says where the line has no room for all of it; told below while the bar is on it.
    """

    pieces: tuple[Piece, ...]
    act: Callable[[], None]
    key: str = ""
    name: str = ""
    whole: str = ""


class PanelKey(Value, kw_only=False):
    """A key of a panel's own: its label below the panel, and the doing, given the offer under the bar."""

    name: str
    label: str
    act: Callable[[Offer | None], None]
    closes: bool = False


class PanelFace(Protocol):
    """What is asked over a page; `panels.base.Panel` tells what each part is."""

    @property
    def label(self) -> str: ...
    @property
    def first(self) -> str: ...
    @property
    def is_offer(self) -> bool: ...
    @property
    def enter(self) -> str: ...
    @property
    def escape(self) -> str: ...
    @property
    def at(self) -> int: ...
    @property
    def keys_take(self) -> bool: ...
    @property
    def lets_go(self) -> bool: ...

    def heading(self) -> str: ...
    def keys(self) -> tuple[PanelKey, ...]: ...
    def offers(self, typed: str, width: int) -> Sequence[Offer]: ...
    def below(self, typed: str, width: int) -> list[Row]: ...
    def changed(self, typed: str) -> None: ...
    def take(self, typed: str) -> None: ...


class PlantLink(Value, kw_only=False):
    """The page of a plant, by its id: the screen opens it, so that pages need not import each other."""

    plant: str


class PageFace(Protocol):
    """A page as the screen shows it; `pages.base.Page` tells what each method does."""

    colours: bool
    height: int
    drawn_below: bool

    @property
    def list_width(self) -> int: ...
    @property
    def turned(self) -> tuple[object, ...]: ...
    def keys(self) -> tuple[Key, ...]: ...
    def slow(self, almanac: AlmanacFace) -> Slow | None: ...
    def heading(self, almanac: AlmanacFace) -> str: ...
    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]: ...
    def waits(self, almanac: AlmanacFace) -> tuple[int, str]: ...
    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]: ...
    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]: ...
    def top(self, almanac: AlmanacFace, width: int) -> list[Row]: ...
    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]: ...
    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int: ...
    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]: ...
    def has_why(self, row: Row) -> bool: ...
    def why(self, almanac: AlmanacFace, row: Row) -> PanelFace | None: ...
    def opened(self, almanac: AlmanacFace, row: Row) -> PageFace | PlantLink | None: ...
    def gone(self, almanac: AlmanacFace) -> bool: ...
    def taken_back(self, almanac: AlmanacFace, row: Row | None) -> str | None: ...


class Asker(Protocol):
    """Something that lays panels over what it shows."""

    def ask(self, panel: PanelFace) -> None:
        """Lay a panel over the page, in place of one that is there."""

    def ask_next(self, panel: PanelFace) -> None:
        """Ask a further question of the same act: Esc steps back to the panel before, as it was left."""


class Maker(Asker, Protocol):
    """One that can wait for what it is to ask."""

    def ask_made(self, make: Callable[[], PanelFace]) -> None:
        """Ask a further question that takes a while to make; of many plants a word stands meanwhile.

        Where it raises NotUnderstood, its sentence is told below the panel before.
        """


class RewriterFace(Protocol):
    """The garden file, to be changed; `desk/garden_file.py` tells what each part does."""

    def write(self, edit: Edit, entry: Entry | None = None) -> str: ...
    def last(self) -> Edit | None: ...
    def take_back(self) -> str: ...


class Host(Maker, Protocol):
    """The screen, as keys of pages and panels see it."""

    almanac: AlmanacFace

    @property
    def newest(self) -> AlmanacFace:
        """The garden with all that was written, of which `almanac` may show less while it is reckoned."""

    @property
    def today(self) -> dt.date:
        """The day on which notes are written, whatever day is shown."""

    @property
    def file(self) -> RewriterFace:
        """The garden file."""

    @property
    def page(self) -> PageFace:
        """The page on top."""

    @property
    def current(self) -> Row | None:
        """The line under the bar."""

    def say(self, text: str) -> None:
        """Say one sentence in place of the why line, until the next key."""

    def turn_to(self, key: str) -> None:
        """Go to a page by its key."""

    def open(self, page: PageFace) -> None:
        """Lay a page on top; Esc steps back."""

    def start_over(self) -> None:
        """Let the bar of the page on top begin anew."""

    def back(self) -> None:
        """Stop slow work that the page waits for; else step back to the page below."""

    def seek(self, letters: str, steps: int) -> tuple[int, int]:
        """Lay the bar on the first line that holds letters, or one on or back; which it is, of how many."""

    def leave(self) -> None:
        """End the program."""

    def set_day(self, on: dt.date) -> None:
        """Show everything as on another day."""

    def consider(self, entry: Entry) -> None:
        """Keep a note, after asking once if it is doubtful."""

    def keep(self, entry: Entry, more: Callable[[AlmanacFace], str] = ...) -> None:
        """Write a note and say so; `more` may add to the sentence from what is now known."""

    def behind(self, what: str, work: Callable[[], str], after: Callable[[], None] = ...) -> None:
        """Say what is begun and do it while the screen goes on; `after` it what the work gives is said."""

    def keep_all(self, entries: Sequence[Entry], said: str) -> None:
        """Write the notes of one act and say what became of them."""

    def take_back(self, entry: Entry) -> None:
        """Take a note back."""


class Key(Value, kw_only=False):
    """A key, its label in the foot, what it does in full, and the doing.

    `of_line` is whether it acts on the line under the bar: where there is none, the foot does not offer it.
    `asks` asks what the doing waits for, where that may take long: called in a thread, it changes nothing.
    `of_plants` is whether it shows what stands in the garden: nor is it offered where nothing does.
    """

    name: str
    label: str
    what: str
    act: Callable[[Host], None]
    of_line: bool = False
    asks: Callable[[Host], object] | None = None
    of_plants: bool = False

    @property
    def shown(self) -> str:
        """The key as it is written."""
        return shown_key(self.name)


def shown_key(name: str) -> str:
    """A key as it is written."""
    return _SHOWN_KEYS.get(name, name)


class Slow(Value, kw_only=False):
    """Work that takes too long to wait for at a key: what it is, and the doing.

    The doing is called with a function that wants to know how much is done of how much, and that raises to
    stop the work.
    """

    what: str
    work: Callable[[Callable[[int, int], None]], object]
