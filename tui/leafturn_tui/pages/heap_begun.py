"""A compost heap begun: its name, how far it is and where it stands, written into the garden file."""

from __future__ import annotations

from functools import partial
from typing import Any

from leafturn.base.closed_words import HEAP_STAGES
from leafturn.garden.editing.edits import Edit
from leafturn.garden.editing.garden_text import free_id, garden_text
from leafturn.garden.editing.toml_text import HEAPS
from leafturn.garden.reading.names import plain_id
from leafturn_tui.host import Host, Key
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.planting import place_panel, place_understood
from leafturn_tui.panels.rewriting import Rewriting, ask_rewrite

STAGES = {
    "filling": "still being filled",
    "working": "full, and rotting",
    "curing": "no longer warms up, and ripens",
    "ready": "ripe",
    "empty": "an empty bay",
}  # every stage of the garden file


def begin_key() -> Key:
    """The key that begins a heap."""
    return Key("N", "new heap", "a new heap, written into the garden file", _ask_heap)


def _ask_heap(desk: Host) -> None:
    """Ask for name, stage and place, then show what will be written."""
    garden = desk.almanac.garden

    def named(text: str) -> dict[str, Any]:
        words = " ".join(text.split())
        own_id = plain_id(words)
        if not own_id:
            raise NotUnderstood("a name with letters or digits, please, as bay-1")
        if free_id(garden, words) != own_id:
            raise NotUnderstood(f"{own_id} stands in the garden already; {free_id(garden, words)} is free")
        return {"id": own_id} if own_id == words else {"id": own_id, "name": words}

    def preview(text: str) -> str:
        return f"notes name it {named(text)['id']}" if text.strip() else "bay-1, or any other name"

    def stage(text: str) -> None:
        fields = named(text)
        options = [
            Option(str(n), STAGES[word], partial(_ask_place, desk, {**fields, "stage": word}))
            for n, word in enumerate(HEAP_STAGES, 1)
        ]
        desk.ask_next(Choice(f"How far is {text.strip()}?", options))

    usual = free_id(garden, "bay-1") if not garden.heaps else ""
    desk.ask(
        Typing("What is the heap called?", stage, preview=preview, text=usual, is_offer=True, enter="go on")
    )


def _ask_place(desk: Host, fields: dict[str, Any]) -> None:
    garden = desk.almanac.garden

    def take(text: str) -> None:
        at = place_understood(text, garden, "gate")
        ask_rewrite(desk, lambda: garden_text(desk.almanac.file).adding({**fields, **at}, HEAPS), show)

    def show(edit: Edit) -> Rewriting:
        return Rewriting(f"{edit.file.name}, a heap more:", edit, lambda: desk.say(desk.file.write(edit)))

    desk.ask_next(place_panel(f"Where is {fields.get('name', fields['id'])}?", garden, "gate", take))
