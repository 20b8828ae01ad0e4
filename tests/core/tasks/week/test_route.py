"""The way round: never longer than the order given, and every stop once."""

from itertools import permutations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from leafturn.garden.model import Point
from leafturn.tasks.week.route import length, short_way

points = st.lists(
    st.builds(Point, st.floats(-200, 200), st.floats(-200, 200)),
    max_size=9,
)


@given(points)
@settings(max_examples=60, deadline=None)
def test_the_way_is_never_longer_than_list_order_and_visits_all(stops: list[Point]) -> None:
    order = short_way(stops)
    assert sorted(order) == list(range(len(stops)))
    assert length([stops[i] for i in order]) <= length(stops) + 1e-6


@given(st.lists(st.builds(Point, st.floats(-90, 90), st.floats(-90, 90)), min_size=1, max_size=6))
@example([Point(0, 14), Point(1, 13), Point(-28, 0), Point(-13, 0)])
@settings(max_examples=30, deadline=None)
def test_the_way_is_near_the_shortest_of_all_orders(stops: list[Point]) -> None:
    """Against trying every order (exact, by definition); few stops stay within a seventh of it."""
    best = min(length([stops[i] for i in order]) for order in permutations(range(len(stops))))
    assert length([stops[i] for i in short_way(stops)]) <= 1.15 * best + 1e-6


def test_stops_on_a_line_are_taken_in_order() -> None:
    stops = [Point(30, 0), Point(10, 0), Point(20, 0)]
    assert short_way(stops) == [1, 2, 0]
    assert length([stops[i] for i in short_way(stops)]) == 30.0
