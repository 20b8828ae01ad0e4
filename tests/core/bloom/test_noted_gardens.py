"""What notes do to a whole garden's forecast, on a file of weather, on normals, and on two frost dates."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.invented_sites import FIRST_YEAR, LAST_YEAR
from tests.samples.noted_gardens import (
    NEW_YEAR,
    WEATHER,
    Noted,
    opened,
    plant,
    same_days,
    usual,
    write_garden,
)

from leafturn.almanac import Almanac, open_almanac
from leafturn.bloom.priors.response import FIRST_DAY, day_reached
from leafturn.bloom.season_weather import SeasonWeather

KINDS = {
    "pear": "pear", "apple": "apple", "plum": "european plum", "quince": "quince", "lilac": "lilac",
    "cherry": "sweet cherry",
}  # fmt: skip
ALL = "".join(plant(id, kind) for id, kind in KINDS.items())
PEAR = plant("pear", "pear")
STRAY = (0, 5, -4, 3, -5, 1)  # days by which dates of one plant differ from spring to spring

everywhere = pytest.mark.parametrize("weather", list(WEATHER))


def middle(almanac: Almanac, target: str) -> float:
    """Median day number of first open."""
    return float(np.median(almanac.forecasts[target].first_open))


def springs(target: str, day: dt.date, first: int = 2006) -> list[Noted]:
    """Notes of six springs about a day."""
    return [
        (target, day.replace(year=first + i) + dt.timedelta(days=off), "first open")
        for i, off in enumerate(STRAY)
    ]


@pytest.mark.sweep(each=4)
@everywhere
@pytest.mark.parametrize("stage", ["first open", "full bloom"])
@pytest.mark.parametrize("far", [-20, 20])
def test_three_notes_within_two_days_win_against_the_book(
    tmp_path: Path, weather: str, stage: str, far: int
) -> None:
    """Nine tenths of the way where dates alone tell; with weather some of it may be the springs' own."""
    field = "first_open" if stage == "first open" else "full"
    book = usual(opened(tmp_path / "book", PEAR, (), weather), "pear", field)
    noted = book + dt.timedelta(days=far)
    after = opened(tmp_path / "noted", PEAR, same_days("pear", noted, (2009, 2010, 2011), stage), weather)
    # by the day of the year: the year foreseen is a leap year, those noted are none
    off = usual(after, "pear", field).timetuple().tm_yday - noted.replace(year=2009).timetuple().tm_yday
    assert abs(off) <= (4 if weather == "a file" else 3)
    forecast = after.forecasts["pear"]
    assert (forecast.own_notes, forecast.basis, forecast.questioned) == (3, "own record", ())


def test_three_notes_of_a_plant_of_known_level_find_it(tmp_path: Path) -> None:
    """A pear that takes twice the warmth of its kind: after three springs it is foreseen in others."""
    book = opened(tmp_path / "book", PEAR, (), "a file")
    need = book.forecasts["pear"].need
    assert need is not None
    weather = book._seasons.now.weather
    true = need.published + np.log(2.0)
    days = {year: true_day(weather, need.timing, true, year) for year in range(FIRST_YEAR, LAST_YEAR + 1)}
    assert np.std(list(days.values())) > 4
    notes = [
        ("pear", dt.date(y, 1, 1) + dt.timedelta(days=round(days[y]) - 1), "first open")
        for y in (2009, 2010, 2011)
    ]
    after = opened(tmp_path / "noted", PEAR, notes, "a file")
    found = after.forecasts["pear"].need
    assert found is not None
    assert found.used == pytest.approx(true, abs=0.1)
    assert found.own == pytest.approx(true, abs=0.1)
    assert found.published == need.published


def true_day(weather: SeasonWeather, timing: object, level: float, year: int) -> float:
    """Day of the year on which a level was reached in a past spring."""
    sums = weather.past_sums(timing, year)  # type: ignore[arg-type]
    return float(day_reached(sums[None], np.array([level]))[0])


