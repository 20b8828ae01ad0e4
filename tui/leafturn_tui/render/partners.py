"""Which trees lack a partner: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.heading import first_plant
from leafturn_tui.render.parts.partner_words import alone_words, remedy_words, spare_words
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.partners.model import TreeReview
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="Who still lacks a partner?", place=30)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Which trees lack pollen, the weakest link of each, and what would help."""
    yield from first_plant(almanac)
    for review in almanac.partners():
        if review.standing == "needs none":
            continue
        guess = "; a guess" if review.guessed else ""
        yield f"{review.plant}, {review.standing}: {_chances(review)}, {review.weakest}{guess}"
        for remedy in review.remedies:
            yield f"    {remedy_words(remedy, almanac.on)}"
    alone = [alone_words(r) for r in almanac.partners() if r.standing == "needs none"]
    if alone:
        yield f"needs none: {', '.join(alone)}"
    for said in spare_words(almanac.redundant_donors()):
        yield f"kept for pollen, and not missed: {said}"


def pollen_chance(review: TreeReview) -> str:
    """The chance of enough pollen with its range: nothing twice."""
    chance, spread = phrases.chance(review.adequacy), phrases.chance_range(review.low, review.high)
    words = f"about {chance}" if review.guessed and chance[:1].isdigit() else chance
    return words if spread == chance else f"{words} ({spread})"


def _chances(review: TreeReview) -> str:
    """The same, and the chance of a crop where it differs."""
    crop = "" if review.crop is None else phrases.chance(review.crop)
    if crop in ("", phrases.chance(review.adequacy)):
        return pollen_chance(review)
    return f"{pollen_chance(review)}, a worthwhile crop {crop}"


def as_json(almanac: AlmanacFace) -> Answer:
    """Every tree's chance of enough pollen."""
    redundant = [fields(s, "plant", "kind", "most_lost", "keep") for s in almanac.redundant_donors()]
    return {"trees": [tree(r) for r in almanac.partners()], "spare": redundant}


def tree(said: TreeReview) -> Answer:
    """One tree."""
    partner = ("plant", "chance", "days_overlap", "metres", "adds", "reasons")
    remedy = ("what", "way", "year", "adequacy", "effort", "first_day", "last_day")
    return (
        fields(said, "plant", "kind", "cultivar", "needs", "adequacy", "low", "high", "standing", "weakest")
        | fields(
            said, "reasons", "computed", "set_words", "frost_loss_chance", "guessed", "flowers", "too_young"
        )
        | fields(said, crop_chance="crop")
        | {
            "partners": [fields(p, *partner) for p in said.partners],
            "fixes": [fields(f, *remedy) for f in said.remedies],
            "by_year": dict(said.by_year),
            "first_flowers": said.first_flowers
            and dict(zip(("early", "likely", "late"), said.first_flowers, strict=True)),
        }
    )
