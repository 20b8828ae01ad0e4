"""The commands, run as a user runs them: exit status, plain text, JSON, and never a traceback."""

from __future__ import annotations

import datetime as dt
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hostile import hostile_garden, raw_controls, raw_in_bytes
from tests.faults.trial import is_sentence
from tests.in_process import refused, run, run_bytes
from tests.samples.garden_text import garden_text, plant
from tests.samples.places import ROOT

import leafturn
import leafturn_tui
from leafturn.almanac import open_almanac

SOURCES = os.pathsep.join({str(Path(m.__file__ or "").parents[1]) for m in (leafturn, leafturn_tui)})
ON = "2027-04-19"
SMALL = """\
[place]
name = "Small"
lat = 46.9
lon = 15.9
last_frost = "04-24"
first_frost = "10-16"

[[plant]]
id = "pear-1"
kind = "pear"
cultivar = "Comice"
year = 2012
at = "gate"

[[plant]]
id = "quince"
kind = "quince"
year = 2014
at = "5 m west of pear-1"

[[heap]]
id = "bay-2"
at = [3, 5]
stage = "working"
"""


def answer(*words: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run(*words, "--on", ON, "--json").stdout)
    return found


@pytest.fixture
def small(tmp_path: Path) -> Path:
    folder = tmp_path / "small"
    folder.mkdir()
    (folder / "garden.toml").write_text(SMALL, encoding="utf-8")
    return folder


def garden_file(folder: Path, *things: str, **place: float) -> None:
    """A garden that knows only its latitude, and what stands there."""
    (folder / "garden.toml").write_text(garden_text(*things, climate=None, **place), encoding="utf-8")


# ---- answers -------------------------------------------------------------------------------------


def test_every_answer_is_one_object_with_the_same_beginning(small: Path) -> None:
    for command, holds in {
        "round": "jobs",
        "season": "events",
        "partners": "trees",
        "plants": "plants",
        "book": "entries",
        "check": "faults",
    }.items():
        found = answer(command, str(small))
        assert {"leafturn", "garden", "on", "faults", "notes", holds} <= set(found), command
        assert (found["leafturn"], found["garden"], found["on"]) == (leafturn.__version__, "Small", ON)


def test_the_shapes_that_stay_stable(small: Path) -> None:
    week = answer("round", str(small))
    job = {
        "id",
        "plant",
        "verb",
        "state",
        "open",
        "best",
        "close",
        "minutes",
        "who",
        "where",
        "why",
        "basis",
        "hold",
    }
    assert all(job <= set(j) for j in (*week["jobs"], *week["waiting"]))
    assert {"needed", "available"} <= set(week["hours"])
    assert set(week["walk"]) == {"stops", "metres"}
    season = answer("season", str(small))
    event = {"plant", "event", "bbch", "early", "likely", "late", "observed", "basis", "days_from_normal"}
    assert season["events"]
    assert all(event <= set(e) for e in season["events"])
    for e in season["events"]:
        assert e["likely"] is None or dt.date.fromisoformat(e["likely"])
    assert {"base", "to_date", "normal", "days_ahead", "four_cases"} == set(season["heat"])
    told = {"p10", "p50", "p90", "years_in_ten"}
    assert set(season["frost"]["last"]) == set(season["frost"]["first"]) == told
    assert season["frost"]["last"]["years_in_ten"] == 10
    tree = {
        "plant",
        "kind",
        "cultivar",
        "needs",
        "adequacy",
        "low",
        "high",
        "standing",
        "weakest",
        "reasons",
        "partners",
        "fixes",
        "frost_loss_chance",
    }
    assert all(tree <= set(t) for t in answer("partners", str(small))["trees"])


def test_json_says_what_the_almanac_says(small: Path) -> None:
    almanac = open_almanac(small, dt.date.fromisoformat(ON))
    week = answer("round", str(small))
    assert [j["id"] for j in week["jobs"]] == [j.id for j in almanac.round().jobs]
    assert week["hours"]["needed"] == pytest.approx(almanac.round().hours_needed, abs=0.001)
    dates = [(e["plant"], e["event"], e["likely"]) for e in answer("season", str(small))["events"]]
    assert dates == [
        (e.plant, e.event, e.when.likely and e.when.likely.isoformat()) for e in almanac.season().events
    ]


