"""The keys p and e: papers written beside the garden, and a sheet's ticks entered."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.files.reasons import reason
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.find import Finding, plants_by_name
from leafturn_tui.panels.line import Typing, date_to_type
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from pathlib import Path

    from leafturn_tui.host import Host


def ask_paper(desk: Host) -> None:
    """A short list of papers; Enter writes the first."""

    def written(make: Callable[[Host], str]) -> Callable[[], None]:
        def act() -> None:
            try:
                desk.say(make(desk))
            except OSError as why:
                desk.say(f"Not written: {reason(why, writing=True)}.")

        return act

    options = [
        Option("1", "week sheet: the week's jobs on one page, to tick with a pencil", written(_week)),
        Option("2", "away sheet: before you go, while you are away, on return", lambda: _ask_leaving(desk)),
        Option("3", "calendar files: each helper's jobs, and expected bloom, for phones", written(_feeds)),
        Option("4", "handover book: the garden in words, for whoever keeps it next", written(_handover)),
        Option("5", "month card: what opens, what is ripe, what is to be done", written(_card("month"))),
        Option("6", "bloom card: what to look for, with room for the days", written(_card("bloom"))),
        Option("7", "safety log: failing trees, who looked and when, who to call", written(_card("safety"))),
        Option("8", "tree card, to tie on the plant under the bar", lambda: _ask_tree(desk)),
    ]
    desk.ask(Choice("Write which paper?", options))


def _week(desk: Host) -> str:
    from leafturn_tui.papers.files import FOLDER, as_text, write_paper
    from leafturn_tui.papers.week import make_sheet

    desk.almanac, sheet = make_sheet(desk.almanac, desk.today)
    week = desk.almanac.on.isocalendar()
    name = f"week-{week.year}-{sheet.number or week.week}.txt"
    path = write_paper(desk.almanac.folder, f"{FOLDER}/{name}", as_text(sheet.lines))
    if not sheet.number:
        return f"The week sheet is in {_shown(path)}; it has no number, so e cannot enter it."
    return f"Week sheet {sheet.number} is in {_shown(path)}; e enters its ticks afterwards."


def _feeds(desk: Host) -> str:
    from leafturn_tui.papers.calendar import write_feeds
    from leafturn_tui.papers.files import FOLDER

    paths = write_feeds(desk.almanac)
    return f"{phrases.count(len(paths), 'calendar file')} in {FOLDER}/ beside the garden file: " + ", ".join(
        path.name for path in paths
    )


def _handover(desk: Host) -> str:
    from leafturn_tui.papers.files import FOLDER, as_text, write_paper
    from leafturn_tui.papers.handover import make_handover

    made = make_handover(desk.almanac)
    name = f"{FOLDER}/handover-{desk.almanac.on.year}.txt"
    path = write_paper(desk.almanac.folder, name, as_text(made.lines))
    return f"The handover book is in {_shown(path)}."


def _card(what: str) -> Callable[[Host], str]:
    def make(desk: Host) -> str:
        from leafturn_tui.papers.cards import file_name, make_card
        from leafturn_tui.papers.files import FOLDER, as_text, write_paper

        made = make_card(desk.almanac, what)
        path = write_paper(
            desk.almanac.folder, f"{FOLDER}/{f'{file_name(desk.almanac, what)}.txt'}", as_text(made.lines)
        )
        return f"It is in {_shown(path)}."

    return make


def _ask_tree(desk: Host) -> None:
    """The card of the plant under the bar, or of one that is then asked for."""

    def write(plant: str) -> None:
        try:
            desk.say(_card(plant)(desk))
        except OSError as why:
            desk.say(f"Not written: {reason(why, writing=True)}.")

    under = desk.current.plant if desk.current else ""
    if desk.almanac.plant(under):
        write(under)
        return
    desk.ask(Finding("Whose card?", plants_by_name(desk.almanac.garden.plants), write))


def _ask_leaving(desk: Host) -> None:
    on = desk.almanac.on

    def take(leave: dt.date) -> None:
        if leave < on:
            raise NotUnderstood(f"{phrases.long_day(leave)} is past")
        _ask_return(desk, leave)

    desk.ask(date_to_type("On which day do you leave?", on, take, enter="go on"))


def _ask_return(desk: Host, leave: dt.date) -> None:
    from leafturn_tui.papers.away import day_back, make_away, who_goes, wrong_dates
    from leafturn_tui.papers.files import FOLDER, as_text, write_paper

    def back(text: str) -> dt.date:
        day = day_back(text or "a week", leave)
        wrong = wrong_dates(desk.almanac.on, leave, day)
        if wrong:
            raise NotUnderstood(wrong)
        return day

    def take(text: str) -> None:
        day = back(text)
        made = make_away(desk.almanac, leave, day, who_goes(desk.almanac))
        try:
            name = f"{FOLDER}/away-{leave.isoformat()}.txt"
            path = write_paper(desk.almanac.folder, name, as_text(made.lines))
        except OSError as why:
            desk.say(f"Not written: {reason(why, writing=True)}.")
        else:
            desk.say(f"The away sheet is in {_shown(path)}.")

    def preview(text: str) -> str:
        day = back(text)
        return f"away from {phrases.long_day(leave)} until {phrases.long_day(day)}"

    desk.ask(Typing("On which day are you back?", take, preview=preview, enter="write the sheet", text="+7"))


def _shown(path: Path) -> str:
    return f"{path.parent.name}/{path.name} beside the garden file"


def enter_sheet(desk: Host) -> None:
    """Ask for the ticked lines of the last sheet and note them as done."""
    from leafturn_tui.papers.week import sheets, ticks

    known = sheets(desk.almanac)
    if not known:
        desk.say("No week sheet has been written yet; p writes one.")
        return
    last = known[-1]

    def preview(text: str) -> str:
        if not text.strip():
            lines = phrases.count(len(last.jobs), "line")
            return f"the numbers with blanks between, such as 3 5 8; sheet {last.number} has {lines}"
        return ticks(desk.almanac, text).said

    def take(text: str) -> None:
        if not text.strip():
            raise NotUnderstood("no line was typed, so nothing is noted; Esc leaves the sheet")
        found = ticks(desk.almanac, text)
        if found.entries:
            desk.keep_all(found.entries, f"{found.said}; u takes back the last")
        else:
            desk.say(f"Nothing new is noted; {found.said}.")

    day = phrases.long_day(last.on)
    desk.ask(
        Typing(
            f"Which lines of sheet {last.number} ({day}) are ticked?",
            take,
            preview=preview,
            enter="note them done",
        )
    )
