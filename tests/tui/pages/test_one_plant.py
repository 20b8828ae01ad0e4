"""A plant's own page says what is to be done at it, or that nothing is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.places import ROOT

from leafturn.almanac import Almanac
from leafturn.papers.cards import tree_card
from leafturn_tui.command_line import main
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.render import plants

GARDEN = garden_text(
    plant("pine", "scots pine", year=1980, at=[0, 0]),
    plant("snowdrops", "snowdrop", year=2010, at=[20, 0]),
    plant("boskoop", "apple", cultivar="Boskoop", year=2005, at=[40, 0]),
    plant("cox", "apple", cultivar="Cox's Orange Pippin", year=2005, at=[45, 0]),
)


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, GARDEN, "2027-08-20")


def page(almanac: Almanac, plant_id: str) -> str:
    return "\n".join(
        "".join(part.text for part in row.pieces) for row in OnePlant(plant_id).rows(almanac, 100)
    )


@pytest.mark.parametrize("plant_id", ["pine", "snowdrops"])
def test_kinds_that_need_nothing_say_so(almanac: Almanac, plant_id: str) -> None:
    assert not [job for job in almanac.jobs() if plant_id in (job.plant, *job.plants)]
    assert f"Nothing to do: no work falls to {plant_id} this season." in page(almanac, plant_id)
    card = almanac.plant(plant_id)
    assert card is not None
    assert card.nothing_to_do
    written = " ".join(" ".join(tree_card(card, almanac.jobs(), almanac.on).lines).split())
    assert "To do: nothing, no work falls to it this season." in written
    told = {one["id"]: one["nothing_to_do"] for one in plants.as_json(almanac)["plants"]}
    assert told == {"pine": True, "snowdrops": True, "boskoop": False, "cox": False}


@pytest.mark.sweep(each=7)
@pytest.mark.parametrize(
    ("kind", "work"),
    [("snowdrop", "nothing to do, it asks for none"), ("daffodil", "nothing to do, it asks for none"),
     ("bugle", "nothing to do, it asks for none"), ("white clover", "mow"), ("osier", "coppice"),
     ("lavender", "trim"), ("garden strawberry", "take runners")],
)  # fmt: skip
def test_the_card_of_a_kind_tells_what_work_it_asks_for(
    kind: str, work: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plants", str(ROOT / "demo_garden"), "--kind", kind]) == 0
    line = next(told for told in capsys.readouterr().out.splitlines() if told.startswith("work of the year"))
    assert work in line
    assert main(["plants", str(ROOT / "demo_garden"), "--kind", kind, "--json"]) == 0
    verbs = json.loads(capsys.readouterr().out)["kind"]["work"]
    assert (verbs == []) == work.startswith("nothing")


def test_jobs_of_a_plant_and_of_its_group_stand_on_its_page(almanac: Almanac) -> None:
    told = page(almanac, "boskoop")
    assert "summer prune" in told
    assert "Nothing to do" not in told
    card = almanac.plant("boskoop")
    assert card is not None
    shared = [job for job_id in card.jobs if (job := almanac.job(job_id)) is not None and len(job.plants) > 1]
    assert shared
    assert all("boskoop" in job.plants for job in shared)
