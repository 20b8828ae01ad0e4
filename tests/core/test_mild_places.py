"""Gardens where frost rarely or never comes: winter work comes in winter, and nothing waits for a frost.

That a winter cut can be noted is looked at always, years day by day in the long checks.
"""

from __future__ import annotations

import datetime as dt
import itertools
import json
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.jobs import job_alone

from leafturn.almanac import open_almanac
from leafturn.tasks.model import Job

# Monthly means, degC. Kalamata: about those of its airport. San Diego: NOAA U.S. Climate Normals 1991-2020,
# San Diego Lindbergh Field (recalled, degF; the means of December to April agree with those that the National
# Weather Service printed). Auckland: made up, about those of the city.
pytestmark = pytest.mark.sweep(each=6)

PLACES = {
    "kalamata": """
lat = 37.0
lon = 22.1
[climate]
tmax_c = [15.0, 15.6, 17.9, 20.9, 25.7, 30.3, 32.6, 32.8, 29.2, 24.6, 20.0, 16.4]
tmin_c = [5.6, 5.6, 6.9, 9.0, 12.5, 16.2, 18.2, 18.4, 16.0, 12.9, 9.5, 7.0]
""",
    "san diego": """
lat = 32.73
lon = -117.18
[climate]
tmax_f = [66.4, 66.2, 67.0, 68.8, 69.5, 71.7, 75.3, 77.3, 77.2, 74.6, 70.7, 66.0]
tmin_f = [50.3, 51.8, 54.5, 57.1, 60.0, 62.6, 66.1, 67.5, 66.2, 61.5, 54.8, 49.8]
""",
    "auckland": """
lat = -36.9
lon = 174.8
[climate]
tmax_c = [23.6, 24.1, 22.7, 20.3, 17.6, 15.2, 14.5, 15.1, 16.5, 17.9, 19.7, 21.9]
tmin_c = [15.9, 16.4, 15.0, 12.8, 10.5, 8.5, 7.5, 8.0, 9.5, 11.0, 12.5, 14.6]
""",
}
KINDS = {
    "grape": ("grape", 2015), "apple": ("apple", 2015), "peach": ("peach", 2015), "fig": ("fig", 2015),
    "kiwi": ("hardy kiwi", 2015), "raspberry": ("raspberry", 2020), "rose": ("rambling rose", 2015),
    "ivy": ("ivy", 2010), "young-oca": ("oca", 2025), "lemon": ("lemon", 2020),
}  # fmt: skip
# Woody kinds that have a rule for a cut in winter, and what that cut is called.
WINTER_CUTS = {
    "grape": "winter-cut", "kiwi": "winter-cut", "ivy": "winter-cut",
    "apple": "winter-prune", "fig": "late-winter-prune",
}  # fmt: skip
FROSTS = {"of the normals": "", "never": 'last_frost = "never"\n', "rare": 'last_frost = "1 year in 5"\n'}


def garden_text(place: str, told: str, names: Iterable[str] = KINDS) -> str:
    """A place with what is told of its frost, and some of the plants."""
    kinds = {name: KINDS[name] for name in names}
    plants = "".join(
        f'[[plant]]\nid = "{name}"\nkind = "{kind}"\nyear = {year}\n' for name, (kind, year) in kinds.items()
    )
    climate = PLACES[place].replace("[climate]\n", f"[climate]\n{FROSTS[told]}")
    return f'[place]\nname = "{place}"\n{climate}{plants}'


@pytest.fixture(scope="module")
def gardens(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, str], Path]:
    """A folder for each place and each thing told of its frost."""
    found = {}
    for place, told in itertools.product(PLACES, FROSTS):
        folder = found[place, told] = tmp_path_factory.mktemp(place.replace(" ", "-"))
        (folder / "garden.toml").write_text(garden_text(place, told))
    return found


# Every other week where the normals alone speak in the north; the others every third, to save time.
WEEKS_APART = {("kalamata", "of the normals"): 2, ("san diego", "of the normals"): 2}


@cache
def jobs_of_a_year(folder: Path, place: str, told: str) -> tuple[tuple[dt.date, Job], ...]:
    """Every job, whatever its state, as of the days looked at from early autumn on; told where it is read."""
    first = dt.date(2027, 3, 1) if place == "auckland" else dt.date(2026, 9, 1)
    days = [first + dt.timedelta(weeks=week) for week in range(0, 53, WEEKS_APART.get((place, told), 3))]
    opened = open_almanac(folder, on=first)
    return tuple(
        (on, job_alone(job, told=told == "never" or job.verb == "wrap" or job.plants == ("ivy",)))
        for on in days
        for job in opened.at(on).jobs()
    )


PLACE = pytest.mark.parametrize("place", ["san diego", "auckland", "kalamata"])
TOLD = pytest.mark.parametrize("told", ["of the normals", "never"])


