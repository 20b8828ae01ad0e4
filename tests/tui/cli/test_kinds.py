"""`leafturn kinds`: the list, and the check of a file, as a user runs them."""

from __future__ import annotations

import json
from pathlib import Path

from hostile import raw_controls
from tests.in_process import run
from tests.samples.places import DEMO

from leafturn.kinds.library import load_library
from leafturn.kinds.packaged import DATA

POME = DATA / "groups" / "pome" / "pear.toml"


def test_kinds_are_listed_one_a_line_with_what_is_known_of_them() -> None:
    library, _ = load_library()
    told = run("kinds", str(DEMO))
    lines = told.stdout.splitlines()
    assert told.returncode == 0
    assert len(lines) == len(library.kinds)
    names = [line.partition(", ")[0] for line in lines]
    assert names == sorted(names)
    assert f"pear, Pyrus communis, tree, {len(library.kinds['pear'].cultivar_names)} cultivars" in lines


def test_kinds_of_a_garden_are_listed_too(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(
        '[place]\nname = "Here"\nlat = 46.9\nlon = 15.9\nlast_frost = "04-24"\nfirst_frost = "10-16"\n'
    )
    (tmp_path / "kinds.toml").write_text('["snow pear"]\nbotanical = "Pyrus nivalis"\nhabit = "tree"\n')
    found = json.loads(run("kinds", str(tmp_path), "--on", "2027-04-19", "--json").stdout)
    assert found["garden"] == "Here"
    (own,) = (kind for kind in found["kinds"] if kind["name"] == "snow pear")
    assert (own["botanical"], own["habit"], own["cultivars"]) == ("Pyrus nivalis", "tree", [])


def test_where_no_garden_stands_a_named_one_is_missed_and_none_is_not(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("kinds").returncode == 0
    missed = run("kinds", "./nowhere", "--json")
    assert missed.returncode == 2
    assert json.loads(missed.stdout)["faults"][0]["file"] == "nowhere"


def test_a_packaged_file_has_no_faults_and_tells_what_is_assumed() -> None:
    told = run("kinds", "--check", str(POME))
    assert told.returncode == 0
    head, _, rest = told.stdout.partition("\n\n")
    assert head.startswith("pear.toml: ")
    assert head.endswith(" kind, 0 faults.")
    assert rest.startswith("not said, and what is assumed instead:\n    pear.toml, line ")


def test_a_file_with_faults_ends_with_one(tmp_path: Path) -> None:
    file = tmp_path / "kinds.toml"
    file.write_text('["snow \x1b[31mpear"]\n'.replace("\x1b", "\\u001b") + 'habit = "tre"\n')
    told = run("kinds", "--check", str(file))
    assert told.returncode == 1
    assert "to mend:" in told.stdout
    assert "Did you mean tree?" in told.stdout
    assert not raw_controls(told.stdout)
    found = json.loads(run("kinds", "--check", str(file), "--json").stdout)
    assert set(found) == {"leafturn", "file", "kinds", "faults", "assumed", "remarks"}
    assert found["faults"][0] == {
        "file": "kinds.toml",
        "line": 1,
        "message": found["faults"][0]["message"],
        "hint": "",
    }


def test_a_file_that_cannot_be_read_ends_with_two(tmp_path: Path) -> None:
    for file, said in ((tmp_path / "none.toml", "it is missing"), (tmp_path, "cannot be read")):
        told = run("kinds", "--check", str(file))
        assert told.returncode == 2
        assert told.stdout == ""
        assert said in told.stderr
        assert told.stderr.count("\n") == 1
    broken = tmp_path / "kinds.toml"
    broken.write_text("[pear.bloom]\nlength_days = 1,5\n")
    told = run("kinds", "--check", str(broken))
    assert told.returncode == 2
    assert told.stderr.startswith("kinds.toml, line 2: length_days = 1,5 has a decimal comma.")


def test_kinds_are_found_by_words_of_their_names_and_of_their_cultivars() -> None:
    assert run("kinds", "bon", "chretien").stdout.startswith("pear, Pyrus communis, tree, ")
    assert run("kinds", ".", "sieboldiana").stdout.startswith("heartnut, ")
    missed = run("kinds", "moon thistle")
    assert json.loads(run("kinds", "moon thistle", "--json").stdout)["kinds"] == []
    assert missed.returncode == 2
    assert "No kind and no cultivar has a name with 'moon thistle'" in missed.stderr


def test_what_was_read_of_the_commonest_kinds_is_counted_fact_by_fact() -> None:
    found = json.loads(run("kinds", "--read", "--json").stdout)
    assert len({kind["name"] for kind in found["kinds"]}) == 80
    assert found["facts"] == sum(kind["facts"] for kind in found["kinds"])
    assert found["read"] == sum(kind["read"] for kind in found["kinds"])
    for kind in found["kinds"]:
        assert kind["facts"] - kind["read"] == len(kind["unread"])
    assert found["percent"] == round(100 * found["read"] / found["facts"], 1)
    told = run("kinds", "--read").stdout
    assert f"{found['read']} were read on a page ({found['percent']:.0f} %)" in told


def test_most_of_what_decides_for_the_commonest_kinds_was_read() -> None:
    """At least three facts in five; what the figure is today is told by `leafturn kinds --read`."""
    assert json.loads(run("kinds", "--read", "--json").stdout)["percent"] >= 60
