"""Reading whole notes as people type them."""

from __future__ import annotations

import datetime as dt

import msgspec
import pytest
from fake_garden import GARDEN, ON

from leafturn.garden.model import Garden, Place, Plant
from leafturn_tui.notes import NotUnderstood, grammar


def test_whole_notes() -> None:
    bloom = grammar.understand(["bloom", "early-plum"], GARDEN, ON)
    # 61, 65, 69: first flowers open, full flowering, end of flowering (BBCH scale, Meier 2018).
    assert (bloom.what, bloom.plant, bloom.stage, bloom.bbch) == ("bloom", "early-plum", "first open", 61)
    assert grammar.understand(["bloom", "quince", "full"], GARDEN, ON).bbch == 65
    harvest = grammar.understand(["harvest", "quince", "4.5", "kg"], GARDEN, ON)
    assert (harvest.plant, harvest.kg, harvest.amount) == ("quince", 4.5, None)
    pounds = grammar.understand(["harvest", "quince", "10 lb"], GARDEN, ON)
    assert (pounds.kg, pounds.amount) == (pytest.approx(4.536), "10 lb")
    reading = grammar.understand(["reading", "bay-2", "58"], GARDEN, ON)
    assert (reading.heap, reading.temp_c) == ("bay-2", 58)
    about = grammar.understand(["comice-1: canker on the trunk"], GARDEN, ON)
    assert (about.what, about.plant, about.text) == ("note", "comice-1", "canker on the trunk")


def test_a_plant_is_named_by_its_cultivar_where_one_alone_is_of_it() -> None:
    pears = [
        Plant(kind="pear", id="pear", cultivar="Comice"),
        Plant(kind="pear", id="pear-2", cultivar="Beth"),
    ]
    garden = Garden(place=Place(lat=46.9, lon=15.9), plants=tuple(pears))
    assert grammar.understand(["bloom", "comice"], garden, ON).plant == "pear"
    more = (Plant(kind="pear", id="pear-3", cultivar="comice"), Plant(kind="comfrey", id="comfrey"))
    two = msgspec.structs.replace(garden, plants=(*pears, *more))
    with pytest.raises(
        NotUnderstood, match=r"no plant 'comice' here\. comice are pear and pear-3: write which\."
    ):
        grammar.understand(["bloom", "comice"], two, ON)


def test_a_plant_is_named_by_its_kind_where_one_alone_is_of_it() -> None:
    plants = (
        Plant(kind="Serviceberry", id="the-bird-tree", name="the bird tree"),
        Plant(kind="pear", id="comice"),
        Plant(kind="pear", id="beth"),
    )
    garden = Garden(place=Place(lat=44.8, lon=-85.5), plants=plants)
    assert grammar.understand(["bloom", "serviceberry"], garden, ON).plant == "the-bird-tree"
    with pytest.raises(NotUnderstood, match=r"pear are comice and beth: write which\."):
        grammar.understand(["bloom", "pear"], garden, ON)


def test_a_sentence_that_begins_like_a_note_is_kept_as_it_is() -> None:
    for text in (
        "bloom was very late this year",
        "reading the old book tonight",
        "harvest festival in the hall",
    ):
        entry = grammar.understand(text.split(), GARDEN, ON, typed=text)
        assert (entry.what, entry.text) == ("note", text)


def test_a_misspelled_plant_gets_the_nearest_name() -> None:
    with pytest.raises(NotUnderstood, match=r"no plant 'early-plam' here\. Did you mean early-plum\?"):
        grammar.understand(["bloom", "early-plam"], GARDEN, ON)
    with pytest.raises(NotUnderstood, match="nothing was written"):
        grammar.understand([], GARDEN, ON)


@pytest.mark.parametrize(
    ("typed", "percent", "signs"),
    [
        ("crown early-plum 33%", 33, None),
        ("crown early-plum 33 %", 33, None),
        ("crown early-plum 33", 33, None),
        ("crown early-plum 0%", 0, None),
        ("crown early-plum 40,5 percent", 40.5, None),
        ("crown early-plum 33% bracket fungi, bark shed", 33, "bracket fungi, bark shed"),
        ("crown early-plum 33 %, leans more", 33, "leans more"),
        ("crown early-plum 33% dead branches", 33, "dead branches"),
    ],
)
def test_looks_at_a_crown(typed: str, percent: float, signs: str | None) -> None:
    entry = grammar.understand(typed.split(), GARDEN, ON)
    assert (entry.what, entry.plant, entry.live_percent, entry.text) == (
        "crown", "early-plum", percent, signs,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("crown early-plum", "crown toll-ash 33%"),
        ("crown early-plum half", "crown toll-ash 33%"),
        ("crown early-plum 133%", "0% to 100%"),
        ("crown early-plum 40% dead", "where 40 % is dead write crown early-plum 60%"),
        ("crown early-plum 40% dead on the south side", "where 40 % is dead write crown early-plum 60%"),
        ("crown erly-plum 33%", "early-plum"),
    ],
)
def test_a_look_that_cannot_be_read_is_said(typed: str, said: str) -> None:
    with pytest.raises(NotUnderstood, match=said):
        grammar.understand(typed.split(), GARDEN, ON)


