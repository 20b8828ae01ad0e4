"""The pages, one file each. A file in this folder whose class has a digit is a page: nothing to list.

To add one, write `pages/NAME.py` with one subclass of `Page` that sets `digit`, `name` and
`question`. It then has its key, its line under `g` and its place in the sentence of pages.
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from leafturn_tui.pages.base import Page

ORDER = "1234567890"


@cache
def pages() -> dict[str, type[Page]]:
    """The pages by their digit, in the order of the keys."""
    found: dict[str, type[Page]] = {}
    for module in pkgutil.iter_modules(__path__):
        for thing in vars(importlib.import_module(f"{__name__}.{module.name}")).values():
            if isinstance(thing, type) and issubclass(thing, Page) and thing.digit:
                found[thing.digit] = thing
    return {digit: found[digit] for digit in ORDER if digit in found}


def which_pages() -> str:
    """The pages in one sentence."""
    return "Pages here: " + ", ".join(f"{digit} {page.name}" for digit, page in pages().items()) + "."
