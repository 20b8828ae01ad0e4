"""A mixed garden on four continents, and where frost is rare: jobs, words and animals of each place."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from tests.samples.climates import COLD, MILD
from tests.samples.garden_text import almanac_of, garden_text, heap, helper, plant
from tests.samples.towns import KALAMATA

from leafturn.almanac import Almanac

KINDS = (
    "apple", "pear", "european plum", "peach", "sour cherry", "quince", "fig", "kaki", "pomegranate", "grape",
    "hardy kiwi", "highbush blueberry", "redcurrant", "blackcurrant", "gooseberry", "raspberry",
    "garden strawberry", "hazel", "sweet chestnut", "pecan", "elderberry", "osier", "lavender", "sage",
    "thyme", "white clover", "comfrey", "jerusalem artichoke", "horseradish", "rhubarb", "ivy", "english oak",
    "scots pine", "camellia",
)  # fmt: skip
EVERGREEN = {"ivy", "scots pine", "lavender", "sage", "thyme", "camellia"}
SOUTH = {
    "tasmania": {k: m[6:] + m[:6] for k, m in MILD.items()},
    "chile": {k: m[6:] + m[:6] for k, m in KALAMATA.items()},
}
PLACES = {
    "england": (MILD, {"lat": 51.5, "lon": -0.4}),
    "wisconsin": (COLD, {"lat": 43.1, "lon": -89.4}),
    "kalamata": (KALAMATA, {"lat": 37.0, "lon": 22.1}),
    "tasmania": (SOUTH["tasmania"], {"lat": -42.9, "lon": 147.3}),
    "chile": (SOUTH["chile"], {"lat": -33.4, "lon": -70.6}),
}
ELSEWHERE_NOT = {
    "england": {"scout maggot", "scout curculio", "look for filbert blight", "look for borers"},
    "wisconsin": {"pick big buds"},
    "kalamata": {"scout maggot", "scout curculio", "look for filbert blight", "look for borers"},
    "tasmania": {"scout maggot", "scout curculio", "pick big buds", "band stems", "pick up nuts",
                 "scout husk fly", "scout psylla", "look for filbert blight",
                 "look for borers", "scout sawfly", "look for blight", "mow round stems"},
    "chile": {"scout maggot", "scout curculio", "pick big buds", "band stems", "look for filbert blight",
              "look for blight"},
}  # fmt: skip
BEASTS = {
    "england": "slow-worm", "wisconsin": "turtle", "kalamata": "hedgehog", "tasmania": "lizard",
    "chile": "toads, frogs and lizards",
}  # fmt: skip
STRANGERS = ("slow-worm", "hedgehog", "turtle")
GNAWING = {"tasmania": {"rabbit", "wallab"}, "wisconsin": {"vole", "rabbit"}, "chile": {"hare", "rabbit"}}
MOST_LINES = 12
YEAR = [dt.date(2027, month, 12) for month in range(1, 13)]
RIPE_AND_BARE = [YEAR[2], YEAR[6]]  # of a southern year: when most is picked, and when most is cut
NORTHERN_ONLY = re.compile(r"\b(June drop|by April|job for August|until March|in October|after July)\b")


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(("chile", RIPE_AND_BARE), id="chile, two months"),
        *(pytest.param((place, YEAR), id=place, marks=pytest.mark.long) for place in sorted(PLACES)),
    ],
)
def year(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, list[Almanac]]:
    """A place by its name, and its garden month by month."""
    name, days = request.param
    climate, place = PLACES[name]
    things = []
    for n, kind in enumerate(KINDS):
        for twin, planted in enumerate((2010, 2024)):
            more: dict[str, object] = {"guild": f"guild-{n // 8}"}
            if kind in ("ivy", "grape", "hardy kiwi"):
                more["host"] = "english-oak-0"
            if kind == "hardy kiwi":
                more["sex"] = ("female", "male")[twin]
            at = [n % 8 * 9 + twin * 4, n // 8 * 9]
            things.append(plant(f"{kind.replace(' ', '-')}-{twin}", kind, year=planted, at=at, **more))
    hands = (helper("steward", hours_per_week=10, can=["lift", "kneel"]),
             helper("pair", people=2, hours_per_week=12, can=["ladder", "saw", "lift", "kneel"]))  # fmt: skip
    text = garden_text(*things, *hands, heap("bay", stage="working", at=[2, 2]), climate=climate, **place)
    first = almanac_of(tmp_path_factory.mktemp(name), text, days[0])
    assert first.faults == ()
    return name, [first, *(first.at(day) for day in days[1:])]


def test_a_week_never_has_more_than_twelve_lines_of_work(year: tuple[str, list[Almanac]]) -> None:
    for almanac in year[1]:
        lines = [line for line in almanac.round().lines if line.state in ("due", "late", "held", "soon")]
        assert len(lines) <= MOST_LINES, almanac.on


def test_pests_and_animals_are_those_of_the_place(year: tuple[str, list[Almanac]]) -> None:
    name, months = year
    jobs = [job for almanac in months for job in almanac.jobs()]
    assert not {job.verb for job in jobs} & ELSEWHERE_NOT[name]
    said = " ".join(caution for job in jobs for caution in job.cautions)
    assert BEASTS[name] in said
    strange = [beast for beast in STRANGERS if beast in said]
    here = {
        "england": ["slow-worm", "hedgehog"],
        "kalamata": ["slow-worm", "hedgehog"],
        "wisconsin": ["turtle"],
    }
    assert strange == here.get(name, [])
    why = " ".join(line for job in jobs if job.verb == "put guard on" for line in job.why)
    assert {beast for beast in ("vole", "hare", "rabbit", "wallab") if beast in why} == GNAWING.get(
        name, {"vole", "hare"}
    )


def test_no_evergreen_is_told_that_its_leaves_came_down(year: tuple[str, list[Almanac]]) -> None:
    for almanac in year[1]:
        kinds = {p.id: p.kind for p in almanac.garden.plants}
        for job in almanac.jobs():
            if job.plants and {kinds[p] for p in job.plants} <= EVERGREEN:
                assert not re.search(r"[Ll]eaves (came|come) down", " ".join(job.why)), job.id


def test_sentences_name_the_months_of_their_half_of_the_world(year: tuple[str, list[Almanac]]) -> None:
    name, months = year
    if name not in SOUTH:
        pytest.skip("northern months are right there")
    for almanac in months:
        for job in almanac.jobs():
            told = " ".join((*job.why[:-1], *job.cautions))
            assert not NORTHERN_ONLY.search(told), (job.id, told)


def test_every_window_ends_after_it_begins_and_lateness_is_counted_from_its_end(
    year: tuple[str, list[Almanac]],
) -> None:
    for almanac in year[1]:
        for job in almanac.jobs():
            opens, closes = job.open.likely, job.close.likely
            if opens is None or closes is None:
                continue
            assert opens <= closes or job.closed_on, job.id
            if job.state == "late":
                assert job.days_late == (almanac.on - closes).days
                assert almanac.on > closes


def test_what_comes_in_winter_comes_in_winter(year: tuple[str, list[Almanac]]) -> None:
    """Roots are lifted, stools cut and currants pruned in the months of rest, be there frost or not."""
    name, months = year
    rest = (5, 6, 7, 8, 9) if name in SOUTH else (11, 12, 1, 2, 3)
    seen = set()
    for almanac in months:
        for job in almanac.jobs():
            if job.verb in ("lift", "coppice") or (job.verb == "winter prune" and "currant" in job.id):
                assert job.open.likely is not None
                seen.add(job.verb)
                assert job.open.likely.month in rest, (job.id, job.open.likely)
    assert seen == {"lift", "coppice", "winter prune"}
