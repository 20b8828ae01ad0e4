"""Plants that gardens of hedge, orchard and kitchen grow have entries of their own, and lend from nobody.

The list is of common plants by hand, no source.
"""

from __future__ import annotations

import pytest

from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Cultivar

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


CULTIVARS = {
    "apple": "Holstein, Jakob Fischer, Bohnapfel, Brettacher, Kaiser Wilhelm, Jupiter, Roxbury Russet, "
    "Alkmene, Pinova, Santana, Florina, Gloster, Fiesta, Katy, Sunset, Charles Ross, Haralson, Zestar, "
    "Macoun, Rome, Newtown, Spitzenburg, Dabinett, Kingston Black",
    "pear": "Onward, Alexander Lucas, Gute Graue, Beth, Moonglow, Kieffer",
    "apricot": "Goldcot, Tilton, Moongold, Sungold",
    "sweet cherry": "Kristin, Coral Champagne, Early Rivers",
    "sour cherry": "Carmine Jewel, Romeo",
    "european plum": "Cacanska Lepotica, Elena, Mount Royal",
    "japanese plum": "Superior, Alderman",
    "peach": "Contender, Avalon Pride",
    "hazel": "PollyO, Zeta, Tonda Romana",
    "persian walnut": "Howard",
    "pecan": "Wichita, Mohawk, Kanza",
    "rabbiteye blueberry": "Tifblue, Climax, Premier",
    "raspberry": "Caroline, Joan J, Heritage",
    "blackberry": "Natchez",
    "garden strawberry": "Albion, Earliglow",
}


@pytest.mark.parametrize("kind", CULTIVARS)
def test_cultivars_that_gardens_grow_are_known_with_facts_of_their_own(library: Library, kind: str) -> None:
    for name in CULTIVARS[kind].split(", "):
        found = library.cultivar(library.kinds[kind], name)
        assert found is not None, name
        assert found[1] != Cultivar(), name


@pytest.mark.parametrize(
    "name",
    ["Holstein", "Jakob Fischer", "Bohnapfel", "Brettacher", "Kaiser Wilhelm", "Jupiter", "Roxbury Russet"],
)
def test_apples_of_three_sets_of_chromosomes_give_no_pollen(library: Library, name: str) -> None:
    # Triploid in the fruit lists of Germany, England and New England (recalled).
    found = library.cultivar(library.kinds["apple"], name)
    assert found is not None
    ploidy, pollen = found[1].ploidy, found[1].good_pollen
    assert ploidy is not None
    assert pollen is not None
    assert (ploidy.value, pollen.value) == (3, False)
