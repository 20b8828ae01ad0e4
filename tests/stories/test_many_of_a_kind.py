"""Many plants of a kind are told as a helper would: so many trees, by the place they share."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, helper, own_job, plant

from at_the_desk import AtTheDesk
from in_process import run


def orchard(folder: Path, *more: str) -> Path:
    pears = [
        plant(f"pear-{n}", "pear", year=2012, at=[-20 + 3 * n, 30], words="by the north wall")
        for n in range(7)
    ]
    hazels = [plant(f"hazel-{n}", "hazel", year=2014, at=[20 + 3 * n, -10]) for n in range(5)]
    text = garden_text(*pears, *hazels, *more, helper("Ana", hours_per_week=10))
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return folder


def test_the_walk_goes_to_seven_trees_by_the_wall_and_not_to_one_and_six_more(tmp_path: Path) -> None:
    with AtTheDesk(orchard(tmp_path), dt.date(2027, 4, 19)) as desk:
        assert "walk 86 m: gate, 7 pear trees by the north wall, 5 hazel bushes" in desk.text
        assert "more" not in desk.row("walk ")
    with AtTheDesk(tmp_path, dt.date(2027, 3, 1), size=(120, 40)) as desk:
        assert "walk 95 m: gate, 5 hazel bushes, 7 pear trees by the north wall" in desk.text
        (line,) = [n for n, line in enumerate(desk.lines) if "winter prune 7 pear trees" in line]
        assert "by the north wall" in desk.lines[line + 1]


def test_each_of_the_trees_is_still_named_where_the_line_is_opened(tmp_path: Path) -> None:
    told = run("round", str(orchard(tmp_path)), "--on", "2027-04-19", "--json").stdout
    assert all(f'"pear-{n}"' in told for n in range(7))
    with AtTheDesk(tmp_path, dt.date(2027, 3, 1)) as desk:
        desk.press("down", "down", "enter")
        assert all(f"winter prune pear-{n}" in desk.text for n in range(7))


def test_jobs_of_ones_own_stand_by_their_words_each_in_its_line(tmp_path: Path) -> None:
    jobs = [
        own_job("fence", "mend the fence", when="03-20", within_days=5),
        own_job("gate", "oil the gate", when="03-20", within_days=5),
    ]
    with AtTheDesk(orchard(tmp_path, *jobs), dt.date(2027, 3, 30)) as desk:
        for words in ("mend the fence", "oil the gate"):
            (line,) = [line for line in desk.lines if words in line]
            assert "past best" in line
        assert "own job" not in desk.text


def test_a_job_of_ones_own_for_one_day_is_told_once_when_the_year_has_turned(tmp_path: Path) -> None:
    seen = own_job("look", "ask somebody to see the oak", when="2027-05-10", within_days=21)
    with AtTheDesk(orchard(tmp_path, seen), dt.date(2027, 12, 20)) as desk:
        assert desk.text.count("ask somebody to see the oak") == 1
        assert "0 more" not in desk.text
    told = run("round", str(tmp_path), "--on", "2028-02-01").stdout
    assert told.count("ask somebody to see the oak") == 1


def test_a_reason_that_many_share_is_told_once(tmp_path: Path) -> None:
    """Sixteen trees that wait for a second person are sixteen places, and one sentence."""
    trees = [plant(f"pear-{n}", "pear", year=1995, at=[7 * n, 10]) for n in range(1, 9)]
    trees += [plant(f"apple-{n}", "apple", year=1995, at=[7 * n, 20]) for n in range(1, 9)]
    (tmp_path / "garden.toml").write_text(garden_text(*trees))
    told = run("round", str(tmp_path), "--on", "2027-02-10").stdout
    assert told.count("Held for now: wants a second person.") == 1
    assert told.count("        winter prune ") == 16


def test_what_many_missed_alike_is_told_once(tmp_path: Path) -> None:
    """Each pear's own bloom stood in its reason, so that all was said seven times."""
    said = run("round", str(orchard(tmp_path)), "--on", "2027-05-20").stdout
    start = said.index("gone by, winter prune 7 pear trees")
    told = said[start:].split("\n\n")[0]
    assert told.count("The window closed") == 1
    assert all(f"winter prune pear-{n}, by the north wall" in told for n in range(7))


def test_plants_far_apart_are_told_as_so_many_places_and_not_by_a_spot_where_nothing_stands(
    tmp_path: Path,
) -> None:
    """Two trees 60 m apart have their middle 30 m off, on the grass; two side by side are one place."""

    def where(apart: float) -> str:
        text = garden_text(
            plant("pear", "pear", year=2012, at=[0, 0], cultivar="Comice"),
            plant("quince", "quince", year=2012, at=[apart, 0]),
        )
        almanac = almanac_of(tmp_path, text, "2027-05-25")
        return next(job.where for job in almanac.jobs() if "scorched tips" in job.title)

    assert where(60.0) == "2 places"
    assert where(6.0) == "3 m E of the gate"
