"""Reading the words after `leafturn`, and what is said of them in help."""

from __future__ import annotations

import argparse
import contextlib
import datetime as dt
import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from leafturn.base import prose
from leafturn.base.faults import clipped
from leafturn.base.value import Value
from leafturn_tui.cli.statuses import UNREADABLE
from leafturn_tui.render import every_question
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MOST_SAID = 600  # characters of a sentence about words typed

BEGINNING = """\
leafturn tells the steward of a planting which few jobs are due this week and why, what blooms when,
and which trees lack a partner.
"""
END = "GARDEN is a folder or its TOML file; left out, it is the folder you are in.\n"

# The commands that answer no question of `leafturn_tui.render`: place in the list, how they are written, what
# they do. The questions stand from place 10 on.
OTHER_COMMANDS = (
    (0, "[GARDEN]", "open the pages (without a terminal: print the week)"),
    (1, "new FOLDER", "write a garden file to begin with"),
    (2, "demo", "copy an invented garden to ./weir-meadow and open it"),
    (61, "weather fetch [GARDEN]", "daily weather of the place, from an open archive"),
    (62, "weather read [FILE]", "how a weather file is read, before it is used"),
    (75, "kinds [GARDEN] [WORDS]", "every kind of the library, or those named so"),
    (200, "tonight [GARDEN] -3", "what a night of -3 C would do to buds and flowers"),
    (201, "note [GARDEN] ...", "note something"),
    (203, "take-back [GARDEN] [ID]", "take back the last note or change of the file, or a note by its id"),
    (202, "done [GARDEN] JOB ...", "note jobs as done"),
    (202, "let-go [GARDEN] JOB ...", "let jobs go this time"),
    (202, "put-off [GARDEN] JOB ... --until DATE", "put jobs off until a day"),
    (210, "add [GARDEN] pear comice", "add a plant to the garden file; its lines are shown"),
    (211, "change [GARDEN] PLANT KEY VALUE", "change what the garden file says of a plant"),
    (212, "move [GARDEN] PLANT PLACE", "a plant was moved: noted, and written into the garden file"),
    (213, "gone [GARDEN] PLANT [CAUSE]", "a plant is gone: noted, and written into the garden file"),
    (220, "sheet [GARDEN]", "the week on one page of paper, to tick with a pencil"),
    (221, "away [GARDEN] --from 2027-04-24 --to 2027-05-08",
     "before you go, while you are away, on return"),
    (222, "feed [GARDEN]", "calendar files for phones: each helper's jobs, and bloom"),
    (223, "handover [GARDEN]", "the garden in words, for whoever keeps it next"),
    (225, "fleet FOLDER -o OUT", "many gardens asked the same, answers as tables"),
    (224, "card [GARDEN] WHAT", "a card: month, bloom, looks, or a plant's to tie on it"),
    (230, "export [GARDEN] WHAT", "plants on a map, blooms as noted, or everything, for other programs"),
    (231, "points [GARDEN] FILE", "surveyed points as lines for the garden file"),
    (232, "picture [GARDEN] WHICH -o FILE", "a picture of the pages as SVG"),
)  # fmt: skip
WRITTEN = 28  # cells for how a command is written


class OwnWords(Value):
    """The words of a question beside the garden and the day; by itself none.

    Parameters
    ----------
    add : callable
        Tells a parser of them.
    put_right : callable
        Changes what was parsed where one word stands for another.
    instead : callable
        Does what else the words ask for, with the day; the exit status, None where they ask the question.
    asked : callable
        What the answer is asked for, from what was parsed, by name; what is not known ends the command.
    tells_faults : bool
        Whether the answer in plain lines tells of the faults itself.
    """

    add: Callable[[argparse.ArgumentParser], None] = lambda parser: None
    put_right: Callable[[argparse.Namespace], None] = lambda given: None
    instead: Callable[[argparse.Namespace, dt.date], int | None] = lambda given, on: None
    asked: Callable[[argparse.Namespace, AlmanacFace, argparse.ArgumentParser], dict[str, str | None]] = (
        lambda given, almanac, parser: {}
    )
    tells_faults: bool = False


def about() -> str:
    """Every command in a line, for `leafturn --help`."""
    asked = [(q.question.place, f"{q.command} [GARDEN]", q.question.asked) for q in every_question()]
    lines = [BEGINNING]
    for _, written, does in sorted([*asked, *OTHER_COMMANDS]):
        left = f"leafturn {written}"
        if len(left) > WRITTEN:
            lines += [f"  {left}", f"  {'':<{WRITTEN}} {does}"]
        else:
            lines.append(f"  {left:<{WRITTEN}} {does}")
    return "\n".join([*lines, "", END])


