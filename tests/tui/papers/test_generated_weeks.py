"""Week sheets of weeks drawn at random: one page as text and as PDF, and every job line on both."""

from __future__ import annotations

import io

import pypdf
import pytest
from tests.samples.papers import ON
from tests.samples.weeks import week

from leafturn.papers.page_layout import LENGTH, WIDTH, cells
from leafturn.papers.week_sheet import WeekSheet, week_sheet
from leafturn_tui.papers.pdf import _Writer
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.sheets import PAPERS
from leafturn_tui.papers.typesetting import UNDER, typeset
from leafturn_tui.safe_text import safe_text

WEEKS = 500
TOGETHER = 5  # weeks set with one reading of the type, which takes as long as a week does


def sheet(seed: int) -> WeekSheet:
    occasion, round_now = week(seed)
    return week_sheet(occasion, round_now, ON, lambda ids: "16-A", safe_text)


def words(text: str) -> str:
    return " ".join(text.split())


def check(seeds: range, paper: str) -> None:
    sheets = list(map(sheet, seeds))
    printed = [Printed(paper=made.paper, foot="Weir Meadow", on=ON, one_page=True) for made in sheets]
    writer = _Writer(printed[0], None)
    for one in printed:
        (set_page,) = typeset(one, PAPERS[paper], writer.measure)
        writer.draw(set_page, PAPERS[paper])
    data = writer.output()
    assert writer.lacking == set()
    for made, page in zip(sheets, pypdf.PdfReader(io.BytesIO(data)).pages, strict=True):
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            [side * 72 / 25.4 for side in PAPERS[paper]], abs=0.1
        )
        check_page(made, page)


def check_page(made: WeekSheet, page: pypdf.PageObject) -> None:
    assert len(made.lines) <= LENGTH
    assert max(map(cells, made.lines)) <= WIDTH
    said, sizes = read_of(page)
    assert min(sizes) >= 9.0 * UNDER
    read, typed = words(said), words("\n".join(made.lines))
    ticks = [block for block in made.paper.blocks if block.kind == "tick"]
    assert [tick.mark for tick in ticks] == [str(n) for n in range(1, len(made.jobs) + 1)]
    for tick, job in zip(ticks, made.week.jobs, strict=True):
        assert tick.text in read
        assert tick.text.startswith(job.title) or tick.text.endswith("…")
        for caution in job.cautions:
            assert caution in read
            assert caution in typed


def read_of(page: pypdf.PageObject) -> tuple[str, set[float]]:
    """What stands on a page, and the sizes of its type [pt]."""
    sizes: set[float] = set()

    def note(text: str, cm: object, tm: object, font: object, size: float) -> None:
        if text.strip():
            sizes.add(size)

    return page.extract_text(visitor_text=note), sizes


@pytest.mark.sweep(each=99)
@pytest.mark.parametrize("first", range(WEEKS // TOGETHER))
def test_a_week_fits_its_page(first: int) -> None:
    check(range(first, WEEKS, WEEKS // TOGETHER), "a4" if first % 2 else "letter")
