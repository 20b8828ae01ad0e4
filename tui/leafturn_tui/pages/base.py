"""What every page can do. A page answers one question from the almanac and knows no widget."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.host import Key, PageFace, PlantLink, Slow
from leafturn_tui.pages.reasons import why_plant
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.heading import FIRST_PLANT
from leafturn_tui.render.parts.question import Question
from leafturn_tui.text.layout import BLANK, Row, paragraph, row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


WHOLE = 10**4  # cells that a picture wants for itself: all there are


class Page:
    """One page. Rows are made anew whenever the almanac or the width changes.

    A page with a `key`, a digit or a letter, is turned to by it. It shows the `question` that the module of
    `leafturn_tui.render` of the same name answers; that name is its `command`, and with a capital its `name`.
    Before it asks for rows the screen sets `colours`, if there are any, and `height`, the window's lines;
    `drawn_below` is False where its list is wanted as soon as may be, without a picture below it.
    What keys turn on a page are attributes that hold words, numbers or sets of them: its list is kept as long
    as they are the same.
    """

    key = ""
    name = ""
    command = ""
    question = Question(asked="")
    colours = True
    height = 24
    drawn_below = True

    def __init_subclass__(cls, *, key: str = "", question: Question | None = None) -> None:
        """Take key and question from the class statement, command and name from the name of the file."""
        super().__init_subclass__()
        if question is not None:
            cls.key, cls.question = key, question
            cls.command = cls.__module__.rpartition(".")[2]
            cls.name = cls.command.capitalize()

    @property
    def list_width(self) -> int:
        """The least room [cells] that its list wants before a story stands beside it."""
        return 0

    @property
    def turned(self) -> tuple[object, ...]:
        """What keys have turned on it: the words, numbers and sets among its attributes."""
        return tuple(
            v for v in vars(self).values() if v is None or isinstance(v, str | float | int | frozenset)
        )

    def keys(self) -> tuple[Key, ...]:
        """The page's own keys, beyond those of every page."""
        return ()

    def every_key(self) -> tuple[str, ...]:
        """The names of the page's own keys, whatever it shows."""
        return tuple(key.name for key in self.keys())

    def slow(self, almanac: AlmanacFace) -> Slow | None:
        """Work to be done before the page can be shown; None if there is none left."""
        return None

    def heading(self, almanac: AlmanacFace) -> str:
        """The first line's left side."""
        return self.question.asked

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """The answer, right of the question, in parts; the first alone where there is little room."""
        return ()

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """How many things wait on this page, and the tone in which the page bar says so."""
        return 0, "amber"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The heads of the list's columns."""
        return []

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """What stands beside the list in a wide window: by default what `w` tells."""
        told = self.why(almanac, row)
        if told is None:
            return paragraph(row.sentence, width, hang=0)
        rows = paragraph(told.title, width, "name", hang=0)
        for said in told.paragraphs:
            rows += [BLANK, *paragraph(said, width, hang=0)]
        return rows

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Lines above the list that never scroll."""
        return []

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The list."""
        raise NotImplementedError

    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int:
        """The line the bar rests on when the page opens."""
        return 0

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """Lines under the list that never scroll."""
        return []

    def has_why(self, row: Row) -> bool:
        """Whether `w` has something to tell of a line: by default of a plant, or more than its own words."""
        return bool(row.plant or row.why)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What `w` tells of a line: by default why its plant is on the round, or not yet."""
        return why_plant(almanac, row.plant) if row.plant else None

    def opened(self, almanac: AlmanacFace, row: Row) -> PageFace | PlantLink | None:
        """What Enter opens: by default the plant."""
        return PlantLink(row.plant) if row.plant and almanac.plant(row.plant) else None

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether what the page is about is no longer there."""
        return False

    def taken_back(self, almanac: AlmanacFace, row: Row | None) -> str | None:
        """Id of the note under the bar that `u` is to take back, if the page lists notes."""
        return None


def first_lines(width: int) -> list[Row]:
    """How an empty garden gets its first plant: by a key, or by lines to be copied as they stand."""
    return [
        *paragraph("No plants yet. On page 0 the key a adds one.", width),
        *paragraph("Or write these two lines in the garden file:", width),
        BLANK,
        *(row(line) for line in FIRST_PLANT),
    ]
