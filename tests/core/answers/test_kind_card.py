"""A kind's own page."""

from __future__ import annotations

import pytest

from leafturn.answers.kind_card import kind_card
from leafturn.base import quantities
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.pruning import pruning_lines
from leafturn.kinds.shared_facts import conflicts_of
from leafturn.season.chill import CHILL_HOUR_WARMEST
from leafturn.season.heat_count import BASE_C


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def test_every_kinds_card_gives_a_source_for_every_fact(library: Library) -> None:
    for name in library.kinds:
        card = kind_card(library, name)
        assert (card.kind.name, card.said, card.choices, card.kind.guessed) == (name, "", (), False)
        lines = [*card.facts, *card.crosses, *card.rootstocks]
        lines += [line for cultivar in card.cultivars for line in cultivar.facts]
        lines += [line for conflict in card.conflicts for line in conflict.readings]
        for line in lines:
            assert line.source, f"{name}: {line.what}"
            assert line.sure in ("sure", "fair", "guess"), f"{name}: {line.what}"
            assert line.value, f"{name}: {line.what}"
        assert card.stages, name


@pytest.mark.parametrize("units", ["metric", "us"])
def test_heat_and_cold_are_told_of_the_bases_that_are_counted_with(
    library: Library, units: quantities.Units
) -> None:
    with quantities.speaking(units):
        told = {line.what for name in ("apple", "grape") for line in kind_card(library, name).facts}
        chilled = f"winter chill, hours at or below {quantities.celsius(CHILL_HOUR_WARMEST)}"
        warmed = f"degree-days {quantities.celsius_unit()} above {quantities.bare_celsius(BASE_C, 0)}"
    assert {chilled, f"heat to leaf-out, {warmed}"} <= told


def test_a_card_says_what_is_not_known(library: Library) -> None:
    # The library holds no word on juglone for the service tree, and no table of bud kill for the goumi.
    assert "juglone" in kind_card(library, "service tree").not_known
    assert "temperatures that kill its flowers" in kind_card(library, "goumi").not_known
    assert "juglone" not in kind_card(library, "apple").not_known


def test_an_ambiguous_name_gives_the_choices(library: Library) -> None:
    assert kind_card(library, "walnut").choices == ("persian walnut", "black walnut", "heartnut", "butternut")


def test_a_strangers_card_is_a_guess_and_warns(library: Library) -> None:
    card = kind_card(library, "moon thistle")
    assert card.kind.guessed
    assert all(line.sure == "guess" for line in card.facts)
    assert "poisonous" in card.cautions[0].value


def test_published_sums_keep_their_base_start_and_method(library: Library) -> None:
    # Ohio State University, page 1452 (read): Cornelian cherry, first bloom 40 above 50 F from 1 January.
    lines = {line.what: line.value for line in kind_card(library, "cornelian cherry").facts}
    assert lines["first bloom"] == "40 degree-days F above 50 F, from 1 January, clipped average"
    apple = {line.what: line.value for line in kind_card(library, "apple").facts}
    assert apple["winter rest of Delicious"] == "1208 to 1234 chill units, from autumn, hourly"
    assert apple["codling moth: first flight, Washington"].startswith("175 degree-days F above 50 F")


def test_crosses_show_on_both_sides(library: Library) -> None:
    ours = [line.what for line in kind_card(library, "persian walnut").crosses]
    theirs = [line.what for line in kind_card(library, "heartnut").crosses]
    assert "set with pollen of heartnut and butternut, share" in ours
    assert "set with pollen of persian walnut, share" in theirs


# The conflicts that must be shown, each on the card of a kind it concerns.
@pytest.mark.parametrize(
    ("kind", "about"),
    [
        ("forsythia", "degree-days under one name"),
        ("forsythia", "first bloom of forsythia"),
        ("peach", "chill hours"),
        ("black locust", "full bloom of black locust"),
        ("apple", "green tip of apple"),
        ("sea buckthorn", "males of sea buckthorn"),
        ("apple", "how near an apple partner must be"),
        ("sweet cherry", "what bears juglone"),
        ("grey alder", "light through crowns"),
        ("red maple", "shade borne by red maple"),
        ("peach", "base of the oriental fruit moth"),
        ("hazel", "alleles of Felix hazel"),
    ],
)
def test_conflicts_are_shown_with_both_readings(library: Library, kind: str, about: str) -> None:
    conflict = next(c for c in kind_card(library, kind).conflicts if c.about == about)
    assert len(conflict.readings) >= 2
    assert conflict.taken


def test_conflicts_and_classes_name_kinds_that_exist(library: Library) -> None:
    for about, conflict in library.conflicts.items():
        assert set(conflict.kinds) <= set(library.kinds), about
        assert any(about in dict(conflicts_of(kind, library)) for kind in library.kinds.values()), about
    for name, cut in library.pruning.items():
        assert set(cut.kinds) <= set(library.kinds), name
    for name, pest in library.pests.items():
        assert set(pest.hosts) <= set(library.kinds), name
        assert "safe" not in pest.scout.value.lower()


def test_every_woody_kind_says_when_it_is_cut_and_why(library: Library) -> None:
    for kind in library.kinds.values():
        if kind.habit in ("tree", "shrub", "climber", "cane"):
            said = {what.split(" where ")[0].split(" unless ")[0] for what, _ in pruning_lines(kind, library)}
            assert {"cut", "because"} <= said, kind.name


def test_a_card_tells_the_windows_that_jobs_go_by(library: Library) -> None:
    lines = {line.what: line.value for line in kind_card(library, "grape").facts}
    assert lines["because"].endswith("the sap that runs from late cuts does the vine no harm.")
    winter = next(v.value for w, v in pruning_lines(library.kinds["grape"], library) if w == "cut")
    assert winter.startswith(
        "from the later of 10 Dec (south 10 Jun) and 2 weeks after leaf fall, "
        "best by 4 weeks before leaf out, until leaf out. "
    )
    peach = [line.what for line in kind_card(library, "peach").facts]
    assert "cut where winters are mild and summers are warm" in peach
    assert "cut unless winters are mild and summers are warm" in peach


def test_a_cultivar_may_be_cut_otherwise(library: Library) -> None:
    raspberry = library.kinds["raspberry"]
    heritage = raspberry.cultivars["Heritage"]
    assert any("All canes to the ground" in f.value for _, f in pruning_lines(raspberry, library, heritage))
    assert not any("All canes" in f.value for _, f in pruning_lines(raspberry, library))


def test_what_a_relative_lends_says_from_whom(library: Library) -> None:
    lines = {line.what: line for line in kind_card(library, "damson").facts}
    assert lines["10 and 90 % killed at full bloom, C"].at == "lent by european plum"
    lent = [line for line in kind_card(library, "european plum").facts if line.at.startswith("lent by")]
    assert not lent


def test_only_climbers_that_lists_name_are_cut_out_and_a_daffodil_asks_for_nothing(library: Library) -> None:
    told = {name for name in library.kinds if "cut out" in kind_card(library, name).work}
    assert told == {
        "ivy", "wisteria", "virginia creeper", "japanese honeysuckle", "oriental bittersweet", "kudzu",
        "traveller's joy",
    }  # fmt: skip
    assert kind_card(library, "daffodil").work == ()
