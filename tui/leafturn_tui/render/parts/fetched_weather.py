"""What was fetched from an archive of weather, in plain lines: read before it is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leafturn.base.day_words import MONTHS
from leafturn_tui.render.weather import BASES, recorded_lines

if TYPE_CHECKING:
    from leafturn.answers.fetched_weather import FetchedWeather
    from leafturn.answers.weather import UsualMonth
    from leafturn.weather.fetch.stations import Station

SMALL_C, SMALL_M = 0.05, 10.0  # smaller differences are told as none


def lines(fetched: FetchedWeather) -> Iterator[str]:
    """Where it is from, its days and gaps, what was set aside, and its usual year beside the garden's."""
    yield f"From {fetched.archive}: {fetched.where}."
    yield from _height(fetched)
    yield from recorded_lines(fetched.recorded)
    yield from fetched.notes
    if not fetched.months:
        yield "It has too few days to tell what is usual in it."
        return
    yield ""
    yield from months_beside(fetched.months, fetched.here, "here now")
    yield ""
    yield f"Here now: {BASES[fetched.basis]}"
    for what, far in (
        ("minima", _mean(fetched.months, "tmin_c") - _mean(fetched.here, "tmin_c")),
        ("maxima", _mean(fetched.months, "tmax_c") - _mean(fetched.here, "tmax_c")),
    ):
        told = "as they are here now" if abs(far) < SMALL_C else f"{abs(far):.1f} C {_way(far)} than here now"
        yield f"Over the year the {what} of the archive are {told}."


def station_lines(stations: Sequence[Station], height_m: float | None, most: int) -> Iterator[str]:
    """The nearest stations: how far, how much higher, and which years they have."""
    yield "station         km  higher by  both temperatures  rain  name"
    for one in stations[:most]:
        known = one.height_m is not None and height_m is not None
        higher = f"{one.height_m - height_m:+.0f} m" if known else "not known"  # type: ignore[operator]
        years = f"{one.first} to {one.last}"
        rain = "yes" if one.rain else "no"
        yield f"{one.id:<12} {one.km:5.0f}  {higher:>9}  {years:<17}  {rain:<4}  {one.name}"
    if (more := len(stations) - most) > 0:
        yield f"{more} more lie further off."


def _height(fetched: FetchedWeather) -> Iterator[str]:
    warmer = fetched.warmer_c
    if fetched.above_m is None or warmer is None:
        yield "How much higher or lower than the garden that is, is not known."
    elif abs(fetched.above_m) < SMALL_M:
        yield "That is as high as the garden."
    else:
        level, likely = ("above", "warmer") if fetched.above_m > 0 else ("below", "colder")
        yield (
            f"That is {abs(fetched.above_m):.0f} m {level} the garden, which is likely {abs(warmer):.1f} C "
            f"{likely} (0.65 C in 100 m, as in the standard atmosphere); nothing is corrected for it."
        )


def months_beside(months: Sequence[UsualMonth], here: Sequence[UsualMonth], label: str) -> Iterator[str]:
    """Usual months beside others, which `label` names in at most eight letters."""
    yield f"usual month    minimum  {label:>8}   maximum  {label:>8}      rain  {label:>8}"
    for theirs, own in zip(months, here, strict=True):
        yield (
            f"{MONTHS[theirs.month - 1]:<12} {theirs.tmin_c:7.1f} C {own.tmin_c:7.1f} C "
            f"{theirs.tmax_c:7.1f} C {own.tmax_c:7.1f} C {theirs.rain_mm:6.0f} mm {own.rain_mm:6.0f} mm"
        )


def _mean(months: Sequence[UsualMonth], what: str) -> float:
    return sum(float(getattr(month, what)) for month in months) / len(months)


def _way(far: float) -> str:
    return "higher" if far > 0 else "lower"
