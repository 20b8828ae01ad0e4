"""The pages, one file each. A file in this folder whose class has a key is a page: nothing to list.

To add one, write `pages/NAME.py` with `class NamePage(Page, key="H", question=QUESTION)`, where `QUESTION` is
that of `leafturn_tui/render/NAME.py`, which answers it without a screen. The page then has its key, its line
under `g` and its place in the sentence of pages.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from functools import cache

from leafturn_tui.pages.base import Page
from leafturn_tui.render import commands

DIGITS = "1234567890"
FIRST = "round"  # the module of the page that opens, to be had without looking for the others


class KeyTaken(ValueError):
    """Two files ask for one key; both are named."""


@cache
def pages() -> dict[str, type[Page]]:
    """The pages by their key: digits as they lie on the keyboard, then letters.

    Raises
    ------
    KeyTaken
        If two pages ask for one key.
    ValueError
        If a key is neither a digit nor a letter, or no command answers the page's question.
    """
    found: dict[str, type[Page]] = {}
    for module in pkgutil.iter_modules(__path__):
        for page in _pages_of(f"{__name__}.{module.name}"):
            if page.key in found:
                raise KeyTaken(f"{_file(found[page.key])} and {_file(page)} both ask for the key {page.key}")
            found[page.key] = page
    digits = [key for key in DIGITS if key in found]
    return {key: found[key] for key in (*digits, *sorted(found.keys() - set(digits)))}


def first_page() -> type[Page]:
    """The page of the first key."""
    return _pages_of(f"{__name__}.{FIRST}")[0]


def _pages_of(module: str) -> list[type[Page]]:
    """The pages with a key that a module itself defines."""
    made = [
        thing
        for thing in vars(importlib.import_module(module)).values()
        if isinstance(thing, type) and issubclass(thing, Page) and thing.key and thing.__module__ == module
    ]
    for page in made:
        if not (len(page.key) == 1 and page.key.isascii() and page.key.isalnum()):
            raise ValueError(f"{_file(page)}: the key {page.key!r} is neither a digit nor a letter")
        if page.command not in commands():
            raise ValueError(f"{_file(page)}: no module render/{page.command}.py answers its question")
    return made


def _file(page: type[Page]) -> str:
    return f"pages/{page.__module__.rpartition('.')[2]}.py"


def check_keys(of_the_screen: Mapping[str, str]) -> None:
    """Look that no page's key is one that the screen, or any page, has another use for.

    Parameters
    ----------
    of_the_screen : mapping of key to file
        The keys of every page, and where they are given.

    Raises
    ------
    KeyTaken
        Naming the page's file and the one that uses its key.
    """
    used = dict(of_the_screen)
    for other in pages().values():
        used |= dict.fromkeys(other().every_key(), _file(other))
    for key, page in pages().items():
        if key in used:
            raise KeyTaken(f"{_file(page)} asks for the key {key}, which {used[key]} uses already")


def which_pages() -> str:
    """The pages in one sentence."""
    return "Pages here: " + ", ".join(f"{key} {page.name}" for key, page in pages().items()) + "."