def test_a_sentence_about_a_crown_is_kept_in_its_words() -> None:
    assert grammar.understand(["crown", "thinner", "than", "last", "year"], GARDEN, ON).what == "note"


@pytest.mark.parametrize(
    ("typed", "seen", "more"),
    [
        ("set early-plum good", "good", None),
        ("set early-plum None", "none", None),
        ("set early-plum poor, frost on 5 Apr", "poor", "frost on 5 Apr"),
    ],
)
def test_how_a_plant_set(typed: str, seen: str, more: str | None) -> None:
    entry = grammar.understand(typed.split(), GARDEN, ON)
    assert (entry.what, entry.plant, entry.set, entry.text) == ("set", "early-plum", seen, more)


def test_a_set_that_cannot_be_read_is_said_and_other_settings_are_kept_in_their_words() -> None:
    with pytest.raises(NotUnderstood, match="none, poor, fair or good"):
        grammar.understand(["set", "early-plum", "lots"], GARDEN, ON)
    with pytest.raises(NotUnderstood, match="early-plum"):
        grammar.understand(["set", "erly-plum", "good"], GARDEN, ON)
    for text in ("set the gate post upright", "set three traps"):
        assert grammar.understand(text.split(), GARDEN, ON).what == "note"


@pytest.mark.parametrize(
    ("typed", "what", "cause", "more", "wind"),
    [
        ("loss early-plum voles", "loss", "voles", None, None),
        ("loss early-plum late frost, no guard", "loss", "late frost", "no guard", None),
        ("loss early-plum", "loss", None, None, None),
        ("damage quince wind", "damage", "wind", None, True),
        ("Damage quince wind, a limb broke", "damage", "wind", "a limb broke", True),
        ("damage quince deer", "damage", "deer", None, None),
    ],
)
def test_losses_and_damage(
    typed: str, what: str, cause: str | None, more: str | None, wind: bool | None
) -> None:
    entry = grammar.understand(typed.split(), GARDEN, ON)
    assert (entry.what, entry.cause, entry.text) == (what, cause, more)
    assert getattr(entry, "wind", None) is wind
    assert entry.plant == typed.split()[1]


def test_a_lost_plant_misspelt_is_asked_about_and_other_losses_are_kept_in_their_words() -> None:
    with pytest.raises(NotUnderstood, match=r"Did you mean early-plum\?"):
        grammar.understand(["loss", "erly-plum", "voles"], GARDEN, ON)
    for text in ("loss of two fence posts", "damage to the gate"):
        entry = grammar.understand(text.split(), GARDEN, ON, typed=text)
        assert (entry.what, entry.text) == ("note", text)


@pytest.mark.parametrize(
    ("typed", "celsius"),
    # 27 F is -2.78 C by definition of the two scales.
    [("frost -2.8", -2.8), ("frost 27F", -2.8), ("weather min -2.8 C", -2.8), ("weather min 1.5", 1.5)],
)
def test_a_mornings_minimum(typed: str, celsius: float) -> None:
    entry = grammar.understand(typed.split(), GARDEN, ON)
    assert (entry.what, entry.tmin_c) == ("weather", celsius)


def test_a_frost_in_words_is_kept_and_a_warm_one_is_refused() -> None:
    assert grammar.understand(["frost", "on", "the", "roof"], GARDEN, ON).what == "note"
    assert grammar.understand(["weather", "was", "mild"], GARDEN, ON).what == "note"
    with pytest.raises(NotUnderstood, match=r"is no frost; write frost -2\.8 or frost 27F"):
        grammar.understand(["frost", "27"], GARDEN, ON)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("blom comice-1", "bloom"), ("lost comice-1 to voles", "loss"), ("redding bay-2 58", "reading")],
)
def test_a_misspelt_first_word_before_a_known_name_is_asked_about(typed: str, meant: str) -> None:
    with pytest.raises(grammar.Misspelt, match=rf"Did you mean {meant}\?") as raised:
        grammar.understand(typed.split(), GARDEN, ON, typed=typed)
    assert (raised.value.entry.what, raised.value.entry.text) == ("note", typed)


