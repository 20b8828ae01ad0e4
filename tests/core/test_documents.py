"""What the documents show works as shown."""

from __future__ import annotations

import datetime as dt
import re
import tomllib
from pathlib import Path

import msgspec
import pytest
from tests.samples.places import ROOT

from leafturn.almanac import open_almanac
from leafturn.base.tunables import NUMBERS
from leafturn.tasks.rule_model import Applies, Rule, RuleFile
from leafturn.tasks.timing.phrases import ANCHORS

DOCUMENTS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md"))]


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
    (tmp_path / "weather.csv").write_text("date,tmin_c,tmax_c,rain_mm\n2027-01-01,-3,4,0\n")
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


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_links_lead_somewhere(document: Path) -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", document.read_text(encoding="utf-8")):
        if not target.startswith("http"):
            assert (document.parent / target).exists(), target
