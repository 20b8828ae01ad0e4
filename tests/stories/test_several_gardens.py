"""Several gardens in one week: named on the command line, or in the garden file as `also`."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pypdf
from tests.in_process import refused, run
from tests.samples.garden_text import garden_text, helper, own_job, plant

from leafturn.almanac import open_almanac
from leafturn_tui.pages.round import RoundPage

ON = "2027-04-19"


def fence(what: str) -> str:
    return own_job("fence", what, when="2027-04-10", minutes=20)


def garden(folder: Path, name: str, *things: str, also: str = "") -> Path:
    folder.mkdir(parents=True)
    text = garden_text(*things, name=name)
    (folder / "garden.toml").write_text(f"{also}\n{text}", encoding="utf-8")
    return folder


def three(tmp_path: Path, also: str = "") -> tuple[Path, Path, Path]:
    """Two gardens with a job of the same id each, and one that is no TOML."""
    first = garden(tmp_path / "weir", "Weir Meadow", fence("mend the fence"), also=also)
    second = garden(tmp_path / "mill", "Mill House", fence("paint the gate"))
    broken = tmp_path / "broken"
    broken.mkdir()
    (broken / "garden.toml").write_text("{ lat = 46", encoding="utf-8")
    return first, second, broken


def test_one_week_over_all_walked_garden_by_garden(tmp_path: Path) -> None:
    first, second, broken = three(tmp_path)
    done = run("round", str(first), str(second), str(broken), "--on", ON)
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert lines[0].endswith("Mon 19 Apr 2027, 2 gardens")
    assert lines[1].startswith("together 40 min of ")
    at = [lines.index(next(line for line in lines if line.startswith(f"== {name}"))) for name in
          ("Weir Meadow", "Mill House")]  # fmt: skip
    fence_line = next(n for n, line in enumerate(lines) if "mend the fence" in line)
    gate_line = next(n for n, line in enumerate(lines) if "paint the gate" in line)
    assert at[0] < fence_line < at[1] < gate_line
    said = [line for line in done.stderr.splitlines() if line]
    assert len(said) == 1
    assert str(broken) in said[0]


def test_the_same_as_json(tmp_path: Path) -> None:
    first, second, broken = three(tmp_path)
    done = run("round", str(first), str(second), str(broken), "--on", ON, "--json")
    told = json.loads(done.stdout)
    assert [one["called"] for one in told["gardens"]] == ["Weir Meadow", "Mill House", str(broken)]
    assert [one["path"] for one in told["gardens"]] == [str(first), str(second), str(broken)]
    titles = [[job["title"] for job in one.get("jobs", [])] for one in told["gardens"]]
    assert titles == [["mend the fence"], ["paint the gate"], []]
    assert len(told["faults"]) == 1
    assert told["gardens"][2]["faults"] == told["faults"]


def test_gardens_of_one_name_are_told_apart_and_one_named_twice_is_told_once(tmp_path: Path) -> None:
    first = garden(tmp_path / "a", "Home", fence("mend the fence"))
    second = garden(tmp_path / "b", "Home", fence("paint the gate"))
    done = run("round", str(first), str(second), str(first), "--on", ON)
    assert [line.split(": heat")[0] for line in done.stdout.splitlines() if line.startswith("== ")] == [
        f"== Home ({first})", f"== Home ({second})"]  # fmt: skip


def test_also_brings_the_others_to_command_json_and_page(tmp_path: Path) -> None:
    first, _, _ = three(tmp_path, also='also = ["../mill", "../broken"]')
    done = run("round", str(first), "--on", ON)
    assert done.returncode == 1
    assert "mend the fence" in done.stdout
    assert "paint the gate" in done.stdout
    assert len(done.stderr.splitlines()) == 1
    assert "../broken" in done.stderr
    told = json.loads(run("round", str(first), "--on", ON, "--json").stdout)
    assert told["garden"] == "Weir Meadow"
    assert [job["title"] for job in told["jobs"]] == ["mend the fence"]
    assert [one["called"] for one in told["also"]] == ["Mill House", "../broken"]
    almanac = open_almanac(first, done_on())
    rows = RoundPage().rows(almanac, 100)
    texts = [row.text.strip() for row in rows]
    head = texts.index("also due: Mill House")
    assert any("mend the fence" in text for text in texts[:head])
    assert any("paint the gate" in text for text in texts[head:])
    gate = next(row for row in rows if "paint the gate" in row.text)
    assert gate.why.endswith("To tend it: leafturn ../mill")
    assert any(text.startswith("../broken/garden.toml, line 1:") for text in texts)


def done_on() -> dt.date:

    return dt.date.fromisoformat(ON)


def test_a_garden_beside_is_read_again_when_it_changes(tmp_path: Path) -> None:
    first, second, _ = three(tmp_path, also='also = ["../mill"]')
    almanac = open_almanac(first, done_on())
    almanac.also()
    assert not almanac.stale()
    text = (second / "garden.toml").read_text(encoding="utf-8")
    (second / "garden.toml").write_text(text.replace("paint the gate", "oil the hinges"), encoding="utf-8")
    assert almanac.stale()
    beside = almanac.reread().also()[0].garden
    assert beside is not None
    assert [job.title for job in beside.round().jobs] == ["oil the hinges"]


def test_gardens_that_name_each_other_end_there(tmp_path: Path) -> None:
    garden(tmp_path / "a", "A", fence("mend the fence"), also='also = "../b"')
    garden(tmp_path / "b", "B", fence("paint the gate"), also='also = "../a"')
    done = run("round", str(tmp_path / "a"), "--on", ON)
    assert done.returncode == 0
    assert done.stdout.count("mend the fence") == 1
    assert done.stdout.count("paint the gate") == 1


def test_what_cannot_be_a_garden_beside_costs_one_sentence(tmp_path: Path) -> None:
    other = garden(tmp_path / "other", "Other")
    (tmp_path / "link").symlink_to(other)
    names = ['"../gone"', '"."', '"garden.toml"', '"../link"', f'"{other}"', "7", '"../other"', '"../other/"']
    first = garden(tmp_path / "a", "A", fence("mend the fence"), also=f"also = [{', '.join(names)}]")
    done = run("check", str(first), "--on", ON)
    said = [line for line in (done.stdout + done.stderr).splitlines() if "also" in line]
    assert len(said) == 7
    for part in ("no such folder", "this garden itself", "a link to another place", "does not begin at",
                 "no name of a garden", "twice"):  # fmt: skip
        assert any(part in line for line in said), part
    assert all("line 1" in line for line in said)
    told = json.loads(run("round", str(first), "--on", ON, "--json").stdout)
    assert [one["called"] for one in told["also"]] == ["Other"]


def test_also_may_stand_after_place_and_must_be_a_list(tmp_path: Path) -> None:
    garden(tmp_path / "other", "Other", fence("paint the gate"))
    first = tmp_path / "a"
    first.mkdir()
    (first / "garden.toml").write_text('[place]\nlat = 46.9\nlon = 15.9\nalso = ["../other"]\n')
    assert "paint the gate" in run("round", str(first), "--on", ON).stdout
    (first / "garden.toml").write_text("also = 3\n[place]\nlat = 46.9\nlon = 15.9\n")
    assert "also is no list of gardens" in run("round", str(first), "--on", ON).stderr


def test_one_paper_with_a_sheet_for_each_garden_and_its_ticks(tmp_path: Path) -> None:
    first, second, broken = three(tmp_path)
    gardens = [str(first), str(second), str(broken)]
    done = run("sheet", *gardens, "--on", ON)
    assert done.returncode == 1
    cover = " ".join(done.stdout.splitlines()[:8])
    assert cover.startswith("2 gardens, Mon 19 Apr 2027: Weir Meadow (sheet 16-A, 20 min), Mill House (")
    assert "together 40 min" in cover
    sheets = done.stdout.replace("\f", "\n").split("Week sheet ")
    assert [sheet[:4] for sheet in sheets[1:]] == ["16-A", "16-B"]
    assert "mend the fence" in sheets[1]
    assert "paint the gate" in sheets[2]
    assert all(len(page.splitlines()) <= 60 for page in done.stdout.split("\f"))
    again = run("sheet", *gardens, "--on", ON)
    assert again.stdout == done.stdout
    assert "begin with the sheet's number" in refused("sheet", *gardens, "--on", ON, "--done", "1")
    assert "no garden here has a sheet 16-C" in refused("sheet", *gardens, "--on", ON, "--done", "16-C 1")
    entered = run("sheet", *gardens, "--on", ON, "--done", "16-B 1")
    assert "done: 1 paint the gate" in entered.stdout
    left = run("round", str(first), str(second), "--on", ON, "--json")
    states = [job["state"] for one in json.loads(left.stdout)["gardens"] for job in one["jobs"]]
    assert states[0] in ("late", "due")
    assert states[1] == "done"


def test_one_helpers_week_over_all(tmp_path: Path) -> None:
    first, second, _ = three(tmp_path)
    done = run("round", str(first), str(second), "--on", ON, "--helper", "steward")
    assert "What needs steward's hands this week?" in done.stdout
    assert "There is no helper 'bob'" in refused(
        "round", str(first), str(second), "--on", ON, "--helper", "bob"
    )


def test_without_any_garden_that_can_be_read_it_is_said(tmp_path: Path) -> None:
    said = refused("round", str(tmp_path / "x"), str(tmp_path / "y"), "--on", ON)
    assert "there is no such folder or file" in said


def test_plants_of_other_gardens_do_not_mix(tmp_path: Path) -> None:
    """The same plant in two gardens keeps its own jobs: nothing is told twice or of the wrong place."""
    apple = plant("apple-1", "apple", year=2010, at=[0, 0])
    first = garden(tmp_path / "a", "A", apple)
    second = garden(tmp_path / "b", "B", apple)
    told = json.loads(run("round", str(first), str(second), "--on", ON, "--json").stdout)
    alone = json.loads(run("round", str(first), "--on", ON, "--json").stdout)
    assert told["gardens"][0]["jobs"] == alone["jobs"] == told["gardens"][1]["jobs"]


def test_the_sentence_above_the_sheets_has_no_page_to_itself(tmp_path: Path) -> None:
    """A first garden whose sheet fills a page by itself, on paper and in fixed type."""
    many = [
        own_job(f"job-{n}", f"mend rail {n} of the fence", when="2027-04-10", minutes=5) for n in range(40)
    ]
    first = garden(tmp_path / "a", "Weir Meadow", helper("Ana", hours_per_week=20), *many)
    second = garden(tmp_path / "b", "Mill House", fence("paint the gate"))
    out = tmp_path / "sheets.pdf"
    done = run("sheet", str(first), str(second), "--on", ON, "-o", str(out))
    assert done.returncode == 0, done.stderr
    pages = [page.extract_text() for page in pypdf.PdfReader(out).pages]
    assert len(pages) == 2
    assert "2 gardens" in pages[0]
    assert "mend rail" in pages[0]
    assert "paint the gate" in pages[1]
    text = run("sheet", str(first), str(second), "--on", ON).stdout
    top = text.partition("Mill House: what needs hands")[0].splitlines()
    assert len(top) - 1 <= 60  # the last line is where the page ends
    assert any("mend rail" in line for line in top)
