"""A paper as a PDF, read by pypdf and drawn by PDFium."""

from __future__ import annotations

import datetime as dt
import io
import sys
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest

from leafturn.base.faults import Unreadable
from leafturn.papers.page_layout import Sheaf
from leafturn_tui.papers.pdf import FILES, UNKNOWN, as_pdf
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.sheets import MARGIN, PAPERS
from leafturn_tui.text.layout import row

ON = dt.date(2027, 4, 19)
SCALE = 2.0  # pixels a point
MM = 72 / 25.4 * SCALE  # pixels a millimetre


def paper(*texts: str) -> Printed:
    sheaf = Sheaf(str)
    sheaf.title("Weir Meadow", "Week sheet 16-A")
    for n, text in enumerate(texts, 1):
        sheaf.tick(text, "20 min", mark=str(n))
        sheaf.under("19 m N of the gate")
    sheaf.room(2)
    sheaf.picture("strip")
    return Printed(
        paper=sheaf.paper,
        foot="Weir Meadow, 19 Apr 2027",
        on=ON,
        pictures={"strip": lambda _: [row("▁▄█ ●⣿")]},
    )


def drawn(data: bytes) -> np.ndarray:
    """The first page as levels of grey, 0 black to 255 white."""
    page = pypdfium2.PdfDocument(data)[0]
    return np.asarray(page.render(scale=SCALE, grayscale=True).to_numpy())


def test_it_is_read_back_in_every_script_its_type_holds() -> None:
    names = ("prune Žižkovská červená", "mulch Γκορτσιά", "water груша", "pick Œillet – “late” ½ °C")
    data, lacking = as_pdf(paper(*names), PAPERS["a4"])
    reader = pypdf.PdfReader(io.BytesIO(data))
    text = " ".join(reader.pages[0].extract_text().split())
    assert all(f"{n} {name} 20 min" in text for n, name in enumerate(names, 1))
    assert "page 1 of 1" in text
    assert (lacking, reader.metadata.title) == ("", "Weir Meadow, 19 Apr 2027")  # type: ignore[union-attr]


def test_nothing_is_drawn_in_the_margins_and_boxes_are_big_enough_for_a_pencil() -> None:
    for name, size in PAPERS.items():
        data, _ = as_pdf(
            paper(*(f"job {n} with words enough that it needs a second line " * 2 for n in range(9))), size
        )
        grey = drawn(data)
        assert grey.shape == pytest.approx((size.high * MM, size.wide * MM), abs=2), name
        edge = round((MARGIN - 0.3) * MM)
        inked = grey < 200
        assert not any(side.any() for side in (inked[:, :edge], inked[:, -edge:], inked[:edge]))
        assert inked[edge:].any()
        # Some column of pixels runs down the side of a box, so that it is inked for 5 mm and no letter is.
        runs = max(longest(inked[: round(100 * MM), x]) for x in range(edge, round(40 * MM)))
        assert runs == pytest.approx(5.0 * MM, abs=3)


def longest(inked: np.ndarray) -> int:
    """The longest run of true."""
    best = now = 0
    for pixel in inked:
        now = now + 1 if pixel else 0
        best = max(best, now)
    return best


def test_blocks_are_drawn_and_not_set_in_type() -> None:
    data, lacking = as_pdf(paper(), PAPERS["a4"])
    assert "█" not in pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    assert lacking == ""
    assert (drawn(data) < 60).sum() > 3 * (2 * MM) ** 2  # at least the full block is there, black


def test_the_same_paper_is_the_same_bytes() -> None:
    first, second = (as_pdf(paper("one", "two"), PAPERS["letter"])[0] for _ in range(2))
    assert first == second


def test_letters_it_lacks_are_told_and_come_from_a_font_that_has_them() -> None:
    data, lacking = as_pdf(paper("梨の木を剪定する"), PAPERS["a4"])
    assert lacking == "".join(sorted(set("梨の木を剪定する")))
    assert UNKNOWN in pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    assert as_pdf(paper("pear"), PAPERS["a4"], FILES[False])[1] == ""


def test_what_is_no_font_is_said(tmp_path: Path) -> None:
    (tmp_path / "type.ttf").write_bytes(b"no font at all")
    for name in ("type.ttf", "none.ttf"):
        with pytest.raises(Unreadable, match="cannot be read as a font"):
            as_pdf(paper("pear"), PAPERS["a4"], tmp_path / name)


def test_without_its_library_one_sentence_tells_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "fpdf", None)
    with pytest.raises(Unreadable, match="A PDF needs the library fpdf2"):
        as_pdf(paper("pear"), PAPERS["a4"])
