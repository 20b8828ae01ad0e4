"""The order in which a steward reads the trees: first those that something can be done for this year."""

from __future__ import annotations

from collections.abc import Iterable

from leafturn.partners.model import TreeReview

HELPED = 0.15  # a help must raise the chance by this much to count as one; guess


def fixable_in(review: TreeReview, year: int) -> bool:
    """Whether some help works in a year already, and by more than a little."""
    return any(
        remedy.year <= year and remedy.adequacy - review.adequacy >= HELPED for remedy in review.remedies
    )


def comes_by_itself(review: TreeReview) -> bool:
    """Whether the tree's chance rises in the years ahead if nothing is done."""
    return any(remedy.way == "wait" for remedy in review.remedies)


def reading_order(reviews: Iterable[TreeReview], year: int) -> tuple[TreeReview, ...]:
    """Lacking and fixable this year, lacking, lacking and coming by itself, thin, served, needing none.

    Within each, in the order given.

    Parameters
    ----------
    reviews : iterable of TreeReview
    year : int
        The season's year.
    """

    def place(review: TreeReview) -> int:
        if review.standing != "lacks":
            return {"thin": 3, "served": 4, "needs none": 5}[review.standing]
        if fixable_in(review, year):
            return 0
        return 2 if comes_by_itself(review) else 1

    return tuple(sorted(reviews, key=place))
