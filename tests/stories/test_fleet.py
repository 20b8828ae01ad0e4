"""Many gardens asked by one command: all answered, the broken named, stopped and gone on with."""

from __future__ import annotations

import csv
import json
import sys
from pathlib import Path

import pytest
from tests.in_process import refused, run
from tests.samples.many_gardens import write_gardens

ON = "2027-04-19"


def rows(folder: Path) -> list[dict[str, str]]:
    found = []
    for part in sorted(folder.glob("part-*.csv")):
        with part.open(encoding="utf-8", newline="") as file:
            found += list(csv.DictReader(file))
    return found


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[str], list[str], str, str]:
    """Eight gardens, four of them broken, asked: answers, names of both sorts, what was said."""
    folder = tmp_path_factory.mktemp("fleet")
    sound, broken = write_gardens(folder / "all", 8, broken=4, plants=3)
    done = run("fleet", str(folder / "all"), "--on", ON, "-o", str(folder / "out"), "--workers", "0")
    assert done.returncode == 1
    return folder / "out", sound, broken, done.stdout, done.stderr


def test_all_are_answered_but_the_broken_which_are_named_with_their_fault(
    asked: tuple[Path, list[str], list[str], str, str],
) -> None:
    out, sound, broken, said, told = asked
    states = {row["garden"]: row["state"] for row in rows(out / "gardens")}
    assert states == dict.fromkeys(sound, "answered") | dict.fromkeys(broken, "cannot be read")
    assert said.startswith("8 gardens of 8: 4 answered, 4 gave no answers.\n")
    for name in broken:
        (line,) = [line for line in told.splitlines() if line.startswith(f"{name}: ")]
        assert "garden.toml" in line
    assert "8 of 8 gardens, 4 without answers" in told


def test_the_tables_hold_what_each_garden_answers_by_itself(
    asked: tuple[Path, list[str], list[str], str, str],
) -> None:
    out, sound, *_ = asked
    garden = out.parent / "all" / sound[0]
    trees = json_of("partners", garden)["trees"]
    mine = [row for row in rows(out / "partners") if row["garden"] == sound[0]]
    assert [(row["plant"], row["standing"]) for row in mine] == [(t["plant"], t["standing"]) for t in trees]
    jobs = json_of("round", garden)["jobs"]
    mine = [row for row in rows(out / "round") if row["garden"] == sound[0]]
    assert [(row["job"], row["state"]) for row in mine] == [(job["id"], job["state"]) for job in jobs]
    assert {row["area"] for row in rows(out / "partners")} == {"england", "wisconsin", "georgia"}


def json_of(question: str, garden: Path) -> dict[str, list[dict[str, str]]]:
    answer: dict[str, list[dict[str, str]]] = json.loads(
        run(question, str(garden), "--on", ON, "--json").stdout
    )
    return answer


def test_what_only_many_gardens_tell(asked: tuple[Path, list[str], list[str], str, str]) -> None:
    out, _, _, said, _ = asked
    by_kind: dict[tuple[str, str], list[str]] = {}
    for row in rows(out / "partners"):
        by_kind.setdefault((row["kind"], row["area"]), []).append(row["standing"])
    with (out / "summary" / "partners.csv").open(newline="") as file:
        told = {(row["kind"], row["area"]): row for row in csv.DictReader(file)}
    wanting = {key: found for key, found in by_kind.items() if set(found) != {"needs none"}}
    assert told.keys() == wanting.keys()
    for key, found in wanting.items():
        assert int(told[key]["lacking"]) == found.count("lacks")
        assert int(told[key]["trees"]) == len(found) - found.count("needs none")
    misses = [row for row in rows(out / "forecasts") if row["what"] == "first open"]
    assert misses
    with (out / "summary" / "forecasts.csv").open(newline="") as file:
        skill = [row for row in csv.DictReader(file) if row["what"] == "first open"]
    assert sum(int(row["noted"]) for row in skill) == len(misses)
    mean = sum(abs(int(row["miss_days"])) for row in misses) / len(misses)
    weighed = sum(int(row["noted"]) * float(row["missed_days"]) for row in skill) / len(misses)
    assert weighed == pytest.approx(mean, rel=1e-4)
    for heading in ("Which kinds lack partners where:", "How forecasts did:"):
        assert heading in said


