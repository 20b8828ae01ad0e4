"""The answers as JSON: one object with the garden, the day, the faults, and what was asked.

Strings are given as they stand in the files, so that ids can be used again; every character that a
terminal could act on is written as an escape (`\\u001b`), so the bytes are harmless to print.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import math
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from leafturn import __version__
from leafturn.bloom.frost_loss import FrostLoss
from leafturn.bloom.model import SeasonEvent
from leafturn.faults import Fault
from leafturn.partners.model import TreeReview
from leafturn.season.ensemble import Likely
from leafturn.tasks.model import Job
from leafturn.views import ColdHit, Frost, PlantCard, Tonight
from leafturn_tui import canopy_answers, climate_rows, tending_answers, weather_words

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

Answer = dict[str, Any]


def text(answer: Mapping[str, Any]) -> str:
    """The object as text in plain ASCII."""
    return json.dumps(answer, indent=2, allow_nan=False).replace("\x7f", "\\u007f")


def shell(almanac: Almanac) -> Answer:
    """What every answer begins with."""
    return {
        "leafturn": __version__,
        "garden": almanac.garden.place.name,
        "on": almanac.on.isoformat(),
        "faults": [fault(f) for f in almanac.faults],
        "notes": list(almanac.notes),
    }


def fault(said: Fault) -> Answer:
    """One fault."""
    return {"file": said.file, "line": said.line, "message": said.message, "hint": said.hint}


def unreadable(said: Fault, on: dt.date) -> Answer:
    """What is left to say of a garden that cannot be read."""
    return {
        "leafturn": __version__,
        "garden": None,
        "on": on.isoformat(),
        "faults": [fault(said)],
        "notes": [],
    }


def check(almanac: Almanac) -> Answer:
    """Faults and notes."""
    return shell(almanac)


def the_round(almanac: Almanac, helper: str | None = None) -> Answer:
    """The week's jobs, the hours and the walk."""
    week = almanac.round(helper)
    return shell(almanac) | {
        "helper": helper,
        "jobs": [job(j) for j in week.jobs],
        "waiting": [job(j) for j in week.waiting],
        "hours": {
            "needed": _number(week.hours_needed),
            "available": _number(week.hours_available),
            "helpers": [
                {
                    "name": load.name,
                    "minutes": _number(load.minutes),
                    "hours": _number(load.hours_at_hand),
                    "jobs": list(load.jobs),
                }
                for load in week.helpers
            ],
        },
        "walk": {"stops": list(week.walk.stops), "metres": _number(week.walk.metres)},
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
        "open": _date(said.open.likely),
        "best": _date(said.best.likely),
        "close": _date(said.close.likely),
        "ranges": {"open": _range(said.open), "best": _range(said.best), "close": _range(said.close)},
        "minutes": _number(said.minutes),
        "who": said.who,
        "where": said.where,
        "demands": list(said.demands),
        "why": list(said.why),
        "basis": said.basis,
        "source": said.source,
        "hold": None if said.hold is None else {"reason": said.hold.reason, "until": _date(said.hold.until)},
        "cautions": list(said.cautions),
        "next_open": _date(said.next_open),
        "wait_until": _date(said.wait_until),
    }


def season(almanac: Almanac) -> Answer:
    """Events, heat and frost."""
    whole = almanac.season()
    heat, frost = whole.heat, whole.frost
    return shell(almanac) | {
        "events": [event(e) for e in whole.events],
        "heat": {
            "base": _number(heat.base),
            "to_date": _number(heat.to_date),
            "normal": _number(heat.normal),
            "days_ahead": heat.days_ahead,
        },
        "frost": {
            "threshold_celsius": _number(frost.threshold),
            "last": _quantiles(frost.last),
            "first": _quantiles(frost.first),
            "last_gone": _number(frost.last_gone),
        },
        "frosts": [frost_dates(f) for f in whole.frosts],
        "frost_free_days": None
        if whole.frost_free is None
        else {"p10": whole.frost_free.short, "p50": whole.frost_free.usual, "p90": whole.frost_free.long},
        "frost_trend_days_per_decade": None
        if whole.frost_trend is None
        else {
            "likely": _number(whole.frost_trend.days_per_decade),
            "low": _number(whole.frost_trend.low),
            "high": _number(whole.frost_trend.high),
            "since": whole.frost_trend.since,
            "years": whole.frost_trend.years,
            "words": whole.frost_trend.words,
        },
        "frost_losses": [frost_loss(loss) for loss in almanac.frost_losses().values()],
    }


def frost_loss(said: FrostLoss) -> Answer:
    """What frost takes of one plant's flowers over the season."""
    return {
        "plant": said.plant,
        "chance_of_a_tenth": _number(said.chance_of_a_tenth),
        "mean_share": _number(said.mean_share),
        "share_so_far": _number(said.share_so_far),
        "worst_night": _date(said.worst_night),
        "basis": said.basis,
    }


def frost_dates(said: Frost) -> Answer:
    """Last and first night of one depth of cold; `station` is null where the garden is no frost pocket."""
    return {
        "threshold_celsius": _number(said.threshold),
        "last": _quantiles(said.last),
        "first": _quantiles(said.first),
        "last_gone": _number(said.last_gone),
        "station": None
        if said.station_last is None or said.station_first is None
        else {"last": _quantiles(said.station_last), "first": _quantiles(said.station_first)},
    }


