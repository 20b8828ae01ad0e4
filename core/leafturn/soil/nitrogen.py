"""What fixes nitrogen from the air: how much of each guild it covers, when it is cut, when shade ends it."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterator, Mapping, Sequence

from leafturn.base import day_words, quantities
from leafturn.base.date_range import Likely
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.canopy.review import YEARS_AHEAD
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import DEAD, Plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay

LEAVING = ("remove", "undecided")

LightAt = Callable[[str, int], float | None]


class Fixer(Value):
    """One plant that fixes nitrogen.

    `area_m2` is the ground below its crown, `grams` what it may fix in a year at that size (least and
    most; None where no figure is known), `chop` the end of its bloom where it is grown to be cut,
    `shaded_from` the first year in which it has less light than `need_percent`.
    """

    plant: str
    guild: str
    area_m2: float
    grams: tuple[float, float] | None
    chop: Likely | None
    light: float | None
    need_percent: float | None
    shaded_from: int | None
    says: str


class GuildCover(Value):
    """A guild and the share, 0 to 1, of its crowns that fix nitrogen."""

    guild: str
    share: float
    fixers: tuple[str, ...]
    says: str


class Nitrogen(Value):
    """Guilds and fixers of a garden."""

    guilds: tuple[GuildCover, ...]
    fixers: tuple[Fixer, ...]


def nitrogen(
    day: GardenDay, forecasts: Mapping[str, BloomForecast], ensemble: Ensemble, light_at: LightAt
) -> Nitrogen:
    """Look over the nitrogen fixers of a garden.

    Parameters
    ----------
    day : GardenDay
    forecasts : mapping of plant id to BloomForecast
        Give the end of bloom.
    ensemble : Ensemble
        The season's weather.
    light_at : callable
        Light of a plant [% of open] in a year, None where it has no place.
    """
    year = ensemble.axis.year
    living = [p for p in day.garden.plants if p.state not in DEAD and p.plan not in LEAVING]
    areas = {p.id: _area(day, p, year) for p in living if p.host is None}
    found = [p for p in living if p.id in areas and _fixes(day.kind(p))]
    fixers = tuple(
        _fixer(p, day.kind(p), areas[p.id], forecasts.get(p.id), ensemble, light_at, day.on) for p in found
    )
    return Nitrogen(guilds=tuple(_guilds(living, areas, fixers)), fixers=fixers)


def _fixes(kind: Kind) -> bool:
    fact = kind.soil.fixes_nitrogen
    return kind.has("nitrogen fixer") or (fact is not None and fact.value)


def _area(day: GardenDay, plant: Plant, year: int) -> float:
    """Ground below a plant's crown this year [m2]."""
    if plant.patch_m2 is not None:
        return plant.patch_m2
    return plant.count * math.pi * float(growth_of(day.specimen(plant), day.numbers, year).radii(year)) ** 2


def _fixer(
    plant: Plant,
    kind: Kind,
    area: float,
    forecast: BloomForecast | None,
    ensemble: Ensemble,
    light_at: LightAt,
    on: dt.date,
) -> Fixer:
    rate = kind.soil.nitrogen_kg_ha
    grams = (rate.value[0] * area / 10.0, rate.value[1] * area / 10.0) if rate else None
    cut = kind.has("chop and drop")
    chop = ensemble.likely(forecast.end) if cut and forecast is not None else None
    need = value_of(kind.light.need_percent, None)
    years = range(on.year, on.year + YEARS_AHEAD + 1)
    shaded = next((y for y in years if need and (light_at(plant.id, y) or 100.0) < need), None)
    light = light_at(plant.id, on.year)
    parts = [_grams_words(area, grams), _light_words(light, need, shaded, on)]
    if chop is not None:
        parts.append(f"cut and drop it as its flowers fade, {day_words.about(chop, on)}")
    return Fixer(
        plant=plant.id,
        guild=plant.guild or "",
        area_m2=area,
        grams=grams,
        chop=chop,
        light=light,
        need_percent=need,
        shaded_from=shaded,
        says=f"{plant.id} {'; '.join(parts)}.",
    )


def _grams_words(area: float, grams: tuple[float, float] | None) -> str:
    over = f"covers {'' if area >= 1 else 'less than '}{quantities.square_metres(max(area, 1.0))}"
    if grams is None:
        return f"{over}; what it fixes is not known"
    return f"{over} and may fix {_grams_range(*grams)} of nitrogen a year"


def _grams_range(low: float, high: float) -> str:
    return f"{quantities.bare_grams(low)} to {quantities.grams(high)}"


def _light_words(light: float | None, need: float | None, shaded: int | None, on: dt.date) -> str:
    if need is None or light is None:
        return "its light is not known" if light is None else "what light it needs is not known"
    if shaded == on.year:
        return f"shaded out: {light:.0f} % of open light, and it wants {need:.0f}"
    if shaded is not None:
        return f"shaded out by {shaded}: it has {light:.0f} % of open light and wants {need:.0f}"
    return f"it has {light:.0f} % of open light, wants {need:.0f}, and will not be shaded out in thirty years"


def _guilds(
    plants: Sequence[Plant], areas: Mapping[str, float], fixers: Sequence[Fixer]
) -> Iterator[GuildCover]:
    fixing = {fixer.plant: fixer for fixer in fixers}
    for guild in dict.fromkeys(p.guild for p in plants if p.guild):
        own = [p.id for p in plants if p.guild == guild and p.id in areas]
        whole = sum(areas[p] for p in own)
        names = tuple(p for p in own if p in fixing)
        if not own or whole <= 0:
            continue
        share = sum(areas[p] for p in names) / whole
        yield GuildCover(
            guild=guild,
            share=share,
            fixers=names,
            says=_cover_words(guild, share, [fixing[p] for p in names]),
        )


def _cover_words(guild: str, share: float, fixers: Sequence[Fixer]) -> str:
    if not fixers:
        return f"{guild} guild: nothing in it fixes nitrogen."
    parts = f"{share * 100:.0f}" if share >= 0.01 else "under 1"
    known = [fixer.grams for fixer in fixers if fixer.grams is not None]
    low, high = (sum(grams[end] for grams in known) for end in (0, 1))
    gives = f", maybe {_grams_range(low, high)} a year" if known else ""
    names = ", ".join(fixer.plant for fixer in fixers)
    return f"{guild} guild: {parts} of 100 parts of its crowns fix nitrogen{gives} ({names})."
