"""What changes when a tree goes: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields

if TYPE_CHECKING:
    from leafturn.canopy.model import Canopy, OldTree, Release, Seedling, WhatIf
    from leafturn_tui.almanac_face import AlmanacFace


QUESTION = Question(asked="What changes when a tree goes?", place=40)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What changes when a tree goes: light, heirs, reach, for thirty years."""
    canopy = almanac.canopy()
    if not canopy.old_trees:
        yield f"No tree with a place stands here in {almanac.on.year}, so nothing is known of its canopy."
    for old_tree in canopy.old_trees:
        yield f"{title(old_tree)}:"
        yield from (f"    {line}" for line in old_tree.says)
        for row in old_tree.releases:
            yield f"    {row.plant}, {quantities.metres(row.metres)} {row.bearing}: {light_words(row)}"
        for choice in old_tree.choices:
            yield f"    {choice_words(choice)}"
        yield from (f"    {line}" for line in heirs_words(old_tree))
        for kind in old_tree.succession.suggestions:
            yield f"    the library would plant: {kind.kind} ({kind.why})"
    for seedling in canopy.seedlings:
        yield seedling_words(seedling)
    for line in canopy.short_lived:
        yield f"near the end of its life: {line}"
    yield from canopy.leans
    yield from canopy.notes
    yield canopy.caution


def title(old_tree: OldTree) -> str:
    """The tree, its kind, its year and its height."""
    year = str(old_tree.planted) if old_tree.planted else "year not known"
    return f"{old_tree.plant}, {old_tree.kind}, {year}, {quantities.metres(old_tree.height_m, 0)}"


def short_title(old_tree: OldTree) -> tuple[str, ...]:
    """The tree, its height, and the likely years of its going, in a few words each."""
    said = [f"{old_tree.plant}, {quantities.metres(old_tree.height_m, 0)}"]
    if old_tree.live_percent is not None:
        said.append(f"{old_tree.live_percent:.0f} % alive")
    if old_tree.bare.likely is not None:
        said.append(f"bare about {old_tree.bare.likely}")
    if old_tree.down.likely is not None:
        said.append(f"down about {old_tree.down.likely}")
    return tuple(said)


def light_words(row: Release) -> str:
    """A plant's light in a sentence to be read aloud."""
    later = list(row.later)
    at = later[min(10, len(later) - 1)] if later else None
    then = f", {row.later[at]:.0f} % in {at}{_range(row, at)}" if at is not None else ""
    return (
        f"{row.full:.0f} % of open light with a full crown, {row.now:.0f} % now, {row.gone:.0f} % "
        f"without it{then}; {row.reply}"
    )


def _range(row: Release, year: int) -> str:
    """The least and most light of a later year, where they are told apart."""
    least, most = (round(percent) for percent in row.later_range.get(year, (0.0, 0.0)))
    return f" ({least} to {most})" if least != most else ""


def heirs_words(old_tree: OldTree) -> Iterator[str]:
    """The successors as small tables: height, crown and share of the gap, every tenth year."""
    for heir in old_tree.succession.successors:
        years = list(heir.sizes)[::10]
        sizes = [heir.sizes[year] for year in years]
        yield f"{heir.plant}, {heir.kind}:"
        yield _row("year", [str(year) for year in years])
        unit = quantities.metres_unit()
        yield _row(f"height, {unit}", [quantities.bare_metres(tall, 0) for tall, _ in sizes])
        yield _row(f"crown each way, {unit}", [quantities.bare_metres(wide) for _, wide in sizes])
        yield _row("of the gap, %", [f"{100 * heir.share_of_gap[year]:.0f}" for year in years])
    if old_tree.assessments:
        seen = ", ".join(f"{look.on.year} {look.live_percent:.0f} %" for look in old_tree.assessments)
        yield f"Looks at its crown, share alive: {seen}."


def _row(name: str, cells: Sequence[str]) -> str:
    """One row of a small table: a name, then numbers one below another."""
    return f"  {name:<18}" + "".join(f"{cell:>6}" for cell in cells)


def choice_words(choice: WhatIf) -> str:
    """One way to deal with the tree."""
    used = f", {', '.join(choice.in_reach)}" if choice.in_reach else ""
    return (
        f"{choice.what}: light {choice.light:.0f} %, reach {quantities.metres(choice.reach_m, 0)}, "
        f"{quantities.metres(choice.path_metres, 0)} of path{used}; {choice.habitat}; {choice.successors}"
    )


def seedling_words(seedling: Seedling) -> str:
    """A verdict with its reasons."""
    by = f" by winter {seedling.by}" if seedling.by is not None else ""
    return f"{seedling.plant}, {seedling.kind}: {seedling.verdict}{by}; {'; '.join(seedling.reasons)}"


def as_json(almanac: AlmanacFace) -> Answer:
    """The key `canopy`; `light` is that of the first old tree, each tree carries its own too."""
    canopy: Canopy = almanac.canopy()
    first = canopy.old_trees[0] if canopy.old_trees else None
    by_month = almanac.light_by_month([p.plant for p in canopy.plants])
    return {
        "canopy": fields(canopy, "short_lived", "leans", "notes", "caution")
        | {
            "elders": [_old_tree(old_tree) for old_tree in canopy.old_trees],
            "light": [_light(row) for row in first.releases] if first else [],
            "seedlings": [fields(s, "plant", "kind", "verdict", "by", "reasons") for s in canopy.seedlings],
            "plants": [
                fields(p, "plant", "light", east_m="east", north_m="north")
                | _sizes(p.sizes)
                | {"light_by_month": by_month.get(p.plant, ())}
                for p in canopy.plants
            ],
        }
    }


def _sizes(sizes: Mapping[int, tuple[float, float]]) -> Answer:
    """Heights and crowns by year."""
    return {
        "height_m": {year: tall for year, (tall, _) in sizes.items()},
        "crown_m": {year: wide for year, (_, wide) in sizes.items()},
    }


def _old_tree(old_tree: OldTree) -> Answer:
    falling, follow = old_tree.falling, old_tree.succession
    what_if = ("what", "light", "reach_m", "path_metres", "habitat", "successors", "in_reach")
    return (
        fields(
            old_tree, "plant", "kind", "state", "height_m", "live_percent", "trend_per_year", "live", "says"
        )
        | fields(old_tree, "fit", "bare", "down", last_look="last_assessment")
        | fields(falling, "path_metres", "reach_m", "stem_misses_m", brittle_reach_m="brittle_m")
        | {
            "looks": len(old_tree.assessments),
            "down_by": dict(old_tree.down_by),
            "paths": [fields(p, "name", "used", "public", "nearest_m", "metres") for p in falling.paths],
            "seats": dict(falling.seats),
            "roofs": dict(falling.roofs),
            "light": [_light(row) for row in old_tree.releases],
            "what_if": [fields(c, *what_if) | {"gainers": dict(c.gainers)} for c in old_tree.choices],
            "succession": fields(
                follow, "fall_year", "half_covered", "uncovered_years", "plant_by", "covered"
            )
            | fields(follow, "neighbours", "suggestions")
            | {
                "successors": [
                    fields(s, "plant", "share_of_gap", height_at_fall_m="at_fall") | _sizes(s.sizes)
                    for s in follow.successors
                ],
            },
        }
    )


def _light(row: Release) -> Answer:
    names = ("full", "now", "gone", "metres", "bearing", "later", "later_range", "reply", "points_back")
    return fields(row, "plant", *names, "below_need_from")
