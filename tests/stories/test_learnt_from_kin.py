"""What notes of a kind add to its plants, and what each date rests on, as the Book tells it."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, plant

from leafturn_tui.pages.learnt import need_rows, need_sheet

ON = "2027-03-01"
GARDEN = garden_text(
    *(plant(f"pear-{n}", "pear", year=2000, at=[5 * n, 0]) for n in range(1, 5)),
    plant("quince", "quince", year=2000, at=[0, 9]),
    climate=MONTHS,
)


def answer(folder: Path) -> dict[str, dict]:
    told = json.loads(run("book", str(folder), "--on", ON, "--json").stdout)
    return {line["plant"]: line for line in told["plants"]}


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict]:
    folder = tmp_path_factory.mktemp("before")
    almanac_of(folder, GARDEN, ON)
    return answer(folder)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, before: dict[str, dict]) -> Path:
    """Three pears of four noted nine days late in four springs; the quince and the fourth pear never."""
    folder = tmp_path_factory.mktemp("after")
    late = dt.date.fromisoformat(before["pear-1"]["published"]) + dt.timedelta(days=9)
    notes = (
        f'[[entry]]\non = {late.replace(year=year)}\nwhat = "bloom"\n'
        f'plant = "pear-{n}"\nstage = "first open"\n'
        for year in (2023, 2024, 2025, 2026)
        for n in (1, 2, 3)
    )
    (folder / "journal.toml").write_text("\n".join(notes), encoding="utf-8")
    almanac_of(folder, GARDEN, ON)
    return folder


def test_without_notes_neither_kind_nor_place_adds_anything(before: dict[str, dict]) -> None:
    assert all(line["kin_days"] == 0 and line["place_days"] == 0 for line in before.values())
    assert before["pear-1"]["basis"] == "handbook"


def test_notes_of_a_kind_move_its_other_plants_and_by_how_much_is_told(folder: Path) -> None:
    after = answer(folder)
    kin = after["pear-4"]
    assert (kin["springs"], kin["kin_springs"], kin["own"]) == (0, 4, None)
    assert kin["kin_days"] > 2
    moved = (dt.date.fromisoformat(kin["used"]) - dt.date.fromisoformat(kin["published"])).days
    assert moved == pytest.approx(kin["place_days"] + kin["kin_days"], abs=1.5)
    assert after["quince"]["kin_days"] == 0
    assert after["quince"]["place_days"] > 0


def test_each_line_says_what_it_rests_on(folder: Path) -> None:
    basis = {plant: line["basis"] for plant, line in answer(folder).items()}
    assert basis["pear-1"] == "own record"
    assert basis["pear-4"] == "handbook"


def test_the_page_shows_the_kind_beside_the_place(folder: Path) -> None:
    almanac = almanac_of(folder, GARDEN, ON)
    head, *rows = [row for row in need_rows(almanac, 110) if "own notes" in row.text or row.plant]
    assert head.text.split()[5:8] == ["published", "place", "kind"]
    line = next(row for row in rows if row.plant == "pear-4")
    days = round(next(n.kin_days for n in almanac.learnt().lines if n.plant == "pear-4"))
    assert f"+{days} d" in line.text
    assert line.text.rstrip().endswith("handbook, moved")
    sheet = need_sheet(almanac, "pear-4")
    assert sheet is not None
    said = " ".join(sheet.paragraphs)
    assert f"its kind {days} days later here" in said
    assert "Basis: handbook, moved by notes of pear-1, pear-2, pear-3." in said


def test_a_plant_that_is_lost_teaches_its_kin_as_before(folder: Path, tmp_path: Path) -> None:
    """Else the forecasts of those that stand would jump on the day that one dies."""
    after = answer(folder)
    told = json.loads(run("book", str(folder), "--on", ON, "--json").stdout)["learnt"]
    losses = "".join(
        f'[[entry]]\non = 2026-11-0{n}\nwhat = "loss"\nplant = "pear-{n}"\ncause = "canker"\n'
        for n in (1, 2, 3)
    )
    journal = (folder / "journal.toml").read_text(encoding="utf-8")
    (tmp_path / "journal.toml").write_text(journal + "\n" + losses, encoding="utf-8")
    almanac_of(tmp_path, GARDEN, ON)
    left = answer(tmp_path)
    assert set(left) == {"pear-4", "quince"}
    assert {name: line["used"] for name, line in left.items()} == {name: after[name]["used"] for name in left}
    book = json.loads(run("book", str(tmp_path), "--on", ON, "--json").stdout)
    assert book["unused"] == []
    assert book["learnt"] == told
