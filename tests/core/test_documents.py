"""What the documents show works as shown."""

from __future__ import annotations

import datetime as dt
import re
import textwrap
import tomllib
from pathlib import Path

import msgspec
from tests.samples.places import ROOT

from leafturn.almanac import open_almanac
from leafturn.base.tunables import NUMBERS
from leafturn.kinds.checks.kinds_file import check_kinds_file
from leafturn.kinds.library import load_library
from leafturn.tasks.rule_model import Applies, Rule, RuleFile
from leafturn.tasks.timing.phrases import ANCHORS


def blocks(document: Path, language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", document.read_text(encoding="utf-8"), re.DOTALL)


def test_the_ten_line_garden_of_the_readme_opens_without_a_fault(tmp_path: Path) -> None:
    (text,) = blocks(ROOT / "README.md", "toml")
    (tmp_path / "garden.toml").write_text(text)
    almanac = open_almanac(tmp_path, dt.date(2027, 4, 19))
    assert almanac.faults == ()
    assert [tree.standing for tree in almanac.partners() if tree.plant == "pear"] == ["lacks"]


def test_the_garden_of_the_garden_page_opens_without_a_fault(tmp_path: Path) -> None:
    text = "\n".join(blocks(ROOT / "docs" / "garden.md", "toml"))
    text += '\n[[plant]]\nid = "comice-2"\nkind = "pear"\nat = "gate"\n'
    (tmp_path / "garden.toml").write_text(text)
    for name in ("weather.csv", "forecast.csv"):
        (tmp_path / name).write_text("date,tmin_c,tmax_c,rain_mm\n2027-01-01,-3,4,0\n")
    assert open_almanac(tmp_path, dt.date(2027, 4, 19)).faults == ()


def test_the_numbers_page_lists_every_number_as_it_is() -> None:
    text = (ROOT / "docs" / "garden.md").read_text(encoding="utf-8")
    listed = dict(re.findall(r"^\| `(\w+)` \| (\S+) \|", text, re.MULTILINE))
    assert listed == {name: f"{number.value:g}" for name, number in NUMBERS.items()}


def test_the_rules_page_shows_a_rule_that_reads_and_names_everything() -> None:
    page = ROOT / "docs" / "rules.md"
    (example,) = blocks(page, "toml")
    (rule,) = msgspec.convert(tomllib.loads(example), RuleFile).rule
    assert rule.verb
    text = page.read_text(encoding="utf-8")
    for word in (*ANCHORS, *Applies.__struct_fields__, *Rule.__struct_fields__):
        assert word in text, word


def test_the_kind_of_the_kinds_page_passes_the_check_at_every_step(tmp_path: Path) -> None:
    text = (ROOT / "docs" / "kinds.md").read_text(encoding="utf-8")
    recipe = text[text.index("## Adding a kind with two cultivars") :]
    steps = [textwrap.dedent(step) for step in re.findall(r"   ```toml\n(.*?)   ```", recipe, re.DOTALL)]
    assert len(steps) == 3
    file = tmp_path / "kinds.toml"
    for number in range(1, 4):
        file.write_text("\n".join(steps[:number]))
        found = check_kinds_file(file)
        assert (found.kinds, found.faults, found.remarks) == (("ugni",), (), ())
    library, faults = load_library(file)
    assert faults == ()
    ugni = library.match("chilean guavas").kind
    assert set(ugni.cultivars) == {"Flambeau", "KaPow"}
    assert load_library()[0].match("ugni").kind.guessed  # the library lacks it, as the page says
