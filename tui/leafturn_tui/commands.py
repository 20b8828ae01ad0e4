"""Every command of `leafturn` by its name. Textual is imported only when pages open."""

from __future__ import annotations

import datetime as dt
import gc
import os
import sys
from collections.abc import Callable, MutableMapping
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn import __version__
from leafturn.base.faults import Fault, NoGarden, Unreadable, did_you_mean
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.render import commands as questions
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.desk.kept_picture import Window
    from leafturn_tui.desk.straight import Straight

Command = Callable[[list[str], dt.date], int]

# Textual paints at ticks of a clock. At its own 60 a second what a key has changed waits up to 17 ms for one.
PAINTS_A_SECOND = "2000"

# How often rings of objects are looked for while pages are shown: keys wait for it, so few objects at a time,
# and all of them only when the hands rest (`desk/beforehand.py`).
LOOKED_THROUGH_AT_KEYS = (5_000, 5, 10**6)


def command_of(words: list[str]) -> tuple[Command, list[str]]:
    """The command that the words after `leafturn` name, and its own words; without a name the pages."""
    if command := BELOW.get(tuple(words[:2])):
        return command, words[2:]
    if words and words[0] == "help" and not Path("help").exists():
        words = [*words[1:2], "--help"]
    if not words or words[0] not in commands():
        return _pages, words
    name, *own = words
    if name in OTHERS:
        return OTHERS[name], own
    from leafturn_tui.cli.questions import question_command

    return question_command(name), own


def opens_pages(command: Command) -> bool:
    """Whether a command is the pages, to which all that is typed from its start on is meant."""
    return command is _pages


def _pages(words: list[str], today: dt.date) -> int:
    named, asked = _plainly(words, today) or _parsed(words, today)
    try:
        return _show(named, asked or today, follow=asked is None)
    except NoGarden:
        if not _at_a_terminal():
            raise
        return _begin(Path(named).absolute(), asked, today)


def _plainly(words: list[str], today: dt.date) -> tuple[str, dt.date | None] | None:
    """The garden and the day of words that hold nothing else and nothing wrong; None of others.

    So most starts need not load the parser, which takes as long as to paint a picture that was kept.
    """
    from leafturn_tui.notes import NotUnderstood
    from leafturn_tui.notes.dates import day_asked

    garden, text = (words[:-2], words[-1]) if words[-2:-1] == ["--on"] else (words, None)
    named = garden[0] if garden else "."
    if len(garden) > 1 or named.startswith("-") or not Path(named).exists():
        return None
    try:
        return named, None if text is None else day_asked(text, today)
    except NotUnderstood:
        return None


def _parsed(words: list[str], today: dt.date) -> tuple[str, dt.date | None]:
    """The same of any words; those that are wrong end the command with a sentence."""
    from leafturn_tui.cli.arguments import about, day_of, parser_for

    asks_for_help = any(word == "-h" or word.startswith("--h") for word in words)
    parser = parser_for("", about() if asks_for_help else "")
    parser.add_argument("--version", action="version", version=f"leafturn {__version__}")
    given, more = parser.parse_known_args(words)
    if not Path(given.garden).exists():
        near = "" if os.sep in given.garden else did_you_mean(given.garden, commands())
        begins = f"leafturn new {given.garden} begins a garden there."
        raise Unreadable(
            Fault(
                file=given.garden,
                line=None,
                message="there is no such folder, file or command.",
                hint=near or begins,
            )
        )
    if more:
        parser.error(f"unrecognized arguments: {' '.join(more)}")
    return given.garden, None if given.on is None else day_of(given.on, parser, today)


def _show(named: str, on: dt.date, *, follow: bool) -> int:
    """Open the pages, or print the round where there is no terminal."""
    if not _at_a_terminal():
        from leafturn_tui.cli.questions import week_printed

        return week_printed(open_garden(named, on))
    from leafturn_tui.desk.kept_picture import kept

    with _straight() as straight:
        window = straight.window
        if picture := kept(Path(named), window):
            straight.paint(picture.seen_on(on))
        else:
            almanac = _reckoned(named, on, window, straight)
        from leafturn_tui.app import LeafturnApp, StillOpening

        garden = StillOpening(picture, on, lambda: _ready(named, on)) if picture else almanac
        app = LeafturnApp(garden, follow=follow, named=Path(named), terminal=straight.hand_over())
        gc.set_threshold(*LOOKED_THROUGH_AT_KEYS)
        app.show()
    if app.failed:
        raise app.failed
    return app.return_code or FINE


def _straight() -> Straight:
    """The terminal, in which keys wait until there are pages."""
    from leafturn_tui.desk.kept_picture import Window
    from leafturn_tui.desk.straight import Straight
    from leafturn_tui.text.styles import terminal_look

    _prepare_for_pages(os.environ)
    look = terminal_look()
    return Straight(look, Window(*os.get_terminal_size(), look.in_colour))


