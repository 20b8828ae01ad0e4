"""A tree's partners in sentences: the weakest link, the chances, what would help, and what was answered."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from leafturn.partners.decisions import Answer
    from leafturn.partners.model import RedundantDonor, Remedy, TreeReview
    from leafturn_tui.almanac_face import AlmanacFace


def review_of(almanac: AlmanacFace, plant: str) -> TreeReview | None:
    """One tree's review."""
    return next((r for r in almanac.partners() if r.plant == plant), None)


def alone_words(review: TreeReview) -> str:
    """A tree that needs no partner: "goumi", or of one too young "peach (flowers about 2029)"."""
    if not review.too_young or review.first_flowers is None:
        return review.plant
    return f"{review.plant} (flowers about {review.first_flowers[1]})"


def answer_words(answer: Answer) -> str:
    """An answer in a few words."""
    if answer.way in ("content", "wait"):
        return answer.said
    return f"fix chosen: {answer.said}"


def answer_sentence(answer: Answer, on: dt.date) -> str:
    """The same with the day on which it is asked again."""
    return f"{prose.capital(answer_words(answer))}; asked again {phrases.day(answer.until, on)}."


def spare_words(redundant: Sequence[RedundantDonor]) -> Iterator[str]:
    """A sentence a kind: which plants kept for their pollen could go, and how many of them have to stay."""
    for kind in dict.fromkeys(donor.kind for donor in redundant):
        spare = [donor for donor in redundant if donor.kind == kind]
        names = ", ".join(donor.plant for donor in spare)
        said = f"{names} ({kind}): no tree would miss it"
        stay = [donor.plant for donor in spare if donor.keep]
        if len(spare) > 1 and stay:
            held = "keep one" if len(stay) == 1 else f"keep {len(stay)}"
            said += f". That holds for each alone, not for all together: {held}, such as {', '.join(stay)}"
        yield f"{said}."


def sentences(review: TreeReview, on: dt.date) -> list[str]:
    """A review in sentences, the weakest link first."""
    said = list(review.reasons) or [review.weakest]
    chance, spread = phrases.chance(review.adequacy), phrases.chance_range(review.low, review.high)
    doubt = f"; it may be {spread}" if spread != chance else ""
    said.append(f"Enough pollen: {chance}{doubt}.")
    if later := _changes(review, on.year):
        said.append(f"If nothing is done: {', '.join(later)}.")
    if review.frost_loss_chance is not None:
        said.append(
            "That frost takes a tenth of the flowers or more this spring: "
            f"{prose.of_ten(review.frost_loss_chance)}."
        )
    if review.crop is not None:
        said.append(
            "A worthwhile crop this year, pollen, frost and flying weather taken together: "
            f"{prose.of_ten(review.crop)}."
        )
    return said + [remedy_words(remedy, on) for remedy in review.remedies]


def _changes(review: TreeReview, year: int) -> list[str]:
    """The years in which the chance comes to be said in other words; of many three."""
    said, before = [], phrases.chance(review.adequacy)
    for later, share in review.by_year:
        now = phrases.chance(share)
        if later > year and now != before:
            said.append(f"{now} from {later}")
            before = now
    return said if len(said) <= 3 else [said[0], said[len(said) // 2], said[-1]]


def remedy_words(remedy: Remedy, on: dt.date) -> str:
    """What would help, when it works, the chance then, and what it takes."""
    takes = "" if remedy.way == "wait" else "It takes "
    effort = f" {prose.capital(f'{takes}{remedy.effort}')}." if remedy.effort else ""
    then = phrases.works_words(remedy.year, remedy.adequacy, on)
    guess = " (a guess)" if remedy.guess else ""
    return f"{prose.capital(remedy.what)}: {then}{guess}.{effort}"
