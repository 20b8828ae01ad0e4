"""A hand-made garden's climbers, larder, heaps, dangers, water, and what its notes taught."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from fake_garden import ON, day, likely
from msgspec.structs import replace

from leafturn.answers.climbers import ClimberView
from leafturn.answers.cold_night import ColdHit
from leafturn.answers.forecast_score import Miss, Score, SeasonScore
from leafturn.answers.harvest_calendar import Gap, Larder, Week
from leafturn.answers.heaps import HeapView
from leafturn.answers.learnt import Learnt, NeedLine
from leafturn.answers.survival import KindSurvival, Survival
from leafturn.answers.weather import Gap as WeatherGap
from leafturn.answers.weather import Recorded, UsualMonth, WeatherKnown
from leafturn.bloom.frost.loss import FrostLoss
from leafturn.canopy.decline.trend import YearRange
from leafturn.canopy.model import Falling, PathReach
from leafturn.climbers.hosts import OtherHost
from leafturn.hazards.overview import FallLine, Hazards
from leafturn.season.trend import Warming
from leafturn.soil.compost.heat_rule import HotDays
from leafturn.soil.compost.spreading import Spread
from leafturn.soil.nitrogen import Fixer, GuildCover, Nitrogen
from leafturn.soil.water.deficit import WaterDeficit

CLIMBERS = (
    ClimberView(
        plant="kiwi-f1", kind="hardy kiwi", host="early-plum", verdict="too much",
        grown_m=1.2, since="30 Jan", cut_on=day(1, 30), past_top_m=-0.4, up_host=0.9,
        load="Its leaves cover about 54 of 100 parts of its crown.", topped=likely(6, 27),
        strangles=False, host_bare=YearRange(early=2029, likely=2031, late=2036), train_by=2029,
        other_hosts=(OtherHost(plant="quince", verdict="fair if cut twice", metres=12.0, trunk_cm=25.0),),
        next_cut="summer cut from 10 Jun", cut_due=False, job="kiwi-f1:summer-cut:2027",
        says=("By heat it has grown about 1.2 m since it was cut on 30 Jan.",
              "That leaves it 0.4 m below the top of early-plum.", "Too heavy for this host.",
              "quince could carry it: fair if cut twice, 12 m off, trunk 25 cm."),
    ),
)  # fmt: skip

MONDAYS = [dt.date(2026, 12, 28) + dt.timedelta(weeks=n) for n in range(53)]
LARDER = Larder(
    weeks=tuple(
        Week(
            number=monday.isocalendar().week, first=monday,
            picked=("early-plum",) if 27 <= n < 30 else (), kept=("quince",) if n > 41 else (),
            forage=("comice-1", "comice-2") if 16 <= n < 19 else (), flying=13 <= n < 43,
        )
        for n, monday in enumerate(MONDAYS)
    ),
    picking_gaps=(
        Gap(first=53, last=26, start=MONDAYS[0], end=day(7, 4), fillers=("rhubarb", "honeyberry")),
    ),
    forage_gaps=(
        Gap(first=13, last=15, start=day(3, 29), end=day(4, 18), fillers=()),
        Gap(first=19, last=42, start=day(5, 10), end=day(10, 24), fillers=()),
    ),
    swings=(), not_known=(),
)  # fmt: skip

HAZARDS = Hazards(
    mesh="Mesh of 6 mm, keeps voles and hares off",
    falls=(
        FallLine(
            metres=21.0,
            looked=dt.date(2026, 8, 23),
            plant="early-plum", state="declining",
            falling=Falling(
                reach_m=6.0, brittle_m=None, measured=True, seats=(), plants=(),
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
    place_days=2.8, place_uncertainty_days=1.2, notes=41, kinds=9,
    lines=(
        NeedLine(plant="comice-1", kind="pear", published=day(4, 22), place_days=2.1, own=day(4, 17),
                 used=day(4, 18), notes=4, origin="fitted", basis="own record",
                 doubted=(DOUBTED,)),
        NeedLine(plant="early-plum", kind="myrobalan plum", published=day(4, 5), place_days=3.2,
                 own=day(3, 30), used=day(3, 31), notes=3, by_dates=0.8, basis="own record"),
        NeedLine(plant="comice-2", kind="pear", published=day(4, 22), place_days=2.1, used=day(4, 19),
                 kin_days=-1.2, kin_notes=4, origin="fitted", moved_by=("comice-1",)),
        NeedLine(plant="quince", kind="quince", published=day(5, 13), place_days=1.6, own=day(5, 16),
                 used=day(5, 15), basis="own record"),
        NeedLine(plant="kiwi-f1", kind="hardy kiwi", published=None, used=None, degrees_outside=2.5,
                 basis="guess"),
    ),
    unused=("old-pear noted on 2 Apr 2024 is not used: nothing is known of when it opens.",),
)  # fmt: skip


def miss(plant: str, noted: dt.date, off: int, fixed: int | None, notes: int | None) -> Miss:
    """A miss of so many days."""

    def then(days: int | None) -> dt.date | None:
        return None if days is None else noted + dt.timedelta(days)

    return Miss(
        plant=plant, observed=noted, asked=noted - dt.timedelta(14), forecast=noted + dt.timedelta(off),
        published=then(fixed), notes_mean=then(notes), miss=off, fixed_miss=fixed, notes_miss=notes,
    )  # fmt: skip


SAYS = (
    "In 2026 forecasts made 14 days ahead missed by 3.0 days on average over 2 blooms. The mean of earlier "
    "notes missed by 2.0: it would have done better."
)
SCORE = Score(
    seasons=(
        SeasonScore(
            season=2026,
            misses=(miss("early-plum", dt.date(2026, 4, 9), -3, -8, None),
                    miss("comice-1", dt.date(2026, 4, 21), 3, 5, -2)),
            says=SAYS,
        ),
        SeasonScore(
            season=2025,
            misses=(miss("comice-1", dt.date(2025, 4, 14), 1, 6, None),),
            says="In 2025 forecasts made 14 days ahead missed by 1.0 days on average over 1 bloom. The "
                 "published date missed by 6.0: the forecast did better.",
        ),
    ),
    says=SAYS,
)  # fmt: skip

PLUMS = KindSurvival(
    kind="european plum", planted=3, lost=1, standing=2, causes=(("voles", 1),), watched=3, course=(),
    says="european plum: 3 planted, 1 lost (voles 1); too few to tell a share.",
)  # fmt: skip
SURVIVAL = Survival(kinds=(PLUMS,), whole=replace(PLUMS, kind="all kinds"))


@dataclass(frozen=True)
class FakeWater:
    """How two plants stand for water."""

    rain_question: str = "No rain noted for 19 days: is that so?"
    lines: tuple[WaterDeficit, ...] = (
        WaterDeficit(
            plant="kiwi-m", root_m=0.5, used_mm=40.0, ready_mm=26.0, total_mm=78.0, dry=likely(4, 12),
            litres=31.0, established=False, watered=None, basis="guess",
            says="kiwi-m is short of water: it has used 40 of the 26 mm its roots draw with ease.",
        ),
        WaterDeficit(
            plant="quince", root_m=1.5, used_mm=20.0, ready_mm=120.0, total_mm=232.0, dry=likely(8, 12),
            litres=60.0, established=True, watered=None, basis="guess",
            says="quince is established: leave it.",
        ),
    )  # fmt: skip


NITROGEN = Nitrogen(
    guilds=(GuildCover(guild="pear", share=0.04, fixers=("pea-shrub",),
                       says="pear guild: 4 of 100 parts of its crowns fix nitrogen (pea-shrub)."),),
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
        turns=(),
        course=((day(4, 10), 58.0), (day(4, 19), 44.0)),
        says=("bay-2 was 58 C on 10 Apr and 44 C today.", "Not shown to be ripe: 34 C above the air."),
        hot=HotDays(days=1, longest=1, turns=0), mature=False, spread=(), unknown=(),
        job="bay-2:turn:2027",
    ),
    HeapView(
        id="bay-3", name="bay-3", stage="ready", where="right of the bench", litres=554.0, c_to_n=None,
        water_percent=None, mixed_of="", to_do="spread: quince 40 l", due=False, mends=(), turns=(),
        course=(),
        says=("Ripe by its warmth: 6 C above the air, 2 looks running.",),
        hot=HotDays(days=0, longest=0, turns=0), mature=True,
        spread=(Spread(plant="quince", litres=40.0, need=1.5, metres=8.0, reach=("bench helper",)),),
        unknown=(), job="",
    ),
)  # fmt: skip


COLD_HIT = ColdHit(
    plant="comice-1", kind="pear", stage="first colour", stage_from="computed", share=0.05, low=0.01,
    high=0.6, tenth_c=-3.4, nine_tenths_c=-6.3, height_m=3.4, cover=True, cover_words="cover it",
    words="a tenth at -3.4 C, nine tenths at -6.3 C", basis="handbook",
)  # fmt: skip


def known_weather(remarks: tuple[str, ...]) -> WeatherKnown:
    """What is known of the weather, with what was set aside."""
    recorded = Recorded(
        first=dt.date(2020, 1, 1),
        last=ON,
        known=2660,
        days=2665,
        longest_gaps=(WeatherGap(first=dt.date(2027, 2, 1), last=dt.date(2027, 2, 5)),),
        set_aside=remarks,
    )
    return WeatherKnown(
        recorded=recorded,
        basis="own record",
        months=(UsualMonth(month=1, tmin_c=-5.0, tmax_c=2.5, strays_c=4.0, rain_mm=28.0),),
        warming=Warming(per_year=0.03, standard_error=0.015, years=7),
        notes=(),
    )


def frost_loss(plant: str) -> FrostLoss:
    """A spring that takes an eighth of a plant's flowers on average."""
    return FrostLoss(
        plant=plant, chance_of_a_tenth=0.33, mean_share=0.12, share_so_far=0.01, worst_night=day(4, 24),
        crop_lost=0.02,
        killed=np.full(8, 0.12),
        crop_lost_by_draw=np.full(8, 0.02),
        basis="handbook",
    )  # fmt: skip
