"""A hand-made canopy: one old tree with two heirs of the light, and a second old tree, for any garden."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.base.date_range import Likely
from leafturn.canopy.decline.trend import CrownAssessment, YearRange
from leafturn.canopy.model import (
    Canopy,
    Falling,
    OldTree,
    PathReach,
    PlantYears,
    Release,
    Reply,
    Seedling,
    Succession,
    Successor,
    Suggestion,
    WhatIf,
)
from leafturn.canopy.sentences import points_back_words
from leafturn.garden.model import Garden
from leafturn.projection.model import ClimateProjection, ClimateThen, Edge, PlantProjection, PlantThen, Span

YEARS = range(2027, 2058)
NEVER = YearRange(early=None, likely=None, late=None)
PLACES = ((0.0, 0.0), (-5.0, 0.0), (4.0, 5.0), (-2.0, -6.0), (9.0, 2.0))
SIZES = ((20.0, 7.0), (3.0, 2.0), (5.0, 2.0), (2.0, 1.0), (4.0, 1.5))


def fake_canopy(garden: Garden) -> Canopy:
    """Of the garden's first five plants; the first is the old tree, the second gains, the third scorches."""
    names = [plant.id for plant in garden.plants[:5]]
    if len(names) < 3:
        return Canopy()
    plants = tuple(_drawn(n, name) for n, name in enumerate(names))
    return Canopy(
        old_trees=(_old_tree(names, with_looks=True), _old_tree(names[1:] + names[:1], with_looks=False)),
        plants=plants,
        seedlings=(
            Seedling(plant=names[2], kind="rowan", verdict="move", by=2028, reasons=("a path is near",)),
        ),
        short_lived=(f"{names[-1]}: 9 years old, its kind lives about 12",),
    )


def fake_drift(garden: Garden) -> ClimateProjection:
    """Two plants that open earlier as it warms, one of them near an edge."""

    def when(early: int, likely: int, late: int) -> Likely:
        return Likely(*(dt.date(2027, 4, 1) + dt.timedelta(days) for days in (early, likely, late)))

    def climate(year: int, share: float) -> ClimateThen:
        return ClimateThen(
            year=year,
            warming=Span(0.3 * share, 0.6 * share, 0.9 * share),
            last_frost=when(9, round(24 - 4 * share), 38),
            first_frost=when(173, round(193 + 8 * share), 215),
            frost_free=Span(148 + 6 * share, 168 + 10 * share, 201 + 5 * share),
            chill=Span(87, 93 + 2 * share, 101),
            heat=Span(2170, 2280 + 170 * share, 2730),
            coldest=Span(-14.2 + 0.3 * share, -14.2 + 0.6 * share, -14.2 + 0.9 * share),
        )

    def then(year: int, share: float, frost: float) -> PlantThen:
        return PlantThen(
            year=year,
            first_open=when(1, round(11 - 4 * share), 23),
            shift=Span(-6.0 * share, -4.0 * share, -2.0 * share),
            frost=Span(frost, frost + 0.1 * share, frost + 0.2 * share),
        )

    names = [plant.id for plant in garden.plants[:3]]
    groups = [tuple(names[:1]), tuple(names[1:3])]
    return ClimateProjection(
        on=dt.date(2027, 4, 19),
        stated=0.4,
        uncertainty=0.5,
        record=Span(0.2, 0.35, 0.5),
        record_years=30,
        climates=(climate(2027, 0), climate(2042, 1), climate(2057, 2)),
        plants=tuple(
            PlantProjection(
                plants=group,
                kind="pear",
                then=(then(2027, 0, 0.4), then(2042, 1, 0.4), then(2057, 2, 0.4)),
            )
            for group in groups
            if group
        ),
        edges=(
            Edge(
                plants=groups[0],
                edge="frost",
                says="Frost takes a third of the crop in 4 springs of 10 here now.",
            ),
        ),
        notes=("The same warmth is added to all days and nights.",),
    )


def fake_ground_light(at: Sequence[tuple[float, float]]) -> list[float]:
    """Half the light under the old tree's crown, all of it elsewhere."""
    return [50.0 if east**2 + north**2 < 49 else 100.0 for east, north in at]


