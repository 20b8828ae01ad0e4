"""A paper as a PDF, through fpdf2 (the extra `pdf`), in DejaVu Sans: Latin, Greek, Cyrillic and more."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from contextlib import nullcontext
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn import __version__
from leafturn.base.faults import Fault, Unreadable
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.sheets import Page, Size
from leafturn_tui.papers.typesetting import typeset
from leafturn_tui.text.shapes import Box, Disc, Shape, Words

if TYPE_CHECKING:
    from fpdf import FPDF

TYPE, OWN_TYPE = "DejaVu", "own"
FONTS = Path(__file__).parent / "fonts"
FILES = {False: FONTS / "DejaVuSans.ttf", True: FONTS / "DejaVuSans-Bold.ttf"}
STYLES = {False: "", True: "B"}
UNKNOWN = "\N{WHITE SQUARE}"  # stands for a letter that no type here holds
UNIT = 100.0  # points at which a text is measured
AT_NOON = dt.time(12, tzinfo=dt.UTC)


def as_pdf(printed: Printed, paper: Size, font: Path | None = None) -> tuple[bytes, str]:
    """The paper as a PDF, the same bytes for the same paper.

    Parameters
    ----------
    printed : Printed
    paper : Size
    font : Path, optional
        A TrueType or OpenType file for letters that DejaVu Sans lacks.

    Returns
    -------
    data : bytes
    lacking : str
        Letters that no type here holds; squares stand for them.

    Raises
    ------
    Unreadable
        If fpdf2 is not there, or the font cannot be read.
    """
    writer = _Writer(printed, font)
    for page in typeset(printed, paper, writer.measure):
        writer.draw(page, paper)
    return writer.output(), "".join(sorted(writer.lacking))


class _Writer:
    """Puts marks on the pages of a PDF."""

    def __init__(self, printed: Printed, font: Path | None) -> None:
        pdf = self._pdf = _opened()
        for bold, file in FILES.items():
            pdf.add_font(TYPE, STYLES[bold], file)
        if font is not None:
            _add_own(pdf, font)
        pdf.set_auto_page_break(False)
        pdf.set_title(printed.foot)
        pdf.set_creator(f"leafturn {__version__}")
        pdf.set_creation_date(dt.datetime.combine(printed.on, AT_NOON))
        names = [TYPE] if font is None else [TYPE, OWN_TYPE]
        self._held = {
            bold: _letters_of(pdf, [f"{n.lower()}{STYLES[bold]}" for n in names]) for bold in STYLES
        }
        self.lacking: set[str] = set()
        self.measure = lru_cache(maxsize=None)(self._measured)

    def _measured(self, text: str, size: float, bold: bool) -> float:
        """How wide a text is [mm]: at one size for all, since widths grow with the size."""
        if size != UNIT:
            return self.measure(text, UNIT, bold) * size / UNIT
        self._pdf.set_font(TYPE, STYLES[bold], UNIT)
        return float(self._pdf.get_string_width(self._shown(text, bold)))

    def _shown(self, text: str, bold: bool) -> str:
        lacking = {letter for letter in text if ord(letter) not in self._held[bold]}
        self.lacking |= lacking
        return text.translate({ord(letter): UNKNOWN for letter in lacking})

    def draw(self, page: Page, paper: Size) -> None:
        """Add a page with its marks."""
        self._pdf.add_page(format=(paper.wide, paper.high))
        for mark in page:
            self._put(mark)

    def _put(self, mark: Shape) -> None:
        pdf = self._pdf
        match mark:
            case Words():
                wide = self.measure(mark.text, mark.size, mark.bold)
                pdf.set_font(TYPE, STYLES[mark.bold], mark.size)
                pdf.set_text_color(mark.colour)
                pdf.set_stretching(100.0 * min(1.0, mark.room / wide) if wide else 100.0)
                pdf.text(mark.x, mark.y, self._shown(mark.text, mark.bold))
            case Box():
                pdf.set_fill_color(mark.colour)
                with pdf.local_context(fill_opacity=mark.opacity) if mark.opacity < 1 else nullcontext():
                    pdf.rect(mark.x, mark.y, mark.wide, mark.high, style="F")
            case Disc():
                pdf.set_fill_color(mark.colour)
                pdf.circle(mark.x, mark.y, mark.radius, style="F")

    def output(self) -> bytes:
        """The whole file."""
        return bytes(self._pdf.output())


def _opened() -> FPDF:
    try:
        from fpdf import FPDF
    except ImportError:
        said = "A PDF needs the library fpdf2, which is not there."
        hint = "Install it with: pip install fpdf2"
        raise Unreadable(Fault(file="leafturn", line=None, message=said, hint=hint)) from None
    return FPDF(unit="mm")


def _letters_of(pdf: FPDF, fonts: Sequence[str]) -> frozenset[int]:
    """The code points that some fonts hold."""
    return frozenset(code for font in fonts for code in getattr(pdf.fonts[font], "cmap", ()))


def _add_own(pdf: FPDF, font: Path) -> None:
    """A font of the user's own, for letters that the first one lacks."""
    from fontTools.ttLib import TTLibError

    try:
        for style in STYLES.values():
            pdf.add_font(OWN_TYPE, style, font)
    except (OSError, TTLibError, ValueError, KeyError) as why:
        said = f"it cannot be read as a font: {why}."
        raise Unreadable(
            Fault(file=str(font), line=None, message=said, hint="Give a .ttf or .otf file.")
        ) from None
    pdf.set_fallback_fonts([OWN_TYPE])
