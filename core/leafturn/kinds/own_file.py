"""A steward's own kinds file: kinds added to the library, or single facts of known kinds put right."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal, get_args, get_origin, get_type_hints

import msgspec

from leafturn.base.faults import Fault, Unreadable, clipped, did_you_mean, listed
from leafturn.base.patterns import pattern
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.kinds.defaults import Defaults
from leafturn.kinds.model import Cultivar, Kind
from leafturn.kinds.names import without_spaces
from leafturn.kinds.own_checks import OwnFile, known_stages, known_traits, known_ways
from leafturn.toml.guard import MOST_BYTES, decode_toml, parse_toml

_PLACE = pattern(r" - at `\$(?P<path>[^`]*)`$")
_STEP = pattern(r"\.(?P<key>[^.\[\]]+)|\[(?P<number>\d+)\]")
_UNKNOWN = pattern(r"unknown field `(?P<key>[^`]*)`")
_PLAIN_KEYS = frozenset(
    (
        "botanical",
        "common",
        "synonyms",
        "serves_for",
        "family",
        "habit",
        "layer",
        "evergreen",
        "also_called",
    )
)
_NOT_ENTRIES = {"name", "guessed"}  # the program's own
_NAME_HINT = "The name of a kind stands in the brackets above its facts, further ones in common."
_CULTIVAR_HINT = 'Write [kind.cultivars."Name"] above the facts of each.'
_SUM_HINT = (
    'Write each sum as ["what", low, high, "F-days", base, "01-01", "average", "where it is from", "fair"].'
)
_DAY_ENTRIES = {"start", "season", "not_before"}
_DAY_HINT = 'Months and days are written as in "09-20".'
_HINT = 'Write it as [value, "where it is from", "fair"]; the last word is sure, fair or guess.'


def read_own_file(
    path: Path, known: Mapping[str, Any], guess: Kind, defaults: Defaults
) -> tuple[dict[str, Kind], tuple[Fault, ...]]:
    """The same as `read_own_kinds`, of a file that must really lie in its folder."""
    try:
        data = file_bytes(path, MOST_BYTES, path.parent)
    except (OSError, ValueError) as error:
        message = f"The file of own kinds cannot be read: {reason(error)}."
        return {}, (Fault(file=path.name, line=None, message=message),)
    return read_own_kinds(data, path.name, known, guess, defaults)


def read_own_kinds(
    data: bytes, file: str, known: Mapping[str, Any], guess: Kind, defaults: Defaults
) -> tuple[dict[str, Kind], tuple[Fault, ...]]:
    """Read a steward's kinds file.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk; same shape as the library's own.
    file : str
        Its name.
    known : mapping
        The library's tables as TOML gave them, by kind name; a table of the same name is laid over.
    guess : Kind
        Gives family, habit and layer to new kinds that leave them out.
    defaults : Defaults
        For the layer that goes with a habit.

    Returns
    -------
    kinds : dict
        The kinds the file names, gaps not yet filled.
    faults : tuple of Fault
        What was left out, with line and hint. A file that cannot be read gives no kinds and one fault.
    """
    try:
        tables = parse_toml(data, file)
        own = OwnFile(file, decode_toml(data, file))
    except Unreadable as unreadable:
        return {}, (unreadable.fault,)
    names = {without_spaces(name): name for name in known}
    kinds: dict[str, Kind] = {}
    for written, table in tables.items():
        name = names.get(without_spaces(written), written)
        if not isinstance(table, dict):
            hint = f'Write ["{clipped(written)}"] above its facts.'
            own.fault((written,), f"{clipped(written)} is not a kind, and was left out.", hint)
            continue
        base = known.get(name)
        if base is None:
            habit = table.get("habit", guess.habit)
            layer = defaults.layer.get(habit, guess.layer) if isinstance(habit, str) else guess.layer
            base = {"botanical": "", "family": guess.family, "habit": guess.habit, "layer": layer}
        kind = _kind(own, written, base, _overlaid(copy.deepcopy(base), _as_facts(table, file)))
        if kind is not None:
            kinds[name] = msgspec.structs.replace(kind, name=name)
    return kinds, listed(own.faults, file)


def _as_facts(table: Mapping[str, Any], file: str) -> dict[str, Any]:
    """A table in which plain values are made facts whose source is the file itself."""
    facts: dict[str, Any] = {}
    for key, value in table.items():
        if isinstance(value, dict):
            facts[key] = _as_facts(value, file)
        elif key in _PLAIN_KEYS or isinstance(value, list):
            facts[key] = value
        else:
            facts[key] = [value, file, "fair"]
    return facts


def _overlaid(base: dict[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    """`base` with every value that `over` gives; tables are joined, everything else replaced."""
    for key, value in over.items():
        below = base.get(key)
        base[key] = _overlaid(below, value) if isinstance(below, dict) and isinstance(value, dict) else value
    return base


def _kind(own: OwnFile, name: str, base: Mapping[str, Any], table: dict[str, Any]) -> Kind | None:
    """The table as a kind; what does not fit is reported, and what `base` says instead stays."""
    for key in _NOT_ENTRIES & table.keys():
        del table[key]
        own.fault((name, key), f"{clipped(name)}: there is no entry {key}; it was left out.", _NAME_HINT)
    cultivars = table.pop("cultivars", {})
    table = _fitting(own, (name,), base, table, Kind)
    if not table:
        return None
    if not isinstance(cultivars, dict):
        own.fault(
            (name, "cultivars"), f"{clipped(name)}: cultivars is no table, and was left out.", _CULTIVAR_HINT
        )
        cultivars = base.get("cultivars", {})
    good = {}
    for cultivar, facts in cultivars.items():
        path = (name, "cultivars", cultivar)
        if isinstance(facts, dict):
            before = base.get("cultivars", {}).get(cultivar, {})
            good[cultivar] = msgspec.convert(_fitting(own, path, before, facts, Cultivar), Cultivar)
        else:
            own.fault(
                path,
                f"{clipped(name)}: the cultivar {clipped(cultivar)} is not understood, and was left out.",
            )
    kind = msgspec.structs.replace(msgspec.convert(table, Kind), cultivars=good)
    known_ways(own, name, kind)
    return known_stages(own, name, known_traits(own, name, kind))


def _fitting(
    own: OwnFile, path: tuple[str, ...], base: Mapping[str, Any], table: dict[str, Any], into: type
) -> dict[str, Any]:
    """The table without the entries that do not convert, each reported; empty if it cannot be mended."""
    while True:
        try:
            msgspec.convert(table, into)
        except msgspec.ValidationError as error:
            if own.hopeless:
                own.fault(path, f"{clipped(path[-1])} is not understood, and was left out.")
                return {}
            if not _take_out(own, path, base, table, str(error)):
                return {}
        else:
            return table


def _take_out(
    own: OwnFile, path: tuple[str, ...], base: Mapping[str, Any], table: dict[str, Any], error: str
) -> bool:
    """Put back or remove what a validation error names and report it; False if there is nothing to mend."""
    place = _PLACE.search(error)
    steps: list[str | int] = [
        found["key"] if found["key"] is not None else int(found["number"])
        for found in _STEP.finditer(place["path"] if place else "")
    ]
    unknown = _UNKNOWN.search(error)
    if unknown:
        steps.append(unknown["key"])
    # A bad item of a fact spoils the whole fact; a bad caution or published sum only itself.
    in_section = bool(steps) and (
        steps[0] in ("cautions", "heat_sums") or isinstance(table.get(str(steps[0])), dict)
    )
    steps = steps[:2] if in_section else steps[:1]
    if not steps:
        own.fault(path, f"{clipped(path[-1])} is not understood, and was left out.")
        return False
    holder: Any = table
    before: Any = base
    for step in steps[:-1]:
        holder = holder[step]
        before = before.get(step, {}) if isinstance(before, dict) else {}
    value = holder.pop(steps[-1])
    if isinstance(before, dict) and steps[-1] in before:
        holder[steps[-1]] = copy.deepcopy(before[steps[-1]])
    said = ".".join(str(step) for step in steps)
    if unknown:
        names = _field_names(path, steps[:-1])
        hint = did_you_mean(unknown["key"], names)
        if not hint and (steps[:-1] or "cultivars" in path):
            hint = f"Its entries are {', '.join(names)}."
        own.fault(
            (*path, *steps), f"{clipped(path[-1])}: there is no entry {clipped(said)}; it was left out.", hint
        )
    else:
        hint = _SUM_HINT if steps[0] == "heat_sums" else _HINT
        hint = _words_hint(value, path, steps) or ("" if steps[-1] in _PLAIN_KEYS else hint)
        if steps[-1] in _DAY_ENTRIES:
            hint = f"{hint} {_DAY_HINT}"
        shown = clipped(str(value), 40)
        message = f"{clipped(path[-1])}: {clipped(said)} = {shown} is not understood, and was left out."
        own.fault((*path, *steps), message, hint)
    return True


def _words_hint(value: object, path: tuple[str, ...], steps: list[Any]) -> str:
    """The words an entry may hold, if they are a closed list and this is none of them, the nearest first."""
    known = _known_words(Cultivar if "cultivars" in path else Kind, steps)
    word = value[0] if isinstance(value, list) and value else value
    if not known or not isinstance(word, str) or word in known:
        return ""
    return " ".join((did_you_mean(word, known), f"Write one of {', '.join(known)}.")).strip()


def _known_words(holder: Any, steps: list[Any]) -> tuple[str, ...]:
    """The closed list of words that the type of an entry allows; empty if it has none."""
    for step in steps:
        if not hasattr(holder, "__struct_fields__") or step not in holder.__struct_fields__:
            return ()
        holder = get_type_hints(holder)[step]
    while (kind_of := get_origin(holder)) is not None and kind_of is not Literal:
        holder = get_args(holder)[0]  # Fact[...] | None gives Fact[...], that gives what is in it
    return tuple(word for word in get_args(holder) if isinstance(word, str))


def _field_names(path: tuple[str, ...], steps: list[Any]) -> tuple[str, ...]:
    holder: Any = Cultivar if "cultivars" in path else Kind
    if steps:
        holder = type(getattr(Kind(botanical="", family="", habit="shrub", layer="shrub"), str(steps[0])))
    return tuple(holder.__struct_fields__)
