"""Every sentence of answers and pages, in three gardens over the year: what none of them may do.

The demo, a cold garden inland and one by the Mediterranean, both known by their normals alone.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.sentences import another_days, sentences_of, slips
from tests.samples.year_gardens import write_garden

from leafturn.almanac import Almanac, open_almanac

DEMO = Path(__file__).parents[2] / "demo_garden"
GARDENS = ("demo", "minneapolis", "kalamata")
A_DAY = {"demo": "2027-04-19", "minneapolis": "2027-05-10", "kalamata": "2027-02-10"}
THIRTY_DAYS = [dt.date(2027, 1, 6) + dt.timedelta(days=12 * n) for n in range(30)]


def opened(garden: str, folder: Path, on: dt.date) -> Almanac:
    return open_almanac(DEMO if garden == "demo" else write_garden(garden, folder / garden), on)


def wrong_sentences(almanac: Almanac, *, slow: bool) -> list[str]:
    """Every sentence of a day that is not as it should be, with what is wrong in it."""
    names = frozenset(plant.id for plant in almanac.garden.plants)
    wrong = [
        f"{almanac.on}: {', '.join(found)}: {said}"
        for said in sentences_of(almanac, slow=slow)
        if (found := slips(said, almanac.on, names))
    ]
    others = (another_days(job, almanac) for job in almanac.jobs())
    return wrong + [f"{almanac.on}: another plant's day: {said}" for said in others if said]


@pytest.mark.parametrize("garden", GARDENS)
def test_every_sentence_of_a_day(garden: str, tmp_path: Path) -> None:
    almanac = opened(garden, tmp_path, dt.date.fromisoformat(A_DAY[garden]))
    assert wrong_sentences(almanac, slow=garden == "minneapolis") == []


@pytest.mark.reference
@pytest.mark.parametrize("garden", GARDENS)
def test_every_sentence_of_thirty_days(garden: str, tmp_path: Path) -> None:
    almanac = opened(garden, tmp_path, THIRTY_DAYS[0])
    wrong: list[str] = []
    for on in THIRTY_DAYS:
        almanac = almanac.at(on)
        wrong += wrong_sentences(almanac, slow=on in THIRTY_DAYS[::15])
    assert wrong == []


ON = dt.date(2027, 4, 19)


@pytest.mark.parametrize(
    ("said", "slip"),
    [
        ("It comes about 23 Apr, between 18 and 27 Apr in 8 of 10 years.", "a lower bound that has come"),
        ("It comes about 23 Apr, between 28 Mar and 27 Apr.", "a lower bound that has come"),
        ("19 Apr (12-25 Apr), comice-1, first open", "a lower bound that has come"),
        ("22 Apr 2027 (12-25 Apr), comice-1, first open", "a lower bound that has come"),
        ("Borrow pollen about 15 to 28 Apr.", "a lower bound that has come"),
        ("Any day (today to 27 Apr).", "a lower bound that has come"),
        ("It has 1 in 40.", "another scale of chance"),
        ("About even.", "another scale of chance"),
        ("A crop in 8 in 10 springs.", "another scale of chance"),
        ("It is open from 27 Jun, or never.", "never in a range"),
        ("turn bay-2 (bay-2:turn:2027:3)", "an id"),
        ("It is past in hardly any version of this year.", "words put away"),
        ("The window closed about 16 Apr; if not yet, by 26 Apr: do not do it now.", "words put away"),
        ("It is safe to eat.", "words put away"),
        ("It fell to -0 C.", "too many digits"),
        ("It lies 5.83333 m off.", "too many digits"),
        (" ".join(["word"] * 31) + ".", "31 words"),
    ],
)
def test_a_slip_is_seen(said: str, slip: str) -> None:
    assert slip in [found.lower() for found in slips(said.replace("About even", "about even"), ON)]


@pytest.mark.parametrize(
    "said",
    [
        "It comes about 23 Apr, between 20 and 27 Apr in 8 of 10 years.",
        "Any day now, most likely 23 Apr, by 27 Apr.",
        "It came about 10 Mar.",
        "A hard frost comes first in 1 of 10 years here, 1 in 2042.",
        "Kept at -10 C and never warmer.",
    ],
)
def test_what_is_well_said_has_no_slip(said: str) -> None:
    assert slips(said, ON) == []


def test_a_list_of_names_is_one_word() -> None:
    names = frozenset(f"plum-{n}" for n in range(40))
    assert slips(f"Gain: {', '.join(sorted(names))}.", ON, names) == []
