"""Papers of commands: printed as text, or written to a new file in the form of its ending."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reasons import reason
from leafturn.files.writing import write_new
from leafturn_tui.cli.arguments import add_one_of
from leafturn_tui.papers.forms import FORMS, SIZES, Press, in_form, usual_paper
from leafturn_tui.render.parts.printed import printed as as_printed
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.papers.printed import Printed


def add_forms(parser: argparse.ArgumentParser) -> None:
    """The options that say where a paper goes and how it is printed."""
    named = ", ".join(f"{ending} {name}" for ending, name in FORMS.items())
    parser.add_argument("-o", "--out", metavar="FILE", help=f"write it to a new file: {named}")
    told = "the sheet a PDF is made for (default: a4, letter where feet are spoken)"
    add_one_of(parser, "--paper", SIZES, told)
    parser.add_argument(
        "--font", metavar="FILE", help="a .ttf or .otf file for letters that the PDF's type lacks"
    )


def form_of(given: argparse.Namespace) -> str:
    """The ending of the file that was named, ".txt" where none was: told before anything is noted or made.

    Raises
    ------
    Unreadable
        If it is none of `FORMS`, or something of that name is there.
    """
    if given.out is None:
        return ".txt"
    ending = Path(given.out).suffix.lower()
    if ending not in FORMS:
        hint = f"Give it one of these endings: {', '.join(FORMS)}."
        said = f"{ending} is no form of a paper." if ending else "its name does not end in a form of paper."
        raise Unreadable(Fault(file=given.out, line=None, message=said, hint=hint))
    if os.path.lexists(given.out):
        raise _taken(given.out)
    return ending


def put(paper: Printed, given: argparse.Namespace) -> None:
    """Print a paper, or write it to the file that was named.

    Raises
    ------
    Unreadable
        If the file cannot be written, or its form cannot be made here.
    """
    ending = form_of(given)
    if given.out is None:
        sys.stdout.write("\f".join(map(as_printed, paper.pages)))
        return
    press = Press(paper=given.paper or usual_paper(), font=Path(given.font) if given.font else None)
    data, said = in_form(paper, ending, press)
    write_named(given.out, data)
    if said:
        print(safe_text(said, limit=400), file=sys.stderr)


def write_named(out: str, data: bytes) -> None:
    """Write a new file under the name that was given, and say so.

    Raises
    ------
    Unreadable
        If it is there already, or cannot be written.
    """
    try:
        write_new(Path(out), data)
    except FileExistsError:
        raise _taken(out) from None
    except (OSError, ValueError) as why:
        failed = f"it cannot be written: {reason(why, writing=True)}."
        raise Unreadable(Fault(file=out, line=None, message=failed)) from None
    print(f"Written: {safe_text(out)}")


def _taken(out: str) -> Unreadable:
    return Unreadable(Fault(file=out, line=None, message="it is there already.", hint="Choose another name."))
