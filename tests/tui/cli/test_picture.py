"""The command that writes pictures."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from leafturn_tui.cli.picture import PICTURES
from leafturn_tui.command_line import main

ROOT = Path(__file__).parents[3]


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("name", sorted(PICTURES))
def test_every_picture_is_written_as_xml(name: str, tmp_path: Path) -> None:
    out = tmp_path / "it.svg"
    words = ["picture", str(ROOT / "demo_garden"), name, "--on", "2027-04-19", "-o", str(out)]
    assert main(words) == 0
    assert len(list(ET.parse(out).getroot().iter())) > 20


def test_nothing_is_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "it.svg"
    out.write_text("mine")
    assert main(["picture", str(ROOT / "demo_garden"), "heat", "-o", str(out)]) == 2
    assert "it is there already" in capsys.readouterr().err
    assert out.read_text() == "mine"
