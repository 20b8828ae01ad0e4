"""The plant library: kinds, cultivars and rootstocks, found by the names people use."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from msgspec import field
from msgspec.structs import replace

from leafturn.base.closed_words import Habit
from leafturn.base.faults import Fault
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.kinds.cultivar_names import cultivar_meant, facts_of_cultivar, first_parent
from leafturn.kinds.defaults import DEFAULT_SOURCE, Defaults, fill, guess_kind
from leafturn.kinds.growing import HeatSum
from leafturn.kinds.model import Cultivar, Fact, Kind, Rootstock, Source, Sure
from leafturn.kinds.names import (
    find_loosely,
    genus_of,
    nearest,
    normalised,
    singular_forms,
    spellings,
    without_quoted,
    without_spaces,
)
from leafturn.kinds.packaged import Kinds, Names, kind_tables, packaged
from leafturn.kinds.pruning import PruningWay
from leafturn.kinds.shared_facts import Conflict, Pest, StageWords
from leafturn.kinds.word_lists import stage_lists

_NO_TEXT = ("own guess", DEFAULT_SOURCE, "common practice")  # nothing that could be read
_Crosses = tuple[tuple[str, str, float, str, Sure], ...]  # [group, group, share, source, sure]
_STOCK_NOISE = ("rootstock", "stock", "root", "roots", "on", "the")


class Match(Value):
    """What a name was taken to mean.

    Parameters
    ----------
    kind : Kind
        The kind, always; `kind.guessed` is True if the library does not know it.
    exact : bool
        False where anything was assumed; `sentence` then says what.
    choices : tuple of str
        The kinds the name may mean, if more than one; the first was taken.
    """

    kind: Kind
    exact: bool
    choices: tuple[str, ...] = ()
    sentence: str = ""


class Library(Value, eq=False):
    """All kinds by name, the sources of their facts, and the rootstocks.

    Parameters
    ----------
    kinds : mapping of str to Kind
        By the library's own name, such as "european plum".
    sources : mapping of str to Source
        By the key facts give.
    rootstocks : tuple of Rootstock
    defaults : Defaults
        What stands in for kinds that are not known.
    shared_names : mapping of str to tuple of str
        Names that several kinds share ("walnut"), the one meant most often first.
    crosses : mapping of frozenset of str to Fact of float
        Two cross groups (`PollinationFacts.cross_group`) that can fertilise one another in part, to the
        share [0 to 1] of a full set that the one's pollen gives on the other, either way. Groups that are
        not here do not cross, as far as is known.
    pruning, pests, conflicts, stages : mappings
        What is known of many kinds at once; see leafturn.kinds.shared_facts.
    """

    kinds: Mapping[str, Kind]
    sources: Mapping[str, Source]
    rootstocks: tuple[Rootstock, ...]
    defaults: Defaults
    shared_names: Mapping[str, tuple[str, ...]]
    crosses: Mapping[frozenset[str], Fact[float]] = field(default_factory=dict)
    pruning: Mapping[str, PruningWay] = field(default_factory=dict)
    pests: Mapping[str, Pest] = field(default_factory=dict)
    conflicts: Mapping[str, Conflict] = field(default_factory=dict)
    stages: StageWords = field(default_factory=dict)

    @functools.cached_property
    def _index(self) -> dict[str, tuple[str, ...]]:
        """Squashed name to the kinds it may mean; a kind's own names go before shared ones, genera last."""
        index: dict[str, tuple[str, ...]] = {}
        everyone = self._names
        for names in everyone:
            index.setdefault(without_spaces(names.name), (names.name,))
        for names in everyone:
            for name in (*names.common, names.botanical, *names.synonyms):
                index.setdefault(without_spaces(name), (names.name,))
        for name, meant in self.shared_names.items():
            index.setdefault(without_spaces(name), tuple(kind for kind in meant if kind in self.kinds))
        for name, lender in self._lenders.items():
            index.setdefault(name, (lender,))
        genera: dict[str, list[str]] = {}
        for names in everyone:
            genera.setdefault(genus_of(names.botanical), []).append(names.name)
        for genus, kinds in genera.items():
            index.setdefault(genus, tuple(kinds))
        index.pop("", None)
        return index

    @functools.cached_property
    def _lenders(self) -> dict[str, str]:
        """Squashed name of a relative without an entry to the kind that lends it its facts."""
        return {without_spaces(name): names.name for names in self._names for name in names.serves_for}

    @functools.cached_property
    def _names(self) -> tuple[Names, ...]:
        """What every kind is called."""
        if isinstance(self.kinds, Kinds):
            return tuple(self.kinds.names())
        return tuple(map(Names.of, self.kinds.values()))

    @kept
    def match(self, name: str, told: Habit | None = None) -> Match:
        """The kind a name means.

        Parameters
        ----------
        name : str
            A common or botanical name: any case, singular or plural, with or without hyphens, small
            slips of the pen allowed.
        told : str or None
            What the plant itself tells that it is, for a name nobody knows.

        Returns
        -------
        Match
            Never fails: a name nobody knows gives a kind of guesses.
        """
        for spelled, habits in spellings(name):
            names = self._index.get(spelled, ())
            if names and (habits is None or self.kinds[names[0]].habit in habits):
                return self._found(name, names, spelled)
        slip = self._slip(name)
        if slip is not None:
            found = self._found(name, self._index[slip], slip)
            said = found.sentence or f'"{name}" was read as {found.kind.name}.'
            return replace(found, exact=False, sentence=said)
        return self._guessed(name, told)

    def misspelt(self, name: str) -> Kind | None:
        """The kind of whose names this is most likely a slip of the pen; None where none is near."""
        slip = self._slip(name)
        return None if slip is None else self.kinds[self._index[slip][0]]

    def _slip(self, name: str) -> str | None:
        return nearest(without_spaces(without_quoted(name)), self._index)

    def _found(self, name: str, names: tuple[str, ...], spelled: str) -> Match:
        kind = self.kinds[names[0]]
        if self._lenders.get(spelled) == kind.name:
            sentence = (
                f'"{name}" has no entry of its own in the plant library; {kind.name} lends it its facts.'
            )
            return Match(kind=kind, exact=False, sentence=sentence)
        if len(names) == 1:
            return Match(kind=kind, exact=True)
        others = ", ".join(names[:-1]) + " or " + names[-1]
        sentence = f'"{name}" may mean {others}; {kind.name} was taken. Which is it?'
        return Match(kind=kind, exact=False, choices=names, sentence=sentence)

    def _guessed(self, name: str, told: Habit | None) -> Match:
        relative, habit = self._relative(name)
        if relative is None or told:
            kind = guess_kind(name, self.defaults, relative.family if relative else "", told or habit)
        else:
            kind = guess_kind(name, self.defaults, relative.family, relative.habit, relative.layer)
        taken = f'"{name}" is not in the plant library: it is treated as a {kind.habit}'
        written = "Write its English or botanical name. Or tell in kinds.toml beside the garden file"
        of_it = "whether it is a tree, a shrub, a climber or a herb, and when it first blooms."
        said = f"{taken}, and all its dates are guesses. {written} {of_it}"
        return Match(kind=kind, exact=False, sentence=said)

    def _relative(self, name: str) -> tuple[Kind | None, Habit]:
        """The kind a name's genus or last word points to, and the habit its words tell."""
        words = normalised(without_quoted(name)).split()
        habit: Habit = "shrub"
        for word in words:
            for form in singular_forms(word):
                habit = self.defaults.word.get(form, habit)
        for word in (*words[:1], *words[-1:]):
            for form in singular_forms(word):
                names = self._index.get(form, ())
                # The first word counts only as a genus: a plum yew is no plum.
                if names and (word == words[-1] or genus_of(self.kinds[names[0]].botanical) == form):
                    return self.kinds[names[0]], habit
        return None, habit

    def cultivar(self, kind: Kind, name: str | None) -> tuple[str, Cultivar] | None:
        """The cultivar of `kind` that a name means, with its name in the library; None if unknown or unnamed.

        "Williams", "williams bon chretien" and "Bartlett pear" all give Bartlett.
        """
        found = cultivar_meant(kind, name) if name else None
        return None if found is None else (found, facts_of_cultivar(kind, found))

    def clone(self, kind: Kind, name: str) -> str:
        """A name that two plants of `kind` share if they are one clone: sports go by their parent's.

        A cultivar the library does not know is its own clone, under its folded name.
        """
        found = self.cultivar(kind, name)
        return normalised(name) if found is None else first_parent(kind, found[0])

    def rootstock(self, name: str, kind: Kind | None = None) -> Rootstock | None:
        """The rootstock a name means, None if not known.

        With `kind`, stocks used for that kind go first: "seedling" is another stock under a pear than
        under an apple.
        """
        fitting = [stock for stock in self.rootstocks if kind is not None and kind.name in stock.kinds]
        general = [stock for stock in self.rootstocks if not stock.kinds]
        for stocks in ([*general, *fitting], [*self.rootstocks, *general]):
            names = {normalised(s): stock.name for stock in stocks for s in (*stock.also_called, stock.name)}
            found = find_loosely(name, names, _STOCK_NOISE)
            if found is not None:
                return next(stock for stock in reversed(stocks) if stock.name == found)
        return None

    def was_read(self, fact: Fact[Any] | HeatSum) -> bool:
        """Whether a fact was read where it is said to come from; False where it was recalled or guessed.

        A source in a steward's own words is taken to have been read.
        """
        source = self.sources.get(fact.source)
        return source is None or source.read

    def cite(self, fact: Fact[Any] | HeatSum) -> str:
        """Where a fact comes from, in words; says so where the text was recalled, not re-read."""
        source = self.sources.get(fact.source)
        if source is None:
            return fact.source
        by = " ".join(filter(None, (source.author, str(source.year or ""))))
        text = ", ".join(filter(None, (by, source.title, source.where)))
        return text if source.read or fact.source in _NO_TEXT else f"{text} (from memory)"


