"""Page 1: the week's jobs in walking order. What is not seen of them at once is loaded when it is asked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from leafturn.tasks.model import Job
from leafturn.tasks.week.model import Line, Round
from leafturn_tui.host import LOW, Key
from leafturn_tui.pages.base import WHOLE, Page, first_lines
from leafturn_tui.pages.faults import fault_rows
from leafturn_tui.pages.other_gardens import other_garden_rows
from leafturn_tui.pages.reasons import why_sheet
from leafturn_tui.pages.round_lines import Stood, heads, line_of, line_rows
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.round import QUESTION
from leafturn_tui.text import phrases, states
from leafturn_tui.text.layout import BLANK, Row, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


ROUND = 10  # lines of the window that are not the list's
LEAST_WALK, MOST_WALK = 8, 24  # lines of the walk below the list: it is drawn where as many are left


class RoundPage(Page, key="1", question=QUESTION):
    """What needs hands this week?"""

    def __init__(self) -> None:
        self.helper: str | None = None
        self.view = "list"
        self._stood: dict[tuple[dt.date, str | None], Stood] = {}

    @property
    def list_width(self) -> int:
        """The walk alone takes the whole width."""
        return WHOLE if self.view == "walk" else 0

    def keys(self) -> tuple[Key, ...]:
        """Done, let go, put off, to whom, one helper's jobs, and the walk as a picture."""
        turn = Key(
            "v", "walk" if self.view == "list" else "list", "the walk as a picture, or the list", self._turn
        )
        if self.view == "walk":
            return (turn,)
        return (
            *self._job_keys(),
            Key("s", "whose", "only one helper's jobs, or someone new who helps", self._ask_whose),
            turn,
        )

    def every_key(self) -> tuple[str, ...]:
        """Those of the list."""
        return (*(key.name for key in self._job_keys()), "s", "v")

    def _job_keys(self) -> tuple[Key, ...]:
        from leafturn_tui.pages.job_keys import job_keys

        return job_keys(self._jobs)

    def _turn(self, desk: Host) -> None:
        if self.view == "list" and not self._has_walk(desk.almanac):
            desk.say("There is no walk: nothing that is due has a place in the garden file.")
            return
        self.view = "walk" if self.view == "list" else "list"
        desk.start_over()

    def _has_walk(self, almanac: AlmanacFace) -> bool:
        return len(self._round(almanac).walk.stops) > 1

    def heading(self, almanac: AlmanacFace) -> str:
        """The question, and whose jobs are shown."""
        return self.question.words(self.helper)

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """Hours against hands."""
        return phrases.hours_sum(self._round(almanac))

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Lines that want hands this week; red if a night would take something."""
        week = [s for line in almanac.round().lines if (s := states.shown(line, almanac.on)).this_week]
        return len(week), "harm" if states.TONIGHT in week else "amber"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """When, what and where, by when, how long."""
        return [heads(width)] if self.view == "list" and self._round(almanac).lines else []

    def top(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Faults, what else deserves a line on top, and that nothing presses."""
        the_round = self._round(almanac)
        rows = fault_rows(almanac, width)
        for said in the_round.notice:
            rows += paragraph(said, width - 1, "due", indent=1, most=2)
        if the_round.quiet and self.height >= LOW:
            rows += [*paragraph(the_round.quiet, width - 1, indent=1), BLANK]
        return rows

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What is due in walking order, like jobs in one line; then what comes, and what can wait."""
        the_round = self._round(almanac)
        room = self.height - ROUND - len(self.top(almanac, width))
        if self.view == "walk":
            return self._walk(almanac, width, max(LEAST_WALK, room + 1))
        in_list = the_round.quiet and self.height < LOW
        rows = [*paragraph(the_round.quiet, width), BLANK] if in_list else []
        if not almanac.garden.plants:
            rows += first_lines(width)
        lines, in_place = self._lines(almanac)
        rows += line_rows(lines, the_round.beyond_reach, almanac.on, width, room - len(rows), in_place)
        if not self.helper:
            rows += other_garden_rows(almanac, width)
        left = room - len(rows) - 1
        if self.drawn_below and left >= LEAST_WALK and self._has_walk(almanac):
            rows += [BLANK, *self._walk(almanac, width, min(left, MOST_WALK))]
        return rows

    def _lines(self, almanac: AlmanacFace) -> tuple[list[Line], list[str]]:
        """The lines as they are told, and the keys of those that are done and stay where they stood."""
        stood = self._stood.setdefault((almanac.on, self.helper), Stood())
        told = self._round(almanac).lines
        untold = stood.done_but_untold(almanac.round().lines, told) if self.helper else []
        return stood.with_done([*told, *untold], almanac.on)

    def _walk(self, almanac: AlmanacFace, width: int, rows: int) -> list[Row]:
        from leafturn_tui.charts.walk import walk_rows

        walk = self._round(almanac).walk
        return walk_rows(almanac.garden_plan(), walk, width, rows, colour=self.colours)

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """What nobody can do, and the walk."""
        the_round = self._round(almanac)
        said = []
        if the_round.beyond_reach:
            said.append(phrases.reach_line(the_round))
        if walk := phrases.walk_line(the_round):
            said.append(walk)
        return [r for line in said for r in paragraph(line, width - 1, indent=1, most=1)]

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The chain of reasons; of several jobs told in one line, of the one that costs most to leave."""
        line = self._line(almanac, row)
        return why_sheet(almanac, line.dearest) if line else None

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """The line in full: what presses, what comes of leaving it, who, where."""
        from leafturn_tui.pages.job_story import line_story

        line = self._line(almanac, row)
        return line_story(almanac, line, width) if line else []

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The job's own page, or the list of those the line stands for."""
        from leafturn_tui.pages.one_job import OneJob
        from leafturn_tui.pages.several_jobs import SeveralJobs

        line = self._line(almanac, row)
        if line is None:
            return None
        return OneJob(row.about) if row.about else SeveralJobs(line, by_work=line.state == "can wait")

    def _line(self, almanac: AlmanacFace, row: Row) -> Line | None:
        return line_of(row, self._lines(almanac)[0])

    def _jobs(self, desk: Host) -> Sequence[Job]:
        """The jobs of the line under the bar."""
        line = self._line(desk.almanac, desk.current) if desk.current else None
        return line.jobs if line else ()

    def _round(self, almanac: AlmanacFace) -> Round:
        known = {h.name for h in almanac.garden.all_helpers}
        return almanac.round(self.helper if self.helper in known else None)

    def _ask_whose(self, desk: Host) -> None:
        from leafturn_tui.pages.helper_begun import helper_option
        from leafturn_tui.panels.choice import Choice, Option

        names = [h.name for h in desk.almanac.garden.all_helpers]

        def only(name: str | None) -> None:
            self.helper = name

        options = [Option("0", "everyone", partial(only, None))]
        for n, name in enumerate(names, 1):
            options.append(Option(str(n) if n < 10 else " ", name, partial(only, name)))
        options.append(helper_option(desk))
        at = names.index(self.helper) + 1 if self.helper in names else 0
        desk.ask(Choice("Whose jobs?", options, at))
