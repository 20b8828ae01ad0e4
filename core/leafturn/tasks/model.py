"""Jobs, as frozen values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import cached_property
from typing import Literal

from leafturn.base.closed_words import CountsAs
from leafturn.base.date_range import Likely
from leafturn.base.evidence import Basis
from leafturn.base.explained_days import Measure, NightAhead
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.garden.model import Point

State = Literal["not yet", "soon", "due", "late", "held", "passed", "done", "let go"]
DUE: tuple[State, ...] = ("due", "late")
SETTLED: tuple[State, ...] = ("done", "let go")  # by a note
OVER: tuple[State, ...] = ("passed", *SETTLED)
OPEN: tuple[State, ...] = ("not yet", "soon", "due", "late", "held")
A_CROP = 2.0  # the harm of a rule that costs a crop if it is missed
SMALL = 0.6  # guess: a job of less harm is of little weight, and only counted where many are told


class Hold(Value):
    """A reason to wait, and the day it ends (None: not known); `asks` is a question that would settle it.

    `wants` names who is missing, where it is hands that are; nobody can lift such a hold.
    """

    reason: str
    until: dt.date | None
    asks: str = ""
    wants: str = ""


class Trigger(Value):
    """What opens a job's window: the moment that decides, as its rule writes it, or "the calendar".

    `measure` is what that moment waits for, with what there is of it today; None where nothing is counted.
    """

    moment: str
    measure: Measure | None = None


class Member(Value):
    """One of the plants that a job is done to, where it stands, and what several of its kind are called."""

    plant: str
    name: str
    where: str
    point: Point | None
    several: str = ""


class Reasons(Value):
    """What is said of a job.

    Parameters
    ----------
    why : tuple of str
        Three to six plain sentences; the first answers alone.
    more : tuple of str
        Of `why`, what is told neither first nor by a field of its own.
    cause : str
        Why, in one sentence without the dates of the window.
    amount : str
        What is spread or poured, empty where that is no more asked.
    tonight : NightAhead or None
        The night to come, where that is the cause.
    if_left, known_by : str
        The sentence of what comes of leaving it, empty where it is over, and what the job rests on, with its
        source.
    over : str
        That its window closed and when it opens again, alike for all that closed then; empty of any other.
    next_open : date or None
        When what is over may be done again, None where nothing foretells it.
    """

    why: tuple[str, ...]
    more: tuple[str, ...] = ()
    cause: str = ""
    amount: str = ""
    tonight: NightAhead | None = None
    if_left: str = ""
    known_by: str = ""
    over: str = ""
    next_open: dt.date | None = None


class Job(Value):
    """One job in one season. Most are never read, so the reasons of each are made when asked for.

    Parameters
    ----------
    id : str
        "plant:verb:year" or "plant:verb:year:n"; the same from run to run.
    plant : str
        Id of the plant or heap; empty for jobs of the whole garden.
    title : str
        What to do, readable aloud: "turn bay-2".
    name : str
        What it is done to, as it stands in the title.
    look : str
        What there is to see, where the job is only to look: "slugs". Empty for work.
    rule : str
        Id of the rule it comes from.
    counts_as : str or None
        What else it comes to once done, as its rule says: "cut", "water".
    harms_late : bool
        Whether doing it after its window would harm.
    state : str
        A word; `days_late` and `hold` give its number or reason.
    open, best, close : Likely
        The window, each with its 10 to 90 % range.
    trigger : Trigger or None
        What opens the window.
    plants : tuple of str
        Ids of the plants it is done to, where `plant` names a group.
    members : tuple of Member
        The same, each with its own place.
    guild : str
        The guild it belongs to; empty if to none.
    telling : callable
        Gives the reasons; asked once.
    helpers : tuple of str
        Those it falls to; none if nobody here can do it.
    given_to : str
        The helper somebody gave it to; empty if it falls to whoever has time.
    wants : str
        Who is missing here to do it: "a second person", "a qualified tree worker"; empty if nobody is.
    wait_until : date or None
        For jobs beyond this week's hours: the date after which waiting costs.
    harm : float
        Cost of missing the window: 0 none, 1 slight, 2 a crop, 3 a plant or a person.
    closed_on, closed_by : date or None, str
        When it was done or let go, and who noted that, empty if nobody is named.
    cost_of_delay : float
        What a day's waiting costs, in the round's own scale; higher comes first.
    """

    id: str
    plant: str
    verb: str
    title: str
    state: State
    open: Likely
    best: Likely
    close: Likely
    minutes: float
    where: str
    point: Point | None
    telling: Callable[[], Reasons]
    basis: Basis
    trigger: Trigger | None = None
    plants: tuple[str, ...] = ()
    members: tuple[Member, ...] = ()
    guild: str = ""
    name: str = ""
    look: str = ""
    rule: str = ""
    counts_as: CountsAs | None = None
    harms_late: bool = False
    source: str = ""
    helpers: tuple[str, ...] = ()
    given_to: str = ""
    wants: str = ""
    hold: Hold | None = None
    days_late: int = 0
    demands: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    wait_until: dt.date | None = None
    harm: float = 0.0
    closed_on: dt.date | None = None
    closed_by: str = ""
    cost_of_delay: float = 0.0

    @cached_property
    def reasons(self) -> Reasons:
        """What is said of it."""
        return self.telling()

    @property
    def why(self) -> tuple[str, ...]:
        """Three to six plain sentences; the first answers alone."""
        return self.reasons.why

    @property
    def order(self) -> tuple[str | int, ...]:
        """What jobs are listed by where nothing else tells them apart: the id, its numbers by their size."""
        return name_order(self.id)

    @property
    def is_small(self) -> bool:
        """Whether it is of little weight."""
        return self.harm < SMALL

    @property
    def loses_nothing(self) -> bool:
        """Whether nothing is lost if it is left, so that all else comes before it."""
        return self.harm == 0

    def is_on_its_last_day(self, on: dt.date) -> bool:
        """Whether its window closes on a day; what is late waits no shorter for an hour."""
        return self.state == "due" and self.close.likely is not None and self.close.likely <= on

    @property
    def who(self) -> str | None:
        """Those it falls to in words, "steward with pair"; None if nobody here can do it."""
        return " with ".join(self.helpers) or None

    @property
    def work(self) -> str:
        """What is done, whatever it is done to: the verb, of a job of one's own all of it."""
        return self.title if self.name == self.title else self.verb

    @property
    def points(self) -> tuple[Point | None, ...]:
        """Where hands must get to."""
        return tuple(member.point for member in self.members) or (self.point,)

    @property
    def titled_with_place(self) -> str:
        """What is done, and where as far as that is known."""
        return f"{self.title}, {self.where}" if self.where else self.title

    @property
    def places(self) -> str:
        """The plants of a job done to several, each with its own place; empty for one."""
        if len(self.members) < 2:
            return ""
        return "; ".join(f"{m.name}, {m.where}" if m.where else m.name for m in self.members)

    @property
    def area(self) -> str:
        """What it is done to, for the walk in words: the guild, a plant, plants with the place they share."""
        if self.guild:
            return f"{self.guild} guild"
        if not self.plants or self.plant in self.plants:
            return self.plant
        shared = len(self.members) > 1 and {m.where for m in self.members} == {self.where} != {""}
        return f"{self.name} {self.where}" if shared else self.name
