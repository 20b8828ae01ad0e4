"""Climate drift on a page, in plain lines, and as JSON."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from leafturn.base.date_range import Likely
from leafturn.projection.edges import tens
from leafturn.projection.model import Drift, PlantDrift, PlantThen, Span
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Column, Row, columns, heading, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = "What does a warmer climate change here?"


def stated_words(drift: Drift) -> str:
    """What warming is reckoned with."""
    if drift.stated == 0:
        return "The garden file states no warming, so nothing is warmed."
    less, more = drift.stated * (1 - drift.doubt), drift.stated * (1 + drift.doubt)
    return f"If it warms by {drift.stated:g} C a decade, as the garden file states ({less:g} to {more:g})."


def record_words(drift: Drift) -> str:
    """What the garden's own record says of warming, for comparison."""
    low, likely, high = drift.record
    if not drift.record_years:
        return f"No own record tells a trend; land has warmed by about {likely:.1f} C a decade."
    return (
        f"The garden's own record of {phrases.count(drift.record_years, 'year')}, held by what land does, "
        f"warms by {likely:.1f} C a decade ({low:.1f} to {high:.1f})."
    )


def page_rows(drift: Drift, width: int) -> list[Row]:
    """The climate by year, who is near an edge, every plant's bloom, and what was assumed."""
    rows = paragraph(stated_words(drift), width, key="stated")
    rows += _climate_rows(drift, width)
    if drift.edges:
        rows += [BLANK, heading("near an edge")]
        for n, edge in enumerate(drift.edges):
            rows += paragraph(edge.says, width, key=f"edge {n}")
    if drift.plants:
        rows += [BLANK, *_plant_rows(drift, width)]
    rows += [BLANK, heading("what was assumed")]
    for n, said in enumerate((record_words(drift), *drift.notes)):
        rows += paragraph(said, width, key=f"note {n}")
    return rows


def _day(date: dt.date | None, seldom: dt.date | None, drift: Drift) -> str:
    """A day of frost; where most years have none, whether one year in ten has it."""
    if date is not None:
        return phrases.day(date, drift.on)
    return "rare" if seldom is not None else "hardly ever"


def _climate_rows(drift: Drift, width: int) -> list[Row]:
    climates = drift.climates
    table = [
        ["", *(str(c.year) for c in climates)],
        ["warmer by, C", *("" if n == 0 else _span(c.warming, ".1f") for n, c in enumerate(climates))],
        ["last frost, even odds", *(_day(*c.last_frost[1:], drift) for c in climates)],
        ["  one year in 10 after", *(_day(c.last_frost.late, None, drift) for c in climates)],
        [
            "first frost, even odds",
            *(_day(*c.first_frost[1::-1], drift) for c in climates),
        ],
        ["  one in 10 before", *(_day(c.first_frost.early, None, drift) for c in climates)],
        ["days without frost", *(_span(c.frost_free, ".0f") for c in climates)],
        ["winter chill, portions", *(_span(c.chill, ".0f") for c in climates)],
        ["heat above 5 C", *(_span(_tens(c.heat), ".0f") for c in climates)],
        ["coldest night, C", *(_span(c.coldest, ".0f") for c in climates)],
    ]
    shape = [Column(22, 12), *[Column(20, 8, gives=1)] * len(climates)]
    cells = [[piece(c, "heading" if n == 0 else "") for c in line] for n, line in enumerate(table)]
    laid = columns(cells, shape, width)
    spoken = [
        ", ".join(f"{cell} in {year}" for cell, year in zip(line[1:], table[0][1:], strict=True) if cell)
        for line in table
    ]
    return [
        Row(laid[0]),
        *(
            Row(line, f"climate {texts[0]}", f"{texts[0].strip()}: {said}.")
            for line, texts, said in zip(laid[1:], table[1:], spoken[1:], strict=True)
        ),
    ]


def _plant_rows(drift: Drift, width: int) -> list[Row]:
    later = drift.years[1:]
    head = ["opens", "now", *(f"{year}, days" for year in later), "crop lost, springs of 10"]
    table = [[piece(h, "heading") for h in head]]
    for row in drift.plants:
        frost = ", ".join(tens(t.frost) for t in row.then if t.frost is not None)
        table.append(
            [
                piece(", ".join(row.plants)),
                piece(phrases.day(row.then[0].first_open.likely)),
                *(piece(_shift(t.shift)) for t in row.then[1:]),
                piece(frost),
            ]
        )
    shape = [Column(24, 9, gives=2), Column(6, 6), *[Column(16, 6, gives=1)] * len(later), Column()]
    laid = columns(table, shape, width)
    return [
        Row(laid[0]),
        *(
            Row(line, f"bloom {row.plants[0]}", plant_words(row, drift.on), row.plants[0])
            for line, row in zip(laid[1:], drift.plants, strict=True)
        ),
    ]


