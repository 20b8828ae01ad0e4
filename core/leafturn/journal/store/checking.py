"""From a TOML table to an entry, with what is wrong said in plain words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import cache
from typing import Any, get_args

import msgspec

from leafturn.base.bloom_stages import BBCH, FULL_BLOOM, StageName
from leafturn.base.bounds import FIRST_YEAR, LAST_YEAR, is_believed
from leafturn.base.closed_words import FRUIT_SETS, JUDGEMENTS
from leafturn.base.faults import Fault, clipped, did_you_mean, nearest_word
from leafturn.base.quantities import KILOGRAMS_IN_A_POUND
from leafturn.base.units import fahrenheit_to_celsius, inches_to_millimetres
from leafturn.journal.entries import (
    KINDS,
    WORDS,
    BloomNote,
    Done,
    Entry,
    Given,
    HoldLifted,
    LetGo,
    PutOff,
)
from leafturn.journal.job_id import JobId
from leafturn.journal.store.examples import EXAMPLES
from leafturn.toml.messages import as_written

WHATS = tuple(KINDS)
STAGES: tuple[str, ...] = get_args(StageName)
STAGE_OF_BBCH = {number: stage for stage, number in BBCH.items()}

_WORDS = (
    ("what", "-", frozenset(WHATS)),
    ("stage", " ", frozenset(STAGES)),
    ("set", " ", frozenset(FRUIT_SETS)),
    ("plan", " ", frozenset(JUDGEMENTS)),
)
_SEALING = frozenset({"begin", "end", "sum"})
_KNOWN = frozenset(WORDS)
_OWN = {what: _KNOWN.intersection([*kind.__struct_fields__, "what"]) for what, kind in KINDS.items()}
_PLAIN = {what: own - {"until"} | {"sum"} for what, own in _OWN.items()}  # words that want no second look

_TWINS: dict[str, tuple[str, Callable[[float], float]]] = {
    "temp_f": ("temp_c", fahrenheit_to_celsius),
    "tmin_f": ("tmin_c", fahrenheit_to_celsius),
    "tmax_f": ("tmax_c", fahrenheit_to_celsius),
    "rain_in": ("rain_mm", inches_to_millimetres),
    "lb": ("kg", lambda pounds: pounds * KILOGRAMS_IN_A_POUND),
}

# Words people type for a note of another kind, and what they say besides.
_SAID_ALSO: dict[str, tuple[str, dict[str, Any]]] = {
    "wind": ("weather", {"wind": True}),
    "snow": ("weather", {"snow": True}),
    "rain": ("weather", {}),
    "frost": ("weather", {}),
    "watering": ("done", {}),
}
_WANTS = {"rain": "rain_mm", "frost": "tmin_c", "watering": "plant"}

_CLOSING = (Done, LetGo, PutOff, Given, HoldLifted)


def entry_from(
    table: dict[str, Any], file: str, line: int, *, hints: bool = True
) -> tuple[Entry | None, list[Fault]]:
    """The entry a TOML table stands for.

    Parameters
    ----------
    table : dict
        One `[[entry]]` as it was parsed.
    file, line : str, int
        Where it stands; kept in the entry and named in faults.
    hints : bool
        Whether the nearest known word is looked for, which takes a while where there are very many.

    Returns
    -------
    entry : Entry or None
        With metric units, known words in their usual spelling, and stage and BBCH number each filled
        from the other. None if it cannot be understood, and then `faults` say why.
    faults : list of Fault
        What was left out or should be looked at. An entry may come with faults: a name nobody
        knows is left out and the rest is kept.
    """
    if (plain := _as_it_stands(table, file, line)) is not None:
        return plain, []
    faults: list[Fault] = []

    def say(message: str, hint: str = "") -> None:
        faults.append(Fault(file=file, line=line, message=message, hint=hint))

    if "begin" in table and "end" not in table:
        say(
            "This note was cut short while it was being written, so it is left out.",
            "Finish it and add end = true as its last line, or delete it.",
        )
        return None, faults
    fields = {name: value for name, value in table.items() if name not in _SEALING}
    if not _KNOWN.issuperset(fields):
        fields = _known_fields(fields, say, hints)
    _tidy_words(fields)
    if lacking := _as_typed(fields):
        what = table["what"]
        say(f'This "{what}" note lacks its {lacking}, so it is left out.', f"Add {EXAMPLES[lacking]}")
        return None, faults
    if not _understandable(fields, say):
        return None, faults
    entry = _converted(fields, file, line, table.get("sum"))
    if entry is None:
        for name, given in table.items():
            _say_if_wrong(name, given, fields, say)
        return None, faults
    for name in ("on", "until"):
        day = getattr(entry, name, None)
        if day is not None and not is_believed(day):
            said = f"{name} = {day.isoformat()} lies outside the years {FIRST_YEAR} to {LAST_YEAR}"
            say(f"{said}, so this note is left out.", f"Look at the year, as in {EXAMPLES[name]}")
            return None, faults
    return entry, faults


def _as_it_stands(table: dict[str, Any], file: str, line: int) -> Entry | None:
    """The entry of a table that needs no care and no word about it, as nearly all do; None for any other.

    It is the entry that all the care would come to, several times as fast.
    """
    kind = _kind_of(table.get("what"))
    if kind is None or not _PLAIN[table["what"]].issuperset(table):
        return None
    if kind is BloomNote and not ("stage" in table and "bbch" in table):
        return None
    try:
        entry = msgspec.convert({**table, "file": file, "line": line}, kind)
    except msgspec.ValidationError:
        return None
    if not is_believed(entry.on) or (kind in _CLOSING and not entry.closes):
        return None
    return entry


def _converted(fields: dict[str, Any], file: str, line: int, written_sum: Any) -> Entry | None:
    """The note of its kind, words that only other kinds have kept beside; None if a value does not fit."""
    kind = _kind_of(fields["what"])
    if kind is None:
        return None
    besides: tuple[tuple[str, Any], ...] = ()
    own = _OWN[fields["what"]]
    try:
        if not own.issuperset(fields):
            others = [name for name in WORDS if name in fields and name not in own]
            besides = tuple((name, msgspec.convert(fields[name], _types()[name])) for name in others)
            fields = {name: value for name, value in fields.items() if name in own}
        place = {"file": file, "line": line, "sum": written_sum if isinstance(written_sum, str) else ""}
        return msgspec.convert({**fields, **place, "besides": besides}, kind)
    except msgspec.ValidationError:
        return None


def _kind_of(what: Any) -> type[Entry] | None:
    return KINDS.get(what) if isinstance(what, str) else None


@cache
def _needs(kind: type[Entry]) -> tuple[tuple[str, ...], ...]:
    """What a note of a kind says nothing without: any one word of each group will do."""
    needed = [
        (field.name,) for field in msgspec.structs.fields(kind) if field.required and field.name != "on"
    ]
    return (*needed, ("stage", "bbch")) if kind is BloomNote else tuple(needed)


@cache
def _types() -> dict[str, Any]:
    """What each word may hold, by the kinds of note that have it."""
    return {field.name: field.type for kind in KINDS.values() for field in msgspec.structs.fields(kind)}


def _known_fields(fields: dict[str, Any], say: Callable[[str, str], None], hints: bool) -> dict[str, Any]:
    """Fields by their own names: twins in other units converted, names nobody knows left out and said."""
    known = {name: value for name, value in fields.items() if name in _KNOWN}
    for name, value in fields.items():
        if name in _KNOWN:
            continue
        if name not in _TWINS:
            hint = _meant(clipped(name)) if hints else ""
            say(f"{clipped(name)} is no name known in a note, so it is left out.", hint)
            continue
        metric, convert = _TWINS[name]
        if metric in fields:
            say(f"Both {metric} and {name} are given; {metric} is used.", "Keep one of them.")
        elif isinstance(value, int | float) and not isinstance(value, bool):
            known[metric] = convert(value)
        else:  # no number: it will not fit, and is then named as it was given
            known[metric] = value
    return known


def _meant(name: str) -> str:
    """A hint at the known word nearest to a name; of twins both, since a name tells no unit."""
    twins = [f"{metric} or {twin}" for twin, (metric, _) in _TWINS.items() if metric.startswith(f"{name}_")]
    return f"Did you mean {twins[0]}?" if twins else did_you_mean(name, _KNOWN | _TWINS.keys())


def _tidy_words(fields: dict[str, Any]) -> None:
    """Accept capitals, spaces and underscores in known words, moments for days, and one job for a list."""
    for name, joint, words in _WORDS:
        value = fields.get(name)
        if isinstance(value, str) and value not in words:
            fields[name] = joint.join(value.lower().replace("_", " ").replace("-", " ").split())
    for name in ("on", "until"):
        if isinstance(fields.get(name), dt.datetime):
            fields[name] = fields[name].date()
    if isinstance(fields.get("tasks"), str):
        fields["tasks"] = [fields["tasks"]]
    if "stage" in fields or "bbch" in fields:
        _fill_stage(fields)


def _as_typed(fields: dict[str, Any]) -> str | None:
    """Turn a note written in the words that are typed ("rain", "watering") into its kind; what it lacks."""
    what = fields.get("what")
    if not isinstance(what, str) or what not in _SAID_ALSO:
        return None
    wanted = _WANTS.get(what)
    if wanted is not None and wanted not in fields:
        return wanted
    kind, more = _SAID_ALSO[what]
    fields.update({"what": kind, **more})
    if what == "watering":
        fields.setdefault("task", str(JobId(str(fields["plant"]), "water")))
    return None


def _fill_stage(fields: dict[str, Any]) -> None:
    """Give a stage its BBCH number, and a number its stage, where one of them is missing."""
    stage, number = fields.get("stage"), fields.get("bbch")
    if stage == "full":
        stage = fields["stage"] = FULL_BLOOM.name
    if number is None and isinstance(stage, str) and stage in BBCH:
        fields["bbch"] = BBCH[stage]
    elif stage is None and isinstance(number, int) and number in STAGE_OF_BBCH:
        fields["stage"] = STAGE_OF_BBCH[number]


def _understandable(fields: dict[str, Any], say: Callable[[str, str], None]) -> bool:
    """Whether the note says what happened, when, and to what; says what is missing if not."""
    if "on" not in fields or "what" not in fields:
        for name, asked in (("on", "which day it is about"), ("what", "what happened")):
            if name not in fields:
                say(f"This note does not say {asked}, so it is left out.", f"Add {EXAMPLES[name]}")
        return False
    what = fields["what"]
    kind = _kind_of(what)
    lacking = [group for group in _needs(kind) if not any(name in fields for name in group)] if kind else []
    for group in lacking:
        say(f'This "{what}" note lacks its {group[0]}, so it is left out.', f"Add {EXAMPLES[group[0]]}")
    if kind in _CLOSING and not fields.get("task") and not fields.get("tasks"):
        say(f'This "{what}" note names no job, so it closes none.', f"Add it, such as {EXAMPLES['task']}")
    return not lacking


def _say_if_wrong(name: str, given: Any, fields: dict[str, Any], say: Callable[[str, str], None]) -> None:
    """Name the field whose value cannot be taken, and what to write instead."""
    taken = _TWINS[name][0] if name in _TWINS else name
    if taken not in fields or _fits(taken, fields[taken]):
        return
    words = {"what": WHATS, "stage": STAGES, "set": FRUIT_SETS, "plan": JUDGEMENTS}.get(name)
    if words is not None:
        near = nearest_word(given, words) if isinstance(given, str) else None
        hint = f'Did you mean "{near}"?' if near else f"Write one of: {', '.join(words)}."
    elif name in _TWINS:
        hint = f"Write a number in its range, as in {EXAMPLES[taken]}, or its like in {name}."
    elif name in EXAMPLES:
        hint = f"Write it like {EXAMPLES[name]}"
    else:
        hint = f'Write {name} = "..." with text between the quote marks.'
    say(f"{name} = {as_written(given)} is not understood, so this note is left out.", hint)


def _fits(name: str, value: Any) -> bool:
    if name == "what":
        return _kind_of(value) is not None
    try:
        msgspec.convert(value, _types()[name])
    except msgspec.ValidationError:
        return False
    return True
