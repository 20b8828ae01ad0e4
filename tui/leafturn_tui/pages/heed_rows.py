"""The lines of Heed: what it is at the left, who or what is in reach at the right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leafturn.hazards.juglone import JugloneLine
from leafturn.hazards.overview import FallLine
from leafturn_tui.render.heed import (
    bark_lines,
    look_alike_lines,
    spreading_lines,
    warned_lines,
    water_lines,
)
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Piece, Row, fit, piece, row, wrap

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

WHAT = 28  # cells of what it is
SIGN = 2
FEW = 60  # cells of a row under which what is in reach stands below what it is
NAMED = 3


def rows_of(almanac: AlmanacFace, width: int) -> list[Row]:
    """Every matter, the gravest first."""
    found, on = almanac.heed(), almanac.on
    rows = [r for n, line in enumerate(found.over_people) for r in _fall(line, n, on, width)]
    rows += _part("roots that poison", list(_roots(found.juglone)), width)
    rows += _part("bark", [(p or "stems", said, said) for p, said in bark_lines(found)], width)
    rows += _part("to eat, or not", [(p, said, said) for p, said in look_alike_lines(found)], width)
    warned = [(p, said, said) for p, said in warned_lines(found)]
    rows += _part("poisonous, or hurts the skin", warned, width)
    rows += _part("too tender for the winters here", [(t.plant, t.says, t.says) for t in found.tender], width)
    water = water_lines(almanac.water())
    rows += _part("dry soil", [(p or "the rest", said, said) for p, said in water], width)
    spread = [(p or "plants", said, said) for p, said in spreading_lines(found)]
    rows += _part("spreads into wild land somewhere", spread, width, "dim")
    rows += _part(
        "dead wood out of reach of people", [(f.plant, f.says, f.says) for f in found.apart], width, "dim"
    )
    return rows + _part("who to call", [("", call, call) for call in found.calls], width, "dim")


def _fall(line: FallLine, number: int, on: dt.date, width: int) -> list[Row]:
    """Who is nearest, who is further off, whom to call, and when it was last looked at."""
    ways = [
        f"{'the public ' if path.public else ''}{path.name}, {path.nearest_m:.0f} m off"
        for path in line.falling.paths
    ]
    around = (*line.falling.seats, *line.falling.roofs)
    near = [f"{name.split(',')[0]} {metres:.0f} m" for name, metres in around]
    looked = f"last looked at {phrases.day(line.looked, on)}" if line.looked else "never looked at in a note"
    first, *more = ways or near[:1]
    rest = near if ways else near[1:]
    further = [*rest[:NAMED], *([f"{len(rest) - NAMED} more"] if len(rest) > NAMED else [])]
    told = [first, *more, " · ".join(further)]
    told += ["call: a competent tree inspector", looked]
    what = f"{line.plant}, {line.metres:.0f} m, {line.state}"
    return _lines(
        what, [t for t in told if t], f"over people {number}", line.says, line.plant, width, "*harm"
    )


def _roots(lines: Sequence[JugloneLine]) -> Iterator[tuple[str, str, str]]:
    """Each that suffers by itself, nearest first; in one line a tree those of which lists disagree or say
    nothing."""
    for line in sorted(lines, key=lambda line: (line.suffers != "sensitive", line.tree, line.metres)):
        if line.suffers == "sensitive":
            when = {
                "within reach now": "suffers now",
                "within reach later": f"reached about {line.year}",
                "in the outer band": "at the edge of the roots",
            }[line.where]
            yield line.tree, f"{line.plant}, {line.metres:.0f} m: {when}", line.says
    for suffers, said in (("disputed", "lists disagree whether they suffer"), ("not known", "on no list")):
        for tree in dict.fromkeys(line.tree for line in lines if line.suffers == suffers):
            own = [line for line in lines if line.tree == tree and line.suffers == suffers]
            names = ", ".join(line.plant for line in own)
            yield tree, f"{names}: {said}", " ".join(line.says for line in own)


def _part(title: str, matters: Sequence[tuple[str, str, str]], width: int, tone: str = "") -> list[Row]:
    """A head and its matters; nothing where there are none."""
    rows = [BLANK, row(Piece(title, "dim"))] if matters else []
    for n, (plant, said, why) in enumerate(matters):
        rows += _lines(plant, [said], f"{title} {n}", why, plant, width, tone)
    return rows


def _lines(
    what: str, told: Sequence[str], key: str, why: str, plant: str, width: int, tone: str = ""
) -> list[Row]:
    """A matter in two columns, wrapped; in a narrow window one below the other."""
    sign = "!" if tone == "*harm" else " "
    narrow = width < FEW
    indent = SIGN if narrow else WHAT
    lines = [part for said in told for part in wrap(piece(said, limit=2000).text, max(10, width - indent))]
    left = (Piece(f"{sign} ", tone), Piece(fit(piece(what).text, WHAT - SIGN), tone or "ink"))
    at = plant.split(",")[0]
    first = left if narrow else (*left, Piece(lines.pop(0)))
    rows = [Row(first, key, why, at)]
    return rows + [Row((Piece(" " * indent), Piece(line, "dim")), joined=True) for line in lines]
