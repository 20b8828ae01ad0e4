"""Finding kinds, cultivars and rootstocks by the names people use."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.kinds.library import Library, load_library
from leafturn.kinds.names import nearest, normalised


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("pear", "pear"),
        ("PEARS", "pear"),
        ("Sea-Buckthorn", "sea buckthorn"),
        ("seabuckthorn", "sea buckthorn"),
        ("red currant", "redcurrant"),
        ("Red Currants", "redcurrant"),
        ("gooseberries", "gooseberry"),
        ("peaches", "peach"),
        ("apple trees", "apple"),
        ("grape vines", "grape"),
        ("gages", "european plum"),
        ("wild garlic", "ramsons"),
        ("tree-of-heaven", "tree of heaven"),
        ("Malus domestica", "apple"),
        ("Malus × domestica", "apple"),
        ("malus pumila", "apple"),
        ("Prunus insititia", "damson"),
        ("Corylus avellana 'Barcelona'", "hazel"),
        ("Asimina", "pawpaw"),
        ("small leaved linden", "small-leaved lime"),
        ("Hops", "hop"),
        ("mume", "japanese apricot"),
        ("Ume", "japanese apricot"),
        ("yoshino cherry", "flowering cherry"),
        ("cherry blossoms", "flowering cherry"),
        ("Prunus × yedoensis", "flowering cherry"),
        ("Korean rosebay", "azalea"),
        ("azaleas", "azalea"),
        ("Camellia japonica", "camellia"),
    ],
)
def test_names_are_read_whatever_their_case_number_or_hyphens(
    library: Library, written: str, kind: str
) -> None:
    match = library.match(written)
    assert (match.kind.name, match.exact, match.sentence) == (kind, True, "")


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("peer", "pear"),
        ("hazzel", "hazel"),
        ("rasberry", "raspberry"),
        ("goosberry", "gooseberry"),
        ("medler", "medlar"),
        ("Actinidia argutta", "hardy kiwi"),
        ("loveage", "lovage"),
    ],
)
def test_a_slip_of_the_pen_is_read_and_said(library: Library, written: str, kind: str) -> None:
    match = library.match(written)
    assert match.kind.name == kind
    assert not match.exact
    assert match.sentence == f'"{written}" was read as {kind}.'


@pytest.mark.parametrize(
    "stranger",
    ["tomato", "rosewood", "hackberry", "snowberry", "carrot", "kale", "rambutan", "raspwort"],
)
def test_another_plant_is_not_taken_for_a_slip(library: Library, stranger: str) -> None:
    match = library.match(stranger)
    assert match.kind.guessed
    assert match.kind.name == stranger


def test_a_shared_name_gives_the_choices_and_says_which_was_taken(library: Library) -> None:
    match = library.match("Walnuts")
    assert match.choices == ("persian walnut", "black walnut", "heartnut", "butternut")
    assert match.kind.name == "persian walnut"
    assert not match.exact
    assert match.sentence == (
        '"Walnuts" may mean persian walnut, black walnut, heartnut or butternut; persian walnut was taken. '
        "Which is it?"
    )
    assert library.match("Quercus").choices[0] in library.kinds


def test_a_relative_without_an_entry_borrows_and_says_so(library: Library) -> None:
    match = library.match("river birch")
    assert (match.kind.name, match.exact) == ("silver birch", False)
    assert "no entry of its own" in match.sentence


def test_a_tree_word_is_left_away_only_where_it_fits(library: Library) -> None:
    assert library.match("fig tree").kind.name == "fig"
    assert library.match("strawberry tree").kind.name == "strawberry tree"
    assert library.match("rhubarb tree").kind.guessed


def test_a_stranger_is_a_guess_throughout(library: Library) -> None:
    match = library.match("serpent gourd vine")
    assert match.kind.guessed
    assert match.kind.habit == "climber"
    assert not match.exact
    assert "Write its English or botanical name." in match.sentence
    assert "whether it is a tree, a shrub, a climber or a herb, and when it first blooms." in match.sentence
    sections = (match.kind.bloom, match.kind.age, match.kind.size, match.kind.leaf, match.kind.vine)
    facts = [getattr(section, field) for section in sections for field in section.__struct_fields__]
    assert {fact.sure for fact in facts if fact is not None} <= {"guess"}
    assert match.kind.bloom.first_open_heat is not None
    assert match.kind.bloom.first_open_heat.sure == "guess"
    assert "poisonous" in match.kind.cautions[0].value


def test_a_strangers_genus_or_last_word_tells_its_family(library: Library) -> None:
    assert library.match("Juglans hindsii").kind.family == "Juglandaceae"
    assert library.match("cherry laurel plum").kind.family == "Rosaceae"
    assert library.match("plum yew").kind.family == "Taxaceae"


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=60))
def test_any_text_at_all_gives_some_kind(name: str) -> None:
    match = load_library()[0].match(name)
    assert match.kind.bloom is not None
    assert match.exact or match.sentence


def test_every_name_in_the_library_leads_back_to_its_kind(library: Library) -> None:
    for kind in library.kinds.values():
        for name in (kind.name, *kind.common, kind.botanical, *kind.synonyms):
            match = library.match(name)
            assert (match.kind.name, match.exact) == (kind.name, True), name
        for name in kind.serves_for:
            assert library.match(name).kind.name == kind.name, name


@pytest.mark.parametrize(
    ("kind", "written", "cultivar"),
    [
        ("pear", "Williams", "Bartlett"), ("pear", "williams bon chretien", "Bartlett"),
        ("pear", "Bartlett pear", "Bartlett"), ("pear", "Barlett", "Bartlett"),
        ("pear", "Beurre Bosc", "Bosc"), ("pear", "Doyenné du Comice", "Comice"),
        ("apple", "belle de boskoop", "Boskoop"), ("apple", "Bramley", "Bramley's Seedling"),
        ("apple", "Cox", "Cox's Orange Pippin"), ("hazel", "halls giant", "Hall's Giant"),
        ("european plum", "Reine-Claude Verte", "Reine Claude"), ("sweet cherry", "Royal Ann", "Napoleon"),
    ],
)  # fmt: skip
def test_cultivars_are_found_loosely(library: Library, kind: str, written: str, cultivar: str) -> None:
    found = library.cultivar(library.kinds[kind], written)
    assert found is not None
    assert found[0] == cultivar


def test_a_word_that_many_cultivars_hold_finds_none(library: Library) -> None:
    assert library.cultivar(library.kinds["apple"], "Golden") is None
    assert library.cultivar(library.kinds["apple"], "apple") is None
    assert library.cultivar(library.kinds["pear"], "") is None


def test_a_sport_is_its_parents_clone(library: Library) -> None:
    pear, apple = library.kinds["pear"], library.kinds["apple"]
    assert library.clone(pear, "Red Williams") == library.clone(pear, "Bartlett") == "Bartlett"
    assert library.clone(apple, "Royal Gala") == "Gala"
    assert library.clone(pear, "Comice") != library.clone(pear, "Bosc")


def test_two_spellings_of_an_unknown_cultivar_are_one_clone(library: Library) -> None:
    pear = library.kinds["pear"]
    assert library.clone(pear, "Aunt Héloïse's") == library.clone(pear, "aunt heloises")


def test_rootstocks_depend_on_what_is_grafted(library: Library) -> None:
    def stock(name: str, kind: str) -> str | None:
        found = library.rootstock(name, library.kinds[kind])
        return found.name if found else None

    assert stock("MM 106", "apple") == "MM106"
    assert stock("mm-111", "apple") == "MM111"
    assert stock("Quince A", "pear") == stock("quince", "pear") == "quince A"
    assert stock("seedling", "pear") == "pear seedling"
    assert stock("seedling", "apple") == "apple seedling"
    assert stock("St. Julien A", "european plum") == "St Julien A"
    assert stock("no such stock", "pear") is None
    assert library.rootstock("seedling") is not None


def test_folding_keeps_letters_and_drops_the_rest() -> None:
    assert normalised("  Beurré d'Anjou (red) ") == "beurre danjou red"
    assert normalised("Großer × Ä") == "grosser a"
    assert nearest("pear", ["pear"]) == "pear"
    assert nearest("ash", ["oak", "asp"]) is None
