"""Cards, and looks at failing trees: one page, nothing silently lost, gaps shown as gaps."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from rich.cells import cell_len
from tests.samples.papers import HELPERS, ON, job, likely

from leafturn.answers.plant_card import PlantCard
from leafturn.bloom.model import SeasonEvent
from leafturn.journal.entries import CrownNote, Done, Entry, LookNote
from leafturn.papers.cards import MonthOf, bloom_card, month_card, tree_card
from leafturn.papers.tree_looks import tree_looks, watched
from leafturn_tui.safe_text import safe_text

MONTH = MonthOf(place="Weir Meadow", on=ON, helpers=HELPERS)
NAMES = st.one_of(st.text(max_size=90), st.sampled_from(["\x1b[31mred", "x" * 300, "梨" * 60, "a\rb", ""]))


def event(plant: str, what: str, bbch: int | None, days: int, observed: dt.date | None = None) -> SeasonEvent:
    return SeasonEvent(
        plant=plant, event=what, bbch=bbch, when=likely(days), observed=observed, basis="handbook",
        days_from_normal=None,
    )  # fmt: skip


def flowering(plant: str, opens: int, observed: dt.date | None = None) -> list[SeasonEvent]:
    return [
        event(plant, "first open", 61, opens, observed),
        event(plant, "full bloom", 65, opens + 5),
        event(plant, "petal fall", 69, opens + 10),
    ]


SEQUENCES = ("facts", "conflicts", "events", "jobs", "notes", "cautions", "own_words")


def card(**more: object) -> PlantCard:
    given: dict[str, object] = dict.fromkeys(SEQUENCES, ()) | {
        "id": "pear", "name": "pear", "kind": "pear", "botanical": "Pyrus", "guessed": False,
        "where": "at the gate", "metres_from_gate": 0.0, "line": "pear, Comice",
    }  # fmt: skip
    return PlantCard(**(given | more))  # type: ignore[arg-type]


# ---- month ---------------------------------------------------------------------------------------


def test_a_month_card_holds_what_is_best_done_in_the_month() -> None:
    jobs = [
        job("a", best=3),
        job("b", best=20),
        job("c", "done", best=3),
        job("d", best=9, cautions=("Never alone.",)),
    ]
    text = "\n".join(month_card(MONTH, jobs, [*flowering("pear", 4), event("rhubarb", "ripe", 87, -3)]).lines)
    assert text.splitlines()[0] == "Weir Meadow: April 2027"
    assert "Opens: pear 23 Apr." in text
    assert "Ripe: rhubarb 16 Apr." in text
    assert "22 Apr  _____  mulch a" in text
    assert text.index("mulch a") < text.index("mulch d")
    assert "mulch b" not in text
    assert "mulch c" not in text
    assert "Mind: Never alone." in text


def test_leaves_are_ready_to_pick_on_the_month_card_beside_what_is_ripe() -> None:
    events = [event("plum", "ripe", 87, -3), event("rhubarb", "ready to pick", None, -3)]
    text = "\n".join(month_card(MONTH, [], events).lines)
    assert "Ripe: plum 16 Apr." in text
    assert "Ready to pick: rhubarb 16 Apr." in text


def test_a_full_month_keeps_the_weightiest_and_counts_the_rest() -> None:
    jobs = [job(f"t{n}", best=3, harm=n / 30, verb=f"mulch {n}") for n in range(90)]
    lines = month_card(MONTH, jobs, []).lines
    shown = sum("  _____  " in line for line in lines)
    assert len(lines) <= 60
    assert f"And {90 - shown} jobs of less weight." in lines
    assert any("mulch t89" in line for line in lines)
    assert not any("mulch t0," in line for line in lines)


def test_a_month_of_many_plants_tells_those_of_a_kind_together() -> None:
    pears = [f"pear-{n}" for n in range(1, 8)]
    events = [e for plant in pears for e in flowering(plant, 4)] + flowering("quince", 5)
    jobs = [job(plant, best=3) for plant in pears]
    month = replace(MONTH, several=dict.fromkeys(pears, "pear trees") | {"quince": "quince trees"})
    text = " ".join("\n".join(month_card(month, jobs, events).lines).split())
    assert "Opens: 7 pear trees 23 Apr, quince 24 Apr." in text
    assert text.count("_____") == 1
    assert "mulch: pear-1 and 6 more" in text


# ---- bloom ---------------------------------------------------------------------------------------


def test_a_bloom_card_has_gaps_for_what_is_not_noted() -> None:
    seen = ON - dt.timedelta(days=3)
    found = [
        *flowering("pear", 4),
        *flowering("plum", -3, seen),
        *flowering("quince", 60),
        *flowering("hazel", -60),
    ]
    lines = bloom_card("Weir Meadow", found, ON).lines
    text = "\n".join(lines)
    (pear,) = [line for line in lines if line.startswith("pear")]
    (plum,) = [line for line in lines if line.startswith("plum")]
    assert pear.split() == ["pear", "23", "Apr", "(20-26", "Apr)", "______", "______", "______"]
    assert plum.split()[-4:] == ["16", "Apr", "______", "______"]
    assert "BBCH 61" in text
    assert "quince" not in text  # opens after the weeks the card is for
    assert "hazel" not in text  # over


def test_more_plants_than_fit_are_named_as_later() -> None:
    found = [e for n in range(60) for e in flowering(f"plant-{n:02}", n // 3)]
    lines = bloom_card("", found, ON).lines
    assert len(lines) <= 60
    assert "And later: " in "\n".join(lines)


# ---- looks ---------------------------------------------------------------------------------------

FALLS = [("ash", "ash is declining, 21 m high: the public path passes 6 m off.")]
LOOK = LookNote(id="1", on=ON - dt.timedelta(days=30), plant="ash", text="one branch down")
OLD = CrownNote(id="2", on=ON - dt.timedelta(days=700), plant="ash", live_percent=49)


def log(*notes: Entry, jobs: tuple = ()) -> str:  # type: ignore[type-arg]
    return "\n".join(tree_looks("Weir Meadow", watched(FALLS, notes, jobs), ["Ask an inspector."], ON).lines)


def test_the_log_shows_looks_newest_first_and_the_next() -> None:
    text = log(OLD, LOOK, jobs=(job("ash", "soon", verb="look at crown", counts_as="look", best=40),))
    assert text.index("one branch down") < text.index("49 % of the crown alive")
    assert "Next look: 29 May." in text
    assert "gap" not in text
    assert "Ask an inspector." in text
    assert "safe" not in text.lower()


def test_gaps_are_shown_as_gaps() -> None:
    assert "No look is noted." in log()
    assert "Last looked at 23 months ago: a gap." in log(OLD)
    assert "Next look: not set; ask a competent inspector." in log(OLD)
    assert "No failing or dead tree is known" in "\n".join(tree_looks("", (), (), ON).lines)


def test_a_job_done_is_a_look_too() -> None:
    done = Done(id="3", on=ON - dt.timedelta(days=5), task="ash:look-at-crown:2026")
    assert "done: look at crown ash" in log(done)


# ---- any names -----------------------------------------------------------------------------------


@pytest.mark.long
@settings(max_examples=12, deadline=None)
@given(
    names=st.lists(NAMES, min_size=4, max_size=4), said=st.lists(NAMES, max_size=5), many=st.integers(1, 25)
)
def test_any_names_keep_to_the_page(names: list[str], said: list[str], many: int) -> None:
    events = [e for n in range(many) for e in flowering(f"{names[0]}{n}", n % 20)]
    jobs = [
        job(f"{names[1]}{n}", title=names[2], where=names[3], cautions=tuple(said), best=n % 10, harm=n / 20)
        for n in range(many)
    ]  # fmt: skip
    falls = [(f"{names[0]}{n}", names[1]) for n in range(many)]
    notes = [LookNote(id=str(n), on=ON, plant=f"{names[0]}{n}", text=names[2]) for n in range(many)]
    pages = [
        month_card(MonthOf(place=names[3], on=ON, helpers=HELPERS), jobs, events, safe_text).lines,
        bloom_card(names[3], events, ON, safe_text).lines,
        tree_looks(names[3], watched(falls, notes, jobs), said, ON, safe_text).lines,
    ]
    tree = tree_card(
        card(id=jobs[0].plant, name=names[0], line=names[1], where=names[2], own_words=tuple(said),
             cautions=tuple(said), events=tuple(events[:3]), notes=tuple(notes)),
        jobs, ON, safe_text,
    ).lines  # fmt: skip
    for page in pages:
        assert len(page) <= 60
        assert all(cell_len(line) <= 72 for line in page)
    assert all(cell_len(line) <= 44 for line in tree)
    assert all(safe_text(line) == line for page in (*pages, tree) for line in page)


def test_work_done_at_several_trees_is_told_on_the_card_of_one_as_its_own() -> None:
    """The card hangs on one tree, and whoever reads it stands before that one."""
    together = replace(
        job("orchard", best=3, title="look for cuts on honey, haralson and 2 more"),
        name="honey, haralson and 2 more",
        plants=("honey", "haralson", "pear", "plum"),
    )
    text = "\n".join(tree_card(card(id="pear", name="pear"), [together], ON).lines)
    assert "look for cuts on pear: best by 22 Apr" in text.replace("\n    ", " ")
    assert "honey" not in text


def test_a_tree_card_tells_why_when_and_what_to_mind() -> None:
    text = "\n".join(
        tree_card(
            card(
                own_words=("Why it is here: a gift.",),
                events=tuple(flowering("pear", 4)),
                cautions=("Thorns.",),
            ),
            [job("pear", best=3), job("plum", best=3), job("pear", "done", id="x", title="old job")],
            ON,
        ).lines
    )
    for said in (
        "PEAR",
        "at the gate",
        "Why it is here: a gift.",
        "first open: about 23 Apr",
        "mulch pear: best by 22 Apr",
        "Mind: Thorns.",
        "Seen since:",
    ):
        assert said in text
    assert "plum" not in text
    assert "old job" not in text
