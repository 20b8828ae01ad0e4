"""Ways of pruning over the whole library: one for each kind and climate, no job in the kind's "never"."""

from __future__ import annotations

import datetime as dt
import itertools
import tomllib
from functools import cache
from pathlib import Path
from typing import get_args

import pytest
from tests.checks.pruning_gardens import days_of, garden_on, id_of, planted, spans

from leafturn.almanac import Almanac
from leafturn.kinds.library import load_library
from leafturn.kinds.model import Kind
from leafturn.kinds.pruning import Climate, names_of_ways, ways_of
from leafturn.tasks.rule_model import load_rules
from leafturn.tasks.subjects import subject_of
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

pytestmark = pytest.mark.sweep(each=4)

PLACES = tomllib.loads(Path(__file__).with_name("pruning_windows.toml").read_text("utf-8"))["place"]
GARDENS = (
    "wisconsin",
    "england",
    "north_georgia",
    "new_zealand",
)  # cold, mild and cool, mild and warm, southern
PLACE = pytest.mark.parametrize("place", GARDENS)
LIBRARY, _ = load_library()
WOODY = ("tree", "shrub", "climber", "cane")
LOW_AND_WOODY = ("cranberry", "lingonberry", "lowbush blueberry", "thyme")
RULES = load_rules().rules
CUTS = {rule.verb for rule in RULES if rule.cut is not None} | {"chop and drop", "cut out"}
AGAIN = {rule.verb for rule in RULES if rule.again}
TOUCH = 10  # [d] a window may reach so far into a closed span: both are middles of ranges


def woody() -> list[Kind]:
    return [k for k in LIBRARY.kinds.values() if k.habit in WOODY or k.name in LOW_AND_WOODY]


def climates() -> list[frozenset[str]]:
    """Every climate: of each two words that stand side by side one holds."""
    words: tuple[str, ...] = get_args(Climate)
    return [frozenset(c) for c in itertools.product(*zip(words[::2], words[1::2], strict=True))]


def test_every_woody_kind_has_one_way_in_every_climate() -> None:
    assert len(climates()) == 512
    for kind in woody():
        ways = ways_of(kind, LIBRARY.pruning)
        assert len(names_of_ways(ways)) == 1, kind.name
        for climate in climates():
            fitting = [name for name, way in ways.items() if way.fits(climate)]
            assert len(fitting) == 1, (kind.name, sorted(climate), fitting)
            assert LIBRARY.pruning[fitting[0]].cuts, kind.name


def test_cultivars_and_kinds_name_ways_that_there_are() -> None:
    known = names_of_ways(LIBRARY.pruning)
    named = [k.pruning.way for k in LIBRARY.kinds.values()]
    named += [c.pruning_way for k in LIBRARY.kinds.values() for c in k.cultivars.values()]
    said = {fact.value for fact in named if fact is not None}
    assert said
    assert said <= set(known)
    # A way that lists nobody is there for those that name it.
    assert {n for n, way in LIBRARY.pruning.items() if not way.kinds} <= said


def test_every_cut_has_its_rule_and_every_rule_its_cut() -> None:
    held = {cut.cut for way in LIBRARY.pruning.values() for cut in way.cuts.values()}
    assert held == {rule.cut for rule in RULES if rule.cut is not None}
    holds = load_rules().holds
    for way in LIBRARY.pruning.values():
        for phrase in (moment for span in way.closed for moment in span):
            read_moment(phrase)
        for cut in way.cuts.values():
            for moments in (cut.open, cut.best, cut.close):
                for phrase in (moments,) if isinstance(moments, str) else moments:
                    read_moment(phrase)
            assert set(cut.holds) <= set(holds)
            assert cut.what.endswith(".")


@cache
def garden(place: str) -> tuple[Almanac, Almanac]:
    plants = [planted(kind.name) for kind in woody()]
    rest, summer = (garden_on(PLACES[place], plants, on) for on in days_of(PLACES[place]))
    return rest, summer


@cache
def windows(place: str) -> dict[str, list[tuple[str, dt.date, dt.date, dt.date]]]:
    found: dict[str, set[tuple[str, dt.date, dt.date, dt.date]]] = {}
    for almanac in garden(place):
        for plant, told in spans(almanac).items():
            found.setdefault(plant, set()).update(tuple(s) for s in told if s.verb in CUTS)
    return {plant: sorted(told) for plant, told in found.items()}


@pytest.mark.long
@PLACE
def test_every_woody_kind_has_its_window(place: str) -> None:
    without = [k.name for k in woody() if not windows(place).get(id_of(k.name))]
    assert without == []


@pytest.mark.long
@PLACE
def test_no_job_falls_where_the_kind_is_never_cut(place: str) -> None:
    almanac, _ = garden(place)
    season = almanac._seasons.now
    wrong = []
    for plant in almanac.garden.plants:
        way = season.way(plant.kind, plant.cultivar)
        assert way is not None
        shut: set[int] = set()
        for span in way.closed:
            first, last = (
                resolve(
                    read_moment(phrase), subject_of(plant, season), season, winter=False, done=None
                ).middle
                for phrase in span
            )
            days = range(int(first), int(last) + 1) if first <= last else range(int(first), int(last) + 366)
            shut.update(int(day) % 365 for day in days)
        for verb, opens, best, closes in windows(place).get(plant.id, []):
            numbers = range(almanac.axis.day(opens), almanac.axis.day(closes) + 1)
            inside = sum(day % 365 in shut for day in numbers)
            if almanac.axis.day(best) % 365 in shut or inside > TOUCH:
                wrong.append((plant.id, verb, str(opens), str(best), str(closes), way.closed))
    assert wrong == []


@pytest.mark.long
@PLACE
def test_no_kind_is_told_two_cuts_that_gainsay_each_other(place: str) -> None:
    """One window for one verb, one shaping of the crown in a season, nothing cut before bloom and after."""
    for almanac in garden(place):
        for plant, told in spans(almanac).items():
            verbs = [s.verb for s in told if s.verb in CUTS and s.verb not in AGAIN]
            assert len(verbs) == len(set(verbs)), (plant, verbs)
    for plant, told in windows(place).items():
        heavy = {verb for verb, *_ in told} & {"winter prune", "spring prune", "prune"}
        assert len(heavy) <= 1, (plant, heavy)
        assert not {"prune after bloom", "winter prune"} <= {verb for verb, *_ in told}, plant
        assert not {"cut canes", "mow canes"} <= {verb for verb, *_ in told}, plant