def plant_words(row: PlantDrift, on: dt.date) -> str:
    """One line of plants in a sentence to be read aloud."""
    now = row.then[0]
    said = [f"first open {phrases.likely(now.first_open, on)} now"]
    said += [f"{_days(t.shift)} in {t.year}" for t in row.then[1:]]
    for name, of, chances in (
        ("a third of the crop or more lost to frost", "springs", [t.frost for t in row.then]),
        ("too little winter chill", "years", [t.chill_short for t in row.then]),
        ("a hard frost before the fruit is ripe", "years", [t.unripe for t in row.then]),
    ):
        told = [(t.year, span) for t, span in zip(row.then, chances, strict=True) if span is not None]
        if told and max(span.high for _, span in told) >= 0.05:
            by_year = ", ".join(f"{tens(span)} in {year}" for year, span in told)
            said.append(f"{name}, {of} of 10 here: {by_year}")
    return f"{', '.join(row.plants)}: {'; '.join(said)}."


def _days(shift: Span) -> str:
    near = f"{abs(shift.likely):.0f}"
    low, high = sorted((abs(shift.low), abs(shift.high)))
    way = "earlier" if shift.likely < 0 else "later"
    return "the same" if round(shift.likely) == 0 else f"{near} days {way} ({low:.0f} to {high:.0f})"


def _shift(shift: Span) -> str:
    low, likely, high = (round(part) for part in shift)
    if low == high:
        return f"{likely:+d}" if likely else "0"
    return f"{likely:+d} ({low:+d} to {high:+d})"


def _span(span: Span, form: str, unit: str = "") -> str:
    low, likely, high = (format(part, form) for part in span)
    between = "-" if span.low >= 0 else " to "
    return f"{likely}{unit}" if low == high else f"{likely}{unit} ({low}{between}{high})"


def _tens(span: Span) -> Span:
    return Span(*(round(part, -1) for part in span))


def plain(almanac: AlmanacFace) -> Iterator[str]:
    """Everything in sentences, one thing a line."""
    drift = almanac.drift()
    yield stated_words(drift)
    for n, c in enumerate(drift.climates if drift.stated else drift.climates[:1]):
        warm = "now" if n == 0 else f"{_span(c.warming, '.1f', ' C')} warmer"
        last, first = phrases.likely(c.last_frost, drift.on), phrases.likely(c.first_frost, drift.on)
        yield f"{c.year}, {warm}:"
        yield f"    last frost {last}, first {first}, {_span(c.frost_free, '.0f')} days without frost"
        yield f"    {_span(_tens(c.heat), '.0f')} degree-days above 5 C"
        yield f"    {_span(c.chill, '.0f')} chill portions by the end of winter"
        yield f"    coldest night {_span(c.coldest, '.0f', ' C')}"
    for edge in drift.edges:
        yield f"near an edge ({edge.edge}): {edge.says}"
    for row in drift.plants:
        yield plant_words(row, drift.on)
    yield record_words(drift)
    yield from drift.notes


def as_json(almanac: AlmanacFace) -> dict[str, Any]:
    """The key `drift`."""
    drift = almanac.drift()
    return {
        "drift": {
            "warming_c_per_decade": drift.stated,
            "warming_doubt": drift.doubt,
            "record_c_per_decade": _triple(drift.record),
            "record_years": drift.record_years,
            "climates": [
                {
                    "year": c.year,
                    "warming_c": _triple(c.warming),
                    "last_frost": _dates(c.last_frost),
                    "first_frost": _dates(c.first_frost),
                    "frost_free_days": _triple(c.frost_free),
                    "chill_portions": _triple(c.chill),
                    "degree_days_above_5_c": _triple(c.heat),
                    "coldest_night_c": _triple(c.coldest),
                }
                for c in drift.climates
            ],
            "plants": [
                {"plants": list(row.plants), "kind": row.kind, "then": [_then(t) for t in row.then]}
                for row in drift.plants
            ],
            "edges": [{"plants": list(e.plants), "edge": e.edge, "says": e.says} for e in drift.edges],
            "notes": [stated_words(drift), record_words(drift), *drift.notes],
        }
    }


def _then(then: PlantThen) -> dict[str, Any]:
    return {
        "year": then.year,
        "first_open": _dates(then.first_open),
        "shift_days": _triple(then.shift),
        "frost_chance": _triple(then.frost),
        "chill_short_chance": _triple(then.chill_short),
        "unripe_chance": _triple(then.unripe),
    }


def _triple(span: Span | None) -> dict[str, float | None] | None:
    if span is None:
        return None
    return {name: round(value, 3) if math.isfinite(value) else None for name, value in span._asdict().items()}


def _dates(when: Likely) -> dict[str, str | None]:
    return {name: day.isoformat() if day else None for name, day in when._asdict().items()}
