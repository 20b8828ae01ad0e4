"""What the nights of the coming days may take of buds, flowers and young fruit, plant by plant."""

from __future__ import annotations

from leafturn.base.evidence import Basis
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.tasks.season_model import SeasonModel

WEEK = 7


class FrostAhead(Value):
    """The nights after the day of asking, as one plant meets them.

    Parameters
    ----------
    plant, kind : str
        Its id, and the name of its kind.
    part : str
        What would die: "bud", "flower" or "young fruit".
    chance : float
        That one of the nights takes a tenth of them or more.
    tenth_c : float [degC]
        What kills a tenth on the first of the nights.
    tonight_c : float [degC]
        The likely minimum of that night in the garden.
    basis : Basis
        How sure the kind's critical temperatures are.
    """

    plant: str
    kind: str
    part: str
    chance: float
    tenth_c: float
    tonight_c: float
    basis: Basis


def frost_ahead(season: SeasonModel) -> tuple[FrostAhead, ...]:
    """Every plant of which one of the seven coming nights may take something, the likeliest first.

    Parameters
    ----------
    season : SeasonModel
        The season that holds the day of asking.
    """
    flowering, found = season.flowerers(season.forecasts), []
    for plant in season.day.garden.plants:
        threat = season.nights_ahead.threat(plant, WEEK) if plant.id in flowering else None
        if threat is not None and threat.chance > 0:
            found.append(
                FrostAhead(
                    plant=plant.id,
                    kind=season.kind(plant).name,
                    part=threat.limit.part,
                    chance=threat.chance,
                    tenth_c=threat.limit.tenth_c,
                    tonight_c=threat.tonight_c,
                    basis=threat.limit.basis,
                )
            )
    return tuple(sorted(found, key=lambda one: (-one.chance, name_order(one.plant))))
