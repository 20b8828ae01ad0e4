"""What the documents name is there: files they lead to, commands, and keys of the guide."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.samples.places import ROOT

from leafturn_tui.commands import commands
from leafturn_tui.desk.keys import common_keys
from leafturn_tui.host import shown_key
from leafturn_tui.pages import pages

DOCUMENTS = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").glob("*.md")])
LINK = re.compile(r"\]\((?!https?:)([^)#\s]+)(?:#([^)\s]*))?\)")
FENCED = re.compile(r"^```.*?^```", re.MULTILINE | re.DOTALL)
COMMAND = re.compile(r"^(?:[`$ ]*)leafturn ([a-z][a-z-]*)\b", re.MULTILINE)
SPOKEN = re.compile(r"`leafturn ([a-z][a-z-]*)\b")
SIGNS = {"!", "*", "+", "~", ">"}  # that stand before words of the pages
FOLDERS = {"my-garden", "weir-meadow"}  # opened without a command's name


def anchors(text: str) -> set[str]:
    heads = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    return {re.sub(r"[^a-z0-9 -]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_links_lead_somewhere(document: Path) -> None:
    for file, anchor in LINK.findall(document.read_text("utf-8")):
        target = document.parent / file
        assert target.exists(), file
        assert not anchor or anchor in anchors(target.read_text("utf-8")), (file, anchor)


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_commands_that_are_named_exist(document: Path) -> None:
    text = document.read_text("utf-8")
    named = {name for block in FENCED.findall(text) for name in COMMAND.findall(block)}
    named |= set(SPOKEN.findall(FENCED.sub("", text)))
    assert named <= {*commands(), *FOLDERS}


def test_keys_of_the_guide_exist() -> None:
    keys = {key.shown for key in common_keys()} | set(pages()) | {"Enter", "Esc"}
    keys |= {shown_key(key) for page in pages().values() for key in page().every_key()} | {"←", "→"}
    told = re.findall(r"`([^`\s]{1,5})`", (ROOT / "docs" / "guide.md").read_text("utf-8"))
    assert set(told) - SIGNS <= keys