def test_plain_answers_are_read_aloud(small: Path) -> None:
    for command in ("round", "season", "partners", "plants", "book", "check"):
        done = run(command, str(small), "--on", ON)
        assert done.returncode == 0
        assert done.stderr == ""
        assert not raw_controls(done.stdout)
    assert (
        "What needs hands this week?  Mon 19 Apr 2027, Small" in run("round", str(small), "--on", ON).stdout
    )


def test_without_a_terminal_the_round_is_printed(small: Path) -> None:
    assert run(str(small), "--on", ON).stdout == run("round", str(small), "--on", ON).stdout
    assert run("--on", ON, cwd=small).stdout == run(str(small / "garden.toml"), "--on", ON).stdout


def test_neither_textual_nor_pages_nor_other_answers_are_imported_for_an_answer() -> None:
    """Nor what numpy and Python load beside for `np.unique`, `np.median` or `importlib.resources`."""
    code = (
        "import sys; from leafturn_tui.command_line import main; "
        f"main(['round', {str(ROOT / 'demo_garden')!r}, '--on', '{ON}', '--json']); "
        "heavy = {'textual', 'scipy', 'pandas', 'dateutil'} & {m.split('.')[0] for m in sys.modules}; "
        "rooms = {m for m in sys.modules if m.startswith('leafturn_tui.')}; "
        "others = {m for m in rooms if m.startswith(('leafturn_tui.pages', 'leafturn_tui.render.season'))}; "
        "beside = {'numpy.ma', 'importlib.resources'} & {*sys.modules}; "
        "sys.exit(len(heavy | others | beside))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env=os.environ | {"PYTHONPATH": SOURCES},
        check=False,
        capture_output=True,
        timeout=120,
    )
    assert done.returncode == 0


def test_what_was_made_is_not_looked_through_for_rings_as_the_program_ends() -> None:
    """Of handlers at exit the last given comes first, so that this one sees what the command's has done."""
    code = (
        "import atexit, gc; atexit.register(lambda: print('frozen', gc.get_freeze_count() > 0)); "
        "from leafturn_tui.command_line import main; main(['--version'])"
    )
    env = os.environ | {"PYTHONPATH": SOURCES}
    done = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True)
    assert done.stdout.endswith("frozen True\n")


def test_one_helpers_jobs() -> None:
    demo = str(ROOT / "demo_garden")
    names = {j["who"] for j in answer("round", demo, "--helper", "bench helper")["jobs"]}
    assert all("bench helper" in name for name in names)
    done = run("round", demo, "--helper", "bench helpr", "--on", ON)
    assert done.returncode == 2
    assert "there is no helper 'bench helpr'" in done.stderr.lower()
    assert "Did you mean bench helper?" in done.stderr


# ---- notes ---------------------------------------------------------------------------------------


def test_notes_of_every_sort(small: Path) -> None:
    for words, told in (
        (["bloom", "pear-1"], "noted: pear-1: first open, 19 Apr"),
        (
            ["bloom", "pear-1", "--stage", "full bloom", "--on", "2027-04-25"],
            "noted: pear-1: full bloom, 25 Apr",
        ),
        (["harvest", "quince", "4.5 kg", "--on", "2027-10-20"], "noted: quince: picked 4.5 kg, 20 Oct"),
        (["reading", "bay-2", "136.4F"], "noted: bay-2: 58 C inside, 19 Apr"),
        (["a slow-worm under the lid", "--by", "Ada"], "noted: a slow-worm under the lid, by Ada, 19 Apr"),
    ):
        given = words if "--on" in words else [*words, "--on", ON]
        done = run("note", str(small), *given)
        assert done.returncode == 0, done.stderr
        assert told in done.stdout
    assert len(answer("book", str(small))["entries"]) == 3
    found = json.loads(run("book", str(small), "--on", "2027-12-01", "--json").stdout)["entries"]
    assert [e["what"] for e in found] == ["harvest", "bloom", "note", "reading", "bloom"]


