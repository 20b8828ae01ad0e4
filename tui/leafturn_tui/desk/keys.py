"""The keys of every page, and what they do."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from leafturn.journal.entries import Entry, PlainNote
from leafturn_tui.desk.paper_keys import ask_paper, enter_sheet
from leafturn_tui.host import Key, PanelKey, PlantLink
from leafturn_tui.notes import NotUnderstood, grammar
from leafturn_tui.pages import pages
from leafturn_tui.pages.faults import REMARKS
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.pages.one_tree import OneTree
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.find import Finding, plants_by_name
from leafturn_tui.panels.line import Typing, date_to_type
from leafturn_tui.panels.line_find import LineFind
from leafturn_tui.panels.observation import BloomObservation, HarvestObservation, candidates
from leafturn_tui.panels.rewriting import Rewriting
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.panels.take_back import TakeBack
from leafturn_tui.panels.tonight import ask_tonight
from leafturn_tui.text import phrases
from leafturn_tui.text.glossary import words_of

if TYPE_CHECKING:
    from leafturn_tui.desk.frame import Frame
    from leafturn_tui.host import Host, PageFace, PanelFace
    from leafturn_tui.text.layout import Row


def common_keys() -> tuple[Key, ...]:
    """In the order of the foot; a page's own keys stand after `w`."""
    return (
        Key("space", "", "", lambda desk: desk.say("Space marks a job done; the jobs are on page 1.")),
        Key("w", "why", "why now, or why not yet", _why, of_line=True, asks=_reason),
        Key("slash", "find", "find a line of this page by letters in it", _seek, of_line=True),
        Key("b", "bloom", "note what is in flower", _bloom, asks=lambda desk: desk.almanac.likely_stages()),
        Key(
            "h", "harvest", "note what was picked", _harvest, asks=lambda desk: desk.almanac.likely_harvests()
        ),
        Key("n", "note", "note anything", _note),
        Key("t", "cold", "what a cold night would do; a minimum is typed", ask_tonight),
        Key(
            "u",
            "take back",
            "take back what was written last; on the Book the note under the bar",
            _take_back,
        ),
        Key("p", "paper", "write a paper beside the garden file: week sheet and others", ask_paper),
        Key("e", "enter sheet", "enter the ticked lines of a week sheet", enter_sheet),
        Key("f", "plant", "find a plant by its letters", _find),
        Key("o", "date", "see everything on another date", _other_date),
        Key("g", "", "a short list of the pages and their questions", _go),
        Key(REMARKS, "", "what was remarked when the garden's files were read", _remarks),
        Key("0-9 g", "pages", "", lambda desk: None),
        Key("enter", "open", "open the plant or job under the bar", _open, of_line=True, asks=_opened),
        Key("question_mark", "keys", "these keys", _keys),
        Key("escape", "back", "step back", lambda desk: desk.back()),
        Key("q", "leave", "leave", lambda desk: desk.leave()),
    )


def in_order(own: Sequence[Key], common: Sequence[Key]) -> list[Key]:
    """Every key of a page in the order of the foot: Space, `w`, `/`, its own, the rest.

    A page's own key stands in place of a common one.
    """
    first = [k for k in own if k.name == "space"]
    common = unless_own(own, common)
    why = [k for k in common if k.name in ("w", "slash")]
    return [*first, *why, *(k for k in own if k not in first), *(k for k in common if k not in why)]


def foot_keys(
    frame: Frame, common: Sequence[Key], under: Row | None, *, steps_back: bool
) -> list[tuple[str, str]]:
    """Key and label of those that have a label and something to act on, stepping back first.

    Parameters
    ----------
    frame : Frame
    common : sequence of Key
        Those of every page.
    under : Row or None
        The line under the bar.
    steps_back : bool
        Whether a page lies below.
    """
    no_line, no_plants = under is None, not frame.almanac.garden.plants
    shown = [
        key
        for key in in_order(frame.page.keys(), common)
        if key.label
        and not (no_line and key.of_line)
        and not (under and key.name == "w" and not frame.page.has_why(under))
        and not (no_plants and key.of_plants)
        and (steps_back or key.name != "escape")
    ]
    shown.sort(key=lambda key: key.name != "escape")
    return [(key.shown, key.label) for key in shown]


def unless_own(own: Sequence[Key], common: Sequence[Key]) -> list[Key]:
    """The common keys that a page has no use of its own for."""
    taken = {key.name for key in own}
    return [key for key in common if key.name not in taken]


def _reason(desk: Host) -> PanelFace | None:
    return desk.page.why(desk.almanac, desk.current) if desk.current else None


def _why(desk: Host) -> None:
    sheet = _reason(desk)
    if sheet is None:
        desk.say("There is nothing to ask about under the bar.")
        return
    desk.ask(sheet)


def _opened(desk: Host) -> PageFace | PlantLink | None:
    return desk.page.opened(desk.almanac, desk.current) if desk.current else None


def _open(desk: Host) -> None:
    page = _opened(desk)
    if isinstance(page, PlantLink):
        page = OnePlant(page.plant)
    if page is None:
        desk.say("There is nothing to open under the bar.")
    else:
        desk.open(page)


def _kinds(desk: Host) -> list[tuple[str, str]]:
    return [(p.id, p.kind) for p in desk.almanac.garden.plants]


