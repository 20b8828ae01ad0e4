"""Load of a climber on its host: its crown against the host's crown, its stem against the trunk.

Nothing published gives a figure, so the shares are guesses with reasons: a well tree can spare some light
and bear some wind on a foreign sail, a weak one little, a failing one nothing. What is told here is about
the climber and never about standing under the tree.
"""

from __future__ import annotations

import math
from typing import Literal

from leafturn.base import quantities
from leafturn.base.value import Value
from leafturn.climbers.growth import vigour_of
from leafturn.garden.model import DEAD, Plant, State
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind

Verdict = Literal[
    "bears it", "bears it, cut yearly", "fair if cut twice", "too much", "not judged", "cut out"
]  # fmt: skip
ORDER: tuple[Verdict, ...] = (
    "bears it", "bears it, cut yearly", "fair if cut twice", "too much", "not judged", "cut out",
)  # fmt: skip
VERDICTS_SAID: dict[Verdict, str] = {
    "bears it": "this host bears it",
    "bears it, cut yearly": "this host bears it, cut yearly",
    "fair if cut twice": "this host bears it, cut twice a year",
    "too much": "too heavy for this host",
    "not judged": "whether this host bears it is not judged",
    "cut out": "cut out, whatever its host bears",
}
CUT_IF_BORNE: dict[Verdict, str] = {
    "bears it": "",
    "bears it, cut yearly": ", cut yearly",
    "fair if cut twice": ", cut twice a year",
}  # how a plant that could be its host wants it cut

# Share of the host's crown that a climber may cover, by the host's state. Guesses.
ALLOWED: dict[State, float] = {
    "well": 0.4, "weak": 0.2, "declining": 0.05, "dead standing": 0.01, "gone": 0.01,
}  # fmt: skip
VIGOUR = {"weak": 0.5, "middling": 0.75, "strong": 1.0, "rampant": 1.25}  # guess
UNCUT = 0.5  # guess: each season without a cut adds half of a climber's crown again
STEM_SHARE = 0.1  # guess: a climber's stem section may be a tenth of a well trunk's
FAIR, TWICE = 1.0, 2.0  # guess: beyond its share a host bears it with two cuts a year, then not at all
CM_A_YEAR, MOST_STEM_CM = 0.5, 8.0  # guess: how thick a woody climber's stem grows
TRUNK_CM_PER_M = 2.0  # guess: trunk by height, where it was not measured
TWINER_TRUNK_CM = 10.0  # no woody twiner on a thinner stem: a figure of practice, reasons but no source
SOFT_TRUNK_CM = 2.0  # guess: for climbers that die down each winter and grow weakly, such as groundnut
TRUNK_CM = {"weak": 5.0, "middling": 10.0, "strong": 25.0, "rampant": 25.0}  # guess, kinds without their own


class Bearer(Value):
    """A host as the load meets it: its crown radius [m], trunk [cm], height [m] and state."""

    name: str
    crown_m: float
    trunk_cm: float
    height_m: float
    state: State
    trunk_measured: bool = True


class Load(Value):
    """What a climber asks of a host.

    `cover` and `stem` are shares of what the host may bear (1: all of it); the worse decides. `strangles`
    marks a woody twiner round a stem thinner than 10 cm, `thin` a trunk below what the kind wants.
    `because` is the sentence of what weighs most.
    """

    verdict: Verdict
    cover: float
    stem: float
    strangles: bool
    thin: bool
    because: str
    says: tuple[str, ...]


def is_soft(kind: Kind) -> bool:
    """Whether a climber dies down each winter."""
    return kind.has("herbaceous climber")


def wanted_trunk_cm(kind: Kind) -> float:
    """The least trunk [cm] that may carry a kind."""
    vigour = vigour_of(kind)
    if is_soft(kind) and vigour in ("weak", "middling"):
        return SOFT_TRUNK_CM
    return value_of(kind.vine.host_trunk_cm, TRUNK_CM[vigour])


