"""What was planted and lost, by kind, as the Book tells it on its page and in `leafturn book --json`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn_tui.pages.survival import survival_rows

ON = "2027-04-19"


def lost(plant: str, on: str, cause: str = "") -> str:
    said = f'cause = "{cause}"\n' if cause else ""
    return f'\n[[entry]]\non = {on}\nwhat = "loss"\nplant = "{plant}"\n{said}'


GARDEN = garden_text(
    *(plant(f"apple-{n}", "apple", year=2017, at=[5 * n, 0]) for n in range(1, 9)),
    plant("pear-old", "pear", year=1960, at=[0, 9]),
    plant("pear-new", "pear", year=2020, at=[5, 9]),
    plant("quince", "quince", year=2019, at=[9, 9]),
    plant("plum", "european plum", year=2021, at=[14, 9]),
)
NOTES = (
    '[[entry]]\non = 2016-05-01\nwhat = "note"\ntext = "the book begins"\n'
    + lost("apple-1", "2018-03-01", "Voles")
    + lost("apple-2", "2020-03-01", "voles")
    + lost("apple-3", "2020-07-01", "drought")
    + lost("pear-old", "2022-01-09", "wind")
    + lost("plum", "2019-01-09", "canker")  # of the tree that stood there before 2021
    + lost("medlar", "2020-01-09")  # no longer in the garden file
)


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("survival")
    (folder / "journal.toml").write_text(NOTES, encoding="utf-8")
    (folder / "garden.toml").write_text(GARDEN, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def told(garden: Path) -> dict[str, dict]:
    answer = json.loads(run("book", str(garden), "--on", ON, "--json").stdout)
    return {one["kind"]: one for one in answer["survival"]}


def test_planted_lost_and_standing_with_their_causes(told: dict[str, dict]) -> None:
    counts = {kind: (one["planted"], one["lost"], one["standing"]) for kind, one in told.items()}
    assert counts == {
        "all kinds": (14, 6, 8),
        "apple": (8, 3, 5),
        "pear": (2, 1, 1),
        "european plum": (2, 1, 1),
        "no longer in the garden file": (1, 1, 0),
        "quince": (1, 0, 1),
    }
    assert told["apple"]["causes"] == {"voles": 2, "drought": 1}
    assert told["no longer in the garden file"]["causes"] == {"cause not noted": 1}
    assert told["european plum"]["causes"] == {"canker": 1}
    assert list(told)[:2] == ["all kinds", "apple"]


def test_the_share_that_stands_and_its_range(told: dict[str, dict]) -> None:
    """Of eight apples one fell after a year and two after three; five are watched for ten years."""
    shares = {one["years"]: one for one in told["apple"]["shares"]}
    assert {year: one["share"] for year, one in shares.items()} == {1: 0.875, 3: 0.625, 10: 0.625}
    assert shares[10]["low"] < 0.625 < shares[10]["high"]
    assert told["apple"]["says"].startswith(
        "apple: 8 planted, 3 lost (voles 2, drought 1). After 10 years 6 of 10 stand; it may be "
    )
    assert "which is few" in told["apple"]["says"]


def test_few_give_no_share_and_trees_older_than_the_journal_are_no_part_of_it(told: dict[str, dict]) -> None:
    assert told["pear"]["shares"] == []
    assert told["pear"]["watched"] == 1
    assert told["pear"]["says"].endswith("1 of them since the journal began; too few to tell a share.")
    assert told["all kinds"]["shares"] == []
    assert told["all kinds"]["says"].endswith(
        "When 2 of these were planted or lost is not known, so no share is told."
    )
    assert told["all kinds"]["watched"] == 11  # 8 apples, a pear, a quince, the plum of 2021


def test_the_page_lists_kinds_with_most_losses_first(garden: Path) -> None:
    almanac = almanac_of(garden, GARDEN, ON)
    rows = survival_rows(almanac, 100)
    kinds = [row.key for row in rows if row.key.startswith("kind ")]
    assert kinds[0] == "kind apple"
    assert kinds[-1] == "kind quince"
    apple = next(row for row in rows if row.key == "kind apple")
    assert "voles 2, drought 1" in apple.text
    assert "10 y: 6 of 10 (4 to 8)" in apple.text
    assert apple.why == next(one.says for one in almanac.survival().kinds if one.kind == "apple")


def test_a_loss_after_the_day_asked_is_not_counted(garden: Path) -> None:
    answer = json.loads(run("book", str(garden), "--on", "2019-06-01", "--json").stdout)
    apple = next(one for one in answer["survival"] if one["kind"] == "apple")
    assert (apple["lost"], apple["causes"]) == (1, {"voles": 1})


def test_planted_again_after_a_loss_is_another_planting(tmp_path: Path) -> None:
    note = '\n[[entry]]\non = 2023-03-01\nwhat = "planted"\nplant = "quince"\n'
    (tmp_path / "journal.toml").write_text(lost("quince", "2022-05-01", "frost") + note, encoding="utf-8")
    almanac = almanac_of(tmp_path, garden_text(plant("quince", "quince", year=2019, at=[0, 0])), ON)
    (quince,) = almanac.survival().kinds
    assert (quince.planted, quince.lost, quince.standing) == (2, 1, 1)
