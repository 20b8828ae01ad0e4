"""All that a garden is told of on a day, wherever it is told: answers, pages in every view, dialogs, papers.

for text in texts(almanac):
    ...
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from itertools import takewhile
from types import SimpleNamespace
from typing import Any

from leafturn.almanac import Almanac
from leafturn.answers.kind_card import kind_card
from leafturn.papers.page_layout import LENGTH
from leafturn.papers.week_sheet import Occasion, week_sheet
from leafturn.papers.words import season_words
from leafturn_tui.desk.keys import common_keys
from leafturn_tui.host import Key, PlantLink
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.pages import pages
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.panels.base import Panel
from leafturn_tui.papers.away import make_away
from leafturn_tui.papers.calendar import feeds
from leafturn_tui.papers.cards import KINDS, make_card
from leafturn_tui.papers.handover import make_handover
from leafturn_tui.render import every_question
from leafturn_tui.render.parts import kind_card as card_lines
from leafturn_tui.render.parts.cold_night import night_lines
from leafturn_tui.render.parts.partner_words import sentences
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import Row

WIDE = 2_000  # cells: wide enough that no sentence is cut or wrapped; pictures are drawn as wide
SLOW = ("canopy", "drift")  # answers of years, which a fortnight hardly changes
FEW = 3  # of what there are many of one make: cards of trees and kinds, pages that a line opens
VIEWS = 4  # no page has more views than this to turn through
STEPS = 3  # that a dialog is followed
TYPED = ("3", "quince", "", "-4 C", "2027-04-26", "nobody knows this", "Ann 35")  # answers to anything
PAPER = "p"
NOT_PRESSED = ("q", "escape", "enter", "w")  # what leads away, and what is asked of every line anyhow


def texts(almanac: Almanac, *, slow: bool = True) -> Iterator[str]:
    """What questions, jobs, trees and pages tell; `slow` for answers of years too."""
    for one in every_question():
        if slow or one.command not in SLOW:
            yield from one.lines(almanac)
    for job in almanac.jobs():
        yield from (*job.why, *job.cautions)
    for review in almanac.partners():
        yield from sentences(review, almanac.on)
    for page in pages().values():
        if slow or page.command not in SLOW:
            yield from page_texts(page(), almanac)


def rarer_texts(almanac: Almanac) -> Iterator[str]:
    """What is told when it is asked for: views of pages, what lines open, dialogs, a cold night, one kind."""
    for kind in pages().values():
        yield from _views(kind, almanac)
    yield from night_lines(almanac, almanac.tonight(-3.0))
    for helper in almanac.garden.all_helpers:
        yield from (said for one in every_question() if one.command == "round"
                    for said in one.lines(almanac, helper=helper.name))  # fmt: skip
    for plant in almanac.garden.plants[:FEW]:
        yield from _without_sources(card_lines.lines(kind_card(almanac.library, plant.kind)))


def dialog_texts(almanac: Almanac, typed: str) -> Iterator[str]:
    """What dialogs ask and say step by step, of every key of every page, where each is answered by a text.

    Of the lines that may be chosen the first are, one after another; a line to type takes the text.
    """
    asked_for_paper = False  # of which the first few know nothing of the page
    for kind in pages().values():
        for key in (*kind().keys(), *common_keys()):
            if key.name in NOT_PRESSED:
                continue
            if key.name == PAPER and asked_for_paper:
                continue
            asked_for_paper = asked_for_paper or key.name == PAPER
            page = kind()
            listener = _Listener(almanac, page)
            own = _names(page).get(key.name, key)
            _tried(partial(own.act, listener), listener)
            yield from _steps(listener, typed, STEPS)


def _steps(listener: _Listener, typed: str, more: int) -> Iterator[str]:
    """What was said, and what each panel asked comes to, so many steps on."""
    asked, said = listener.asked, listener.said
    listener.asked, listener.said = [], []
    yield from said
    for panel in asked:
        yield from _panel(panel)
        yield from (row.text for row in panel.below(typed, WIDE))
        offers = [*panel.offers("", WIDE), *panel.offers(typed, WIDE)][:FEW]
        acts = [*(offer.act for offer in offers), partial(panel.take, typed)]
        labels = panel.keys()
        acts += [partial(own.act, None) for own in labels if own.name in ("y", "n")]
        for act in acts if more else ():
            _tried(act, listener)
            yield from _steps(listener, typed, more - 1)


def _tried(act: Callable[[], None], listener: _Listener) -> None:
    try:
        act()
    except NotUnderstood as why:
        listener.said.append(str(why))


def paper_texts(almanac: Almanac) -> Iterator[str]:
    """What is written on every paper and in calendar files."""
    on, garden = almanac.on, almanac.garden
    occasion = Occasion(
        place=garden.place.name, season=season_words(almanac.heading()), helpers=garden.all_helpers
    )
    papers = [week_sheet(occasion, almanac.round(), on, None, safe_text, LENGTH).paper]
    away = (on + dt.timedelta(days=3), on + dt.timedelta(days=17))
    papers.append(make_away(almanac, *away, (garden.all_helpers[0].name,)).paper)
    papers.append(make_handover(almanac).paper)
    cards = (*KINDS, *(plant.id for plant in garden.plants[:FEW]))
    papers += [make_card(almanac, what).paper for what in cards]
    for paper in papers:
        yield from (block.text for block in paper.blocks)
        yield from (said for block in paper.blocks for said, _ in block.cells)
    for feed in feeds(almanac):
        for event in feed.events:
            yield from (event.title, event.description)


def _without_sources(card: Iterable[str]) -> Iterator[str]:
    """The lines of a kind's card but its head, a list of jobs, and the sources at its end."""
    for said in takewhile(lambda said: said != "sources:", card):
        if not said.startswith("work of the year: "):
            yield said


