"""Questions asked once before an unlikely note is kept."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.answers.note_check import question_about
from leafturn.journal.entries import KINDS, BloomNote, Entry, HarvestNote, HeapReading, PlainNote
from leafturn.tasks.season_model import SeasonModel

ON = dt.date(2027, 4, 19)


@pytest.mark.parametrize(
    ("fields", "question"),
    [
        ({"what": "bloom", "plant": "comice-1", "stage": "first open"}, None),
        ({"what": "bloom", "plant": "kiwi-f1", "stage": "first open"}, "days before anything expected here"),
        ({"what": "bloom", "plant": "hazel-j", "stage": "first open"}, "days after anything expected here"),
        ({"what": "bloom", "plant": "early-plum", "stage": "first open"}, "already noted for 29 Mar"),
        ({"what": "bloom", "plant": "comise-1", "stage": "first open"}, "Nearest is comice-1"),
        ({"what": "harvest", "plant": "quince", "kg": 4.5}, "days before anything expected here"),
        ({"what": "reading", "heap": "bay-2", "temp_c": 51.0}, None),
        ({"what": "reading", "heap": "bay-2", "temp_c": 136.0}, "no heap's warmth"),
        ({"what": "reading", "heap": "bay-9", "temp_c": 51.0}, "Nothing here is called bay-9"),
        ({"what": "cold", "tmin_c": -60.0}, "keep it?"),
        ({"what": "crown", "plant": "toll-ash", "live_percent": 28.0}, None),
        ({"what": "crown", "plant": "toll-ash", "live_percent": 90.0}, "found 33 % alive: keep 90 %?"),
        ({"what": "crown", "plant": "quince", "live_percent": 90.0}, None),
        ({"what": "note", "text": "a slow-worm"}, None),
    ],
)
def test_what_is_odd_is_asked_about(
    weir_meadow: Almanac, fields: dict[str, object], question: str | None
) -> None:
    said = {name: value for name, value in fields.items() if name != "what"}
    asked = weir_meadow.question_about(KINDS[str(fields["what"])](on=ON, **said))  # type: ignore[arg-type]
    if question is None:
        assert asked is None
    else:
        assert asked is not None
        assert question in asked
        assert asked.endswith("?")


def test_a_day_still_to_come_is_odd(weir_meadow: Almanac) -> None:
    asked = weir_meadow.question_about(PlainNote(on=ON + dt.timedelta(days=2), text="x"))
    assert asked == "21 Apr is still to come: keep it?"


@pytest.mark.parametrize(
    ("entry", "asks"),
    [
        (PlainNote(on=ON, text="a slow-worm"), False),
        (HeapReading(on=ON, heap="bay-2", temp_c=51.0), False),
        (BloomNote(on=ON, plant="comice-1", stage="first open"), True),
        (HarvestNote(on=ON, plant="quince", kg=4.5), True),
    ],
)
def test_forecasts_are_made_only_for_a_note_whose_date_they_may_doubt(
    weir_meadow: Almanac, entry: Entry, asks: bool
) -> None:
    asked = []

    def seasons() -> list[SeasonModel]:
        asked.append(entry)
        return [weir_meadow._seasons.now]

    question_about(entry, weir_meadow.day, seasons)
    assert bool(asked) == asks


def test_a_note_of_a_spring_before_is_held_against_that_spring(weir_meadow: Almanac) -> None:
    def asked(year: int, month: int, day: int) -> str | None:
        return weir_meadow.question_about(
            BloomNote(on=dt.date(year, month, day), plant="old-plum", stage="first open")
        )

    noted = {e.on.year: e.on for e in weir_meadow.entries if e.plant == "old-plum" and e.what == "bloom"}
    unnoted = next(year for year in range(2018, 2027) if year not in noted)
    assert asked(unnoted, 4, 22) is None
    assert "before anything expected here" in str(asked(unnoted, 1, 22))
    assert f" {unnoted})" in str(asked(unnoted, 1, 22))


SOUTHERN_MONTHS = {
    "tmax_c": [23.5, 23.8, 22.0, 19.0, 15.8, 13.2, 12.6, 13.6, 15.5, 17.6, 19.6, 21.8],
    "tmin_c": [12.6, 12.7, 10.8, 7.6, 4.6, 2.0, 1.2, 2.6, 5.0, 7.2, 9.2, 11.4],
}


@pytest.fixture(scope="module")
def southern(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    """Lemons of a southern garden ripen before the season's start in July and hang into November."""
    text = garden_text(
        plant("lemon", "lemon", year=2015),
        plant("quince", "quince", year=2015),
        climate=SOUTHERN_MONTHS,
        lat=-41.15,
        lon=173.0,
    )
    return almanac_of(tmp_path_factory.mktemp("southern"), text, "2027-10-05")


def test_what_is_picked_on_over_the_start_of_a_season_is_no_surprise(southern: Almanac) -> None:
    """Lemons are picked the year round in the north of New Zealand (common practice, no source)."""
    assert any(job.verb == "pick" and job.plant == "lemon" and job.state == "due" for job in southern.jobs())
    first = southern.likely_harvests()[0]
    assert (first.plant, first.words[:5]) == ("lemon", "since")
    assert first.chance > 0.9
    assert southern.question_about(HarvestNote(on=southern.on, plant="lemon", kg=3)) is None
    odd = southern.question_about(HarvestNote(on=southern.on, plant="quince", kg=3))
    assert odd is not None
    assert "days before anything expected here" in odd