@everywhere
def test_one_note_pulls_and_three_pull_more(tmp_path: Path, weather: str) -> None:
    book = opened(tmp_path / "book", PEAR, (), weather)
    noted = usual(book, "pear") + dt.timedelta(days=12)
    one, three = (
        middle(opened(tmp_path / str(len(years)), PEAR, same_days("pear", noted, years), weather), "pear")
        - middle(book, "pear")
        for years in ((2011,), (2009, 2010, 2011))
    )
    assert 1.5 < one < 12
    assert three < 13
    assert three > one or weather == "a file"  # there the springs differ


@pytest.mark.sweep(each=3)
@everywhere
@pytest.mark.parametrize("far", [-8, 8])
def test_notes_of_other_kinds_tell_of_the_place_and_less_than_own(
    tmp_path: Path, weather: str, far: int
) -> None:
    book = opened(tmp_path / "book", ALL, (), weather)
    late = {p: usual(book, p) + dt.timedelta(days=far) for p in KINDS}
    others = opened(
        tmp_path / "others", ALL, [n for p in KINDS if p != "pear" for n in springs(p, late[p])], weather
    )
    own = opened(tmp_path / "own", ALL, springs("pear", late["pear"]), weather)
    by_place, by_own = (middle(a, "pear") - middle(book, "pear") for a in (others, own))
    assert 0.5 < by_place * np.sign(far) < 0.6 * by_own * np.sign(far)
    days, sd = others._seasons.now.outlook.place_days
    assert np.sign(days) == np.sign(far)
    assert 0 < sd < 1.7  # days; 0.05 of ln warmth before any note
    assert others.forecasts["pear"].basis != "own record"
    line = next(n for n in others.learnt().lines if n.plant == "pear")
    assert np.sign(line.place_days) == np.sign(far)
    assert (line.own, line.notes) == (None, 0)


@pytest.mark.sweep(each=3)
@everywhere
@pytest.mark.parametrize("far", [-9, 9])
def test_an_early_spring_noted_on_one_kind_moves_the_others_and_is_told(
    tmp_path: Path, weather: str, far: int
) -> None:
    on = usual(opened(tmp_path / "book", ALL, (), weather), "plum") + dt.timedelta(days=far)
    before = opened(tmp_path / "before", ALL, (), weather, on)
    after = opened(tmp_path / "after", ALL, [("plum", on, "first open")], weather, on)
    for other in ("apple", "quince", "lilac"):
        said, moved = after.forecasts[other].moved_days, middle(after, other) - middle(before, other)
        assert 0.5 < said * np.sign(far) < 9
        assert moved == pytest.approx(said, abs=1.5)
    assert after.forecasts["plum"].moved_days == 0.0
    assert usual(after, "plum") == on
    way = "earlier" if far < 0 else "later"
    assert any("This spring's notes move" in n and f"days {way}" in n for n in after.season().notes)
    assert not any("This spring's notes move" in n for n in before.season().notes)


@everywhere
def test_a_note_a_month_off_is_named_and_moves_little(tmp_path: Path, weather: str) -> None:
    day = usual(opened(tmp_path / "book", PEAR, (), weather), "pear")
    clean = springs("pear", day)
    slip = [*clean[:3], ("pear", clean[3][1] + dt.timedelta(days=40), "first open"), *clean[4:]]
    before, after = (opened(tmp_path / str(i), PEAR, n, weather) for i, n in enumerate((clean, slip)))
    assert abs(middle(after, "pear") - middle(before, "pear")) < 40 / 6 / 1.5
    (said,) = after.forecasts["pear"].questioned
    assert str(slip[3][1].year) in said
    assert "later" in said
    assert "counts for little" in said
    assert said in after.season().notes
    assert before.forecasts["pear"].questioned == ()