class _Listener:
    """A desk that keeps what keys ask, open and say, and does nothing of it."""

    def __init__(self, almanac: Almanac, page: Page) -> None:
        self.almanac = self.newest = almanac
        self.page, self.today = page, almanac.on
        self.asked: list[Panel] = []
        self.opened: list[Page] = []
        self.said: list[str] = []
        self.current = next((row for row in page.rows(almanac, WIDE) if row.key), None)
        self.file = SimpleNamespace(last=lambda: None, write=lambda edit, entry=None: "")

    def ask(self, panel: Panel) -> None:
        self.asked.append(panel)

    ask_next = ask

    def ask_made(self, make: Callable[[], Panel]) -> None:
        self.ask(make())

    def open(self, page: Page) -> None:
        self.opened.append(page)

    def say(self, text: str) -> None:
        self.said.append(text)

    def keep_all(self, entries: Iterable[Any], said: str) -> None:
        self.said.append(said)

    def __getattr__(self, name: str) -> Any:
        return lambda *given, **named: None


def _views(kind: type[Page], almanac: Almanac) -> Iterator[str]:
    """A page after each of its keys, after `v` as often as it has views, and what those keys ask."""
    for key in (*kind().keys(), *common_keys()):
        if key.name in NOT_PRESSED:
            continue
        page = kind()
        for _ in range(VIEWS if key.name == "v" else 1):
            listener = _pressed(page, key.name, key, almanac)
            yield from listener.said
            yield from (said for panel in listener.asked for said in _panel(panel))
            yield from (said for opened in listener.opened for said in page_texts(opened, almanac))
            if key.name in _names(page):
                yield from page_texts(page, almanac)
    page = kind()
    for row in [row for row in page.rows(almanac, WIDE) if row.key or row.plant][:FEW]:
        opened = page.opened(almanac, row)
        if opened is not None:
            plant = isinstance(opened, PlantLink)
            yield from page_texts(OnePlant(opened.plant) if plant else opened, almanac)


def _pressed(page: Page, name: str, key: Key, almanac: Almanac) -> _Listener:
    """What a desk hears after a key, then after the first choice of what it asks."""
    listener = _Listener(almanac, page)
    try:
        _names(page).get(name, key).act(listener)
        if listener.asked and name != PAPER and (offers := listener.asked[-1].offers("", WIDE)):
            offers[0].act()
    except NotUnderstood as why:
        listener.said.append(str(why))
    return listener


def _names(page: Page) -> dict[str, Key]:
    own = page.keys()
    return {key.name: key for key in own}


def _panel(panel: Panel) -> Iterator[str]:
    yield from (panel.heading(), panel.enter, panel.escape)
    yield from (" ".join(piece.text for piece in offer.pieces) for offer in panel.offers("", WIDE))
    yield from (row.text for row in panel.below("", WIDE))
    labels = panel.keys()
    yield from (key.label for key in labels)


def page_texts(page: Page, almanac: Almanac) -> Iterator[str]:
    """The heading and sum of a page, and of every line the sentence below and what `w` tells."""
    yield page.heading(almanac)
    yield "; ".join(page.sum(almanac))
    rows = page.rows(almanac, WIDE)
    for row in (*page.top(almanac, WIDE), *page.below(almanac, rows[0] if rows else None, WIDE)):
        yield row.text
    for row in rows:
        yield row.sentence
        yield from _why(page, row, almanac)


def _why(page: Page, row: Row, almanac: Almanac) -> Iterator[str]:
    sheet = page.why(almanac, row)
    if sheet is not None:
        yield from (str(part) for part in sheet.paragraphs)
