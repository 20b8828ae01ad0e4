"""Text takes the room there is: whole clauses, in full while all find room, names as long as they are."""

from __future__ import annotations

from leafturn_tui.text.layout import Row, as_there_is_room, in_lines, name_cells, question_row, row

POISON = "All parts are poisonous, the bulbs above all; they are mistaken for onions and leaves for ramsons"


def test_what_finds_no_room_is_left_out_by_clauses() -> None:
    assert in_lines(POISON, 60, 1) == ["All parts are poisonous, the bulbs above all"]
    assert in_lines(POISON, 60, 2) == [
        "All parts are poisonous, the bulbs above all; they are",
        "mistaken for onions and leaves for ramsons",
    ]


def test_a_list_of_names_is_not_shortened_as_if_it_ended_there() -> None:
    """More lines are taken; where those do not do the last says that there is more."""
    names = "on no list: comfrey-nut, buckthorn-f1, buckthorn-m, buckthorn-f2"
    assert in_lines(names, 40, 1) == ["on no list: comfrey-nut, buckthorn-f1,", "buckthorn-m, buckthorn-f2"]
    assert in_lines(names, 22, 1)[-1].endswith("…")


def test_the_first_are_told_in_full_while_all_find_room() -> None:
    def make(full: int) -> list[Row]:
        return [row("a") for n in range(5) for _ in range(2 if n < full else 1)]

    assert [len(as_there_is_room(make, 5, room)) for room in (4, 5, 7, 9, 10, 12)] == [5, 5, 7, 9, 10, 10]


def test_names_are_not_cut_while_they_leave_three_quarters_to_the_rest() -> None:
    assert name_cells(["bay"], 80) == 15
    assert name_cells(["found-ailanthus"], 80) == 16
    assert name_cells(["gooseberry-by-the-lower-gate"], 80) == 20


def test_the_sum_keeps_as_many_parts_as_find_room() -> None:
    parts = ("1 over people", "15 roots", "5 bark")
    assert question_row("What could hurt?", parts, 60).text.endswith("1 over people; 15 roots; 5 bark")
    assert question_row("What could hurt?", parts, 46).text.endswith("  1 over people; 15 roots")
    assert question_row("What could hurt?", parts, 25).text.strip() == "What could hurt?"
