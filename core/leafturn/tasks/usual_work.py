"""The work that a kind asks for in a usual year, by the rules that come with the program."""

from __future__ import annotations

from msgspec import structs

from leafturn.base.closed_words import LASTING_WOOD
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.pruning import ways_of
from leafturn.kinds.spreading import cut_out_where
from leafturn.tasks.conditions import kind_fits
from leafturn.tasks.rule_model import Applies, Rule, load_rules

# Conditions that ask for more than a healthy plant of the kind, kept where it stands.
UNUSUAL = ("states", "plans", "host_states", "partners", "answered", "damaged_by", "dwarfing")


def usual_work(kind: Kind, library: Library) -> tuple[str, ...]:
    """Verbs of the rules that are for a kind at some age, somewhere; empty where it asks for nothing.

    Parameters
    ----------
    kind : Kind
    library : Library
        Tells how the kind is pruned.

    Notes
    -----
    Left out is what only ill, unwanted, damaged or lone plants ask for, and what takes off again what
    another job put on. Of pests it tells wherever in the world they live.
    """
    cuts = {
        cut.cut for way in ways_of(kind, library.pruning).values() for cut in way.cuts.values()
    }  # of every climate
    verbs = [
        rule.verb
        for rule in load_rules().rules
        if _is_usual(rule) and _is_of(rule.applies, kind) and (rule.cut is None or rule.cut in cuts)
    ]
    return tuple(dict.fromkeys(verbs))


def _is_usual(rule: Rule) -> bool:
    applies = rule.applies
    return (
        applies.subject == "plant"
        and rule.follows is None
        and not applies.whatever_plan
        and not any(getattr(applies, name) for name in UNUSUAL)
    )


def _is_of(applies: Applies, kind: Kind) -> bool:
    """Whether every condition that a kind alone can meet holds."""
    wants_fruit = applies.picked or applies.sets or applies.flowering
    return (
        kind_fits(applies, kind)
        and (not applies.cut_out or bool(cut_out_where(kind)))
        and (not applies.guard or (kind.has("bark gnawed") and kind.habit in LASTING_WOOD))
        and (not wants_fruit or kind.harvest.part is not None)
        and (applies.frost_within_days is None or any(structs.asdict(kind.frost).values()))
    )
