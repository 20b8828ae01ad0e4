"""A paper as Markdown, read back by markdown-it: every word as it was said, whatever signs are in it."""

from __future__ import annotations

import datetime as dt

from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from leafturn.papers.page_layout import Sheaf
from leafturn_tui.papers.markdown import as_markdown
from leafturn_tui.papers.printed import Printed
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import row

ON = dt.date(2027, 4, 19)
READER = MarkdownIt("commonmark", {"html": False}).enable("table")
SIGNS = st.text(alphabet="ab1.)-+#*_`[]<>|~&\\!:;= ", min_size=1, max_size=40).filter(
    lambda text: text.strip()
)


def printed(sheaf: Sheaf) -> Printed:
    pictures = {"strip": lambda _: [row("▁▄█  x")]}
    return Printed(paper=sheaf.paper, foot="Weir Meadow", on=ON, pictures=pictures)


def parsed(sheaf: Sheaf) -> list[Token]:
    return READER.parse(as_markdown(printed(sheaf)))


def said(tokens: list[Token]) -> list[str]:
    return [
        "".join(child.content for child in token.children or () if child.type in ("text", "code_inline"))
        for token in tokens
        if token.type == "inline"
    ]


@given(texts=st.lists(SIGNS, min_size=5, max_size=5))
@example(texts=["1", "1 #", "1", "1", "1"])  # signs at its end would close a heading
def test_signs_of_markdown_are_words_here(texts: list[str]) -> None:
    title, heading, item, tick, under = (" ".join(text.split()) for text in texts)
    sheaf = Sheaf(safe_text)
    sheaf.title(title)
    sheaf.heading(heading)
    sheaf.say(item)
    sheaf.item(item)
    sheaf.tick(tick, "20 min", mark="3")
    sheaf.under(under)
    assert said(parsed(sheaf)) == [title, heading, item, item, f"[ ] 3 {tick}, 20 min", under, "Weir Meadow"]


def test_each_part_is_what_it_is() -> None:
    sheaf = Sheaf(str)
    sheaf.title("Weir Meadow", "Week sheet 16-A")
    sheaf.heading("steward", shown="STEWARD")
    sheaf.tick("mulch", "20 min", mark="1")
    sheaf.under("Look for toads first.")
    sheaf.row(("plant", "first"), (20, 8), head=True)
    sheaf.blank()
    sheaf.row(("pear", "____"), (20, 8))
    sheaf.room(1)
    sheaf.picture("strip")
    sheaf.picture("none")
    found = parsed(sheaf)
    kinds = [(t.type, t.tag) for t in found]
    assert kinds.count(("heading_open", "h1")) == kinds.count(("heading_open", "h2")) == 1
    assert {("list_item_open", "li"), ("table_open", "table"), ("hr", "hr")} <= set(kinds)
    assert [t.content for t in found if t.type == "fence"] == ["▁▄█  x\n"]
    closed = next(n for n, t in enumerate(found) if t.type == "list_item_close")
    assert "Look for toads first." in said(found[:closed])  # the caution belongs to its job
    assert as_markdown(printed(sheaf)).startswith(
        "# Weir Meadow · Week sheet 16-A\n\n## steward\n\n- [ ] **1** mulch, 20 min"
    )
