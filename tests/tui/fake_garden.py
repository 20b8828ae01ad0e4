"""A hand-made garden: its plants, notes, jobs, events and the partners of its trees."""

from __future__ import annotations

import datetime as dt
from typing import cast

import numpy as np
from tests.samples.jobs import made_job

from leafturn.answers.frost import Frost
from leafturn.answers.garden_plan import GardenPlan, Standing
from leafturn.answers.heat_course import HeatCourse
from leafturn.answers.plant_card import PlantCard
from leafturn.answers.season import Heat
from leafturn.answers.season_days import BloomGroup, PlantDays, SeasonDays
from leafturn.base.date_range import Likely
from leafturn.base.explained_days import NightAhead
from leafturn.bloom.model import LikelyStage, SeasonEvent
from leafturn.garden.model import Garden, Heap, Helper, Path, Place, Plant, Point
from leafturn.journal.entries import BloomNote, Done, Withdrawal
from leafturn.kinds.facts import FactLine
from leafturn.partners.bloom_overlap.partner_days import DayRow, PartnerDays
from leafturn.partners.model import Partner, Remedy, TreeReview
from leafturn.tasks.model import Hold, Job
from leafturn.tasks.week.model import HelperLoad, Stop, Walk

ON = dt.date(2027, 4, 19)


def day(month: int, date: int) -> dt.date:
    return dt.date(2027, month, date)


def likely(month: int, date: int, spread: int = 6) -> Likely:
    middle = day(month, date)
    return Likely(middle - dt.timedelta(spread), middle, middle + dt.timedelta(spread))


PLANTS = (
    Plant(id="early-plum", kind="myrobalan plum"),
    Plant(id="comice-1", kind="pear", cultivar="Comice"),
    Plant(id="comice-2", kind="pear", cultivar="Comice"),
    Plant(id="quince", kind="quince"),
    Plant(id="kiwi-f1", kind="hardy kiwi"),
)

GARDEN = Garden(
    place=Place(lat=46.9, lon=15.9, name="Weir Meadow"),
    plants=PLANTS,
    heaps=(Heap(id="bay-2"),),
    helpers=(Helper(name="steward"), Helper(name="bench helper", hours_per_week=2)),
)


def make_job(plant: str, verb: str, title: str, state: str, **more: object) -> Job:
    given: dict[str, object] = {
        "id": f"{plant}:{verb}:2027",
        "plant": plant,
        "verb": verb,
        "title": title,
        "state": state,
        "open": likely(4, 10),
        "best": likely(4, 20),
        "close": likely(4, 28),
        "minutes": 25.0,
        "where": "19 m from the gate",
        "point": None,
        "why": ("It is time.", "It is the rule.", "Little is lost."),
        "basis": "handbook",
        "source": "a book",
        "helpers": ("steward",),
    }
    all_given = given | more
    why, if_left = cast("tuple[str, ...]", all_given["why"]), all_given.get("if_left")
    rests = "handbook. Source: a book."
    rest = tuple(said for said in why[1:] if said != if_left)
    return made_job(all_given | {"why": (*why, f"Basis: {rests}"), "more": rest, "known_by": rests})


JOBS = (
    make_job(
        "early-plum",
        "cover",
        "cover early fruitlets, early-plum",
        "due",
        close=likely(4, 19),
        point=Point(-4, 14),
        tonight=NightAhead(likely_c=-3.0, tenth_c=-2.2, part="young fruit"),
        why=("Tonight may fall to -3 C here.", "If left, a third may go."),
        if_left="If left, a third may go.",
    ),
    make_job(
        "bay-2",
        "turn",
        "turn bay-2",
        "late",
        days_late=2,
        where="by the bench",
        helpers=("bench helper",),
        minutes=35.0,
        why=(
            "bay-2 was 58 C on 10 Apr and 44 C today, 17 days since it was turned.",
            "A heap that has been over 55 C and falls below 45 C has used its air.",
            "If left a week: slower, may smell.",
        ),
        cautions=("Look for sleeping toads first.",),
    ),
    make_job("kiwi-f1", "winter-cut", "winter cut kiwi-f1", "passed", next_open=dt.date(2028, 1, 20)),
    make_job(
        "quince",
        "take-out",
        "take out crossing wood, quince",
        "held",
        hold=Hold(reason="birds nest", until=day(9, 1)),
    ),
    make_job("comice-1", "look", "look over the graft, comice-1", "done"),
    make_job("comice-2", "note", "note bloom: comice-2", "soon", minutes=2.0, helpers=(), counts_as="note"),
)
WAITING = (make_job("quince", "mulch", "mulch quince, 3 barrows", "due", wait_until=day(5, 9), minutes=45.0),)


