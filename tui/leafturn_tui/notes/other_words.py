"""Other ways of saying a note, put as the grammar reads it: "picked 4 kg of quince", "gale last night"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from leafturn.base.closed_words import FRUIT_SETS, JUDGEMENTS
from leafturn.base.patterns import pattern
from leafturn.garden.model import Garden
from leafturn_tui.notes.names import MOST_WORDS_OF_A_NAME, is_kind_here, is_name
from leafturn_tui.notes.quantities import is_temperature, is_weight

STORM = ("gale", "gales", "storm", "storms")
STRONG_WIND = (("strong", "high", "heavy"), ("wind", "winds", *STORM))
PICKED = ("picked", "harvested", "harvest")
OUT_OF = ("of", "off", "from")
IN_FLOWER = ("flower", "flowering", "bloom", "blooming")
THIS_NIGHT = (["last", "night"], ["this", "morning"])
SET_AS = {"well": "good", "badly": "poor", "poorly": "poor", "nothing": "none", "no fruit": "none"}
_SET = pattern(rf"(?:has )?set ({'|'.join((*FRUIT_SETS, *SET_AS))})\b(.*)", re.IGNORECASE | re.DOTALL)
RAIN_UNITS = ("mm", "cm", "in", "inch", "inches")
# Words that tell of a plant what a note of another kind would count: the first word of such a note.
_COUNTED_AS = {
    **dict.fromkeys(("died", "dead", "killed"), "loss"),
    **dict.fromkeys(("broke", "broken", "snapped"), "damage"),
    **dict.fromkeys(PICKED, "harvest"),
    **dict.fromkeys((*IN_FLOWER, "bloomed", "flowered", "blossom", "blossoming", "opened"), "bloom"),
    **dict.fromkeys(("pruned", "mulched", "turned", "thinned", "weeded", "tied", "netted", "fed"), "done"),
}  # fmt: skip


def as_written(words: Sequence[str], garden: Garden) -> list[str]:
    """The words in the order and with the first word that a note is written with, or as they are.

    Parameters
    ----------
    words : sequence of str
        What was typed, with a name of several words at its beginning joined to one.
    garden : Garden
        Whose plants may be named.
    """
    plain = [word.lower().strip(",;:") for word in words]
    if plain[:1] in _each(STORM) or (
        plain[:1] in _each(STRONG_WIND[0]) and plain[1:2] in _each(STRONG_WIND[1])
    ):
        return ["wind,", *words]
    if _is_number(plain[:1]) and plain[1:2] in _each(RAIN_UNITS) and plain[-1] == "rain" and len(plain) < 5:
        return ["rain", *words[:2]]
    if plain[:1] == ["it"] and plain[1:2] == ["rained"]:
        words, plain = words[1:], plain[1:]
    if plain[:1] == ["rained"] and _is_number(plain[1:2]):
        return ["rain", *words[1:]]
    below = " ".join(plain).replace("minus ", "-")
    if below[:1] in ("-", "−") and is_temperature(below):
        return ["frost", below]
    if plain[:1] == ["frost"] and plain[1:3] in THIS_NIGHT:
        return ["frost", *words[3:]]
    if (picked := _picked(words, plain, garden)) is not None:
        return ["harvest", picked.plant, *picked.amount]
    if len(words) > 1 and is_name(words[0], garden):
        return _of_plant(words, plain)
    return list(words)


def counted_as(text: str, garden: Garden) -> str | None:
    """How a note begins that would count what plain words tell of a plant; None where nothing would."""
    words = text.replace(",", " ").split()
    if not any(is_name(name, garden) for name in _runs(words)):
        return None
    return next((_COUNTED_AS[word] for word in map(str.lower, words) if word in _COUNTED_AS), None)


class _Picked(NamedTuple):
    plant: str
    amount: Sequence[str]


def _picked(words: Sequence[str], plain: Sequence[str], garden: Garden) -> _Picked | None:
    """The plant and the amount of "picked quince 4 kg", "4 kg of quince" and "quince picked 4 kg"."""
    if plain[1:2] in _each(PICKED) and is_name(words[0], garden):
        return _of_amount(words[0], words[2:])
    if len(words) > 1 and is_weight(" ".join(words[1:])) and is_name(words[0], garden):
        return _Picked(words[0], words[1:])
    if any(is_weight(" ".join(words[:count])) for count in (1, 2)):
        words, plain = ["picked", *words], ["picked", *plain]
    if plain[:1] not in _each(PICKED[:2]) or len(words) < 2:
        return None
    if is_name(words[1], garden):
        return _of_amount(words[1], words[2:])
    for count in range(min(MOST_WORDS_OF_A_NAME, len(words) - 1), 0, -1):
        if is_name(name := " ".join(words[-count:]), garden):
            return _of_amount(name, _amount_alone(words[1:-count], garden))
    return None


def _amount_alone(words: Sequence[str], garden: Garden) -> Sequence[str]:
    """An amount without the "of" or "off" that leads on to its plant: "3 kg of plums off" is 3 kg."""
    for count in (1, 2):
        what = " ".join(word for word in words[count:] if word.lower() not in OUT_OF)
        if is_weight(" ".join(words[:count])) and (not what or is_kind_here(what, garden)):
            return words[:count]
    return words[:-1] if words[-1:] and words[-1].lower() in OUT_OF else words


def _runs(words: Sequence[str]) -> Iterator[str]:
    """All that may be a name: so many words that follow each other."""
    for first in range(len(words)):
        for last in range(first + 1, min(len(words), first + MOST_WORDS_OF_A_NAME) + 1):
            yield " ".join(words[first:last])


def _of_amount(plant: str, amount: Sequence[str]) -> _Picked | None:
    return _Picked(plant, amount) if not amount or amount[0][0].isdigit() else None


def _of_plant(words: Sequence[str], plain: Sequence[str]) -> list[str]:
    """What is said of a plant named first: "quince set good", "quince crown 60%", "quince in full bloom"."""
    name, (second, *rest) = words[0], plain[1:]
    if fruit := _SET.fullmatch(" ".join(words[1:])):
        how, more = fruit[1].lower(), fruit[2].split()
        return ["set", name, SET_AS.get(how, how), *more]
    if (second == "judged" and rest[:1] in _each(JUDGEMENTS)) or (second == "crown" and _is_number(rest)):
        return [second, name, *words[2:]]
    seen = [word for word in plain[1:] if word not in ("is", "was", "in", "now")]
    if len(seen) < len(plain) - 1 or seen[0] in IN_FLOWER:
        if seen == ["full", "bloom"]:
            return [name, *seen]
        if len(seen) == 1 and seen[0] in IN_FLOWER:
            return [name, "bloom"]
    return list(words)


def _is_number(words: Sequence[str]) -> bool:
    return bool(words) and words[0][:1].isdigit()


def _each(words: Sequence[str]) -> list[list[str]]:
    return [[word] for word in words]