def load_of(climber: Plant, kind: Kind, host: Bearer, year: int, uncut: int = 0) -> Load:
    """Weigh a climber against a host.

    Parameters
    ----------
    climber : Plant
    kind : Kind
        The climber's.
    host : Bearer
    year : int
        The season, for the climber's age.
    uncut : int
        Whole seasons it has not been cut.
    """
    age = climber.age(year)
    vigour = VIGOUR[vigour_of(kind)]
    grown = 1.0 if age is None else 1.0 - math.exp(-0.3 * max(age, 0.0))
    radius = climber.crown_m or kind.size.grown_radius * grown
    allowed = ALLOWED[host.state]
    own, hosts = math.pi * radius**2 * vigour * (1 + UNCUT * uncut), math.pi * max(host.crown_m, 0.1) ** 2
    cover = own / hosts / allowed
    stem_cm = climber.trunk_cm or (0.5 if is_soft(kind) else min(CM_A_YEAR * (age or 4.0), MOST_STEM_CM))
    stem = (stem_cm / max(host.trunk_cm, 0.5)) ** 2 / (STEM_SHARE * allowed / ALLOWED["well"])
    wanted = wanted_trunk_cm(kind)
    thin = host.trunk_cm < wanted
    strangles = _twines(kind) and host.trunk_cm < TWINER_TRUNK_CM
    by_stem = 0.0 if is_soft(kind) else stem
    verdict = _verdict(max(cover, by_stem), thin, strangles, kind, host)
    covered = (
        f"Its leaves {_covering(own / hosts, host.name)}; "
        f"a host that is {_state_words(host.state)} may bear {allowed * 100:.0f} of 100 parts (a guess)."
    )
    stems = () if is_soft(kind) else (_stem_words(climber, stem_cm, host, allowed),)
    trunk = _trunk_words(host, wanted, thin, strangles)
    because = trunk if strangles else " ".join(stems) if by_stem > cover else covered
    return Load(
        verdict=verdict,
        cover=cover,
        stem=stem,
        strangles=strangles,
        thin=thin,
        because=because,
        says=(covered, *stems, trunk),
    )


def _stem_words(climber: Plant, stem_cm: float, host: Bearer, allowed: float) -> str:
    """Stem against trunk, which may decide as the crown does."""
    guessed = "" if climber.trunk_cm else " (a guess from its age)"
    share = (stem_cm / max(host.trunk_cm, 0.5)) ** 2
    may = STEM_SHARE * allowed / ALLOWED["well"] * 100
    return (
        f"Its stem, {quantities.centimetres(stem_cm)} across{guessed}, is {_hundredths(share)} of the "
        "trunk's section; "
        f"{may:.2g} may be (a guess)."
    )


def _covering(share: float, host: str) -> str:
    """How much of its host's crown a climber covers; of more than all of it how many times over."""
    if share > 1:
        return f"would cover {host}'s crown {share:.1f} times over"
    return f"cover {_hundredths(share)} of {host}'s crown"


def _hundredths(share: float) -> str:
    return f"about {share * 100:.0f} of 100 parts" if share >= 0.01 else "under 1 of 100 parts"


def _twines(kind: Kind) -> bool:
    holds = kind.vine.holds_by
    return holds is not None and holds.value == "twining" and not is_soft(kind)


def _verdict(share: float, thin: bool, strangles: bool, kind: Kind, host: Bearer) -> Verdict:
    if host.state in DEAD or share > TWICE or strangles:
        return "too much"
    if share > FAIR or thin:
        return "fair if cut twice"
    return "bears it" if is_soft(kind) else "bears it, cut yearly"


def _state_words(state: State) -> str:
    return {"well": "well", "weak": "weak", "declining": "declining"}.get(state, "dead")


def _trunk_words(host: Bearer, wanted: float, thin: bool, strangles: bool) -> str:
    measured = "" if host.trunk_measured else ", a guess from its height"
    trunk = f"{host.name}'s trunk is {quantities.centimetres(host.trunk_cm)} across{measured}"
    if strangles:
        return f"{trunk}: a woody twiner strangles a stem under {quantities.centimetres(TWINER_TRUNK_CM)}."
    if thin:
        return f"{trunk}, under the {quantities.centimetres(wanted)} this climber wants."
    return f"{trunk}; {quantities.centimetres(wanted)} is wanted."
