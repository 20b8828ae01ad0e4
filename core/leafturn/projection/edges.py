"""Which plants come near an edge of their climate: too little chill, frost at bloom, unripe fruit, cold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from leafturn.base import quantities
from leafturn.projection.model import ClimateThen, Edge, PlantProjection, Span
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_cold import zone_bears_c

_OFTEN = 0.2  # one year in five not as it should be: from there a plant is near its edge; a guess
_FROST_OFTEN = 1 / 3  # frost at bloom is told from one spring in three on; a guess


def edges(
    day: GardenDay, rows: Sequence[PlantProjection], climates: Sequence[ClimateThen]
) -> tuple[Edge, ...]:
    """One line for each edge that plants of the garden are near, now or in the years looked at."""
    found: list[Edge] = []
    for row in rows:
        for edge, words, often, spans in (
            ("chill", "winter chill falls short", _OFTEN, [t.chill_short for t in row.then]),
            (
                "frost",
                "frost takes a third of the crop or more",
                _FROST_OFTEN,
                [t.frost for t in row.then],
            ),
            ("ripening", "a hard frost comes before the fruit is ripe", _OFTEN, [t.unripe for t in row.then]),
        ):
            chances = [s for s in spans if s is not None]
            if len(chances) == len(row.then) and max(s.likely for s in chances) >= often:
                years = [then.year for then in row.then]
                of = "springs" if edge == "frost" else "years"
                said = f"{', '.join(row.plants)}: {words} in {_by_year(chances, years, of)}."
                found.append(Edge(plants=row.plants, edge=edge, says=said))
    order = ("chill", "frost", "ripening")
    found.sort(key=lambda e: order.index(e.edge))
    return (*found, *_cold(day, climates))


def tens(chance: Span) -> str:
    """A chance with its range as years in ten: "3 (1-5)"; the range only where it rounds to another."""
    low, likely, high = (round(10 * part) for part in chance)
    around = f" ({low}-{high})" if low != high else ""
    return f"{likely}{around}"


def _by_year(chances: Sequence[Span], years: Sequence[int], of: str) -> str:
    first = f"{tens(chances[0])} of 10 {of} here now"
    later = [f"{tens(c)} in {year}" for c, year in zip(chances[1:], years[1:], strict=True)]
    return ", ".join([first, *later])


def _cold(day: GardenDay, climates: Sequence[ClimateThen]) -> Iterator[Edge]:
    """Plants whose kind is grown only where winters are milder than here."""
    now = climates[0].coldest.likely
    kinds_named: set[str] = set()
    for plant in day.garden.plants:
        kind = day.kind(plant)
        zone = kind.hardiness.zone
        if zone is None or plant.state == "gone" or kind.name in kinds_named:
            continue
        bears = zone_bears_c(zone.value)
        if now >= bears:
            continue
        kinds_named.add(kind.name)
        names = tuple(p.id for p in day.garden.plants if p.state != "gone" and day.kind(p).name == kind.name)
        years = ", ".join(f"{quantities.celsius(c.coldest.likely, 0)} in {c.year}" for c in climates[1:])
        yield Edge(
            plants=names,
            edge="winter cold",
            says=f"{', '.join(names)}: its kind is grown where the year's lowest is "
            f"{quantities.celsius(bears, 0)} or milder on the mean; here it is {quantities.celsius(now, 0)} "
            f"now, {years}.",
        )