def load_library(own: Path | None = None) -> tuple[Library, tuple[Fault, ...]]:
    """The plant library, with a steward's own kinds laid over it.

    Parameters
    ----------
    own : Path or None
        A TOML file of the same shape, really in its folder; it adds kinds, or changes facts of known ones.

    Returns
    -------
    library : Library
        Every kind has bloom, leaf, age, size and light facts; what is filled in says "guess".
    faults : tuple of Fault
        What in the steward's file was not understood. The rest of that file still counts.
    """
    library = _packaged()
    if own is None:
        return library, ()
    from leafturn.kinds.own_file import read_own_file

    added, faults = read_own_file(own, kind_tables(), library.match("").kind, library.defaults)
    filled = {name: fill(kind, library.defaults) for name, kind in added.items()}
    return replace(library, kinds=Kinds(kind_tables(), library.defaults, filled)), faults


@functools.cache
def _packaged() -> Library:
    defaults = packaged("defaults", Defaults)
    return Library(
        kinds=Kinds(kind_tables(), defaults),
        sources=packaged("sources", dict[str, Source]),
        rootstocks=packaged("rootstocks", dict[str, tuple[Rootstock, ...]])["rootstock"],
        defaults=defaults,
        shared_names=packaged("shared_names", dict[str, tuple[str, ...]]),
        crosses={
            frozenset((one, other)): Fact(share, source, sure)
            for one, other, share, source, sure in packaged("crosses", dict[str, _Crosses])["crosses"]
        },
        pruning=packaged("pruning", dict[str, PruningWay]),
        pests=packaged("pests", dict[str, Pest]),
        conflicts=packaged("conflicts", dict[str, Conflict]),
        stages=stage_lists(),
    )