def event(said: SeasonEvent) -> Answer:
    """One event of the season."""
    return {
        "plant": said.plant,
        "event": said.event,
        "bbch": said.bbch,
        "early": _date(said.when.early),
        "likely": _date(said.when.likely),
        "late": _date(said.when.late),
        "observed": _date(said.observed),
        "basis": said.basis,
        "days_from_normal": said.days_from_normal,
    }


def tonight(almanac: Almanac, night: Tonight, question: str | None) -> Answer:
    """What a cold night would do; `question` is what a person would be asked about the figure typed."""
    return shell(almanac) | {
        "garden_celsius": _number(night.garden_c),
        "station_celsius": _number(night.station_c),
        "question": question,
        "plants": [cold_hit(h) for h in night.plants],
        "not_known": list(night.not_known),
        "caution": night.caution,
    }


def cold_hit(said: ColdHit) -> Answer:
    """One plant on a cold night."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "stage": said.stage,
        "stage_from": said.stage_from,
        "share_lost": _number(said.share),
        "share_lost_low": _number(said.low),
        "share_lost_high": _number(said.high),
        "tenth_lost_at_celsius": _number(said.tenth_c),
        "nine_tenths_lost_at_celsius": _number(said.nine_tenths_c),
        "height_metres": _number(said.height_m),
        "cover": said.cover,
        "cover_words": said.cover_words,
        "words": said.words,
        "basis": said.basis,
    }


def partners(almanac: Almanac) -> Answer:
    """Every tree's chance of enough pollen."""
    spare = [{"plant": s.plant, "most_lost": _number(s.most_lost)} for s in almanac.spare_pollen()]
    return shell(almanac) | {"trees": [tree(r) for r in almanac.partners()], "spare": spare}


def tree(said: TreeReview) -> Answer:
    """One tree."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "cultivar": said.cultivar,
        "needs": said.needs,
        "adequacy": _number(said.adequacy),
        "low": _number(said.low),
        "high": _number(said.high),
        "standing": said.standing,
        "weakest": said.weakest,
        "reasons": list(said.reasons),
        "partners": [
            {
                "plant": p.plant,
                "chance": _number(p.chance),
                "days_overlap": _number(p.days_overlap),
                "metres": _number(p.metres),
                "adds": _number(p.adds),
                "reasons": list(p.reasons),
            }
            for p in said.partners
        ],
        "fixes": [
            {
                "what": f.what,
                "way": f.way,
                "year": f.year,
                "adequacy": _number(f.adequacy),
                "effort": f.effort,
                "first_day": _date(f.first_day),
                "last_day": _date(f.last_day),
            }
            for f in said.fixes
        ],
        "by_year": {str(year): _number(chance) for year, chance in said.by_year},
        "crop_chance": _number(said.crop),
        "computed": _number(said.computed),
        "set_words": said.set_words,
        "frost_loss_chance": _number(said.frost_loss_chance),
        "guessed": said.guessed,
    }


def plants(almanac: Almanac) -> Answer:
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
        "metres_from_gate": _number(card.metres_from_gate),
        "line": card.line,
        "facts": [{"what": f.what, "value": f.value, "sure": f.sure, "source": f.source} for f in card.facts],
        "conflicts": [dataclasses.asdict(c) for c in card.conflicts],
        "jobs": list(card.jobs),
        "cautions": list(card.cautions),
        "own_words": list(card.own_words),
    }


def book(almanac: Almanac) -> Answer:
    """Every note, newest first."""
    return shell(almanac) | {
        "entries": [
            {
                "id": b.entry.id,
                "on": _date(b.entry.on),
                "what": b.entry.what,
                "plant": b.entry.plant,
                "heap": b.entry.heap,
                "words": b.words,
                "by": b.entry.by,
                "taken_back": b.taken_back,
            }
            for b in almanac.book()
        ]
    }


def _tending(name: str) -> Callable[[Almanac], Answer]:
    return lambda almanac: shell(almanac) | tending_answers.JSON[name](almanac)


def canopy(almanac: Almanac) -> Answer:
    """The old trees: light, heirs, reach."""
    return shell(almanac) | canopy_answers.as_json(almanac)


def drift(almanac: Almanac) -> Answer:
    """What a warmer climate changes."""
    return shell(almanac) | climate_rows.as_json(almanac)


def weather(almanac: Almanac) -> Answer:
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


def _date(day: dt.date | None) -> str | None:
    return None if day is None else day.isoformat()


def _range(when: Likely) -> Answer:
    return {"early": _date(when.early), "late": _date(when.late)}


def _quantiles(when: Likely) -> Answer:
    return {"p10": _date(when.early), "p50": _date(when.likely), "p90": _date(when.late)}


def _number(value: float | None) -> float | int | None:
    """A finite number with at most three decimals, else null."""
    if value is None or not math.isfinite(value):
        return None
    rounded = round(float(value), 3)
    return int(rounded) if rounded.is_integer() else rounded
