"""Where everything stands: places said by way of other plants, worked out in whatever order they come."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from itertools import islice

import msgspec

from leafturn.base import prose
from leafturn.base.faults import Fault
from leafturn.garden.model import Point
from leafturn.garden.reading.names import Finder, plain_id
from leafturn.garden.reading.place_phrases import (
    HOW_TO_SAY_IT,
    UnclearPlace,
    quoted,
    read_place_words,
)
from leafturn.garden.reading.stated_places import Placed, StatedPlace

_MOST_NAMED = 6  # of a long ring or list, so that the sentence stays one
_MOST_ANDS = 20  # tried in "between a and b"; and rings reported: bounds on hostile files, guesses
_MOST_RINGS = 20


class _Leaning(msgspec.Struct):
    """A place reckoned from others: the middle of `on`, moved by an offset [m]."""

    on: tuple[int, ...]
    east: float
    north: float


def place_all(
    stated_places: Sequence[StatedPlace],
    *,
    file: str,
    pace_m: float = 0.75,
    datum: str = "the gate",
    ways: Sequence[str] = (),
) -> Placed:
    """Work out every place.

    Parameters
    ----------
    stated_places : sequence of StatedPlace
        In any order; each may lean on any other.
    file : str
        Name of the file, for faults.
    pace_m : float
        Length of a pace [m].
    datum : str
        What the garden calls its datum; places may be reckoned from it by this name too.
    ways : sequence of str
        Names of paths, from which no place can be reckoned.

    Returns
    -------
    Placed
        What stands in a ring, or leans on one or on an unknown name, keeps None.
    """
    return _Surveyor(stated_places, file, pace_m, datum, ways).placed()


class _Surveyor:
    def __init__(
        self, stated_places: Sequence[StatedPlace], file: str, pace_m: float, datum: str, ways: Sequence[str]
    ) -> None:
        self._standings = stated_places
        self._file = file
        self._pace_m = pace_m
        self._datum = plain_id(datum).removeprefix("the-")
        self._anchors = [place for place, stated_place in enumerate(stated_places) if stated_place.anchor]
        anchors = (stated_places[place] for place in self._anchors)
        self._finder = Finder(((one.id, one.name, one.cultivar, one.kind) for one in anchors), ways)
        self._points: list[Point | None] = [None] * len(stated_places)
        self._hosts: list[str | None] = [None] * len(stated_places)
        self._leaning: dict[int, _Leaning] = {}
        self._blamed: set[int] = set()  # those whose own place is at fault
        self._faults: list[Fault] = []

    def placed(self) -> Placed:
        for place, stated_place in enumerate(self._standings):
            try:
                host = None if stated_place.host is None else self._find_host(place, stated_place)
                self._read(place, stated_place, host)
            except UnclearPlace as unclear:
                self._blame(
                    place, unclear.message, f"{unclear.hint} Until then {stated_place.id} has no place."
                )
        self._settle()
        self._report_rings()
        self._report_stranded()
        return Placed(tuple(self._points), tuple(self._hosts), tuple(self._faults))

    def _find(self, words: str) -> int | None:
        found = self._finder.find(words)
        return None if found is None else self._anchors[found]

    def _find_host(self, place: int, stated_place: StatedPlace) -> int | None:
        """What a climber climbs on; None for a host that is no plant, such as a post."""
        words = stated_place.host or ""
        host = self._find(words)
        if host is not None:
            self._hosts[place] = self._standings[host].id
        elif near := self._finder.misspelt(words):
            said = f"no plant {quoted(words)} to be the host of {stated_place.id}."
            if stated_place.at is None:
                raise UnclearPlace(said, f"Did you mean {near}?")
            self._say(place, said, f"Did you mean {near}?")
        return host

    def _blame(self, place: int, message: str, hint: str) -> None:
        self._blamed.add(place)
        self._say(place, message, hint)

    def _say(self, place: int, message: str, hint: str) -> None:
        line = self._standings[place].line
        self._faults.append(Fault(file=self._file, line=line, message=message, hint=hint))

    def _read(self, place: int, stated_place: StatedPlace, host: int | None) -> None:
        """Put one stated place on its point, or note what it leans on."""
        if stated_place.at is None:
            if host is not None:
                self._leaning[place] = _Leaning((host,), 0.0, 0.0)
        elif isinstance(stated_place.at, str):
            self._read_words(place, stated_place.at)
        else:
            self._points[place] = Point(*stated_place.at)

    def _read_words(self, place: int, words: str) -> None:
        said = read_place_words(words, self._pace_m)
        if said.name is None or self._names_datum(said.name):
            self._points[place] = Point(said.east, said.north)
            return
        if said.between:
            on = self._find_two(said.name)
        else:
            found = self._find(said.name)
            if found is None:
                raise self._unknown(said.name, whole=said.name == words)
            on = (found,)
        self._leaning[place] = _Leaning(on, said.east, said.north)

    def _names_datum(self, name: str) -> bool:
        return self._datum != "" and plain_id(name).removeprefix("the-") == self._datum

    def _unknown(self, name: str, *, whole: bool = False) -> UnclearPlace:
        hint = self._finder.hint(name)
        if whole and not hint:  # such as "behind the shed": not meant as a name at all
            return UnclearPlace(f"the place {quoted(name)} is not understood.", HOW_TO_SAY_IT)
        return UnclearPlace(
            f"no plant {quoted(name)}.", hint or "Use an id or a name that stands in the file."
        )

    def _find_two(self, both: str) -> tuple[int, ...]:
        """The two things named in "a and b"; either name may hold an "and" of its own."""
        words = both.split(" ")
        middles = [at for at in range(1, len(words) - 1) if words[at].lower() == "and"][:_MOST_ANDS]
        for middle in middles:
            first, second = self._find(" ".join(words[:middle])), self._find(" ".join(words[middle + 1 :]))
            if first is not None and second is not None:
                return first, second
        before, after = " ".join(words[: middles[0]]), " ".join(words[middles[0] + 1 :])
        raise self._unknown(before if self._find(before) is None else after)

    def _settle(self) -> None:
        """Give points to all that lean, directly or by way of others, on something placed."""
        waiting = {place: len(set(leaning.on)) for place, leaning in self._leaning.items()}
        leaners: dict[int, list[int]] = {}
        for place, leaning in self._leaning.items():
            for other in set(leaning.on):
                leaners.setdefault(other, []).append(place)
        ready = deque(place for place, point in enumerate(self._points) if point is not None)
        while ready:
            for place in leaners.get(ready.popleft(), ()):
                waiting[place] -= 1
                if waiting[place] == 0:
                    self._points[place] = self._reckoned(self._leaning[place])
                    ready.append(place)

    def _reckoned(self, leaning: _Leaning) -> Point:
        points = [point for place in leaning.on if (point := self._points[place]) is not None]
        return Point(
            sum(point.east for point in points) / len(points) + leaning.east,
            sum(point.north for point in points) / len(points) + leaning.north,
        )

    def _unsettled(self, place: int) -> tuple[int, ...]:
        leaning = self._leaning.get(place)
        return () if leaning is None else tuple(on for on in leaning.on if self._points[on] is None)

    def _rings(self) -> Iterator[list[int]]:
        """Rings among the unsettled, each once: a walk that never goes over the same ground again."""
        done: set[int] = set()
        for start in self._leaning:
            if start in done or self._points[start] is not None:
                continue
            trail, on_trail = [start], {start: 0}
            branches = [iter(self._unsettled(start))]
            while branches:
                following = next(branches[-1], None)
                if following is None:
                    branches.pop()
                    left = trail.pop()
                    del on_trail[left]
                    done.add(left)
                elif following in on_trail:
                    yield trail[on_trail[following] :]
                elif following not in done:
                    on_trail[following] = len(trail)
                    trail.append(following)
                    branches.append(iter(self._unsettled(following)))

    def _report_rings(self) -> None:
        for ring in islice(self._rings(), _MOST_RINGS):
            first = min(range(len(ring)), key=lambda at: self._standings[ring[at]].line or 0)
            ring = ring[first:] + ring[:first]
            names = [self._standings[place].id for place in ring]
            if len(names) > _MOST_NAMED:
                names[_MOST_NAMED - 1 :] = [f"... ({len(names):,} in all)"]
            self._blame(
                ring[0],
                f"places go round in a ring: {' -> '.join([*names, names[0]])}; none of them is placed.",
                "Give one of them a place of its own, such as at = [24, 18].",
            )
            self._blamed.update(ring)

    def _report_stranded(self) -> None:
        """One fault for all that have no place only because what they lean on has none.

        A climber on a host whose place was never given is no fault: nobody said where either stands.
        """
        stranded = [
            place
            for place in self._leaning
            if self._points[place] is None
            and place not in self._blamed
            and self._standings[place].at is not None
        ]
        if stranded:
            causes = {on for place in stranded for on in self._unsettled(place)}.difference(stranded)
            self._faults.append(
                Fault(
                    file=self._file,
                    line=self._standings[stranded[0]].line,
                    message=f"{self._listed(stranded)} cannot be placed: "
                    f"no place is known for {self._listed(sorted(causes))}.",
                    hint='Write where it stands, such as at = "gate" or at = [24, 18].',
                )
            )

    def _listed(self, places: Sequence[int]) -> str:
        return prose.first_of([self._standings[place].id for place in places], _MOST_NAMED)