def test_the_book_as_json_tells_what_the_notes_taught(small: Path) -> None:
    fresh = answer("book", str(small))
    assert {k: fresh["learnt"][k] for k in ("notes", "kinds")} == {"notes": 0, "kinds": 0}
    assert (fresh["score"], fresh["unused"]) == ([], [])
    pear = {
        "plant", "kind", "published", "place_days", "own", "used", "springs", "kin_springs", "origin",
        "by_dates", "degrees_outside", "doubted", "kin_days", "basis",
    }  # fmt: skip
    assert fresh["plants"]
    assert all(set(p) == pear for p in fresh["plants"])
    for target, on in (("pear-1", "2025-04-20"), ("pear-1", "2026-04-14"), ("quince", "2026-09-30")):
        run("note", str(small), "bloom", target, "--on", on)
    found = answer("book", str(small))
    assert [e["plant"] for e in found["entries"]] == ["quince", "pear-1", "pear-1"]
    assert set(found["learnt"]) == {"place_days", "place_doubt_days", "notes", "kinds"}
    assert found["learnt"]["notes"] == 2
    noted = next(p for p in found["plants"] if p["plant"] == "pear-1")
    assert noted["springs"] == 2
    assert dt.date.fromisoformat(noted["own"]).year == 2027
    assert all(noted[k] is not None for k in ("published", "used"))
    assert [s["season"] for s in found["score"]] == [2026, 2025]
    latest = found["score"][0]
    assert set(latest) == {
        "season", "forecast_miss_days", "fixed_date_miss_days", "mean_of_notes_miss_days", "blooms", "misses",
    }  # fmt: skip
    miss = next(m for m in latest["misses"] if m["plant"] == "pear-1")
    assert (miss["noted"], miss["asked"]) == ("2026-04-14", "2026-03-31")
    assert miss["mean_of_notes"] == "2026-04-20"
    assert miss["mean_of_notes_miss_days"] == 6
    assert len(found["unused"]) == 1
    assert "quince" in found["unused"][0]


def test_the_garden_may_be_left_out(small: Path) -> None:
    assert (
        "noted: quince: first open" in run("note", "bloom", "quince", "--on", "2027-05-09", cwd=small).stdout
    )
    assert "noted: rain at last" in run("note", "rain", "at", "last", "--on", ON, cwd=small).stdout


def test_a_frost_below_zero_and_a_misspelt_note_are_kept_from_the_command(small: Path) -> None:
    for typed in (["frost", "-2.8"], ["frost", "-2.8C"], ["frost -2.8"]):
        assert "noted: weather: min -2.8 C" in run("note", *typed, "--on", ON, cwd=small).stdout
    done = run("note", "blom", "quince", "--on", ON, cwd=small)
    assert "noted: blom quince" in done.stdout
    assert "Did you mean bloom?" in done.stderr


def test_a_note_for_a_garden_that_is_not_there_goes_nowhere(small: Path) -> None:
    done = run("note", "./smal", "bloom", "quince", cwd=small)
    assert done.returncode == 2
    assert "smal: there is no such folder or file." in done.stderr
    assert not (small / "journal").exists()


def test_a_job_is_done_by_its_name(small: Path) -> None:
    job = next(j for j in open_almanac(small, dt.date.fromisoformat(ON)).jobs() if j.state != "done")
    short = f"{job.plant}:{job.id.split(':')[1]}"
    done = run("done", short, "--by", "Ada", "--minutes", "20", "--on", ON, cwd=small)
    assert done.returncode == 0, done.stderr
    assert "noted: done:" in done.stdout
    assert "20 min, by Ada" in done.stdout
    missing = run("done", str(small), "quince:paint", "--on", ON)
    assert missing.returncode == 2
    assert "here is no job 'quince:paint' this season" in missing.stderr


def test_a_doubtful_note_is_kept_and_said_so_where_nobody_can_answer(small: Path) -> None:
    done = run("note", str(small), "bloom", "pear-1", "--on", "2027-01-05")
    assert done.returncode == 0
    assert "?" in done.stderr
    assert "It was kept" in done.stderr
    assert "noted:" in done.stdout


# ---- what goes wrong -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nowhere"], "nowhere: there is no such folder, file or command."),
        (["nowhere"], "leafturn new nowhere begins a garden there."),
        (["rond"], "Did you mean round?"),
        (["round", "--on", "soon"], "'soon' is no date; write 2027-04-26, 26 Apr or +7"),
        (["round", "--on", "9999-01-01"], "too far off"),
        (["season", "--colour"], "nrecognized arguments: --colour"),
        (["note"], "leafturn note --help"),
        (["done", "a", "b", "c"], "There is no job 'a' this season."),
        (["round", "nowhere/at/all"], "nowhere/at/all"),
    ],
)
def test_bad_words_get_one_sentence_and_status_2(small: Path, words: list[str], said: str) -> None:
    assert said in refused(*words, cwd=small)


