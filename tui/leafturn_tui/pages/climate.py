"""The climates to come, as rows of the canopy page."""

from __future__ import annotations

from leafturn.base import quantities
from leafturn.projection.edges import tens
from leafturn.projection.model import ClimateProjection
from leafturn.season.heat_count import BASE_C
from leafturn_tui.render.drift import (
    day_words,
    plant_words,
    record_words,
    rounded,
    shift_words,
    span_words,
    stated_words,
    whole_celsius,
)
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    BLANK,
    Column,
    Row,
    heading,
    joined_rows,
    over_list,
    paragraph,
    piece,
    wrapped_columns,
)


def page_rows(projection: ClimateProjection, width: int) -> list[Row]:
    """The climate by year, who is near an edge, every plant's bloom, and what was assumed."""
    rows = paragraph(stated_words(projection), width, key="stated")
    rows += _climate_rows(projection, width)
    if projection.edges:
        rows += [BLANK, heading("near an edge")]
        for n, edge in enumerate(projection.edges):
            rows += paragraph(edge.says, width, key=f"edge {n}")
    if projection.plants:
        rows += [BLANK, *_plant_rows(projection, width)]
    rows += [BLANK, heading("what was assumed")]
    for n, said in enumerate((record_words(projection), *projection.notes)):
        rows += paragraph(said, width, key=f"note {n}")
    return rows


def _climate_rows(projection: ClimateProjection, width: int) -> list[Row]:
    climates = projection.climates
    table = [
        ["", *(str(c.year) for c in climates)],
        [
            f"warmer by, {quantities.celsius_unit()}",
            *(
                "" if n == 0 else span_words(c.warming, quantities.bare_degrees)
                for n, c in enumerate(climates)
            ),
        ],
        ["usual last frost", *(day_words(*c.last_frost[1:], projection) for c in climates)],
        ["  1 of 10 years after", *(day_words(c.last_frost.late, None, projection) for c in climates)],
        [
            "usual first frost",
            *(day_words(*c.first_frost[1::-1], projection) for c in climates),
        ],
        ["  1 of 10 years before", *(day_words(c.first_frost.early, None, projection) for c in climates)],
        ["days without frost", *(span_words(c.frost_free, round) for c in climates)],
        ["winter chill, portions", *(span_words(c.chill, round) for c in climates)],
        [
            f"heat above {quantities.celsius(BASE_C, 0)}",
            *(span_words(rounded(c.heat), quantities.heat) for c in climates),
        ],
        [
            f"coldest night, {quantities.celsius_unit()}",
            *(span_words(c.coldest, whole_celsius) for c in climates),
        ],
    ]
    shape = [Column(22, 12), *[Column(20, 8, gives=1)] * len(climates)]
    cells = [[piece(c, "heading" if n == 0 else "") for c in line] for n, line in enumerate(table)]
    heads, *laid = wrapped_columns(cells, shape, width)
    spoken = [
        ", ".join(f"{cell} in {year}" for cell, year in zip(line[1:], table[0][1:], strict=True) if cell)
        for line in table
    ]
    rows = [*(over_list(one, within=True) for one in heads)]
    for lines, texts, said in zip(laid, table[1:], spoken[1:], strict=True):
        rows += joined_rows(lines, f"climate {texts[0]}", f"{texts[0].strip()}: {said}.")
    return rows


def _plant_rows(projection: ClimateProjection, width: int) -> list[Row]:
    later = projection.years[1:]
    head = ["opens", "now", *(f"{year}, days" for year in later), "crop lost, springs of 10"]
    table = [[piece(h, "heading") for h in head]]
    for row in projection.plants:
        frost = ", ".join(tens(t.frost) for t in row.then if t.frost is not None)
        table.append(
            [
                piece(", ".join(row.plants)),
                piece(phrases.day(row.then[0].first_open.likely)),
                *(piece(shift_words(t.shift)) for t in row.then[1:]),
                piece(frost),
            ]
        )
    shape = [Column(24, 9, gives=2), Column(6, 6), *[Column(16, 6, gives=1)] * len(later), Column()]
    heads, *laid = wrapped_columns(table, shape, width)
    rows = [*(over_list(one, within=True) for one in heads)]
    for lines, row in zip(laid, projection.plants, strict=True):
        rows += joined_rows(lines, f"bloom {row.plants[0]}", plant_words(row, projection.on), row.plants[0])
    return rows


def climate_title(projection: ClimateProjection, row: Row) -> str:
    """What a row is about: its plants, or the climate itself."""
    own = next((p.plants for p in projection.plants if row.plant and row.plant == p.plants[0]), ())
    return f"{', '.join(own)}: what changes?" if own else "How does the climate here change?"
