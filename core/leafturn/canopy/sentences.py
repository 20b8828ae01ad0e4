"""The canopy's answers in sentences, the same on a page, in plain text and read aloud."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from leafturn.base import day_words, quantities
from leafturn.base.tunables import Numbers
from leafturn.canopy.decline.trend import CrownAssessment, Trend, YearRange
from leafturn.canopy.model import Falling, Release
from leafturn.canopy.stand.growing_season import month_of_looks
from leafturn.garden.model import FAILING, Plant
from leafturn.kinds.model import Kind

LEAST_METRES = 0.5  # of a path; less is not told


def crown_words(
    assessments: Sequence[CrownAssessment],
    trend: Trend | None,
    bare: YearRange,
    plant: Plant,
    kind: Kind,
    year: int,
    *,
    southern: bool,
) -> Iterator[str]:
    """How the crown does and when it gives no shade."""
    if plant.state == "dead standing":
        yield "It is dead: nothing of its crown lives, and no look at it tells how long it stands."
        return
    if not assessments:
        yield f"Nobody has noted a look at its crown. {_by_age(plant, kind, year)}"
        yield _ask_for_a_look(plant, southern)
        return
    last = assessments[-1]
    when = day_words.month_year(last.on)
    live = f"live crown {last.live_percent:.0f} % ({when})"
    if trend is None:
        yield f"{live}; one look is not a trend. {_by_age(plant, kind, year)}"
        yield _ask_for_a_look(plant, southern)
        return
    if trend.per_year >= 0 or bare.likely is None:
        yield f"{live}; {len(assessments)} looks show no decline."
        return
    span = f" ({bare.early}-{bare.late})" if bare.late is not None else f" ({bare.early} or much later)"
    years = "" if bare.early == bare.late == bare.likely else span
    yield f"{live}; it loses {-trend.per_year:.0f} of 100 parts a year; bare about {bare.likely}{years}"
    yield "Trees rarely keep to a line: a dry year or a storm hurries it, a wet one may hold it up."


def _ask_for_a_look(plant: Plant, southern: bool) -> str:
    month = month_of_looks(-1.0 if southern else 1.0)
    return (
        f"A job for {month}, when leaves tell: look at the crown of {plant.id} and note it as: "
        f"crown {plant.id} 33%, with how much of it lives."
    )


def _by_age(plant: Plant, kind: Kind, year: int) -> str:
    if plant.state in FAILING:
        return f"It is {plant.state}: its age no longer tells how long it has."
    age, life = plant.age(year), kind.size.life_years
    if age is None or life is None:
        return "When it goes nothing here tells."
    lived = f"It is {age:.0f} years old, and its kind often lives {life.value:.0f}"
    return f"{lived}: it may go any year." if age >= life.value else f"{lived}; wind takes well trees too."


def down_words(down: YearRange) -> str:
    """When it may be down."""
    if down.early is None:
        return "down: hardly ever within a hundred years (rule of thumb)"
    early = f"1 of 10 such trees by the end of {down.early}"
    likely = f", half by {down.likely}" if down.likely else ""
    late = f", 9 of 10 by {down.late}" if down.late else ""
    return f"down: {early}{likely}{late} (rule of thumb)"


def points_back_words(row: Release, *, looked: bool) -> str:
    """Light that has come back before the fall; where nobody looked, what the state of the tree tells."""
    if not looked:
        if row.points_back < 1:
            return f"{row.plant} gains {row.points:.0f} points of light when it is gone."
        return (
            f"In full leaf it would keep {row.points:.0f} points of light from {row.plant}; by its state "
            f"alone {row.points_back:.0f} of them may be back already: nobody has looked at the crown."
        )
    thinned = ": the crown has thinned" if row.points_back >= 1 else ""
    kept = f"{row.points_back:.0f} of the {row.points:.0f} points of light that its full crown keeps from "
    return f"{kept}{row.plant} are back already{thinned}."


def falling_words(falling: Falling, numbers: Numbers) -> Iterator[str]:
    """Whom it may hurt."""
    if not falling.measured:
        reach = quantities.metres(falling.reach_m, 0)
        yield f"Its height is not measured: {reach} are reckoned with, on the long side."
    for path in falling.paths:
        public = ", public" if path.public else ""
        long = quantities.metres(path.metres)
        within = f"{long} of it lies within one height" if path.metres else "beyond one height"
        yield f"{path.name}: {quantities.metres(path.nearest_m)} away; {within}; used {path.used}{public}"
        if falling.brittle_m is not None and path.metres_brittle >= LEAST_METRES:
            yield (
                f"Pieces of a dead crown go further: about {quantities.metres(path.metres_brittle, 0)} of "
                f"{path.name} lies "
                f"within {numbers['brittle_reach']:g} heights (rule of thumb)."
            )
    for name, metres in falling.seats:
        within = "one height" if metres <= falling.reach_m else "reach of a dead crown's pieces"
        yield f"{name}: {quantities.metres(metres)} away, within {within}."
    for name, metres in falling.roofs:
        within = "one height" if metres <= falling.reach_m else "reach of a dead crown's pieces"
        yield f"{name}: its nearest wall is {quantities.metres(metres)} away, within {within}."
    if not falling.paths and not falling.seats and not falling.roofs:
        yield "No path, seat or roof of the garden file lies within reach; wires are not in the file."
    if falling.stem_misses_m is not None and falling.stem_misses_m < falling.reach_m:
        yield stem_words(falling.stem_misses_m)


def stem_words(metres: float) -> str:
    """What a stem kept so low [m] still may do to paths, seats and roofs."""
    low = quantities.metres(metres)
    return f"A stem lower than {low} is too short to reach them lying flat; it can still slide or roll."


def later_light_words(fall_year: int, down: YearRange) -> str:
    """With what fall the light of later years is reckoned."""
    first = f"{down.early}" if down.early else "a hundred years on"
    last = f"{down.late}" if down.late else "a hundred years on"
    return (
        f"Light of later years reckons with its fall in {fall_year}; it may come down any year from {first} "
        f"to {last}, and the light with it."
    )


def gains_words(rows: Sequence[Release]) -> Iterator[str]:
    """Who gains, who is at risk, who will be short of light."""
    gainers = [r.plant for r in rows if r.reply in ("crops more", "grows more")]
    scorched = [r.plant for r in rows if r.scorches]
    if gainers:
        yield f"Gain: {', '.join(gainers)}."
    if scorched:
        yield f"At risk of scorch: {', '.join(scorched)}."
    for row in rows:
        if row.below_need_from is not None:
            yield f"{row.plant} has less light than its kind wants from {row.below_need_from} on."