def _shown_plant(desk: Host) -> str:
    """The plant whose own page is shown; empty on other pages."""
    return desk.page.plant_id if isinstance(desk.page, OnePlant | OneTree) else ""


def _bloom(desk: Host) -> None:
    among = candidates(desk.almanac.likely_stages(), _kinds(desk), "first open", _shown_plant(desk))
    desk.ask(BloomObservation(among, desk.almanac.on, desk.consider))


def _harvest(desk: Host) -> None:
    among = candidates(desk.almanac.likely_harvests(), _kinds(desk), "", _shown_plant(desk))
    desk.ask(HarvestObservation(among, desk.almanac.on, desk.consider, desk.ask_next))


def _note(desk: Host) -> None:
    garden, on = desk.almanac.garden, desk.almanac.on

    def understood(text: str) -> Entry:
        return grammar.understand(text.split(), garden, on, typed=text)

    def preview(text: str) -> str:
        if not text.strip():
            return (
                "any words; or: bloom PLANT; harvest PLANT 4.5 kg; set PLANT good; reading HEAP 58; "
                "crown PLANT 33%; loss PLANT voles; damage PLANT wind; planted PLANT; moved PLANT; "
                "judged PLANT keep; watering PLANT 40 l; frost -2.8; rain 12; wind; snow; each with a "
                "day behind it, as 12 Apr"
            )
        try:
            entry = understood(text)
        except grammar.Misspelt as why:
            return f"{why} Enter twice keeps it in these words."
        if not isinstance(entry, PlainNote) or entry.plant:
            return grammar.entry_words(entry, on)
        plainly = grammar.kept_in_words(entry, garden) or "kept in these words"
        return plainly if entry.on == on else f"{phrases.long_day(entry.on)}: {plainly}"

    asked: set[str] = set()

    def take(text: str) -> None:
        try:
            desk.consider(understood(text))
        except grammar.Misspelt as why:
            if text not in asked:
                asked.add(text)
                raise NotUnderstood(f"{why} Enter again keeps it in these words.") from None
            desk.consider(why.entry)

    desk.ask(Typing("What is to be noted?", take, preview=preview))


def _take_back(desk: Host) -> None:
    """The last thing that was written: a note, or a change of the garden file."""
    edit = desk.file.last()
    if edit is None:
        _take_note_back(desk)
        return
    before = PanelKey("u", "the note before", lambda offer: _take_note_back(desk))
    desk.ask(
        Rewriting(
            f"Take back what was written into {edit.file.name}?",
            edit.undone(),
            lambda: desk.say(desk.file.take_back()),
            enter="take it back",
            other=(before,),
        )
    )


def _take_note_back(desk: Host) -> None:
    chosen = desk.page.taken_back(desk.almanac, desk.current)
    if chosen is not None:
        entry = next(b.entry for b in desk.almanac.book() if b.entry.id == chosen)
        desk.ask(TakeBack(desk, entry, more=False))
        return
    last = desk.newest.takeable()
    if last is None:
        desk.say("There is no note to take back.")
    else:
        desk.ask(TakeBack(desk, last, more=True))


def _find(desk: Host) -> None:
    among = plants_by_name(desk.almanac.garden.plants)
    desk.ask(Finding("Which plant?", among, lambda plant: desk.open(OnePlant(plant))))


def _seek(desk: Host) -> None:
    if desk.current is None:
        desk.say("There is no list here to find a line of.")
    else:
        desk.ask(LineFind(desk))


def _other_date(desk: Host) -> None:
    def take(day: dt.date) -> None:
        if not dt.date(1900, 1, 1) <= day <= dt.date(2200, 12, 31):
            raise NotUnderstood("dates from 1900 to 2200, please")
        desk.set_day(day)

    desk.ask(date_to_type("Show everything on which date?", desk.almanac.on, take, enter="show it"))


def _go(desk: Host) -> None:
    options = [
        Option(key, f"{page.name}: {page.question.asked}", partial(desk.turn_to, key))
        for key, page in pages().items()
    ]
    desk.ask(Choice("Which question?", options))


def _remarks(desk: Host) -> None:
    """Everything that was remarked of the files, what is to be mended first."""
    said = [fault.sentence() for fault in desk.almanac.faults] + list(desk.almanac.remarks)
    desk.ask(Sheet("Remarked when the files were read", said or ["Nothing: all of it could be used."]))


def _keys(desk: Host) -> None:
    own = desk.page.keys()
    every = (*own, *unless_own(own, common_keys()))
    said = [f"{k.shown}: {k.what}" for k in every if k.what]
    for what, are in (("digits", str.isdigit), ("letters", str.isalpha)):
        if named := [f"{key} {page.name}" for key, page in pages().items() if are(key)]:
            said.append(f"{what}: {', '.join(named)}")
    said.append("arrows, PgUp, PgDn, Home, End: move the bar")
    desk.ask(Sheet("The keys of this page", said, ("the words of this page", partial(_words, desk))))


def _words(desk: Host) -> None:
    shown = next((page.name for page in pages().values() if isinstance(desk.page, page)), "")
    told = [f"{word.word}: {word.means}" for word in words_of(shown)]
    desk.ask_next(Sheet("The words of this page", [*told, "How to read each page: docs/guide.md"]))