@pytest.mark.long
@PLACE
@TOLD
def test_each_woody_kind_has_its_winter_cut_in_winter(
    place: str, told: str, gardens: dict[tuple[str, str], Path]
) -> None:
    folder, seen = gardens[place, told], dict[str, list[dt.date]]()
    for on, job in jobs_of_a_year(folder, place, told):
        plant, verb = job.id.split(":")[:2]
        if job.state in ("due", "late", "held") and WINTER_CUTS.get(plant) == verb:
            seen.setdefault(job.id, []).append(on)
    assert {job_id.split(":")[0] for job_id in seen} >= set(WINTER_CUTS)
    # From the winter's rest until the buds burst, which may be late where there was little cold.
    begins, late, ends = ((5, 15), (8, 31), (10, 31)) if place == "auckland" else ((11, 15), (3, 10), (4, 30))
    year = 2027
    first = dt.date(year if place == "auckland" else year - 1, *begins)
    for days in seen.values():
        assert first <= min(days) <= dt.date(year, *late)
        assert max(days) <= dt.date(year, *ends)


@PLACE
@TOLD
def test_a_winter_cut_can_be_noted_as_done(place: str, told: str, tmp_path: Path) -> None:
    on = "2027-07-20" if place == "auckland" else "2027-01-20"
    for plant, verb in WINTER_CUTS.items():
        (tmp_path / plant).mkdir()
        (tmp_path / plant / "garden.toml").write_text(garden_text(place, told, [plant]))
        done = run("done", str(tmp_path / plant), f"{plant}:{verb}:2027", "--on", on)
        assert (done.returncode, done.stderr) == (0, ""), plant


@pytest.mark.long
@PLACE
def test_nothing_is_late_for_months_where_no_frost_ends_the_year(
    place: str, gardens: dict[tuple[str, str], Path]
) -> None:
    """Nothing here was promised by the steward: what is missed has passed and comes again."""
    seen = jobs_of_a_year(gardens[place, "of the normals"], place, "of the normals")
    assert not [(on, job.id, job.days_late) for on, job in seen if job.state == "late"]
    assert any(job.id.startswith("grape:summer-cut") and job.state in ("due", "passed") for _, job in seen)


@pytest.mark.long
@PLACE
def test_nothing_waits_for_a_frost_that_never_comes(place: str, gardens: dict[tuple[str, str], Path]) -> None:
    for _, job in jobs_of_a_year(gardens[place, "never"], place, "never"):
        assert job.verb not in ("wrap", "autumn mulch", "band stems", "cover"), job.id
        for said in job.why:
            assert "before frost" not in said
            assert "first frost" not in said.lower()
            assert "last frost" not in said.lower() or "Fresh mulch" in said


@pytest.mark.long
@PLACE
def test_a_rare_frost_is_told_as_rare(place: str, gardens: dict[tuple[str, str], Path]) -> None:
    wraps = {
        said
        for _, job in jobs_of_a_year(gardens[place, "rare"], place, "rare")
        if job.verb == "wrap"
        for said in job.why
    }
    assert any("Frost comes here in 2 of 10 years." in said for said in wraps)
    assert not any("first frost here comes" in said for said in wraps)


@PLACE
def test_an_evergreen_loses_no_leaves(place: str, tmp_path: Path) -> None:
    """In a garden of its own, whose year is sooner gone through."""
    (tmp_path / "garden.toml").write_text(garden_text(place, "of the normals", ["ivy"]))
    said_of_it = [
        said
        for _, job in jobs_of_a_year(tmp_path, place, "of the normals")
        if job.plants == ("ivy",)
        for said in job.why
    ]
    assert said_of_it
    bare = [said for said in said_of_it if "Leaves" in said or "Leaf-out" in said or "bare" in said.lower()]
    assert bare == []


def test_the_commands_say_never_and_how_seldom(gardens: dict[tuple[str, str], Path]) -> None:
    never, rare = (str(gardens["san diego", told]) for told in ("never", "rare"))
    said = run("season", never, "--on", "2027-01-20").stdout
    assert "last frost hardly ever\nfirst frost of autumn hardly ever\n" in said
    assert "no frost likely" in said
    assert "days without frost: 365" in said
    frost = json.loads(run("season", never, "--on", "2027-01-20", "--json").stdout)["frost"]
    nothing = {"p10": None, "p50": None, "p90": None, "years_in_ten": 0}
    assert (frost["last"], frost["first"]) == (nothing, nothing)
    said = run("season", rare, "--on", "2026-10-20").stdout
    assert "frost in 2 of 10 years" in said
    assert "first frost of autumn in 2 of 10 years" in said
    frost = json.loads(run("season", rare, "--on", "2026-10-20", "--json").stdout)["frost"]
    assert frost["first"]["years_in_ten"] == pytest.approx(2, abs=0.3)
    assert frost["first"]["p50"] is None
    said = run("weather", rare, "--on", "2026-10-20").stdout
    assert "first of autumn in 2 of 10 years." in said
    weather = json.loads(run("weather", never, "--on", "2026-10-20", "--json").stdout)["weather"]
    assert weather["frost"] == {"last": nothing, "first": nothing}
