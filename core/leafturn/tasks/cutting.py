"""Rules of pruning and cutting: their dates and reasons are those of the way a plant's kind is cut here."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from leafturn.base.kept import kept
from leafturn.garden.model import Plant
from leafturn.kinds.fact import basis_of
from leafturn.kinds.library import Library
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.pruning import CutWindow, PruningWay
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel


def is_cut_so(cut: str, plant: Plant, season: SeasonModel) -> bool:
    """Whether the way a plant is pruned here has a cut of this name."""
    return cut in _cuts(season, plant.kind, plant.cultivar)


@kept
def _cuts(season: SeasonModel, kind: str, cultivar: str | None) -> frozenset[str]:
    way = season.way(kind, cultivar)
    return frozenset(window.cut for window in way.cuts.values()) if way is not None else frozenset()


def dated(rule: Rule, plants: Sequence[Plant], season: SeasonModel) -> tuple[Rule, ...]:
    """A rule with the dates of each window of its cut, in the order of the season.

    Parameters
    ----------
    rule : Rule
        One without `cut` has dates of its own and is given back.
    plants : sequence of Plant
        Those it is laid on, cut alike; the first is asked.
    season : SeasonModel

    Returns
    -------
    tuple of Rule
        At least one where `is_cut_so` holds. Several where a cut may be made at one time or another: they are
        one job, and `winter` if any of them is, so that a note of either closes it.
    """
    if rule.cut is None:
        return (rule,)
    way = season.way(plants[0].kind, plants[0].cultivar) if plants else None
    if way is None:
        return ()
    windows = [window for window in way.cuts.values() if window.cut == rule.cut]
    winter = any(window.winter for window in windows)
    library, why = season.day.library, _why(way, season.kind(plants[0]), frost_comes=season.frost_comes)
    return tuple(_with_dates(rule, window, window.why or why, library, winter=winter) for window in windows)


def _why(way: PruningWay, kind: Kind, *, frost_comes: bool) -> str:
    """Why a kind is cut so: its own reason, else that of its way, with what frost does where it comes."""
    if kind.pruning.why is not None:
        return kind.pruning.why.value
    of_frost = (way.frost_why,) if frost_comes and way.frost_why is not None else ()
    return " ".join(fact.value for fact in (way.why, *of_frost))


def _with_dates(rule: Rule, window: CutWindow, why: str, library: Library, *, winter: bool) -> Rule:
    return msgspec.structs.replace(
        rule,
        open=window.open,
        best=window.best,
        close=window.close,
        winter=winter,
        because=f"{why} {window.what}",
        if_skipped=window.if_skipped or rule.if_skipped,
        holds=(*rule.holds, *(hold for hold in window.holds if hold not in rule.holds)),
        basis=basis_of(window.sure),
        source=library.cite(Fact(window.what, window.source, window.sure)),
    )