def test_words_that_lie_near_no_note_or_name_no_plant_are_kept() -> None:
    for text in ("pruned comice-1", "blom of the century", "comice-1 quince"):
        assert grammar.understand(text.split(), GARDEN, ON, typed=text).text == text


@pytest.mark.parametrize(
    "typed", ["bloom Early Plum", "bloom early plum", "Early Plum bloom", "bloom early plum first open"]
)
def test_a_name_of_several_words_is_the_plant_that_it_names(typed: str) -> None:
    """Kept as plain words it would teach nothing, and nothing told so."""
    entry = grammar.understand(typed.split(), GARDEN, ON)
    assert (entry.what, entry.plant, entry.stage) == ("bloom", "early-plum", "first open")


def test_a_sentence_about_a_plant_is_no_misspelt_note() -> None:
    entry = grammar.understand(["the", "early-plum", "creaked"], GARDEN, ON)
    assert (entry.what, entry.text) == ("note", "the early-plum creaked")


def test_what_begins_like_a_note_and_is_kept_in_its_own_words_says_so() -> None:
    entry = grammar.understand(["loss", "nosuch", "voles"], GARDEN, ON)
    assert "counts as no loss, which is written as in: loss pear-2" in grammar.kept_in_words(entry, GARDEN)
    assert grammar.kept_in_words(grammar.understand(["a", "toad"], GARDEN, ON), GARDEN) == ""


def test_a_percentage_is_told_as_it_was_typed() -> None:
    with pytest.raises(NotUnderstood, match="133 % of a crown cannot live"):
        grammar.understand(["crown", "early-plum", "133%"], GARDEN, ON)


def test_a_minimum_above_its_maximum_is_refused() -> None:
    with pytest.raises(NotUnderstood, match="minimum of a day lies below its maximum"):
        grammar.understand(["weather", "min", "20", "max", "3"], GARDEN, ON)


def test_a_note_is_of_the_day_typed_behind_it() -> None:
    for typed, day in (
        ("harvest quince 4.5 kg on 12 April", (2027, 4, 12)),
        ("bloom early-plum full bloom 12 Apr 2026", (2026, 4, 12)),
        ("early-plum full bloom yesterday", (2027, 4, 18)),
        ("frost -2.8 on 2027-04-11", (2027, 4, 11)),
    ):
        entry = grammar.understand(typed.split(), GARDEN, ON, typed=typed)
        assert (entry.what == "note", (entry.on.year, entry.on.month, entry.on.day)) == (False, day)
    harvest = grammar.understand(["harvest", "quince", "300", "g", "yesterday"], GARDEN, ON)
    assert (harvest.kg, harvest.amount) == (0.3, "300 g")
    plain = grammar.understand(["mulch", "ordered,", "comes", "on", "12", "April"], GARDEN, ON)
    assert (plain.text, plain.on) == ("mulch ordered, comes on 12 April", ON)


def test_a_gale_or_a_storm_is_wind_as_people_say_it() -> None:
    """After wind old trees are looked over; who writes down a gale wants that too."""
    for said in ("gale", "gale last night", "storm, a branch on the path", "strong wind from the west"):
        entry = grammar.understand(said.split(), GARDEN, ON)
        assert (entry.what, entry.wind, entry.text) == ("weather", True, said.removesuffix(" last night"))
    for said in ("no storm came", "wind was from the west", "high time to prune"):
        assert grammar.understand(said.split(), GARDEN, ON).what == "note"


@pytest.mark.parametrize(
    "said",
    [
        "picked quince 4.5 kg", "picked 4.5 kg quince", "picked 4.5 kg of quince", "harvested quince 4.5 kg",
        "quince picked 4.5 kg", "quince harvest 4.5 kg", "Picked 4.5kg of Quince",
        "4.5 kg of quinces", "4.5kg quince", "quinces 4.5 kg", "picked 4.5 kg of the quinces",
    ],
)  # fmt: skip
def test_what_was_picked_may_be_said_in_any_order(said: str) -> None:
    entry = grammar.understand(said.split(), GARDEN, ON)
    assert (entry.what, entry.plant, entry.kg) == ("harvest", "quince", 4.5)


