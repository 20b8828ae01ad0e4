"""What growers of eight lands miss or strike out, from Devon and Piedmont to Almaty, Gangwon and Tasmania.

Sources stand with the rules they are for (core/leafturn/tasks/rules). Beside them: EPPO Reporting Service
1974/05 and 1996/218 and Global Database, 2023 (read); a grower's page on Ningxia (read); Yates on pear slugs
(read). Monthly means from memory, to about a degree C and a fifth of the rain.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import MINHO as MONTHS_OF_MINHO

from leafturn.almanac import Almanac
from leafturn.journal.entries import DamageNote
from leafturn.tasks.model import Job

Place = tuple[tuple[float, float], dict[str, list[float]]]

DEVON: Place = (
    (50.75, -3.9),
    {
        "tmax_c": [8.5, 8.6, 10.5, 13, 16, 18.8, 20.8, 20.7, 18.4, 14.8, 11.4, 9.1],
        "tmin_c": [2.8, 2.6, 3.7, 4.9, 7.6, 10.3, 12.3, 12.3, 10.4, 8, 5.2, 3.4],
        "rain_mm": [105, 80, 75, 65, 65, 62, 62, 72, 75, 110, 112, 118],
    },
)
PIEDMONT: Place = (
    (44.7, 8.0),
    {
        "tmax_c": [6, 8.5, 14, 18, 22.5, 26.8, 29.3, 28.5, 23.8, 17.2, 10.8, 6.6],
        "tmin_c": [-2, -0.8, 3.2, 6.8, 11.3, 15.2, 17.5, 17.2, 13.3, 8.6, 3, -1],
        "rain_mm": [42, 45, 60, 95, 110, 75, 50, 60, 65, 85, 80, 48],
    },
)
ALBORZ: Place = (
    (35.85, 51.0),
    {
        "tmax_c": [7, 9.5, 15, 21, 27, 33, 35.8, 35, 31, 23.5, 15, 9],
        "tmin_c": [-2, -0.5, 4, 9.5, 14, 18.5, 21.5, 20.8, 16.8, 11, 4.8, 0.2],
        "rain_mm": [33, 32, 42, 35, 18, 4, 3, 2, 2, 14, 26, 33],
    },
)
ALMATY: Place = (
    (43.2, 76.9),
    {
        "tmax_c": [0.7, 2.2, 8.7, 17.3, 22.4, 27.5, 30, 29.4, 24.2, 16.3, 8.2, 2.3],
        "tmin_c": [-8.4, -6.9, -1.1, 5.9, 11, 15.8, 18, 16.8, 11.5, 4.6, -1.3, -6.4],
        "rain_mm": [34, 43, 75, 107, 106, 57, 47, 30, 27, 60, 56, 42],
    },
)
GANGWON: Place = (
    (37.9, 127.8),
    {
        "tmax_c": [2, 5, 11, 18.5, 23.8, 27.5, 28.8, 29.4, 25.2, 19.6, 11.4, 3.8],
        "tmin_c": [-9.5, -7.2, -1.2, 4.8, 10.8, 16.4, 20.5, 20.6, 14.6, 6.8, 0, -7.2],
        "rain_mm": [18, 26, 35, 68, 95, 115, 380, 310, 140, 45, 42, 20],
    },
)
NAGANO: Place = ((36.6, 138.2), GANGWON[1])
HUON: Place = (
    (-43.03, 147.05),
    {
        "tmax_c": [22.5, 22.6, 20.6, 17.6, 14.8, 12.5, 12.1, 13.2, 15.2, 17, 18.9, 20.7],
        "tmin_c": [9.8, 9.6, 8.2, 6.2, 4.4, 2.6, 2, 2.6, 3.9, 5.2, 7, 8.5],
        "rain_mm": [48, 46, 52, 60, 65, 72, 80, 85, 78, 75, 62, 65],
    },
)
FINGER_LAKES: Place = (
    (42.6, -76.7),
    {
        "tmax_c": [-0.3, 0.8, 5.8, 13.2, 19.6, 24.3, 26.8, 25.8, 22, 15, 8.4, 2.3],
        "tmin_c": [-9.5, -9.2, -4.6, 1.4, 7.1, 12.4, 14.9, 14, 10.2, 4.5, -0.5, -5.8],
        "rain_mm": [48, 46, 66, 76, 82, 95, 94, 90, 92, 90, 76, 60],
    },
)
KENYA: Place = (
    (-1.1, 36.7),
    {
        "tmax_c": [24, 25.5, 25.4, 23.8, 22.4, 21.2, 20.4, 21.1, 23.6, 24.3, 22.7, 23],
        "tmin_c": [10.6, 10.9, 12.2, 13, 12.2, 10.6, 9.8, 9.9, 10.3, 11.9, 12.5, 11.6],
        "rain_mm": [60, 55, 100, 230, 170, 45, 20, 25, 30, 65, 150, 85],
    },
)
OKANAGAN: Place = (
    (49.6, -119.6),
    {
        "tmax_c": [-0.2, 2.8, 9.2, 15.2, 20, 23.7, 27.8, 27.4, 21.8, 13.5, 5.3, 0.3],
        "tmin_c": [-6.5, -5.5, -2.2, 1.2, 5.6, 9.4, 12, 11.4, 7, 2.2, -1.6, -5.2],
        "rain_mm": [28, 20, 22, 28, 38, 42, 32, 30, 30, 28, 32, 34],
    },
)
CUYO: Place = (
    (-33.0, -68.9),
    {
        "tmax_c": [32, 30.5, 27, 22.8, 18.4, 15.5, 14.8, 17.6, 20.5, 24.8, 28.3, 31],
        "tmin_c": [18.5, 17.5, 14.6, 9.8, 5.6, 2.6, 1.9, 3.9, 6.8, 11, 14.2, 17.2],
        "rain_mm": [35, 35, 30, 15, 12, 6, 10, 8, 15, 14, 20, 26],
    },
)
MINHO: Place = ((41.6, -8.4), MONTHS_OF_MINHO)


TWO_APPLES = (
    plant("a", "apple", cultivar="Discovery", year=2005, at=[0, 0]),
    plant("b", "apple", cultivar="Fuji", year=2005, at=[5, 0]),
)


def opened(folder: Path, place: Place, *things: str, **more: object) -> Almanac:
    (lat, lon), climate = place
    text = garden_text(*things, climate=climate, lat=lat, lon=lon, **more)
    return almanac_of(folder, text, "2027-07-05" if lat < 0 else "2027-01-05")


def of_rule(almanac: Almanac, rule: str) -> list[Job]:
    return [job for job in almanac.jobs() if job.rule == rule]


def likely(job: Job) -> dt.date:
    assert job.open.likely is not None
    return job.open.likely


@pytest.mark.parametrize(
    ("place", "watered"), [(ALBORZ, True), (CUYO, True), (DEVON, False), (GANGWON, False)]
)
def test_grown_apples_are_watered_where_summers_bring_hardly_any_rain(
    tmp_path: Path, place: Place, *, watered: bool
) -> None:
    """No orchard of Karaj or Mendoza lives without its ditch (recalled)."""
    tree = plant("apple", "apple", cultivar="Golden Delicious", year=1995)
    almanac = opened(tmp_path, place, tree)
    assert bool([job for job in almanac.jobs() if job.counts_as == "water"]) is watered


def test_new_canes_are_watered(tmp_path: Path) -> None:
    """Raspberries root shallow (FAO-56 table 22: berries 0.6 to 1.2 m; read)."""
    almanac = opened(tmp_path, PIEDMONT, plant("row", "raspberry", year=2026, count=10))
    assert of_rule(almanac, "water")


def test_a_row_of_canes_gets_the_water_of_a_row_and_not_of_as_many_trees(tmp_path: Path) -> None:
    """Rows of raspberry are kept 30 to 45 cm wide (extension advice, recalled)."""
    row = plant("row", "raspberry", year=2019, count=15)
    (lat, lon), climate = OKANAGAN
    text = garden_text(row, climate=climate, lat=lat, lon=lon)
    (line,) = almanac_of(tmp_path / "july", text, "2027-07-01").water().lines
    assert 4 * line.used_mm <= line.litres <= 12 * line.used_mm


def test_a_bed_of_strawberries_is_netted_within_the_hour(tmp_path: Path) -> None:
    """One net over a frame covers a bed (common practice, no source)."""
    bed = plant("bed", "garden strawberry", year=2025, count=20)
    (net,) = of_rule(opened(tmp_path, DEVON, bed), "net-fruit")
    assert net.minutes <= 60


def test_heat_of_codling_moths_is_told_in_one_unit(tmp_path: Path) -> None:
    """175 and 250 degF-days above 50 (Washington State University, read)."""
    (look,) = of_rule(opened(tmp_path, FINGER_LAKES, *TWO_APPLES, units="us"), "scout-codling-moth")
    assert "some 250 degree-days later" in " ".join(look.why)


def test_nobody_speaks_of_a_june_drop_in_october(tmp_path: Path) -> None:
    (thin,) = of_rule(opened(tmp_path, HUON, plant("apricot", "apricot", year=2012)), "thin-fruit")
    assert likely(thin).month == 10
    assert "December" not in " ".join(thin.why)


def test_no_roof_is_built_over_a_grown_almond(tmp_path: Path) -> None:
    """Almonds grow to 6 m and more (plant handbooks, recalled)."""
    grown = opened(tmp_path / "a", ALBORZ, plant("almond", "almond", year=2005, height_m=6))
    assert not of_rule(grown, "shelter-peach-from-rain")
    low = opened(tmp_path / "b", PIEDMONT, plant("peach", "peach", year=2024, height_m=2.5))
    assert of_rule(low, "shelter-peach-from-rain")


def test_copper_follows_a_note_of_leaf_curl_and_nothing_else(tmp_path: Path) -> None:
    peach = plant("peach", "peach", year=2016)
    almanac = opened(tmp_path, PIEDMONT, peach)
    assert of_rule(almanac, "look-for-leaf-curl")
    assert not of_rule(almanac, "copper-against-leaf-curl")
    note = DamageNote(on=dt.date(2027, 5, 3), plant="peach", cause="leaf curl")
    (lat, lon), climate = PIEDMONT
    text = garden_text(peach, climate=climate, lat=lat, lon=lon)
    after = almanac_of(tmp_path / "noted", text, "2028-01-10", note)
    (spray,) = of_rule(after, "copper-against-leaf-curl")
    assert dt.date(2027, 11, 1) <= likely(spray) <= dt.date(2027, 12, 10)
    assert "label" in " ".join(spray.cautions)


def test_gnawers_under_snow_are_no_job_of_the_equator(tmp_path: Path) -> None:
    almanac = opened(tmp_path, KENYA, plant("young", "apple", year=2026))
    for rule in ("guard-on", "keep-grass-short", "set-scented-cover"):
        assert not of_rule(almanac, rule)
    assert of_rule(opened(tmp_path / "d", DEVON, plant("young", "apple", year=2026)), "guard-on")


def test_hops_die_back_and_their_host_is_lightened_by_cutting_them_down(tmp_path: Path) -> None:
    """They are cut down in autumn from the ground, and three or four bines chosen in spring."""
    ash = plant("ash", "common ash", year=1930, state="declining", at=[0, 0])
    almanac = opened(tmp_path, DEVON, ash, plant("hop", "hop", year=2016, host="ash"))
    assert not of_rule(almanac, "thin-climber-on-failing-host")
    assert not of_rule(almanac, "pull-suckers")
    assert of_rule(almanac, "cut-down-bines")
    (choose,) = of_rule(almanac, "choose-bines")
    assert dt.date(2027, 4, 10) <= likely(choose) <= dt.date(2027, 5, 15)


def test_nobody_brings_pollen_to_a_pine_by_brush(tmp_path: Path) -> None:
    pine = plant("pine", "korean pine", year=2005, height_m=7)
    assert not of_rule(opened(tmp_path, GANGWON, pine), "bring-pollen")


def test_fruit_is_bagged_in_eastern_asia(tmp_path: Path) -> None:
    """Niitaka is bagged at Suwon (abstract read); peaches likewise (pages on China, read)."""
    peach = plant("peach", "peach", year=2016)
    (bag,) = of_rule(opened(tmp_path / "g", GANGWON, peach), "bag-fruit")
    assert dt.date(2027, 5, 10) <= likely(bag) <= dt.date(2027, 6, 10)
    assert not of_rule(opened(tmp_path / "p", PIEDMONT, peach), "bag-fruit")


def test_spotted_wings_are_looked_for_where_they_are_at_home(tmp_path: Path) -> None:
    bush = plant("bush", "highbush blueberry", year=2015, count=4)
    assert of_rule(opened(tmp_path, GANGWON, bush), "scout-spotted-wing")


@pytest.mark.parametrize(("place", "told"), [(GANGWON, True), (NAGANO, False)])
def test_fire_blight_is_in_korea_and_not_in_japan(tmp_path: Path, place: Place, *, told: bool) -> None:
    assert bool(of_rule(opened(tmp_path, place, *TWO_APPLES), "look-for-fire-blight")) is told


@pytest.mark.parametrize(("place", "told"), [(CUYO, True), (MINHO, True), (ALBORZ, False), (PIEDMONT, False)])
def test_fruit_flies_live_where_nights_of_winter_hardly_freeze(
    tmp_path: Path, place: Place, *, told: bool
) -> None:
    """Fought in Mendoza and Portugal (recalled); at Girona winter kills the flies (abstract read)."""
    assert bool(of_rule(opened(tmp_path, place, plant("fig", "fig", year=2010)), "scout-fruit-flies")) is told


def test_chile_is_kept_free_of_fruit_flies(tmp_path: Path) -> None:
    curico: Place = ((-35.0, -71.2), CUYO[1])
    assert not of_rule(opened(tmp_path, curico, plant("fig", "fig", year=2010)), "scout-fruit-flies")


@pytest.mark.parametrize(("place", "told"), [(PIEDMONT, True), (CUYO, True), (GANGWON, False)])
def test_grape_moths_are_looked_for_where_they_live(tmp_path: Path, place: Place, *, told: bool) -> None:
    vine = plant("vine", "grape", cultivar="Barbera", year=2012)
    assert bool(of_rule(opened(tmp_path, place, vine), "look-for-grape-moth")) is told


@pytest.mark.parametrize(("place", "told"), [(PIEDMONT, True), (ALBORZ, False), (OKANAGAN, False)])
def test_oil_spots_come_with_summer_rain(tmp_path: Path, place: Place, *, told: bool) -> None:
    vine = plant("vine", "grape", year=2012)
    looks = of_rule(opened(tmp_path, place, vine), "look-for-vine-mildew")
    assert bool(looks) is told
    assert all(dt.date(2027, 4, 20) <= likely(look) <= dt.date(2027, 5, 31) for look in looks)


@pytest.mark.parametrize(("place", "told"), [(ALMATY, True), (FINGER_LAKES, True), (PIEDMONT, False)])
def test_vines_are_laid_down_where_winter_kills_them(tmp_path: Path, place: Place, *, told: bool) -> None:
    """Buried where -17 degC is usual: Xinjiang, Finger Lakes; in Ningxia late October on (read)."""
    vine = plant("vine", "grape", year=2012)
    laid = of_rule(opened(tmp_path, place, vine), "lay-down-vines")
    assert bool(laid) is told
    assert all(dt.date(2027, 10, 15) <= likely(job) <= dt.date(2027, 11, 20) for job in laid)


def test_pear_slugs_are_met_in_their_first_brood(tmp_path: Path) -> None:
    """Adults lay from late October, first larvae are seen in November and December in Australia (read)."""
    tree = plant("cherry", "sweet cherry", cultivar="Lapins", year=2014, height_m=4)
    (look,) = of_rule(opened(tmp_path, HUON, tree), "look-for-pear-slug")
    assert look.best.likely is not None
    assert dt.date(2027, 11, 1) <= look.best.likely <= dt.date(2027, 12, 20)


@pytest.mark.parametrize(("place", "told"), [(DEVON, True), (HUON, True), (ALMATY, False), (ALBORZ, False)])
def test_canker_is_looked_for_where_winters_are_mild_and_wet(
    tmp_path: Path, place: Place, *, told: bool
) -> None:
    looks = of_rule(opened(tmp_path, place, plant("apple", "apple", year=2005)), "look-for-canker")
    assert bool(looks) is told


def test_the_store_is_looked_through_after_the_new_year_too(tmp_path: Path) -> None:
    (look,) = of_rule(opened(tmp_path, DEVON, *TWO_APPLES), "look-through-late-store")
    assert likely(look) == dt.date(2027, 1, 5)


def test_whoever_works_under_a_failing_tree_without_ladder_or_saw_is_warned(tmp_path: Path) -> None:
    """Dead wood falls by itself, on still days too (common practice, no source)."""
    poplar = plant("poplar", "hybrid poplar", year=1970, state="declining", height_m=24)
    almanac = opened(tmp_path, ALMATY, poplar)
    for rule in ("gather-leaves", "pull-suckers"):
        (job,) = of_rule(almanac, rule)
        assert "look up first" in job.cautions[0]
    (order,) = of_rule(almanac, "order-successor")
    assert not any("look up" in said for said in order.cautions)
    sound = plant("poplar", "hybrid poplar", year=1970, height_m=24)
    (job,) = of_rule(opened(tmp_path / "sound", ALMATY, sound), "gather-leaves")
    assert not any("look up" in said for said in job.cautions)
