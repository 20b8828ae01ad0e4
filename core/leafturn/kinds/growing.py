"""Sections of a kind that tell how it is grown: hardiness, pruning, forage, and sums of heat as published."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from leafturn.kinds.fact import Fact, Sure

SumUnit = Literal["F-days", "C-days", "GDH C", "chill units", "chill portions"]
SumMethod = Literal["average", "clipped average", "single sine", "hourly", "not said"]


class HardinessFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The winter it bears.

    `zone` is the coldest USDA hardiness zone it is grown in as a rule (1 to 13; the 2023 map goes by the
    mean of each year's lowest temperature). `flower_bud_c` are the temperatures [degC] between which half
    of its resting flower buds die in midwinter, colder first.
    """

    zone: Fact[int] | None = None
    flower_bud_c: Fact[tuple[float, float]] | None = None


class PruningFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """When to cut, when not to, and why, in words."""

    window: Fact[str] | None = None
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