@pytest.mark.parametrize("command", ["add", "change", "move", "gone", "done", "let-go"])
def test_a_garden_alone_is_not_taken_for_what_is_asked_in_it(small: Path, command: str) -> None:
    """It was said of the folder where one stood that it holds no garden."""
    said = refused(command, str(small), cwd=small.parent)
    assert "nly the garden" in said
    assert f"leafturn {command} --help" in said


def test_an_unknown_card_is_told_with_those_there_are(small: Path) -> None:
    assert "month, bloom, looks" in refused("card", str(small), "nonsense", cwd=small)


def test_faults_are_told_and_the_rest_is_answered(small: Path) -> None:
    file = small / "garden.toml"
    file.write_text(SMALL.replace("west of pear-1", "west of paer-1"), encoding="utf-8")
    done = run("round", str(small), "--on", ON)
    assert done.returncode == 1
    assert "garden.toml, line" in done.stderr
    assert "pear-1" in done.stderr
    assert "What needs hands" in done.stdout
    found = run("check", str(small), "--on", ON, "--json")
    assert found.returncode == 1
    assert set(json.loads(found.stdout)["faults"][0]) == {"file", "line", "message", "hint"}


def test_a_file_that_cannot_be_read_is_status_2_also_as_json(small: Path) -> None:
    (small / "garden.toml").write_text(SMALL.replace("lat =", "lat"), encoding="utf-8")
    done = run("round", str(small), "--on", ON, "--json")
    assert done.returncode == 2
    assert json.loads(done.stdout)["faults"]
    assert len(done.stderr.strip().splitlines()) == 1


@pytest.mark.long
def test_a_reader_that_leaves_early_is_no_fault() -> None:
    command = f"{sys.executable} -m leafturn_tui.command_line plants {ROOT / 'demo_garden'} | head -n 1"
    done = subprocess.run(
        ["bash", "-c", f"set -o pipefail; {command}"],
        capture_output=True,
        text=True,
        env=os.environ | {"PYTHONPATH": SOURCES},
        timeout=120,
        check=False,
    )
    assert "What stands here?" in done.stdout
    assert done.stderr == ""


def test_hostile_names_in_a_file_reach_no_pipe_raw(tmp_path: Path) -> None:
    names = hostile_garden(tmp_path)
    run("note", str(tmp_path), names[10].replace("\x00", ""), "--on", ON)
    for command in ("round", "season", "partners", "plants", "book", "check"):
        for form in ([], ["--json"]):
            done = run_bytes(command, str(tmp_path), "--on", ON, *form)
            assert done.returncode in (0, 1), done.stderr
            for data in (done.stdout, done.stderr):
                assert b"\x1b" not in data
                assert not raw_in_bytes(data)


# ---- the demo ------------------------------------------------------------------------------------


def test_the_demo_is_copied_once_and_never_over_anything(tmp_path: Path) -> None:
    first = run("demo", cwd=tmp_path)
    assert first.returncode == 0, first.stderr
    assert "is now in weir-meadow" in first.stdout
    assert "Mon 19 Apr 2027, Weir Meadow" in first.stdout
    assert not list(tmp_path.glob("weir-meadow/*.py"))
    assert not list(tmp_path.glob(".leafturn-*"))
    garden = tmp_path / "weir-meadow" / "garden.toml"
    garden.write_text(garden.read_text(encoding="utf-8") + "\n# mine\n", encoding="utf-8")
    again = run("demo", "--no-pages", cwd=tmp_path)
    assert "was already in weir-meadow" in again.stdout
    assert garden.read_text(encoding="utf-8").endswith("# mine\n")
    other = tmp_path / "other"
    other.mkdir()
    refused = run("demo", "--into", "other", cwd=tmp_path)
    assert refused.returncode == 2
    assert "is there already and is not the demo garden" in refused.stderr
    assert not list(other.iterdir())


def test_help_has_examples_and_every_command() -> None:
    told = run("--help").stdout
    for command in ("demo", "round", "season", "partners", "plants", "book", "check", "note", "done"):
        assert f"leafturn {command}" in told
        assert run(command, "--help").returncode == 0
    assert "examples:" in told
    assert run("--version").stdout.strip() == f"leafturn {leafturn.__version__}"


# ---- kinds ---------------------------------------------------------------------------------------


