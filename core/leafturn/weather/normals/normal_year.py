"""Which normals to use, from what is known of a garden."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from leafturn.garden.model import Climate, FrostDate, Place
from leafturn.weather.calendar import month_day_place
from leafturn.weather.normals.monthly import year_from_months
from leafturn.weather.normals.normals import (
    FULL_RECORD_YEARS,
    Normals,
    from_record,
    guessed_rain,
    known_years,
    rain_from_months,
    usual_spread,
)
from leafturn.weather.normals.rough_year import coldest_place, daily_range, rough_year
from leafturn.weather.record import DailyRecord

ONLY_LATITUDE = (
    "Nothing but the latitude tells of the weather here, so every date is a rough guess: "
    "give the usual last and first frost, or the months' temperatures."
)
ONLY_FROST_DATES = "The year's warmth is guessed from the towns about and the frost dates."
ONLY_RARE_FROST = "The year's warmth is guessed from the latitude and from how seldom it freezes."


def normal_year(place: Place, climate: Climate | None = None, record: DailyRecord | None = None) -> Normals:
    """The normals of a garden, from the best that is known.

    Temperatures come from the first of these that is there: eight years or more of own record; the
    months' means in the garden file; a record that knows nearly all days of a year; the two frost dates,
    or how seldom it freezes; the latitude alone. Rain comes from the months' totals, the record, or a
    guess. Frosts in the garden file set when and how often made-up years freeze, unless the record has
    its eight years.

    Parameters
    ----------
    place : Place
        Latitude and height.
    climate : Climate or None
        What the garden file gives.
    record : DailyRecord or None
        The garden's own weather, checked.

    Returns
    -------
    Normals
        `basis` and `notes` say what they rest on.
    """
    climate = climate or Climate()
    own = from_record(record) if record is not None else None
    if own is not None and record is not None and known_years(record) >= FULL_RECORD_YEARS:
        return own
    from leafturn.weather.synthetic.frost_fit import fit_frost_dates

    normals = _from_months(place, climate, own) or own or _rough(place, climate)
    return fit_frost_dates(_with_rain(normals, climate, own), climate, place.southern)


def _from_months(place: Place, climate: Climate, own: Normals | None) -> Normals | None:
    """Normals from monthly means, with the spread of days measured where a record allows.

    The missing one of minimum and maximum is guessed from the other.
    """
    low, high = climate.tmin_c, climate.tmax_c
    if low is None and high is None:
        return None
    notes: tuple[str, ...] = ()
    if low is None or high is None:
        known, guessed = ("maxima", "minima") if low is None else ("minima", "maxima")
        notes = (f"The garden file gives only the months' {known}; the {guessed} are guessed from them.",)
    apart = daily_range(coldest_place(place.lat))
    tmin = year_from_months(low) if low is not None else year_from_months(high or ()) - apart
    tmax = year_from_months(high) if high is not None else tmin + apart
    rain, wet_share, _ = guessed_rain()
    normals = Normals(
        tmin=tmin, tmax=np.maximum(tmax, tmin), rain=rain, wet_share=wet_share, basis="climate normals",
        notes=notes, spread=usual_spread(tmin, np.maximum(tmax, tmin), lat=place.lat, lon=place.lon),
    )  # fmt: skip
    return normals if own is None else replace(normals, spread=own.spread, persistence=own.persistence)


def _rough(place: Place, climate: Climate) -> Normals:
    """The year guessed from frost dates, or from the latitude alone."""
    frosts = (climate.last_frost, climate.first_frost)
    freezing = min(frost.years if frost is not None else 1.0 for frost in frosts)
    rough = rough_year(
        place.lat, place.lon, place.height_m, *(_usual(frost) for frost in frosts), freezing=freezing
    )
    dated = any(_usual(frost) is not None for frost in frosts)
    said = ONLY_FROST_DATES if dated else ONLY_RARE_FROST if freezing < 1 else ONLY_LATITUDE
    return replace(rough, notes=(said,))


def _usual(frost: FrostDate | None) -> int | None:
    try:
        return None if frost is None or frost.usual is None else month_day_place(frost.usual)
    except ValueError:
        return None


def _with_rain(normals: Normals, climate: Climate, own: Normals | None) -> Normals:
    """The same with the best that is known of rain: the months' totals, the record, or a guess."""
    if climate.rain_mm is not None:
        rain, wet_share = rain_from_months(climate.rain_mm), own.wet_share if own else normals.wet_share
        return replace(normals, rain=rain, wet_share=wet_share)
    if normals is own:
        return normals
    if own is not None:
        return replace(normals, rain=own.rain, wet_share=own.wet_share, notes=(*normals.notes, *own.notes))
    return replace(normals, notes=(*normals.notes, *guessed_rain()[2]))
