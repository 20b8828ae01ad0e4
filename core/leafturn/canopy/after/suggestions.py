"""What the library would plant into an old tree's gap: by room, light, juglone and partners that lack."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leafturn.base import quantities
from leafturn.canopy.model import Suggestion
from leafturn.canopy.stand.stand import Stand
from leafturn.kinds.fact import value_of
from leafturn.kinds.juglone_reach import HIGH_AVERAGE_M
from leafturn.kinds.model import Kind
from leafturn.kinds.wild import is_at_home, threats_to

_MOST_SUGGESTIONS = 5
_OUTGROWS = 1.5  # how much higher than the old tree what fills its gap may grow; a guess


def suggestions(
    stand: Stand,
    old_tree: int,
    room: float,
    light: tuple[float, float],
    wanted: Sequence[str],
) -> tuple[Suggestion, ...]:
    """Trees the library would plant into the gap, those first of which a partner lacks.

    Nothing poisonous, nothing that grows far higher than the old tree, nothing of which most die here, and
    nothing that is not at home here unless it grows in the garden already.
    """
    at = (float(stand.east[old_tree]), float(stand.north[old_tree]))
    near_juglone = any(
        stand.juglone(n) == "producer"
        and np.hypot(stand.east[n] - at[0], stand.north[n] - at[1]) < HIGH_AVERAGE_M
        for n in range(len(stand.plants))
    )
    here = {kind.name for kind in stand.kinds}
    tall = max(float(stand.own_heights[old_tree]), stand.kinds[old_tree].size.grown_height)
    fitting = [
        kind
        for name in stand.library.kinds
        if _fits(kind := stand.library.match(name).kind, room, light[1], near_juglone)
        and stand.would_do_here(kind)
        and (kind.name in here or is_at_home(kind, stand.place))
        and not any(threats_to(kind, stand.place))
        and kind.size.grown_height <= _OUTGROWS * tall
    ]
    ranked = sorted(fitting, key=lambda k: (k.name not in wanted, _lasting(k), k.name))
    return tuple(
        Suggestion(kind=kind.name, why=_why(kind, light, wanted, here, near_juglone))
        for kind in ranked[:_MOST_SUGGESTIONS]
    )


def _fits(kind: Kind, room: float, light: float, near_juglone: bool) -> bool:
    juglone = value_of(kind.soil.juglone, None)
    return (
        kind.habit == "tree"
        and not kind.has("poisonous")
        and 0.5 * room <= kind.size.grown_radius <= 1.5 * room
        and not (near_juglone and juglone == "sensitive")
        and kind.light.need_percent is not None
        and kind.light.need_percent.value <= light
    )


def _lasting(kind: Kind) -> float:
    """Long-lived first."""
    return -value_of(kind.size.life_years, 0.0)


def _why(
    kind: Kind, light: tuple[float, float], wanted: Sequence[str], here: set[str], near_juglone: bool
) -> str:
    need = value_of(kind.light.need_percent, 0)
    high, wide = (quantities.metres(size, 0) for size in (kind.size.grown_height, kind.size.grown_radius))
    said = [f"to {high}, crown {wide}, wants {need:.0f} % light"]
    when = "now already" if light[0] >= need else "not before the gap opens"
    said.append(f"there are {light[0]:.0f} % on the ground now, {light[1]:.0f} % then: {when}")
    if kind.name in wanted:
        said.append("one of its kind here lacks a partner")
    elif kind.name in here:
        said.append("grows here already")
    if near_juglone:
        known = value_of(kind.soil.juglone, "not known")
        said.append(f"juglone within reach: {known}")
    return "; ".join(said)
