"""The forms of a paper: plain text, Markdown, and PDF for a printer."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

from leafturn.base.quantities import spoken
from leafturn.base.value import Value
from leafturn_tui.papers.files import as_text
from leafturn_tui.papers.markdown import as_markdown
from leafturn_tui.papers.printed import Printed

FORMS = {".txt": "text", ".md": "Markdown", ".pdf": "PDF"}  # by the ending of their files
LACKING_SHOWN = 12
SIZES = ("a4", "letter")


class Press(Value):
    """How a PDF is made: the sheet of paper, and a font for letters that DejaVu Sans lacks."""

    paper: str
    font: Path | None = None


def usual_paper() -> str:
    """The sheet that printers hold where the garden's units are spoken: Letter beside feet, else A4."""
    return "letter" if spoken() == "us" else "a4"


def can_print() -> bool:
    """Whether the library that PDFs want is there."""
    return find_spec("fpdf") is not None


def in_form(printed: Printed, ending: str, press: Press) -> tuple[bytes, str]:
    """The bytes of a paper in the form of an ending, and what is to be said of it; mostly nothing.

    Parameters
    ----------
    printed : Printed
    ending : str
        One of `FORMS`.
    press : Press

    Raises
    ------
    Unreadable
        If a PDF is asked for and its library is not there, or its font cannot be read.
    """
    if ending == ".txt":
        return b"\f".join(map(as_text, printed.pages)), ""
    if ending == ".md":
        return as_markdown(printed).encode(), ""
    from leafturn_tui.papers.pdf import as_pdf
    from leafturn_tui.papers.sheets import PAPERS

    data, lacking = as_pdf(printed, PAPERS[press.paper], press.font)
    if not lacking:
        return data, ""
    shown = " ".join(lacking[:LACKING_SHOWN]) + (" and others" if len(lacking) > LACKING_SHOWN else "")
    return data, f"Its type has no {shown}; squares stand for them. --font FILE names a font that has them."
