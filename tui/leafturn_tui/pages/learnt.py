"""What the notes have taught: usual springs beside the published ones, and how far forecasts missed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.answers.forecast_score import Miss, SeasonScore
from leafturn.answers.learnt import Learnt, NeedLine
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.learnt_words import need_said, place_said
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Column, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

NARROW = 70  # cells below which words are shorter


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
    head = [
        "usual spring" if width < NARROW else "opens in a usual spring",
        "published",
        "own notes",
        "used",
        "springs" if width < NARROW else "springs noted",
    ]
    table = [
        [piece(n.plant), piece(phrases.day(n.published)), piece("" if n.own is None else phrases.day(n.own)),
         piece(phrases.day(n.used)), piece(_springs(n), "" if n.notes else "quiet")]
        for n in lines
    ]  # fmt: skip
    shape = (Column(24, 8, gives=2), Column(9, 6), Column(9, 6), Column(6, 6), Column(22, 4, gives=3))
    laid = columns([[piece(w, "heading") for w in head], *table], shape, width)
    rows = [Row(laid[0])]
    for line, need in zip(laid[1:], lines, strict=True):
        rows.append(Row(line, f"need {need.plant}", need_said(need), need.plant))
        for number, doubted in enumerate(need.doubted):
            key = f"doubted {need.plant} {number}"
            rows += _told(doubted, width, key, need.plant)
    return rows


def _springs(need: NeedLine) -> str:
    if need.notes:
        return str(need.notes)
    if need.own is not None:
        return "in the garden file"
    return f"{need.kin_notes} of its kind" if need.kin_notes else "none"


def _unused(learnt: Learnt, width: int) -> list[Row]:
    if not learnt.unused:
        return []
    rows = [BLANK, heading("not used")]
    for number, said in enumerate(learnt.unused):
        rows += _told(said, width, f"unused {number}", "")
    return rows


def _told(sentence: str, width: int, key: str, plant: str) -> list[Row]:
    """A sentence set in, on which the bar rests once; below it the sentence is whole."""
    first, *rest = paragraph(sentence, width, "quiet", indent=2)
    return [Row(first.pieces, key, sentence, plant), *rest]


def need_sheet(almanac: AlmanacFace, plant: str) -> Sheet | None:
    """All that is to be said of when a plant opens in a usual spring."""
    line = next((n for n in almanac.learnt().lines if n.plant == plant), None)
    if line is None:
        return None
    return Sheet(f"{plant}: when does it open in a usual spring?", [need_said(line), *line.doubted])


def score_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """The latest season in words, a line a season, then a line a noted bloom of the latest."""
    score = almanac.score()
    said = paragraph(score.says, width)
    if not score.seasons:
        return said
    return [*said, BLANK, *_season_rows(score.seasons, width), BLANK, *_miss_rows(score.seasons[0], width)]


def _season_rows(seasons: Sequence[SeasonScore], width: int) -> list[Row]:
    narrow = width < NARROW
    head = [
        "missed by" if narrow else "missed on average by",
        "forecast",
        "published",
        _mean(narrow),
        "blooms",
    ]
    table = [
        [piece(str(s.season)),
         *(piece(_days(d, narrow)) for d in (s.forecast_mean, s.fixed_mean, s.notes_mean)),
         piece(str(len(s.misses)))]
        for s in seasons
    ]  # fmt: skip
    shape = (Column(22, 6, gives=1), Column(10, 6), Column(10, 6), Column(14, 6), Column(6, 4))
    laid = columns([[piece(w, "heading") for w in head], *table], shape, width)
    return [
        Row(laid[0]),
        *(
            Row(line, f"season {one.season}", one.says)
            for line, one in zip(laid[1:], seasons, strict=True)
        ),
    ]  # fmt: skip


def _miss_rows(season: SeasonScore, width: int) -> list[Row]:
    narrow = width < NARROW
    opened = "days off" if narrow else f"opened in {season.season}"
    head = [opened, "noted", "forecast", "published", _mean(narrow)]
    table = [
        [piece(m.plant), piece(phrases.day(m.noted)),
         *(piece("" if d is None else _off(d, narrow)) for d in (m.miss, m.fixed_miss, m.notes_miss))]
        for m in season.misses
    ]  # fmt: skip
    shape = (Column(22, 6, gives=1), Column(7, 6), Column(13, 7), Column(13, 7), Column(13, 7))
    laid = columns([[piece(w, "heading") for w in head], *table], shape, width)
    rows = [Row(laid[0])]
    for line, miss in zip(laid[1:], season.misses, strict=True):
        rows.append(Row(line, f"miss {miss.plant} {miss.noted}", _miss_words(miss), miss.plant))
    return rows


def _miss_words(miss: Miss) -> str:
    told = f"{miss.plant} opened on {phrases.day(miss.noted)}; on {phrases.day(miss.asked)} it was foretold"
    told += f" for {phrases.day(miss.foretold)}, {_off(miss.miss)}"
    if miss.published is not None:
        told += f"; published {phrases.day(miss.published)}"
    if miss.notes_mean is not None:
        told += f"; earlier notes {phrases.day(miss.notes_mean)} on average"
    return f"{told}."


def _days(days: float | None, narrow: bool) -> str:
    return "" if days is None else f"{days:.1f} {'d' if narrow else 'days'}"


def _mean(narrow: bool) -> str:
    return "of notes" if narrow else "mean of notes"


def _off(days: int, narrow: bool = False) -> str:
    if days == 0:
        return "on day" if narrow else "on the day"
    far = str(abs(days)) if narrow else phrases.count(abs(days), "day")
    return f"{far} {'late' if days > 0 else 'early'}"