def _reckoned(named: str, on: dt.date, window: Window, straight: Straight) -> AlmanacFace:
    """The garden, once its week stands on the screen."""
    straight.say(f"The week of {Path(named).absolute().name} is being reckoned.")
    almanac = open_garden(named, on)
    from leafturn_tui.desk.whole_picture import keep_picture, week_pictures

    picture = None
    for picture in week_pictures(almanac, window):
        straight.paint(picture)
    if picture is not None:
        keep_picture(picture, window, almanac, Path(named))
    return almanac


def _prepare_for_pages(environ: MutableMapping[str, str]) -> None:
    """Before Textual is imported: what it and Python read from the environment."""
    for name in ("COLUMNS", "LINES"):  # the window is as large as it is, whatever was once said of it
        environ.pop(name, None)
    environ["TEXTUAL_FPS"] = PAINTS_A_SECOND


def _ready(named: str, on: dt.date) -> AlmanacFace:
    """The garden with what its first page shows, and the module of the desk, which takes time to import."""
    from leafturn_tui.desk.stack import PageStack

    almanac = open_garden(named, on)
    PageStack().tabs(almanac)
    almanac.heading()
    return almanac


def _at_a_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty() and (os.environ.get("TERM") or "dumb") != "dumb"


def _demo(words: list[str], today: dt.date) -> int:
    from leafturn_tui.cli.arguments import day_of, parser_for
    from leafturn_tui.cli.demo import FOLDER, STORY_DAY, copy_demo

    said = "Copy an invented garden, Weir Meadow, and open it on its story day, 19 April 2027."
    parser = parser_for("demo", said, garden=False)
    help_text = f"where to (default: ./{FOLDER}); nothing is ever overwritten"
    parser.add_argument("--into", metavar="FOLDER", default=FOLDER, help=help_text)
    parser.add_argument("--no-pages", action="store_true", help="only copy")
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today) if given.on else STORY_DAY
    is_new = copy_demo(Path(given.into))
    print(f"The demo garden {'is now' if is_new else 'was already'} in {safe_text(given.into)}.")
    print(f"Open it again with: leafturn {safe_text(given.into)} --on {on}")
    if given.no_pages:
        return FINE
    print(flush=True)
    return _show(given.into, on, follow=False)


def _new(words: list[str], today: dt.date) -> int:
    from leafturn_tui.cli.new_garden import new

    ask = (lambda folder, asked: _begin(folder, asked, today)) if _at_a_terminal() else None
    return new(words, today, ask)


def _begin(folder: Path, asked: dt.date | None, today: dt.date) -> int:
    """Ask for a garden in the pages, and open it once written, on the day asked for; the exit status."""
    with _straight() as straight:
        from leafturn_tui.app import BeginningApp
        from leafturn_tui.notes.beginning import NOTHING

        app = BeginningApp(folder, straight.hand_over())
        app.show()
    if app.written:
        return _show(str(folder), asked or today, follow=asked is None)
    print(NOTHING)
    return app.return_code or FINE


def _later(module: str, name: str) -> Command:
    """A command whose module is imported only when it is asked for."""

    def run(words: list[str], today: dt.date) -> int:
        from importlib import import_module

        return int(getattr(import_module(f"leafturn_tui.cli.{module}"), name)(words, today))

    return run


OTHERS: dict[str, Command] = {
    "demo": _demo,
    "new": _new,
    "kinds": _later("kinds", "kinds"),
    "picture": _later("picture", "picture"),
    "fleet": _later("fleet", "fleet"),
    "tonight": _later("tonight", "tonight"),
    "note": _later("notes", "note"),
    "take-back": _later("take_back", "take_back"),
    "done": _later("job_commands", "done"),
    "let-go": _later("job_commands", "let_go"),
    "put-off": _later("job_commands", "put_off"),
    "add": _later("garden_edits", "add"),
    "change": _later("garden_edits", "change"),
    "move": _later("garden_edits", "move"),
    "gone": _later("garden_edits", "gone"),
    "sheet": _later("papers", "sheet"),
    "away": _later("papers", "away"),
    "feed": _later("papers", "feed"),
    "handover": _later("papers", "handover"),
    "card": _later("papers", "card"),
    "export": _later("export", "export"),
    "points": _later("export", "points"),
}

# What a question's command does besides, by the word after its name; a folder called so is meant by ./WORD.
BELOW: dict[tuple[str, ...], Command] = {
    ("weather", "fetch"): _later("weather_fetch", "fetch"),
    ("weather", "read"): _later("weather_read", "read"),
}


def commands() -> tuple[str, ...]:
    """The name of every command: a question's is that of its module.

    Raises
    ------
    ValueError
        If a question's module is named like another command; names both files.
    """
    for name in OTHERS.keys() & set(questions()):
        raise ValueError(f"render/{name}.py asks for the command {name}, which commands.py gives already")
    return (*OTHERS, *questions())
