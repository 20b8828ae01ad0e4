"""The command `leafturn weather`: what is known of the weather, in plain text and as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from leafturn.base import quantities
from leafturn.base.day_words import MONTHS, SHORT_MONTHS
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import fields, plain_value
from leafturn_tui.render.season import chill_lines, frost_dates, winter_chill
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.season import Heat
    from leafturn.answers.weather import Recorded, WeatherKnown
    from leafturn.garden.model import Climate
    from leafturn.weather.normals.normals import NormalsBasis
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="What is known of the weather?", place=60)
BASES: Mapping[NormalsBasis, str] = {
    "own record": "The usual year is measured on the garden's own record.",
    "climate normals": "The usual year comes from the months' temperatures in the garden file.",
    "two frost dates": "The usual year is guessed from the two frost dates.",
    "latitude and rare frost": "The usual year is guessed from the latitude and from how seldom it freezes.",
    "latitude alone": "The usual year is guessed from the latitude alone.",
}


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What is known of the weather: the record and its gaps, the usual year, the warming used."""
    known = almanac.weather()
    if known.recorded is None and almanac.garden.place.weather:
        yield f"No weather could be read from {almanac.garden.place.weather}: leafturn check says why."
    elif known.recorded is None:
        yield 'No weather was recorded here: name a file under [place], weather = "weather.csv".'
    else:
        yield from recorded_lines(known.recorded)
    yield BASES[known.basis]
    yield from known.notes
    if known.recorded is not None:
        yield _warming(known)
    frost = almanac.heading().frost
    last = phrases.frost_day(frost.last, frost.last_years, almanac.on)
    first = phrases.frost_day(frost.first, frost.first_years, almanac.on)
    yield from foreseen_lines(almanac)
    yield f"This season's frost: last of spring {last}, first of autumn {first}."
    if known.recorded is None:
        yield from stated_frost(almanac.garden.climate, met=known.frosts_met)
    yield from chill_lines(almanac.season())
    yield from heat_lines(almanac.heading().heat)
    yield ""
    yield "usual month    minimum   maximum  days differ by    rain"
    for month in known.months:
        yield (
            f"{MONTHS[month.month - 1]:<12} {quantities.celsius(month.tmin_c):>9} "
            f"{quantities.celsius(month.tmax_c):>9} {quantities.degrees(month.strays_c):>15} "
            f"{quantities.millimetres(month.rain_mm):>11}"
        )


def foreseen_lines(almanac: AlmanacFace) -> Iterator[str]:
    """The nights to come that are foreseen, and by what."""
    nights, pocket = almanac.foreseen(), almanac.garden.place.frost_pocket_c
    if not nights:
        return
    name = almanac.garden.place.forecast
    by = f" by {name}" if name and not all(night.typed for night in nights) else ""
    told = (
        f"{phrases.stretch(n.eve, n.eve + dt.timedelta(days=1), almanac.on)} "
        f"{quantities.celsius(n.station_c + pocket)}{' (typed)' if n.typed else ''}"
        for n in nights
    )
    yield f"Nights foreseen in the garden{by}: {', '.join(told)}."


def stated_frost(climate: Climate | None, *, met: bool) -> Iterator[str]:
    """The frost days as the garden file states them, and whether years made up for them have just these."""
    said = []
    for what, frost, side in (
        ("last frost", climate and climate.last_frost, "after"),
        ("first frost", climate and climate.first_frost, "before"),
    ):
        if frost and frost.usual and frost.years == 1:
            far = frost.one_year_in_ten_after if side == "after" else frost.one_year_in_ten_before
            tenth = f" ({side} {_month_and_day(far)} in 1 of 10 years)" if far else ""
            said.append(f"{what} {_month_and_day(frost.usual)}{tenth}")
    if said:
        how = "have these days" if met else "come as near to that as the temperatures let them"
        yield f"The garden file states: {', '.join(said)}. Made-up years {how}."


def _month_and_day(text: str) -> str:
    month, day = map(int, text.split("-"))
    return f"{day} {SHORT_MONTHS[month - 1]}"


def heat_lines(heat: Heat) -> Iterator[str]:
    """The season's heat by two ways of counting a day; nothing where they come to the same."""
    other = heat.four_cases
    if other is None:
        return
    own, second = (_heat_said(one) for one in (heat, other))
    if own != second:
        said = f"Heat above {quantities.celsius(heat.base, 0)} so far: {own} by a sine through each day"
        yield f"{said}, {second} by the four cases of met services."


def _heat_said(heat: Heat) -> str:
    ahead = phrases.ahead(heat.days_ahead)
    return (
        f"{phrases.count(quantities.heat(heat.to_date), 'degree-day')}{' (' + ahead + ')' if ahead else ''}"
    )


def recorded_lines(recorded: Recorded) -> Iterator[str]:
    """How much a record knows, its longest gaps, and what was set aside in it."""
    first, last = phrases.long_day(recorded.first), phrases.long_day(recorded.last)
    known = f"{phrases.count(recorded.known, 'day')} of {recorded.days}"
    yield f"Recorded: {first} to {last}, {known} with both temperatures."
    for gap in recorded.longest_gaps:
        first, last = phrases.day(gap.first), phrases.day(gap.last)
        yield (
            f"Not known: {first} {gap.first.year} to {last} {gap.last.year}, "
            f"{phrases.count(gap.days, 'day')}; filled from the usual year."
        )
    yield from recorded.set_aside


def _warming(known: WeatherKnown) -> str:
    warming = known.warming
    own = f"the record's {phrases.count(warming.years, 'whole year')} and the usual warming of land together"
    source = own if warming.years else "the usual warming of land"
    return (
        f"Past years are moved by {quantities.degrees(10 * warming.per_year)} a decade, give or take "
        f"{quantities.bare_degrees(10 * warming.standard_error)}: {source}."
    )


def as_json(almanac: AlmanacFace) -> dict[str, Any]:
    """The same as plain nouns."""
    known = almanac.weather()
    recorded = known.recorded
    frost, chill = frost_dates(almanac.heading().frost), almanac.season().chill
    record = None if recorded is None else recorded_json(recorded)
    return {
        "weather": {
            "recorded": record,
            "basis": known.basis,
            "months": plain_value(known.months),
            "warming": {
                "celsius_in_ten_years": 10 * known.warming.per_year,
                "give_or_take": 10 * known.warming.standard_error,
                "years": known.warming.years,
            },
            "foreseen": [
                fields(night, "eve", "typed", station_celsius="station_c") for night in almanac.foreseen()
            ],
            "frost": {"last": frost["last"], "first": frost["first"]},
            "winter_chill": None if chill is None else winter_chill(chill),
            "notes": list(known.notes),
        }
    }


def recorded_json(recorded: Recorded) -> dict[str, Any]:
    """A record with the length of each of its gaps."""
    gaps = [plain_value(gap) | {"days": gap.days} for gap in recorded.longest_gaps]
    return {**plain_value(recorded), "longest_gaps": gaps}