def test_asked_again_nothing_is_done_twice(asked: tuple[Path, list[str], list[str], str, str]) -> None:
    out, _, broken, said, _ = asked
    before = {file: file.stat().st_mtime_ns for file in out.glob("*/part-*")}
    again = run("fleet", str(out.parent / "all"), "--on", ON, "-o", str(out), "--workers", "0")
    assert again.stdout == said
    assert {file: file.stat().st_mtime_ns for file in out.glob("*/part-*")} == before
    assert sum(line.startswith(tuple(broken)) for line in again.stderr.splitlines()) == len(broken)


def test_words_that_cannot_be_meant_are_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_gardens(tmp_path / "all", 1)
    words = ("fleet", str(tmp_path / "all"), "-o", str(tmp_path / "out"))
    assert "not 'moon'" in refused(*words, "--ask", "round,moon")
    assert "number of processes" in refused(*words, "--workers", "-1")
    assert "no such folder or list" in refused("fleet", str(tmp_path / "none"), "-o", str(tmp_path / "out"))
    for module, how in (("pyarrow", ["--format", "parquet"]), ("distributed", [])):
        monkeypatch.setitem(sys.modules, module, None)  # as if it were not installed
        assert "not installed" in refused(*words, *how)
    assert not (tmp_path / "out" / "gardens").exists()


def test_a_list_and_parquet_do_as_well(tmp_path: Path) -> None:
    parquet = pytest.importorskip("pyarrow.parquet")
    sound, _ = write_gardens(tmp_path / "all", 2, plants=1)
    (tmp_path / "list").write_text(f"all/{sound[1]}\n")
    done = run(
        "fleet", str(tmp_path / "list"), "--on", ON, "-o", str(tmp_path / "out"), "--workers", "0",
        "--ask", "partners", "--format", "parquet",
    )  # fmt: skip
    assert done.returncode == 0
    table = parquet.read_table(tmp_path / "out" / "gardens")
    assert table.column("garden").to_pylist() == [f"all/{sound[1]}"]
    assert str(table.schema.field("lat").type) == "double"
    assert not (tmp_path / "out" / "round").exists()


HARMFUL = ("\x1b[2J\x1b[H", "\u202egnol ot thgir", "\x9b31mC1", "zero\u200bwidth")


def test_no_harmful_name_reaches_a_terminal_or_a_table(tmp_path: Path) -> None:
    for number, bad in enumerate(HARMFUL):
        (tmp_path / "all" / f"{number}{bad}").mkdir(parents=True)
        named = json.dumps(bad)
        place = f"[place]\nlat = 46.9\nlon = 15.9\nname = {named}\nregion = {named}\n"
        text = f'{place}[[plant]]\nkind = "pear"\nid = {named}\n' if number else f"{bad} = [place"
        (tmp_path / "all" / f"{number}{bad}" / "garden.toml").write_text(text, encoding="utf-8")
    done = run("fleet", str(tmp_path / "all"), "--on", ON, "-o", str(tmp_path / "out"), "--workers", "0")
    assert done.returncode == 1
    written = [done.stdout, done.stderr, *(f.read_text() for f in (tmp_path / "out").rglob("*.csv"))]
    harm = set("\x1b\u202e\x9b\u200b")
    assert [sorted(harm & set(text)) for text in written] == [[]] * len(written)
    assert len(rows(tmp_path / "out" / "gardens")) == len(HARMFUL)
    again = run("fleet", str(tmp_path / "all"), "--on", ON, "-o", str(tmp_path / "out"), "--workers", "0")
    assert again.stdout == done.stdout  # known again by their harmless names