@pytest.mark.parametrize(
    ("said", "what", "part"),
    [
        ("quince set good", "set", ("set", "good")),
        ("quince crown 60%", "crown", ("live_percent", 60)),
        ("quince judged keep", "judged", ("plan", "keep")),
        ("quince in full bloom", "bloom", ("stage", "full bloom")),
        ("quince is in flower", "bloom", ("stage", "first open")),
        ("quince flowering", "bloom", ("stage", "first open")),
        (
            "quince in flower since sunday",
            "bloom",
            ("on", dt.date(2027, 4, 18)),
        ),
        ("quince has set badly", "set", ("set", "poor")),
        ("quince set well, more than ever", "set", ("text", "more than ever")),
        ("quince set no fruit", "set", ("set", "none")),
        ("frost last night -1", "weather", ("tmin_c", -1)),
        ("frost this morning, -1.5", "weather", ("tmin_c", -1.5)),
        ("no rain since sunday", "note", ("text", "no rain since sunday")),
        ("quince set fruit in June", "note", ("text", "quince set fruit in June")),
        ("25 mm rain", "weather", ("rain_mm", 25)),
        ("25 mm of rain", "weather", ("rain_mm", 25)),
        ("quince set back by frost", "note", ("plant", None)),
        ("quince flowering badly", "note", ("plant", None)),
        ("picked up prunings", "note", ("plant", None)),
        ("25 mm of mulch", "note", ("plant", None)),
    ],
)
def test_a_plant_may_be_named_first(said: str, what: str, part: tuple[str, object]) -> None:
    entry = grammar.understand(said.split(), GARDEN, ON)
    assert (entry.what, getattr(entry, part[0])) == (what, part[1])


def test_what_is_kept_in_words_though_it_reads_like_more_says_what_would_count() -> None:
    for said, written in (
        ("the old quince died", "loss"), ("picked all the quince", "harvest"),
        ("quince bloomed on 12 April", "bloom"), ("quince opened yesterday", "bloom"),
    ):  # fmt: skip
        entry = grammar.understand(said.split(), GARDEN, ON)
        assert f"counts as no {written}, which is written as in" in grammar.kept_in_words(entry, GARDEN)
    calm = grammar.understand(["a", "wren", "nests", "in", "the", "quince"], GARDEN, ON)
    assert grammar.kept_in_words(calm, GARDEN) == ""


@pytest.mark.parametrize("said", ["pruned the quince", "quince pruned", "quince mulched and weeded"])
def test_work_told_in_words_says_that_it_ticks_no_job(said: str) -> None:
    entry = grammar.understand(said.split(), GARDEN, ON)
    assert "ticks no job: Space on its line does" in grammar.kept_in_words(entry, GARDEN)


@pytest.mark.parametrize(
    ("said", "part", "value"),
    [
        ("-2 last night", "tmin_c", -2.0), ("-2.5 C", "tmin_c", -2.5), ("minus 3 C", "tmin_c", -3.0),
        ("it rained 12 mm", "rain_mm", 12.0), ("rained 0.5 in yesterday", "rain_mm", 12.7),
    ],
)  # fmt: skip
def test_frost_and_rain_as_people_say_them(said: str, part: str, value: float) -> None:
    entry = grammar.understand(said.split(), GARDEN, ON)
    assert (entry.what, getattr(entry, part)) == ("weather", value)


def test_a_note_is_of_the_day_typed_before_it() -> None:
    """ON is a Monday, 19 April 2027, as `cal 4 2027` has it."""
    for said, what, day in (
        ("yesterday the quince was in full bloom", "bloom", 18),
        ("last Tuesday: quince full bloom", "bloom", 13),
        ("on 12 April picked 4 kg of quince", "harvest", 12),
        ("3 days ago rain 12", "weather", 16),
    ):
        entry = grammar.understand(said.split(), GARDEN, ON, typed=said)
        assert (entry.what, entry.on.day) == (what, day), said


def test_a_sentence_kept_in_its_words_is_of_the_day_over_that_it_tells_of() -> None:
    for said, day in (
        ("the quince flowered last Tuesday and the bees came", 13),
        ("the frost 2 days ago took the plum flowers", 17),
        ("dug the ditch yesterday", 18),
        ("rain yesterday, and hail last Tuesday", 19),
        ("Saturday the ladder comes back", 19),
    ):
        entry = grammar.understand(said.split(), GARDEN, ON, typed=said)
        assert (entry.what, entry.on.day, entry.text) == ("note", day, said)
