"""Small words."""

from __future__ import annotations

from leafturn.partners.words import metres_words, years_words


def test_small_words():
    assert (metres_words(0.6), metres_words(38.3)) == ("0.6 m", "38 m")
    assert (years_words(1.0), years_words(2.9)) == ("1 year", "2 years")
