"""Closed lists of words that more than one room knows: of kinds, gardens and rules.

Each is a type, so that a word which is none of it is found before anything runs, and where files are
checked a tuple too.
"""

from __future__ import annotations

from typing import Literal, get_args

Habit = Literal["tree", "shrub", "climber", "cane", "perennial", "bulb", "fern", "ground"]
HABITS: tuple[Habit, ...] = get_args(Habit)
LASTING_WOOD: tuple[Habit, ...] = ("tree", "shrub", "climber")  # stems that stand for many years
WOODY: tuple[Habit, ...] = (*LASTING_WOOD, "cane")

Layer = Literal["canopy", "small tree", "shrub", "climber", "herb", "ground"]
LAYERS: tuple[Layer, ...] = get_args(Layer)

Carrier = Literal["insect", "wind", "fly"]
"""What carries pollen."""
CARRIERS: tuple[Carrier, ...] = get_args(Carrier)

HoldsBy = Literal["twining", "tendrils", "hooks", "roots"]
"""What a climber holds on by."""

Sex = Literal["female", "male", "both"]

FlowerOrder = Literal["female first", "male first", "together"]
"""Which flowers of a tree open first."""
FLOWER_ORDERS: tuple[FlowerOrder, ...] = get_args(FlowerOrder)

FlowerType = Literal["A", "B"]
"""Of avocados: flowers that want pollen in the morning and shed it the next afternoon, or the other way."""

HeapStage = Literal["filling", "working", "curing", "ready", "empty"]
HEAP_STAGES: tuple[HeapStage, ...] = get_args(HeapStage)

HowOften = Literal["daily", "weekly", "seldom"]
"""How often a path is walked or a seat sat on."""

FruitSet = Literal["none", "poor", "fair", "good"]
"""How many of its flowers a plant made into fruit, as noted."""
FRUIT_SETS: tuple[FruitSet, ...] = get_args(FruitSet)

Judgement = Literal["keep", "move", "remove"]
"""What a plant can be judged to be: a plan that is settled."""
JUDGEMENTS: tuple[Judgement, ...] = get_args(Judgement)

CountsAs = Literal["cut", "water", "turn", "empty", "guard", "unguard", "look", "note"]
"""What else a job comes to once it is done: a climber's shoots cut back, roots watered, a heap turned, a bay
emptied, a guard seen to, one taken off, a tree looked over, something seen that wants a note."""
COUNTS_AS: tuple[CountsAs, ...] = get_args(CountsAs)

WorldPart = Literal[
    "europe", "north america", "south america", "australia", "new zealand", "southern africa", "eastern asia",
    "southern asia", "elsewhere",
]  # fmt: skip
"""Where pests and animals live that not every garden need look for."""

Land = Literal["chile", "japan", "british isles"]
"""Lands kept free of a pest that lives in the part of the world they lie in."""

FloraName = Literal[
    "cool Europe", "southern Europe", "north-eastern America", "south-eastern America", "western America",
    "eastern Asia",
]  # fmt: skip
"""Parts of the world by the trees at home there."""

SKILLS = ("anything", "light", "kneel", "lift", "ladder", "saw", "seated", "licensed")
"""What a helper can do, as the garden file has it."""
