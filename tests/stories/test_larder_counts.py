"""The larder as a command: a count for every week, nothing that cannot set, what would fill empty weeks."""

from __future__ import annotations

import json
import re
from pathlib import Path

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
    assert len(found) == 52
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
    empty = {week["number"] for week in larder["weeks"] if not week["picked"] and not week["kept"]}
    gaps = {n for gap in larder["picking_gaps"] for n in range(gap["first"], gap["last"] + 1)}
    assert gaps == empty
    assert any(gap["fillers"] for gap in larder["picking_gaps"])


def test_a_partner_puts_it_into_the_larder(tmp_path: Path) -> None:
    male = plant("male", "hardy kiwi", sex="male", year=2010, at=[11, 0])
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS, male), encoding="utf-8")
    assert any("lonely-kiwi" in told.split("Open")[0] for _, _, told in weeks(tmp_path))