def test_a_kind_is_told_with_its_sources_also_where_no_garden_stands(tmp_path: Path) -> None:
    done = run("plants", "--kind", "Hazelnuts", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("hazel, Corylus avellana")
    number = re.search(r"pollen alleles: S21 \(sure, source (\d+)\)", done.stdout)[1]
    told, _, sources = done.stdout.partition("\nsources:\n")
    assert f"    {number} Smith, McCluskey and Mehlenbacher 2018" in sources
    assert "Mehlenbacher 2018" not in told, "a source stands once, at the end"
    listed = [line.split()[0] for line in sources.splitlines()]
    assert listed == [str(n + 1) for n in range(len(listed))]
    assert all(f"source {n})" in told or f"source {n}," in told for n in listed)
    assert "where sources disagree:" in done.stdout
    assert "    60 first pollen" in done.stdout


def test_an_ambiguous_kind_is_asked_about(tmp_path: Path) -> None:
    done = run("plants", "--kind", "walnut", cwd=tmp_path)
    assert done.stdout == (
        "That may mean persian walnut, black walnut, heartnut or butternut: ask again with one of them.\n"
    )


def test_a_kind_as_json_gives_value_source_and_degree(small: Path) -> None:
    (small / "kinds.toml").write_text('[pear.bloom]\nfirst_open_heat = [190, "my notes", "sure"]\n')
    done = run("plants", str(small), "--kind", "pear", "--json", "--on", ON)
    assert done.returncode == 0, done.stderr
    kind = json.loads(done.stdout)["kind"]
    heat = next(f for f in kind["facts"] if f["what"].startswith("heat to first open"))
    assert heat == {
        "what": "heat to first open, degree-days C", "value": "190", "sure": "sure", "source": "my notes",
        "at": "", "read": True,
    }  # fmt: skip
    assert kind["botanical"] == "Pyrus communis"


def test_an_empty_garden_is_told_how_to_begin(tmp_path: Path) -> None:
    garden_file(tmp_path)
    for command in ("round", "partners", "plants"):
        assert '[[plant]]\n    kind = "pear"\n' in run(command, str(tmp_path), "--on", ON).stdout
    assert "Nothing is noted yet." in run("book", str(tmp_path), "--on", ON).stdout


def test_a_plant_is_told_in_one_line_without_saying_its_kind_twice(tmp_path: Path) -> None:
    garden_file(tmp_path, plant("pear", "pear", year=2012, at="gate"), plant("x", "flurble nut"))
    said = run("plants", str(tmp_path), "--on", ON).stdout.splitlines()
    assert "pear, pear, planted 2012, at the gate" in said
    assert "x, flurble nut (not in the library: its dates are guesses), place not given" in said


def test_a_place_without_frost_or_chill_is_told_so_without_contradiction(tmp_path: Path) -> None:
    garden_file(tmp_path, plant("apple", "apple"), lat=5, lon=100)
    said = run("season", str(tmp_path), "--on", ON).stdout
    assert "no frost likely" in said
    assert "last frost past" not in said
    assert "no date of bloom or picking is given until one is noted in flower: apple" in said
    assert "winter chill: none" in said


def test_a_chance_is_not_told_twice(tmp_path: Path) -> None:
    garden_file(tmp_path, plant("hardy-kiwi", "hardy kiwi", sex="female"))
    said = run("partners", str(tmp_path), "--on", ON).stdout
    (line,) = [line for line in said.splitlines() if line.startswith("hardy-kiwi, lacks: ")]
    assert line.startswith("hardy-kiwi, lacks: hardly ever, no male hardy kiwi stands here")
    assert line.count("hardly ever") == 1


def test_without_a_warming_stated_only_the_climate_of_now_is_told(tmp_path: Path) -> None:
    garden_file(tmp_path)
    said = run("drift", str(tmp_path), "--on", ON).stdout
    assert "2027, now:" in said
    assert "warmer:" not in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("rond", "{small}"), "there is no such folder, file or command. Did you mean round?"),
        (("{small}", "--onn", "2027-04-19"), "Unrecognized arguments: --onn"),
        (("card", "{small}"), "Give one card, as in: leafturn card weir-meadow month."),
        (("card", "{small}", "month", "--paper", "a5"), "there is no 'a5'; write a4 or letter."),
        (
            ("picture", "{small}"),
            "Say which picture, as in: leafturn picture weir-meadow strip -o season.svg.",
        ),
        (("picture", "{small}", "stripe"), "There is no picture 'stripe'. Did you mean strip?"),
        (
            ("picture", "{small}", "strip"),
            "Say into which file, as in: leafturn picture weir-meadow strip -o",
        ),
        (("tonight", "{small}"), "How cold? Write the night's minimum too: leafturn tonight {small} -3;"),
        (("done", "{small}", "bay-2:turn", "--minutes", "abc"), "'abc' is no number of minutes; write 35."),
    ],
)
def test_a_slip_is_told_what_to_write(words: tuple[str, ...], said: str, small: Path) -> None:
    found = run(*(word.format(small=small) for word in words))
    assert found.returncode == 2
    assert said.format(small=small) in found.stderr


