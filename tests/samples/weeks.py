"""Weeks drawn at random: jobs of every state, with places, groups, cautions and helpers."""

from __future__ import annotations

import random

from msgspec.structs import replace

from leafturn.garden.model import Helper
from leafturn.papers.week_sheet import Occasion
from leafturn.tasks.model import Job, Member
from leafturn.tasks.week.model import Round
from tests.samples.papers import job, round_of

PLANTS = (
    "early-plum", "old-plum", "comice-1", "hazel-new", "kiwi-f1", "Žižkovská červená", "Γκορτσιά", "груша-2",
    "the tall pear by the lower sluice", "bay-2",
)  # fmt: skip
VERBS = ("winter prune", "mulch", "bring pollen to", "cut back to the second bud above the wire", "look at")
PLACES = (
    "by the bench",
    "",
    "11 m southeast of the heartnut",
    "third on the left from the gate, past the pond",
)
CAUSES = (
    "The ground is warm and wet.",
    "Bloom began about 18 Apr; a bee flies from 10 C on, and the next five days are colder than that.",
)
CAUTIONS = (
    "Ladder and saw: work in pairs, and stop when tired.",
    "Dead wood over people is for a qualified tree worker: nobody climbs it, and nobody works below it.",
    "Look for nests and sleeping hedgehogs, toads and slow-worms first; leave them until they have gone.",
)
HELPERS = (
    Helper(name="Brankica", hours_per_week=6),
    Helper(name="the Saturday pair", hours_per_week=4, people=2, days=("sat",)),
    Helper(name="bench helper", hours_per_week=2, can=("seated", "light")),
)
STATES = ("due", "due", "due", "late", "soon", "held", "passed")


def week(seed: int) -> tuple[Occasion, Round]:
    """The week of a seed, and what stands at the head of its sheet."""
    chance = random.Random(seed)
    helpers = HELPERS[: chance.randint(1, len(HELPERS))]
    found = [_job(chance, n, helpers) for n in range(chance.randint(0, 45))]
    occasion = Occasion(
        place=chance.choice(
            ("Weir Meadow", "", "The old orchard of the mill at the upper weir, second terrace")
        ),
        season="The season is 10 days ahead; last frost about 24 Apr (20 Apr to 7 May).",
        helpers=helpers,
    )
    rest = found[len(found) // 2 :]
    return occasion, round_of(found[: len(found) // 2], [replace(j, helpers=()) for j in rest])


def _job(chance: random.Random, n: int, helpers: tuple[Helper, ...]) -> Job:
    names = chance.sample(PLANTS, chance.choice((1, 1, 1, 3, 7)))
    members = tuple(Member(plant=name, name=name, point=None, where=chance.choice(PLACES)) for name in names)
    closes = chance.randint(1, 40)
    return job(
        f"{names[0]}-{n}",
        chance.choice(STATES),
        id=f"job-{n}:mulch:2027",
        title=f"{chance.choice(VERBS)} {', '.join(names)}",
        where=chance.choice(PLACES),
        members=members if len(members) > 1 else (),
        cause=chance.choice(CAUSES),
        amount=chance.choice(("", "two barrows of wood chips")),
        cautions=tuple(chance.sample(CAUTIONS, chance.randint(0, len(CAUTIONS)))),
        helpers=(chance.choice(helpers).name,),
        minutes=float(chance.randint(2, 120)),
        closes=closes,
        cost_of_delay=1 / closes,
    )
