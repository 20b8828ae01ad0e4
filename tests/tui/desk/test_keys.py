"""What keys do: noting in few of them, taking back, stepping about, and nothing ever failing."""

from __future__ import annotations

import asyncio
import datetime as dt
import string
import time

import pytest
from every_screen import SCREENS
from fake_almanac import FakeAlmanac
from fake_garden import ON
from screens import NAMES, key_event, screen_text, send, send_keys, settled
from textual import events

from leafturn.base.faults import Fault
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.screen import Desk
from leafturn_tui.host import Offer, PanelKey
from leafturn_tui.pages import pages, which_pages
from leafturn_tui.panels.base import Panel


class Pressed:
    """What became of an almanac and its screen after some keys."""

    def __init__(self, app: LeafturnApp) -> None:
        self.almanac: FakeAlmanac = app.screen.almanac  # type: ignore[attr-defined]
        self.text = screen_text(app)
        self.panel = app.screen.panel  # type: ignore[attr-defined]

    @property
    def last(self) -> object:
        return self.almanac.log[-1]


def press(
    *keys: str,
    almanac: FakeAlmanac | None = None,
    size: tuple[int, int] = (80, 24),
    paste: str = "",
    then: tuple[str, ...] = (),
    resize: tuple[int, int] | None = None,
) -> Pressed:
    async def run() -> Pressed:
        app = LeafturnApp(almanac or FakeAlmanac(log=[]), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            await send_keys(app, keys)
            await settled(pilot)
            if paste:
                await send(app, events.Paste(paste))
                await settled(pilot)
            if resize:
                await pilot.resize_terminal(*resize)
                await settled(pilot)
            await send_keys(app, then)
            await settled(pilot)
            return Pressed(app)

    return asyncio.run(run())


def typed(text: str) -> tuple[str, ...]:
    return tuple(NAMES.get(c, c) for c in text)


@pytest.mark.long
def test_what_was_remarked_of_the_files_is_listed_on_any_page() -> None:
    faults = tuple(Fault(file="garden.toml", line=n, message=f"word {n} is not known.") for n in (7, 9))
    almanac = FakeAlmanac(log=[], faults=faults)
    for page in pages():
        told = press(page, "R", almanac=almanac, size=(100, 40)).text
        assert "garden.toml, line 7: word 7 is not known." in told
        assert "garden.toml, line 9: word 9 is not known." in told
    assert "Nothing: all of it could be used." in press("R", almanac=FakeAlmanac(log=[])).text


def test_a_bloom_in_two_keys() -> None:
    seen = press("b", "enter")
    entry = seen.last
    assert (entry.what, entry.plant, entry.stage, entry.bbch, entry.on) == (
        "bloom",
        "comice-1",
        "first open",
        61,
        ON,
    )
    assert "noted: comice-1: first open" in seen.text


def test_another_plant_day_and_stage() -> None:
    entry = press("b", "2", "left", "tab", "enter").last
    assert (entry.plant, entry.stage, entry.bbch, entry.on) == (
        "comice-2",
        "full bloom",
        65,
        ON - dt.timedelta(1),
    )
    assert press("b", "3", "enter").last.stage == "petal fall"
    assert press("b", "shift+tab", "enter").last.stage == "none this year"


def test_letters_seek_a_name_also_of_a_plant_not_expected_today() -> None:
    assert press("b", *typed("kiwi"), "enter").last.plant == "kiwi-f1"
    assert press("b", *typed("comice"), "2", "enter").last.plant == "comice-2"


def test_a_plant_not_in_the_file_is_kept_in_words() -> None:
    entry = press("b", *typed("blackthorn"), "enter").last
    assert (entry.what, entry.text) == ("note", "in flower: blackthorn")


def test_a_harvest_in_few_keys() -> None:
    entry = press("h", "2", *typed("4.5 kg"), "enter").last
    assert (entry.what, entry.plant, entry.kg) == ("harvest", "quince", 4.5)
    assert press("h", "2", *typed("2 baskets"), "enter").last.amount == "2 baskets"
    assert press("h", "2", "enter").last.kg is None


def test_a_doubt_is_asked_once() -> None:
    doubtful = FakeAlmanac(doubts=True, log=[])
    asked = press("b", "enter", almanac=doubtful)
    assert "keep it?" in asked.text
    assert not doubtful.log
    press("b", "enter", "n", almanac=doubtful)
    assert not doubtful.log
    press("b", "enter", "y", almanac=doubtful)
    assert len(doubtful.log) == 1


def test_a_job_is_done_by_somebody_in_so_many_minutes() -> None:
    """What it took them is what the next round reckons with."""
    entry = press("S", "ctrl+u", *typed("Ann 35"), "enter").last
    assert (entry.what, entry.task) == ("done", "early-plum:cover:2027")
    assert (entry.by, entry.minutes) == ("Ann", 35.0)
    assert not press("S", "escape").almanac.log


def test_whom_the_job_falls_to_gives_way_to_another_name_and_takes_minutes_alone() -> None:
    """The name stands on the line as an offer, which the first letter replaces."""
    other = press("S", *typed("Ann 40"), "enter").last
    assert (other.by, other.minutes) == ("Ann", 40)
    alone = press("S", *typed("35"), "enter").last
    assert alone.by
    assert alone.minutes == 35
    until = press("d", *typed("1 May"), "enter").last.until
    assert until == dt.date(2027, 5, 1), "the day offered gives way too"


def test_space_is_done_and_not_done() -> None:
    done = press("space")
    assert (done.last.what, done.last.task) == ("done", "early-plum:cover:2027")
    assert any(line.startswith("> + done") for line in done.text.splitlines())
    back = press("space", "space")
    assert [e.what for e in back.almanac.log] == ["done", "withdraw"]
    assert "!tonight" in back.text


def test_let_go_asks_one_word_of_reason() -> None:
    assert not press("l", "enter").almanac.log
    entry = press("l", *typed("hail"), "enter").last
    assert (entry.what, entry.task, entry.text) == ("let-go", "early-plum:cover:2027", "hail")


def test_put_off_asks_until_when() -> None:
    entry = press("d", "enter").last
    assert (entry.what, entry.until) == ("put-off", ON + dt.timedelta(7))
    entry = press("d", "ctrl+u", *typed("1 May"), "enter").last
    assert entry.until == dt.date(2027, 5, 1)
    wrong = press("d", "ctrl+u", *typed("1 Mar"), "enter")
    assert "is not after" in wrong.text
    assert not wrong.almanac.log


def test_only_one_helpers_jobs() -> None:
    seen = press("s", "2")
    assert "What needs bench helper's hands this week?" in seen.text
    assert "cover early" not in seen.text


def test_the_last_note_is_taken_back_after_showing_it() -> None:
    shown = press("b", "enter", "u")
    assert "Take back this note?" in shown.text
    assert "comice-1: first open" in shown.text
    back = press("b", "enter", "u", "enter")
    assert [e.what for e in back.almanac.log] == ["bloom", "withdraw"]
    assert back.last.entry == back.almanac.log[0].id
    again = press("b", "enter", "u", "enter", "u")
    assert "look comice-1" in again.text


def test_on_the_book_the_note_under_the_bar_is_taken_back() -> None:
    assert press("9", "end", "u", "enter").last.entry == "2027-03-29.1"


def test_a_note_taken_back_is_restored_by_taking_that_back() -> None:
    assert press("9", "down", "down", "u", "enter").last.entry == "2027-04-11.2"


def test_content_without_is_an_answer() -> None:
    seen = press("3", "c")
    assert (seen.last.what, seen.last.plant, seen.last.answer) == (
        "answered",
        "comice-1",
        "content without",
    )
    assert "asked again 19 Apr 2030" in " ".join(press("3", "c", "up", "down", "up").text.split())


def test_a_typed_note_says_how_it_is_understood() -> None:
    assert "bay-2: 58 C inside" in press("n", *typed("reading bay-2 58")).text
    assert press("n", *typed("reading bay-2 58"), "enter").last.temp_c == 58
    assert press("n", *typed("a  slow-worm"), "enter").last.text == "a  slow-worm"


def test_a_misspelt_note_is_asked_about_and_a_second_enter_keeps_its_words() -> None:
    asked = press("n", *typed("blom comice-1"), "enter")
    assert "Did you mean bloom?" in asked.text
    assert not asked.almanac.log
    kept = press("n", *typed("blom comice-1"), "enter", "enter").last
    assert (kept.what, kept.text) == ("note", "blom comice-1")
    mended = press("n", *typed("blom comice-1"), "enter", "home", *["right"] * 3, "o", "enter").last
    assert (mended.what, mended.plant) == ("bloom", "comice-1")


def test_on_a_plants_own_page_that_plant_is_offered_first() -> None:
    assert press("b", "enter").last.plant != "kiwi-f1"
    opened = ("f", *typed("kiwi-f1"), "enter")
    assert press(*opened, "b", "enter").last.plant == "kiwi-f1"
    assert press(*opened, "h", "enter", "enter").last.plant == "kiwi-f1"
    assert press("3", "enter", "b", "enter").last.plant == "comice-1"


def test_what_c_to_n_is_stands_under_why() -> None:
    assert "parts of carbon" in " ".join(press("6", "w").text.split())


def test_find_opens_a_plant_and_esc_steps_back() -> None:
    assert "\n quince" in press("f", *typed("qui"), "enter").text
    assert "What needs hands" in press("f", *typed("qui"), "enter", "escape").text


def test_another_date() -> None:
    seen = press("o", *typed("1 May"), "enter", "b", "enter")
    assert "1 May" in seen.text.splitlines()[1]
    assert seen.last.on == dt.date(2027, 5, 1)


@pytest.mark.long
def test_pages_by_digit_and_by_question() -> None:
    for digit, page in pages().items():
        assert page.question.asked in press(digit).text
        assert page.question.asked in press("g", digit).text
    assert which_pages().startswith("Pages here: 1 Round, 2 Season, 3 Partners,")
    assert "9 Book, 0 Plants" in which_pages()


def test_a_digit_turns_the_page_from_under_sentences_that_are_read_and_types_itself_on_a_line() -> None:
    asked = pages()["3"].question.asked
    for opener in ("w", "question_mark", "R"):
        told = press(opener, "3").text
        assert asked in told
        assert "Esc back" not in told
    assert asked not in press("n", "3").text
    assert asked not in press("t", "3").text


def test_why_not_yet_of_a_plant_without_a_job() -> None:
    jobless = FakeAlmanac(season_jobs=(), waiting=(), log=[])
    seen = press("0", "end", "w", almanac=jobless).text
    assert "kiwi-f1: why is there no job now?" in seen
    assert "Next: mulch, 1 to 9 May." in seen


def test_enter_opens_the_job_and_esc_steps_back() -> None:
    assert "turn bay-2: past best, 2 days" in press("down", "enter").text
    assert "> * past best" in press("down", "enter", "escape").text


def test_a_read_only_journal_loses_nothing_silently() -> None:
    almanac = FakeAlmanac(read_only=True, log=[])
    assert "Nothing is noted" in press("b", "enter", almanac=almanac).text


def test_a_file_gone_bad_keeps_the_last_plan_and_says_so() -> None:
    almanac = FakeAlmanac(
        is_stale=True, gone_bad="a quote mark is missing, so nothing could be read.", log=[]
    )
    seen = press("down", almanac=almanac)
    assert "as read at 14:05" in seen.text.splitlines()[1]
    assert "garden.toml, line 12: a quote mark is missing" in seen.text
    assert "turn bay-2" in seen.text


def test_a_resize_keeps_what_was_typed() -> None:
    entry = press("n", *typed("half a no"), resize=(60, 20), then=(*typed("te"), "enter")).last
    assert entry.text == "half a note"
    entry = press("n", *typed("half a no"), resize=(30, 10), then=(*typed("te"), "enter")).last
    assert entry.text == "half a note"
    assert press("b", "2", resize=(60, 20), then=("enter",)).last.plant == "comice-2"


def test_two_thousand_pasted_characters_are_noted() -> None:
    text = "nettle " * 285 + "ends"
    assert press("n", paste=text, then=("enter",)).last.text == text


def test_pasted_text_is_not_taken_for_keys() -> None:
    assert not press(paste="l hail", then=()).almanac.log


class Faulty(Panel):
    """One whose key fails."""

    def keys(self) -> tuple[PanelKey, ...]:
        def fail(offer: Offer | None) -> None:
            raise RuntimeError("a fault of the panel's own")

        return (PanelKey("x", "", fail),)


def test_a_fault_in_a_panel_ends_the_program_and_never_hangs() -> None:
    async def run() -> None:
        app = LeafturnApp(FakeAlmanac(log=[]))
        async with app.run_test() as pilot:
            app.screen.ask(Faulty())  # type: ignore[attr-defined]
            app.post_message(key_event("x"))
            await settled(pilot)

    began = time.monotonic()
    with pytest.raises(RuntimeError, match="a fault of the panel's own"):
        asyncio.run(asyncio.wait_for(run(), 60))
    assert time.monotonic() - began < 50  # or it was the time limit that ended it


def test_keys_typed_ahead_find_the_panel_that_the_first_of_them_opens() -> None:
    seen = press("n", *typed("reading bay-2 58"), "enter", "9", "n", *typed("quiet"), "enter", "0")
    assert [entry.what for entry in seen.almanac.log] == ["reading", "note"]
    assert seen.last.text == "quiet"
    assert "quince" in seen.text


NAMED_KEYS = [
    "space",
    "enter",
    "tab",
    "escape",
    "up",
    "down",
    "left",
    "right",
    "home",
    "end",
    "pageup",
    "pagedown",
    "backspace",
    "delete",
    "f1",
    "ctrl+a",
    "shift+tab",
]
EVERY = (*string.ascii_letters, *string.digits, *"!@#$%^&*()_+-=[]{};:'\",.<>/?\\|`~", *NAMED_KEYS)


FEW = (*string.ascii_lowercase, *NAMED_KEYS)


def press_all(prologue: tuple[str, ...], size: tuple[int, int], keys: tuple[str, ...] = EVERY) -> None:
    """Every key after a prologue, typed ahead, with the screen painted in between."""

    async def run() -> None:
        app = LeafturnApp(FakeAlmanac(log=[]), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            for n, key in enumerate(k for k in keys if k != "q" or prologue[-1] in "nof"):
                await send_keys(app, ("escape", "escape", *prologue, key))
                if n % 10 == 0:
                    await settled(pilot)
            assert app.is_running

    asyncio.run(run())


@pytest.mark.sweep(each=10)
@pytest.mark.parametrize("digit", list(pages()))
def test_every_key_on_every_page(digit: str) -> None:
    press_all((digit,), (80, 24))
    press_all((digit, "enter"), (60, 20), FEW)


@pytest.mark.long
@pytest.mark.parametrize("size", [(40, 12), (30, 10)])
def test_every_key_in_a_small_window(size: tuple[int, int]) -> None:
    press_all(("1",), size, FEW)
    press_all(("4", "enter"), size, FEW)


@pytest.mark.sweep(each=12)
@pytest.mark.parametrize("opener", [*"bnfswhoguld", "question_mark"])
def test_every_key_in_every_panel(opener: str) -> None:
    press_all(("1", opener), (80, 24))


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize("name", list(SCREENS))
def test_why_is_offered_of_the_lines_that_have_an_answer_and_of_no_others(name: str) -> None:
    async def run() -> None:
        app = LeafturnApp(FakeAlmanac(log=[]), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=(80, 24)) as pilot:
            await send_keys(app, SCREENS[name])
            await settled(pilot)
            desk = app.screen
            assert isinstance(desk, Desk)
            for row in desk._list.rows:
                if row.key:
                    told = desk.page.why(desk.almanac, row)
                    assert desk.page.has_why(row) == (told is not None), row.text

    asyncio.run(run())


def test_what_was_planted_and_lost_is_told_whole() -> None:
    pressed = press("9", "v", "v", "v", "w")
    assert "What became of what was planted?" in pressed.text
    assert "w why" not in press("7", "x").text, "its sentences stand there whole"


def test_after_a_job_is_done_down_goes_on_to_the_one_that_stood_below_it() -> None:
    """The done one stays where it stood and the bar on it, so that Space again undoes it."""
    pressed = press("down", "space", "down", "space")
    assert [e.task for e in pressed.almanac.log] == ["bay-2:turn:2027", "comice-2:note:2027"]
    assert press("space", "down", "space").last.task == "bay-2:turn:2027", "of the first line too"
    undone = press("down", "space", "space", "down", "space")
    assert [e.what for e in undone.almanac.log] == ["done", "withdraw", "done"]
    assert undone.last.task == "comice-2:note:2027", "where it was taken back the list is as it was"


@pytest.mark.parametrize("key", ["S", "l", "d", "a"])
def test_a_job_that_is_done_is_not_let_go_put_off_or_given_besides(key: str) -> None:
    pressed = press("space", key, "enter")
    assert [e.what for e in pressed.almanac.log] == ["done"]
    assert "It is noted already; Space takes that back." in press("space", key).text


@pytest.mark.parametrize("width", [50, 60, 80])
@pytest.mark.parametrize("key", ["b", "h"])
def test_of_what_is_offered_to_be_noted_name_and_day_are_read_whole(key: str, width: int) -> None:
    """On a phone's terminal the day was cut, for a kind that repeats the name."""
    text = press(key, size=(width, 20)).text
    offered = [line for line in text.splitlines() if line[3:4].isdigit() or line[1:4] == "> 1"]
    assert offered
    assert not [line for line in offered if "…" in line]
