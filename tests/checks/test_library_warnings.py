"""What the library warns of, against lists: allergy, dogs, poison, spreading into wild land.

Where a list was read it is named in sources.toml under the key that the value cites ("invasive lists read",
"plants and dogs"); what is only recalled is called fair or a guess there.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Kind


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def cautions(kind: Kind) -> str:
    return " ".join(caution.value for caution in kind.cautions).lower()


NO_NUT_TREES = {"Ginkgo"}  # its kernels are poisonous first of all


def test_every_nut_names_the_allergy(library: Library) -> None:
    # Tree nuts and pine kernels as allergens: common knowledge, no single source.
    for kind in library.kinds.values():
        part = kind.harvest.part
        if part is not None and part.value == "nut" and kind.botanical.split()[0] not in NO_NUT_TREES:
            assert "allergy" in cautions(kind), kind.name


@pytest.mark.parametrize(
    "name", ["grape", "muscadine", "chives", "welsh onion", "ramsons", "ramps", "tree onion", "hosta"]
)
def test_what_poisons_dogs_says_so(library: Library, name: str) -> None:
    assert "dog" in cautions(library.kinds[name])


@pytest.mark.parametrize(
    ("name", "region", "here"),
    [
        ("hawthorn", "oregon", True),  # Oregon and Washington lists of 2020 and 2016, read
        ("hawthorn", "germany", False),
        ("staghorn sumac", "switzerland", True),  # Swiss release ordinance, annex 2.1, read
        ("scots pine", "new zealand", True),  # the ten wilding conifers, read
        ("rowan", "new zealand", True),
        ("fig", "california", True),
        ("foxglove", "california", True),
        ("highbush blueberry", "germany", False),  # in bogs of the north-west only
        ("sweet cherry", "washington state", True),
    ],
)
def test_where_it_spreads_is_told_for_the_region_of_the_garden(
    tmp_path: Path, name: str, region: str, here: bool
) -> None:
    text = garden_text(plant("it", name, year=2010), region=region)
    spreaders = almanac_of(tmp_path / "garden", text, "2027-05-01").heed().spreaders
    assert [(line.plant, line.here) for line in spreaders] == ([("it", True)] if here else [])


def test_a_hickory_lends_nothing_to_the_pignut_of_britain(library: Library) -> None:
    # In Britain a pignut is a tuber herb of the carrot family (Conopodium majus).
    assert library.match("pignut").kind.name != "shagbark hickory"


def test_what_spreads_in_many_parts_of_the_world_says_where(library: Library) -> None:
    for kind in library.kinds.values():
        if kind.has("invasive somewhere"):
            assert kind.invasive_where is not None, kind.name


def test_care_tells_what_is_poisonous_what_hurts_the_skin_and_whose_nuts_stand_here(tmp_path: Path) -> None:
    text = garden_text(
        plant("arch", "laburnum", year=2010),
        plant("hedge", "privet", year=2010),
        plant("tansy", "tansy", year=2020),
        plant("cob", "hazel", year=2010),
        plant("walnut", "persian walnut", year=2010),
        plant("oak", "english oak", year=1950),
        plant("apple", "apple", year=2010),
    )
    warned = almanac_of(tmp_path / "garden", text, "2027-05-01").heed().warned
    assert [(w.matter, w.plants) for w in warned] == [
        ("poisonous", ("arch",)),
        ("poisonous", ("hedge",)),
        ("poisonous", ("tansy",)),
        ("nut allergy", ("cob", "walnut")),
    ]
    assert "children have taken them for peas" in warned[0].says
