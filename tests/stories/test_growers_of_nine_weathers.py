"""What growers from Galicia to Basel, Valencia, Bend, Bariloche and Temuco miss or strike out.

Sources stand with the rules they are for (core/leafturn/tasks/rules).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.weathers import (
    BARILOCHE,
    BASEL,
    BEND,
    GALICIA,
    KENT,
    MINNEAPOLIS,
    SAPPORO,
    SEATTLE,
    TEMUCO,
    TWO_APPLES,
    VALENCIA,
    Place,
    likely,
    of_rule,
    opened,
)  # fmt: skip

from leafturn.journal.entries import HarvestNote

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


@pytest.mark.parametrize(("cultivar", "lonely"), [("Tonda Gentile delle Langhe", False), ("Barcelona", True)])
def test_hazels_of_piedmont_have_the_wild_ones(tmp_path: Path, cultivar: str, *, lonely: bool) -> None:
    """Pollinators are Tonda Romana and the wild hazel (Vivai Artemisia, read); Barcelona has its own list."""
    almanac = opened(tmp_path, BASEL, plant("h", "hazel", cultivar=cultivar, year=2010))
    (review,) = almanac.partners()
    assert (review.standing == "lacks") is lonely
    assert bool(of_rule(almanac, "bring-pollen")) is lonely


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


@pytest.mark.long
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


@pytest.mark.parametrize(("cultivar", "laid"), [("Marquette", False), ("Muscat Bleu", True), ("", True)])
def test_hardy_vines_stay_up_in_minnesota(tmp_path: Path, cultivar: str, *, laid: bool) -> None:
    """Since Frontenac and Marquette nobody buries those: "burying vines was virtually universal" before
    (Midwest Wine Press, read); full crops after -34 C (Double A Vineyards, read)."""
    named = {"cultivar": cultivar} if cultivar else {}
    vine = plant("vine", "grape", year=2012, **named)
    assert bool(of_rule(opened(tmp_path, MINNEAPOLIS, vine), "lay-down-vines")) is laid


def test_nobody_covers_a_tall_crown_from_frost(tmp_path: Path) -> None:
    """Fleece or a sheet over a frame (common practice); 5 m is a guess."""
    tall = plant("pear", "pear", year=2000, height_m=5.5)
    jobs = opened(tmp_path, BASEL, tall, on="2027-04-05").jobs()
    assert not [job for job in jobs if job.verb == "cover"]