def event(plant: str, what: str, bbch: int, when: Likely, observed: dt.date | None = None) -> SeasonEvent:
    return SeasonEvent(
        plant=plant,
        event=what,
        bbch=bbch,
        when=when,
        observed=observed,
        basis="own record",
        days_from_normal=-9,
    )


EVENTS = (
    event("early-plum", "first open", 61, likely(3, 29, 0), day(3, 29)),
    event("early-plum", "full bloom", 65, likely(4, 3, 3)),
    event("early-plum", "petal fall", 69, likely(4, 11, 4)),
    event("early-plum", "ripe", 87, likely(7, 8)),
    event("early-plum", "picked over", 89, likely(7, 22)),
    event("comice-1", "first open", 61, likely(4, 20)),
    event("comice-1", "full bloom", 65, likely(4, 25)),
    event("comice-1", "petal fall", 69, likely(5, 3)),
    event("kiwi-f1", "first open", 61, likely(5, 30, 9)),
    event("kiwi-f1", "petal fall", 69, likely(6, 9, 9)),
)
HEAT = Heat(base=5.0, to_date=188.2, normal=141.0, days_ahead=9)
FROST = Frost(threshold=0.0, last=likely(4, 20, 20), first=likely(10, 12, 12), last_gone=0.5)


def _shares(begins: dt.date | None, ends: dt.date | None) -> np.ndarray:
    """Surely from one day to another, a week of rising and falling round it."""
    days = np.arange(400)
    if begins is None or ends is None:
        return np.zeros(400)
    start, end = (begins - FIRST).days, (ends - FIRST).days
    return np.clip(np.minimum((days - start + 7) / 7, (end - days + 7) / 7), 0.0, 1.0)


def _plant_days(plant: str) -> PlantDays:
    ranges = {e.event: e.when for e in EVENTS if e.plant == plant}
    when = {event: days.likely for event, days in ranges.items()}
    full = ranges.get("full bloom", likely(6, 4, 5))
    return PlantDays(
        plant=plant,
        in_bloom=_shares(when.get("first open"), when.get("petal fall")),
        in_full_bloom=_shares(full.likely, full.late),
        picking=_shares(when.get("ripe"), when.get("picked over")),
        full=full,
        ripe=likely(7, 8) if "ripe" in when else None,
    )


GARDEN_PLAN = GardenPlan(
    year=2027,
    plants=(
        Standing(plant="quince", point=Point(6.0, -8.0), height_m=2.5, radius_m=1.2, failing=False),
        Standing(plant="comice-1", point=Point(0.0, -14.0), height_m=4.0, radius_m=1.6, failing=False),
        Standing(plant="early-plum", point=Point(-6.0, 2.0), height_m=8.0, radius_m=3.0, failing=True),
    ),
    paths=(Path(line=((-12.0, -16.0), (12.0, 6.0)), name="lane"),),
    roofs=(),
    spots=(("gate", Point(0.0, 0.0)),),
)
WALK = Walk(
    stops=("gate", "early-plum", "quince"),
    metres=164.0,
    way=(
        Stop(name="gate", point=Point(0.0, 0.0)),
        Stop(name="early-plum", point=Point(-6.0, 2.0)),
        Stop(name="quince", point=Point(6.0, -8.0)),
    ),
)
_RISE = np.maximum(0.0, np.arange(366) - 59.0) ** 2 / 20
HEAT_COURSE = HeatCourse(
    base=5.0, first=dt.date(2027, 1, 1), now=_RISE * 1.3, low=_RISE * 0.8, usual=_RISE, high=_RISE * 1.2
)
FIRST = dt.date(2026, 11, 1)
SEASON_DAYS = SeasonDays(
    first=FIRST,
    frost=np.clip((200 - np.arange(400)) / 30, 0.0, 1.0),
    plants=tuple(_plant_days(plant) for plant in ("early-plum", "comice-1", "kiwi-f1")),
    groups=(BloomGroup(plants=("comice-1", "kiwi-f1"), days=0.0),),
)


def review(plant: str, adequacy: float, standing: str, weakest: str, **more: object) -> TreeReview:
    given: dict[str, object] = {
        "plant": plant,
        "kind": "pear",
        "cultivar": "Comice",
        "needs": "another cultivar",
        "adequacy": adequacy,
        "low": adequacy / 2,
        "high": min(1.0, adequacy * 3),
        "standing": standing,
        "weakest": weakest,
        "reasons": (weakest[:1].upper() + weakest[1:] + ".",),
        "by_year": tuple((2027 + n, min(adequacy + 0.05 * n, 0.98)) for n in range(16)),
    }
    return TreeReview(**(given | more))  # type: ignore[arg-type]


