"""What was fetched from an archive of weather, in plain lines: read before it is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.base.day_words import MONTHS
from leafturn.weather.normals.place_climate import LAPSE
from leafturn_tui.render.parts.values import Answer, fields
from leafturn_tui.render.weather import BASES, recorded_json, recorded_lines

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
        told = (
            "as they are here now"
            if abs(far) < SMALL_C
            else f"{quantities.degrees(abs(far))} {_way(far)} than here now"
        )
        yield f"Over the year the {what} of the archive are {told}."


def station_lines(stations: Sequence[Station], height_m: float | None, most: int) -> Iterator[str]:
    """The nearest stations: how far, how much higher, and which years they have."""
    yield f"station         {quantities.kilometres_unit()}  higher by  both temperatures  rain  name"
    for one in stations[:most]:
        higher = "not known"
        if one.height_m is not None and height_m is not None:
            above = one.height_m - height_m
            higher = f"{'+' if above > 0 else ''}{quantities.metres(above, 0)}"
        years = f"{one.first} to {one.last}"
        rain = "yes" if one.rain else "no"
        far = quantities.bare_kilometres(one.km)
        yield f"{one.id:<12} {far:>5}  {higher:>9}  {years:<17}  {rain:<4}  {one.name}"
    if (more := len(stations) - most) > 0:
        yield f"{more} more lie further off."


def fetched_json(fetched: FetchedWeather) -> Answer:
    """What was fetched, as plain nouns."""
    said = fields(fetched, "archive", "where", "notes", "months", "here", "basis", "above_m")
    return {**said, "recorded": recorded_json(fetched.recorded)}


def stations_json(stations: Sequence[Station], height_m: float | None) -> list[Answer]:
    """Every station, with how much higher than the garden it lies."""
    return [
        fields(one, "id", "name", "height_m", "first", "last", "rain", kilometres="km")
        | {"above_m": None if one.height_m is None or height_m is None else one.height_m - height_m}
        for one in stations
    ]


def _height(fetched: FetchedWeather) -> Iterator[str]:
    warmer = fetched.warmer_c
    if fetched.above_m is None or warmer is None:
        yield "How much higher or lower than the garden that is, is not known."
    elif abs(fetched.above_m) < SMALL_M:
        yield "That is as high as the garden."
    else:
        level, likely = ("above", "warmer") if fetched.above_m > 0 else ("below", "colder")
        yield (
            f"That is {quantities.metres(abs(fetched.above_m), 0)} {level} the garden, which is likely "
            f"{quantities.degrees(abs(warmer))} {likely} ({_lapse()}, as in the standard "
            "atmosphere); nothing is corrected for it."
        )


def months_beside(months: Sequence[UsualMonth], here: Sequence[UsualMonth], label: str) -> Iterator[str]:
    """Usual months beside others, which `label` names in at most eight letters."""
    yield f"usual month    minimum  {label:>8}   maximum  {label:>8}      rain  {label:>8}"
    say = quantities.celsius
    for theirs, own in zip(months, here, strict=True):
        yield (
            f"{MONTHS[theirs.month - 1]:<12} {say(theirs.tmin_c):>9} {say(own.tmin_c):>9} "
            f"{say(theirs.tmax_c):>9} {say(own.tmax_c):>9} {quantities.millimetres(theirs.rain_mm):>9} "
            f"{quantities.millimetres(own.rain_mm):>9}"
        )


def _lapse() -> str:
    per = "1,000 ft" if quantities.spoken() == "us" else "100 m"
    metres = 304.8 if quantities.spoken() == "us" else 100.0
    return f"{quantities.degrees(LAPSE * metres / 1000, 2)} in {per}"


def _mean(months: Sequence[UsualMonth], what: str) -> float:
    return sum(float(getattr(month, what)) for month in months) / len(months)


def _way(far: float) -> str:
    return "higher" if far > 0 else "lower"