def test_rules_are_told_in_short_and_one_in_full(small: Path) -> None:
    short = run("rules", str(small), "--on", ON).stdout
    assert "turn-heap: bay-2, due," in short
    full = run("rules", str(small), "turn-heap", "--on", ON).stdout
    assert "turn-heap, turn, of the program" in full
    assert "Done, it counts as: turn." in full
    (told,) = answer("rules", str(small), "turn-heap")["rules"]
    assert told["matches"][0]["jobs"][0]["id"] == "bay-2:turn:2027"


def test_a_rule_nobody_knows_gets_the_nearest(small: Path) -> None:
    assert "There is no rule 'turn-heep'. Did you mean turn-heap?" in refused(
        "rules", str(small), "turn-heep", "--on", ON
    )
    told = refused("rules", str(small), "winter", "--on", ON)
    assert "Rules named so are " in told
    assert "winter-prune" in told
    assert "leafturn rules tells them all" in refused("rules", str(small), "xyzzy", "--on", ON)


def test_work_that_is_no_job_may_be_kept_as_a_note(small: Path) -> None:
    assert "leafturn note keeps other work in your words" in refused(
        "done", str(small), "mow the lawn", "--on", ON
    )


def test_a_report_of_a_garden_without_a_weather_file_names_none(small: Path) -> None:
    run("note", str(small), "frost", "-2", "--on", ON)
    told = run("check", str(small), "--report", "--on", ON).stdout
    assert "no weather file; noted by hand: 1 days" in told.replace("1 day,", "1 days,")


@pytest.mark.sweep(each=6)
@pytest.mark.parametrize(
    "long", ["e" * 10_000, "long " * 2_000, "a/" * 5_000], ids=["letters", "words", "path"]
)
@pytest.mark.parametrize(
    "words",
    ["change LONG year 2012", "change pear-1 LONG", "change pear-1 year LONG", "add LONG", "move LONG 5n",
     "gone LONG", "card LONG", "done LONG", "put-off LONG --until 1-May", "round --helper LONG", "rules LONG",
     "round LONG", "LONG", "tonight LONG", "round --on LONG", "weather read LONG", "points LONG.gpx",
     "book --table LONG", "new new --lat LONG", "note bloom LONG", "sheet --done LONG", "fleet LONG -o out"],
)  # fmt: skip
def test_of_words_too_long_to_repeat_it_is_still_read_what_is_wrong(
    small: Path, words: str, long: str
) -> None:
    done = run(*(word.replace("LONG", long) for word in words.split()), cwd=small)
    if done.returncode:  # a year or a place may be any words
        assert is_sentence(done.stderr or done.stdout), (done.stderr or done.stdout)[:900]


@pytest.mark.parametrize("name", ["\0", "a\0b", "\ud800"])
def test_a_folder_of_a_name_that_none_can_have_is_refused_in_a_sentence(small: Path, name: str) -> None:
    done = run("feed", str(small), "--into", name, "--on", ON)
    assert done.returncode == 2
    assert done.stderr.endswith("could not be written: no file can have this name.\n")


def test_a_kind_that_is_not_named_and_a_folder_that_is_not_there_are_said(tmp_path: Path) -> None:
    unnamed = run("plants", "--kind", " ")
    assert unnamed.returncode == 2
    assert "no kind is named; write --kind pear" in unnamed.stderr
    (tmp_path / "garden.toml").write_text(garden_text(plant("pear", "pear")), encoding="utf-8")
    nowhere = run("sheet", str(tmp_path), "-o", str(tmp_path / "no" / "sheet.pdf"))
    assert "the folder it would lie in is missing" in nowhere.stderr
