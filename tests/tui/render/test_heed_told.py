"""What could hurt someone or a plant, as the command tells it and as JSON has it."""

from __future__ import annotations

from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn_tui.render import heed


def test_all_plants_of_a_kind_are_named_also_where_one_is_called_as_its_kind(tmp_path: Path) -> None:
    """A plant whose id is its kind's name has no kind behind it; the others of its kind were left out."""
    things = [plant("black-locust", "black locust"), plant("by-gate", "black locust")]
    almanac = almanac_of(tmp_path, garden_text(*things), "2027-05-01")
    (kind,) = heed.spreading_kinds(almanac.heed())
    assert kind.says.startswith("black-locust, by-gate (black locust): known to spread into wild land")
    assert kind.names == "black-locust, by-gate (black locust)"
    assert kind.words.startswith("known to spread"), "the page has the names in a column of their own"


def test_what_is_poisonous_is_told_in_json_as_in_words(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, garden_text(plant("yew-1", "yew")), "2027-05-01")
    told = dict(heed.hazard_groups(almanac.heed(), almanac.water()))["poisonous, or hurts the skin"]
    assert [line.says for line in heed.as_json(almanac)["heed"]["warned"]] == list(told) != []
