"""Animals of a part of the world, by what they do in a garden; common knowledge of ranges, no source."""

from __future__ import annotations

from leafturn.base.closed_words import WorldPart
from leafturn.garden.model import Place
from leafturn.garden.regions import world_part

SLEEPERS, SLUG_EATERS, GNAWERS = "{sleepers}", "{slug eaters}", "{gnawers}"
"""Who lies in heaps and long grass, who eats slugs, and who gnaws bark in winter."""

ANIMALS: dict[WorldPart, dict[str, str]] = {
    "europe": {
        SLEEPERS: "toads, hedgehogs and slow-worms",
        SLUG_EATERS: "toads and slow-worms",
        GNAWERS: "voles and hares",
    },
    "north america": {
        SLEEPERS: "toads, snakes and turtles",
        SLUG_EATERS: "toads and snakes",
        GNAWERS: "voles and rabbits",
    },
    "australia": {
        SLEEPERS: "frogs and lizards",
        SLUG_EATERS: "frogs and lizards",
        GNAWERS: "rabbits and wallabies",
    },
    "new zealand": {
        SLEEPERS: "frogs and lizards",
        SLUG_EATERS: "frogs and lizards",
        GNAWERS: "rabbits and hares",
    },
    "south america": {
        SLEEPERS: "toads, frogs and lizards",
        SLUG_EATERS: "toads and frogs",
        GNAWERS: "hares and rabbits",
    },
    "southern africa": {
        SLEEPERS: "toads, lizards and snakes",
        SLUG_EATERS: "toads and lizards",
        GNAWERS: "hares, mice and small antelopes",
    },
    "eastern asia": {
        SLEEPERS: "toads, snakes and hedgehogs",
        SLUG_EATERS: "toads and snakes",
        GNAWERS: "voles and hares",
    },
    "southern asia": {
        SLEEPERS: "toads, lizards and snakes",
        SLUG_EATERS: "toads and frogs",
        GNAWERS: "hares, mice and porcupines",
    },
    "elsewhere": {
        SLEEPERS: "small animals",
        SLUG_EATERS: "frogs and lizards",
        GNAWERS: "mice, hares or rabbits",
    },
}


def gnawers(place: Place) -> str:
    """Who gnaws bark in winter at a place: "voles and hares"."""
    return ANIMALS[world_part(place.lat, place.lon)][GNAWERS]
