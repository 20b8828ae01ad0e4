"""Notes that change the garden are typed in the words of the journal."""

from __future__ import annotations

import pytest
from fake_almanac import GARDEN, ON

from leafturn.journal.entries import Done, JudgedNote, MovedNote, PlantedNote, WeatherNote
from leafturn.journal.store.checking import entry_from
from leafturn_tui.notes import NotUnderstood, grammar


def typed(text: str) -> object:
    return grammar.understand(text.split(), GARDEN, ON, typed=text)


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("planted quince", PlantedNote(on=ON, plant="quince")),
        ("moved quince to the south wall", MovedNote(on=ON, plant="quince", text="to the south wall")),
        ("judged quince keep", JudgedNote(on=ON, plant="quince", plan="keep")),
        ("judged quince move, too near", JudgedNote(on=ON, plant="quince", plan="move", text="too near")),
        ("wind", WeatherNote(on=ON, wind=True)),
        ("wind, gusts all night", WeatherNote(on=ON, wind=True, text="gusts all night")),
        ("weather wind", WeatherNote(on=ON, wind=True)),
        ("weather max 31", WeatherNote(on=ON, tmax_c=31.0)),
        ("weather min 1.5 max 31", WeatherNote(on=ON, tmin_c=1.5, tmax_c=31.0)),
        ("weather min 34F, max 60F, rain 0.5in", WeatherNote(on=ON, tmin_c=1.1, tmax_c=15.6, rain_mm=12.7)),
        ("weather rain 4", WeatherNote(on=ON, rain_mm=4.0)),
        ("rain 12", WeatherNote(on=ON, rain_mm=12.0)),
        ("rain 0", WeatherNote(on=ON, rain_mm=0.0)),
        ("rain 0.5in", WeatherNote(on=ON, rain_mm=12.7)),
        ("watering quince", Done(on=ON, plant="quince", task="quince:water")),
        ("watered quince 40 l", Done(on=ON, plant="quince", task="quince:water", amount="40 l")),
    ],
)
def test_what_acts(text: str, note: object) -> None:
    assert typed(text) == note


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("judged quince", "a plant is judged keep, move or remove: judged quince keep"),
        ("judged quince kep", "judged quince keep"),
        ("rain 12 buckets", "is no amount of rain; write rain 12 or rain 0.5in"),
        ("planted quinse", r"no plant 'quinse' here\. Did you mean quince\?"),
    ],
)
def test_what_does_not_fit_is_said(text: str, said: str) -> None:
    with pytest.raises(NotUnderstood, match=said):
        typed(text)


@pytest.mark.parametrize(
    "text", ["wind blew the hat off", "rain at last", "water the pots", "moved house", "mowed quince side"]
)
def test_a_sentence_stays_one(text: str) -> None:
    entry = grammar.understand(text.split(), GARDEN, ON, typed=text)
    assert (entry.what, entry.text) == ("note", text)


@pytest.mark.parametrize(
    ("table", "note"),
    [
        ({"what": "wind"}, WeatherNote(on=ON, wind=True)),
        ({"what": "rain", "rain_in": 0.5}, WeatherNote(on=ON, rain_mm=12.7)),
        ({"what": "frost", "tmin_c": -2.8}, WeatherNote(on=ON, tmin_c=-2.8)),
        (
            {"what": "watering", "plant": "quince", "amount": "40 l"},
            Done(on=ON, plant="quince", task="quince:water", amount="40 l"),
        ),
        (
            {"what": "judged", "plant": "quince", "plan": "Keep"},
            JudgedNote(on=ON, plant="quince", plan="keep"),
        ),
    ],
)
def test_a_file_may_use_the_same_words(table: dict[str, object], note: object) -> None:
    entry, faults = entry_from({"on": ON, **table}, "", 0)
    assert faults == []
    assert entry == note


def test_a_file_is_told_what_such_a_note_lacks() -> None:
    entry, (fault,) = entry_from({"on": ON, "what": "rain"}, "2027.toml", 7)
    assert entry is None
    assert (fault.line, fault.message) == (7, 'This "rain" note lacks its rain_mm, so it is left out.')
    entry, (fault,) = entry_from(
        {"on": ON, "what": "judged", "plant": "quince", "plan": "kep"}, "2027.toml", 9
    )
    assert entry is None
    assert fault.hint == 'Did you mean "keep"?'
