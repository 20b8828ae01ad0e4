"""The larder as a command: a count for every week, nothing that cannot set, what would fill empty weeks."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant

from in_process import run

ON = "2027-04-19"
PLANTS = (
    plant("currant", "redcurrant", year=2015, at=[6, 3]),
    plant("lonely-kiwi", "hardy kiwi", sex="female", year=2010, at=[9, 0]),
    plant("quince", "quince", year=2010, at=[15, 0]),
    plant("whip", "pear", cultivar="Bartlett", year=2026, at=[20, 0]),
)


def weeks(folder: Path) -> list[tuple[int, int, str]]:
    said = run("larder", str(folder), "--on", ON).stdout
    return [
        (int(picked), int(open_now), told)
        for picked, open_now, told in re.findall(
            r"^week \d+, from [^,]+, (\d+) to pick, (\d+) open\. (.*)$", said, re.M
        )
    ]


def test_every_week_is_counted_and_what_cannot_set_is_left_out(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS), encoding="utf-8")
    found = weeks(tmp_path)
    assert len(found) == 53
    for picked, open_now, told in found:
        names = re.search(r"To pick: ([^.]*)\.", told)[1]
        assert picked == (0 if names == "nothing" else len(names.split(", ")))
        assert open_now == (0 if "pollen: nothing" in told else told.split("pollen: ")[1].count(",") + 1)
        assert "lonely-kiwi" not in names, "no male: it sets no fruit"
        assert "whip" not in names, "a year old: it bears nothing"
    assert {picked for picked, *_ in found} >= {0, 1}
    assert any("currant" in told for _, _, told in found)
    said = run("larder", str(tmp_path), "--on", ON).stdout
    assert "lonely-kiwi: hardly any fruit sets without a partner" in " ".join(said.split())
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    empty = {week["first"] for week in larder["weeks"] if not week["picked"] and not week["kept"]}
    inside = [(gap["start"], gap["end"]) for gap in larder["picking_gaps"]]
    gaps = {w["first"] for w in larder["weeks"] for start, end in inside if start <= w["first"] <= end}
    assert gaps == empty
    assert any(gap["fillers"] for gap in larder["picking_gaps"])


def test_a_partner_puts_it_into_the_larder(tmp_path: Path) -> None:
    male = plant("male", "hardy kiwi", sex="male", year=2010, at=[11, 0])
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS, male), encoding="utf-8")
    assert any("lonely-kiwi" in told.split("Open")[0] for _, _, told in weeks(tmp_path))


@pytest.mark.parametrize(("lat", "on", "first", "last"), [
    (46.9, "2027-04-19", (53, "2026-12-28"), (52, "2027-12-27")),
    (-41.3, "2027-04-19", (27, "2026-06-29"), (26, "2027-06-28")),
    (46.9, "2024-12-31", (1, "2024-01-01"), (1, "2024-12-30")),
])  # fmt: skip
def test_weeks_are_those_of_the_calendar_and_hold_every_day(
    tmp_path: Path, lat: float, on: str, first: tuple[int, str], last: tuple[int, str]
) -> None:
    """Numbers as ISO 8601 has them, from Monday: the same week is meant here, on sheets and in the Round."""
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS, climate=None, lat=lat), encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", on, "--json").stdout)["larder"]
    told = [(week["number"], dt.date.fromisoformat(week["first"])) for week in larder["weeks"]]
    assert (told[0], told[-1]) == tuple((n, dt.date.fromisoformat(day)) for n, day in (first, last))
    assert all(day.isocalendar()[1:] == (number, 1) for number, day in told)
    assert [day for _, day in told] == [told[0][1] + dt.timedelta(weeks=n) for n in range(len(told))]
    assert told[0][1] <= dt.date.fromisoformat(on) < told[-1][1] + dt.timedelta(weeks=1)
    sheet = run("sheet", str(tmp_path), "--on", on).stdout
    week = dt.date.fromisoformat(on).isocalendar().week
    assert f"week {week}," in run("larder", str(tmp_path), "--on", on).stdout
    assert re.search(rf"\b{week}-A\b", sheet)
