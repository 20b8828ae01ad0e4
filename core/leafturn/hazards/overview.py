"""What to take care of: trees over paths, roots that poison, bark, look-alikes, and who to call.

Nothing here is an inspection. What is told of trees over paths is where one could come to lie, so that
someone who may judge it is asked in time.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from leafturn.base import prose, quantities
from leafturn.base.value import Value
from leafturn.canopy.decline.fall_zone import falling
from leafturn.canopy.model import Falling, PathReach
from leafturn.canopy.sentences import stem_words
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import FAILING, Plant
from leafturn.garden.regions import proper_name, region_named
from leafturn.hazards.bark import BarkLine, bark_lines, mesh_words
from leafturn.hazards.cold import Tender
from leafturn.hazards.juglone import JugloneLine, juglone_lines
from leafturn.hazards.look_alikes import LookAlike, look_alikes_of, poisonous
from leafturn.hazards.warnings import Warned, warnings_of
from leafturn.journal.entries import CrownNote
from leafturn.journal.questions import latest
from leafturn.kinds.specimen import named
from leafturn.season.garden_day import GardenDay

INSPECTOR = (
    "Dead wood, a new lean or a failing tree over a path: ask a competent tree inspector before people go "
    "on using the path; felling, nesting and protected-tree rules are local."
)
LICENSED = "Saw work off the ground and anything near a power line is for a qualified tree worker."
POISON = (
    "If someone has eaten what they are not sure of: call the poison centre or the emergency number at "
    "once, and keep what is left of the plant."
)
WILD = (
    "Plants that spread into wild land: ask the nature office which local rules bind before you plant more, "
    "give any away or dump any."
)
OFFICE = "Signs of {}: the plant health office says whether to report it."
REPORTED = {"fire blight": "fire blight risk", "oak wilt": "oak wilt risk"}  # with the trait of who gets it


class FallLine(Value):
    """A failing tree and what lies within its reach; a dead one also where nothing does.

    `metres` is its height, `looked` the day its crown was last looked at.
    """

    plant: str
    state: str
    metres: float
    looked: dt.date | None
    falling: Falling
    says: str


class Spreader(Value):
    """A plant that spreads into wild land somewhere: where, and whether that takes the garden's region in.

    `here` is None while the garden file states no region. `words` are what is said without the plant's name.
    """

    plant: str
    kind: str
    where: tuple[str, ...]
    here: bool | None
    words: str
    says: str


class Hazards(Value):
    """What could hurt someone or a plant, who to call about them, and of what mesh a guard is."""

    falls: tuple[FallLine, ...]
    juglone: tuple[JugloneLine, ...]
    bark: tuple[BarkLine, ...]
    look_alikes: tuple[LookAlike, ...]
    calls: tuple[str, ...]
    spreaders: tuple[Spreader, ...] = ()
    tender: tuple[Tender, ...] = ()
    warned: tuple[Warned, ...] = ()
    mesh: str = ""

    @property
    def over_people(self) -> tuple[FallLine, ...]:
        """Failing trees with a path, a seat or a roof in reach."""
        return tuple(line for line in self.falls if line.falling.over_people)

    @property
    def apart(self) -> tuple[FallLine, ...]:
        """Dead wood with none in reach."""
        return tuple(line for line in self.falls if not line.falling.over_people)


def hazards(day: GardenDay, tender: Iterable[Tender]) -> Hazards:
    """Look over the garden of one season.

    Parameters
    ----------
    day : GardenDay
        Of its notes the latest crown assessment tells how much of it lives; its season gives ages and sizes.
    tender : iterable of Tender
        Plants and the cold of the usual years; those too tender, and those at their limit, are told.
    """
    falls = tuple(sorted(_falls(day), key=_nearest_first))
    juglone = juglone_lines(day)
    bark = tuple(bark_lines(day))
    look_alikes = tuple(look_alikes_of(day))
    spreaders = tuple(_spreaders(day))
    calls = [
        *((INSPECTOR, LICENSED) if falls else ()),
        *((POISON,) if look_alikes or poisonous(day) else ()),
        *((WILD,) if spreaders else ()),
        OFFICE.format(_reported(day)),
    ]
    return Hazards(
        falls=falls,
        juglone=juglone,
        bark=bark,
        look_alikes=look_alikes,
        calls=tuple(calls),
        spreaders=spreaders,
        tender=_too_tender_first(tender),
        warned=tuple(warnings_of(day)),
        mesh=mesh_words(day.garden.place),
    )


def _reported(day: GardenDay) -> str:
    """Which diseases that offices ask about the plants here may get, in words."""
    kinds = [day.kind(plant) for plant in day.garden.plants if plant.state != "gone"]
    named = [disease for disease, trait in REPORTED.items() if any(kind.has(trait) for kind in kinds)]
    if any(kind.botanical.startswith("Fraxinus ") for kind in kinds):
        named.insert(0, "ash dieback")
    return prose.joined(named) if named else "a disease that spreads fast or that you do not know"


def _too_tender_first(tender: Iterable[Tender]) -> tuple[Tender, ...]:
    """Too tender first, the tenderest before; who has stood here long is told on its own page alone."""
    told = [t for t in tender if not t.long_here]
    return tuple(sorted(told, key=lambda t: (t.standing != "too tender", -t.bears_c)))


def _nearest_first(line: FallLine) -> float:
    return line.falling.stem_misses_m or 0.0


def _falls(day: GardenDay) -> Iterator[FallLine]:
    garden, year = day.garden, day.axis.year
    for plant in garden.plants:
        habit = day.kind(plant).habit
        if habit != "tree" or plant.state not in FAILING:
            continue
        height = float(growth_of(day.specimen(plant), day.numbers, year).heights(year))
        look = latest(day.entries, CrownNote, plant.id)
        live = look.live_percent if look else None
        found = falling(plant, height, live, garden, day.numbers)
        if found is not None and (found.over_people or plant.state == "dead standing"):
            yield FallLine(
                plant=plant.id,
                state=plant.state,
                metres=height,
                looked=look.on if look else None,
                falling=found,
                says=_fall_words(plant, height, live, found),
            )


def _fall_words(plant: Plant, height: float, live: float | None, found: Falling) -> str:
    crown = "" if live is None else f", {live:.0f} of 100 parts of its crown alive at the last look"
    tree = f"{plant.id} is {plant.state}, {quantities.metres(height, 0)} high{crown}"
    if not found.over_people:
        return (
            f"{tree}: no path, seat or roof of the garden file lies within "
            f"{quantities.metres(found.reach_m, 0)} of it. What lives in dead wood "
            "may keep it; look yourself for roads, wires and neighbours."
        )
    ways = [
        f"{'the public ' if path.public else ''}{path.name} {quantities.metres(path.nearest_m, 0)} off"
        f"{_path_metres(path)}"
        for path in found.paths
    ]
    near = (*found.seats[:3], *found.roofs[:3])
    others = [f"{name.split(',')[0]} {quantities.metres(metres, 0)} off" for name, metres in near]
    stem = f"{stem_words(found.stem_misses_m)} " if found.stem_misses_m else ""
    return (
        f"{tree}. In reach: {'; '.join([*ways, *others])}. {stem}Whether it may stand over people is for "
        "an inspector to say."
    )


def _path_metres(path: PathReach) -> str:
    """How much of it lies in reach, and of what."""
    farther = path.metres_brittle - path.metres > 1.0
    pieces = f"{quantities.metres(path.metres_brittle, 0)} within reach of pieces of a dead crown"
    parts = [
        *([f"{quantities.metres(path.metres, 0)} within its height"] if path.metres else []),
        *([pieces] if farther else []),
    ]
    return f" ({', '.join(parts)})" if parts else ""


def _spreaders(day: GardenDay) -> Iterator[Spreader]:
    """Plants on a list of invasive plants, kind by kind in the order of the garden file."""
    garden = day.garden
    stated, where_here = region_named(garden.place.region), proper_name(garden.place.region or "")
    for plant in garden.plants:
        kind = day.kind(plant)
        if plant.state == "gone" or kind.invasive_where is None:
            continue
        where = kind.invasive_where.value
        here = stated.lists(where) if stated is not None and stated.areas else None
        if here is False and not kind.has("invasive somewhere"):
            continue
        told = {
            True: f"listed for {where_here}",
            False: f"not listed here for {where_here}, but in",
            None: "listed for",
        }[here]
        others = [place for place in where if not here or place.casefold() != where_here.casefold()]
        among = f"{', as in' if here else ''} {', '.join(others)}" if others else ""
        words = f"known to spread into wild land, {told}{among}."
        says = f"{named(plant.id, kind.name)}: {words}"
        yield Spreader(plant=plant.id, kind=kind.name, where=where, here=here, words=words, says=says)
