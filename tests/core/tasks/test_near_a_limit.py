"""A chance that creeps over a limit between two words of pollen takes no job away; one well past does."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.in_process import opened
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn.base.arrays import median
from leafturn.bloom.ripening import Harvests
from leafturn.garden.model import Plant
from leafturn.journal.entries import BloomNote, Entry, WeatherNote
from leafturn.partners.model import PartnerStanding
from leafturn.season.heat import cumulative_heat
from leafturn.tasks.season_model import SeasonModel

PLANTS = (plant("apple", "apple", year=2010, at=[5, 0]), plant("pear", "pear", year=2010, at=[9, 0]))


EARLY = BloomNote(on=dt.date(2027, 4, 5), plant="pear", stage="first open")


@pytest.fixture
def season(tmp_path: Path) -> SeasonModel:
    almanac = almanac_of(tmp_path, garden_text(*PLANTS), dt.date(2027, 4, 10), EARLY)
    return almanac._seasons.now


def served(season: SeasonModel, chance: float) -> None:
    """Have the season find an apple tree served so."""
    vars(season.chances)["likely"] = lambda trees=None: {"apple": chance}


def usually(monkeypatch: pytest.MonkeyPatch, standing: PartnerStanding) -> list[Collection[str]]:
    """Have the usual season serve all trees so; of which trees it was asked."""
    asked: list[Collection[str]] = []

    def usual(season: SeasonModel, trees: Collection[str]) -> Mapping[str, PartnerStanding]:
        asked.append(trees)
        return dict.fromkeys(trees, standing)

    monkeypatch.setattr(SeasonModel, "usual_standings", usual)
    return asked


@pytest.mark.parametrize(
    ("now", "standing", "usual", "follows"),
    [
        (0.451, "served", "thin", "thin"),
        (0.449, "thin", "thin", "thin"),
        (0.449, "thin", "served", "served"),
        (0.159, "thin", "lacks", "lacks"),
        (0.60, "served", "thin", "served"),
        (0.30, "thin", "served", "thin"),
        (0.02, "lacks", "thin", "lacks"),
    ],
)
def test_near_a_limit_the_usual_year_decides(
    season: SeasonModel, monkeypatch: pytest.MonkeyPatch, now: float, standing: str, usual: str, follows: str
) -> None:
    served(season, now)
    usually(monkeypatch, usual)
    assert season.chances.standings() == {"apple": standing}
    assert season.standings["apple"] == follows


def test_the_usual_year_is_asked_only_near_a_limit(
    season: SeasonModel, monkeypatch: pytest.MonkeyPatch
) -> None:
    served(season, 0.8)
    asked = usually(monkeypatch, "thin")
    assert season.standings["apple"] == "served"
    assert asked == []


def test_a_season_of_which_nothing_is_known_is_the_usual_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So it is not forecast a second time: each tree is usually served as it is now."""
    now = almanac_of(tmp_path, garden_text(*PLANTS), dt.date(2027, 4, 10))._seasons.now
    assert now.usual_standings(["apple", "pear"]) == now.chances.standings()
    assert median(now.weather.usual_heat.cumulative(5.0, 0)) == median(
        cumulative_heat(now.weather.usual, 5.0, 0)
    )
    served(now, 0.451)
    asked = usually(monkeypatch, "thin")
    assert now.standings["apple"] == "served"
    assert asked == []


@pytest.mark.parametrize("note", [EARLY, WeatherNote(on=dt.date(2027, 3, 2), tmin_c=-9.0, tmax_c=1.0)])
def test_what_is_known_of_a_season_tells_it_from_the_usual_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, note: Entry
) -> None:
    now = almanac_of(tmp_path, garden_text(*PLANTS), dt.date(2027, 4, 10), note)._seasons.now
    served(now, 0.451)
    assert usually(monkeypatch, "thin") == []
    assert now.standings["apple"] == "thin"


@pytest.mark.parametrize("on", [dt.date(2027, 4, 12), dt.date(2027, 7, 1)])
def test_some_trees_usually_stand_as_they_do_among_all(on: dt.date) -> None:
    """Forecasting only what may cross with them changes nothing of how they are served."""
    season = opened(DEMO, on)._seasons.now
    weather = replace(season.weather, now=season.weather.usual)
    whole = replace(season, weather=weather).reviews
    trees = [plant for plant, review in whole.items() if review.standing != "needs none"]
    assert len({whole[tree].kind for tree in trees}) > 5
    assert season.usual_standings(trees) == {tree: whole[tree].standing for tree in trees}
    for tree in trees:
        assert season.usual_standings([tree]) == {tree: whole[tree].standing}


def test_no_note_of_the_spring_moves_how_trees_usually_stand(tmp_path: Path) -> None:
    """Else a job would come and go with what is noted of the very flowers it is about."""
    own = [BloomNote(on=dt.date(year, 5, 1), plant="apple", stage="first open") for year in (2025, 2026)]
    forecasts = []
    for number, notes in enumerate(([], own, [*own, EARLY])):
        almanac = almanac_of(tmp_path / str(number), garden_text(*PLANTS), dt.date(2027, 4, 10), *notes)
        forecasts.append(almanac._seasons.now._forecaster.usual({"apple", "pear"}).blooms())
    none, earlier, with_this = (
        {plant: median(one.first_open) for plant, one in f.items()} for f in forecasts
    )
    assert with_this == earlier
    assert none["apple"] != earlier["apple"]


def test_the_jobs_of_a_season_follow_chances_and_ask_for_no_review() -> None:
    """Who is served is known from the figures, as the reviews say it; words and remedies are made later."""
    almanac = open_almanac(DEMO, dt.date(2027, 4, 19))
    assert almanac.jobs()
    season = almanac._seasons.now
    assert "chances" in vars(season)
    assert not {"pollen", "reviews"} & vars(season).keys()
    told = {tree: one.standing for tree, one in season.reviews.items() if one.standing != "needs none"}
    assert len(set(told.values())) == 3
    assert season.chances.standings() == told


def test_the_usual_season_is_asked_for_its_flowers_alone(
    season: SeasonModel, monkeypatch: pytest.MonkeyPatch
) -> None:
    """How trees are usually served hangs on no harvest, so none is foretold for it."""
    asked: list[Plant] = []
    monkeypatch.setattr(
        Harvests, "of", lambda harvests, flowering: asked.extend(one.plant for one in flowering) or {}
    )
    assert set(season.usual_standings({"apple", "pear"})) == {"apple", "pear"}
    assert asked == []
    assert season.forecasts["apple"].ripe is None
    assert [plant.id for plant in asked] == ["apple", "pear"]
