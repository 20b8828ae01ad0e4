"""Lines of the garden file that a note of a loss, a planting, a moving or a judgement makes true."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from leafturn.answers.changes_by_notes import changes_by_notes
from leafturn.base.faults import Unreadable
from leafturn.garden.editing.edits import Edit, NotTaken, TooUnusual
from leafturn.garden.editing.garden_text import garden_text
from leafturn.journal.entries import Entry, JudgedNote, LossNote, MovedNote, PlantedNote
from leafturn.season.garden_with_notes import replanted
from leafturn_tui.host import Maker, RewriterFace
from leafturn_tui.panels.planting import place_panel, place_understood
from leafturn_tui.panels.rewriting import Rewriting, ask_rewrite
from leafturn_tui.panels.sentences import Sheet

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

OF_THE_FILE = (LossNote, PlantedNote, JudgedNote)


class Writer(Maker, Protocol):
    """The screen, as far as it is asked and written to here."""

    almanac: AlmanacFace

    @property
    def file(self) -> RewriterFace:
        """What writes into the garden file."""
        ...

    def say(self, text: str) -> None:
        """Show a line at the foot."""
        ...


def edit_after(almanac: AlmanacFace, entry: Entry) -> Edit | None:
    """What the garden file could say after a note; None where it says so already, or cannot.

    Raises
    ------
    TooUnusual
        If the file is changed by hand only.
    """
    noted = almanac.garden.plant(entry.plant or "")
    if noted is None or not isinstance(entry, OF_THE_FILE):
        return None
    try:
        text = garden_text(almanac.file)
        in_file = text.reading.garden.plant(noted.id)
        if in_file is None:
            return None
        if isinstance(entry, PlantedNote) and in_file.state == "gone":
            noted = replanted(in_file, entry.on.year)
        changes = changes_by_notes(in_file, noted)
        return text.changing(noted.id, changes) if changes else None
    except TooUnusual:
        raise
    except (NotTaken, Unreadable, OSError):
        return None


def offer_lines(desk: Writer, entry: Entry) -> None:
    """Offer what the garden file could say after a note that was just kept."""
    if isinstance(entry, MovedNote) and desk.almanac.garden.plant(entry.plant or ""):
        _offer_place(desk, entry.plant or "")
        return
    try:
        edit = edit_after(desk.almanac, entry)
    except TooUnusual as why:
        desk.ask(Sheet(f"It is noted. {why}", why.lines))
        return
    if edit is not None:
        title = f"It is noted. Shall {edit.file.name} say so too?"
        desk.ask(Rewriting(title, edit, lambda: desk.say(desk.file.write(edit))))


def _offer_place(desk: Writer, plant: str) -> None:
    garden = desk.almanac.garden

    def take(text: str) -> None:
        at = place_understood(text, garden, "gate")
        if not at:
            return
        ask_rewrite(
            desk,
            lambda: garden_text(desk.almanac.file).changing(plant, at),
            lambda edit: Rewriting(
                f"Shall {edit.file.name} say so?", edit, lambda: desk.say(desk.file.write(edit))
            ),
        )

    desk.ask(place_panel(f"It is noted. Where does {plant} stand now?", garden, "gate", take))
