"""How tall and wide a plant is in any year: Chapman-Richards curves drawn through what was measured."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from msgspec.structs import replace
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray
from leafturn.base.closed_words import WOODY
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import Specimen

# A measured height may make the whole curve this much lower or higher; beyond it the plant is taken to be
# younger or older than its years. A guess: it keeps a sapling set out tall from becoming a giant.
_LEAST_SCALE, _MOST_SCALE = 0.4, 1.6
_NEARLY_GROWN = 0.995  # of its top, which a curve nears and never reaches
# Slow, middling and quick growers make less than 0.3, 0.3 to 0.6, more than 0.6 m in a good year (Dirr 2009,
# Manual of Woody Landscape Plants, recalled); the library's paces up to these bounds stand for the three.
_BEST_YEAR_M = ((0.045, 0.15), (0.09, 0.45), (math.inf, 0.75))
_HERB_PACE = 0.9  # nearly grown in three years (common practice, no source)
_NURSERY_SHARE = 0.15  # of its grown height: no plant is set out taller (a guess; a maiden apple of 1.2 m)
_HEIGHT_BY = 20  # years after planting: those of the library's `height_20_m`
_STANDING_STILL = ("declining", "dead standing")


class Growth(Value):
    """One plant's size by year.

    Parameters
    ----------
    top_m : float [m]
        Height it comes to.
    pace : float [1/year]
        Constant k of the curve.
    bend : float
        Exponent of the curve.
    year, age : float
        Where on the curve [years] it is at midsummer of `year`: its age, and what the nursery gave it.
    least_m : float [m]
        It is never lower than this from `year` on.
    width : float
        Crown radius as a share of the height.
    still : bool
        Whether it has stopped growing, as declining and dead trees have.
    guessed : bool
        Whether neither a planting year nor a height is known.
    """

    top_m: float
    pace: float
    bend: float
    year: int
    age: float
    least_m: float
    width: float
    still: bool = False
    guessed: bool = False

    def heights(self, years: ArrayLike, pace: float = 1.0) -> FloatArray:
        """Height [m] in each of `years`; with `pace` growth from now on is that many times as quick."""
        return _heights(np.asarray(years, dtype=float), self, pace)

    def radii(self, years: ArrayLike) -> FloatArray:
        """Crown radius [m] in each of `years`."""
        return self.heights(years) * self.width


class Growths:
    """Many plants' growth at once, for one year at a time."""

    def __init__(self, growths: Sequence[Growth]) -> None:
        def column(name: str) -> FloatArray:
            return np.array([float(getattr(growth, name)) for growth in growths])

        self.top_m, self.pace, self.bend = column("top_m"), column("pace"), column("bend")
        self.year, self.age, self.least_m = column("year"), column("age"), column("least_m")
        self.width, self.still = column("width"), column("still")

    def heights(self, year: int) -> FloatArray:
        """Height [m] of each in a year."""
        return _heights(np.asarray(float(year)), self, 1.0)


def _heights(years: FloatArray, growth: Growth | Growths, pace: float) -> FloatArray:
    passed = years - growth.year
    ahead = np.where(growth.still, 0.0, np.maximum(passed, 0.0) * pace)
    age = np.maximum(growth.age + np.where(passed > 0, ahead, passed), 0.0)
    grown = chapman_richards(age, growth.top_m, growth.pace, growth.bend)
    return np.asarray(np.where(passed >= 0, np.maximum(grown, growth.least_m), grown))


def chapman_richards(age: ArrayLike, top_m: ArrayLike, pace: ArrayLike, bend: ArrayLike) -> FloatArray:
    """Height [m] at an age [years]: ``top (1 - exp(-pace age)) ** bend``.

    Parameters
    ----------
    age : array_like [years]
    top_m : float [m]
        Height that is never quite reached.
    pace : float [1/year]
    bend : float
        Above 1 the curve starts slowly, as trees do.

    References
    ----------
    Richards, F. J. (1959). A flexible growth function for empirical use. Journal of Experimental Botany
    10: 290-300. Recalled, not re-read.
    """
    started = -np.expm1(-np.asarray(pace, dtype=float) * np.asarray(age, dtype=float))
    return np.asarray(np.asarray(top_m, dtype=float) * started ** np.asarray(bend, dtype=float))


def age_at(height_m: float, top_m: float, pace: float, bend: float) -> float:
    """Age [years] at which the curve reaches a height; that of nearly grown if it never does."""
    share = min(height_m / top_m, _NEARLY_GROWN)
    return -math.log1p(-(share ** (1 / bend))) / pace