def _drawn(n: int, name: str) -> PlantYears:
    east, north = PLACES[n]
    tall, wide = SIZES[n]
    return PlantYears(
        plant=name,
        habit="tree",
        solid=("ellipsoid", "cone", "vase", "column", "ellipsoid")[n],
        east=east,
        north=north,
        base_share=0.25,
        sizes=dict.fromkeys(YEARS, (tall, wide)),
        light=dict.fromkeys(YEARS, 80.0),
        falls_after=2031 if n == 0 else None,
        live={year: max(0.0, 0.33 - 0.06 * (year - 2027)) for year in YEARS} if n == 0 else {},
    )


def _release(plant: str, reply: Reply, now: float, *, guessed: bool = False) -> Release:
    later = {year: (now if year < 2032 else now + 15 - (year - 2032) * 2) for year in YEARS}
    return Release(
        plant=plant, kind="pear", metres=5.0, bearing="W", full=now - 10, now=now, gone=now + 15, later=later,
        reply=reply, response=(now + 15) / now, need=45.0, scorch=85.0 if "scorch" in reply else None,
        below_need_from=None, guessed=guessed,
    )  # fmt: skip


def _old_tree(names: Sequence[str], *, with_looks: bool) -> OldTree:
    assessments = (CrownAssessment(on=dt.date(2026, 8, 23), live_percent=33.0),) if with_looks else ()
    path = PathReach(
        name="mill path", used="daily", public=True, nearest_m=6.0, metres=39.8, metres_brittle=60.0
    )
    heir = Successor(
        plant=names[1],
        kind="oak",
        sizes={2027: (3.0, 1.0)},
        at_fall=(3.0, 4.0, 5.0),
        share_of_gap={2027: 0.1},
    )
    first = "live crown 33 % (Aug 2026), falling 5.9 a year; bare about 2030 (2028-2034)"
    of_crown = first if with_looks else "Nobody has noted a look at its crown."
    down = "down: 1 of 10 such trees by the end of 2027, half by 2031, 9 of 10 by 2038 (rule of thumb)"
    releases = (
        _release(names[1], "crops more", 82.0, guessed=True),
        _release(names[2], "scorch: move", 80.0),
    )
    return OldTree(
        plant=names[0], kind="common ash", planted=1928, state="declining", height_m=20.0, radius_m=7.0,
        live_percent=33.0 if with_looks else None, crown_known=with_looks, assessments=assessments,
        trend_per_year=-5.9 if with_looks else None,
        fit=NEVER, bare=YearRange(early=2028, likely=2030, late=2034) if with_looks else NEVER,
        down=YearRange(early=2027, likely=2031, late=2038),
        down_by=tuple((year, 1 - 0.88 ** (year - 2026)) for year in YEARS),
        falling=Falling(
            reach_m=20.0, brittle_m=30.0, measured=True, paths=(path,), seats=(("the bench", 12.0),),
            plants=tuple(names[1:3]),
        ),
        releases=releases,
        succession=Succession(
            fall_year=2031, successors=(heir,), half_covered=YearRange(early=2038, likely=2044, late=2052),
            covered={year: max(0.0, 0.02 * (year - 2036)) for year in YEARS},
            uncovered_years=13, plant_by=2010, says=("Next canopy by 2031: oak 4 m (3-5).",),
            suggestions=(Suggestion(kind="lime", why="to 20 m, crown 6 m, wants 15 % light"),),
        ),
        choices=(
            WhatIf(what="leave it", light=81.0, reach_m=30.0, path_metres=60.0, habitat="all kept",
                   successors="one within reach", in_reach=("mill path", "the bench")),
            WhatIf(what="a stem of 5 m", light=96.0, reach_m=5.0, path_metres=0.0, habitat="holes kept",
                   successors="full light at once", gainers=((names[1], 15.0), (names[2], 15.0))),
        ),
        says=(
            of_crown,
            down,
            points_back_words(releases[0], looked=True),
            "mill path: 6.0 m away; 39.8 m of it lies within one height; used daily, public",
        ),
        crown_says=of_crown,
        down_says=down,
        live={year: max(0.0, 0.33 - 0.06 * (year - 2027)) for year in YEARS} if with_looks else {},
    )  # fmt: skip
