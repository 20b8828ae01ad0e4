"""Papers on pages: nothing beyond the margins, nothing cut, what belongs together on one page."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.papers.page_layout import Sheaf
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.sheets import MARGIN, PAPERS, Page
from leafturn_tui.papers.typesetting import FOOT, POINT, typeset
from leafturn_tui.text.layout import row
from leafturn_tui.text.shapes import Box, Disc, Words

ON = dt.date(2027, 4, 19)
A4 = PAPERS["a4"]
WORDS = st.text(alphabet="abc xyz", max_size=400)


def measure(text: str, size: float, bold: bool) -> float:
    return len(text) * size * POINT * (0.64 if bold else 0.58)


def pages_of(sheaf: Sheaf, *, one_page: bool = False, **pictures: int) -> list[Page]:
    drawn = {name: lambda columns, rows=rows: [row("▇" * columns)] * rows for name, rows in pictures.items()}
    paper = Printed(paper=sheaf.paper, foot="Weir Meadow", on=ON, pictures=drawn, one_page=one_page)
    return typeset(paper, A4, measure)


def said(page: Page) -> list[str]:
    return [mark.text for mark in page if isinstance(mark, Words)]


@settings(max_examples=40, deadline=None)
@given(
    texts=st.lists(
        st.tuples(st.sampled_from(["say", "item", "tick", "heading", "under"]), WORDS), max_size=60
    )
)
def test_everything_stands_within_the_margins_and_nothing_is_cut(texts: list[tuple[str, str]]) -> None:
    sheaf = Sheaf(str)
    for kind, text in texts:
        getattr(sheaf, kind)(text)
    pages = pages_of(sheaf)
    for page in pages:
        for mark in page:
            assert mark.x >= MARGIN - 0.01
            if isinstance(mark, Words):
                assert mark.x + measure(mark.text, mark.size, mark.bold) <= A4.wide - MARGIN + 0.01
                assert MARGIN < mark.y <= A4.high - FOOT
            elif isinstance(mark, Box):
                assert mark.x + mark.wide <= A4.wide - MARGIN + 0.01
                assert MARGIN <= mark.y <= A4.high - MARGIN
    read = "".join("".join(said(page)[:-2]) for page in pages).replace(" ", "")
    assert read == "".join(block.text for block in sheaf.blocks).replace(" ", "")
    assert all(said(page)[-1] == f"page {n} of {len(pages)}" for n, page in enumerate(pages, 1))


def test_a_tick_and_what_belongs_to_it_stay_on_one_page() -> None:
    sheaf = Sheaf(str)
    for n in range(60):
        sheaf.tick(f"job {n}", "20 min", mark=str(n))
        sheaf.under(f"place of {n}")
        sheaf.under(f"caution of {n}")
    pages = pages_of(sheaf)
    assert len(pages) > 1
    for n in range(60):
        (page,) = [p for p in pages if f"job {n}" in said(p)]
        assert {f"place of {n}", f"caution of {n}", str(n)} <= set(said(page))


def test_no_heading_stands_alone_at_the_end_of_a_page() -> None:
    for lines in range(40, 60):
        sheaf = Sheaf(str)
        for n in range(lines):
            sheaf.say(f"line {n}")
        sheaf.heading("What follows")
        sheaf.blank()
        sheaf.say("the first of it")
        (page,) = [p for p in pages_of(sheaf) if "What follows" in said(p)]
        assert "the first of it" in said(page)


def test_a_page_that_must_stay_one_has_the_largest_type_that_fits() -> None:
    sizes = []
    for lines in (10, 44, 54):
        sheaf = Sheaf(str)
        for n in range(lines):
            sheaf.say(f"line {n}")
        (page,) = pages_of(sheaf, one_page=True)
        sizes.append(max(mark.size for mark in page if isinstance(mark, Words)))
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[0] == 12.0 > sizes[-1] >= 9.0


def test_a_drawing_is_drawn_whole_and_of_shapes() -> None:
    sheaf = Sheaf(str)
    for n in range(40):
        sheaf.say(f"line {n}")
    sheaf.picture("strip")
    sheaf.picture("no such drawing")
    pages = pages_of(sheaf, strip=100)
    (page,) = [p for p in pages if any(isinstance(m, Box) for m in p)]
    boxes = [m for m in page if isinstance(m, Box)]
    assert len(boxes) == 100, "a row of one sign is one box"
    assert max(b.y + b.high for b in boxes) <= A4.high - MARGIN + 0.01
    assert not any(isinstance(m, Disc) for m in page)


def test_gardens_on_one_paper_begin_on_pages_of_their_own() -> None:
    from leafturn.papers.page_layout import NEW_PAGE

    sheaf = Sheaf(str)
    sheaf.say("first garden")
    sheaf.blocks.append(NEW_PAGE)
    sheaf.say("second garden")
    assert [said(p)[0] for p in pages_of(sheaf, one_page=True)] == ["first garden", "second garden"]
