"""How well a tree is served with pollen, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Standing = Literal["lacks", "thin", "served", "needs none"]


@dataclass(frozen=True, kw_only=True)
class Partner:
    """One possible giver of pollen for one tree.

    `chance` is the product of the five shares, each between 0 and 1. `metres` is None where a place
    is not given. `reasons` say in plain sentences what holds it back, weakest first.
    """

    plant: str
    chance: float
    low: float
    high: float
    compatible: float
    flowering: float
    overlap: float
    nearness: float
    pollen: float
    days_overlap: float
    metres: float | None
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Fix:
    """Something that would help, the year it works, and the chance then."""

    what: str
    year: int
    adequacy: float
    effort: str = ""


@dataclass(frozen=True, kw_only=True)
class TreeReview:
    """The chance of enough pollen for one tree, and what stands in the way."""

    plant: str
    kind: str
    cultivar: str | None
    needs: str
    adequacy: float
    low: float
    high: float
    standing: Standing
    weakest: str
    reasons: tuple[str, ...] = ()
    partners: tuple[Partner, ...] = ()
    fixes: tuple[Fix, ...] = ()
    frost_loss_chance: float | None = None
    guessed: bool = False
