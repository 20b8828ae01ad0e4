"""Story: the whole garden from above, for helpers who do not know it; no old tree is needed for it."""

from __future__ import annotations

import html
import re
from pathlib import Path

from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

PLANTS = (
    plant("apple", "apple", cultivar="Gala", year=2005, at=[-14, 6]),
    plant("pear", "pear", cultivar="Bosc", year=2005, at=[12, 8]),
    plant("currant", "redcurrant", year=2015, at=[0, -9]),
)
PATH = '[[path]]\nname = "lane"\nline = [[-20, 0], [20, 0]]\n'


def drawn(folder: Path) -> str:
    """The words and marks of the drawing, row below row."""
    (folder / "garden.toml").write_text(garden_text(*PLANTS, PATH), encoding="utf-8")
    file = folder / "plan.svg"
    done = run("picture", str(folder), "plan", "--on", "2027-04-19", "-o", str(file))
    assert done.returncode == 0, done.stderr
    rows: dict[float, list[tuple[float, str]]] = {}
    for tag, said in re.findall(r"<text([^>]*)>(.*?)</text>", file.read_text(encoding="utf-8"), re.S):
        x, y = (float(re.search(rf'\b{axis}="([\d.]+)', tag)[1]) for axis in "xy")
        rows.setdefault(y, []).append((x, html.unescape(re.sub(r"<[^>]*>", "", said))))
    return "\n".join(" ".join(said for _, said in sorted(rows[y])) for y in sorted(rows))


def test_every_plant_is_named_with_north_and_a_scale(tmp_path: Path) -> None:
    said = drawn(tmp_path)
    assert all(name in said for name in ("apple", "pear", "currant"))
    assert re.search(r"\bN\b|north", said)
    assert re.search(r"\d m\b", said)


def test_north_is_up(tmp_path: Path) -> None:
    marks = [row.replace(" ", "") for row in drawn(tmp_path).split("\n")]
    assert marks.index("pe") < marks.index("ap") < marks.index("gate") < marks.index("cu")
