"""The journal in plain lines; with what it taught, as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.forecast_score import KindScore, Miss, SeasonScore
    from leafturn.answers.learnt import NeedLine
    from leafturn.answers.night_score import NightScore
    from leafturn.answers.survival import KindSurvival
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
        "score_by_kind": [of_kind(one) for one in almanac.score().kinds],
        "cold_nights": nights(almanac.score().nights),
        "survival": [kind_survival(one) for one in (almanac.survival().whole, *almanac.survival().kinds)],
        "unused": learnt.unused,
    }


def need(said: NeedLine) -> Answer:
    """One plant's usual spring; `by_dates` is a share, `degrees_outside` in degrees Celsius."""
    dates = ("published", "place_days", "kin_days", "own", "used")
    known = ("basis", "origin", "by_dates", "degrees_outside", "doubted")
    return fields(said, "plant", "kind", *dates, *known, springs="notes", kin_springs="kin_notes")


def season(said: SeasonScore) -> Answer:
    """One season's average misses; null where there is nothing to compare with."""
    return _means(said, "season") | {"blooms": len(said.misses), "misses": [miss(one) for one in said.misses]}


def of_kind(said: KindScore) -> Answer:
    """One kind of forecast over its last three seasons; null where there is nothing to compare with."""
    return _means(said, "what", "says") | {
        "noted": len(said.misses),
        "misses": [miss(one) for one in said.misses],
    }


def kind_survival(said: KindSurvival) -> Answer:
    """What became of one kind; `shares` are those standing by years since planting, empty where too few."""
    shares = [fields(one, "years", "share", "low", "high", "at_risk") for one in said.course]
    own = ("kind", "planted", "lost", "standing", "watched", "says")
    return fields(said, *own) | {"causes": dict(said.causes), "shares": shares}


def _means(said: SeasonScore | KindScore, *own: str) -> Answer:
    return fields(
        said,
        *own,
        forecast_miss_days="forecast_mean",
        fixed_date_miss_days="fixed_mean",
        mean_of_notes_miss_days="notes_mean",
    )


def nights(said: NightScore | None) -> Answer | None:
    """Minima given for cold nights beside what came; misses in degrees Celsius, null without any."""
    if said is None:
        return None
    means = fields(said, "says", given_miss_celsius="given_mean_c", usual_minimum_miss_celsius="usual_mean_c")
    celsius = {"given_celsius": "given_c", "came_celsius": "came_c", "usual_celsius": "usual_c"}
    return means | {"nights": [fields(one, "eve", **celsius) for one in said.nights]}


def miss(said: Miss) -> Answer:
    """One event; misses are positive where the date foretold was too late."""
    days = {"forecast": said.miss, "fixed_date": said.fixed_miss, "mean_of_notes": said.notes_miss}
    missed = {f"{of}_miss_days": missed for of, missed in days.items()}
    dates = {"noted": "observed", "foretold": "forecast", "mean_of_notes": "notes_mean"}
    return fields(said, "what", "plant", "asked", "published", **dates) | missed
