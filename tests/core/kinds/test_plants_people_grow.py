"""Plants that gardens of hedge, orchard and kitchen grow have entries of their own, and lend from nobody.

The list is of common plants by hand, no source.
"""

from __future__ import annotations

import pytest

from leafturn.kinds.library import Library, load_library

GROWN = {
    "kitchen": "rosemary, french tarragon, winter savory, hyssop, angelica, perennial kale, turkish rocket, "
    "oca, yacon, crosne, camas, salad burnet, bay, sage, thyme, lovage",
    "fruit": "goji, feijoa, olive, loquat, lemon, orange, mandarin, kumquat, carob, thimbleberry, bilberry, "
    "barberry, strawberry tree, Elaeagnus x ebbingei, japanese apricot, fox grape, kousa dogwood",
    "nuts and spice": "szechuan pepper, yellowhorn, hybrid hazel, bitternut hickory, mockernut hickory",
    "trees and hedges": "italian alder, gorse, holly, larch, norway spruce, flowering cherry, azalea, "
    "camellia, eastern hemlock, western hemlock, flowering dogwood, pacific dogwood, Amelanchier lamarckii, "
    "Amelanchier arborea, Amelanchier canadensis, Amelanchier x grandiflora, crimson clover",
    "known for their warning": "laburnum, privet, spindle, tansy, yew, monkshood, mezereon, cherry laurel",
}


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


@pytest.mark.parametrize("group", GROWN)
def test_plants_that_gardens_grow_have_an_entry_of_their_own(library: Library, group: str) -> None:
    for name in GROWN[group].split(", "):
        match = library.match(name)
        assert match.exact, match.sentence
        assert not match.kind.guessed, name


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("pignut", ("pignut hickory", "earthnut")),
        ("hemlock", ("eastern hemlock", "western hemlock", "poison hemlock")),
        ("laurel", ("bay", "cherry laurel")),
    ],
)
def test_a_name_that_may_mean_a_poison_is_asked_about(
    library: Library, name: str, meant: tuple[str, ...]
) -> None:
    assert library.match(name).choices == meant
