"""Questions that only the steward can answer and has not yet, for whoever takes the garden over."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator, Sequence

from leafturn.answers.losses import Lost
from leafturn.canopy.after.succession import is_chosen
from leafturn.garden.model import FAILING, STEWARD, Garden, Plant
from leafturn.journal.entries import CrownNote, Entry, LookNote
from leafturn.journal.questions import unknown_plants
from leafturn.papers.words import names

LOOK_AGAIN_DAYS = 400  # a year, and the slack of a season
NAMED_MOST = 12
BIG_M = 6.0  # a guess: taller than can be pruned from the ground


def open_questions(
    garden: Garden,
    entries: Iterable[Entry],
    lost: Iterable[Lost],
    on: dt.date,
    *,
    guessed: Collection[str],
    cultivar_wanted: Collection[str],
) -> tuple[str, ...]:
    """Questions in plain sentences, the weightiest first; each names the plants it is about.

    Parameters
    ----------
    garden : Garden
    entries : iterable of Entry
        Notes not taken back up to `on`.
    lost : iterable of Lost
        What was lost.
    on : date
    guessed : collection of str
        Ids of plants of kinds the library does not know.
    cultivar_wanted : collection of str
        Ids of plants that need a partner and whose cultivar is not given.
    """
    notes = list(entries)
    present = [p for p in garden.plants if p.state != "gone"]
    return tuple(
        asked
        for asked in (
            _about(_failing_without_wish(present), "what is to be done when dead: a stem, a log, nothing?"),
            _about(_unlooked(present, notes, on), "when was the crown last looked at, and by whom?"),
            _about([p.id for p in present if _undecided(p)], "to stay, to move or to go?"),
            _about(_of(present, cultivar_wanted), "which cultivar? Partners cannot be judged without it."),
            _about([p.id for p in present if p.year is None], "planted in which year?"),
            _about([p.id for p in present if p.point is None and not p.host], "where?"),
            _about(_of(present, guessed), "what is it? The library does not know its kind."),
            _about([p.id for p in present if not p.why and _is_big(p)], "why just there?"),
            _about([x.plant for x in lost if not x.cause and not x.text], "lost to what?"),
            _about(_strangers(garden, notes, lost), "named in notes: what is it, and does it still stand?"),
            *_about_people(garden, present),
        )
        if asked
    )


def _about(plants: Sequence[str], question: str) -> str:
    """Plants and what is asked of them; empty without any."""
    if not plants:
        return ""
    shown = list(plants[:NAMED_MOST])
    more = len(plants) - len(shown)
    return f"{names([*shown, f'{more} more'] if more else shown)}: {question}"


def _of(plants: Iterable[Plant], wanted: Collection[str]) -> list[str]:
    return [p.id for p in plants if p.id in wanted]


def _failing_without_wish(plants: Iterable[Plant]) -> list[str]:
    return [p.id for p in plants if p.state in FAILING and not p.after_death]


def _unlooked(plants: Iterable[Plant], notes: Iterable[Entry], on: dt.date) -> list[str]:
    looked = {
        e.plant for e in notes if isinstance(e, CrownNote | LookNote) and (on - e.on).days <= LOOK_AGAIN_DAYS
    }
    return [p.id for p in plants if p.state in FAILING and p.id not in looked]


def _undecided(plant: Plant) -> bool:
    return plant.plan == "undecided" or (plant.origin is not None and plant.plan is None)


def _is_big(plant: Plant) -> bool:
    """Whether a plant is of those that shape a place: keystone, successor, or tall by the garden file."""
    return "keystone" in plant.role or is_chosen(plant) or (plant.height_m or 0) >= BIG_M


def _strangers(garden: Garden, notes: Iterable[Entry], lost: Iterable[Lost]) -> list[str]:
    known = (
        {p.id for p in garden.plants} | {p.name for p in garden.plants if p.name} | {x.plant for x in lost}
    )
    return sorted(unknown_plants(notes, known))


def _about_people(garden: Garden, plants: Sequence[Plant]) -> Iterator[str]:
    if not garden.helpers:
        yield "Who helps, on which days, and what can they do?"
    if STEWARD in garden.all_helpers:
        yield "How many hours a week has whoever keeps the garden, and what can they do?"
    if not any(p.promise for p in plants):
        yield "Was anything promised to neighbours, owners or children?"
    yield "Where are tools, keys, water and the weather record kept, and who owns the ground?"
