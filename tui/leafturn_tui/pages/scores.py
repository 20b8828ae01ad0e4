"""How far forecasts missed: flowers by season, then leaves, picking, frost and cold nights."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.answers.forecast_score import KindScore, Miss, SeasonScore
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Column, Row, columns, over_list, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

NARROW = 70  # cells below which words are shorter


def score_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """Flowers: the latest season in words, a line a season, a line a bloom of the latest; then the rest."""
    score = almanac.score()
    rows = paragraph(score.says, width)
    if score.seasons:
        latest = score.seasons[0]
        opened = "days off" if width < NARROW else f"opened in {latest.season}"
        rows += [BLANK, *_season_rows(score.seasons, width)]
        rows += [BLANK, *_miss_rows(opened, latest.misses, width)]
    others = [kind for kind in score.kinds if kind.what != FIRST_OPEN.name]
    if others:
        rows += [BLANK, *_kind_rows(others, width)]
    if score.nights is not None:
        rows += [BLANK, *paragraph(score.nights.says, width, key="nights")]
    for kind in others:
        rows += [BLANK, *_miss_rows(kind.what, kind.misses, width)]
    return rows


def _season_rows(seasons: Sequence[SeasonScore], width: int) -> list[Row]:
    head = "missed by" if width < NARROW else "missed on average by"
    return _mean_rows(head, "season", [(str(one.season), one) for one in seasons], "blooms", width)


def _kind_rows(kinds: Sequence[KindScore], width: int) -> list[Row]:
    head = "other" if width < NARROW else "other, in their last years"
    return _mean_rows(head, "kind", [(one.what, one) for one in kinds], "noted", width)


def _mean_rows(
    head: str, key: str, lines: Sequence[tuple[str, SeasonScore | KindScore]], counted: str, width: int
) -> list[Row]:
    """A line each with the average misses and how many were noted."""
    narrow = width < NARROW
    heads = [head, "forecast", "published", _mean(narrow), counted]
    table = [
        [piece(name),
         *(piece(_days(d, narrow)) for d in (one.forecast_mean, one.fixed_mean, one.notes_mean)),
         piece(str(len(one.misses)))]
        for name, one in lines
    ]  # fmt: skip
    shape = (Column(26, 6, gives=1), Column(10, 6), Column(10, 6), Column(14, 6), Column(6, 4))
    laid = columns([[piece(w, "heading") for w in heads], *table], shape, width)
    found = zip(laid[1:], lines, strict=True)
    return [
        over_list(laid[0], within=True),
        *(Row(line, f"{key} {name}", one.says) for line, (name, one) in found),
    ]


def _miss_rows(head: str, misses: Sequence[Miss], width: int) -> list[Row]:
    narrow = width < NARROW
    several = len({m.observed.year for m in misses}) > 1
    table = [
        [piece(m.plant or "garden"),
         piece(phrases.day(m.observed) + (f" {m.observed.year}" if several else "")),
         *(piece("" if d is None else _off(d, narrow)) for d in (m.miss, m.fixed_miss, m.notes_miss))]
        for m in misses
    ]  # fmt: skip
    shape = (Column(22, 6, gives=1), Column(12, 6), Column(13, 7), Column(13, 7), Column(13, 7))
    heads = [head, "noted", "forecast", "published", _mean(narrow)]
    laid = columns([[piece(w, "heading") for w in heads], *table], shape, width)
    rows = [over_list(laid[0], within=True)]
    for line, miss in zip(laid[1:], misses, strict=True):
        key = f"miss {miss.what} {miss.plant} {miss.observed}"
        rows.append(Row(line, key, _miss_words(miss), miss.plant))
    return rows


def _miss_words(miss: Miss) -> str:
    if miss.plant:
        said = f"{miss.plant} opened" if miss.what == FIRST_OPEN.name else f"{miss.plant}: {miss.what} noted"
    else:
        said = f"The {miss.what} came"
    told = f"{said} on {phrases.day(miss.observed)}; on {phrases.day(miss.asked)} it was foretold"
    told += f" for {phrases.day(miss.forecast)}, {_off(miss.miss)}"
    if miss.published is not None:
        told += f"; {'published' if miss.plant else 'usual date'} {phrases.day(miss.published)}"
    if miss.notes_mean is not None:
        earlier = "earlier notes" if miss.plant else "earlier years"
        told += f"; {earlier} {phrases.day(miss.notes_mean)} on average"
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
