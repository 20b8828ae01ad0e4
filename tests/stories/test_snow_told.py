"""Before snow, under it and after it: what is told where it comes, and nowhere else.

Sources stand with the rules (core/leafturn/tasks/rules/snow.toml).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.weathers import BASEL, GALICIA, SAPPORO, TWO_APPLES, Place, likely, of_rule, opened

from leafturn.journal.entries import WeatherNote
from leafturn.tasks.model import Job


@pytest.mark.parametrize(("place", "tied"), [(SAPPORO, True), (BASEL, False), (GALICIA, False)])
def test_bushes_are_tied_where_snow_lies_deep(tmp_path: Path, place: Place, *, tied: bool) -> None:
    """In Sapporo from mid-November to early December, undone in March or April (read)."""
    jobs = of_rule(opened(tmp_path, place, plant("bush", "blackcurrant", year=2018)), "tie-up-before-snow")
    assert bool(jobs) is tied
    assert all(dt.date(2027, 11, 5) <= likely(job) <= dt.date(2027, 11, 25) for job in jobs)


@pytest.mark.parametrize(("place", "told"), [(SAPPORO, True), (BASEL, False)])
def test_low_limbs_are_dug_free_where_snow_lies_deep(tmp_path: Path, place: Place, *, told: bool) -> None:
    """From early January to early February in the north of Honshu (read)."""
    jobs = of_rule(opened(tmp_path, place, *TWO_APPLES), "look-for-limbs-under-snow")
    assert bool(jobs) is told
    assert all(likely(job) == dt.date(2027, 1, 5) for job in jobs)


@pytest.mark.parametrize(("place", "told"), [(SAPPORO, True), (BASEL, True), (GALICIA, False)])
def test_nets_come_down_before_snow_and_only_where_it_comes(
    tmp_path: Path, place: Place, *, told: bool
) -> None:
    bush = plant("bush", "redcurrant", year=2018)
    assert bool(of_rule(opened(tmp_path, place, bush), "take-nets-down-before-snow")) is told


def test_wet_snow_that_was_noted_is_brushed_off_for_some_days(tmp_path: Path) -> None:
    bushes = (plant("camellia", "camellia", year=2015), plant("oak", "red oak", year=1950, height_m=20))
    note = WeatherNote(on=dt.date(2027, 1, 9), snow=True)

    def due(name: str, on: str, *notes: WeatherNote) -> list[Job]:
        almanac = opened(tmp_path / name, BASEL, *bushes, on=on, notes=notes)
        return [job for job in of_rule(almanac, "free-from-snow") if job.state in ("due", "late", "soon")]

    assert not due("before", "2027-01-09")
    (job,) = due("after", "2027-01-09", note)
    assert job.plants == ("camellia",)  # nobody brushes a tall oak
    assert "ladder" in " ".join(job.cautions)
    assert not due("later", "2027-01-21", note)


@pytest.mark.parametrize(
    ("tmin", "tmax", "rain", "told"),
    [(-1.5, 1.5, 22, True), (-9, -5, 22, False), (1.5, 5, 22, False), (-1.5, 1.5, 3, False)],
)
def test_a_record_tells_of_wet_snow(
    tmp_path: Path, tmin: float, tmax: float, rain: float, *, told: bool
) -> None:
    """Snow falls about freezing and clings; colder it is light, warmer it is rain (common knowledge)."""
    (lat, lon), climate = BASEL
    days = [dt.date(2026, 11, 1) + dt.timedelta(n) for n in range(70)]
    rows = [f"{day},-2,3,0" if day != days[-2] else f"{day},{tmin},{tmax},{rain}" for day in days]
    tmp_path.joinpath("weather.csv").write_text("date,tmin_c,tmax_c,rain_mm\n" + "\n".join(rows), "utf-8")
    text = garden_text(
        plant("c", "camellia", year=2015), climate=climate, lat=lat, lon=lon, weather="weather.csv"
    )
    almanac = almanac_of(tmp_path, text, days[-1])
    assert bool([job for job in of_rule(almanac, "free-from-snow") if job.state == "due"]) is told
