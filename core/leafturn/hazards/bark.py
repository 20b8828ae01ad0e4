"""Young bark and what gnaws it: stems without a guard, and guards that want a look."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator
from typing import Literal

from leafturn.base import prose, quantities
from leafturn.base.closed_words import LASTING_WOOD
from leafturn.base.value import Value
from leafturn.garden.animals import gnawers
from leafturn.garden.model import DEAD, Guard, Place, Plant
from leafturn.journal.entries import Done, Entry, LossNote
from leafturn.journal.noted import of_kind
from leafturn.season.garden_day import GardenDay

YOUNG_YEARS = 9.0  # guess: older bark is thick, wants no guard, and one that is on may come off
GUARD_LOOK_YEARS = 3  # guess: so long a guard fits a young stem before it must be looked at
GNAWERS = ("vole", "mouse", "mice", "hare", "rabbit", "gnaw", "deer", "wallab", "possum")
GUARD_LEAST_CM = 45.0  # 45 to 60 cm above the usual snow (extension columns, recalled)
MESH = "mesh of 6 mm, 45 to 60 cm above the usual snow and 5 cm into the ground"
SCENT_WITHIN_M = 2.0  # guess
# Strong-scented low cover that is planted at stems against gnawing: common practice, no source.
SCENTED = (
    "daffodil", "ramsons", "ramps", "chives", "garlic chives", "egyptian onion", "lavender", "sage", "thyme",
    "mint", "oregano", "lemon balm", "yarrow", "tansy", "snowdrop", "anise hyssop",
)  # fmt: skip


GuardStage = Literal["wanted", "on", "outgrown", "none"]


class BarkLine(Value):
    """A stem's guard: "no guard", "guard low", "guard old" or "guard outgrown".

    `scented` names strong-scented cover at it; `years` are those since its guard was put on or last looked
    at, of a bare stem its age; `off_year` is when its guard may come off, `lost` what took its forerunner.
    """

    plant: str
    matter: str
    years: int | None = None
    off_year: int | None = None
    lost: str | None = None
    scented: tuple[str, ...]
    says: str


def bark_lines(day: GardenDay) -> Iterator[BarkLine]:
    """Young stems that want a guard, and guards to look at, in the order of the garden file.

    Parameters
    ----------
    day : GardenDay
        Its notes tell of guards loosened, and what was lost to gnawers; its season gives the ages.
    """
    year = day.axis.year
    scented = [p for p in day.garden.plants if day.kind(p).name in SCENTED and p.point is not None]
    for plant in day.garden.plants:
        stage = guard_stage(plant, day)
        if stage == "wanted":
            yield _bare_bark(plant, plant.age(year) or 0.0, day, _at_foot(plant, scented))
        elif plant.guard is not None and stage != "none" and not _taken_off(plant, plant.guard, day):
            looked = max((done.on.year for done in _of_guard(plant, day, day.done("guard"))), default=0)
            since = year - max(plant.guard.year, looked) if plant.guard.year else None
            yield from _guard_line(plant, plant.guard, stage == "outgrown", since)


def guard_stage(plant: Plant, day: GardenDay) -> GuardStage:
    """Whether a stem wants a guard, wears one that is wanted, or wears one that may come off.

    Notes
    -----
    A guard is wanted by young wood, tree, shrub or climber, of kinds whose bark is gnawed and where a
    forerunner was lost to gnawers. One of unknown age keeps the guard it has. One that was taken off this
    season counts as outgrown until the season ends, so that the job stands as done.
    """
    age = plant.age(day.axis.year)
    if plant.state in DEAD or (age is not None and age < 0):
        return "none"
    if plant.guard is not None:
        outgrown = age is not None and age >= YOUNG_YEARS
        off = _taken_off(plant, plant.guard, day)
        if off is not None and (off < day.axis.start or not outgrown):
            return "none"
        return "outgrown" if outgrown else "on"
    kind = day.kind(plant)
    if age is None or age >= YOUNG_YEARS or kind.habit not in LASTING_WOOD:
        return "none"
    gnawed = kind.has("bark gnawed") or _gnawed_before(plant, day.entries) is not None
    return "wanted" if gnawed else "none"


def mesh_words(place: Place) -> str:
    """What a guard is made of, and whom it keeps off at a place."""
    return f"{prose.capital(quantities.retold(MESH))}, keeps {gnawers(place)} off"


def _taken_off(plant: Plant, guard: Guard, day: GardenDay) -> dt.date | None:
    """When a guard was last noted as taken off, since it was put on; None where no note tells."""
    notes = _of_guard(plant, day, day.done("unguard"))
    return max((done.on for done in notes if done.on.year >= (guard.year or 0)), default=None)


def _of_guard(plant: Plant, day: GardenDay, done_to: Iterable[tuple[str, Done]]) -> Iterator[Done]:
    """Notes of jobs done to the guard of a plant, or to all the garden's guards."""
    return (done for subject, done in done_to if subject == plant.id or subject in day.whole)


def _guard_line(plant: Plant, guard: Guard, outgrown: bool, since: int | None) -> Iterator[BarkLine]:
    if outgrown:
        says = f"{plant.id} is over {YOUNG_YEARS:.0f} years old and still wears a guard: it may come off."
        yield BarkLine(plant=plant.id, matter="guard outgrown", scented=(), says=says)
    elif guard.height_cm is not None and guard.height_cm < GUARD_LEAST_CM:
        high = quantities.centimetres(guard.height_cm)
        says = f"The guard of {plant.id} is {high} high: low for what gnaws from on top of snow."
        yield BarkLine(plant=plant.id, matter="guard low", scented=(), says=says)
    elif since is not None and since >= GUARD_LOOK_YEARS:
        says = (
            f"The guard of {plant.id} has been on for {since} years: look whether it still stands free "
            "of the bark all round, and open it if it does not."
        )
        yield BarkLine(plant=plant.id, matter="guard old", years=since, scented=(), says=says)


def _gnawed_before(plant: Plant, entries: tuple[Entry, ...]) -> str | None:
    """What gnawed through this plant's forerunner, by the notes; None if nothing did."""
    return next(
        (
            e.cause
            for e in of_kind(entries, LossNote)
            if e.plant and e.cause and plant.id in e.plant
            and any(g in e.cause.lower() for g in GNAWERS)
        ),
        None,
    )  # fmt: skip


def _at_foot(plant: Plant, scented: Iterable[Plant]) -> tuple[str, ...]:
    """Of scented herbs those at a stem's foot."""
    at = plant.point
    near = (
        p
        for p in scented
        if at is not None and p.point is not None and at.metres_to(p.point) <= SCENT_WITHIN_M
    )
    return tuple(herb.id for herb in near)


def _bare_bark(plant: Plant, age: float, day: GardenDay, scented: tuple[str, ...]) -> BarkLine:
    lost = _gnawed_before(plant, day.entries)
    cover = (
        f" {', '.join(scented)} at its foot may put gnawers off, which no trial has shown: a guard does."
        if scented
        else ""
    )
    taken = f" Lost here before to {lost}." if lost else ""
    off = day.axis.year + math.ceil(YOUNG_YEARS - age)
    how_old = f"is {prose.count(age, 'year')} old" if age >= 0.5 else "was planted this year"
    says = (
        f"{plant.id} {how_old} and has no guard. {mesh_words(day.garden.place)}. "
        f"It may come off in spring {off}, when the bark is thick (a guess).{taken}{cover}"
    )
    return BarkLine(
        plant=plant.id,
        matter="no guard",
        years=round(age),
        off_year=off,
        lost=lost,
        scented=scented,
        says=says,
    )
