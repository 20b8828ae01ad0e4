"""Kinds fitted to a large table: as they are fitted one by one, whatever else stands in the table."""

from __future__ import annotations

import tomllib
from pathlib import Path

import msgspec
import pytest

from leafturn.bloom.learning import fit_prior
from leafturn.bloom.priors.fitted import FittedKind
from leafturn.weather.record import DailyRecord
from tests.samples.invented_sites import invented_sites
from tests.skill.fit_tables import Notes, by_site, fit, lost, main, read_table

SITES = 3


@pytest.fixture(scope="module")
def table(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict, dict[str, DailyRecord]]:
    """A table with one kind that can be fitted, one without weather, and rows that are none."""
    folder = tmp_path_factory.mktemp("table")
    records, weather = invented_sites(SITES)
    (folder / "weather").mkdir()
    for site, record in weather.items():
        days = [record.first.toordinal() + n for n in range(len(record))]
        text = "".join(
            f"{record.first.fromordinal(day)},{low:.4f},{high:.4f}\n"
            for day, low, high in zip(days, record.tmin, record.tmax, strict=True)
        )
        (folder / "weather" / f"{site}.csv").write_text(f"date,tmin_c,tmax_c\n{text}")
    rows = [f"plum,{site},{year},{day:.0f}" for site, days in records.items() for year, day in days.items()]
    rows += [
        "plum,site-00,1990,400",
        "quince,nowhere,2001,120",
        "plum,../x,2001,99",
        "plum,site-00,2001,soon",
    ]
    (folder / "records.csv").write_text("kind,site,year,day_of_year\n" + "\n".join(rows) + "\n")
    return folder, records, weather


@pytest.mark.long
def test_a_kind_of_a_table_is_fitted_as_by_itself_and_one_without_weather_is_said(
    table: tuple[Path, dict, dict[str, DailyRecord]], capsys: pytest.CaptureFixture[str]
) -> None:
    folder, records, weather = table
    status = main([str(folder / "records.csv"), str(folder / "weather"), "-o", str(folder / "out.toml")])
    said = capsys.readouterr()
    assert status == 1
    assert said.out.startswith("1 of 2 kinds are in")
    assert said.out.endswith("2 rows could not be used.\n")
    assert said.err == "quince: no site has both notes and weather, so nothing can be learnt\n"
    written = tomllib.loads((folder / "out.toml").read_text())
    fitted = msgspec.convert(written["plum"], FittedKind)
    alone = fit_prior(records, weather)
    assert fitted.usual.level == pytest.approx(alone.usual.levels.middle, rel=1e-3)
    assert fitted.usual.day == pytest.approx(alone.usual.day, rel=1e-4)
    assert (fitted.provenance.sites, fitted.provenance.records) == (SITES, "records.csv")


def test_of_too_many_dates_whole_sites_are_drawn_alike_at_every_run() -> None:
    notes = Notes.none()
    for site in range(50):
        for year in range(2000, 2010):
            notes.site.append(site)
            notes.year.append(year)
            notes.day.append(100)
    names = [f"s{n}" for n in range(50)]
    drawn = by_site(notes, names, most=95)
    assert [len(days) for days in drawn.values()] == [10] * 9
    assert by_site(notes, names, most=95) == drawn
    assert len(by_site(notes, names)) == 50


@pytest.mark.long
def test_a_scheduler_of_dask_fits_as_this_process_does(
    table: tuple[Path, dict, dict[str, DailyRecord]],
) -> None:
    distributed = pytest.importorskip("distributed")
    folder, *_ = table
    with distributed.LocalCluster(
        processes=False, n_workers=1, threads_per_worker=1, dashboard_address=None
    ) as cluster:
        words = [
            str(folder / "records.csv"),
            str(folder / "weather"),
            "--scheduler",
            cluster.scheduler_address,
        ]
        assert main([*words, "-o", str(folder / "dask.toml")]) == 1
    main([str(folder / "records.csv"), str(folder / "weather"), "-o", str(folder / "here.toml")])
    assert (folder / "dask.toml").read_text() == (folder / "here.toml").read_text()


def test_what_is_no_table_costs_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "records.csv").write_text("species,site,year\nplum,a,2001\n")
    assert main([str(tmp_path / "records.csv"), str(tmp_path), "-o", str(tmp_path / "o")]) == 2
    assert capsys.readouterr().err.startswith("records.csv, line 1: no column is named kind or day_of_year.")
    kinds, names, left_out = read_table_of(
        tmp_path, "kind,site,year,day_of_year\nplum,a,2001,90\nplum,a,1200,90\n"
    )
    assert (list(kinds), names, left_out) == (["plum"], ["a"], 1)


def read_table_of(folder: Path, text: str) -> tuple[dict[str, Notes], list[str], int]:
    (folder / "t.csv").write_text(text)
    return read_table(folder / "t.csv")


def test_a_kind_whose_process_ended_is_said(tmp_path: Path) -> None:
    from tests.skill.fit_tables import Work

    work = Work("plum", {"a": {2001: 90}}, tmp_path, "x")
    assert fit(work).said == "no site has both notes and weather, so nothing can be learnt"
    assert lost(work, "it ended").said == "it ended"
