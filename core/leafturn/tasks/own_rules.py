"""The steward's own rules, `[[rule]]` in the garden file, beside those that come with the program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import msgspec

from leafturn.faults import Fault, did_you_mean
from leafturn.tasks.moments import NoMoment, read_moment
from leafturn.tasks.rules import Rule, RuleBook, RuleFile, load_rules, rule_book

# What a rule of one's own need not say.
USUAL: Mapping[str, object] = {
    "because": "A rule of your own, from the garden file.",
    "if_skipped": "What it costs to leave it, only you know.",
    "basis": "rule of thumb",
    "source": "the garden file",
}
EXAMPLE = (
    'Write verb = "sow", title = "sow under {name}", applies = { kinds = ["pear"] }, '
    'open = "04-01", best = "04-20", close = "05-10".'
)


def book_of(tables: Sequence[Mapping[str, Any]]) -> RuleBook:
    """All rules in force in a garden; one of its own with the id of a packaged rule takes its place.

    Parameters
    ----------
    tables : sequence of mapping
        The tables `[[rule]]` as they stand; those that cannot be read are left out.
    """
    packaged = load_rules()
    own, _ = read_own_rules(tables, "")
    if not own:
        return packaged
    return rule_book((
        RuleFile(rule=packaged.rules, hold=tuple(packaged.holds.values())), RuleFile(rule=own)
    ))  # fmt: skip


def read_own_rules(
    tables: Sequence[Mapping[str, Any]], file: str
) -> tuple[tuple[Rule, ...], tuple[Fault, ...]]:
    """The rules that can be used, and a fault with its line for each that cannot."""
    rules, faults = [], []
    for number, table in enumerate(tables, 1):
        written = {key: value for key, value in table.items() if key != "line"}
        verb = written.get("verb")
        best = {"best": written["close"]} if "close" in written else {}
        filled = {**USUAL, "id": f"own-{verb or number}", **best, **written}
        name = f"rule {verb!r}" if isinstance(verb, str) else f"rule {number}"
        try:
            rule = msgspec.convert(filled, Rule)
        except msgspec.ValidationError as error:
            message, hint = f"{name} is left out: {_plainly(str(error))}", _hint(written)
        else:
            wrong = next(_complaints(rule), None)
            if wrong is None:
                rules.append(rule)
                continue
            message, hint = f"{name} is left out: {wrong}", ""
        faults.append(Fault(file=file, line=table.get("line") or None, message=message, hint=hint))
    return tuple(rules), tuple(faults)


def _complaints(rule: Rule) -> Iterator[str]:
    for key in ("open", "best", "close"):
        phrases = getattr(rule, key)
        for phrase in (phrases,) if isinstance(phrases, str) else phrases:
            try:
                read_moment(phrase)
            except NoMoment as error:
                yield f"{key} = {error}"
    holds = load_rules().holds
    for hold in rule.holds:
        if hold not in holds:
            known = f"Holds are: {', '.join(holds)}."
            yield f"there is no hold {hold!r}. {known} {did_you_mean(hold, holds)}".strip()
    if ":" in rule.verb:
        yield "its verb holds a colon, which parts the words of a job's id."


def _plainly(error: str) -> str:
    """The checker's message in the words of the file."""
    said = error.replace("Object missing required field", "it lacks")
    said = said.replace("Object contains unknown field", "it has the unknown key")
    said = said.replace("$.", "").replace("`", "").replace(" - at ", ", at ")
    return said.rstrip(".") + "."


def _hint(written: Mapping[str, Any]) -> str:
    """What to write instead: the nearest key of a slip, else an example."""
    for key in written:
        if key not in Rule.__struct_fields__:
            return did_you_mean(key, Rule.__struct_fields__) or EXAMPLE
    return EXAMPLE
