"""The journal in plain lines; with what it taught, as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields
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
            fields(b.entry, "id", "on", "what", "plant", "heap", "by") | fields(b, "words", "taken_back")
            for b in almanac.book()
        ],
        "learnt": fields(learnt, "place_days", "notes", "kinds", place_doubt_days="place_uncertainty_days"),
        "plants": [need(line) for line in learnt.lines],
        "score": [season(one) for one in almanac.score().seasons],
        "unused": learnt.unused,
    }


def need(said: NeedLine) -> Answer:
    """One plant's usual spring; `by_dates` is a share, `degrees_outside` in degrees Celsius."""
    own = ("plant", "kind", "published", "place_days", "own", "used", "origin", "by_dates", "degrees_outside")
    return fields(said, *own, "doubted", springs="notes", kin_springs="kin_notes")


def season(said: SeasonScore) -> Answer:
    """One season's average misses; null where there is nothing to compare with."""
    means = fields(
        said,
        "season",
        forecast_miss_days="forecast_mean",
        fixed_date_miss_days="fixed_mean",
        mean_of_notes_miss_days="notes_mean",
    )
    return means | {"blooms": len(said.misses), "misses": [miss(one) for one in said.misses]}


def miss(said: Miss) -> Answer:
    """One bloom; misses are positive where the date foretold was too late."""
    return fields(
        said,
        *("plant", "noted", "asked", "foretold", "published"),
        mean_of_notes="notes_mean",
        forecast_miss_days="miss",
        fixed_date_miss_days="fixed_miss",
        mean_of_notes_miss_days="notes_miss",
    )
