"""Every sentence that is told, wherever it is told: what none of them may do.

Answers, jobs and pages over the year in three gardens: the demo, a cold one inland and one by the
Mediterranean, both known by their normals alone. Views, dialogs step by step, papers and calendar files in
these and in odd gardens. Faults of gardens and journals in which every key has a wrong value, of a disk that
refuses, of points and of lists of gardens.
"""

from __future__ import annotations

import datetime as dt
import shutil
from collections.abc import Iterable
from pathlib import Path

import pytest
from tests import in_process
from tests.faults.trial import is_sentence
from tests.samples.odd_gardens import ODD, gardens_of_slips, odd_garden
from tests.samples.places import DEMO
from tests.samples.sentences import another_days, sentences_of, slips
from tests.samples.told import TYPED, dialog_texts, paper_texts, rarer_texts, texts
from tests.samples.wrong_files import disk_refusals, fleet_refusals, journal_faults, point_faults
from tests.samples.year_gardens import write_garden

from leafturn.almanac import Almanac, open_almanac
from leafturn.base import quantities
from leafturn.base.faults import Unreadable

GARDENS = ("demo", "minneapolis", "kalamata")
A_DAY = {"demo": "2027-04-19", "minneapolis": "2027-05-10", "kalamata": "2027-02-10"}
THIRTY_DAYS = [dt.date(2027, 1, 6) + dt.timedelta(days=12 * n) for n in range(30)]


def opened(garden: str, folder: Path, on: dt.date) -> Almanac:
    if garden == "demo":
        return in_process.opened(DEMO, on)
    return open_almanac(write_garden(garden, folder / garden), on)


def wrong(almanac: Almanac, told: Iterable[str], *, on_paper: bool = False) -> list[str]:
    """Every sentence that is not as it should be, with what is wrong in it."""
    garden = almanac.garden
    names = frozenset(name for plant in garden.plants for name in (plant.id, *plant.kind.split()))
    on = None if on_paper else almanac.on
    return [
        f"{almanac.on}: {', '.join(found)}: {said}"
        for said in sentences_of(told)
        if (found := slips(said, on, names))
    ]


def wrong_sentences(almanac: Almanac, *, slow: bool) -> list[str]:
    """Those of a day's answers, jobs and pages."""
    others = (another_days(job, almanac) for job in almanac.jobs())
    another = [f"{almanac.on}: another plant's day: {said}" for said in others if said]
    return wrong(almanac, texts(almanac, slow=slow)) + another


def wrong_faults(told: Iterable[str]) -> list[str]:
    """Faults that are no plain sentence, and sentences of faults that are not as they should be."""
    faults = list(dict.fromkeys(told))
    assert faults, "nothing was said"
    found = [said for said in faults if not is_sentence(said)]
    return found + [said for said in sentences_of(faults) if slips(said, None)]


@pytest.mark.long
@pytest.mark.parametrize("garden", GARDENS)
def test_every_sentence_of_a_day(garden: str, tmp_path: Path) -> None:
    almanac = opened(garden, tmp_path, dt.date.fromisoformat(A_DAY[garden]))
    assert wrong_sentences(almanac, slow=garden == "minneapolis") == []
    assert wrong(almanac, paper_texts(almanac), on_paper=True) == []


@pytest.mark.long
@pytest.mark.parametrize("garden", ODD)
def test_every_sentence_of_an_odd_garden(garden: str, tmp_path: Path) -> None:
    almanac = odd_garden(garden, tmp_path)
    assert almanac.faults == ()
    with quantities.speaking(almanac.garden.place.units):
        assert wrong_sentences(almanac, slow=garden == "odd") == []
        assert wrong(almanac, paper_texts(almanac), on_paper=True) == []
        if garden in ("empty", "tropical"):
            assert wrong(almanac, rarer_texts(almanac)) == []


@pytest.mark.parametrize("text", list(gardens_of_slips()))
def test_every_fault_of_a_wrong_value(text: str, tmp_path: Path) -> None:
    """Told as the file writes it, never as the code does, and never long."""
    (tmp_path / "garden.toml").write_text(text)
    try:
        faults = open_almanac(tmp_path, ON).faults
    except Unreadable as why:
        faults = (why.fault,)
    assert [said for said in sentences_of(fault.sentence() for fault in faults) if slips(said, None)] == []


def test_every_fault_of_a_journal(tmp_path: Path) -> None:
    assert wrong_faults(journal_faults(tmp_path)) == []


def test_every_refusal_of_a_disk() -> None:
    assert wrong_faults(disk_refusals()) == []


def test_every_fault_of_points_and_of_lists_of_gardens(tmp_path: Path) -> None:
    assert wrong_faults(point_faults(DEMO)) == []
    assert wrong_faults(fleet_refusals(tmp_path)) == []


@pytest.mark.long
@pytest.mark.parametrize("typed", TYPED)
def test_every_sentence_of_what_dialogs_ask_next(typed: str, tmp_path: Path) -> None:
    almanac = open_almanac(shutil.copytree(DEMO, tmp_path / "garden"), ON)  # some of them write
    assert wrong(almanac, dialog_texts(almanac, typed)) == []


@pytest.mark.long
@pytest.mark.parametrize("garden", GARDENS)
def test_every_sentence_of_thirty_days(garden: str, tmp_path: Path) -> None:
    almanac = opened(garden, tmp_path, THIRTY_DAYS[0])
    found: list[str] = []
    for on in THIRTY_DAYS:
        almanac = almanac.at(on)
        found += wrong_sentences(almanac, slow=on in THIRTY_DAYS[::15])
    assert found == []


@pytest.mark.long
@pytest.mark.parametrize("garden", GARDENS)
def test_every_view_dialog_and_paper_of_the_seasons(garden: str, tmp_path: Path) -> None:
    almanac = opened(garden, tmp_path, THIRTY_DAYS[0])
    found: list[str] = []
    for on in THIRTY_DAYS[4::8]:
        almanac = almanac.at(on)
        found += wrong(almanac, rarer_texts(almanac))
        found += wrong(almanac, paper_texts(almanac), on_paper=True)
    assert found == []


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
        ("lon = {'odd': 'x'} is no longitude.", "a value as the code writes it"),
        ("The heap is at None.", "a value as the code writes it"),
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
        "note 2027-05-03.3.2967 takes nothing back.",
    ],
)
def test_what_is_well_said_has_no_slip(said: str) -> None:
    assert slips(said, ON) == []


def test_a_list_of_names_is_one_word() -> None:
    names = frozenset(f"plum-{n}" for n in range(40))
    assert slips(f"Gain: {', '.join(sorted(names))}.", ON, names) == []
