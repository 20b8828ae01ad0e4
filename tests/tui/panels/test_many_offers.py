"""Of what many plants offer only what is in sight is laid."""

from __future__ import annotations

import asyncio
import datetime as dt

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text, send_keys, settled

from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.screen import Desk
from leafturn_tui.panels import find, observation
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.find import Finding, Named
from leafturn_tui.panels.observation import BloomObservation, Candidate, HarvestObservation

ON = dt.date(2027, 4, 19)
NAMES = [f"plum-{n}" for n in range(2000)]
CANDIDATES = [Candidate(name, "european plum", "first open") for name in NAMES]
PANELS = {
    "found": lambda: Finding("Which plant?", [Named(name, "european plum") for name in NAMES], print),
    "in flower": lambda: BloomObservation(CANDIDATES, ON, print),
    "picked": lambda: HarvestObservation(CANDIDATES, ON, print, print),
}


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("panel", PANELS)
def test_no_more_lines_are_laid_than_two_windows_have(panel: str, monkeypatch: pytest.MonkeyPatch) -> None:
    rows: list[int] = []
    laid = find.columns

    def counted(table: list[object], *others: object) -> object:
        rows.append(len(table))
        return laid(table, *others)  # type: ignore[arg-type]

    for module in (find, observation):
        monkeypatch.setattr(module, "columns", counted)

    async def run() -> None:
        app = LeafturnApp(FakeAlmanac())
        async with app.run_test(size=(100, 40)) as pilot:
            desk: Desk = app.screen  # type: ignore[assignment]
            desk.ask(PANELS[panel]())
            await settled(pilot)
            assert 0 < sum(rows) < 2 * 2 * 40
            rows.clear()
            await send_keys(app, ["p", "down", "pagedown"])
            await settled(pilot)
            assert sum(rows) < 2 * 2 * 40
            assert "plum-" in screen_text(app)

    asyncio.run(run())


def test_lines_stand_as_wide_as_all_of_them_ask() -> None:
    names = ["short", "a-name-much-longer-than-it"]

    def told(panel: Panel) -> list[str]:
        return ["".join(piece.text for piece in offer.pieces) for offer in panel.offers("", 80)]

    asked = BloomObservation([Candidate(name, "pear", "first open") for name in names], ON, print)
    first, last = told(asked)
    assert first.index("pear") == last.index("pear")
    first, last = told(Finding("Which?", [Named(name, "pear") for name in names], print))
    assert first.index("pear") == last.index("pear")
