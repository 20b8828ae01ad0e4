"""The answers as JSON: one object with the garden, the day, the faults, and what was asked.

Strings are given as they stand in the files, so that ids can be used again; every character that a
terminal could act on is written as an escape (`\\u001b`), so the bytes are harmless to print.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.answers.plant_card import PlantCard
from leafturn.partners.model import TreeReview
from leafturn.tasks.model import Job
from leafturn_tui.render import canopy as canopy_answers
from leafturn_tui.render import drift as climate_rows
from leafturn_tui.render import tending as tending_answers
from leafturn_tui.render import weather as weather_words
from leafturn_tui.render.book import book
from leafturn_tui.render.json_parts import Answer, early_late, iso, number, shell
from leafturn_tui.render.season import season

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def check(almanac: AlmanacFace) -> Answer:
    """Faults and notes."""
    return shell(almanac)


def the_round(almanac: AlmanacFace, helper: str | None = None) -> Answer:
    """The week's jobs, the hours and the walk."""
    week = almanac.round(helper)
    return shell(almanac) | {
        "helper": helper,
        "jobs": [job(j) for j in week.jobs],
        "waiting": [job(j) for j in week.waiting],
        "hours": {
            "needed": number(week.hours_needed),
            "available": number(week.hours_available),
            "helpers": [
                {
                    "name": load.name,
                    "minutes": number(load.minutes),
                    "hours": number(load.hours_at_hand),
                    "jobs": list(load.jobs),
                }
                for load in week.helpers
            ],
        },
        "walk": {"stops": list(week.walk.stops), "metres": number(week.walk.metres)},
        "beyond_reach": list(week.beyond_reach),
        "quiet": week.quiet,
        "notice": list(week.notice),
    }


def job(said: Job) -> Answer:
    """One job; `ranges` hold the dates that leave out one year in ten at each end."""
    return {
        "id": said.id,
        "plant": said.plant,
        "verb": said.verb,
        "title": said.title,
        "state": said.state,
        "days_late": said.days_late,
        "open": iso(said.open.likely),
        "best": iso(said.best.likely),
        "close": iso(said.close.likely),
        "ranges": {
            "open": early_late(said.open),
            "best": early_late(said.best),
            "close": early_late(said.close),
        },
        "minutes": number(said.minutes),
        "who": said.who,
        "where": said.where,
        "demands": list(said.demands),
        "why": list(said.why),
        "basis": said.basis,
        "source": said.source,
        "hold": None if said.hold is None else {"reason": said.hold.reason, "until": iso(said.hold.until)},
        "cautions": list(said.cautions),
        "next_open": iso(said.next_open),
        "wait_until": iso(said.wait_until),
    }


def partners(almanac: AlmanacFace) -> Answer:
    """Every tree's chance of enough pollen."""
    spare = [{"plant": s.plant, "most_lost": number(s.most_lost)} for s in almanac.spare_pollen()]
    return shell(almanac) | {"trees": [tree(r) for r in almanac.partners()], "spare": spare}


def tree(said: TreeReview) -> Answer:
    """One tree."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "cultivar": said.cultivar,
        "needs": said.needs,
        "adequacy": number(said.adequacy),
        "low": number(said.low),
        "high": number(said.high),
        "standing": said.standing,
        "weakest": said.weakest,
        "reasons": list(said.reasons),
        "partners": [
            {
                "plant": p.plant,
                "chance": number(p.chance),
                "days_overlap": number(p.days_overlap),
                "metres": number(p.metres),
                "adds": number(p.adds),
                "reasons": list(p.reasons),
            }
            for p in said.partners
        ],
        "fixes": [
            {
                "what": f.what,
                "way": f.way,
                "year": f.year,
                "adequacy": number(f.adequacy),
                "effort": f.effort,
                "first_day": iso(f.first_day),
                "last_day": iso(f.last_day),
            }
            for f in said.fixes
        ],
        "by_year": {str(year): number(chance) for year, chance in said.by_year},
        "crop_chance": number(said.crop),
        "computed": number(said.computed),
        "set_words": said.set_words,
        "frost_loss_chance": number(said.frost_loss_chance),
        "guessed": said.guessed,
    }


def plants(almanac: AlmanacFace) -> Answer:
    """Every plant."""
    return shell(almanac) | {"plants": [plant(c) for c in almanac.plants()]}


def plant(card: PlantCard) -> Answer:
    """One plant with its facts and their sources."""
    return {
        "id": card.id,
        "name": card.name,
        "kind": card.kind,
        "botanical": card.botanical,
        "guessed": card.guessed,
        "where": card.where,
        "metres_from_gate": number(card.metres_from_gate),
        "line": card.line,
        "facts": [{"what": f.what, "value": f.value, "sure": f.sure, "source": f.source} for f in card.facts],
        "conflicts": [dataclasses.asdict(c) for c in card.conflicts],
        "jobs": list(card.jobs),
        "cautions": list(card.cautions),
        "own_words": list(card.own_words),
    }


def _tending(name: str) -> Callable[[AlmanacFace], Answer]:
    return lambda almanac: shell(almanac) | tending_answers.JSON[name](almanac)


def canopy(almanac: AlmanacFace) -> Answer:
    """The old trees: light, heirs, reach."""
    return shell(almanac) | canopy_answers.as_json(almanac)


def drift(almanac: AlmanacFace) -> Answer:
    """What a warmer climate changes."""
    return shell(almanac) | climate_rows.as_json(almanac)


def weather(almanac: AlmanacFace) -> Answer:
    """What is known of the weather."""
    return shell(almanac) | weather_words.answer(almanac)


ANSWERS = {
    "season": season,
    "partners": partners,
    "plants": plants,
    "book": book,
    "check": check,
    "canopy": canopy,
    "drift": drift,
    "weather": weather,
    **{name: _tending(name) for name in tending_answers.JSON},
}
