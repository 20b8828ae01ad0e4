"""The steward's own rules, `[[rule]]` in the garden file, beside those that come with the program."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Literal

import msgspec

from leafturn.base.closed_words import COUNTS_AS
from leafturn.base.faults import Fault, clipped, did_you_mean
from leafturn.garden.model import Place, Plant
from leafturn.kinds.library import Library, load_library
from leafturn.tasks.regional import rules_for
from leafturn.tasks.rule_model import Applies, Rule, RuleBook, RuleFile, load_rules, rule_book

# What rules and jobs of one's own need not say.
IF_SKIPPED = "What it costs to leave it, only you know."
BASIS: Literal["rule of thumb"] = "rule of thumb"
SOURCE = "the garden file"
USUAL: Mapping[str, object] = {
    "because": "A rule of your own, from the garden file.",
    "if_skipped": IF_SKIPPED,
    "basis": BASIS,
    "source": SOURCE,
}
EXAMPLE = (
    'Write verb = "sow", title = "sow under {name}", applies = { kinds = ["pear"] }, '
    'open = "04-01", best = "04-20", close = "05-10".'
)


def book_with(own: tuple[Rule, ...], place: Place) -> RuleBook:
    """All rules in force in a garden; one of its own with the id of a packaged rule takes its place."""
    packaged = rules_for(place)
    if not own:
        return packaged
    return rule_book((
        RuleFile(rule=packaged.rules, hold=tuple(packaged.holds.values())), RuleFile(rule=own)
    ))  # fmt: skip


def read_own_rules(
    tables: Sequence[Mapping[str, Any]],
    file: str,
    library: Library | None = None,
    plants: Iterable[Plant] = (),
) -> tuple[tuple[Rule, ...], tuple[Fault, ...]]:
    """The rules that can be used, and a fault with its line for each that cannot.

    Parameters
    ----------
    library : Library or None
        Whose kinds and traits a rule may name; the packaged one if none is given.
    plants : iterable of Plant
        Those of the garden, whose kinds a rule may name even if the library does not know them.
    """
    rules: list[Rule] = []
    faults: list[Fault] = []
    if not tables:
        return (), ()
    from leafturn.tasks.rule_checks import complaints

    library = library or load_library()[0]
    plants = tuple(plants)
    ids = [plant.id for plant in plants]
    grown = {library.match(plant.kind).kind.name for plant in plants}
    for number, table in enumerate(tables, 1):
        written = {key: value for key, value in table.items() if key != "line"}
        verb = written.get("verb")
        best = {"best": written["close"]} if "close" in written else {}
        filled = {**USUAL, **best, **_counts_as_before(written), "id": f"own-{number}-{verb}", **written}
        name = f"rule {clipped(verb)!r}" if isinstance(verb, str) else f"rule {number}"
        try:
            rule = msgspec.convert(filled, Rule)
        except msgspec.ValidationError as error:
            message, hint = f"{name} is left out: {_plainly(str(error))}", _hint(written)
        else:
            wrong = next(complaints(rule, library, grown, ids), None)
            if wrong is None:
                rules.append(rule)
                continue
            message, hint = f"{name} is left out: {wrong}", ""
        faults.append(Fault(file=file, line=table.get("line") or None, message=message, hint=hint))
    return tuple(rules), tuple(faults)


def replaced(tables: Sequence[Mapping[str, Any]], file: str, rules: Sequence[Rule]) -> Iterator[str]:
    """A note for each of the usable `rules` of one's own that stands in for one of the program's."""
    packaged = {rule.id: rule for rule in load_rules().rules}
    used = {rule.id for rule in rules}
    for table in tables:
        name = table.get("id")
        if isinstance(name, str) and name in used and name in packaged:
            line = f", line {table['line']}" if table.get("line") else ""
            yield (
                f'{file}{line}: your rule with id "{name}" takes the place of the program\'s own '
                f"({packaged[name].verb}). Not meant? Give it another id, or none."
            )


def _counts_as_before(written: Mapping[str, Any]) -> dict[str, object]:
    """What a rule that takes the place of one of the program's counts as, unless it says so itself."""
    named = next((rule for rule in load_rules().rules if rule.id == written.get("id")), None)
    return {} if named is None else {"counts_as": named.counts_as}


def _plainly(error: str) -> str:
    """The checker's message in the words of the file."""
    said = error.replace("Object missing required field", "it lacks")
    said = said.replace("Object contains unknown field", "it has the unknown key")
    said = re.sub(r"Invalid enum value ('[^']*')", r"\1 is no word it knows", said)
    said = said.replace("$.", "").replace("`", "").replace(" - at ", ", at ")
    return said.rstrip(".") + "."


def _hint(written: Mapping[str, Any]) -> str:
    """What to write instead: the nearest key of a slip, else an example."""
    counts_as = written.get("counts_as")
    if counts_as is not None and counts_as not in COUNTS_AS:
        words = f"counts_as is one of: {', '.join(COUNTS_AS)}."
        return f"{words} {did_you_mean(str(counts_as), COUNTS_AS)}".strip()
    applies = written.get("applies")
    inner = applies if isinstance(applies, Mapping) else {}
    for keys, known in ((written, Rule.__struct_fields__), (inner, Applies.__struct_fields__)):
        for key in keys:
            if key not in known:
                return did_you_mean(key, known) or EXAMPLE
    return EXAMPLE
