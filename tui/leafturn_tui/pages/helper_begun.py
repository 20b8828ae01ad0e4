"""Someone who helps: name, hours and what they can do, written into the garden file or changed there."""

from __future__ import annotations

from typing import Any

from leafturn.garden.beginning.answers import helper_changes, helper_typed
from leafturn.garden.editing.edits import Edit
from leafturn.garden.editing.garden_text import garden_text
from leafturn.garden.editing.toml_text import HELPERS
from leafturn.garden.model import Helper
from leafturn.garden.things import helper_named
from leafturn_tui.host import Host
from leafturn_tui.notes import NotUnderstood, plainly
from leafturn_tui.panels.choice import Option
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.rewriting import Rewriting, ask_rewrite
from leafturn_tui.text import phrases

EXAMPLES = "Ana 3; or: bench helper 2 seated light; or for your own hours: steward 4"


def helper_option(desk: Host) -> Option:
    """The choice that begins a helper, or changes one."""
    return Option(
        "n", "someone new, or a helper's hours, written into the garden file", lambda: _ask_helper(desk)
    )


def _ask_helper(desk: Host) -> None:
    """Ask who, how long and what they can do, then show what will be written."""

    def typed(text: str) -> dict[str, Any]:
        if not text.strip():
            raise NotUnderstood(f"a name, please, as in: {EXAMPLES}")
        with plainly():
            fields = helper_typed(text)
            if (helper := helper_named(desk.almanac.garden, fields["name"])) is None:
                return fields
            fields = helper_typed(text, usual=helper.can) | {"name": helper.name}
        if not helper_changes(helper, fields):
            raise NotUnderstood(f"{helper.name} {_told(helper)} already; write what is to change: {EXAMPLES}")
        return fields

    def preview(text: str) -> str:
        if not text.strip():
            return EXAMPLES
        fields = typed(text)
        if "hours_per_week" not in fields:
            return f"{fields['name']}; the hours are not said"
        helper = helper_named(desk.almanac.garden, fields["name"])
        now = Helper(name=fields["name"], hours_per_week=fields["hours_per_week"], can=tuple(fields["can"]))
        return f"{now.name}, {_told(now)}" + (f"; until now {_told(helper)}" if helper else "")

    def take(text: str) -> None:
        fields = typed(text)
        helper = helper_named(desk.almanac.garden, fields["name"])

        def make() -> Edit:
            file = garden_text(desk.almanac.file)
            if helper is None:
                return file.adding(fields, HELPERS)
            return file.changing_helper(helper.name, helper_changes(helper, fields))

        ask_rewrite(desk, make, lambda edit: show(edit, "a helper more" if helper is None else helper.name))

    def show(edit: Edit, what: str) -> Rewriting:
        return Rewriting(f"{edit.file.name}, {what}:", edit, lambda: desk.say(desk.file.write(edit)))

    question = "Who helps you, how many hours a week, and what can they do?"
    desk.ask_next(Typing(question, take, preview=preview, enter="go on", escape="back to the list"))


def _told(helper: Helper) -> str:
    return f"{phrases.hours(helper.hours_per_week)} a week; can: {', '.join(helper.can)}"
