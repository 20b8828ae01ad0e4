"""How rare a frost is, in the words of a garden file."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.samples.garden_files import PLACE, reading_of, sentences

from leafturn.garden.model import Climate, FrostDate
from leafturn.garden.reading.frost_dates import month_and_day, share_of_years

WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def climate_of(text: str, folder: Path) -> tuple[Climate | None, list[str]]:
    """The climate and the faults."""
    reading = reading_of(PLACE + text, folder)
    return reading.garden.climate, sentences(reading)


@given(
    few=st.integers(0, 50),
    more=st.integers(0, 50),
    noun=st.sampled_from(["", " year", " years", " winter", " springs"]),
    way=st.sampled_from(["in", "of", "out of", "in every"]),
    end=st.sampled_from(["", " years", " winters"]),
    spaces=st.sampled_from(["", " ", "\t"]),
    shout=st.booleans(),
)
def test_a_share_of_years_in_many_spellings(
    few: int, more: int, noun: str, way: str, end: str, spaces: str, shout: bool
) -> None:
    of = max(few + more, 1)
    said = f"{spaces}{few}{noun} {way} {spaces}{of}{end}"
    assert share_of_years(said.upper() if shout else said) == few / of


@given(few=st.integers(0, 10), more=st.integers(0, 10))
def test_small_numbers_may_be_words(few: int, more: int) -> None:
    of = min(max(few + more, 1), 10)
    assert share_of_years(f"{WORDS[few]} years in {WORDS[of]}") == few / of


@given(st.text() | st.integers() | st.none() | st.floats() | st.booleans() | st.lists(st.text()))
def test_anything_is_read_or_not_understood_and_never_both(value: object) -> None:
    day, share = month_and_day(value), share_of_years(value)
    assert share is None or (0 <= share <= 1 and day is None)


@given(st.integers(0, 10**9), st.integers(0, 10**9))
def test_more_years_than_there_are_is_no_share(few: int, of: int) -> None:
    share = share_of_years(f"{few} in {of}")
    assert (share is not None) == (0 < of <= 1000 and few <= of)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ('"never"', FrostDate(years=0)),
        ('"Never "', FrostDate(years=0)),
        ('"1 year in 5"', FrostDate(years=0.2)),
        ('"2 years in 10"', FrostDate(years=0.2)),
        ('{ years = "1 in 5" }', FrostDate(years=0.2)),
        ('{ usual = "01-10", years = "1 in 5" }', FrostDate(usual="01-10", years=0.2)),
        ('{ usual = "1 year in 5" }', FrostDate(years=0.2)),
        ('{ usual = "never" }', FrostDate(years=0)),
        ('{ usual = "01-10", years = "10 in 10" }', FrostDate(usual="01-10")),
    ],
)
@pytest.mark.parametrize("table", ["", "[climate]\n"])
def test_frost_that_is_rare_or_never_comes(written: str, read: FrostDate, table: str, tmp_path: Path) -> None:
    climate, faults = climate_of(f"{table}last_frost = {written}\n", tmp_path)
    assert (climate, faults) == (Climate(last_frost=read), [])


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ('"nevr"', 'Write "never" where it does not freeze.'),
        ('"none"', 'Write "never" where it does not freeze.'),
        ('"frost free"', 'Write "never" where it does not freeze.'),
        ("false", 'Write "never" where it does not freeze.'),
        ('"rarely"', 'Write how often it freezes: "1 year in 5".'),
        ('"5/28"', 'Write "05-28" (month-day).'),
        ('"28/5"', 'Write "05-28" (month-day).'),
        ('"4/5"', 'Write "05-04" or "04-05", whichever it is (month-day).'),
        ('"1 yer in 5"', 'Write how often it freezes: "1 year in 5".'),
        ('"6 years in 5"', 'Write how often it freezes: "1 year in 5".'),
        ('"20 %"', 'Write how often it freezes: "1 year in 5".'),
        ('"soon"', 'Write "04-24" (month-day), or "1 year in 5", or "never".'),
        ('["04-24", "05-12"]', 'Write last_frost = { usual = "04-24", one_year_in_ten_after = "05-12" }'),
        ('{ usual = "01-10", years = "now and then" }', 'Write years = "1 in 5", or "never".'),
        ("{ years = 0.2 }", 'Write years = "1 in 5", or "never".'),
        ('{ usual = "01-10", years = "never" }', "usual of last_frost says nothing where it never comes"),
        (
            '{ usual = "01-10", years = "1 in 2", one_year_in_ten_after = "02-10" }',
            "one_year_in_ten_after of last_frost says nothing where years tells that it does not come",
        ),
        ('{ years = "1 in 1", one_year_in_ten_after = "02-10" }', "has no usual day beside it"),
    ],
)
def test_slips_cost_one_sentence_with_a_hint(written: str, said: str, tmp_path: Path) -> None:
    climate, faults = climate_of(f'last_frost = {written}\nfirst_frost = "10-16"\n', tmp_path)
    kept = [fault for fault in faults if "one winter has both" not in fault]
    assert len(kept) == 1
    assert kept[0].startswith("line 4: ")
    assert said in kept[0]
    assert climate is not None
    assert climate.first_frost == FrostDate(usual="10-16")


def test_one_winter_cannot_freeze_and_not_freeze(tmp_path: Path) -> None:
    climate, faults = climate_of('last_frost = "never"\nfirst_frost = "12-16"\n', tmp_path)
    assert climate == Climate(first_frost=FrostDate(usual="12-16"))
    (fault,) = faults
    assert fault.startswith("line 4: last_frost never comes, but first_frost does: one winter has both;")
    assert fault.endswith('Write "never" for both, or a day or "1 year in 5".')
