"""Published charts of who serves whom, asked cell by cell; they stand in published_charts.toml.

A cell is a taker and a donor. Where the program says otherwise than a chart, the cultivar that makes the
difference stands under `apart` with the reason; every other cell must agree, and every reason be needed.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from itertools import permutations
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from leafturn.kinds.library import load_library
from leafturn.partners.genetics.compatibility import judge
from leafturn.partners.genetics.genotype import Genotype, cultivar_genotype
from leafturn.partners.genetics.self_fertility import self_share

LIBRARY = load_library()[0]
CHARTS: dict[str, dict[str, Any]] = tomllib.loads(
    Path(__file__).with_name("published_charts.toml").read_text("utf-8")
)
FAILS = 0.05  # of a full set: as good as nothing
SERVES = 0.4  # half of the pollen grows, and some is lost; of its own pollen a self-fertile tree sets more


class Cell(NamedTuple):
    taker: str
    donor: str
    serves: bool


def of_groups(chart: dict[str, Any]) -> Iterator[Cell]:
    group = {name: key for key, names in chart["rows"].items() for name in names}
    for taker, donor in permutations(group, 2):
        if group[taker] != "self-fertile":
            yield Cell(taker, donor, group[taker] != group[donor])


def of_alleles(chart: dict[str, Any]) -> Iterator[Cell]:
    for (taker, held), (donor, given) in permutations(chart["rows"].items(), 2):
        pistil = {allele.rstrip("'") for allele in held}
        yield Cell(taker, donor, any(a.endswith("'") or a not in pistil for a in given))


def of_trees_alone(chart: dict[str, Any]) -> Iterator[Cell]:
    for fertility, names in chart["rows"].items():
        yield from (Cell(name, name, fertility == "self-fertile") for name in names)


def of_pairs(chart: dict[str, Any]) -> Iterator[Cell]:
    """Pairs of one group of bloom, or of neighbouring ones, which alone the page joins."""
    fails = {frozenset(pair) for pair in chart["fails"]}
    group = {name: place for place, names in enumerate(chart["rows"].values()) for name in names}
    for taker, donor in permutations(group, 2):
        if abs(group[taker] - group[donor]) <= 1:
            yield Cell(taker, donor, {taker, donor} not in fails and donor not in chart["useless"])


def of_lists(chart: dict[str, Any]) -> Iterator[Cell]:
    return (Cell(taker, donor, True) for taker, donors in chart["rows"].items() for donor in donors)


WAYS = {
    "groups": of_groups,
    "alleles": of_alleles,
    "alone": of_trees_alone,
    "pairs": of_pairs,
    "listed": of_lists,
}


def known_cells(chart: dict[str, Any]) -> list[Cell]:
    """The cells of which the library knows both cultivars."""
    kind = LIBRARY.kinds[chart["kind"]]
    return [
        cell
        for cell in WAYS[chart["way"]](chart)
        if LIBRARY.cultivar(kind, cell.taker) and LIBRARY.cultivar(kind, cell.donor)
    ]


def share(chart: dict[str, Any], cell: Cell) -> float:
    """What the program gives a cell, as a share of a full set."""
    taker, donor = (tree(chart["kind"], name) for name in (cell.taker, cell.donor))
    if cell.taker == cell.donor:
        return self_share(taker).likely
    found = judge(taker, donor)
    return min(found.compatible.likely, found.pollen.likely)


def tree(kind: str, name: str) -> Genotype:
    return cultivar_genotype(LIBRARY.kinds[kind], name, LIBRARY)


def disagreeing(chart: dict[str, Any]) -> list[Cell]:
    return [
        cell
        for cell in known_cells(chart)
        if (share(chart, cell) < SERVES if cell.serves else share(chart, cell) > FAILS)
    ]


@pytest.mark.parametrize("name", CHARTS)
def test_every_cell_agrees_or_has_a_reason(name: str) -> None:
    chart = CHARTS[name]
    apart = disagreeing(chart)
    unexplained = [cell for cell in apart if not {cell.taker, cell.donor} & chart["apart"].keys()]
    assert not unexplained
    needed = {cultivar for cell in apart for cultivar in (cell.taker, cell.donor)}
    assert chart["apart"].keys() <= needed, "a reason that no cell wants"


@pytest.mark.parametrize("name", CHARTS)
def test_most_of_a_chart_is_known_to_the_library(name: str) -> None:
    assert len(known_cells(CHARTS[name])) >= CHARTS[name]["cells"]
