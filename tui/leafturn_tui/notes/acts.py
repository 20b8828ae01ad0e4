"""Notes that change what the garden is on a day: planted, moved, judged, watered, and its weather."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from msgspec.structs import replace

from leafturn.base import quantities
from leafturn.base.closed_words import JUDGEMENTS
from leafturn.base.faults import nearest_word
from leafturn.garden.model import Garden
from leafturn.journal.entries import Done, Entry, JudgedNote, MovedNote, PlantedNote, WeatherNote
from leafturn.journal.job_id import JobId, subject_id
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.notes.names import is_name, likely_plant, plant_id
from leafturn_tui.notes.quantities import celsius, is_temperature, millimetres

OPENERS = ("planted", "moved", "judged", "watering", "wind", "snow", "rain", "frost", "weather")
WATERING = ("watering", "watered", "water")
NAMED_WEATHER = {  # what a word by itself says of a day
    "wind": lambda on: WeatherNote(on=on, wind=True),
    "snow": lambda on: WeatherNote(on=on, snow=True),
}
WARMEST_FROST_C = 5.0  # above it what was typed is most likely Fahrenheit; a guess


def read(kind: str, rest: Sequence[str], garden: Garden, on: dt.date) -> Entry | None:
    """The note that begins with one of these words; None where it is none of them, or a mere sentence.

    Parameters
    ----------
    kind : str
        The first word, in small letters.
    rest : sequence of str
        The words after it.

    Raises
    ------
    NotUnderstood
        If the first word tells what is meant and the rest does not fit.
    """
    said = " ".join(rest)
    if kind in ("planted", "moved") and rest and likely_plant(rest[0], garden):
        note = PlantedNote if kind == "planted" else MovedNote
        return note(on=on, plant=plant_id(rest[0], garden), text=_after(rest[1:]))
    if kind == "judged" and rest and likely_plant(rest[0], garden):
        return judged(plant_id(rest[0], garden), rest[1:], on)
    if kind in WATERING and rest:
        return _watering(rest, garden, on)
    if (named := kind.rstrip(",;:")) in NAMED_WEATHER and (kind != named or len(rest) < 2):
        return replace(NAMED_WEATHER[named](on), text=_after(rest))
    if kind == "rain" and rest and rest[0][0].isdigit():
        return WeatherNote(on=on, rain_mm=millimetres(said))
    if kind == "frost" and is_temperature(said):
        return frost(said, on)
    return _weather(rest, on) if kind == "weather" else None


def judged(plant: str, words: Sequence[str], on: dt.date) -> JudgedNote:
    """The note of what a plant was judged: keep, move or remove, and what else there is to say."""
    word = words[0].lower().strip(",;:") if words else ""
    plan = next((known for known in JUDGEMENTS if known == word), None)
    if plan is None:
        meant = nearest_word(word, JUDGEMENTS) if word else None
        write = f"judged {plant} {meant or 'keep'}"
        raise NotUnderstood(f"a plant is judged {', '.join(JUDGEMENTS[:-1])} or {JUDGEMENTS[-1]}: {write}")
    return JudgedNote(on=on, plant=plant, plan=plan, text=_after(words[1:]))


def _watering(rest: Sequence[str], garden: Garden, on: dt.date) -> Done | None:
    """Water given to a plant or to a guild: the job of watering done there, and how many litres."""
    guilds = {subject_id(f"{p.guild} guild") for p in garden.plants if p.guild}
    amount = _after(rest[1:])
    if rest[0].lower() in guilds:
        return Done(on=on, task=str(JobId(rest[0].lower(), "water")), amount=amount)
    if not is_name(rest[0], garden):
        return None
    plant = plant_id(rest[0], garden)
    return Done(on=on, plant=plant, task=str(JobId(plant, "water")), amount=amount)


def frost(degrees: str, on: dt.date) -> WeatherNote:
    """The note of a morning's minimum that was a frost: "-2.8" or "27F"."""
    minimum = celsius(degrees)
    if minimum > WARMEST_FROST_C:
        raise NotUnderstood(f"{quantities.celsius(minimum)} is no frost; write frost -2.8 or frost 27F")
    return WeatherNote(on=on, tmin_c=minimum)


def _weather(rest: Sequence[str], on: dt.date) -> WeatherNote | None:
    """Readings: "weather min 1.5", "weather min 1.5 max 31 rain 12", "weather wind"; None for other words."""
    said = " ".join(rest).lower()
    if said in NAMED_WEATHER:
        return NAMED_WEATHER[said](on)
    first, *parts = re.split(r"\b(min|max|rain)\b", said)
    values: dict[str, float] = {}
    for which, written in zip(parts[::2], parts[1::2], strict=True):
        value = written.strip(" ,;")
        fits = re.match(r"\d", value) if which == "rain" else is_temperature(value)
        if first.strip() or not fits or which in values:
            return None
        values[which] = millimetres(value) if which == "rain" else celsius(value)
    if not values:
        return None
    low, high, rain = (values.get(which) for which in ("min", "max", "rain"))
    if low is not None and high is not None and low > high:
        raise NotUnderstood("the minimum of a day lies below its maximum; write weather min 1.5 max 31")
    return WeatherNote(on=on, tmin_c=low, tmax_c=high, rain_mm=rain)


def _after(words: Sequence[str]) -> str | None:
    return " ".join(words).strip(" ,;:") or None
