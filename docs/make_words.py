"""Write docs/words.md from the glossary that the pages' `?` shows.

python docs/make_words.py
"""

from __future__ import annotations

from pathlib import Path

from leafturn_tui.pages import pages
from leafturn_tui.text.glossary import Word, words

FILE = Path(__file__).with_name("words.md")
HEAD = """# The words of the pages

What the words and signs on the screen mean. On each page `?` and then `Enter` show those of that page.
This file is written by `docs/make_words.py` from `tui/leafturn_tui/text/words.toml`.
"""


def written() -> str:
    """The whole document."""
    every = words()
    parts = [HEAD, "## On every page\n", *map(line, (word for word in every if not word.pages))]
    for page in pages().values():
        if own := [word for word in every if page.name in word.pages]:
            parts += [f"\n## {page.name}: {page.question.asked}\n", *map(line, own)]
    return "\n".join(parts) + "\n"


def line(word: Word) -> str:
    """A word with what it means."""
    return f"- **{word.word}** — {word.means}"


if __name__ == "__main__":
    FILE.write_text(written(), encoding="utf-8")
