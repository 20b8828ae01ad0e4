"""Places worked out by way of one another."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.garden.model import Point
from leafturn.garden.reading.positions import place_all
from leafturn.garden.reading.stated_places import Placed, StatedPlace


def placed(*stated_places: StatedPlace, **more: object) -> Placed:
    """Where these stand."""
    return place_all(stated_places, file="garden.toml", **more)  # type: ignore[arg-type]


def points(*stated_places: StatedPlace) -> dict[str, Point | None]:
    """Points by id, all of them without a fault."""
    found = placed(*stated_places)
    assert found.faults == ()
    return {stated_place.id: point for stated_place, point in zip(stated_places, found.points, strict=True)}


ASH = StatedPlace(id="toll-ash", name="Old Ash", at=(24, 18))


def test_eight_metres_west_of_the_ash() -> None:
    assert points(ASH, StatedPlace(id="oak", at="8 m west of toll-ash"))["oak"] == Point(16.0, 18.0)


def test_a_place_may_name_a_cultivar_that_stands_here_once() -> None:
    """Who wrote no ids calls a tree by what it is; of two of one cultivar none is meant."""
    comice = StatedPlace(id="pear", cultivar="Comice", at=(0, 0))
    by_it = StatedPlace(id="pear-2", cultivar="Williams", at="8 m east of comice")
    assert points(comice, by_it)["pear-2"] == Point(8.0, 0.0)
    found = placed(comice, StatedPlace(id="pear-3", cultivar="comice", at=(3, 3)), by_it)
    assert found.points[2] is None
    assert "no plant 'comice'" in found.faults[0].message
    assert "pear" in found.faults[0].hint
    assert "pear-3" in found.faults[0].hint


def test_a_place_may_name_a_kind_of_which_one_stands_here() -> None:
    """A plant with a name has its id from it, and is called by its kind all the same."""
    feijoa = StatedPlace(id="aunt-rose-s", name="Aunt Rose's", kind="feijoa", at=(0, 0))
    by_it = StatedPlace(id="apple", kind="apple", at="8 m east of the feijoa")
    assert points(feijoa, by_it)["apple"] == Point(8.0, 0.0)
    found = placed(feijoa, StatedPlace(id="feijoa-2", kind="Feijoa", at=(3, 3)), by_it)
    assert found.points[2] is None
    assert "aunt-rose-s" in found.faults[0].hint


def test_ten_feet_west_of_the_gate() -> None:
    found = points(StatedPlace(id="oak", at="10 ft west of gate"))["oak"]
    assert found is not None
    assert round(found.east, 2) == -3.05
    assert found.north == 0.0


@pytest.mark.parametrize("name", ["toll-ash", "Toll Ash", "the toll-ash", "Old Ash", "old ash", "OLD-ASH"])
def test_an_id_or_a_name_in_any_spelling(name: str) -> None:
    assert points(ASH, StatedPlace(id="oak", at=f"by {name}"))["oak"] == Point(24, 18)


def test_an_id_counts_before_a_name() -> None:
    found = points(
        StatedPlace(id="a", name="b", at=(1, 1)),
        StatedPlace(id="b", at=(2, 2)),
        StatedPlace(id="c", at="by b"),
    )
    assert found["c"] == Point(2, 2)


def test_between_two() -> None:
    salt = StatedPlace(id="salt and pepper", at=(0, 8))
    found = points(ASH, salt, StatedPlace(id="c", at="between salt and pepper and Old Ash"))
    assert found["c"] == Point(12.0, 13.0)


def test_a_climber_takes_its_hosts_place_and_a_post_is_only_words() -> None:
    kiwi = StatedPlace(id="kiwi", host="Old Ash")
    hop = StatedPlace(id="hop", host="post trellis")
    led_off = StatedPlace(id="vine", host="toll-ash", at="1 m east of toll-ash")
    found = placed(kiwi, ASH, hop, led_off)
    assert found.points == (Point(24, 18), Point(24, 18), None, Point(25, 18))
    assert found.hosts == ("toll-ash", None, None, "toll-ash")
    assert found.faults == ()


def test_the_datum_by_its_own_name() -> None:
    found = placed(StatedPlace(id="a", at="5 m east of the North Post"), datum="north post")
    assert found.points == (Point(5.0, 0.0),)


def test_unknown_name() -> None:
    (fault,) = placed(ASH, StatedPlace(id="oak", at="8 m west of tol-ash", line=41)).faults
    assert fault.sentence().startswith("garden.toml, line 41: no plant 'tol-ash'. Did you mean toll-ash?")


def test_misspelt_host() -> None:
    (fault,) = placed(ASH, StatedPlace(id="hop", host="tol-ash", line=7)).faults
    assert (fault.line, "Did you mean toll-ash?" in fault.hint) == (7, True)


def test_ring_is_named_and_the_rest_is_placed() -> None:
    a = StatedPlace(id="a", at="1 m north of b", line=3)
    b = StatedPlace(id="b", at="1 m north of a", line=9)
    found = placed(b, a, ASH, StatedPlace(id="oak", at="8 m west of toll-ash"))
    (fault,) = found.faults
    assert "a -> b -> a" in fault.message
    assert fault.line == 3
    assert found.points == (None, None, Point(24, 18), Point(16, 18))


def test_what_stands_by_itself() -> None:
    for alone in (StatedPlace(id="a", at="1 m north of a"), StatedPlace(id="a", host="a")):
        (fault,) = placed(alone).faults
        assert "a -> a;" in fault.message


def test_what_leans_on_something_unplaced_is_said_once() -> None:
    found = placed(
        StatedPlace(id="bare"),
        StatedPlace(id="a", at="1 m n of bare", line=5),
        StatedPlace(id="b", at="1 m n of a", line=6),
        StatedPlace(id="climber", host="bare"),
    )
    (fault,) = found.faults
    assert fault.line == 5
    assert "a and b cannot be placed" in fault.message
    assert "bare" in fault.message
    assert found.points == (None,) * 4


def test_helpers_lean_on_plants_but_not_plants_on_helpers() -> None:
    helper = StatedPlace(id="pair", at="2 m east of toll-ash", anchor=False)
    found = placed(ASH, helper, StatedPlace(id="oak", at="by pair"))
    assert found.points == (Point(24, 18), Point(26, 18), None)
    assert len(found.faults) == 1


def chain(length: int, seed: int) -> list[StatedPlace]:
    """A chain of plants, each a metre east of the one before, in a shuffled order."""
    stated_places = [StatedPlace(id="p0", at=(0, 0))]
    stated_places += [
        StatedPlace(id=f"p{number}", at=f"1 m east of p{number - 1}") for number in range(1, length)
    ]
    random.Random(seed).shuffle(stated_places)
    return stated_places


def test_a_chain_of_five_thousand_in_any_order() -> None:
    found = points(*chain(5_000, seed=1))
    assert all(found[f"p{number}"] == Point(float(number), 0.0) for number in range(5_000))


def test_a_ring_of_five_thousand_is_one_fault_of_readable_length() -> None:
    stated_places = [
        StatedPlace(id=f"p{number}", at=f"1 m east of p{(number + 1) % 5_000}") for number in range(5_000)
    ]
    (fault,) = placed(*stated_places).faults
    assert "p0 -> p1" in fault.message
    assert "5,000 in all" in fault.message
    assert len(fault.message) < 200


def test_thousands_of_rings_and_unknown_names_end() -> None:
    """Bounds on work: a quadratic walk, or 3,000 searches for the nearest of 3,000 words, takes minutes."""
    tangled = [
        StatedPlace(id=f"p{number}", at=f"between p{(number + 1) % 3_000} and p0") for number in range(3_000)
    ]
    assert 1 <= len(placed(*tangled).faults) <= 25
    lost = [StatedPlace(id=f"p{number}", at=f"1 m n of xp{number}") for number in range(3_000)]
    assert len(placed(*lost).faults) == 3_000


STEPS = st.lists(
    st.tuples(
        st.floats(0, 50).map(lambda metres: round(metres, 2)),
        st.sampled_from(["m", "ft", "paces"]),
        st.sampled_from(["north", "SSE", "west-northwest", "sw", "east"]),
        st.integers(0, 30),
        st.booleans(),
    ),
    max_size=12,
)


def tree(steps: list[tuple[float, str, str, int, bool]], root: tuple[float, float]) -> list[StatedPlace]:
    """Plants each placed by way of an earlier one, or between two earlier ones."""
    stated_places = [StatedPlace(id="p0", at=root)]
    for number, (metres, unit, way, choice, middle) in enumerate(steps, start=1):
        other = f"p{choice % number}"
        at = f"between {other} and p{number - 1}" if middle else f"{metres} {unit} {way} of {other}"
        stated_places.append(StatedPlace(id=f"p{number}", at=at))
    return stated_places


@settings(max_examples=50)
@given(STEPS, st.randoms(use_true_random=False))
def test_order_in_the_file_makes_no_difference(steps: list, shuffler: random.Random) -> None:  # type: ignore[type-arg]
    stated_places = tree(steps, (3.0, -2.0))
    expected = points(*stated_places)
    shuffler.shuffle(stated_places)
    assert points(*stated_places) == expected


@settings(max_examples=50)
@given(STEPS, st.floats(-500, 500), st.floats(-500, 500))
def test_moving_the_root_moves_everything(steps: list, east: float, north: float) -> None:  # type: ignore[type-arg]
    before, after = points(*tree(steps, (0.0, 0.0))), points(*tree(steps, (east, north)))
    for name, point in before.items():
        moved = after[name]
        assert point is not None
        assert moved is not None
        assert (moved.east - point.east, moved.north - point.north) == pytest.approx((east, north), abs=1e-9)


@pytest.mark.parametrize("name", ["weir path", "the Weir Path", "the path"])
def test_a_path_has_no_one_place_and_it_is_said_what_to_write(name: str) -> None:
    found = placed(StatedPlace(id="oak", at=f"2 m west of {name}"), ways=["weir path"])
    assert found.points == (None,)
    assert "A path has no one place to begin at" in found.faults[0].hint
    assert "at = [24, 18]" in found.faults[0].hint
