"""Stories of a garden folder that came from someone else: links out of it, pipes and devices in it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant

from in_process import run

ON = ("--on", "2027-04-19")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    folder.mkdir()
    text = garden_text(plant("comice", "pear", cultivar="Comice"), plant("conference", "pear"))
    (folder / "garden.toml").write_text(text)
    return folder


@pytest.mark.parametrize("linked", ["papers", "papers/bloom.ics"])
def test_a_feed_never_writes_through_a_link_out_of_the_garden(garden: Path, linked: str) -> None:
    outside = garden.parent / "outside"
    outside.mkdir()
    victim = outside / "bloom.ics"
    victim.write_text("another's")
    (garden / linked).parent.mkdir(exist_ok=True)
    (garden / linked).symlink_to(outside if linked == "papers" else victim)
    done = run("feed", str(garden), *ON)
    assert done.returncode == 2
    assert "outside the garden's folder" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert victim.read_text() == "another's"
    assert list(outside.iterdir()) == [victim]
