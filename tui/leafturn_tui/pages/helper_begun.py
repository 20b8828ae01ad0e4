"""Someone more who helps: the name, the hours and what they can do, written into the garden file."""

from __future__ import annotations

from typing import Any

from leafturn.garden.beginning.answers import helper_typed
from leafturn.garden.editing.edits import Edit
from leafturn.garden.editing.garden_text import garden_text
from leafturn.garden.editing.toml_text import HELPERS
from leafturn_tui.host import Host
from leafturn_tui.notes import NotUnderstood, plainly
from leafturn_tui.panels.choice import Option
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.rewriting import Rewriting, ask_rewrite
from leafturn_tui.text import phrases

EXAMPLES = "Ana 3; or: bench helper 2 seated light; or for your own hours: steward 4"


def helper_option(desk: Host) -> Option:
    """The choice that begins a helper."""
    return Option("n", "someone new, written into the garden file", lambda: _ask_helper(desk))


def _ask_helper(desk: Host) -> None:
    """Ask who, how long and what they can do, then show what will be written."""

    def typed(text: str) -> dict[str, Any]:
        if not text.strip():
            raise NotUnderstood(f"a name, please, as in: {EXAMPLES}")
        with plainly():
            fields = helper_typed(text)
        if any(fields["name"].casefold() == h.name.casefold() for h in desk.almanac.garden.helpers):
            raise NotUnderstood(
                f"{fields['name']} is among the helpers already; the garden file has their lines"
            )
        return fields

    def preview(text: str) -> str:
        if not text.strip():
            return EXAMPLES
        fields = typed(text)
        if "hours_per_week" not in fields:
            return f"{fields['name']}; the hours are not said"
        hours = phrases.hours(fields["hours_per_week"])
        return f"{fields['name']}, {hours} a week; can: {', '.join(fields['can'])}"

    def take(text: str) -> None:
        fields = typed(text)
        ask_rewrite(desk, lambda: garden_text(desk.almanac.file).adding(fields, HELPERS), show)

    def show(edit: Edit) -> Rewriting:
        return Rewriting(f"{edit.file.name}, a helper more:", edit, lambda: desk.say(desk.file.write(edit)))

    question = "Who helps you, how many hours a week, and what can they do?"
    desk.ask_next(Typing(question, take, preview=preview, enter="go on", escape="back to the list"))
