"""Sections of a kind that tell how it is grown: hardiness, water, chill, pruning, forage, published sums."""

from typing import Literal

from msgspec import Struct

from leafturn.kinds.fact import Fact, Sure

SumUnit = Literal["F-days", "C-days", "GDH C", "chill units", "chill portions"]
SumMethod = Literal["average", "clipped average", "single sine", "hourly", "not said"]


class HardinessFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The winter it bears.

    `zone` is the coldest USDA hardiness zone it is grown in as a rule (1 to 13; the 2023 map goes by the
    mean of each year's lowest temperature). `flower_bud_c` are the temperatures [degC] between which half
    of its resting flower buds die in midwinter, colder first. Of tender plants `harmed_c` is the temperature
    [degC] below which leaves or young wood of a grown plant are hurt in winter, `killed_c` that below which
    it dies or is killed to the ground, and `where_mild` a sentence on what it does where winters are mild.
    """

    zone: Fact[int] | None = None
    flower_bud_c: Fact[tuple[float, float]] | None = None
    harmed_c: Fact[float] | None = None
    killed_c: Fact[float] | None = None
    where_mild: Fact[str] | None = None


class WaterFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Water use by FAO Irrigation and Drainage Paper 56.

    Crop coefficient in mid season with a grass sward left below, greatest rooting depth [m], and the
    share of the available water that may be used before the plant suffers (at 5 mm a day).
    """

    kc_mid: Fact[float] | None = None
    root_depth_m: Fact[float] | None = None
    depletion: Fact[float] | None = None


class ChillFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Winter chill wanted before even bloom, as the usual range among cultivars.

    `hours` are hours at or below 7.2 degC, `portions` those of the dynamic model.
    """

    hours: Fact[tuple[float, float]] | None = None
    portions: Fact[tuple[float, float]] | None = None

    @property
    def middle_hours(self) -> float | None:
        """The middle of the hours wanted; None where they are not known."""
        return None if self.hours is None else sum(self.hours.value) / 2

    @property
    def middle_portions(self) -> float | None:
        """The middle of the portions wanted; None where they are not known."""
        return None if self.portions is None else sum(self.portions.value) / 2


class PruningFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The way it is cut (leafturn.kinds.pruning) where it is not its like's, and words of its own on it."""

    way: Fact[str] | None = None
    avoid: Fact[str] | None = None
    why: Fact[str] | None = None


class ForageFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What bees find at its flowers, on the beekeepers' scale from 0 (none) to 4 (very much).

    `elsewhere` tells what is found apart from the flowers or before and after bloom, such as honeydew.
    """

    nectar: Fact[int] | None = None
    pollen: Fact[int] | None = None
    elsewhere: Fact[str] | None = None


class HeatSum(Struct, frozen=True, array_like=True):
    """A sum of heat or chill as published, in its own unit: nothing is converted.

    `base` is in degF for F-days, in degC for C-days and GDH, "none" for sums of
    chill; `start` is a month and day, "rest" for the end
    of winter rest, "not said", or what it is counted from in words.
    """

    what: str
    low: float
    high: float
    unit: SumUnit
    base: float | Literal["none"]
    start: str
    method: SumMethod
    source: str
    sure: Sure
