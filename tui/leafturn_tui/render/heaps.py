"""Every compost heap: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.base.tunables import Numbers
from leafturn.soil.compost.heat_rule import VESSEL_DAYS, WINDROW_DAYS, WINDROW_TURNS
from leafturn.soil.compost.maturity import LOOKS, WITHIN_C
from leafturn_tui.render.parts.groups import Groups, group_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases
from leafturn_tui.text.glossary import meaning

if TYPE_CHECKING:
    from leafturn.answers.heaps import HeapView
    from leafturn.soil.nitrogen import Nitrogen
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="Which heap wants turning?", place=90)
READINGS, HOW_TO_READ, TO_MEASURE = "readings", "how to read it", "what a thermometer would tell"
NITROGEN = "nitrogen from the air (rough: books differ threefold)"


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Every compost heap: mix, warmth, ripeness, what it wants, and where the ripe one goes."""
    views = almanac.heaps()
    for heap in views:
        yield ", ".join((heap.name, heap.stage, mix_words(heap), course_words(heap)))
        yield from group_lines(heap_groups(heap, almanac))
    if not views:
        yield "No heap is in the garden file."
    fixers = nitrogen_lines(almanac.nitrogen())
    if fixers:
        yield NITROGEN
        yield from group_lines([("", fixers)])


def as_json(almanac: AlmanacFace) -> Answer:
    """Every heap, and what fixes nitrogen."""
    heaps = list(almanac.heaps())
    return {"heaps": heaps, "nitrogen": almanac.nitrogen()}


def nitrogen_lines(found: Nitrogen) -> list[str]:
    """A line a guild, then the fixers of none, those that are shaded out, and those to be cut."""
    told = {plant for guild in found.guilds for plant in guild.fixers}
    own = [f.says for f in found.fixers if f.plant not in told or f.shaded_from or f.chop]
    return [*(guild.says for guild in found.guilds), *own]


def mix_words(heap: HeapView) -> str:
    """ "C:N 29, water 67 %"; says so where the mix is not written down."""
    if heap.c_to_n is None or heap.water_percent is None:
        return "mix not noted"
    return f"C:N {heap.c_to_n:.0f}, water {heap.water_percent:.0f} %"


def course_words(heap: HeapView) -> str:
    """The last two readings: "58 -> 44 C"."""
    told = " -> ".join(quantities.bare_celsius(celsius, 0) for _, celsius in heap.course[-2:])
    return f"{told} {quantities.celsius_unit()}" if told else "no reading"


def spread_words(heap: HeapView) -> list[str]:
    """A line a plant: litres, metres, and who of short reach gets there."""
    return [
        f"{s.plant}: {quantities.litres(s.litres)}"
        + (f", {phrases.metres(s.metres)} off" if s.metres is not None else ", place not given")
        + (f", within reach of {', '.join(s.reach)}" if s.reach else "")
        for s in heap.spread
    ]


def heap_groups(heap: HeapView, almanac: AlmanacFace) -> Groups:
    """All that is told of a heap, in groups."""
    size = "" if heap.litres is None else quantities.litres(float(phrases.two_figures(heap.litres)))
    return (
        ("", [", ".join(part for part in (heap.where, size, heap.to_do) if part)]),
        ("what it wants", [said for said in heap.mends if said != heap.to_do]),
        ("what the readings say", list(heap.says)),
        (
            READINGS,
            [
                f"{phrases.day(day, almanac.on)}: {quantities.celsius(celsius, 0)}"
                for day, celsius in heap.course
            ],
        ),
        ("what went in", [*([mixed_words(heap)] if heap.mixed_of else []), *_unknown(heap)]),
        ("where it goes, the neediest first (need and carry are weighed by a guess)", spread_words(heap)),
        (TO_MEASURE, [text for _, text in measuring(heap, almanac)]),
        (HOW_TO_READ, [*ratio_words(heap), *_works_words(heap)]),
    )


def measuring(heap: HeapView, almanac: AlmanacFace) -> tuple[tuple[str, str], ...]:
    """Of a heap whose warmth nobody noted: what to measure, how, and what it would tell; each with a label.

    How to measure is common practice, no source; the levels are those that turning and ripeness go by.
    """
    if heap.course or heap.stage == "empty":
        return ()
    numbers = Numbers(almanac.garden.rules)
    hot, cooled, too_hot = (
        quantities.celsius(numbers[f"heap_{level}_c"], 0) for level in ("hot", "cooled", "too_hot")
    )
    near = quantities.degrees(WITHIN_C, 0)
    tells = (
        f"{hot} and more: it rots hot. Once hot and then under {cooled}: turn it. {too_hot} and more: turn "
        f"it at once. Less than {near} above the air, {LOOKS} looks running after a turn: ripe, if once hot."
    )
    return (
        ("Measure", "How warm it is deep in the middle, twice a week while it works: r notes it."),
        ("How", "A thermometer with a long stem, from the side into the middle, read when it stands still."),
        ("It tells", tells),
    )


def mixed_words(heap: HeapView) -> str:
    """What went in, and what that comes to."""
    return heap.mixed_of if heap.c_to_n is None else f"{heap.mixed_of} ({mix_words(heap)})"


def _works_words(heap: HeapView) -> list[str]:
    """What hot days are held against, where a heap had any: nobody should take a few for enough."""
    if not heap.hot.days:
        return []
    asked = f"{WINDROW_DAYS} days with {WINDROW_TURNS} turnings, or {VESSEL_DAYS} days running in a vessel"
    return [f"Hot days: of works that compost sewage sludge {asked} are asked (40 CFR 503)."]


def ratio_words(heap: HeapView) -> list[str]:
    """What C:N is, where a heap has one."""
    return [] if heap.c_to_n is None else [meaning("C:N")]


def _unknown(heap: HeapView) -> list[str]:
    return [f"{what}: not in the table of materials, left out of C:N and water" for what in heap.unknown]
