"""Write weather.csv of the demo garden: thirty invented years, nothing measured.

Run it from anywhere, `python demo_garden/make_weather.py`; the same bytes come out every time. The
years are drawn at random round the twelve monthly numbers of garden.toml, and a few days are then
set by hand so that the demo has something to show. Every number below is invented or a guess that
only has to look like weather.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
SEED = 1044
FIRST = dt.date(1997, 1, 1)
LAST = dt.date(2027, 4, 18)
CENTRED_ON = (2017, 2026)  # the years whose means are those of garden.toml

WARMING = 0.4 / 3652.5  # [degC per day], the figure garden.toml states per decade
DAILY_SD, DAILY_MEMORY = 3.2, 0.72  # daily mean temperature round the normal [degC], correlation of two days
WINTER_WIDENS = 0.2  # share by which midwinter varies more than the mean, and midsummer less
SLOW_SD, SLOW_MEMORY = 1.0, 0.992  # warm and cold spells of a season or a year
RANGE_SD = 2.0  # how much wider or narrower than usual the day's range is [degC]
WET_NARROWS = 3.4  # a wet day's range is this much smaller than a dry day's [degC]
WET_SHARE, WET_MEMORY = 0.36, 0.30  # share of days with rain; how much a day takes after the one before

# The spring of 2027: what is added to the daily means [degC], in straight lines between these days. It puts
# the heat of 29 March about eighteen days ahead of the usual year; that of 19 April is still nine ahead.
MILD = [("2027-01-25", 0.0), ("2027-02-08", 0.9), ("2027-03-25", 0.9), ("2027-03-29", 0.0)]

# Days set whole: lowest, highest [degC], rain [mm]. In 2024 a killing frost at the early plum's full bloom.
# In 2027 cool days and a still frost once the plum is open, then clear, dry and colder into the story's week.
SET_DAYS = """
2024-04-13   3.1  14.2  2.2 | 2024-04-14  -1.6   8.3  0.0 | 2024-04-15  -5.0   9.8  0.0
2024-04-16  -1.9  13.6  0.0
2027-03-27   2.6  16.8  0.0 | 2027-03-28   3.4  16.9  4.2 | 2027-03-29   4.0  17.0  0.0
2027-03-30   5.1  17.2  0.0 | 2027-03-31   3.6  14.8  6.3 | 2027-04-01   2.4  13.1  0.0
2027-04-02   1.9  13.9  0.0 | 2027-04-03   0.8  12.2  0.0 | 2027-04-04  -0.6  10.4  0.0
2027-04-05  -2.8  11.9  0.0 | 2027-04-06  -1.2  12.6  0.0 | 2027-04-07   1.1  13.7  0.0
2027-04-08   3.0  13.2  8.8 | 2027-04-09   3.9  15.8  0.0 | 2027-04-10   4.6  16.3  0.0
2027-04-11   5.2  13.9  7.6 | 2027-04-12   4.1  11.6 12.2 | 2027-04-13   2.2  10.8  6.9
2027-04-14   1.6  10.9  2.8 | 2027-04-15   0.9  11.2  0.0 | 2027-04-16   0.2  10.8  0.0
2027-04-17   0.6   9.6  0.0 | 2027-04-18  -0.5   9.0  0.0
"""

# The station failed: these days are left blank. With the day of the story, not yet over, nine are unknown.
GAP = (dt.date(2027, 2, 2), dt.date(2027, 2, 9))


def daily_cycle(monthly: np.ndarray, day_of_year: np.ndarray) -> np.ndarray:
    """A smooth year with these twelve monthly means, at each day of the year (from 0)."""
    month_of = np.array([(dt.date(2001, 1, 1) + dt.timedelta(days=i)).month - 1 for i in range(365)])

    def waves(day: np.ndarray) -> np.ndarray:
        turns = 2 * np.pi * np.outer(day + 0.5, np.arange(1, 5)) / 365.25
        return np.hstack([np.ones((len(day), 1)), np.cos(turns), np.sin(turns)])

    whole_year = waves(np.arange(365))
    month_means = np.array([whole_year[month_of == m].mean(axis=0) for m in range(12)])
    return waves(day_of_year) @ np.linalg.lstsq(month_means, monthly, rcond=None)[0]


def wander(noise: np.ndarray, sd: float, memory: float) -> np.ndarray:
    """Noise in which each day takes after the day before."""
    out = np.empty_like(noise)
    value = noise[0]
    for i, step in enumerate(noise):
        value = memory * value + np.sqrt(1 - memory**2) * step
        out[i] = sd * value
    return out


def wet_days(chance: np.ndarray) -> np.ndarray:
    """Which days are wet, where a wet day is likelier after a wet one; `chance` is one draw a day."""
    wet = np.empty(len(chance), dtype=bool)
    before = False
    for i, draw in enumerate(chance):
        before = draw < WET_SHARE * (1 - WET_MEMORY) + WET_MEMORY * before
        wet[i] = before
    return wet


def weather() -> tuple[list[dt.date], np.ndarray, np.ndarray, np.ndarray]:
    """All days with their lowest and highest temperature [degC] and rain [mm]."""
    stated = tomllib.loads((HERE / "garden.toml").read_text("utf-8"))["climate"]
    climate = {name: np.array(stated[name]) for name in ("tmin_c", "tmax_c", "rain_mm")}
    days = [FIRST + dt.timedelta(days=i) for i in range((LAST - FIRST).days + 1)]
    day_of_year = np.array([d.timetuple().tm_yday - 1 for d in days])
    year = np.array([d.year for d in days])
    month = np.array([d.month - 1 for d in days])
    centre = (year >= CENTRED_ON[0]) & (year <= CENTRED_ON[1])

    # RandomState, because numpy promises that its numbers never change.
    random = np.random.RandomState(SEED)
    fast, slow, ranges = random.standard_normal((3, len(days)))
    chance, amount = random.random_sample((2, len(days)))
    wet = wet_days(chance)

    winter = np.cos(2 * np.pi * day_of_year / 365.25)
    middle = wander(fast, DAILY_SD, DAILY_MEMORY) * (1 + WINTER_WIDENS * winter)
    middle += wander(slow, SLOW_SD, SLOW_MEMORY)
    half_range = (RANGE_SD * ranges + WET_NARROWS * (wet.mean() - wet)) / 2
    middle += WARMING * (np.arange(len(days)) - np.flatnonzero(centre).mean())
    knots = [(dt.date.fromisoformat(d) - FIRST).days for d, _ in MILD]
    middle += np.interp(np.arange(len(days)), knots, [v for _, v in MILD], left=0.0, right=0.0)

    def settled(anomaly: np.ndarray, monthly: np.ndarray) -> np.ndarray:
        drawn = np.array([anomaly[centre & (month == m)].mean() for m in range(12)])
        return anomaly + daily_cycle(monthly - drawn, day_of_year)

    tmin = settled(middle - half_range, climate["tmin_c"])
    tmax = settled(middle + half_range, climate["tmax_c"])
    tmax = np.maximum(tmax, tmin + 1.0)

    per_wet_day = climate["rain_mm"][month] / (30.44 * WET_SHARE)
    rain = np.where(wet, -per_wet_day * np.log1p(-amount), 0.0)
    return days, tmin, tmax, rain


def text() -> str:
    """The whole file."""
    days, tmin, tmax, rain = weather()
    drawn = np.round(np.column_stack([tmin, tmax, rain]), 1) + 0.0  # + 0.0 makes -0.0 into 0.0
    rows = {day: [f"{value:.1f}" for value in values] for day, values in zip(days, drawn, strict=True)}
    for written in SET_DAYS.strip().replace("\n", "|").split("|"):
        day, *values = written.split()
        rows[dt.date.fromisoformat(day)] = values
    for d in days:
        if GAP[0] <= d <= GAP[1]:
            rows[d] = ["", "", ""]
    head = f"# Invented weather, written by make_weather.py with seed {SEED}: nothing here was measured.\n"
    return head + "date,tmin_c,tmax_c,rain_mm\n" + "".join(f"{d},{','.join(v)}\n" for d, v in rows.items())


if __name__ == "__main__":
    (HERE / "weather.csv").write_text(text(), "utf-8", newline="\n")
