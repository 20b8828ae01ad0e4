"""Pages lying on each other, and where the bar rests on each."""

from __future__ import annotations

from collections.abc import Mapping

from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.desk.page_bar import Tab
from leafturn_tui.host import PageFace
from leafturn_tui.pages import pages
from leafturn_tui.text.layout import Row


class PageStack:
    """The page turned to by its key, and those opened from it; the first page to begin with.

    `by_key` holds every page that can be turned to.
    """

    def __init__(self) -> None:
        self.shown: PageFace | None = None  # the page whose rows are in the list now
        self.key = ""  # of the page turned to
        self.by_key: Mapping[str, PageFace] = {key: page() for key, page in pages().items()}
        self._pages: list[PageFace] = []
        self._bars: dict[int, tuple[str, int]] = {}
        self.turn_to(next(iter(pages())))

    @property
    def top(self) -> PageFace:
        """The page on top."""
        return self._pages[-1]

    @property
    def steps_back(self) -> bool:
        """Whether a page lies below."""
        return len(self._pages) > 1

    def turn_to(self, key: str) -> None:
        """The page of a key alone; it keeps what was turned to on it."""
        self.key = key
        self._pages = [self.by_key[key]]

    def names(self) -> tuple[Tab, ...]:
        """Every page that can be turned to."""
        return tuple(Tab(key, pages()[key].name) for key in self.by_key)

    def tabs(self, almanac: AlmanacFace) -> tuple[Tab, ...]:
        """The same with what waits there, which every page is asked."""
        waiting = ((key, page.waits(almanac)) for key, page in self.by_key.items())
        return tuple(Tab(key, pages()[key].name, *waits) for key, waits in waiting)

    def open(self, page: PageFace) -> None:
        """Lay a page on top."""
        self._pages.append(page)

    def back(self) -> bool:
        """Take the page on top away; False if none lies below."""
        if not self.steps_back:
            return False
        self._bars.pop(id(self._pages.pop()), None)
        return True

    def start_over(self) -> None:
        """Forget where the bar of the page on top is."""
        self._bars.pop(id(self.top), None)
        self.shown = None

    def bar(self, page: PageFace, start: int) -> tuple[str, int]:
        """Key and place of the line the bar rests on; on a page not yet seen the place where it starts."""
        return self._bars.setdefault(id(page), ("", start))

    def leave_bar(self, row: Row | None, at: int) -> None:
        """Remember where the bar of the shown page is."""
        if self.shown is not None:
            self._bars[id(self.shown)] = (row.key if row else "", at)
