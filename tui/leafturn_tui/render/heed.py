"""What could hurt someone, or a plant: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from leafturn.base import prose, quantities
from leafturn.kinds.specimen import named
from leafturn_tui.render.parts.groups import Groups, group_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields

if TYPE_CHECKING:
    from leafturn.hazards.bark import BarkLine
    from leafturn.hazards.juglone import Suffers
    from leafturn.hazards.look_alikes import LookAlike
    from leafturn.hazards.overview import FallLine, Hazards, Spreader
    from leafturn.soil.water.deficit import WaterDeficit
    from leafturn_tui.almanac_face import AlmanacFace, WaterFace

Line = TypeVar("Line", "LookAlike", "Spreader")

QUESTION = Question(asked="What could hurt someone, or a plant?", place=110)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Trees over paths, roots that poison, bark, look-alikes, tender plants, and who to call."""
    yield from group_lines(hazard_groups(almanac.heed(), almanac.water()))


def as_json(almanac: AlmanacFace) -> Answer:
    """Everything that could do harm, and how every woody plant stands for water."""
    water = almanac.water()
    dry = {"plants": water.lines, "rain_question": water.rain_question}
    hazards = almanac.heed()
    told = fields(hazards, "juglone", "bark", "look_alikes", "calls", "spreaders", "tender", "warned")
    return {"heed": told | {"falls": [_fall(line) for line in hazards.falls]}, "water": dry}


def _fall(line: FallLine) -> Answer:
    near = ("paths", "seats", "roofs", "plants")
    reach = fields(line.falling, "reach_m", "brittle_m", "measured", "stem_misses_m", *near)
    return fields(line, "plant", "state", "says") | {"falling": reach}


def hazard_groups(hazards: Hazards, water: WaterFace) -> Groups:
    """The sentences of every matter under its title, of look-alikes with their cautions."""
    return (
        ("trees that could fall where people are", [line.says for line in hazards.over_people]),
        ("who to call", hazards.calls),
        ("look-alikes", [part for kind in look_alike_kinds(hazards) for part in (kind.says, *kind.cautions)]),
        ("poisonous, or hurts the skin", [line.says for line in hazards.warned]),
        ("too tender for the winters here", [line.says for line in hazards.tender]),
        ("dry soil", list(_dry(dry_soil(water)))),
        ("bark", list(_bark(hazards))),
        ("roots of walnut kin (reach by age: a guess)", list(walnut_roots(hazards))),
        ("roots of walnut kin: not known who bears them", list(_on_no_list(hazards))),
        ("plants that spread into wild land somewhere", [kind.says for kind in spreading_kinds(hazards)]),
        ("dead wood out of reach of paths and seats", [line.says for line in hazards.apart]),
    )


class OfKind(NamedTuple):
    """What is said of all plants of one kind, without and with their names, and what to mind."""

    plant: str
    names: str
    words: str
    says: str
    cautions: tuple[str, ...] = ()


def look_alike_kinds(hazards: Hazards) -> Iterator[OfKind]:
    """Each kind that is picked and mistaken for others, with every plant of it."""
    for kind, own in _by_kind(hazards.look_alikes).items():
        names = tuple(dict.fromkeys(line.plant for line in own))
        here = dict.fromkeys(p for line in own for p in line.here if p not in names)
        grow = f" Poisonous plants that grow here: {', '.join(here)}." if here else ""
        who, words = named(", ".join(names), kind), "can be mistaken for poisonous plants"
        yield OfKind(names[0], who, words, f"{who} {words}.{grow}", own[0].cautions)


def spreading_kinds(hazards: Hazards) -> Iterator[OfKind]:
    """Each kind that spreads into wild land, with every plant of it; those listed for the region first."""
    listed_first = sorted(hazards.spreaders, key=lambda line: line.here is not True)
    for kind, own in _by_kind(listed_first).items():
        who, words = named(", ".join(line.plant for line in own), kind), own[0].words
        yield OfKind(own[0].plant, who, words, f"{who}: {words}")


def _by_kind(lines: Iterable[Line]) -> dict[str, list[Line]]:
    by_kind: dict[str, list[Line]] = {}
    for line in lines:
        by_kind.setdefault(line.kind, []).append(line)
    return by_kind


def _bark(hazards: Hazards) -> Iterator[str]:
    """Odd guards by themselves; bare young stems together, and guards that want a look together."""
    yield from (line.says for line in hazards.bark if line.matter == "guard low" or line.scented)
    together = {
        "no guard": f"No guard: {{}}. {hazards.mesh}; it comes off in the spring named.",
        "guard old": "Guards nobody has noted a look at for long: {}. Open those the bark has come to touch.",
        "guard outgrown": "Guards that may come off, the bark being thick by now: {}.",
    }
    for matter, says in together.items():
        own = [line for line in hazards.bark if line.matter == matter and not line.scented]
        if len(own) == 1:
            yield own[0].says
        elif own:
            yield says.format(", ".join(map(_years_words, own)))


def _years_words(line: BarkLine) -> str:
    if line.years is None:
        return line.plant
    years = prose.count(line.years, "year")
    off = f"; off in {line.off_year}" if line.off_year is not None else ""
    return f"{line.plant} ({years}{off}{f'; lost here before to {line.lost}' if line.lost else ''})"


def walnut_roots(hazards: Hazards) -> Iterator[str]:
    """Plants that suffer from juglone, and those lists disagree about, in a sentence a tree."""
    yield from _reached(hazards, "sensitive", "are listed as suffering from juglone")
    yield from _reached(hazards, "disputed", "lists disagree about", " Look how they do.")


def _on_no_list(hazards: Hazards) -> Iterator[str]:
    return _reached(hazards, "not known", "no list names", " Not known is not harmless.")


def _reached(hazards: Hazards, suffers: Suffers, who: str, end: str = "") -> Iterator[str]:
    """Plants of which the same is known, in a sentence for each tree whose roots reach them."""
    alike = [line for line in hazards.juglone if line.suffers == suffers]
    words_of = {"within reach now": "now", "within reach later": "later", "in the outer band": "outer band"}
    for tree in dict.fromkeys(line.tree for line in alike):
        told = ", ".join(
            f"{j.plant} {quantities.metres(j.metres)} ({j.year or words_of[j.where]})"
            for j in alike
            if j.tree == tree
        )
        yield f"Roots of {tree} reach plants that {who}, or will: {told}.{end}"


class DrySoil(NamedTuple):
    """Who is told of: those that want water, the thirstiest first; how many are left to their roots, and
    which of them are short of water all the same; and what is asked about rain."""

    young: tuple[WaterDeficit, ...] = ()
    established: int = 0
    short: str = ""
    rain_question: str = ""


def dry_soil(water: WaterFace) -> DrySoil:
    """How the plants stand for water; in winter nobody is told of."""
    if not any(line.used_mm for line in water.lines):
        return DrySoil()
    young = tuple(line for line in water.lines if not line.established)
    old = [line for line in water.lines if line.established]
    short = ", ".join(line.plant for line in old if line.is_short)
    return DrySoil(young, len(old), short, water.rain_question if young else "")


def _dry(soil: DrySoil) -> Iterator[str]:
    """Those that want water with litres, then all left to their roots."""
    yield from (line.says for line in soil.young)
    if soil.established:
        dry = f" Short of water all the same: {soil.short}." if soil.short else ""
        yield f"Established, leave: {prose.count(soil.established, 'plant')} with deep roots.{dry}"
    if soil.rain_question:
        yield soil.rain_question
