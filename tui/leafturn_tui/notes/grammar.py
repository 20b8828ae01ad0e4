"""Turning what a person types into a note.

Used alike by the pages and by `leafturn note`, so that one grammar serves both.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from leafturn.base.bloom_stages import BBCH, FIRST_OPEN, FLOWERING_NAMES
from leafturn.base.closed_words import FRUIT_SETS
from leafturn.base.faults import clipped, nearest_word
from leafturn.base.patterns import pattern
from leafturn.garden.model import Garden
from leafturn.garden.things import things_of
from leafturn.journal.book import in_words
from leafturn.journal.entries import (
    BloomNote,
    CrownNote,
    DamageNote,
    Entry,
    FruitSetNote,
    HarvestNote,
    HeapReading,
    LossNote,
    PlainNote,
)
from leafturn_tui.notes import NotUnderstood, acts, dates
from leafturn_tui.notes.names import heap_id, is_name, likely_plant, plant_id, with_names_joined
from leafturn_tui.notes.other_words import as_written, counted_as
from leafturn_tui.notes.quantities import amount, celsius, is_temperature
from leafturn_tui.text.phrases import day

OPENERS = ("bloom", "harvest", "set", "reading", "crown", "loss", "damage", *acts.OPENERS)
# A word near one of these was most likely meant for it; "pruned" and "mowed" mean themselves.
OFTEN_MISSPELT = tuple(word for word in OPENERS if not word.endswith("ed"))
STAGES = (*FLOWERING_NAMES, "none this year")
# What must follow a first word; "wind" or "snow" alone says all.
_WANTED = {
    "bloom": "bloom comice-1", "harvest": "harvest quince 4.5 kg", "set": "set quince fair",
    "reading": "reading bay-2 58", "crown": "crown toll-ash 33%", "loss": "loss pear-2 voles",
    "damage": "damage pear-2 wind", "planted": "planted pear-2", "moved": "moved pear-2",
    "judged": "judged pear-2 keep", "watering": "watering pear-2 40 l", "rain": "rain 12",
    "frost": "frost -2.8", "weather": "weather min 1.5",
}  # fmt: skip

_PERCENT = pattern(r"\s*(\d{1,4}(?:[.,]\d+)?)\s*(?:%|percent\b|per cent\b)?(?:[\s,;:]+(.*))?\s*", re.DOTALL)

# "40% dead on the south side" tells the other part; "40% dead branches" tells of branches.
_DEAD = pattern(
    r"\s*[\d.,]+\s*(?:%|percent|per cent)?\s+(?:is )?dead\s*(?:$|[,;.]|(?:at|in|on)\b)", re.IGNORECASE
)


class Misspelt(NotUnderstood):
    """A first word that begins no note but lies near one that does; `entry` keeps it all in its own words."""

    def __init__(self, word: str, meant: str, entry: Entry) -> None:
        super().__init__(f"{clipped(word)!r} begins no kind of note. Did you mean {meant}?")
        self.entry = entry


def stage(text: str) -> str:
    """The stage that a few words name."""
    found = next((s for s in STAGES if text and s.startswith(text.lower())), None)
    found = found or nearest_word(text, STAGES)
    if found is None:
        raise NotUnderstood(f"{clipped(text)!r} is no stage; the stages are {', '.join(STAGES)}")
    return found


def bloom(plant: str, seen: str, on: dt.date) -> BloomNote:
    """The note that a plant was seen at a stage."""
    return BloomNote(on=on, plant=plant, stage=stage(seen), bbch=BBCH.get(stage(seen)))  # type: ignore[arg-type]


def harvest(plant: str, how_much: str, on: dt.date) -> HarvestNote:
    """The note that something was picked; without an amount where none is given."""
    got = amount(how_much)
    plain_kilograms = got.kg is not None and re.fullmatch(r"[\d.,]+\s*kg", got.words.lower())
    words = None if plain_kilograms or not got.words else got.words
    return HarvestNote(on=on, plant=plant, kg=got.kg, amount=words)


def reading(heap: str, degrees: str, on: dt.date) -> HeapReading:
    """The note of a heap's warmth."""
    return HeapReading(on=on, heap=heap, temp_c=celsius(degrees))


