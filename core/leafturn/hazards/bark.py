"""Young bark and what gnaws it: stems without a guard, and guards that want a look."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from leafturn.base import prose
from leafturn.base.closed_words import LASTING_WOOD
from leafturn.garden.model import DEAD, Plant
from leafturn.journal.entries import Entry, LossNote, of_kind
from leafturn.journal.questions import jobs_done
from leafturn.season.garden_day import GardenDay

YOUNG_YEARS = 9.0  # guess, as in the rule that puts guards on: older bark is thicker
GUARD_LOOK_YEARS = 3  # guess: so long a guard fits a young stem before it must be looked at
LOOSEN = "loosen-guard"  # the job in which guards are looked at
GNAWERS = ("vole", "mouse", "mice", "hare", "rabbit", "gnaw", "deer")
GUARD_LEAST_CM = 45.0  # 45 to 60 cm above the usual snow (extension columns, recalled)
SCENT_WITHIN_M = 2.0  # guess
# Strong-scented low cover that is planted at stems against gnawing: common practice, no source.
SCENTED = (
    "daffodil", "ramsons", "ramps", "chives", "garlic chives", "egyptian onion", "lavender", "sage", "thyme",
    "mint", "oregano", "lemon balm", "yarrow", "tansy", "snowdrop", "anise hyssop",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class BarkLine:
    """A young stem: "no guard", "guard low" or "guard old"; `scented` names strong-scented cover at it.

    `years` are those since its guard was put on or last looked at, of a bare stem its age; `lost` is what
    took its forerunner.
    """

    plant: str
    matter: str
    years: int | None = None
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
    garden, entries, year = day.garden, day.entries, day.axis.year
    whole = re.sub(r"\s+", "-", garden.place.name or "garden")
    for plant in garden.plants:
        kind = day.kind(plant)
        age = plant.age(year)
        if plant.state in DEAD or age is None or age < 0:
            continue
        if plant.guard is None:
            lost = _gnawed_before(plant, entries)
            wanted = kind.has("bark gnawed") or lost is not None
            if age < YOUNG_YEARS and wanted and kind.habit in LASTING_WOOD:
                yield _bare_bark(plant, age, day, lost)
            continue
        seen = (done.on.year for subject, done in jobs_done(entries, LOOSEN) if subject in (plant.id, whole))
        looked = max(seen, default=0)
        since = year - max(plant.guard.year, looked) if plant.guard.year else None
        low = plant.guard.height_cm is not None and plant.guard.height_cm < GUARD_LEAST_CM
        if low:
            says = f"The guard of {plant.id} is {plant.guard.height_cm:.0f} cm high: low for hares over snow."
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


def _bare_bark(plant: Plant, age: float, day: GardenDay, lost: str | None) -> BarkLine:
    scented = tuple(
        other.id
        for other in day.garden.plants
        if day.kind(other).name in SCENTED
        and plant.point is not None
        and other.point is not None
        and plant.point.metres_to(other.point) <= SCENT_WITHIN_M
    )
    cover = (
        f" {', '.join(scented)} at its foot may put gnawers off, which no trial has shown: a guard does."
        if scented
        else ""
    )
    taken = f" Lost here before to {lost}." if lost else ""
    how_old = f"is {prose.count(age, 'year')} old" if age >= 0.5 else "was planted this year"
    says = (
        f"{plant.id} {how_old} and has no guard: mesh of 6 mm, 45 to 60 cm above the usual snow "
        f"and 5 cm into the ground, keeps voles and hares off.{taken}{cover}"
    )
    return BarkLine(
        plant=plant.id, matter="no guard", years=round(age), lost=lost, scented=scented, says=says
    )
