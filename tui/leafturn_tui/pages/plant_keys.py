"""What can be done to a plant of the garden file: added, changed, moved, and told as gone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any

from leafturn.garden.editing.edits import Edit
from leafturn.garden.editing.garden_text import garden_text
from leafturn.garden.editing.typed import (
    CHANGEABLE,
    key_in,
    key_in_words,
    typed_now,
    value_typed,
    words_of,
)
from leafturn.garden.model import Plant
from leafturn.journal.entries import LossNote, MovedNote
from leafturn_tui.host import Host, Key, PanelKey
from leafturn_tui.notes import NotUnderstood, dates, grammar
from leafturn_tui.panels.choice import Choice, Option, YesNo
from leafturn_tui.panels.find import Finding, Named
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.planting import (
    PLACED,
    Ground,
    PlantQuestions,
    cultivar_panel,
    place_panel,
    place_understood,
    rootstock_panel,
    year_understood,
)
from leafturn_tui.panels.rewriting import Rewriting, ask_rewrite
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.journal.entries import Entry


class PlantKeys:
    """The keys, and what the plant added last offers to the next.

    Parameters
    ----------
    which : callable
        The id of the plant they act on, empty if there is none.
    """

    def __init__(self, which: Callable[[Host], str]) -> None:
        self._which = which
        self._year = ""
        self._beside = ""

    def keys(self) -> tuple[Key, ...]:
        """Add, change, move, gone."""
        return (
            Key("a", "add", "add a plant to the garden file", self._add),
            Key(
                "e",
                "change",
                "change what the garden file says of the plant",
                self._on_plant(_change),
                of_line=True,
            ),
            Key("m", "move", "another place for the plant", self._on_plant(_move), of_line=True),
            Key(
                "x",
                "is gone",
                "the plant is gone: to what, and since when",
                self._on_plant(_gone),
                of_line=True,
            ),
        )

    def _on_plant(self, act: Callable[[Host, Plant], None]) -> Callable[[Host], None]:
        def on_plant(desk: Host) -> None:
            plant = desk.almanac.garden.plant(self._which(desk))
            if plant is None:
                desk.say("There is no plant under the bar.")
            else:
                act(desk, plant)

        return on_plant

    def _add(self, desk: Host) -> None:
        beside = self._beside or self._which(desk)
        garden = desk.almanac.garden
        beside = beside if garden.plant(beside) is not None else "gate"
        ground = Ground(desk.almanac.library, garden, self._year, beside, desk.almanac.on.year)

        def take(fields: dict[str, Any]) -> None:
            def write(edit: Edit) -> None:
                desk.say(desk.file.write(edit))
                self._year = str(fields.get("year") or "")
                self._beside = fields["id"] if PLACED & fields.keys() else self._beside

            _ask(desk, "a plant more", lambda: garden_text(desk.almanac.file).adding(fields), write)

        PlantQuestions(desk, ground, take).ask()


def _ask(desk: Host, title: str, make: Callable[[], Edit], write: Callable[[Edit], None]) -> None:
    ask_rewrite(desk, make, lambda edit: Rewriting(f"{edit.file.name}, {title}:", edit, partial(write, edit)))


def _change(desk: Host, plant: Plant) -> None:
    """Ask what is to change, then its value."""
    keys = [key_in(desk.almanac.garden.place.units, key) for key in CHANGEABLE]
    named = [Named(key, typed_now(plant, key), key_in_words(key)) for key in keys]
    desk.ask(
        Finding(f"What is to change of {plant.id}?", named, partial(_ask_value, desk, plant), "change it")
    )


def _ask_value(desk: Host, plant: Plant, key: str) -> None:
    def take(text: str) -> None:
        def make() -> Edit:
            return garden_text(desk.almanac.file).changing(plant.id, {key: value_typed(key, text)})

        _ask(desk, plant.id, make, lambda edit: desk.say(desk.file.write(edit)))

    title = f'What is to be written for "{key_in_words(key)}" of {plant.id}?'
    library, kind = desk.almanac.library, desk.almanac.library.match(plant.kind).kind.name
    if words := words_of(key):
        options = [Option(str(n), word, partial(take, word)) for n, word in enumerate(words, 1)]
        desk.ask_next(Choice(title, [*options, Option("0", "not said", partial(take, ""))]))
    elif key == "cultivar":
        desk.ask_next(cultivar_panel(library, kind, take))
    elif key == "rootstock":
        desk.ask_next(rootstock_panel(library, kind, take))
    else:

        def preview(text: str) -> str:
            if not text.strip():
                return "nothing: the line goes"
            return year_understood(text, desk.almanac.on.year) if key == "year" else ""

        now = typed_now(plant, key)
        desk.ask_next(Typing(title, take, text=now, enter="go on", escape="back", preview=preview))


def _move(desk: Host, plant: Plant) -> None:
    """Ask where it stands now, and whether it was moved or the file was wrong."""

    def take(text: str) -> None:
        at = place_understood(text, desk.almanac.garden, "gate")
        if not at:
            raise NotUnderstood("a place, please; Esc leaves the plant where it is")
        moved = MovedNote(on=desk.almanac.on, plant=plant.id)
        _ask_noted(
            desk, f"{plant.id} moved",
            lambda: garden_text(desk.almanac.file).changing(plant.id, at), moved,
            ("write it, and note that it was moved today", "c", "only correct the file"),
            lambda edit: desk.say(desk.file.write(edit)),
        )  # fmt: skip

    title = f"Where does {plant.id} stand now?"
    desk.ask(place_panel(title, desk.almanac.garden, "gate", take, may_skip=False))


def _gone(desk: Host, plant: Plant) -> None:
    """Ask for the cause and the day, and note the loss."""
    on = desk.almanac.on

    def when(cause: str) -> None:
        def day_of(text: str) -> dt.date:
            day = dates.past_date(text, on)
            if day > on:
                raise NotUnderstood(f"{phrases.long_day(day)} is still to come")
            return day

        def take(text: str) -> None:
            note = grammar.lost(LossNote, plant.id, cause, day_of(text))
            question = desk.almanac.question_about(note)
            if question:
                desk.ask_next(YesNo(question, partial(_lose, desk, plant, note), "yes, all of them"))
            else:
                _lose(desk, plant, note)

        title = f"Since when is {plant.id} gone? A day, as 12 April; or nothing, for today."
        desk.ask_next(
            Typing(
                title,
                take,
                preview=lambda text: phrases.long_day(day_of(text)),
                enter="go on",
                escape="back",
            )
        )

    desk.ask(
        Typing(
            f"Why is {plant.id} gone?", when, enter="go on",
            preview=lambda text: "" if text.strip() else "voles, frost, wind; or nothing",
        )
    )  # fmt: skip


def _lose(desk: Host, plant: Plant, note: Entry) -> None:
    """Show what is written of a plant that is gone."""
    said = f"noted: {plant.id} is gone"
    _ask_noted(
        desk,
        f"{plant.id} gone",
        lambda: garden_text(desk.almanac.file).changing(plant.id, {"state": "gone"}),
        note,
        ("write it, and note the loss", "n", "only note the loss"),
        lambda edit: desk.keep_all([note], said),
    )


def _ask_noted(
    desk: Host,
    title: str,
    make: Callable[[], Edit],
    note: Entry,
    words: tuple[str, str, str],
    otherwise: Callable[[Edit], None],
) -> None:
    """Show an edit that goes with a note; `words` are Enter's, the other key's and that one's words."""
    enter, key, other = words

    def show(edit: Edit) -> Rewriting:
        return Rewriting(
            f"{edit.file.name}, {title}:",
            edit,
            lambda: desk.say(desk.file.write(edit, note)),
            enter=enter,
            other=(PanelKey(key, other, lambda offer: otherwise(edit), closes=True),),
        )

    ask_rewrite(desk, make, show)
