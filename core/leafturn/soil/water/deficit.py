"""Which plants want water, in what order and how much; and which are left to their own roots."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import cached_property

import numpy as np

from leafturn.base import day_words, quantities
from leafturn.base.arrays import FloatArray, median
from leafturn.base.date_range import Likely
from leafturn.base.evidence import Basis, weakest
from leafturn.base.prose import HARDLY_EVER
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.climate import climate_words
from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves
from leafturn.season.frost import frost_shares
from leafturn.season.garden_day import GardenDay
from leafturn.season.sun import days_of_year
from leafturn.soil.water.balance import Used, water_balance
from leafturn.soil.water.root_zones import RootZone, Watering, buckets_of, drinkers, root_zone, waterings

FULL_FROM, FOLLOWED_TO = "03-01", "11-30"  # guess: winter has filled every root zone by then
ASKED_AFTER_DAYS = 10  # guess: so long without rain is asked about
DRY_AND_OPEN = ("dry winters", "mild winters")  # the ground is bare of snow, and its top warm enough to dry
WETTING_MM = 1.0  # the usual bound of a rain day (WMO)
LONG_DRY_DAYS = 10
# Guess: from so much of the ready water on, today's litres are told rather than the day's; and rain that
# leaves more than that used has not put a watering off.
SOON_SHARE = 0.8


class WaterDeficit(Value):
    """The water deficit of one plant today.

    `used_mm` is what has been drawn since its root zone was full, `ready_mm` what may be used without
    stress, `dry` when that will be, `litres` what fills it now. `established` plants are left to their roots.
    """

    plant: str
    root_m: float
    used_mm: float
    ready_mm: float
    total_mm: float
    dry: Likely
    litres: float
    established: bool
    watered: dt.date | None
    says: str
    basis: Basis

    @property
    def tells_watered(self) -> bool:
        """Whether `says` tells when it was last watered."""
        return self.watered is not None and not self.established

    @property
    def left(self) -> float:
        """Water left as a share of what is left when stress begins: below 1 it is short, at 0 it wilts."""
        return (self.total_mm - self.used_mm) / (self.total_mm - self.ready_mm)

    @property
    def is_short(self) -> bool:
        """Whether it has used more than it draws with ease."""
        return self.used_mm > self.ready_mm

    @property
    def wants_soon(self) -> bool:
        """Whether most of the water it draws with ease is gone."""
        return self.used_mm >= SOON_SHARE * self.ready_mm


def water_rests(day: GardenDay, weather: SeasonWeather) -> bool:
    """Whether winter fills the ground and stills thirst: frost comes, and it is cold or wet.

    Young trees are watered through dry winters on days above 4 degC (Colorado State Forest Service, and
    University of Nebraska extension, read).
    """
    frost = frost_shares(weather.usual, pocket_c=day.garden.place.frost_pocket_c).first
    return frost >= HARDLY_EVER and not climate_words(weather.usual).issuperset(DRY_AND_OPEN)


class GardenWater:
    """The water of one garden in one season, as of one day; reckoned when first asked.

    Where roots drink the year round (`water_rests` is false) they are followed so.

    Parameters
    ----------
    day : GardenDay
        Of its numbers young_root_m, root_years, soil_depletion, ground_crop_factor and those of leaves.
    """

    def __init__(self, day: GardenDay, weather: SeasonWeather) -> None:
        self._day, self._weather, self._on = day, weather, day.on
        self._axis = weather.axis
        self._rests = water_rests(day, weather)
        self._first = self._axis.month_day(FULL_FROM) if self._rests else 0
        climate = climate_words(weather.usual)
        able = [(p, root_zone(p, day, self._axis, climate)) for p in drinkers(day)]
        planted = [
            (p, zone) for p, zone in able if zone.years_established is None or zone.years_established >= 0
        ]
        self._plants = tuple(p for p, _ in planted)
        self._zones = tuple(zone for _, zone in planted)
        self._at = {zone.plant: i for i, zone in enumerate(self._zones)}
        followed = range(self._days.start, self._days.stop)
        self._noted = tuple(
            w
            for w in waterings(self._plants, self._zones, day)
            if w.on <= day.on and self._axis.day(w.on) in followed
        )

    @cached_property
    def _demand(self) -> FloatArray:
        """Reference demand on the days that are followed, (members, days) [mm]."""
        ensemble, days = self._weather.now, self._days
        of_year = days_of_year(self._axis.date(days.start), days.stop - days.start)
        radiation = extraterrestrial_radiation(self._day.garden.place.lat, of_year)
        return hargreaves(ensemble.tmin[:, days], ensemble.tmax[:, days], radiation)

    @property
    def _days(self) -> slice:
        end = self._weather.now.tmin.shape[1]
        last = min(self._axis.month_day(FOLLOWED_TO), end) if self._rests else end
        return slice(self._first, last)

    @property
    def _in_season(self) -> bool:
        return bool(self._days.start <= self._axis.day(self._on) < self._days.stop)

    def _balance(self, only: Sequence[int], noted: Sequence[Watering]) -> Used:
        plants, zones = [self._plants[i] for i in only], [self._zones[i] for i in only]
        buckets = buckets_of(plants, zones, self._day, self._weather.now_heat)
        days = self._days
        poured = np.zeros((len(only), days.stop - days.start))
        for row, index in enumerate(only):
            for watering in noted:
                if watering.plant == self._zones[index].plant:
                    poured[row, self._axis.day(watering.on) - self._first] += watering.mm
        rain = self._weather.now.rain[:, days]
        return water_balance(buckets, self._demand, rain, poured if noted else None, self._first)

    @cached_property
    def _all(self) -> Used:
        return self._balance(range(len(self._plants)), self._noted)

    def dry_days(self, plants: Sequence[str], done: dt.date | None) -> FloatArray:
        """Day on which the first of several plants is short of water, (members,) [day number]; inf: never.

        Parameters
        ----------
        plants : sequence of str
        done : date or None
            Counted from the evening of this watering, as if none had come after it; None: of none at all.

        Notes
        -----
        A shortage that rain has ended, so that most of the easy water is there again, is forgotten; one that
        goes on never began more than ten days ago, so that watering stays due while it lasts.
        """
        rows = self._rows(plants)
        if not rows:
            return np.full(self._weather.now.members, np.inf)
        today, after = self._axis.day(self._on), self._since(done)
        if self._is_latest(rows, done):
            days = self._all.dry_days(after, today, SOON_SHARE)[rows].min(axis=0)
            return np.asarray(np.maximum(days, today - LONG_DRY_DAYS))
        kept = [w for w in self._of_rows(rows) if done is not None and w.on <= done]
        return np.asarray(self._balance(rows, kept).dry_days(after, after).min(axis=0))

    def rained_off(self, plants: Sequence[str], done: dt.date | None) -> dt.date | None:
        """The last day on which one of several plants was short of water, where rain has filled all since.

        None where one is short today, or none was since it was last watered. Parameters as in `dry_days`.
        """
        rows = self._rows(plants)
        today, after = self._axis.day(self._on), self._since(done)
        if not rows or not self._is_latest(rows, done):
            return None
        if median(self._all.dry_days(after, today, SOON_SHARE)[rows].min(axis=0)) <= today:
            return None
        last = float(self._all.ended_days(after, today, SOON_SHARE)[rows].max())
        return self._axis.date(last) if np.isfinite(last) else None

    def _rows(self, plants: Sequence[str]) -> list[int]:
        return [self._at[p] for p in plants if p in self._at]

    def _since(self, done: dt.date | None) -> int:
        """The last day that does not count."""
        return self._first - 1 if done is None else self._axis.day(done)

    def _of_rows(self, rows: Sequence[int]) -> list[Watering]:
        own = {self._zones[i].plant for i in rows}
        return [w for w in self._noted if w.plant in own]

    def _is_latest(self, rows: Sequence[int], done: dt.date | None) -> bool:
        """Whether no watering came after one."""
        return all(done is not None and w.on <= done for w in self._of_rows(rows))

    @cached_property
    def lines(self) -> tuple[WaterDeficit, ...]:
        """Every woody plant, those that want water first in front, established ones behind."""
        if not self._plants:
            return ()
        if self._in_season:
            used, ready = self._all.on(self._axis.day(self._on))
        else:  # what is used, winter gives back
            used = np.zeros(len(self._zones))
            ready = np.array([z.total_mm * z.share for z in self._zones])
        today = self._axis.day(self._on)
        ahead = today < self._days.stop
        after = self._all.dry_days(self._first - 1, today) if ahead else np.full((len(used), 1), np.inf)
        found = [
            self._line(zone, float(used[i]), float(ready[i]), after[i]) for i, zone in enumerate(self._zones)
        ]
        return tuple(sorted(found, key=lambda t: (t.established, t.left)))

    def of(self, plants: Sequence[str]) -> tuple[WaterDeficit, ...]:
        """The lines of several plants, the thirstiest first."""
        return tuple(line for line in self.lines if line.plant in plants)

    def _line(self, zone: RootZone, used: float, ready: float, days: FloatArray) -> WaterDeficit:
        dry = self._weather.now.likely(days)
        last = max((w.on for w in self._noted if w.plant == zone.plant), default=None)
        told: Basis = "guess" if zone.guessed or not zone.established else "handbook"
        basis = weakest(told, self._weather.now.sureness)
        return WaterDeficit(
            plant=zone.plant,
            root_m=zone.root_m,
            used_mm=used,
            ready_mm=ready,
            total_mm=zone.total_mm,
            dry=dry,
            litres=used * zone.area_m2,
            established=zone.established,
            watered=last,
            says=_says(zone, used, ready, dry, last, self._on),
            basis=basis,
        )

    def litres_words(self, plants: Sequence[str]) -> str:
        """What to pour, plant by plant, the thirstiest first; empty if none of them wants any."""
        young = [line for line in self.of(plants) if not line.established]
        if not young:
            return ""
        now = any(line.wants_soon for line in young)
        areas = {zone.plant: zone.area_m2 for zone in self._zones}
        litres = {line.plant: line.litres if now else line.ready_mm * areas[line.plant] for line in young}
        told = ", ".join(f"{plant} {quantities.bare_litres(amount)}" for plant, amount in litres.items())
        when = "now" if now else "when it is due"
        said = f"{quantities.litres_noun()} that fill it {when}, thirstiest first"
        return f"{said}: {told}{quantities.litre_rule()}."

    @cached_property
    def rain_question(self) -> str:
        """Asks whether it has truly not rained, after ten days without; empty otherwise."""
        known = [self._weather.observed("rain", self._on - dt.timedelta(days=n)) for n in range(366)]
        begun = next((n for n, mm in enumerate(known) if mm >= WETTING_MM), None)
        days = len(known) if begun is None else begun
        if days < ASKED_AFTER_DAYS or not self._in_season:
            return ""
        blank = sum(1 for mm in known[:days] if mm != mm)
        if begun is None and blank == days:
            return "No rain is noted at all: usual rain is reckoned with."
        filled = f" For {blank} of them usual rain is reckoned with." if blank else ""
        drops = (
            f" of {quantities.millimetres(WETTING_MM, None)} or more"
            if any(mm > 0 for mm in known[:days])
            else ""
        )
        return f"No rain{drops} noted for {days} days: is that so?{filled}"


def _says(
    zone: RootZone, used: float, ready: float, dry: Likely, watered: dt.date | None, on: dt.date
) -> str:
    mm = quantities.bare_millimetres
    drawn = f"{mm(used)} of the {quantities.millimetres(ready)} its roots draw with ease"
    depth = f"roots to about {quantities.metres(zone.root_m)}, a guess"
    if zone.established:
        more = "" if used <= ready else "; it drinks less now, and may drop leaves or fruit"
        return f"{zone.plant} is established: leave it. It has used {drawn} ({depth}){more}."
    since = f" since it was watered on {day_words.near_day(watered, on)}" if watered else ""
    litres = f"{quantities.litres(used * zone.area_m2)} fill it"
    if used > ready:
        easy = f"its roots draw {mm(ready)} with ease ({depth})"
        gone = quantities.millimetres(used)
        return f"{zone.plant} is short of water: it has used {gone}{since}, and {easy}; {litres}."
    told = f"{zone.plant} has used {drawn}{since} ({depth})"
    if dry.likely is None:
        return f"{told}: it will hardly run short this season."
    pour = f"; {litres}" if used >= SOON_SHARE * ready else ""
    return f"{told}. It runs short {day_words.about(dry, on)}{pour}."