EXAMPLES = """\
examples:
  leafturn demo
  leafturn weir-meadow --on 2027-05-01
  leafturn round weir-meadow --helper "bench helper"
  leafturn round weir-meadow mill-house
  leafturn partners weir-meadow --json
  leafturn tonight weir-meadow 27F --note
  leafturn note weir-meadow bloom early-plum --stage "full bloom" --on yesterday
  leafturn note weir-meadow harvest quince "4.5 kg"
  leafturn note weir-meadow set early-plum good
  leafturn note weir-meadow reading bay-2 58
  leafturn note weir-meadow "slow-worm under the compost lid"
  leafturn done weir-meadow "turn bay-2" --by "saturday pair" --minutes 35

`leafturn COMMAND --help` tells more. Exit status: 0 fine, 1 faults in the garden's files (everything
else is still answered), 2 it cannot be read or the words were not understood.
"""


class Help(argparse.RawDescriptionHelpFormatter):
    """As wide as the window, which argparse would load programs that pack files to be told."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_window_width() - 2)


def _window_width() -> int:
    """Columns of the window, as `shutil.get_terminal_size` has them; 80 where there is none."""
    with contextlib.suppress(ValueError):
        if (said := int(os.environ.get("COLUMNS", "0"))) > 0:
            return said
    try:
        return os.get_terminal_size(1).columns or 80
    except OSError:
        return 80


class Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence."""

    def error(self, message: str) -> NoReturn:
        """One sentence and the way to help; exit status 2."""
        said = prose.capital(message).rstrip(" .?") + ("?" if message.endswith("?") else ".")
        self.exit(UNREADABLE, f"{safe_text(clipped(said, MOST_SAID))} More: {self.prog} --help\n")


def parser_for(
    command: str, about: str, *, garden: bool = True, several: bool = False, json: bool = False
) -> Parser:
    """A parser with the words that most commands share; an empty command is `leafturn` itself.

    With `several` gardens, `garden` is a list, empty where none is named.
    """
    parser = Parser(
        prog=f"leafturn {command}".strip(),
        description=about,
        epilog=None if command else EXAMPLES,
        formatter_class=Help,
        allow_abbrev=False,
        usage=None if command else "leafturn [GARDEN] [--on DATE] | leafturn COMMAND [GARDEN] ...",
    )
    if garden:
        help_text = "folder or TOML file (default: the folder you are in)"
        if several:
            more = f"{help_text}; several are told together"
            parser.add_argument("garden", nargs="*", metavar="GARDEN", help=more)
        else:
            parser.add_argument("garden", nargs="?", default=".", metavar="GARDEN", help=help_text)
    parser.add_argument("--on", metavar="DATE", help="the day to answer for, as 2027-04-19 (default: today)")
    if json:
        parser.add_argument("--json", action="store_true", help="answer as one JSON object")
    return parser


def add_one_of(
    parser: argparse.ArgumentParser, flag: str, known: Sequence[str], told: str, default: str | None = None
) -> None:
    """An option that takes one of a few words; any other is refused with those."""

    def taken(text: str) -> str:
        if text not in known:
            raise argparse.ArgumentTypeError(f"there is no {clipped(text)!r}; write {' or '.join(known)}")
        return text

    parser.add_argument(flag, type=taken, metavar=f"{{{','.join(known)}}}", default=default, help=told)


def day_of(text: str | None, parser: argparse.ArgumentParser, today: dt.date) -> dt.date:
    """The day asked for; what is no date ends the command with a sentence."""
    from leafturn_tui.notes import NotUnderstood
    from leafturn_tui.notes.dates import day_asked

    if text is None:
        return today
    try:
        return day_asked(text, today)
    except NotUnderstood as why:
        parser.error(str(why))


def split_garden(words: list[str], *, alone: bool = False) -> tuple[str, list[str]]:
    """The garden and the rest of the words; the garden may be left out, or with `alone` the rest."""
    named = len(words) > (0 if alone else 1) and (is_garden(words[0]) or _looks_like_path(words[0]))
    return (words[0], words[1:]) if named else (".", words)


def split_named(words: list[str], parser: Parser) -> tuple[str, list[str]]:
    """As `split_garden`; where a garden is named and nothing else, what is to be said more is asked for."""
    garden, rest = split_garden(words)
    if garden == "." and len(rest) == 1 and is_garden(rest[0]):
        parser.error(f"only the garden {clipped(rest[0])!r} is named, and nothing in it")
    return garden, rest


def is_garden(word: str) -> bool:
    """Whether a word names a folder or a TOML file that is there."""
    path = Path(word)
    try:
        return path.is_dir() or (path.suffix == ".toml" and path.is_file())
    except OSError:  # longer than a name can be; whoever opens a path that is one says why it cannot
        return False


def _looks_like_path(word: str) -> bool:
    return " " not in word and (os.sep in word or word.endswith(".toml") or word in (".", ".."))
