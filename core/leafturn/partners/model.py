"""How well a tree is served with pollen, as frozen values."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from msgspec import Struct

from leafturn.garden.model import Point
from leafturn.journal.answer_words import RemedyWay

PartnerStanding = Literal["lacks", "thin", "served", "needs none"]
RemedyChoice = Literal["wait", RemedyWay]


class Partner(Struct, frozen=True, kw_only=True):
    """One possible pollen donor for one tree.

    `chance` is the product of the five shares, each between 0 and 1. `metres` is None where a place
    is not given. `adds` is by how much the tree's chance would fall without it. `reasons` say in plain
    sentences what holds it back, weakest first.
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
    adds: float = 0.0
    reasons: tuple[str, ...] = ()


class Remedy(Struct, frozen=True, kw_only=True):
    """Something that would help, the year it works, and the chance then.

    `way` is its sort, for those who make a job of it. `first_day` and `last_day` are given where it can
    only be done on certain days of this season. `guess` is False where the chance is reckoned from the
    plants that stand here, True where it rests on a guess. `place` is where on the plan, for what is to
    be planted or moved.
    """

    what: str
    year: int
    adequacy: float
    effort: str = ""
    way: RemedyChoice
    first_day: dt.date | None = None
    last_day: dt.date | None = None
    guess: bool = False
    place: Point | None = None


class TreeReview(Struct, frozen=True, kw_only=True):
    """The chance that one tree flowers and gets enough pollen, and what stands in the way.

    `partners` are the strongest few and the nearest that is refused, by chance. `by_year` holds the
    chance in this and later years if nothing is done, with this year's days of bloom.

    `first_flowers` are the calendar years by which one in ten, half and nine in ten of such plants flower;
    None where the tree is old enough or its planting year is not noted.

    `computed` is the chance before the set noted in past years is counted in, `set_words` what that did;
    empty where none is noted. `too_young` is True where pollen would do and only the tree's own age does
    not, `flowers` is the chance that it is old enough. `crop` is the chance of a worthwhile crop:
    pollen, frost and flying weather of the same ensemble members together; None where critical
    temperatures are not known.
    """

    plant: str
    kind: str
    cultivar: str | None
    needs: str
    adequacy: float
    low: float
    high: float
    standing: PartnerStanding
    weakest: str
    reasons: tuple[str, ...] = ()
    partners: tuple[Partner, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    frost_loss_chance: float | None = None
    guessed: bool = False
    by_year: tuple[tuple[int, float], ...] = ()
    computed: float | None = None
    set_words: str = ""
    crop: float | None = None
    too_young: bool = False
    flowers: float = 1.0
    first_flowers: tuple[int, int, int] | None = None


class RedundantDonor(Struct, frozen=True, kw_only=True):
    """A plant kept for its pollen that could go: no tree's chance falls by more than `most_lost`.

    `keep` is True for those that have to stay once the others are gone.
    """

    plant: str
    kind: str
    most_lost: float
    keep: bool = False


class GardenReview(Struct, frozen=True, kw_only=True):
    """Every tree from which fruit is wanted, in garden order, and the plants kept for pollen in vain."""

    trees: tuple[TreeReview, ...]
    redundant_donors: tuple[RedundantDonor, ...] = ()