def crown(plant: str, seen: str, on: dt.date) -> CrownNote:
    """The note of a look at a crown: "33%", "33 %" or "33", then what else was seen, as "bracket fungi"."""
    found = _PERCENT.fullmatch(seen)
    if not found:
        raise NotUnderstood("a look at a crown tells how much of it lives: crown toll-ash 33%")
    percent = float(found[1].replace(",", "."))
    if percent > 100:
        raise NotUnderstood(f"{percent:g} % of a crown cannot live; write 0% to 100%")
    signs = (found[2] or "").strip(" ,;:")
    if _DEAD.match(seen):
        raise NotUnderstood(
            "a look at a crown tells how much of it lives; "
            f"where {percent:g} % is dead write crown {plant} {100 - percent:g}%"
        )
    return CrownNote(on=on, plant=plant, live_percent=percent, text=signs or None)


def fruit_set(plant: str, seen: str, on: dt.date) -> FruitSetNote:
    """The note of how a plant set: "good", and what else there is to say of it."""
    first, _, more = seen.strip().partition(" ")
    word = next((word for word in FRUIT_SETS if word == first.lower().strip(" ,;:")), None)
    if word is None:
        raise NotUnderstood(f"a set is {', '.join(FRUIT_SETS[:-1])} or {FRUIT_SETS[-1]}: set quince fair")
    return FruitSetNote(on=on, plant=plant, set=word, text=more.strip(" ,;:") or None)


HARMS: dict[str, type[LossNote] | type[DamageNote]] = {"loss": LossNote, "damage": DamageNote}


def lost(kind: type[LossNote] | type[DamageNote], plant: str, by: str, on: dt.date) -> LossNote | DamageNote:
    """The note of a loss or damage: its cause, as "voles", and after a comma what else there is to say."""
    cause, _, more = by.partition(",")
    because, besides = cause.strip() or None, more.strip() or None
    if kind is DamageNote and re.match(r"(wind|storm|gale)\b", cause.strip().lower()):
        return DamageNote(on=on, plant=plant, cause=because, text=besides, wind=True)
    return kind(on=on, plant=plant, cause=because, text=besides)


def understand(
    words: Sequence[str],
    garden: Garden,
    on: dt.date,
    *,
    stage_words: str = FIRST_OPEN.name,
    typed: str | None = None,
) -> Entry:
    """Read a note as typed: "bloom PLANT", "PLANT full bloom", "harvest PLANT AMOUNT", "HEAP DEGREES"
    and others, and what `notes.acts` reads ("rain 12"), each with its day behind or before it if it is of
    another ("rain 12 yesterday"); anything else is kept as plain words, of the day over that they tell of.

    Parameters
    ----------
    words : sequence of str
        What was typed, word by word.
    garden : Garden
        Whose plants and heaps may be named.
    on : date
        The day the note is about where it names none.
    stage_words : str
        The stage of a bloom that names none.
    typed : str, optional
        The whole line, where its blanks are to be kept.

    Raises
    ------
    NotUnderstood
        If the first word says what kind of note it is and the rest lacks or does not fit. A sentence that
        merely begins with such a word ("bloom was late") is kept as plain words.
    Misspelt
        If the first word is none of these but near one, and a plant or heap follows: "blom comice-1".
    """
    said = " ".join(words) if typed is None else typed
    noted, day_noted = dates.day_at_end(said, on)
    if noted == said:
        noted, day_noted = dates.day_at_start(said, on)
    named = as_written(with_names_joined(noted.split(), garden), garden)
    if (entry := _of_a_kind(named, garden, day_noted, stage_words)) is not None:
        return entry
    plain = plain_words(said, garden, dates.day_within(said, on))
    meant = len(named) > 1 and is_name(named[1], garden) and not is_name(named[0], garden)
    if meant and (near := _nearest(named[0].lower())):
        raise Misspelt(named[0], near, plain)
    return plain


