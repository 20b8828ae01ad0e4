"""Alleles by old and new numbers, as someone meets them who knows only one of the two."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant


def two_trees(folder: Path, kind: str, known: str, **other: object) -> str:
    """What the command says of a pair: a cultivar of the library, and a tree told by its alleles."""
    trees = (
        plant("known", kind, cultivar=known, year=1990, at=[0, 0], raised="graft"),
        plant("other", kind, cultivar="A tree of ours", year=1990, at=[6, 0], raised="graft", **other),
    )
    (folder / "garden.toml").write_text(garden_text(*trees), "utf-8")
    done = run("partners", str(folder), "--on", "2027-04-19", "--json")
    assert done.returncode == 0, done.stderr
    tree = next(t for t in json.loads(done.stdout)["trees"] if t["plant"] == "known")
    return json.dumps(tree)


@pytest.mark.parametrize(
    ("kind", "known", "elsewhere", "said"),
    [
        ("almond", "Nonpareil", ["Sc", "Sd"], "shares both S-alleles (S7 (Sc) S8 (Sd))"),
        ("pear", "Bartlett", ["S101", "S102"], "shares both S-alleles (S1 (S101) S2 (S102))"),
        ("apple", "Fuji", ["Sc", "Sf"], "shares both S-alleles (S1 (Sf) S9 (Sc))"),
        ("japanese plum", "Black Amber", ["Sb", "S4"], "shares both S-alleles (Sb Sc (S4))"),
    ],
)
def test_alleles_in_the_other_numbering_are_taken_for_the_same(
    tmp_path: Path, kind: str, known: str, elsewhere: list[str], said: str
) -> None:
    """Almond: Kester 1994. Japanese plum: Halasz 2007, abstract. Apple and pear: as alleles.toml tells."""
    assert said in two_trees(tmp_path, kind, known, s_alleles=elsewhere)


def test_other_alleles_of_the_other_numbering_refuse_nothing(tmp_path: Path) -> None:
    assert "shares" not in two_trees(tmp_path, "almond", "Nonpareil", s_alleles=["Sa", "Sb"])


def test_the_page_of_a_kind_states_the_numbering_and_gives_both_names() -> None:
    told = run("plants", "--kind", "almond").stdout
    assert "numbering of S-alleles: Numbered S1 to S8, as in Europe; Californian lists write letters" in told
    assert "s alleles: S5 (Sa), S7 (Sc)" in told, "Thompson"


def test_where_charts_disagree_both_stand_on_the_page_of_the_kind() -> None:
    told = run("plants", "--kind", "sweet cherry").stdout
    head, _, rest = told.partition("alleles of Tulare cherry")
    assert "where sources disagree:" in head
    assert rest.index("S1 and S4, group IX.") < rest.index("S1 and S2, group I.") < rest.index("taken: ")


def test_a_file_of_own_kinds_may_use_the_other_numbering_too(tmp_path: Path) -> None:
    own = '[almond.cultivars."Own Seedling"]\ns_alleles = [["Sc", "Sd"], "a laboratory\'s letter", "fair"]\n'
    (tmp_path / "kinds.toml").write_text(own, "utf-8")
    trees = (
        plant("known", "almond", cultivar="Nonpareil", year=1990, at=[0, 0], raised="graft"),
        plant("other", "almond", cultivar="Own Seedling", year=1990, at=[6, 0], raised="graft"),
    )
    (tmp_path / "garden.toml").write_text(garden_text(*trees), "utf-8")
    told = run("partners", str(tmp_path), "--on", "2027-04-19", "--json").stdout
    assert "shares both S-alleles (S7 (Sc) S8 (Sd))" in told
    assert "0 faults" in run("kinds", "--check", str(tmp_path / "kinds.toml")).stdout
