"""What could hurt someone, or a plant: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import prose, quantities
from leafturn_tui.render.parts.groups import Groups, group_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields

if TYPE_CHECKING:
    from leafturn.hazards.bark import BarkLine
    from leafturn.hazards.juglone import Suffers
    from leafturn.hazards.overview import FallLine, Hazards
    from leafturn_tui.almanac_face import AlmanacFace, WaterFace

QUESTION = Question(asked="What could hurt someone, or a plant?", place=110)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Trees over paths, roots that poison, bark, look-alikes, tender plants, and who to call."""
    yield from group_lines(hazard_groups(almanac.heed(), almanac.water()))


def as_json(almanac: AlmanacFace) -> Answer:
    """Everything that could do harm, and how every woody plant stands for water."""
    water = almanac.water()
    dry = {"plants": water.lines, "rain_question": water.rain_question}
    hazards = almanac.heed()
    told = fields(hazards, "juglone", "bark", "look_alikes", "calls", "spreaders", "tender")
    return {"heed": told | {"falls": [_fall(line) for line in hazards.falls]}, "water": dry}


def _fall(line: FallLine) -> Answer:
    near = ("paths", "seats", "roofs", "plants")
    reach = fields(line.falling, "reach_m", "brittle_m", "measured", "stem_misses_m", *near)
    return fields(line, "plant", "state", "says") | {"falling": reach}


Matters = tuple[tuple[str, list[tuple[str, str]]], ...]


def hazard_lines(hazards: Hazards, water: WaterFace) -> Matters:
    """Plant and sentence of every matter, under titles."""
    return (
        ("trees that could fall where people are", [(line.plant, line.says) for line in hazards.over_people]),
        ("who to call", [("", call) for call in hazards.calls]),
        ("look-alikes", look_alike_lines(hazards)),
        ("poisonous, or hurts the skin", warned_lines(hazards)),
        ("too tender for the winters here", [(line.plant, line.says) for line in hazards.tender]),
        ("dry soil", water_lines(water)),
        ("bark", bark_lines(hazards)),
        ("roots of walnut kin (reach by age: a guess)", juglone_known(hazards)),
        ("roots of walnut kin: not known who bears them", juglone_unknown(hazards)),
        ("plants that spread into wild land somewhere", spreading_lines(hazards)),
        ("dead wood out of reach of paths and seats", [(line.plant, line.says) for line in hazards.apart]),
    )


def look_alike_lines(hazards: Hazards) -> list[tuple[str, str]]:
    """A sentence a kind that is picked and mistaken for others, with every plant of it."""
    found = []
    for kind in dict.fromkeys(line.kind for line in hazards.look_alikes):
        own = [line for line in hazards.look_alikes if line.kind == kind]
        if len(own) == 1:
            found.append((own[0].plant, own[0].says))
            continue
        names = dict.fromkeys(line.plant for line in own)
        here = dict.fromkeys(p for line in own for p in line.here if p not in names)
        grow = f" Poisonous plants that grow here: {', '.join(here)}." if here else ""
        found.append((own[0].plant, f"{', '.join(names)} ({kind}): mistaken for poisonous plants.{grow}"))
    return found


def warned_lines(hazards: Hazards) -> list[tuple[str, str]]:
    """A line a kind that is poisonous or hurts the skin, and one for all nuts."""
    return [(line.plants[0], line.says) for line in hazards.warned]


def bark_lines(hazards: Hazards) -> list[tuple[str, str]]:
    """Bare young stems together, and guards that want a look together; odd ones by themselves."""
    lines = [(line.plant, line.says) for line in hazards.bark if line.matter == "guard low" or line.scented]
    together = {
        "no guard": f"No guard: {{}}. {hazards.mesh}; it comes off in the spring named.",
        "guard old": "Guards nobody has noted a look at for long: {}. Open those the bark has come to touch.",
        "guard outgrown": "Guards that may come off, the bark being thick by now: {}.",
    }
    for matter, says in together.items():
        own = [line for line in hazards.bark if line.matter == matter and not line.scented]
        if len(own) == 1:
            lines.append((own[0].plant, own[0].says))
        elif own:
            lines.append((own[0].plant, says.format(", ".join(_years_words(line) for line in own))))
    return lines


def _years_words(line: BarkLine) -> str:
    if line.years is None:
        return line.plant
    years = prose.count(line.years, "year")
    off = f"; off in {line.off_year}" if line.off_year is not None else ""
    return f"{line.plant} ({years}{off}{f'; lost here before to {line.lost}' if line.lost else ''})"


def juglone_known(hazards: Hazards) -> list[tuple[str, str]]:
    """Plants listed as suffering, then those listed both ways: a sentence each for every tree."""
    suffering = _in_one_sentence(hazards, "sensitive", "are listed as suffering from juglone", "")
    return [*suffering, *_in_one_sentence(hazards, "disputed", "lists disagree about", "Look how they do.")]


def juglone_unknown(hazards: Hazards) -> list[tuple[str, str]]:
    """Plants on no list, a sentence for each tree that gives juglone."""
    return _in_one_sentence(hazards, "not known", "no list names", "Not known is not harmless.")


def _in_one_sentence(hazards: Hazards, suffers: Suffers, who: str, end: str) -> list[tuple[str, str]]:
    """Those of whom the same is known, in a sentence for each tree whose roots reach them."""
    alike = [line for line in hazards.juglone if line.suffers == suffers]
    words_of = {"within reach now": "now", "within reach later": "later", "in the outer band": "outer band"}
    found = []
    for tree in dict.fromkeys(line.tree for line in alike):
        own = [line for line in alike if line.tree == tree]
        told = ", ".join(
            f"{j.plant} {quantities.metres(j.metres)} ({j.year or words_of[j.where]})" for j in own
        )
        found.append(
            (own[0].plant, f"Roots of {tree} reach plants that {who}, or will: {told}. {end}".strip())
        )
    return found


def spreading_lines(hazards: Hazards) -> list[tuple[str, str]]:
    """A sentence a kind, with every plant of it; those listed for the stated region first."""
    found = []
    for kind in dict.fromkeys(s.kind for s in sorted(hazards.spreaders, key=lambda s: s.here is not True)):
        own = [s for s in hazards.spreaders if s.kind == kind]
        first = own[0]
        others = ", ".join(s.plant for s in own)
        found.append((first.plant, first.says.replace(f"{first.plant} (", f"{others} (", 1)))
    return found


def water_lines(water: WaterFace) -> list[tuple[str, str]]:
    """Who wants water, the thirstiest first with litres, then all left to their roots; nothing in winter."""
    if not any(line.used_mm for line in water.lines):
        return []
    young = [line for line in water.lines if not line.established]
    old = [line for line in water.lines if line.established]
    short = [line.plant for line in old if line.used_mm > line.ready_mm]
    lines = [(line.plant, line.says) for line in young]
    if old:
        dry = f" Short of water all the same: {', '.join(short)}." if short else ""
        lines.append(("", f"Established, leave: {prose.count(len(old), 'plant')} with deep roots.{dry}"))
    if water.rain_question and young:
        lines.append(("", water.rain_question))
    return lines


def hazard_groups(hazards: Hazards, water: WaterFace) -> Groups:
    """The same for reading aloud, with every caution of a look-alike."""
    said = {line.plant: line.cautions for line in hazards.look_alikes}
    return [
        (title, [part for plant, says in lines
                 for part in (says, *(said.get(plant, ()) if title == "look-alikes" else ()))])
        for title, lines in hazard_lines(hazards, water)
    ]  # fmt: skip