REVIEWS = (
    review(
        "comice-1",
        0.02,
        "lacks",
        "comice-2 is the same clone",
        partners=(
            Partner(
                plant="comice-2",
                chance=0.0,
                low=0.0,
                high=0.0,
                compatible=0.0,
                flowering=1.0,
                overlap=0.9,
                nearness=0.85,
                pollen=1.0,
                days_overlap=11.0,
                metres=6.0,
                reasons=("comice-2 is the same clone.",),
            ),
        ),
        remedies=(
            Remedy(what="borrow pear pollen", year=2027, adequacy=0.6, effort="an hour", way="borrow"),
            Remedy(what="graft another pear", year=2029, adequacy=0.7, way="graft"),
        ),
        frost_loss_chance=0.2,
        crop=0.017,
    ),
    review("comice-2", 0.02, "lacks", "comice-1 is the same clone"),
    review("kiwi-f1", 0.25, "thin", "the male is young", guessed=True),
    review("early-plum", 0.7, "served", "none to speak of", frost_loss_chance=0.33),
    review("quince", 1.0, "needs none", ""),
)


def card(plant: Plant) -> PlantCard:
    return PlantCard(
        id=plant.id,
        name=plant.id,
        kind=plant.kind,
        botanical="Planta communis",
        guessed=plant.id == "kiwi-f1",
        where="7 m west of comice-1",
        metres_from_gate=16.0,
        line="hardy kiwi (not in the library: its dates are guesses), planted 2014"
        if plant.id == "kiwi-f1"
        else "planted 2014",
        facts=(
            FactLine(
                what="first open", value="205 degree-days", sure="fair", source="Handbook of Pears, 1999"
            ),
        ),
        events=tuple(e for e in EVENTS if e.plant == plant.id),
        jobs=tuple(j.id for j in JOBS if j.plant == plant.id),
        own_words=("The neighbour picks the first basket.",),
        cautions=("Not for the table raw.",),
        conflicts=(),
        notes=(),
    )


ENTRIES = (
    BloomNote(
        id="2027-03-29.1",
        on=day(3, 29),
        plant="early-plum",
        stage="first open",
        by="bench helper",
    ),
    BloomNote(id="2027-04-11.1", on=day(4, 11), plant="comice-2", stage="first open"),
    Withdrawal(id="2027-04-11.2", on=day(4, 11), entry="2027-04-11.1", text="wrong tree"),
    Done(id="2027-04-18.1", on=day(4, 18), task="comice-1:look:2027", by="steward"),
)

BLOOM_GUESSES = (
    LikelyStage(plant="comice-1", stage="first open", when=likely(4, 20), chance=0.7, words="likely today"),
    LikelyStage(plant="comice-2", stage="first open", when=likely(4, 20), chance=0.7, words="likely today"),
    LikelyStage(
        plant="early-plum",
        stage="petal fall",
        when=likely(4, 18),
        chance=0.6,
        words="open since 29 Mar",
    ),
)
HARVEST_GUESSES = (
    LikelyStage(plant="early-plum", stage="ripe", when=likely(7, 8), chance=0.01, words="from 2 Jul"),
    LikelyStage(plant="quince", stage="ripe", when=likely(10, 8), chance=0.0, words="from 2 Oct"),
)
HELPER_LOADS = (
    HelperLoad(name="steward", minutes=70, hours_available=6, jobs=()),
    HelperLoad(name="bench helper", minutes=35, hours_available=2, jobs=()),
)


def days_of_partners(review: TreeReview) -> PartnerDays | None:
    """Eighteen days of pollen taken and given; None for a tree without partners."""
    if not review.partners:
        return None
    takes = [0.1, 0.5, 0.9, 1.0, 0.9, 0.8, 0.5, 0.2, 0.0]
    gives = [0.0, 0.0, 0.1, 0.4, 0.8, 1.0, 1.0, 0.9, 0.5]
    rows = [np.repeat(row, 2) for row in (takes, gives)]
    return PartnerDays(
        first=day(4, 14),
        tree=DayRow(plant=review.plant, does="takes", shares=rows[0]),
        partners=tuple(DayRow(plant=p.plant, does="gives", shares=rows[1]) for p in review.partners),
        meet=DayRow(plant="", does="both", shares=rows[0] * rows[1]),
    )
