"""The keys p and e: papers written beside the garden, and a sheet's ticks entered."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from leafturn.assembly.other_gardens import NamedGarden
from leafturn.base.faults import Unreadable
from leafturn.files.reasons import reason
from leafturn.papers.sheet_numbers import number_in
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.find import Finding, plants_by_name
from leafturn_tui.panels.line import Typing, date_to_type
from leafturn_tui.papers.files import FOLDER, write_paper
from leafturn_tui.papers.forms import FORMS, Press, can_print, in_form, usual_paper
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from pathlib import Path

    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host
    from leafturn_tui.papers.printed import Printed
    from leafturn_tui.papers.week import Ticks


def ask_paper(desk: Host, ending: str = ".txt") -> None:
    """A short list of papers; Enter writes the first. `f` turns from one form to the next."""
    forms = [one for one in FORMS if one != ".pdf" or can_print()]
    following = forms[(forms.index(ending) + 1) % len(forms)]

    def card(what: str) -> Callable[[], None]:
        return lambda: _card(desk, what, ending)

    options = [
        Option(
            "1", "week sheet: the week's jobs on one page, to tick with a pencil", lambda: _week(desk, ending)
        ),
        Option(
            "2",
            "away sheet: before you go, while you are away, on return",
            lambda: _ask_leaving(desk, ending),
        ),
        Option(
            "3", "calendar files: each helper's jobs, and expected bloom, for phones", lambda: _feeds(desk)
        ),
        Option(
            "4",
            "handover book: the garden in words, for whoever keeps it next",
            lambda: _handover(desk, ending),
        ),
        Option("5", "month card: what opens, what is ripe, what is to be done", card("month")),
        Option("6", "bloom card: what to look for, with room for the days", card("bloom")),
        Option("7", "looks at failing trees: who looked, when, what was seen, who to call", card("looks")),
        Option("8", "tree card, to tie on the plant under the bar", lambda: _ask_tree(desk, ending)),
        Option("f", f"as {FORMS[following]} instead", lambda: ask_paper(desk, following)),
    ]
    desk.ask(Choice(f"Write which paper, as {FORMS[ending]}?", options))


def _work(
    desk: Host, stem: str, ending: str, make: Callable[[], Printed], told: Callable[[str], str]
) -> Callable[[], str]:
    """The writing of a paper: it gives the sentence on where the paper is, or why it is not written."""
    folder = desk.almanac.folder

    def work() -> str:
        try:
            data, more = in_form(make(), ending, Press(paper=usual_paper()))
            path = write_paper(folder, f"{FOLDER}/{stem}{ending}", data)
        except OSError as why:
            return f"Not written: {reason(why, writing=True)}."
        except Unreadable as why:
            return f"Not written: {why.fault.sentence()}"
        return f"{told(_shown(path))} {more}".strip()

    return work


def _write(desk: Host, what: str, ending: str, work: Callable[[], str]) -> None:
    """Text is there at once; type and drawings take a while, so a PDF is made behind the screen."""
    if ending == ".pdf":
        desk.behind(f"The {what} is being written", work)
    else:
        desk.say(work())


def _week(desk: Host, ending: str) -> None:
    """The sheet of this garden; with others named in its file, one paper over all, garden by garden."""
    others = desk.almanac.also()
    if others:
        _weeks(desk, ending, (NamedGarden(path=".", garden=desk.almanac), *others))
        return
    from leafturn_tui.papers.week import make_sheet, printed

    desk.almanac, sheet = make_sheet(desk.almanac, desk.today)
    almanac, number = desk.almanac, sheet.number

    def told(where: str) -> str:
        if not number:
            return f"The week sheet is in {where}; it has no number, so e cannot enter it."
        return f"Week sheet {number} is in {where}; e enters its ticks afterwards."

    week = almanac.on.isocalendar()
    stem = f"week-{week.year}-{number or week.week}"
    _write(desk, "week sheet", ending, _work(desk, stem, ending, lambda: printed(almanac, sheet), told))


def _weeks(desk: Host, ending: str, found: Sequence[NamedGarden[AlmanacFace]]) -> None:
    from leafturn_tui.papers.several_weeks import make_sheets

    on, today, began_with = desk.almanac.on, desk.today, desk.almanac

    def told(where: str) -> str:
        gardens = phrases.count(len(found), "garden")
        return f"The week sheets of {gardens} are in {where}; e enters ticks, the sheet's number first."

    def after() -> None:
        if desk.almanac is began_with:
            desk.almanac = began_with.reread()  # its sheet was noted meanwhile

    week = on.isocalendar()
    stem = f"weeks-{week.year}-{week.week:02d}"
    work = _work(desk, stem, ending, lambda: make_sheets(found, on, today), told)
    desk.behind(f"The week sheets of {phrases.count(len(found), 'garden')} are being written", work, after)


def _feeds(desk: Host) -> None:
    from leafturn_tui.papers.calendar import write_feeds

    almanac = desk.almanac

    def work() -> str:
        paths, refused = write_feeds(almanac)
        told = f"{phrases.count(len(paths), 'calendar file')} in {FOLDER}/ beside the garden file: "
        written = [told + ", ".join(path.name for path in paths)] if paths or not refused else []
        return " ".join([*refused, *written])

    desk.say(work())


def _handover(desk: Host, ending: str) -> None:
    from leafturn_tui.papers.handover import make_handover

    almanac = desk.almanac
    work = _work(
        desk, f"handover-{almanac.on.year}", ending, lambda: make_handover(almanac),
        lambda where: f"The handover book is in {where}.",
    )  # fmt: skip
    desk.behind("The handover book is being written", work)


def _card(desk: Host, what: str, ending: str) -> None:
    from leafturn_tui.papers.cards import file_name, make_card

    almanac = desk.almanac
    stem = file_name(almanac, what)
    work = _work(desk, stem, ending, lambda: make_card(almanac, what), lambda where: f"It is in {where}.")
    _write(desk, "card", ending, work)


def _ask_tree(desk: Host, ending: str) -> None:
    """The card of the plant under the bar, or of one that is then asked for."""
    under = desk.current.plant if desk.current else ""
    if desk.almanac.plant(under):
        _card(desk, under, ending)
        return
    plants = plants_by_name(desk.almanac.garden.plants)
    desk.ask(Finding("Whose card?", plants, lambda plant: _card(desk, plant, ending)))


def _ask_leaving(desk: Host, ending: str) -> None:
    on = desk.almanac.on

    def take(leave: dt.date) -> None:
        if leave < on:
            raise NotUnderstood(f"{phrases.long_day(leave)} is past")
        _ask_return(desk, leave, ending)

    desk.ask(date_to_type("On which day do you leave?", on, take, enter="go on"))


def _ask_return(desk: Host, leave: dt.date, ending: str) -> None:
    from leafturn_tui.papers.away import day_back, make_away, who_goes, wrong_dates

    def back(text: str) -> dt.date:
        day = day_back(text or "a week", leave)
        wrong = wrong_dates(desk.almanac.on, leave, day)
        if wrong:
            raise NotUnderstood(wrong)
        return day

    def take(text: str) -> None:
        day, almanac = back(text), desk.almanac
        work = _work(
            desk, f"away-{leave.isoformat()}", ending,
            lambda: make_away(almanac, leave, day, who_goes(almanac)),
            lambda where: f"The away sheet is in {where}.",
        )  # fmt: skip
        desk.behind("The away sheet is being written", work)

    def preview(text: str) -> str:
        day = back(text)
        return f"away from {phrases.long_day(leave)} until {phrases.long_day(day)}"

    asked = "On which day are you back?"
    desk.ask(Typing(asked, take, preview=preview, enter="write the sheet", text="+7", is_offer=True))


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
        return ticks(_garden_of(desk, text), text).said

    def take(text: str) -> None:
        if not text.strip():
            raise NotUnderstood("no line was typed, so nothing is noted; Esc leaves the sheet")
        almanac = _garden_of(desk, text)
        found = ticks(almanac, text)
        if not found.entries:
            desk.say(f"Nothing new is noted; {found.said}.")
        elif almanac is desk.almanac:
            desk.keep_all(found.entries, f"{found.said}; u takes back the last")
        else:
            desk.say(_noted_elsewhere(almanac, found, desk.today))

    day = phrases.long_day(last.on)
    desk.ask(
        Typing(
            f"Which lines of sheet {last.number} ({day}) are ticked?",
            take,
            preview=preview,
            enter="note them done",
        )
    )


def _garden_of(desk: Host, typed: str) -> AlmanacFace:
    """The garden whose sheet is typed: this one, or another that its file names and that has such a sheet."""
    from leafturn_tui.papers.several_weeks import garden_of_sheet
    from leafturn_tui.papers.week import sheets

    number, others = number_in(typed), desk.almanac.also()
    if number is None or not others or any(sheet.number == number for sheet in sheets(desk.almanac)):
        return desk.almanac
    return garden_of_sheet((NamedGarden(path=".", garden=desk.almanac), *others), typed)


def _noted_elsewhere(almanac: AlmanacFace, found: Ticks, today: dt.date) -> str:
    """Write the ticks of another garden's sheet into its journal; what is to be said."""
    name = almanac.garden.place.name.strip() or almanac.folder.name
    if almanac.read_only:
        return f"Not noted: the journal of {name} cannot be written."
    try:
        almanac.note_many(found.entries, today)
    except Unreadable as why:
        return f"Not noted in {name}: {why}"
    return f"Noted in {name}: {found.said}."
