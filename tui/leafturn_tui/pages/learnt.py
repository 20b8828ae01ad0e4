"""What the notes have taught: usual springs beside the published ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.answers.learnt import Learnt, NeedLine
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.learnt_words import need_said, place_said
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Column, Piece, Row, columns, heading, over_list, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

NARROW, MIDDLE, WIDE = 70, 76, 100  # cells below which less is shown


def need_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """What the place adds in a sentence, then a line a plant with its usual spring and its doubted notes."""
    learnt = almanac.learnt()
    said = paragraph(place_said(learnt), width)
    rows = [*said, BLANK]
    if not learnt.lines:
        rows += paragraph("No plant here flowers, or nothing is known of when one does.", width)
    else:
        rows += _usual_springs(learnt.lines, width)
    return rows + _unused(learnt, width)


def _usual_springs(lines: Sequence[NeedLine], width: int) -> list[Row]:
    head, shape = _columns(width)
    table = [[_cell(need, name) for name in head] for need in lines]
    head[0] = "usual spring" if width < WIDE else "opens in a usual spring"
    laid = columns([[piece(w, "heading") for w in head], *table], shape, width)
    rows = [over_list(laid[0], within=True)]
    for line, need in zip(laid[1:], lines, strict=True):
        rows.append(Row(line, f"need {need.plant}", need_said(need), need.plant))
        for number, doubted in enumerate(need.doubted):
            key = f"doubted {need.plant} {number}"
            rows += _sentence_rows(doubted, width, key, need.plant)
    return rows


def _columns(width: int) -> tuple[list[str], list[Column]]:
    """The columns that a width has room for, by what they tell."""
    shown = [
        ("plant", Column(24, 12 if width >= NARROW else 8, gives=1)),
        ("published", Column(9, 6)),
        ("place", Column(6, 5)),
        ("kind", Column(6, 5)),
        ("own notes", Column(9, 6)),
        ("used", Column(6, 6)),
        ("noted", Column(11, 7, gives=2)),
        ("basis", Column(20, 10)),
    ]
    left_out: tuple[str, ...] = ("place",) if width < WIDE else ()
    if width < MIDDLE:
        left_out = ("place", "kind", "basis") if width < NARROW else ("place", "kind")
    kept = [one for one in shown if one[0] not in left_out]
    return [name for name, _ in kept], [column for _, column in kept]


def _cell(need: NeedLine, name: str) -> Piece:
    match name:
        case "plant":
            return piece(need.plant)
        case "published":
            return piece(phrases.day(need.published))
        case "place" | "kind":
            return piece(_signed(need.place_days if name == "place" else need.kin_days), "quiet")
        case "own notes":
            return piece("" if need.own is None else phrases.day(need.own))
        case "used":
            return piece(phrases.day(need.used))
        case "noted":
            return piece(_springs(need), "" if need.notes else "quiet")
        case _:
            said = f"{need.basis}, moved" if need.is_moved else need.basis
            return piece(said, "held" if need.basis == "guess" else "")


def _signed(days: float) -> str:
    """Days with their sign, as "+3 d"; empty where they come to none."""
    return f"{round(days):+d} d" if round(days) else ""


def _springs(need: NeedLine) -> str:
    if need.notes:
        return str(need.notes)
    if need.own is not None:
        return "in file" if need.in_file else "now"
    return f"kind: {need.kin_notes}" if need.kin_notes else "none"


def _unused(learnt: Learnt, width: int) -> list[Row]:
    if not learnt.unused:
        return []
    rows = [BLANK, heading("not used")]
    for number, said in enumerate(learnt.unused):
        rows += _sentence_rows(said, width, f"unused {number}", "")
    return rows


def _sentence_rows(sentence: str, width: int, key: str, plant: str) -> list[Row]:
    """A sentence set in, on which the bar rests once; below it the sentence is whole."""
    first, *rest = paragraph(sentence, width, "quiet", indent=2)
    return [Row(first.pieces, key, sentence, plant), *rest]


def need_sheet(almanac: AlmanacFace, plant: str) -> Sheet | None:
    """All that is to be said of when a plant opens in a usual spring."""
    line = next((n for n in almanac.learnt().lines if n.plant == plant), None)
    if line is None:
        return None
    return Sheet(f"{plant}: when does it open in a usual spring?", [need_said(line), *line.doubted])