def test_who_calls_things_late_is_allowed_for(tmp_path: Path) -> None:
    """The garden's own watcher notes two plants; a helper calls both late, and alone notes a third."""
    book = opened(tmp_path / "book", ALL, ())
    notes = {
        "steward": [n for p in ("pear", "apple") for n in springs(p, usual(book, p))],
        "helper": [
            n
            for p in ("pear", "apple", "lilac")
            for n in springs(p, usual(book, p) + dt.timedelta(days=5))[-3:]
        ],
    }

    def lilac(name: str, helper: str) -> float:
        folder = write_garden(tmp_path / name, ALL)
        text: dict[int, str] = {}
        for by, own in notes.items():
            for number, (target, on, stage) in enumerate(own):
                text[on.year] = text.get(on.year, "") + (
                    f'\n[[entry]]\nid = "{on}.{by[0]}{number}"\non = {on}\nwhat = "bloom"\n'
                    f'plant = "{target}"\nstage = "{stage}"\nby = "{by if by == "steward" else helper}"\n'
                )
        for year, entries in text.items():
            (folder / "journal" / f"{year}.toml").write_text(entries, encoding="utf-8")
        almanac = open_almanac(folder, NEW_YEAR)
        assert almanac.faults == ()
        return middle(almanac, "lilac")

    assert lilac("two", "helper") < lilac("one", "steward") - 0.2


def test_notes_too_far_from_any_bloom_of_the_kind_are_said_to_be_unused(tmp_path: Path) -> None:
    after = opened(tmp_path, ALL, [("pear", dt.date(2011, 10, 20), "first open")])
    (said,) = after._seasons.now.outlook.unused
    assert said == ("pear noted on 20 Oct 2011 is not used: it lies months from when its kind opens.")
    assert middle(after, "pear") == middle(opened(tmp_path / "book", ALL), "pear")


def test_leaf_notes_move_the_leaf_and_hardly_the_flower(tmp_path: Path) -> None:
    book = opened(tmp_path / "book", PEAR)
    leaf = book._seasons.now.outlook.leaves["pear"]
    out = book.axis.date(float(np.median(leaf)))
    noted = same_days("pear", out + dt.timedelta(days=10), (2009, 2010, 2011), "bud break")
    after = opened(tmp_path / "noted", PEAR, noted)
    moved = float(np.median(after._seasons.now.outlook.leaves["pear"]) - np.median(leaf))
    assert 7 <= moved <= 11
    assert abs(middle(after, "pear") - middle(book, "pear")) < 1.5
    assert after.forecasts["pear"].own_notes == 0


@everywhere
def test_a_stated_usual_date_moves_bloom_and_ripening(tmp_path: Path, weather: str) -> None:
    book = opened(tmp_path / "book", ALL, (), weather)
    late = usual(book, "apple") + dt.timedelta(days=12)
    ripe = usual(book, "quince", "ripe") + dt.timedelta(days=15)
    text = ALL.replace(plant("apple", "apple"), plant("apple", "apple", f'opens = "{late:%d %B}"\n'))
    text = text.replace(plant("quince", "quince"), plant("quince", "quince", f'ripe = "{ripe:%m-%d}"\n'))
    stated = opened(tmp_path / "stated", text, (), weather)
    assert abs((usual(stated, "apple") - late).days) <= 3
    assert stated.forecasts["apple"].basis == "own record"
    assert abs((usual(stated, "quince", "ripe") - ripe).days) <= 6
    # the apple's stated day tells of the place as well, a little
    assert abs(middle(stated, "quince") - middle(book, "quince")) < 3
    assert abs(middle(stated, "pear") - middle(book, "pear")) < 3
    assert not any("This spring's notes" in n for n in stated.season().notes)


