"""What a warmer climate changes: in plain lines and as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from leafturn.base import prose, quantities
from leafturn.base.prose import HARDLY_EVER
from leafturn.base.quantities import bare_degrees, celsius_unit
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.projection.model import ClimateProjection, ClimateThen, PlantProjection, PlantThen, Span
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="What does a warmer climate change here?", place=50)


def stated_words(projection: ClimateProjection) -> str:
    """What warming is reckoned with."""
    if projection.stated == 0:
        return (
            "The garden file states no warming, so nothing is warmed: under [place], "
            "warming_c_per_decade = 0.3 would."
        )
    less, more = (
        projection.stated * (1 - projection.uncertainty),
        projection.stated * (1 + projection.uncertainty),
    )
    return (
        f"If it warms by {quantities.degrees(projection.stated, None)} a decade, as the garden file states "
        f"({quantities.bare_degrees(less, None)} to {quantities.bare_degrees(more, None)})."
    )


def record_words(projection: ClimateProjection) -> str:
    """What the garden's own record says of warming, for comparison."""
    low, likely, high = projection.record
    if not projection.record_years:
        return f"No own record tells a trend; land has warmed by about {quantities.degrees(likely)} a decade."
    return (
        f"The garden's own record of {phrases.count(projection.record_years, 'year')}, "
        f"held by what land does, "
        f"warms by {quantities.degrees(likely)} a decade ({quantities.bare_degrees(low)} to "
        f"{quantities.bare_degrees(high)})."
    )


def day_words(date: dt.date | None, seldom: dt.date | None, projection: ClimateProjection) -> str:
    """A day of frost; where most years have none, whether one year in ten has it."""
    if date is not None:
        return phrases.day(date, projection.on)
    return "rare" if seldom is not None else "hardly ever"


def plant_words(row: PlantProjection, on: dt.date) -> str:
    """One line of plants in a sentence to be read aloud."""
    from leafturn.projection.edges import tens

    now = row.then[0]
    said = [f"first open {phrases.likely(now.first_open, on)} now"]
    said += [f"{days_words(t.shift)} in {t.year}" for t in row.then[1:]]
    for name, of, chances in (
        ("a third of the crop or more lost to frost", "springs", [t.frost for t in row.then]),
        ("too little winter chill", "years", [t.chill_short for t in row.then]),
        ("a hard frost before the fruit is ripe", "years", [t.unripe for t in row.then]),
    ):
        told = [(t.year, span) for t, span in zip(row.then, chances, strict=True) if span is not None]
        if told and max(span.high for _, span in told) >= HARDLY_EVER:
            by_year = ", ".join(f"{tens(span)} in {year}" for year, span in told)
            said.append(f"{name}, of 10 {of} here: {by_year}")
    return f"{', '.join(row.plants)}: {'; '.join(said)}."


def days_words(shift: Span) -> str:
    """A shift of a date in words: "6 days earlier (4 to 9)"."""
    low, likely, high = (round(part) for part in shift)
    if likely == 0:
        return "the same"
    near = f"{prose.count(abs(likely), 'day')} {_way(likely)}"
    if low * high < 0:
        return f"{near} ({abs(low)} {_way(low)} to {abs(high)} {_way(high)})"
    return f"{near} ({min(abs(low), abs(high))} to {max(abs(low), abs(high))})"


def _way(days: int) -> str:
    return "earlier" if days < 0 else "later"


def shift_words(shift: Span) -> str:
    """A shift in a column: "-6 (-9 to -4)"."""
    low, likely, high = (round(part) for part in shift)
    if low == high:
        return f"{likely:+d}" if likely else "0"
    return f"{likely:+d} ({low:+d} to {high:+d})"


def span_words(span: Span, say: Callable[[float], object], unit: str = "") -> str:
    """A span as "12 (8-15)", each number as `say` tells it, with a unit behind the likely one."""
    low, likely, high = (str(say(part)) for part in span)
    between = "-" if span.low >= 0 else " to "
    return f"{likely}{unit}" if low == high else f"{likely}{unit} ({low}{between}{high})"


def whole_celsius(celsius: float) -> str:
    """A temperature to the degree, without its unit."""
    return quantities.bare_celsius(celsius, 0)


def rounded(span: Span) -> Span:
    """A span to the nearest ten."""
    low, likely, high = (round(part, -1) for part in span)
    return span._replace(low=low, likely=likely, high=high)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Bloom, frost, chill and heat in fifteen and thirty years under the warming you state."""
    from leafturn.season.heat_count import BASE_C

    projection = almanac.drift()
    yield stated_words(projection)
    for n, c in enumerate(projection.climates if projection.stated else projection.climates[:1]):
        warm = "now" if n == 0 else f"{span_words(c.warming, bare_degrees, f' {celsius_unit()}')} warmer"
        last, first = (
            phrases.likely(c.last_frost, projection.on),
            phrases.likely(c.first_frost, projection.on),
        )
        yield f"{c.year}, {warm}:"
        yield f"    last frost {last}, first {first}, {span_words(c.frost_free, round)} days without frost"
        heat = span_words(rounded(c.heat), quantities.heat)
        yield f"    {heat} degree-days above {quantities.celsius(BASE_C, 0)}"
        yield f"    {span_words(c.chill, round)} chill portions by the end of winter"
        yield f"    coldest night {span_words(c.coldest, whole_celsius, f' {celsius_unit()}')}"
    for edge in projection.edges:
        yield f"near an edge ({edge.edge}): {edge.says}"
    for row in projection.plants:
        yield plant_words(row, projection.on)
    yield record_words(projection)
    yield from projection.notes


def as_json(almanac: AlmanacFace) -> Answer:
    """The key `drift`."""
    projection = almanac.drift()
    told = fields(
        projection,
        "record_years",
        "edges",
        warming_c_per_decade="stated",
        warming_doubt="uncertainty",
        record_c_per_decade="record",
    )
    return {
        "drift": told
        | {
            "climates": [_climate(c) for c in projection.climates],
            "plants": [
                fields(row, "plants", "kind") | {"then": [_then(t) for t in row.then]}
                for row in projection.plants
            ],
            "notes": [stated_words(projection), record_words(projection), *projection.notes],
        }
    }


def _climate(then: ClimateThen) -> Answer:
    return fields(
        then,
        *("year", "last_frost", "first_frost"),
        warming_c="warming",
        frost_free_days="frost_free",
        chill_portions="chill",
        degree_days_above_5_c="heat",
        coldest_night_c="coldest",
    )


def _then(then: PlantThen) -> Answer:
    chances = {"frost_chance": "frost", "chill_short_chance": "chill_short", "unripe_chance": "unripe"}
    return fields(then, "year", "first_open", shift_days="shift", **chances)
