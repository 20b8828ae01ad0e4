"""Finding kinds and cultivars by parts of their names."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.kinds.library import load_library
from leafturn.kinds.names import normalised
from leafturn.kinds.search import FoundKind, KindSearch


@cache
def search() -> KindSearch:
    return KindSearch(load_library()[0])


@pytest.mark.parametrize(
    ("typed", "kind", "cultivar"),
    [
        ("pear", "pear", ""),
        ("comice", "pear", "Comice"),
        ("omic", "pear", "Comice"),
        ("comice pear", "pear", "Comice"),
        ("pyrus comm", "pear", ""),
        ("Sea-Buck", "sea buckthorn", ""),
        ("chestnut marig", "sweet chestnut", "Marigoule"),
        ("filbert", "hazel", ""),
    ],
)
def test_the_first_that_is_found_is_the_one_meant(typed: str, kind: str, cultivar: str) -> None:
    first = search().find(typed)[0]
    assert (first.kind, first.cultivar) == (kind, cultivar)


@pytest.mark.parametrize(
    ("typed", "before", "after"),
    [
        ("pear", "asian pear", "pepino"),
        ("apple", "crab apple", "pineapple"),
        ("cherry", "flowering cherry", "cherimoya"),
        ("rose", "climbing rose", "rosemary"),
    ],
)
def test_a_whole_word_of_a_name_goes_before_other_names_and_parts_of_words(
    typed: str, before: str, after: str
) -> None:
    """Pear melon is another name of pepino: who types pear means what is called a pear."""
    found = [one.kind for one in search().find(typed, most=1000) if not one.cultivar]
    assert before in found
    assert after not in found or found.index(before) < found.index(after)


def test_a_name_of_several_kinds_finds_them_all() -> None:
    kinds = [found.kind for found in search().find("walnut") if not found.cultivar]
    assert {"persian walnut", "black walnut", "heartnut", "butternut"} <= set(kinds)
    assert kinds[0] == load_library()[0].shared_names["walnut"][0], "the one meant most often"


def test_nothing_typed_gives_kinds_and_one_kind_its_cultivars() -> None:
    assert not any(found.cultivar for found in search().find("", most=1000))
    assert len(search().find("", most=1000)) == len(load_library()[0].kinds)
    assert {found.kind for found in search().find("", kind="pear")} == {"pear"}
    assert search().find("com", kind="pear")[0].cultivar == "Comice"


@settings(deadline=None)  # the first reads the library
@given(st.text(max_size=20))
def test_whatever_is_typed_every_word_of_it_stands_in_a_name_or_is_a_slip_of_one(typed: str) -> None:
    library = load_library()[0]
    if (slip := library.misspelt(typed)) and search().find(typed) == [
        FoundKind(slip.name, "", slip.botanical)
    ]:
        return
    for found in search().find(typed, most=5):
        kind = library.kinds[found.kind]
        cultivar = kind.cultivars.get(found.cultivar)
        names = [kind.name, *kind.common, kind.botanical, *kind.synonyms, *kind.serves_for, found.cultivar]
        names += [name for name, kinds in library.shared_names.items() if found.kind in kinds]
        names += kind.also_grown.get(found.cultivar, ()) if cultivar is None else cultivar.also_called
        assert all(any(word in normalised(name) for name in names) for word in normalised(typed).split())


def test_found_kinds_are_told_apart() -> None:
    assert FoundKind("pear") != FoundKind("pear", "Comice")
    assert len(set(search().find("a", most=10_000))) == len(search().find("a", most=10_000))


def test_where_no_name_has_the_letters_a_slip_of_the_pen_finds_its_kind() -> None:
    assert [one.kind for one in search().find("blak curant")] == ["blackcurrant"]
    assert [one.kind for one in search().find("sea bukthorn")] == ["sea buckthorn"]
    assert search().find("xylophone") == []
    assert search().find("blak curant", kind="pear") == []