def _of_a_kind(words: Sequence[str], garden: Garden, on: dt.date, stage_words: str) -> Entry | None:
    """The note whose kind the first words tell; None of anything else."""
    kind, rest = words[0].lower() if words else "", words[1:]
    if kind and not rest:
        _check_alone(kind, garden)
    if kind == "bloom" and 1 <= len(rest) <= 3 and (len(rest) == 1 or is_name(rest[0], garden)):
        return bloom(plant_id(rest[0], garden), " ".join(rest[1:]) or stage_words, on)
    if kind == "harvest" and rest and (len(rest) <= 2 or is_name(rest[0], garden)):
        return harvest(plant_id(rest[0], garden), " ".join(rest[1:]), on)
    if kind == "reading" and rest and (len(rest) <= 2 or is_name(rest[0], garden)):
        if len(rest) == 1:
            raise NotUnderstood("a reading needs a heap and its warmth: reading bay-2 58")
        return reading(heap_id(rest[0], garden), " ".join(rest[1:]), on)
    if (warm := _warm_heap(words, garden)) is not None:
        return reading(*warm, on)
    if kind == "crown" and rest and (len(rest) <= 2 or is_name(rest[0], garden)):
        return crown(plant_id(rest[0], garden), " ".join(rest[1:]), on)
    if kind == "set" and len(rest) > 1 and (is_name(rest[0], garden) or " ".join(rest[1:]) in FRUIT_SETS):
        return fruit_set(plant_id(rest[0], garden), " ".join(rest[1:]), on)
    if (harm := HARMS.get(kind)) and rest and likely_plant(rest[0], garden):
        return lost(harm, plant_id(rest[0], garden), " ".join(rest[1:]), on)
    if (seen := _bloom_by_name(words, garden, stage_words)) is not None:
        return bloom(plant_id(words[0], garden), seen, on)
    return acts.read(kind, rest, garden, on)


def _nearest(kind: str) -> str | None:
    """What a first word was most likely meant for; nothing for "the", which lies near "weather"."""
    return None if kind in OPENERS or len(kind) <= len("the") else nearest_word(kind, OFTEN_MISSPELT)


def _check_alone(word: str, garden: Garden) -> None:
    """Refuse one word that asks for more: how a note begins, or a plant or heap and nothing of it."""
    if word in _WANTED:
        raise NotUnderstood(f"{word} alone tells too little; write it as in: {_WANTED[word]}")
    if is_name(word, garden):
        raise NotUnderstood(f"{clipped(word)} alone tells too little; write what was seen of it, too")


def _bloom_by_name(words: Sequence[str], garden: Garden, stage_words: str) -> str | None:
    """The stage of "comice-1 bloom" and "comice-1 full bloom"; None of anything else."""
    if len(words) < 2 or not is_name(words[0], garden):
        return None
    seen = " ".join(words[1:]).lower()
    return stage_words if seen == "bloom" else seen if seen in STAGES else None


def _warm_heap(words: Sequence[str], garden: Garden) -> tuple[str, str] | None:
    """Heap and degrees of "bay-2 58" and "heap bay-2 58"; None of anything else."""
    heap, *degrees = words[1:] if len(words) > 2 and words[0].lower() == "heap" else words or [""]
    known = any(heap == h.id for h in garden.heaps)
    said = " ".join(degrees)
    return (heap, said) if known and degrees and is_temperature(said) else None


def plain_words(text: str, garden: Garden, on: dt.date) -> PlainNote:
    """A note kept in its own words; "comice-1: canker on the trunk" is about that plant."""
    text = text.strip()
    if not text:
        raise NotUnderstood("nothing was written, so nothing is noted")
    about, colon, rest = text.partition(":")
    if colon and rest.strip():
        if any(p.id == about for p in garden.plants):
            return PlainNote(on=on, plant=about, text=rest.strip())
        if any(h.id == about for h in garden.heaps):
            return PlainNote(on=on, heap=about, text=rest.strip())
    return PlainNote(on=on, text=text)


def kept_in_words(entry: Entry, garden: Garden) -> str:
    """A sentence where a note that reads like one of a kind was kept in its own words; else empty."""
    text = entry.text if isinstance(entry, PlainNote) and entry.text else ""
    first = text.split()[0].lower() if text else ""
    if first not in OPENERS or first not in _WANTED:
        first = counted_as(text, garden) or ""
    if not first:
        return ""
    if first == "done":
        return "It is kept in these words and ticks no job: Space on its line does, or leafturn done"
    return f"It is kept in these words and counts as no {first}, which is written as in: {_WANTED[first]}"


def entry_words(entry: Entry, on: dt.date, garden: Garden | None = None) -> str:
    """A note with its day as one line: "comice-2: first open, 11 Apr". Not yet made safe."""
    return f"{in_words(entry, things=things_of(garden) if garden else None)}, {day(entry.on, on)}"