def test_an_apple_opens_when_it_is_said_to(tmp_path: Path) -> None:
    for number, text in enumerate(('"28 April"', '"04-28"', '"Apr 28"', "2011-04-28")):
        almanac = opened(tmp_path / str(number), plant("apple", "apple", f"opens = {text}\n"))
        assert abs((usual(almanac, "apple") - dt.date(2012, 4, 28)).days) <= 3


@pytest.mark.parametrize("key", ["opens", "ripe"])
@pytest.mark.parametrize("value", ['"when it likes"', '"13-45"', '"31 April"', "7", "true"])
def test_a_bad_usual_date_costs_one_sentence_and_keeps_the_plant(
    tmp_path: Path, key: str, value: str
) -> None:
    almanac = open_almanac(write_garden(tmp_path, plant("apple", "apple", f"{key} = {value}\n")), NEW_YEAR)
    (fault,) = almanac.faults
    assert fault.message.startswith(f"{key} = ")
    assert "is no day of the year; the plant is kept without it" in fault.message
    assert fault.hint == f'Write {key} = "04-28" or "28 April".'
    assert fault.line is not None
    assert "apple" in almanac.forecasts


def test_the_twenty_ninth_of_february_is_a_day(tmp_path: Path) -> None:
    almanac = opened(tmp_path, plant("nut", "hazel", 'opens = "29 February"\n'))
    assert abs((usual(almanac, "nut") - dt.date(2012, 2, 28)).days) <= 4


def test_first_pickings_of_past_seasons_move_ripening(tmp_path: Path) -> None:
    book = opened(tmp_path / "book", PEAR)
    ripe = usual(book, "pear", "ripe")
    folder = write_garden(tmp_path / "picked", PEAR)
    for year in (2009, 2010, 2011):
        on = ripe.replace(year=year) + dt.timedelta(days=12)
        entries = "".join(
            f'\n[[entry]]\nid = "{on + dt.timedelta(days=d)}.1"\non = {on + dt.timedelta(days=d)}\n'
            'what = "harvest"\nplant = "pear"\n'
            for d in (0, 9)
        )
        (folder / "journal" / f"{year}.toml").write_text(entries, encoding="utf-8")
    after = open_almanac(folder, NEW_YEAR)
    assert after.faults == ()
    assert 8 <= (usual(after, "pear", "ripe") - ripe).days <= 15
    assert middle(after, "pear") == middle(book, "pear")


def test_columns_of_a_past_spring_begin_in_october() -> None:
    assert (dt.date(2011, 10, 1) - dt.date(2012, 1, 1)).days + 1 == FIRST_DAY


def test_leaf_fall_and_want_of_flowers_noted_in_autumn_belong_to_that_autumn(tmp_path: Path) -> None:
    fell, none = dt.date(2011, 11, 20), dt.date(2011, 10, 3)
    notes = [("pear", fell, "leaf fall"), ("apple", none, "none this year")]
    forecasts = opened(tmp_path, ALL, notes, on=dt.date(2011, 12, 1)).forecasts
    assert forecasts["pear"].observed == {"leaf fall": fell}
    assert forecasts["apple"].observed == {"none this year": none}


def test_a_place_known_by_its_latitude_alone_is_wide_until_one_plant_is_noted(tmp_path: Path) -> None:
    def width(almanac: Almanac, target: str) -> float:
        low, high = np.quantile(almanac.forecasts[target].first_open, [0.1, 0.9])
        return float(high - low)

    bare = opened(tmp_path / "bare", ALL, (), "")
    assert any("rough guess" in note for note in bare.season().notes)
    late = usual(bare, "apple") + dt.timedelta(days=18)
    noted = opened(tmp_path / "noted", ALL, same_days("apple", late, (2009, 2010, 2011)), "")
    assert width(bare, "pear") > 1.4 * width(opened(tmp_path / "normals", ALL), "pear")
    assert width(noted, "pear") < 0.8 * width(bare, "pear")
    assert 10 <= (usual(noted, "pear") - usual(bare, "pear")).days <= 20