def growth_of(specimen: Specimen, numbers: Numbers, year: int) -> Growth:
    """The growth of one plant, its curve drawn through a height and a crown measured.

    Parameters
    ----------
    specimen : Specimen
        A plant with its kind's grown size and pace, and what its rootstock makes of it. A measured height and
        crown count as of `year`, since the garden file does not say when.
    numbers : Numbers
        `growth_bend` is the exponent of the curves, `nursery_height_m` how tall a tree is set out.
    year : int
        The year of asking.

    Notes
    -----
    A plant from a nursery starts on the curve where its height is the nursery's; one that came by itself, or
    whose age when planted is told, starts from seed. A measured height above or below what both ways come to
    scales the curve within bounds, if it stands by then; what is left moves its age. A plant without a
    planting year and a height is taken as grown, and marked as guessed.
    """
    plant = specimen.plant
    curve = _curve(specimen, numbers)
    years = plant.age(year)
    measured = plant.height_m
    if years is None:
        curve = replace(curve, top_m=max(curve.top_m, measured or 0.0))
        age = curve.age_at(measured or _NEARLY_GROWN * curve.top_m)
    elif not measured:
        age = max(years, 0.0) + curve.start
    else:
        low, high = curve.height(max(years, 0.0)), curve.height(max(years, 0.0) + curve.start)
        scale = measured / high if measured > high > 0 else measured / low if measured < low else 1.0
        curve = replace(curve, top_m=curve.top_m * min(max(scale, _LEAST_SCALE), _MOST_SCALE))
        age = curve.age_at(measured)
    height = measured or curve.height(age)
    return Growth(
        top_m=curve.top_m,
        pace=curve.pace,
        bend=curve.bend,
        year=year,
        age=age,
        least_m=height,
        width=plant.crown_m / height if plant.crown_m and height > 0 else _width(specimen.kind),
        still=plant.state in _STANDING_STILL,
        guessed=years is None and measured is None,
    )


def height_in(specimen: Specimen, numbers: Numbers, year: int) -> float | None:
    """The one height [m] of a plant in a year: as measured, or grown by its years.

    None where neither the plant nor its kind tells: no height, no year, or no grown height of the kind.
    Without a year it is taken as grown.
    """
    if specimen.plant.height_m is None and specimen.kind.size.height_m is None:
        return None
    return float(growth_of(specimen, numbers, year).heights(year))


class _Curve(Value):
    """The curve of a kind on its stock; `start` [years] is what a plant from the nursery has behind it."""

    top_m: float
    pace: float
    bend: float
    start: float

    def height(self, age: float) -> float:
        return float(chapman_richards(age, self.top_m, self.pace, self.bend))

    def age_at(self, height_m: float) -> float:
        return age_at(height_m, self.top_m, self.pace, self.bend)


def _curve(specimen: Specimen, numbers: Numbers) -> _Curve:
    kind, bend = specimen.kind, numbers["growth_bend"]
    grown = kind.size.grown_height
    nursery = _nursery_height(kind, numbers)
    pace = _pace(kind, bend, nursery)
    start = 0.0 if _from_seed(specimen.plant) else age_at(nursery, grown, pace, bend)
    return _Curve(top_m=grown * stock_share(specimen), pace=pace, bend=bend, start=start)


def _nursery_height(kind: Kind, numbers: Numbers) -> float:
    """How tall [m] a plant of a kind is set out; herbs start from nothing."""
    if kind.habit not in WOODY:
        return 0.0
    by_then = value_of(kind.size.height_20_m, math.inf)
    return min(numbers["nursery_height_m"], _NURSERY_SHARE * kind.size.grown_height, by_then / 2)


def _from_seed(plant: Plant) -> bool:
    """Whether its years count from seed: it came by itself, or its age when planted is told."""
    return plant.came_by_itself or plant.age_when_planted > 0


def _width(kind: Kind) -> float:
    return kind.size.grown_radius / kind.size.grown_height


def _pace(kind: Kind, bend: float, nursery_m: float) -> float:
    """The constant k [1/year] of a kind's curve.

    Through the height twenty years after planting where one is published; else such that the best year of the
    curve is that of its class in metres, for a share of the grown height would have an oak and a currant
    grow alike. Climbers and shrubs may be quicker than that, as the library's pace has it.
    """
    pace = value_of(kind.size.growth_k, 0.06)  # middling; as the library's trees
    if kind.habit not in WOODY:
        return max(pace, _HERB_PACE)
    grown = kind.size.grown_height
    if (by_then := kind.size.height_20_m) is not None:
        return (age_at(by_then.value, grown, 1.0, bend) - age_at(nursery_m, grown, 1.0, bend)) / _HEIGHT_BY
    best = next(metres for most, metres in _BEST_YEAR_M if pace <= most)
    steepest = ((bend - 1) / bend) ** (bend - 1)  # of the curve, as a share of top times pace
    in_metres = best / (grown * steepest)
    return float(in_metres if kind.habit == "tree" else max(pace, in_metres))


def stock_share(specimen: Specimen) -> float:
    """What a plant's rootstock leaves of its kind's grown height, 0 to 1; 1 without one."""
    stock = specimen.rootstock
    return stock.height_share.value if stock and stock.height_share else 1.0
