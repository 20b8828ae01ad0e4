"""Which plants want water, told of a garden."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import Done, Entry, MovedNote, WeatherNote
from leafturn.soil.water.deficit import GardenWater

PLANTS = (
    plant("whip", "apple", guild="gate", year=2026),
    plant("sapling", "apple", guild="gate", year=2024),
    plant("old-apple", "apple", guild="gate", year=1990),
    plant("weed-tree", "tree of heaven", year=2026, plan="remove"),
)
ON = dt.date(2026, 6, 25)


def garden(
    folder: Path, *notes: Entry, soil: str = "loam", rain: str = "0.0", last: dt.date = ON, on: dt.date = ON
) -> Almanac:
    folder.mkdir(exist_ok=True)
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range((last - dt.date(2026, 1, 1)).days + 1)]
    wet = dt.date(2026, 5, 28)
    rows = [f"{d},12.0,25.0,{'80.0' if d <= wet and d.day % 7 == 0 else rain}" for d in days]
    (folder / "weather.csv").write_text("\n".join(["date,tmin_c,tmax_c,rain_mm", *rows]) + "\n")
    return almanac_of(folder, garden_text(*PLANTS, soil=soil, weather="weather.csv"), on, *notes)


def water(almanac: Almanac) -> GardenWater:
    return almanac.water()


def test_the_youngest_wants_water_first_and_the_old_tree_is_left(tmp_path: Path) -> None:
    lines = water(garden(tmp_path)).lines
    assert [line.plant for line in lines] == ["whip", "sapling", "old-apple"]
    whip, sapling, old = lines
    assert whip.used_mm > whip.ready_mm
    assert whip.says.startswith("whip is short of water: it has used ")
    assert whip.root_m < sapling.root_m < old.root_m == 1.5
    assert old.established
    assert old.says.startswith("old-apple is established: leave it. It has used ")
    assert "a guess" in whip.says


def test_four_dry_weeks_at_a_known_demand_use_what_the_book_says(tmp_path: Path) -> None:
    """The evening's depletion of a plain loop over FAO-56 chapter 8 with Hargreaves' demand."""
    found = next(line for line in water(garden(tmp_path)).lines if line.plant == "old-apple")
    # From 28 May, the last rain, 28 days of about 5 mm; the factor rises in leaf to 1.2 of table 12.
    assert 28 * 4.4 * 0.9 <= found.used_mm <= 28 * 5.4 * 1.2
    assert found.total_mm == pytest.approx(155 * 1.5)


def test_sand_holds_less(tmp_path: Path) -> None:
    for soil, least, most in (("sand", 80 * 0.3, 80 * 0.3), ("clay", 160 * 0.3, 160 * 0.3)):
        whip = water(garden(tmp_path, soil=soil)).of(["whip"])[0]
        assert least - 0.01 <= whip.total_mm <= most + 0.01


def test_the_job_tells_depletion_litres_and_asks_about_the_rain(tmp_path: Path) -> None:
    almanac = garden(tmp_path)
    job = next(j for j in almanac.jobs() if j.verb == "water")
    assert job.state in ("due", "late")
    assert job.plants == ("whip", "sapling")
    assert job.why[0].startswith("whip is short of water: it has used ")
    told = " ".join(job.why)
    assert "Litres that fill it now, thirstiest first: whip " in told
    assert "No rain noted for 28 days: is that so?" in told


def test_a_watering_noted_empties_the_account_and_puts_the_next_one_off(tmp_path: Path) -> None:
    done = Done(on=ON, task="gate-guild:water:2026", by="steward")
    almanac = garden(tmp_path, done)
    whip, old = (water(almanac).of([p])[0] for p in ("whip", "old-apple"))
    assert whip.used_mm < 8
    assert whip.watered == ON
    assert whip.litres < 5
    assert old.used_mm > 80, "nobody waters the old tree with the young ones"
    states = {j.id: j.state for j in almanac.jobs() if j.verb == "water"}
    assert states["gate-guild:water:2026"] == "done"
    assert states["gate-guild:water:2026:2"] in ("soon", "not yet")


def test_litres_noted_count_as_litres(tmp_path: Path) -> None:
    before = water(garden(tmp_path)).of(["whip"])[0]
    few = Done(on=ON, task="whip:water:2026", amount="2 l")
    after = water(garden(tmp_path, few)).of(["whip"])[0]
    assert 0 < before.litres - after.litres <= 2.01
    assert after.used_mm > 5


def test_a_shortage_that_goes_on_stays_due_all_summer(tmp_path: Path) -> None:
    late = dt.date(2026, 8, 20)
    job = next(j for j in garden(tmp_path, last=late, on=late).jobs() if j.verb == "water")
    assert job.state in ("due", "late")


def test_days_without_a_reading_are_asked_about_and_said_to_be_usual(tmp_path: Path) -> None:
    almanac = garden(tmp_path, rain="")
    assert water(almanac).rain_question == (
        "No rain noted for 28 days: is that so? For 28 of them usual rain is reckoned with."
    )
    assert water(garden(tmp_path, rain="3.0")).rain_question == ""


def test_drops_that_wet_nothing_are_not_called_no_rain(tmp_path: Path) -> None:
    assert water(garden(tmp_path, rain="0.5")).rain_question == (
        "No rain of 1 mm or more noted for 28 days: is that so?"
    )
    noted = WeatherNote(on=dt.date(2026, 6, 20), rain_mm=12.0)
    assert water(garden(tmp_path, noted)).rain_question == ""


def test_typed_watering_of_one_plant_fills_that_plant_alone(tmp_path: Path) -> None:
    poured = Done(on=ON, plant="whip", task="whip:water")
    dry, wet = (water(garden(tmp_path / name, *notes)) for name, notes in (("dry", ()), ("wet", (poured,))))
    assert wet.of(["whip"])[0].used_mm < dry.of(["whip"])[0].used_mm / 2
    assert wet.of(["sapling"])[0].used_mm == dry.of(["sapling"])[0].used_mm


def test_a_tree_moved_last_winter_is_young_again(tmp_path: Path) -> None:
    moved = MovedNote(on=dt.date(2026, 2, 20), plant="old-apple")
    line = water(garden(tmp_path, moved)).of(["old-apple"])[0]
    assert not line.established
    assert line.root_m == pytest.approx(0.3)
    job = next(j for j in garden(tmp_path, moved).jobs() if j.verb == "water")
    assert set(job.plants) == {"whip", "sapling", "old-apple"}


@pytest.mark.parametrize("on", [dt.date(2026, 2, 3), dt.date(2026, 12, 5)])
def test_in_winter_every_root_zone_is_taken_to_be_full(tmp_path: Path, on: dt.date) -> None:
    lines = water(garden(tmp_path, last=on, on=on)).lines
    assert all(line.used_mm == 0 for line in lines)
    assert water(garden(tmp_path, last=on, on=on)).rain_question == ""
