"""What a job demands of hands: as its rule says, and as height, state and ground of its plants say."""

from __future__ import annotations

from collections.abc import Iterable

from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject

NEVER_ALONE = "two people"
LICENSED = "licensed"
STANDING = "standing"
SLOPE = "slope"
IN_PAIRS = frozenset({"ladder", "saw"})  # nobody uses them alone: common practice, no source
UNSAID = frozenset({STANDING, SLOPE})  # what nearly everybody can: not told beside a job

REACH_M = 2.0  # so high a cut is made from the ground, without ladder or long saw: common practice, no source
SEATED_REACH_M = 1.2  # highest reach forward from a wheelchair, 48 inches (ADA Standards 2010, 308.2.1)
LEVEL_DEG = 2.9  # a walk that is no ramp rises at most 1 in 20 (ADA Standards 2010, 403.3)

_LADDER_AND_SAW = "Ladder and saw: work in pairs, and stop when tired."
_LADDER = "Ladder work: never alone, on level ground, and not under dead wood."
_SAW = "Saw: with a second person near, and stop when tired."
_FAILING_TREE = "A failing tree is for a qualified tree worker: nobody else climbs it or works under it."
_FAILING_HOST = "Nobody stands or climbs under a failing tree: work on its climbers from outside its reach."
_UNDER_FAILING = (
    "A failing tree drops limbs on still days too: look up first, and stay out from under dead or loose ones."
)


def demands_of(rule: Rule, subject: Subject, season: SeasonModel, *, own: bool) -> tuple[str, ...]:
    """All that a job demands.

    Ladder and saw want two people. What can be reached from the ground wants neither, save in jobs of one's
    own, where the steward's word holds. On a failing tree, or on the climber it bears, ladder and saw want a
    licence. Work on what stands higher than seated hands reach wants somebody standing.

    Parameters
    ----------
    own : bool
        Whether the steward wrote the job and what it demands.
    """
    found = list(rule.demands)
    heights = [season.here.reach(plant) for plant in subject.plants]
    failing = any(season.here.is_failing(plant) for plant in subject.plants)
    if heights and not own and not failing and all(h is not None and h <= REACH_M for h in heights):
        found = [demand for demand in found if demand not in IN_PAIRS]
    if IN_PAIRS.intersection(found):
        found += [NEVER_ALONE, *([LICENSED] if failing else [])]
    too_high = any(h is None or h > SEATED_REACH_M for h in heights) and rule.look is None
    if too_high or {"lift", *IN_PAIRS}.intersection(found):
        found.append(STANDING)
    if season.day.garden.place.slope_deg > LEVEL_DEG:
        found.append(SLOPE)
    return tuple(dict.fromkeys(found))


def is_under_failing(subject: Subject, season: SeasonModel) -> bool:
    """Whether a job is done at a failing tree that is higher than one reaches."""
    heights = [season.here.reach(plant) for plant in subject.plants if season.here.is_failing(plant)]
    return any(height is None or height > REACH_M for height in heights)


def cautions_of(
    rule: Rule,
    demands: Iterable[str],
    *,
    frost_ahead: bool,
    failing_host: bool = False,
    under_failing: bool = False,
) -> tuple[str, ...]:
    """The cautions of a rule, after the usual ones of what the job demands.

    Parameters
    ----------
    failing_host : bool
        Whether it is work on a climber whose host is failing.
    under_failing : bool
        Whether hands work at a failing tree, be it without ladder and saw (`is_under_failing`).
    frost_ahead : bool
        Whether a frost of spring may still come: cautions of frost are told only then.
    """
    wanted = set(demands)
    if LICENSED in wanted and IN_PAIRS & wanted:
        usual = [_FAILING_TREE]
    elif failing_host and rule.look is None:
        usual = [_FAILING_HOST]
    elif under_failing and rule.look is None and not rule.away:
        usual = [_UNDER_FAILING]
    elif wanted >= IN_PAIRS:
        usual = [_LADDER_AND_SAW]
    else:
        usual = [said for tool, said in (("ladder", _LADDER), ("saw", _SAW)) if tool in wanted]
    of_frost = rule.frost_cautions if frost_ahead else ()
    return tuple(dict.fromkeys([*usual, *rule.cautions, *of_frost]))


def worth_saying(demands: Iterable[str]) -> tuple[str, ...]:
    """Those demands that are worth telling."""
    return tuple(demand for demand in demands if demand not in UNSAID)
