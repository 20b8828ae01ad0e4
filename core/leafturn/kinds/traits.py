"""The words a kind may be marked with, for rules of tending to choose by."""

from __future__ import annotations

TRAITS: dict[str, str] = {
    # what sort of crop or plant it is
    "pome": "apples, pears and their kin: pruned while dormant",
    "stone fruit": "plums, cherries, peaches and their kin",
    "nut": "grown for nuts or acorns",
    "soft fruit bush": "bush grown for its berries",
    "cane fruit": "fruits on canes that die after bearing",
    "woody climber": "climber with lasting wood",
    "herbaceous climber": "climber that dies to the ground each winter",
    "conifer": "never cut into bare old wood",
    "shade lover": "plant of the woodland floor; scorches in full light",
    "bee plant": "worth its place for nectar or pollen alone",
    # what it does for its neighbours
    "nitrogen fixer": "feeds nitrogen through its root nodules",
    "chop and drop": "cut for mulch, several times a year",
    # how it is tended
    "thins well": "fruitlets are worth thinning",
    "biennial bearing": "tends to a heavy and a light year in turn",
    "renewal pruned": "oldest stems are taken out at the base each winter",
    "old wood flowering shrub": "flowers on last year's wood: cut soon after bloom",
    "new wood flowering": "flowers on this year's wood: cut in late winter",
    "coppices": "sprouts again from the stool",
    "suckers": "spreads by root shoots",
    "cut down in autumn": "top growth is cleared once it has died back",
    "divided every few years": "kept young by dividing the clump",
    "winter protection": "flowers or wood suffer in a hard winter",
    # when not to cut, what not to invite
    "bleeder": "loses sap when cut in late winter and spring",
    "silver leaf risk": "cut in dry summer weather: silver leaf and canker enter wet winter wounds",
    "oak wilt risk": "not cut in spring and early summer where oak wilt occurs",
    "fire blight risk": "not cut in warm wet weather at bloom",
    "brittle wood": "limbs break under crop, snow or wind",
    # what threatens it, and whom it threatens
    "bark gnawed": "voles, mice, rabbits or hares strip the young bark",
    "early bloomer": "usually flowers before the last frost",
    "short lived": "rarely lasts thirty years",
    "rampant climber": "can overgrow and break a small host",
    "invasive somewhere": "spreads into wild land in some regions: look up the local rules",
    "poisonous": "parts of it, or all of it, are poisonous",
    "poisonous look-alikes": "is picked, and poisonous plants are mistaken for it",
    "irritant": "sap, hairs or thorns hurt the skin",
}
"""Every trait, with what it says. Common practice throughout, no single source."""
