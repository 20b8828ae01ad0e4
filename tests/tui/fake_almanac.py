"""A hand-made almanac with fixed answers, so that screens and words are tested apart from any reckoning."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
import numpy as np
from fake_canopy import fake_canopy, fake_drift, fake_ground_light

from leafturn.answers.climbers import ClimberView
from leafturn.answers.cold_night import ColdHit, Tonight
from leafturn.answers.forecast_score import Miss, Score, SeasonScore
from leafturn.answers.frost import Frost
from leafturn.answers.harvest_calendar import Gap, Larder, Week
from leafturn.answers.heaps import HeapView
from leafturn.answers.kind_card import FactLine
from leafturn.answers.learnt import Learnt, NeedLine
from leafturn.answers.plant_card import PlantCard
from leafturn.answers.season import Heading, Heat, Season
from leafturn.answers.weather import Gap as WeatherGap
from leafturn.answers.weather import Recorded, UsualMonth, WeatherKnown
from leafturn.base.date_range import Likely
from leafturn.base.faults import Fault, Unreadable
from leafturn.bloom.frost.loss import FrostLoss
from leafturn.bloom.model import BloomGuess, SeasonEvent
from leafturn.canopy.decline.trend import YearRange
from leafturn.canopy.model import Canopy, Falling, PathReach
from leafturn.climbers.hosts import OtherHost
from leafturn.garden.model import Garden, Heap, Helper, Place, Plant
from leafturn.hazards.overview import Care, FallLine
from leafturn.journal.book import BookLine, in_words
from leafturn.journal.entries import BloomNote, Done, Entry, Withdrawal
from leafturn.kinds.library import Library, load_library
from leafturn.partners.bloom_overlap.strip import DayRow, PartnerDays
from leafturn.partners.decisions import Answer, standing_answers
from leafturn.partners.model import Fix, Partner, RedundantDonor, TreeReview
from leafturn.projection.model import Drift
from leafturn.season.axis import SeasonAxis
from leafturn.season.trend import Warming
from leafturn.soil.compost.heat_rule import HotDays
from leafturn.soil.compost.spreading import Spread
from leafturn.soil.nitrogen import Fixer, GuildCover, Nitrogen
from leafturn.soil.water.deficit import Thirst
from leafturn.tasks.model import HelperLoad, Hold, Job, Round, Walk
from leafturn.tasks.week.grouping import lines_of
from leafturn_tui.almanac_face import AlmanacFace, Progress

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
    made = Job(**(given | more))  # type: ignore[arg-type]
    return replace(made, why=(*made.why, "Basis: handbook. Source: a book."))


JOBS = (
    make_job("early-plum", "cover", "cover early fruitlets, early-plum", "due", close=likely(4, 19)),
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
    make_job("comice-2", "note", "note bloom: comice-2", "soon", minutes=2.0, helpers=()),
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
        fixes=(
            Fix(what="borrow pear pollen", year=2027, adequacy=0.6, effort="an hour", way="borrow"),
            Fix(what="graft another pear", year=2029, adequacy=0.7, way="graft"),
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


CLIMBERS = (
    ClimberView(
        plant="kiwi-f1", kind="hardy kiwi", host="early-plum", host_state="declining", verdict="too much",
        grown_m=1.2, cut_on=day(1, 30), past_top_m=-0.4, topped=likely(6, 27),
        strangles=False, host_bare=YearRange(early=2029, likely=2031, late=2036), train_by=2029,
        other_hosts=(OtherHost(plant="quince", verdict="fair if cut twice", metres=12.0, trunk_cm=25.0),),
        next_cut="summer cut from 10 Jun", cut_due=False, job="kiwi-f1:summer-cut:2027",
        says=("By heat it has grown about 1.2 m since it was cut on 30 Jan.",
              "That leaves it 0.4 m below the top of early-plum.", "Host: too much.",
              "quince could carry it: fair if cut twice, 12 m off, trunk 25 cm."),
    ),
)  # fmt: skip

LARDER = Larder(
    weeks=tuple(
        Week(
            number=n + 1, first=day(1, 1) + dt.timedelta(weeks=n),
            picked=("early-plum",) if 26 <= n < 29 else (), kept=("quince",) if n > 40 else (),
            forage=("comice-1", "comice-2") if 15 <= n < 18 else (), flying=12 <= n < 42,
        )
        for n in range(52)
    ),
    picking_gaps=(Gap(first=1, last=26, start=day(1, 1), end=day(7, 1), fillers=("rhubarb", "honeyberry")),),
    forage_gaps=(Gap(first=13, last=15, start=day(3, 26), end=day(4, 15), fillers=()),),
    swings=(), not_known=(),
)  # fmt: skip

CARE = Care(
    falls=(
        FallLine(
            plant="early-plum", state="declining",
            falling=Falling(
                reach_m=6.0, brittle_m=None, measured=True, seats=(), plants=(), stem_misses_m=3.0,
                paths=(PathReach(name="weir path", used="daily", public=True, nearest_m=3.0, metres=10.4,
                                 metres_brittle=10.4),),
            ),
            says="early-plum is declining, 6 m high: the public weir path passes 3.0 m off.",
        ),
    ),
    juglone=(), bark=(), look_alikes=(), calls=("Ask a competent tree inspector.",),
)  # fmt: skip


DOUBTED = (
    "comice-1 noted at first open on 3 Apr 2025: about 12 days earlier than its other notes and the book say "
    "for that spring. It counts for little; look whether the date is right."
)
LEARNT = Learnt(
    place_days=2.8, place_doubt_days=1.2, notes=41, kinds=9,
    lines=(
        NeedLine(plant="comice-1", kind="pear", published=day(4, 22), place_days=2.1, own=day(4, 17),
                 used=day(4, 18), notes=4, origin="fitted",
                 doubted=(DOUBTED,)),
        NeedLine(plant="early-plum", kind="myrobalan plum", published=day(4, 5), place_days=3.2,
                 own=day(3, 30), used=day(3, 31), notes=3, by_dates=0.8),
        NeedLine(plant="comice-2", kind="pear", published=day(4, 22), place_days=2.1, used=day(4, 19),
                 kin_notes=4, origin="fitted"),
        NeedLine(plant="quince", kind="quince", published=day(5, 13), place_days=1.6, own=day(5, 16),
                 used=day(5, 15)),
        NeedLine(plant="kiwi-f1", kind="hardy kiwi", published=None, used=None, degrees_outside=2.5),
    ),
    unused=("old-pear noted on 2 Apr 2024 is not used: nothing is known of when it opens.",),
)  # fmt: skip


def miss(plant: str, noted: dt.date, off: int, fixed: int | None, notes: int | None) -> Miss:
    """A miss of so many days."""

    def then(days: int | None) -> dt.date | None:
        return None if days is None else noted + dt.timedelta(days)

    return Miss(
        plant=plant, noted=noted, asked=noted - dt.timedelta(14), foretold=noted + dt.timedelta(off),
        published=then(fixed), notes_mean=then(notes), miss=off, fixed_miss=fixed, notes_miss=notes,
    )  # fmt: skip


SAYS = (
    "In 2026 forecasts made 14 days ahead missed by 3.0 days on average over 2 blooms. The mean of earlier "
    "notes missed by 2.0: it would have done better."
)
SCORE = Score(
    seasons=(
        SeasonScore(
            season=2026, forecast_mean=3.0, fixed_mean=6.5, notes_mean=2.0,
            misses=(miss("early-plum", dt.date(2026, 4, 9), -3, -8, None),
                    miss("comice-1", dt.date(2026, 4, 21), 3, 5, -2)),
            says=SAYS,
        ),
        SeasonScore(
            season=2025, forecast_mean=1.0, fixed_mean=6.0, notes_mean=None,
            misses=(miss("comice-1", dt.date(2025, 4, 14), 1, 6, None),),
            says="In 2025 forecasts made 14 days ahead missed by 1.0 days on average over 1 bloom. The "
                 "published date missed by 6.0: the forecast did better.",
        ),
    ),
    says=SAYS,
)  # fmt: skip


@dataclass(frozen=True)
class FakeWater:
    """How two plants stand for water."""

    rain_question: str = "No rain noted for 19 days: is that so?"
    lines: tuple[Thirst, ...] = (
        Thirst(
            plant="kiwi-m", root_m=0.5, used_mm=40.0, ready_mm=26.0, total_mm=78.0, dry=likely(4, 12),
            litres=31.0, established=False, watered=None, basis="guess",
            says="kiwi-m is short of water: it has used 40 of the 26 mm its roots draw with ease.",
        ),
        Thirst(
            plant="quince", root_m=1.5, used_mm=20.0, ready_mm=120.0, total_mm=232.0, dry=likely(8, 12),
            litres=60.0, established=True, watered=None, basis="guess",
            says="quince is established: leave it.",
        ),
    )  # fmt: skip


NITROGEN = Nitrogen(
    guilds=(GuildCover(guild="pear", share=0.04, fixers=("pea-shrub",),
                       says="pear guild: 4 in 100 of its crowns fix nitrogen (pea-shrub)."),),
    fixers=(
        Fixer(
            plant="pea-shrub", guild="pear", area_m2=2.0, grams=(3.3, 13.0), chop=likely(5, 22), light=62.0,
            need_percent=50.0, shaded_from=2033,
            says="pea-shrub covers 2 m2; shaded out by 2033: it has 62 % of open light and wants 50.",
        ),
    ),
)  # fmt: skip

HEAPS = (
    HeapView(
        id="bay-2", name="bay-2", stage="working", where="by the bench", litres=1584.0, c_to_n=28.8,
        water_percent=67.3, mixed_of="60 kg grass clippings, 18 kg leaves", to_do="turn now", due=True,
        mends=("too wet: add 12 kg straw, about 2 barrows (then C:N 35, water 60 %)",),
        course=((day(4, 10), 58.0), (day(4, 19), 44.0)),
        says=("bay-2 was 58 C on 10 Apr and 44 C today.", "Not shown to be ripe: 34 C above the air."),
        hot=HotDays(days=1, longest=1, turns=0), mature=False, spread=(), unknown=(),
        job="bay-2:turn:2027",
    ),
    HeapView(
        id="bay-3", name="bay-3", stage="ready", where="right of the bench", litres=554.0, c_to_n=None,
        water_percent=None, mixed_of="", to_do="spread: quince 40 l", due=False, mends=(), course=(),
        says=("Ripe by its warmth: 6 C above the air, 2 looks running.",),
        hot=HotDays(days=0, longest=0, turns=0), mature=True,
        spread=(Spread(plant="quince", litres=40.0, need=1.5, metres=8.0, reach=("bench helper",)),),
        unknown=(), job="",
    ),
)  # fmt: skip


@dataclass(frozen=True)
class FakeAlmanac:
    """Answers like an almanac; noting gives a new one."""

    on: dt.date = ON
    garden: Garden = GARDEN
    season_jobs: tuple[Job, ...] = JOBS
    waiting: tuple[Job, ...] = WAITING
    events: tuple[SeasonEvent, ...] = EVENTS
    reviews: tuple[TreeReview, ...] = REVIEWS
    spare: tuple[RedundantDonor, ...] = (RedundantDonor(plant="kiwi-m", most_lost=0.0),)
    entries: tuple[Entry, ...] = ENTRIES
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()
    notice: tuple[str, ...] = ()
    quiet: str = ""
    filled: str = ""
    read_only: bool = False
    doubts: bool = False
    gone_bad: str = ""
    is_stale: bool = False
    file: Path = Path("garden.toml")
    folder: Path = Path(".")
    log: list[Entry] = field(default_factory=list, compare=False)

    @property
    def axis(self) -> SeasonAxis:
        """The season that holds the day."""
        return SeasonAxis.holding(self.on, self.garden.place.southern)

    @property
    def library(self) -> Library:
        """The packaged one."""
        return load_library()[0]

    def heading(self) -> Heading:
        return Heading(
            place=self.garden.place.name,
            on=self.on,
            heat=HEAT,
            frost=FROST,
            filled=self.filled,
        )

    @property
    def remarks(self) -> tuple[str, ...]:
        return self.notes

    def round(self, helper: str | None = None) -> Round:
        jobs = tuple(j for j in self.season_jobs if helper is None or helper in j.helpers)
        return Round(
            jobs=jobs,
            waiting=self.waiting,
            hours_needed=2.95,
            hours_available=12.0,
            helpers=(
                HelperLoad(name="steward", minutes=70, hours_at_hand=6, jobs=()),
                HelperLoad(name="bench helper", minutes=35, hours_at_hand=2, jobs=()),
            ),
            walk=Walk(stops=("gate", "pears", "bench"), metres=164.0),
            beyond_reach=(),
            quiet=self.quiet,
            notice=self.notice,
            lines=lines_of(jobs, self.waiting if helper is None else ()),
        )

    def jobs(self) -> tuple[Job, ...]:
        return (*self.season_jobs, *self.waiting)

    def job(self, job_id: str) -> Job | None:
        return next((j for j in self.jobs() if j.id in (job_id, f"{job_id}:{self.on.year}")), None)

    def why_plant(self, plant_id: str) -> tuple[str, ...]:
        return (f"Nothing to do at {plant_id} yet.", "Next: mulch, 1 to 9 May.")

    def season(self) -> Season:
        return Season(events=self.events, heat=HEAT, frost=FROST, notes=self.notes)

    def partners(self) -> tuple[TreeReview, ...]:
        return self.reviews

    def answers(self) -> dict[str, Answer]:
        return standing_answers(self.entries, self.on)

    def spare_pollen(self) -> tuple[RedundantDonor, ...]:
        return self.spare

    def partner_days(self, plant_id: str) -> PartnerDays | None:
        review = next(r for r in self.reviews if r.plant == plant_id)
        if not review.partners:
            return None
        takes = [0.1, 0.5, 0.9, 1.0, 0.9, 0.8, 0.5, 0.2, 0.0]
        gives = [0.0, 0.0, 0.1, 0.4, 0.8, 1.0, 1.0, 0.9, 0.5]
        rows = [np.repeat(row, 2) for row in (takes, gives)]
        return PartnerDays(
            first=day(4, 14),
            tree=DayRow(plant=plant_id, does="takes", shares=rows[0]),
            partners=tuple(DayRow(plant=p.plant, does="gives", shares=rows[1]) for p in review.partners),
            meet=DayRow(plant="", does="both", shares=rows[0] * rows[1]),
        )

    def plants(self) -> tuple[PlantCard, ...]:
        return tuple(card(p) for p in self.garden.plants)

    def plant(self, plant_id: str) -> PlantCard | None:
        return next((c for c in self.plants() if c.id == plant_id), None)

    def book(self) -> tuple[BookLine, ...]:
        back = {e.entry for e in self.entries if isinstance(e, Withdrawal)}
        lines = [BookLine(entry=e, words=in_words(e), taken_back=e.id in back) for e in self.entries]
        return tuple(reversed(lines))

    def bloom_guesses(self) -> tuple[BloomGuess, ...]:
        return (
            BloomGuess(
                plant="comice-1", stage="first open", when=likely(4, 20), chance=0.7, words="likely today"
            ),
            BloomGuess(
                plant="comice-2", stage="first open", when=likely(4, 20), chance=0.7, words="likely today"
            ),
            BloomGuess(
                plant="early-plum",
                stage="petal fall",
                when=likely(4, 18),
                chance=0.6,
                words="open since 29 Mar",
            ),
        )

    def harvest_guesses(self) -> tuple[BloomGuess, ...]:
        return (
            BloomGuess(plant="early-plum", stage="ripe", when=likely(7, 8), chance=0.01, words="from 2 Jul"),
            BloomGuess(plant="quince", stage="ripe", when=likely(10, 8), chance=0.0, words="from 2 Oct"),
        )

    def learnt(self) -> Learnt:
        """A plant with notes of which one is doubted, one far from where its kind was learnt, one without."""
        return LEARNT

    def score_ready(self) -> bool:
        return True

    def score(self, progress: Progress | None = None) -> Score:
        """Two seasons; in the latest the mean of notes did better."""
        return SCORE

    def tonight(self, tmin_c: float, *, at_station: bool = False) -> Tonight:
        """One plant that such a night hurts."""
        hit = ColdHit(
            plant="comice-1", kind="pear", stage="first colour", stage_from="computed", share=0.05, low=0.01,
            high=0.6, tenth_c=-3.4, nine_tenths_c=-6.3, height_m=3.4, cover=True, cover_words="cover it",
            words="a tenth at -3.4 C, nine tenths at -6.3 C", basis="handbook",
        )  # fmt: skip
        return Tonight(
            on=self.on, garden_c=tmin_c, station_c=tmin_c + 1, said=f"In the garden {tmin_c:.1f} C.",
            plants=(hit,), not_known=("hazel-b",), caution="The tables hold for half an hour.",
        )  # fmt: skip

    def canopy(self, progress: Progress | None = None) -> Canopy:
        return fake_canopy(self.garden)

    def light_by_month(self, without: str | None = None) -> dict[str, tuple[float, ...]]:
        percent = 95.0 if without else 82.0
        return {plant.id: (percent,) * 12 for plant in self.garden.plants}

    def ground_light(
        self, year: int, at: Sequence[tuple[float, float]], without: str | None = None
    ) -> list[float]:
        return [100.0] * len(at) if without else fake_ground_light(at)

    def canopy_ready(self) -> bool:
        return True

    def drift_ready(self) -> bool:
        return True

    def weather(self) -> WeatherKnown:
        recorded = Recorded(
            first=dt.date(2020, 1, 1),
            last=ON,
            known=2660,
            days=2665,
            longest_gaps=(WeatherGap(first=dt.date(2027, 2, 1), last=dt.date(2027, 2, 5)),),
            set_aside=self.notes,
        )
        return WeatherKnown(
            recorded=recorded,
            basis="own record",
            months=(UsualMonth(month=1, tmin_c=-5.0, tmax_c=2.5, strays_c=4.0, rain_mm=28.0),),
            warming=Warming(per_year=0.03, doubt=0.015, years=7),
            notes=(),
        )

    def drift(self, progress: Progress | None = None) -> Drift:
        return fake_drift(self.garden)

    def climbers(self) -> tuple[ClimberView, ...]:
        """One that is too much for its host."""
        return CLIMBERS

    def larder(self) -> Larder:
        """A poor one."""
        return LARDER

    def water(self) -> FakeWater:
        """One young plant, one old."""
        return FakeWater()

    def nitrogen(self) -> Nitrogen:
        """One guild with one fixer."""
        return NITROGEN

    def care(self) -> Care:
        """A plum over a path."""
        return CARE

    def heaps(self) -> tuple[HeapView, ...]:
        """One that works, one that is ripe."""
        return HEAPS

    def frost_losses(self) -> dict[str, FrostLoss]:
        """Of the first plant."""
        plant = self.garden.plants[0].id
        loss = FrostLoss(
            plant=plant, chance_of_a_tenth=0.33, mean_share=0.12, share_so_far=0.01, worst_night=day(4, 24),
            crop_lost=0.02,
            killed=np.full(8, 0.12),
            crop_lost_by_draw=np.full(8, 0.02),
            basis="handbook",
        )  # fmt: skip
        return {plant: loss}

    def doubt(self, entry: Entry) -> str | None:
        return "That is 31 days before anything known here: keep it?" if self.doubts else None

    def note(self, entry: Entry, written: dt.date) -> tuple[FakeAlmanac, Entry]:
        number = sum(e.id.startswith(written.isoformat()) for e in self.entries) + 1
        kept = msgspec.structs.replace(entry, id=f"{written.isoformat()}.{number}")
        self.log.append(kept)
        jobs = tuple(
            replace(j, state="done", closed_on=entry.on)
            if entry.what == "done" and j.id in entry.closes
            else j
            for j in self.season_jobs
        )
        return replace(self, entries=(*self.entries, kept), season_jobs=jobs), kept

    def note_many(self, entries: Sequence[Entry], written: dt.date) -> tuple[FakeAlmanac, tuple[Entry, ...]]:
        almanac, kept = self, []
        for entry in entries:
            almanac, one = almanac.note(entry, written)
            kept.append(one)
        return almanac, tuple(kept)

    def takeable(self, skip: int = 0) -> Entry | None:
        kept = ("withdraw", "sheet")
        lines = [b.entry for b in self.book() if not b.taken_back and b.entry.what not in kept]
        return lines[skip] if skip < len(lines) else None

    def take_back(self, entry_id: str, written: dt.date) -> tuple[FakeAlmanac, Entry]:
        taken = next(e for e in self.entries if e.id == entry_id)
        almanac, kept = self.note(Withdrawal(on=written, entry=entry_id), written)
        jobs = tuple(replace(j, state="due") if j.id in taken.closes else j for j in almanac.season_jobs)
        return replace(almanac, season_jobs=jobs), kept

    def at(self, on: dt.date) -> FakeAlmanac:
        return replace(self, on=on)

    def stale(self) -> bool:
        return self.is_stale

    def reread(self) -> FakeAlmanac:
        if self.gone_bad:
            raise Unreadable(Fault(file="garden.toml", line=12, message=self.gone_bad))
        return replace(self, is_stale=False)


if TYPE_CHECKING:

    def _held_to_the_face(double: FakeAlmanac) -> AlmanacFace:
        return double
