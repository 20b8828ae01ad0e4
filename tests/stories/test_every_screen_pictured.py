"""Each page and dialog of the whole-screen tests stands as a picture in the documents."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from docs.make_pictures import SCREENS, WAYS, gallery, in_words
from tests.samples.places import ROOT
from tests.tui.every_screen import ALL, BEGINNING


def test_every_page_and_dialog_is_pictured_in_every_way_and_no_other() -> None:
    wanted = {f"{name}-{way}.svg" for name in [*ALL, *BEGINNING] for way in WAYS}
    found = {path.name for path in SCREENS.iterdir()}
    assert found == wanted, "run python -m docs.make_pictures, and look at the pictures"


def test_the_document_shows_them_all() -> None:
    assert (ROOT / "docs" / "screens.md").read_text("utf-8") == gallery(), "run python -m docs.make_pictures"


def test_a_picture_says_what_it_shows_to_those_who_hear_it() -> None:
    for name in ALL:
        root = ET.parse(SCREENS / f"{name}-80x24.svg").getroot()
        title, said = (
            root.findtext(f"{{http://www.w3.org/2000/svg}}{part}", "") for part in ("title", "desc")
        )
        assert title.startswith(in_words(name))
        assert len(said.splitlines()) == 24
        assert "Traceback" not in said


def test_they_are_light_enough_to_be_carried_along() -> None:
    assert sum(path.stat().st_size for path in SCREENS.iterdir()) < 8e6
