"""Many plants of a kind are told as a helper would: so many trees, by the place they share."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, helper, own_job, plant


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


def big_orchard(folder: Path) -> Path:
    """Twelve of each kind, more than anybody prunes in a week of two hours."""
    rows = enumerate(("pear", "apple", "quince"))
    trees = [
        plant(f"{kind}-{n}", kind, year=1995, at=[7 * n, 10 * row])
        for row, kind in rows
        for n in range(1, 13)
    ]
    hands = helper("Bea", hours_per_week=2, can=["anything"], people=2, keeper=True)
    (folder / "garden.toml").write_text(garden_text(*trees, hands), encoding="utf-8")
    return folder


def test_what_can_wait_of_one_work_is_one_line_in_text_with_its_trees_by_number(tmp_path: Path) -> None:
    told = run("round", str(big_orchard(tmp_path)), "--on", "2027-02-10").stdout
    waits = told.split("These can wait:")[1].splitlines()
    (head,) = [line for line in waits if "winter prune 12 apple trees" in line]
    assert "9 h, can wait until" in head
    assert [line for line in waits if line.startswith("now, winter prune apple-")] == []
    numbers = [int(line.split("apple-")[1].split(",")[0]) for line in waits if "winter prune apple-" in line]
    assert numbers == list(range(1, 13))


def test_what_can_wait_is_found_on_the_page_by_work_and_then_by_tree(tmp_path: Path) -> None:
    with AtTheDesk(big_orchard(tmp_path), dt.date(2027, 2, 10)) as desk:
        desk.press("end", "enter")
        assert "What can wait, and until when?" in desk.text
        assert "winter prune 12 apple trees" in desk.text
        assert "winter prune apple-" not in desk.text
        row = next(n for n, line in enumerate(desk.lines) if "winter prune 12 apple trees" in line)
        first = next(n for n, line in enumerate(desk.lines) if line.startswith((">", "▌")))
        between = sum("can wait" in line for line in desk.lines[first + 1 : row + 1])
        desk.press(*["down"] * between, "enter")
        named = [line.split("prune ")[1].split()[0] for line in desk.lines if "winter prune apple-" in line]
        assert named == [f"apple-{n}" for n in range(1, 13)]
        assert all("can wait" in line for line in desk.lines if "winter prune apple-" in line)
        desk.press("space", "escape")
        assert "winter prune 11 apple trees" in desk.text


def test_two_counts_on_one_page_are_of_two_things_and_say_so(tmp_path: Path) -> None:
    """Some of what can wait is due and has no hands; the rest has time of its own."""
    many = big_orchard(tmp_path)
    text = (many / "garden.toml").read_text()
    fences = [
        own_job(f"fence-{n}", f"mend fence {n}", when="02-08", within_days=9, minutes=90) for n in range(3)
    ]
    (many / "garden.toml").write_text(text + "\n" + "\n".join(fences), encoding="utf-8")
    with AtTheDesk(many, dt.date(2027, 2, 10), size=(120, 40)) as desk:
        assert "jobs wait for hands: all are taken" in desk.text
        assert "more jobs" in desk.text
