"""The journal in plain lines; with what it taught, as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.forecast_score import Miss, SeasonScore
    from leafturn.answers.learnt import NeedLine
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="What have we noted?", place=120)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Every note, newest first; with --json also what the notes taught, and how forecasts did."""
    if not almanac.book():
        yield "Nothing is noted yet."
    for line in almanac.book():
        back = ["taken back"] if line.taken_back else []
        yield ", ".join([phrases.long_day(line.entry.on), *back, line.words, f"note {line.entry.id}"])


def as_json(almanac: AlmanacFace) -> Answer:
    """Every note, newest first; what the notes taught; how the last seasons' forecasts did."""
    learnt = almanac.learnt()
    return {
        "entries": [
            {
                "id": b.entry.id,
                "on": b.entry.on,
                "what": b.entry.what,
                "plant": b.entry.plant,
                "heap": b.entry.heap,
                "words": b.words,
                "by": b.entry.by,
                "taken_back": b.taken_back,
            }
            for b in almanac.book()
        ],
        "learnt": {
            "place_days": learnt.place_days,
            "place_doubt_days": learnt.place_uncertainty_days,
            "notes": learnt.notes,
            "kinds": learnt.kinds,
        },
        "plants": [need(line) for line in learnt.lines],
        "score": [season(one) for one in almanac.score().seasons],
        "unused": list(learnt.unused),
    }


def need(said: NeedLine) -> Answer:
    """One plant's usual spring; `by_dates` is a share, `degrees_outside` in degrees Celsius."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "published": said.published,
        "place_days": said.place_days,
        "own": said.own,
        "used": said.used,
        "springs": said.notes,
        "kin_springs": said.kin_notes,
        "origin": said.origin,
        "by_dates": said.by_dates,
        "degrees_outside": said.degrees_outside,
        "doubted": list(said.doubted),
    }


def season(said: SeasonScore) -> Answer:
    """One season's average misses; null where there is nothing to compare with."""
    return {
        "season": said.season,
        "forecast_miss_days": said.forecast_mean,
        "fixed_date_miss_days": said.fixed_mean,
        "mean_of_notes_miss_days": said.notes_mean,
        "blooms": len(said.misses),
        "misses": [miss(one) for one in said.misses],
    }


def miss(said: Miss) -> Answer:
    """One bloom; misses are positive where the date foretold was too late."""
    return {
        "plant": said.plant,
        "noted": said.noted,
        "asked": said.asked,
        "foretold": said.foretold,
        "published": said.published,
        "mean_of_notes": said.notes_mean,
        "forecast_miss_days": said.miss,
        "fixed_date_miss_days": said.fixed_miss,
        "mean_of_notes_miss_days": said.notes_miss,
    }
