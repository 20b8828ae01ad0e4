"""Jobs of pruning take their dates, reasons and plants from the ways of pruning."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.climates import MILD, WARM
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, own_job, own_rule, plant
from tests.samples.job_garden import the

from leafturn.answers.kind_card import kind_card
from leafturn.journal.entries import Done
from leafturn.kinds.library import load_library


def test_a_job_gives_the_reason_and_the_source_of_the_way(tmp_path: Path) -> None:
    job = the(
        almanac_of(tmp_path, garden_text(plant("vine", "grape", year=2012)), "2027-03-14"), "vine:winter-cut"
    )
    assert job.state in ("due", "held")
    why = " ".join(job.why)
    assert "the sap that runs from late cuts does the vine no harm" in why
    assert "Pages on when to prune" in job.source
    lines = [line.value for line in kind_card(load_library()[0], "grape").facts]
    assert any("85 to 90 of a hundred buds" in line for line in lines)
    assert "85 to 90 of a hundred buds" in why


def test_peach_is_cut_about_bloom_in_the_cold_and_late_in_winter_where_it_is_mild_and_warm(
    tmp_path: Path,
) -> None:
    trees = (plant("peach", "peach", year=2015), plant("plum", "european plum", year=2015))
    cold = almanac_of(tmp_path / "cold", garden_text(*trees), "2027-02-01")
    bloom, summer = the(cold, "peach:spring-prune"), the(cold, "plum:summer-prune")
    first = cold.forecasts["peach"]
    axis = cold.axis
    assert bloom.best.likely is not None
    assert abs((bloom.best.likely - axis.date(float(sorted(first.full)[len(first.full) // 2]))).days) <= 2
    assert summer.close.likely == dt.date(2027, 8, 31)
    warm = almanac_of(tmp_path / "warm", garden_text(*trees, climate=WARM, lat=34.0, lon=-83.3), "2027-02-01")
    assert the(warm, "peach:winter-prune").state in ("due", "held", "late")
    assert the(warm, "plum:winter-prune").close.likely < dt.date(2027, 4, 15)  # type: ignore[operator]
    assert all(warm.job(gone) is None for gone in ("peach:spring-prune", "plum:summer-prune"))


def test_autumn_raspberries_are_mown_and_summer_ones_cut_after_picking(tmp_path: Path) -> None:
    rows = (
        plant("autumn", "raspberry", cultivar="Heritage", year=2020),
        plant("summer", "raspberry", cultivar="Glen Ample", year=2020),
        plant("wild", "salmonberry", year=2020),
    )
    almanac = almanac_of(tmp_path, garden_text(*rows), "2027-02-10")
    mown = the(almanac, "autumn:mow-canes")
    assert mown.best.likely is not None
    assert dt.date(2027, 2, 1) <= mown.best.likely <= dt.date(2027, 4, 15)
    assert almanac.job("autumn:cut-canes") is None
    assert the(almanac, "summer:cut-canes").open.likely > dt.date(2027, 6, 15)  # type: ignore[operator]
    assert almanac.job("summer:mow-canes") is None
    assert the(almanac, "wild:winter-prune") is not None
    assert almanac.job("wild:cut-canes") is None


def test_a_bleeding_tree_is_cut_after_leaf_fall_or_else_in_summer_as_one_job(tmp_path: Path) -> None:
    text = garden_text(plant("walnut", "persian walnut", year=2012), climate=MILD, lat=51.5, lon=-0.4)
    december = almanac_of(tmp_path / "left", text, "2026-12-20")
    early = the(december, "walnut:prune:2027")
    assert early.state in ("due", "held", "late")
    july = the(december.at(dt.date(2027, 7, 20)), "walnut:prune:2027")
    assert july.state in ("due", "held")
    assert "full leaf" in " ".join(july.why)
    cut = Done(on=dt.date(2026, 12, 20), task="walnut:prune:2027")
    done = almanac_of(tmp_path / "cut", text, "2026-12-20", cut).at(dt.date(2027, 7, 20))
    assert the(done, "walnut:prune:2027").state == "done"
    styria = garden_text(plant("walnut", "persian walnut", year=2012))
    cold = almanac_of(tmp_path / "cold", styria, "2027-01-10")
    assert the(cold, "walnut:prune:2027").state == "not yet"


def test_an_own_job_that_saws_an_oak_waits_where_oak_wilt_is(tmp_path: Path) -> None:
    things = (
        plant("old-oak", "red oak", year=1950),
        own_job("limb", "prune the dead limb off old-oak", when="2027-05-10"),
        own_job("seat", "mend the seat below old-oak", when="2027-05-10"),
    )
    here = almanac_of(tmp_path / "here", garden_text(*things, lat=43.1, lon=-89.4), "2027-05-11")
    limb = the(here, "limb:own-job")
    assert limb.state == "held"
    assert limb.hold is not None
    assert "oak wilt" in limb.hold.reason
    assert the(here, "seat:own-job").state == "due"
    europe = almanac_of(tmp_path / "europe", garden_text(*things), "2027-05-11")
    assert the(europe, "limb:own-job").state == "due"


def test_a_rule_of_ones_own_may_take_its_dates_from_the_way(tmp_path: Path) -> None:
    rule = own_rule("thin out", title="thin out {name}", applies={"habits": ["shrub"]}, cut="oldest stems")
    almanac = almanac_of(
        tmp_path / "good", garden_text(plant("currant", "redcurrant", year=2015), rule), "2027-02-01"
    )
    assert almanac.faults == ()
    ours, packaged = (the(almanac, f"currant:{verb}:2027") for verb in ("thin-out", "winter-prune"))
    assert (ours.open, ours.best, ours.close) == (packaged.open, packaged.best, packaged.close)
    slip = own_rule("thin out", title="thin out {name}", applies={"habits": ["shrub"]}, cut="oldest stem")
    wrong = almanac_of(
        tmp_path / "slip", garden_text(plant("currant", "redcurrant", year=2015), slip), "2027-02-01"
    )
    assert ["no way of pruning has a cut 'oldest stem'" in fault.message for fault in wrong.faults] == [True]
    assert "oldest stems" in wrong.faults[0].message


def test_a_kind_of_ones_own_names_its_way(tmp_path: Path) -> None:
    tmp_path.mkdir(exist_ok=True)
    (tmp_path / "kinds.toml").write_text(
        '[ugni]\nbotanical = "Ugni molinae"\nfamily = "Myrtaceae"\nhabit = "shrub"\nlayer = "shrub"\n'
        '[ugni.pruning]\nway = "new wood"\nwhy = "It fruits on the shoots of the year."\n'
    )
    almanac = almanac_of(
        tmp_path, garden_text(plant("ugni", "ugni", year=2015), climate=MONTHS), "2027-02-01"
    )
    assert "It fruits on the shoots of the year." in " ".join(the(almanac, "ugni:late-winter-prune").why)
    (tmp_path / "kinds.toml").write_text('["apple".pruning]\nway = "pom"\n')
    library, faults = load_library(tmp_path / "kinds.toml")
    assert [f.message for f in faults] == ['apple: the library has no way of pruning "pom"; no cut is told.']
    assert library.kinds["apple"].pruning.way is not None
