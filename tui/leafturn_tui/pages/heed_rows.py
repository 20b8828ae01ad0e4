"""The lines of Heed: what it is at the left, who or what is in reach, when it was last looked at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING, NamedTuple

from msgspec.structs import replace

from leafturn.base import quantities
from leafturn.hazards.bark import BarkLine
from leafturn.hazards.juglone import JugloneLine
from leafturn.hazards.overview import FallLine, Hazards
from leafturn_tui.render.heed import DrySoil, dry_soil, look_alike_kinds, spreading_kinds
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, FULL, Piece, Row, cut, fit, heading, in_lines, piece
from leafturn_tui.text.wrapping import wrap

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

WHAT = 28  # cells of the sign and of what it is, in a wide row a third of it
SIGN = 2
LOOKED = 13  # cells of the day of the last look, at the right
FEW = 60  # cells of a row under which there is no room for that day
INDENT = 4  # of what is unfolded
NAMED = 3
SUFFERS = ("suffer now", "reached later", "lists disagree whether they suffer", "on no list")
HARM = "*on_harm on harm_fill"
GUARDS = {
    "guard low": "guard too low for hares over snow",
    "guard outgrown": "guard may come off, the bark is thick",
}


class Matter(NamedTuple):
    """One line: what it is, in short what is in reach or to be minded, and all of it in words.

    `now` is whether harm is going on, `looked` the day of the last look. What `more` lines tell stands
    below the line until it is folded.
    """

    what: str
    short: str
    plant: str
    whole: str
    now: bool = False
    looked: str = ""
    more: tuple[str, ...] = ()


class Part(NamedTuple):
    """A head and its matters, the gravest first; `tone` is that of their first words."""

    title: str
    matters: Sequence[Matter]
    tone: str = ""


def rows_of(almanac: AlmanacFace, width: int, turned: Collection[str], full: int = 0) -> list[Row]:
    """Every matter in a line, the gravest part first.

    Parameters
    ----------
    almanac : AlmanacFace
    width : int [cells]
    turned : collection of str
        Keys of the lines that were folded or unfolded by hand: those over people stand unfolded at first.
    full : int
        So many of the first are told in full, the others in as few lines as can be.
    """
    rows: list[Row] = []
    told = 0
    for part in parts_of(almanac):
        if not part.matters:
            continue
        over = part.tone == "*harm"
        rows += [] if over else [*([BLANK] if rows else []), heading(cut(part.title, width))]
        for n, matter in enumerate(part.matters):
            key = f"{part.title} {n}"
            most = FULL if told < full else 1
            told += 1
            rows += _rows(matter, part.tone, key, width, most, unfolded=(key in turned) != over)
    return rows


def number_of(almanac: AlmanacFace) -> int:
    """How many matters there are."""
    return sum(len(part.matters) for part in parts_of(almanac))


def parts_of(almanac: AlmanacFace) -> list[Part]:
    """What could hurt, part by part."""
    found, on = almanac.heed(), almanac.on
    return [
        Part("over people", [_fall(line, on) for line in found.over_people], "*harm"),
        Part("roots that poison", list(_roots(found.juglone))),
        Part("bark", _bark(found.bark)),
        Part("to eat, or not", list(_to_eat(found))),
        Part("poisonous, or hurts the skin", [
            Matter(", ".join(w.plants), w.words, w.plants[0], w.says) for w in found.warned
        ]),
        Part("too tender for the winters here", [
            Matter(t.plant, f"{t.standing}: bears {quantities.celsius(t.bears_c, 0)}", t.plant, t.says)
            for t in found.tender
        ]),
        Part("dry soil", list(_dry(dry_soil(almanac.water())))),
        Part("spreads into wild land somewhere", [
            Matter(kind.names, kind.words, kind.plant, kind.says) for kind in spreading_kinds(found)
        ], "dim"),
        Part("dead wood out of reach of people", [
            Matter(f.plant, "no path, seat or roof in reach", f.plant, f.says) for f in found.apart
        ], "dim"),
        Part("who to call", [Matter("", call, "", call) for call in found.calls], "dim"),
    ]  # fmt: skip


def _fall(line: FallLine, on: dt.date) -> Matter:
    """Who is nearest; below it who is further off, and whom to call."""
    ways = [
        f"{'the public ' if path.public else ''}{path.name}, {quantities.metres(path.nearest_m, 0)} off"
        for path in line.falling.paths
    ]
    around = (*line.falling.seats, *line.falling.roofs)
    near = [f"{name.split(',')[0]} {quantities.metres(metres, 0)}" for name, metres in around]
    first, *more = ways or near[:1]
    rest = near if ways else near[1:]
    further = [*rest[:NAMED], *([f"{len(rest) - NAMED} more"] if len(rest) > NAMED else [])]
    told = (*more, " · ".join(further), "call: a competent tree inspector")
    high = quantities.metres(line.metres, 0)
    whole, short = f"{line.plant}, {high}, {line.state}", f"{line.plant}, {line.state}"
    return Matter(
        what=whole if len(whole) < WHAT - SIGN else short,
        short=first,
        plant=line.plant,
        whole=line.says,
        looked=phrases.day(line.looked, on) if line.looked else "never",
        more=tuple(part for part in told if part),
    )


def _roots(lines: Sequence[JugloneLine]) -> Iterator[Matter]:
    """A line a tree: those that suffer now, nearest first, those that will, those of which lists disagree or
    say nothing."""
    by_tree: dict[tuple[int, str], list[JugloneLine]] = {}
    for line in sorted(lines, key=lambda line: line.metres):
        by_tree.setdefault((_place(line), line.tree), []).append(line)
    for (place, tree), own in sorted(by_tree.items()):
        names = "; ".join(map(_reached, own)) if place < 2 else ", ".join(line.plant for line in own)
        whole = " ".join(line.says for line in own)
        yield Matter(tree, f"{SUFFERS[place]}: {names}", tree, whole, now=place == 0)


def _place(line: JugloneLine) -> int:
    """Which of the words of SUFFERS fit."""
    if line.suffers == "sensitive":
        return 0 if line.where == "within reach now" else 1
    return 2 if line.suffers == "disputed" else 3


def _reached(line: JugloneLine) -> str:
    """One that suffers: how far off it is, and when the roots reach it."""
    when = {"within reach later": f", about {line.year}", "in the outer band": ", at the edge of the roots"}
    return f"{line.plant}, {quantities.metres(line.metres, 0)}{when.get(line.where, '')}"


def _bark(lines: Sequence[BarkLine]) -> list[Matter]:
    """A line for all stems of which the same is told, where their names find room in it."""
    said: dict[str, list[BarkLine]] = {}
    for line in lines:
        said.setdefault(_bark_words(line), []).append(line)
    matters = []
    for short, own in said.items():
        names = ", ".join(line.plant for line in own)
        groups = [own] if len(names) <= WHAT - SIGN - 1 else [[line] for line in own]
        matters += [
            Matter(
                ", ".join(line.plant for line in group), short, group[0].plant,
                " ".join(line.says for line in group), now=any(line.lost for line in group),
            )
            for group in groups
        ]  # fmt: skip
    return sorted(matters, key=lambda matter: not matter.now)


def _bark_words(line: BarkLine) -> str:
    if line.matter == "no guard":
        return f"no guard; {line.lost} took the one before it" if line.lost else "no guard"
    if line.matter == "guard old":
        return f"guard on for {line.years} years: look whether the bark touches it"
    return GUARDS[line.matter]


def _to_eat(found: Hazards) -> Iterator[Matter]:
    """What is picked and mistaken for something poisonous."""
    for kind in look_alike_kinds(found):
        yield Matter(kind.names, kind.words, kind.plant, kind.says)


def _dry(soil: DrySoil) -> Iterator[Matter]:
    """Those that want water with litres, then all left to their roots."""
    for line in soil.young:
        has = "short of water" if line.is_short else "has water"
        said = f"{has}: {quantities.litres(line.litres)} fill its roots"
        yield Matter(line.plant, said, line.plant, line.says, now=line.is_short)
    if soil.established:
        told = f"short of water all the same: {soil.short}" if soil.short else "deep roots: leave them"
        yield Matter(f"{phrases.count(soil.established, 'plant')} long here", told, "", f"Long here: {told}.")
    if soil.rain_question:
        yield Matter("rain", soil.rain_question, "", soil.rain_question)


def _rows(matter: Matter, tone: str, key: str, width: int, most: int, *, unfolded: bool) -> list[Row]:
    """A matter in so many lines, or some more; unfolded with all of it below."""
    what = _what_cells(width)
    if not matter.what:
        lines = wrap(piece(matter.short, limit=2000).text, max(10, width - SIGN))
        first, *others = (Row((Piece(" " * SIGN), Piece(line, tone))) for line in lines)
        return [replace(first, key=key), *(replace(line, joined=True) for line in others)]
    sign = "!" if tone == "*harm" else "*" if matter.now else " "
    day = fit(matter.looked, LOOKED, right=True) if matter.looked and width >= FEW else ""
    names = in_lines(piece(matter.what).text, what - SIGN - 1, most)
    short, *more = in_lines(piece(matter.short, limit=2000).text, width - what - len(day), most)
    of_short = "amber" if matter.now else {"*harm": "*ink"}.get(tone, tone)
    line = Row(
        (
            Piece(sign, HARM if sign == "!" else "amber"),
            Piece(f" {fit(names[0], what - SIGN - 1)} ", tone or "ink"),
            Piece(fit(short, width - what - len(day)), of_short),
            Piece(day, "dim"),
        ),
        key,
        matter.whole,
        matter.plant,
    )
    shown = [
        line,
        *(
            Row((Piece(fit(" " * SIGN + name, what), tone or "ink"), Piece(said, of_short)), joined=True)
            for name, said in zip_longest(names[1:], more, fillvalue="")
        ),
    ]
    if not unfolded:
        return shown
    indent = what if matter.more else INDENT
    told = matter.more or (matter.whole,)
    whole = [part for one in told for part in wrap(piece(one, limit=4000).text, max(10, width - indent))]
    return [*shown, *(Row((Piece(" " * indent), Piece(part, "dim")), joined=True) for part in whole)]


def _what_cells(width: int) -> int:
    return min(max(WHAT, width // 3), width // 2)


def head_row(width: int) -> Row:
    """The heads over the columns."""
    looked = fit("last looked", LOOKED, right=True) if width >= FEW else ""
    what = _what_cells(width)
    reach = fit("who or what is in reach", width - what - len(looked))
    return Row((Piece(cut(f"  {fit('  what', what)}{reach}{looked}", width + 2), "dim"),))
