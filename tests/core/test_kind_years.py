"""The page of every kind's year: each kind stands on it, and each that is picked has its day somewhere."""

from __future__ import annotations

import re

import pytest
from tests.samples.places import ROOT

from leafturn.kinds.library import Library, load_library

PAGE = (ROOT / "docs" / "kind_years.md").read_text(encoding="utf-8")
TAKEN = {"pick", "lift", "dig", "pick up nuts", "chop and drop", "coppice"}
# What bears later than after the years of the page's plants.
LATE = {"Carya", "Pinus", "Ginkgo"}
HOT = {"Punica"}  # what wants hotter summers to ripen than any of the three places has
# Killed by the winters of all three places.
TENDER = {
    "avocado", "banana", "ber", "banana passionfruit", "cape gooseberry", "cassava", "cherimoya", "coconut",
    "coffee", "curry leaf", "custard apple", "dragon fruit", "grapefruit", "guava", "ice cream bean",
    "jaboticaba", "jackfruit", "lemon", "leucaena", "longan", "lychee", "macadamia", "mandarin", "mango",
    "moringa", "mountain papaya", "naranjilla", "nutmeg", "orange", "papaya", "passionfruit", "pepino",
    "pigeon pea", "pineapple", "pomelo", "sapodilla", "soursop", "starfruit", "strawberry guava",
    "surinam cherry", "tamarillo", "white sapote", "yellow passionfruit",
}  # fmt: skip


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def tables() -> dict[str, list[list[str]]]:
    """The rows of each kind's table, cell by cell."""
    found: dict[str, list[list[str]]] = {}
    for part in re.split(r"(?m)^### ", PAGE)[1:]:
        name, _, body = part.partition("\n")
        rows = [line.strip("| ").split(" | ") for line in body.splitlines() if line.startswith("| ")]
        found[name] = rows
    return found


def test_every_kind_stands_on_the_page(library: Library) -> None:
    assert set(tables()) == set(library.kinds)


def test_every_kind_of_which_something_is_picked_has_its_day(library: Library) -> None:
    told = {name: {row[0] for row in rows} for name, rows in tables().items()}
    nowhere = {
        name for name, rows in tables().items() if {c for r in rows[1:] for c in r[1:]} == {"too tender"}
    }
    assert nowhere == TENDER
    without = [
        name
        for name, kind in library.kinds.items()
        if kind.harvest.is_food
        and kind.botanical.split()[0] not in LATE | HOT
        and name not in nowhere
        and not told[name] & TAKEN
    ]
    assert without == []


def test_what_no_prairie_winter_spares_is_called_too_tender_there() -> None:
    for name in ("olive", "fig", "bay", "peach"):
        cells = [row[1] for row in tables()[name][1:]]
        assert set(cells) == {"too tender"}, name
    assert "too tender" not in {row[1] for row in tables()["saskatoon"][1:]}
