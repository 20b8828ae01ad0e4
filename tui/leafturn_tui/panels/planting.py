"""Asking for one plant: kind or cultivar by any part of a name, rootstock, year, place."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, NamedTuple

from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.garden.editing.garden_text import free_id
from leafturn.garden.editing.typed import place_keys, value_typed
from leafturn.garden.model import Garden
from leafturn.garden.reading.planted import far_ahead
from leafturn.kinds.library import Library
from leafturn.kinds.search import FoundKind, KindSearch
from leafturn_tui.host import Asker, Offer
from leafturn_tui.notes import NotUnderstood, plainly
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.find import LETTERS
from leafturn_tui.panels.line import Typing
from leafturn_tui.text.layout import Column, Piece, Row, columns, paragraph, piece

NOT_KNOWN = "not known"
PLACED = {"at", "at_ft"}  # keys of which one says where a plant stands
_ROUGHLY = pattern(r"^(?:about|around|roughly|circa|ca?\.?|~)\s*(?=\d)", re.IGNORECASE)
SEEK = 'Any part of a name will do: "com" finds Comice, "pyrus" finds pears.'


class Ground(NamedTuple):
    """What is known before a plant is asked for.

    Parameters
    ----------
    library : Library
    garden : Garden
        What stands there already.
    year : str
        The year of the plant before, offered again.
    beside : str
        What a way such as "5n" begins at.
    now : int, optional
        The year of asking.
    """

    library: Library
    garden: Garden
    year: str = ""
    beside: str = "gate"
    now: int | None = None


@functools.lru_cache(maxsize=1)
def search_of(library: Library) -> KindSearch:
    """The names of a library, gathered once."""
    return KindSearch(library)


class Seeking(Panel):
    """Letters narrow what is offered, Enter takes what is under the bar; other words are taken as they are.

    Parameters
    ----------
    title : str
    find : callable
        What letters find: what it stands for and its cells.
    take : callable
        Called with what was chosen, with the words typed where nothing has these letters, or with "" for what
        is not known.
    strange : str
        What is said of words that nothing has; empty if nothing typed may be skipped.
    may_skip : bool
        Whether it may be left not known; where it may not, nothing is offered before letters are typed.
    said : str
        What else stands below.
    enough : callable, optional
        What Enter does without letters.
    """

    label = LETTERS
    enter = "go on"

    def __init__(
        self,
        title: str,
        find: Callable[[str], Sequence[tuple[Any, Sequence[Piece]]]],
        take: Callable[[Any], None],
        strange: str,
        *,
        may_skip: bool = True,
        said: str = "",
        enough: Callable[[], None] | None = None,
    ) -> None:
        self.title = title
        self._find = functools.lru_cache(maxsize=16)(find)  # offers and told ask for the same
        self._take = take
        self._strange = strange
        self._may_skip = may_skip
        self._said = said
        self._enough = enough

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        """What the letters find, behind the way on without an answer."""
        found = list(self._find(typed)) if typed.strip() or self._may_skip else []
        if self._may_skip and not typed.strip():
            blank = [piece("")] * (len(found[0][1]) - 1 if found else 0)
            found.insert(0, ("", [piece(NOT_KNOWN, "quiet"), *blank]))
        shape = [Column(30, 12), *(Column(36, 8) for _ in found[0][1][1:])] if found else []
        laid = columns([cells for _, cells in found], shape, width)
        return [
            Offer(pieces, partial(self._take, meant)) for (meant, _), pieces in zip(found, laid, strict=True)
        ]

    def below(self, typed: str, width: int) -> list[Row]:
        """What becomes of words that nothing has."""
        said = self._strange if typed.strip() and not self._find(typed) else self._said
        return paragraph(said, width, indent=3) if said else []

    def take(self, typed: str) -> None:
        """Words that nothing has, as they are."""
        if not typed.strip() and self._enough is not None:
            self._enough()
            return
        if not typed.strip():
            raise NotUnderstood("some letters first, please")
        self._take(" ".join(typed.split()))


class PlantQuestions:
    """Asks for a plant: kind and cultivar, rootstock, year, place.

    Parameters
    ----------
    desk : Asker
    ground : Ground
    take : callable
        Called with the keys of the plant and their values, an id among them. May raise NotUnderstood.
    """

    def __init__(self, desk: Asker, ground: Ground, take: Callable[[dict[str, Any]], None]) -> None:
        self._desk = desk
        self._ground = ground
        self._take = take

    def ask(self, said: str = SEEK, enough: Callable[[], None] | None = None) -> None:
        """Begin with the kind; `said` stands below the letters, `enough` is what Enter does without any."""
        self._desk.ask(
            Seeking(
                "Which plant? Letters of a kind or a cultivar:",
                partial(_found, search_of(self._ground.library)),
                self._kind,
                "Nothing known here has these letters. Enter takes them as a kind, whose dates are guesses.",
                may_skip=False,
                said=said,
                enough=enough,
            )
        )

    def _kind(self, meant: FoundKind | str) -> None:
        found = meant if isinstance(meant, FoundKind) else FoundKind(meant)
        fields = {"kind": found.kind, "cultivar": found.cultivar}
        known = self._ground.library.match(found.kind)
        if found.cultivar or not known.exact or not (known.kind.cultivars or known.kind.also_grown):
            self._rootstock(fields)
            return
        self._desk.ask_next(
            cultivar_panel(
                self._ground.library,
                known.kind.name,
                lambda name: self._rootstock({**fields, "cultivar": name}),
            )
        )

    def _rootstock(self, fields: dict[str, Any]) -> None:
        library = self._ground.library
        kind = library.match(fields["kind"]).kind.name
        if not any(kind in stock.kinds for stock in library.rootstocks):
            self._year(fields)
            return
        self._desk.ask_next(
            rootstock_panel(library, kind, lambda name: self._year({**fields, "rootstock": name}))
        )

    def _year(self, fields: dict[str, Any]) -> None:
        self._desk.ask_next(
            Typing(
                f"When was {_called(fields)} planted?",
                lambda text: self._place({**fields, "year": year_typed(text)}),
                text=self._ground.year,
                is_offer=True,
                preview=lambda text: year_understood(text, self._ground.now),
                enter="go on",
                escape="back",
            )
        )

    def _place(self, fields: dict[str, Any]) -> None:
        garden, beside = self._ground.garden, self._ground.beside

        def taken(text: str) -> None:
            at = place_understood(text, garden, beside)
            self._take({"id": free_id(garden, fields["cultivar"] or fields["kind"]), **fields, **at})

        self._desk.ask_next(place_panel(f"Where does {_called(fields)} stand?", garden, beside, taken))


def _called(fields: dict[str, Any]) -> str:
    return " ".join(word for word in (fields["kind"], fields.get("cultivar", "")) if word)


def _found(search: KindSearch, typed: str) -> list[tuple[FoundKind, list[Piece]]]:
    """Kinds and cultivars as cells: the name, of which kind, its botanical name."""
    return [
        (
            one,
            [piece(one.cultivar or one.kind), piece(one.kind if one.cultivar else ""), piece(one.botanical)],
        )
        for one in search.find(typed)
    ]


def cultivar_panel(library: Library, kind: str, take: Callable[[str], None]) -> Seeking:
    """Asks for a cultivar of a kind."""

    def find(typed: str) -> list[tuple[str, list[Piece]]]:
        found = search_of(library).find(typed, kind=kind, most=200)
        return [(one.cultivar, [piece(one.cultivar)]) for one in found]

    strange = f"No cultivar of {kind} known here has these letters. Enter takes them as its name."
    return Seeking(f"Which cultivar of {kind}?", find, take, strange)


def rootstock_panel(library: Library, kind: str, take: Callable[[str], None]) -> Seeking:
    """Asks for a rootstock of a kind."""
    stocks = [one for one in library.rootstocks if kind in one.kinds]

    def find(typed: str) -> list[tuple[str, list[Piece]]]:
        letters = typed.strip().lower()
        names = ((one.name, " ".join((one.name, *one.also_called)).lower()) for one in stocks)
        return [(name, [piece(name)]) for name, held in names if letters in held]

    strange = "No stock of this kind known here has these letters. Enter takes them as its name."
    return Seeking(f"On which rootstock does the {kind} stand?", find, take, strange)


def year_typed(text: str) -> int | None:
    """A year, also "about 2010", or None where nothing is typed; raises NotUnderstood."""
    value = value_typed("year", _ROUGHLY.sub("", text.strip()))
    if value is not None and not (isinstance(value, int) and 1000 <= value <= 2999):
        raise NotUnderstood(
            f"{clipped(text.strip())!r} is no year. Write it as 2012, or nothing if it is not known."
        )
    return value


def year_understood(text: str, now: int | None) -> str:
    """What a typed year comes to, as asked in the year `now` where that is known."""
    year = year_typed(text)
    if year is None:
        return "2012; or nothing"
    return (now and far_ahead(year, now)) or f"in {year}"


def place_understood(text: str, garden: Garden, beside: str) -> dict[str, Any]:
    """A place as key and value of the file, empty where nothing is typed; raises NotUnderstood."""
    with plainly():
        return place_keys(text, beside, garden.place)


def place_panel(
    title: str, garden: Garden, beside: str, take: Callable[[str], None], *, may_skip: bool = True
) -> Typing:
    """Asks for a place in paces and words, and shows how it is understood; `may_skip` lets it be left out."""

    def preview(text: str) -> str:
        unit = "ft" if garden.place.units == "us" else "m"
        for at in place_understood(text, garden, beside).values():
            return at if isinstance(at, str) else f"{at[0]} {unit} east and {at[1]} {unit} north of the gate"
        return (
            f'"5n" is 5 paces north of {beside}; or "8 {unit} west of NAME"; "24, 18" is 24 {unit} east '
            f"and 18 {unit} north of the gate{'; or nothing' if may_skip else ''}"
        )

    return Typing(title, take, preview=preview, enter="go on", escape="back")
