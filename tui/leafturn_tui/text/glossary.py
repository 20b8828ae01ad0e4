"""The words that people meet on the pages, and what each means."""

from __future__ import annotations

from leafturn.base.value import Value
from leafturn.toml.packaged import packaged


class Word(Value):
    """A word as it stands on the pages.

    Parameters
    ----------
    word : str
    means : str
        In one or two sentences.
    pages : tuple of str
        The pages that use it, by name; none for all of them.
    """

    word: str
    means: str
    pages: tuple[str, ...] = ()


class Glossary(Value):
    """The whole file, in its order."""

    word: tuple[Word, ...]


glossary = packaged("leafturn_tui.text", "words.toml", Glossary)


def words_of(page: str) -> tuple[Word, ...]:
    """The words of a page, its own before those of every page."""
    every = glossary().word
    own = tuple(word for word in every if page in word.pages)
    return own + tuple(word for word in every if not word.pages)
