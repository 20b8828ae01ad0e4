"""What growers from Galicia to Hokkaido, Basel, Valencia, Bend, Bariloche and Temuco miss or strike out.

Sources stand with the rules they are for (core/leafturn/tasks/rules). Monthly means from memory, to about a
degree C and a fifth of the rain.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import HarvestNote, WeatherNote
from leafturn.tasks.model import Job

Place = tuple[tuple[float, float], dict[str, list[float]]]

GALICIA: Place = (
    (43.3, -8.5),
    {
        "tmax_c": [13.7, 14.2, 15.7, 16.4, 18.5, 20.7, 22.3, 23, 21.9, 19.2, 16, 14.2],
        "tmin_c": [8.3, 8.1, 9.3, 10.1, 12.1, 14.4, 16.1, 16.5, 15.3, 13, 10.5, 9],
        "rain_mm": [110, 90, 80, 85, 75, 45, 35, 40, 65, 125, 140, 130],
    },
)
BASEL: Place = (
    (47.55, 7.58),
    {
        "tmax_c": [4.9, 6.8, 11.5, 15.7, 19.9, 23.5, 25.7, 25.3, 20.7, 15.3, 9, 5.4],
        "tmin_c": [-0.5, -0.3, 2.7, 5.6, 9.7, 13.2, 15, 14.7, 11, 7.4, 2.9, 0.3],
        "rain_mm": [47, 46, 51, 62, 94, 85, 90, 88, 72, 74, 64, 66],
    },
)
VALENCIA: Place = (
    (39.47, -0.45),
    {
        "tmax_c": [16.4, 17.1, 19.3, 20.8, 23.4, 27.1, 29.7, 30.2, 27.9, 24.3, 19.8, 17],
        "tmin_c": [7.1, 7.8, 9.6, 11.5, 14.6, 18.6, 21.5, 21.9, 19.1, 15.2, 10.8, 8.1],
        "rain_mm": [37, 36, 33, 38, 39, 22, 8, 20, 70, 77, 47, 48],
    },
)
KENT: Place = (
    (51.3, 0.5),
    {
        "tmax_c": [7.8, 8.2, 11, 14.2, 17.6, 20.6, 23, 22.8, 19.6, 15.4, 11, 8.3],
        "tmin_c": [2.3, 2.1, 3.6, 5.3, 8.2, 11, 13.2, 13.2, 10.8, 8.2, 4.9, 2.8],
        "rain_mm": [62, 45, 40, 43, 48, 46, 48, 54, 52, 72, 74, 68],
    },
)
SAPPORO: Place = (
    (43.06, 141.35),
    {
        "tmax_c": [-0.4, 0.4, 4.5, 11.7, 17.9, 21.8, 25.4, 26.4, 22.8, 16.4, 8.7, 2],
        "tmin_c": [-6.4, -6.2, -2.4, 3.4, 9, 13.4, 17.9, 19.1, 14.8, 8, 1.6, -4],
        "rain_mm": [108, 92, 78, 55, 56, 60, 91, 127, 142, 110, 114, 114],
    },
)
BEND: Place = (
    (44.06, -121.3),
    {
        "tmax_f": [41, 45, 52, 58, 66, 74, 84, 84, 76, 63, 48, 40],
        "tmin_f": [24, 25, 28, 31, 37, 43, 49, 48, 41, 33, 27, 23],
        "rain_in": [1.5, 1.1, 0.8, 0.8, 1.0, 0.7, 0.5, 0.4, 0.4, 0.7, 1.3, 1.9],
    },
)
SEATTLE: Place = (
    (47.6, -122.3),
    {
        "tmax_f": [48, 50, 54, 59, 66, 71, 77, 78, 72, 60, 52, 47],
        "tmin_f": [38, 38, 40, 43, 49, 53, 57, 58, 53, 47, 41, 37],
        "rain_in": [5.8, 3.8, 4.2, 3.2, 1.9, 1.4, 0.6, 1.0, 1.6, 3.9, 6.3, 5.7],
    },
)
MINNEAPOLIS: Place = (
    (44.88, -93.22),
    {
        "tmax_f": [24, 28, 41, 57, 69, 79, 83, 81, 73, 59, 42, 29],
        "tmin_f": [8, 12, 25, 37, 49, 60, 65, 63, 54, 41, 27, 14],
        "rain_in": [0.9, 0.9, 1.7, 2.9, 3.9, 4.6, 4.1, 4.3, 3.0, 2.6, 1.6, 1.2],
    },
)
BARILOCHE: Place = (
    (-41.1, -71.3),
    {
        "tmax_c": [21.7, 21.9, 18.6, 13.9, 9.6, 6.5, 5.9, 7.5, 10.3, 13.6, 16.8, 19.7],
        "tmin_c": [7.1, 6.8, 4.7, 1.8, 0.4, -1, -1.6, -1.3, -0.5, 1.2, 3.6, 5.9],
        "rain_mm": [22, 22, 32, 54, 130, 140, 120, 110, 60, 45, 30, 32],
    },
)
TEMUCO: Place = (
    (-38.7, -72.6),
    {
        "tmax_c": [23.5, 23.7, 21.2, 17.3, 13.8, 11.4, 11, 12.4, 14.5, 16.7, 19.2, 21.6],
        "tmin_c": [8.8, 8.5, 7.3, 5.6, 5.2, 4.1, 3.4, 3.6, 4.2, 5.6, 7, 8.2],
        "rain_mm": [40, 45, 55, 90, 170, 190, 170, 140, 100, 80, 60, 55],
    },
)
TWO_APPLES = (
    plant("a", "apple", cultivar="Discovery", year=2005, at=[0, 0]),
    plant("b", "apple", cultivar="Fuji", year=2005, at=[5, 0]),
)


def opened(
    folder: Path, place: Place, *things: str, on: str = "", notes: tuple[WeatherNote | HarvestNote, ...] = ()
) -> Almanac:
    (lat, lon), climate = place
    text = garden_text(*things, climate=climate, lat=lat, lon=lon)
    return almanac_of(folder, text, on or ("2027-07-05" if lat < 0 else "2027-01-05"), *notes)


def of_rule(almanac: Almanac, rule: str) -> list[Job]:
    return [job for job in almanac.jobs() if job.rule == rule]


def likely(job: Job) -> dt.date:
    assert job.open.likely is not None
    return job.open.likely


# ---- snow --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("place", "tied"), [(SAPPORO, True), (BASEL, False), (GALICIA, False)])
def test_bushes_are_tied_where_snow_lies_deep(tmp_path: Path, place: Place, *, tied: bool) -> None:
    """In Sapporo from mid-November to early December, undone in March or April (read)."""
    jobs = of_rule(opened(tmp_path, place, plant("bush", "blackcurrant", year=2018)), "tie-up-before-snow")
    assert bool(jobs) is tied
    assert all(dt.date(2027, 11, 5) <= likely(job) <= dt.date(2027, 11, 25) for job in jobs)


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


# ---- pests where they live ---------------------------------------------------------------------


@pytest.mark.parametrize("rule", ["scout-apple-maggot", "band-against-winter-moth"])
@pytest.mark.parametrize(("place", "told"), [(SEATTLE, True), (BEND, False)])
def test_pests_of_the_wet_coast_are_not_told_in_the_dry_interior(
    tmp_path: Path, place: Place, rule: str, *, told: bool
) -> None:
    assert bool(of_rule(opened(tmp_path, place, *TWO_APPLES), rule)) is told


def test_apple_maggots_are_told_in_the_cold_wet_middle(tmp_path: Path) -> None:
    assert of_rule(opened(tmp_path, MINNEAPOLIS, *TWO_APPLES), "scout-apple-maggot")


@pytest.mark.parametrize(("place", "told"), [(BASEL, True), (SEATTLE, False)])
def test_ashes_of_europe_are_looked_over_in_full_leaf(tmp_path: Path, place: Place, *, told: bool) -> None:
    looks = of_rule(opened(tmp_path, place, plant("ash", "common ash", year=1950)), "look-for-ash-dieback")
    assert bool(looks) is told
    for look in looks:
        assert dt.date(2027, 6, 20) <= likely(look) <= dt.date(2027, 7, 15)
        assert "licensed arborist" in " ".join(look.cautions)
        assert "paths" in " ".join(look.cautions)


@pytest.mark.parametrize(("place", "told"), [(BASEL, True), (KENT, False), (BARILOCHE, False)])
def test_stink_bugs_are_looked_for_where_they_live(tmp_path: Path, place: Place, *, told: bool) -> None:
    """At home in Switzerland since 2004, not settled in Britain (recalled); eggs from late May on (read)."""
    looks = of_rule(opened(tmp_path, place, plant("h", "hazel", year=2010)), "look-for-stink-bugs")
    assert bool(looks) is told
    assert all(dt.date(2027, 6, 1) <= likely(look) <= dt.date(2027, 7, 31) for look in looks)


def test_pomegranates_and_olives_have_their_own_moth_and_fly(tmp_path: Path) -> None:
    things = (plant("p", "pomegranate", year=2008), plant("o", "olive", year=1980, at=[9, 0]))
    almanac = opened(tmp_path, VALENCIA, *things)
    (moth,) = of_rule(almanac, "scout-carob-moth")
    assert dt.date(2027, 7, 10) <= likely(moth) <= dt.date(2027, 8, 31)  # grow from June to October (read)
    flies = of_rule(almanac, "scout-olive-fly")
    assert all(dt.date(2027, 5, 25) <= likely(fly) <= dt.date(2027, 7, 10) for fly in flies)
    assert flies


@pytest.mark.parametrize(("place", "first", "last"), [(GALICIA, "04-01", "05-05"), (BASEL, "05-01", "05-25")])
def test_slugs_are_looked_for_as_berries_swell(tmp_path: Path, place: Place, first: str, last: str) -> None:
    """Straw under the trusses in May in Britain (read); in Galicia they were called for in January."""
    bed = plant("bed", "garden strawberry", year=2026, count=20)
    (look,) = of_rule(opened(tmp_path, place, bed), "look-for-slugs")
    assert f"2027-{first}" <= likely(look).isoformat() <= f"2027-{last}"


# ---- picking -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("place", "by"), [(BARILOCHE, "2028-05-05"), (BEND, "2027-10-10")])
def test_late_raspberries_are_over_once_it_has_frozen_hard(tmp_path: Path, place: Place, by: str) -> None:
    """In the Andes about 42 S raspberries are picked from 20 December to 15 April (infocordillera, read)."""
    row = plant("row", "raspberry", cultivar="Heritage", year=2018)
    for job in of_rule(opened(tmp_path, place, row), "pick"):
        assert job.close.likely is not None
        assert job.close.likely.isoformat() <= by


def test_oranges_wait_on_the_tree_and_rosemary_is_no_job_of_each_week(tmp_path: Path) -> None:
    things = (plant("orange", "orange", year=2005), plant("rosemary", "rosemary", year=2015, at=[9, 0]))
    picked = HarvestNote(on=dt.date(2027, 1, 9), plant="orange", amount="a basket")
    cut = HarvestNote(on=dt.date(2027, 5, 15), plant="rosemary", amount="a bunch")
    almanac = opened(tmp_path / "a", VALENCIA, *things, on="2027-01-20", notes=(picked,))
    pick = [job for job in almanac.jobs() if job.verb == "pick" and job.plant == "orange"]
    assert not [job for job in pick if job.state in ("due", "late")]
    assert not [job for job in pick if "drops or goes over" in " ".join(job.why)]
    june = opened(tmp_path / "b", VALENCIA, *things, on="2027-06-10", notes=(cut,))
    herbs = [job for job in june.jobs() if job.verb == "pick" and job.plant == "rosemary"]
    assert not [job for job in herbs if job.state in ("soon", "due", "late")]


# ---- water and cold ----------------------------------------------------------------------------


@pytest.mark.parametrize(("place", "watered"), [(TEMUCO, False), (BEND, True)])
def test_grown_apples_of_a_rainy_land_are_left_to_their_roots(
    tmp_path: Path, place: Place, *, watered: bool
) -> None:
    tree = plant("apple", "apple", cultivar="Gala", year=2000)
    assert bool([job for job in opened(tmp_path, place, tree).jobs() if job.counts_as == "water"]) is watered


def test_a_wide_crown_is_watered_as_wide_as_it_is(tmp_path: Path) -> None:
    """A gallon for each square foot under the crown a week in the hottest months, 41 mm (Master Gardeners of
    Santa Clara, read); a band from a third of the way to beyond the drip line (those of San Diego, read)."""
    tree = plant("apple", "apple", cultivar="Gala", year=1995, height_m=5, crown_m=2.5)
    (line,) = opened(tmp_path, BEND, tree, on="2027-07-10").water().lines
    assert line.litres == pytest.approx(line.used_mm * 3.14 * 2.5**2, rel=0.1)
    whip = plant("whip", "apple", cultivar="Gala", year=2027)
    (line,) = opened(tmp_path / "whip", BEND, whip, on="2027-07-10").water().lines
    assert line.litres <= 30


def test_watering_does_not_go_to_and_fro_where_no_rain_is_noted(tmp_path: Path) -> None:
    """Nothing is known of the weather: a job that has come due stays so until the season wanes."""
    bush = plant("bush", "blackcurrant", year=2025, count=3)
    (lat, lon), climate = MINNEAPOLIS
    text = garden_text(bush, climate=climate, lat=lat, lon=lon)
    states = []
    for n in range(0, 160, 4):
        almanac = almanac_of(tmp_path, text, dt.date(2027, 5, 20) + dt.timedelta(n))
        (job,) = [job for job in almanac.jobs() if job.counts_as == "water"]
        if not states or states[-1] != job.state:
            states.append(job.state)
    assert states == ["not yet", "soon", "due", "not yet"]


@pytest.mark.parametrize(("place", "wrapped"), [(BASEL, False), (GALICIA, False), (SAPPORO, True)])
def test_rosemary_is_wrapped_where_its_zone_ends(tmp_path: Path, place: Place, *, wrapped: bool) -> None:
    """In zone 8, to -12 C, it stands with little or no cover (read)."""
    jobs = of_rule(opened(tmp_path, place, plant("r", "rosemary", year=2018)), "protect-for-winter")
    assert bool(jobs) is wrapped


def test_hardier_cultivars_are_wrapped_in_colder_places(tmp_path: Path) -> None:
    """Arp stands -23 C (nursery pages, read)."""
    arp = plant("r", "rosemary", cultivar="Arp", year=2018)
    assert not of_rule(opened(tmp_path, SAPPORO, arp), "protect-for-winter")


def test_nobody_covers_a_tall_crown_from_frost(tmp_path: Path) -> None:
    """Fleece or a sheet over a frame (common practice); 4 m, as for nets, is a guess."""
    tall = plant("pear", "pear", year=2000, height_m=5.5)
    jobs = opened(tmp_path, BASEL, tall, on="2027-04-05").jobs()
    assert not [job for job in jobs if job.verb == "cover"]
