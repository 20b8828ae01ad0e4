"""What changes when the old tree goes: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from leafturn_tui.render.parts.question import Question

if TYPE_CHECKING:
    from leafturn.canopy.decline.trend import YearRange
    from leafturn.canopy.model import Canopy, OldTree, PathReach, Release, Seedling, WhatIf
    from leafturn_tui.almanac_face import AlmanacFace


QUESTION = Question(asked="What changes when the old tree goes?", place=40)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What changes when the old tree goes: light, heirs, reach, for thirty years."""
    canopy = almanac.canopy()
    if not canopy.old_trees:
        yield f"No tree with a place stands here in {almanac.on.year}, so nothing is known of its canopy."
    for old_tree in canopy.old_trees:
        yield f"{title(old_tree)}:"
        yield from (f"    {line}" for line in old_tree.says)
        for row in old_tree.releases:
            yield f"    {row.plant}, {row.metres:.1f} m {row.bearing}: {light_words(row)}"
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
    return f"{old_tree.plant}, {old_tree.kind}, {year}, {old_tree.height_m:.0f} m"


def short_title(old_tree: OldTree) -> str:
    """The tree, its height, and the likely years of its going, in one short line."""
    said = [f"{old_tree.plant}, {old_tree.height_m:.0f} m"]
    if old_tree.live_percent is not None:
        said.append(f"{old_tree.live_percent:.0f} % alive")
    if old_tree.bare.likely is not None:
        said.append(f"bare about {old_tree.bare.likely}")
    if old_tree.down.likely is not None:
        said.append(f"down by {old_tree.down.likely} at even odds")
    return "; ".join(said)


def light_words(row: Release) -> str:
    """A plant's light in a sentence to be read aloud."""
    later = list(row.later)
    at = later[min(10, len(later) - 1)] if later else None
    then = f", {row.later[at]:.0f} % in {at}" if at is not None else ""
    return (
        f"{row.full:.0f} % of open light with a full crown, {row.now:.0f} % now, {row.gone:.0f} % "
        f"without it{then}; {row.reply}"
    )


def heirs_words(old_tree: OldTree) -> Iterator[str]:
    """The successors as small tables: height, crown and share of the gap, every tenth year."""
    for heir in old_tree.succession.successors:
        years = list(heir.sizes)[::10]
        sizes = [heir.sizes[year] for year in years]
        yield f"{heir.plant}, {heir.kind}:"
        yield _row("year", [str(year) for year in years])
        yield _row("height, m", [f"{tall:.0f}" for tall, _ in sizes])
        yield _row("crown each way, m", [f"{wide:.1f}" for _, wide in sizes])
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
        f"{choice.what}: light {choice.light:.0f} %, reach {choice.reach_m:.0f} m, "
        f"{choice.path_metres:.1f} m of path{used}; {choice.habitat}; {choice.successors}"
    )


def seedling_words(seedling: Seedling) -> str:
    """A verdict with its reasons."""
    by = f" by winter {seedling.by}" if seedling.by is not None else ""
    return f"{seedling.plant}, {seedling.kind}: {seedling.verdict}{by}; {'; '.join(seedling.reasons)}"


def as_json(almanac: AlmanacFace) -> dict[str, Any]:
    """The key `canopy`; `light` is that of the first old tree, each tree carries its own too."""
    canopy: Canopy = almanac.canopy()
    first = canopy.old_trees[0] if canopy.old_trees else None
    by_month = almanac.light_by_month() if canopy.plants else {}
    return {
        "canopy": {
            "elders": [_old_tree(old_tree) for old_tree in canopy.old_trees],
            "light": [_light(row) for row in first.releases] if first else [],
            "seedlings": [
                {
                    "plant": s.plant,
                    "kind": s.kind,
                    "verdict": s.verdict,
                    "by": s.by,
                    "reasons": list(s.reasons),
                }
                for s in canopy.seedlings
            ],
            "short_lived": list(canopy.short_lived),
            "leans": list(canopy.leans),
            "plants": [
                {
                    "plant": p.plant,
                    "east_m": p.east,
                    "north_m": p.north,
                    "light": {str(year): percent for year, percent in p.light.items()},
                    "light_by_month": list(by_month.get(p.plant, ())),
                    "height_m": {str(year): size[0] for year, size in p.sizes.items()},
                    "crown_m": {str(year): size[1] for year, size in p.sizes.items()},
                }
                for p in canopy.plants
            ],
            "notes": list(canopy.notes),
            "caution": canopy.caution,
        }
    }


def _path(path: PathReach) -> dict[str, Any]:
    return {
        "name": path.name,
        "used": path.used,
        "public": path.public,
        "nearest_m": path.nearest_m,
        "metres": path.metres,
    }


def _choice(choice: WhatIf) -> dict[str, Any]:
    return {
        "what": choice.what,
        "light": choice.light,
        "reach_m": choice.reach_m,
        "path_metres": choice.path_metres,
        "habitat": choice.habitat,
        "successors": choice.successors,
        "gainers": dict(choice.gainers),
        "in_reach": list(choice.in_reach),
    }


def _old_tree(old_tree: OldTree) -> dict[str, Any]:
    follow = old_tree.succession
    return {
        "plant": old_tree.plant,
        "kind": old_tree.kind,
        "state": old_tree.state,
        "height_m": old_tree.height_m,
        "live_percent": old_tree.live_percent,
        "last_look": old_tree.last_assessment,
        "looks": len(old_tree.assessments),
        "trend_per_year": old_tree.trend_per_year,
        "fit": _range(old_tree.fit),
        "bare": _range(old_tree.bare),
        "down": _range(old_tree.down),
        "down_by": {str(year): chance for year, chance in old_tree.down_by},
        "path_metres": old_tree.falling.path_metres,
        "reach_m": old_tree.falling.reach_m,
        "brittle_reach_m": old_tree.falling.brittle_m,
        "paths": [_path(p) for p in old_tree.falling.paths],
        "seats": dict(old_tree.falling.seats),
        "roofs": dict(old_tree.falling.roofs),
        "stem_misses_m": old_tree.falling.stem_misses_m,
        "live": {str(year): share for year, share in old_tree.live.items()},
        "light": [_light(row) for row in old_tree.releases],
        "what_if": [_choice(c) for c in old_tree.choices],
        "succession": {
            "fall_year": follow.fall_year,
            "half_covered": _range(follow.half_covered),
            "uncovered_years": follow.uncovered_years,
            "plant_by": follow.plant_by,
            "neighbours": list(follow.neighbours),
            "covered": {str(year): share for year, share in follow.covered.items()},
            "successors": [
                {
                    "plant": s.plant,
                    "height_at_fall_m": list(s.at_fall),
                    "height_m": {str(year): size[0] for year, size in s.sizes.items()},
                    "crown_m": {str(year): size[1] for year, size in s.sizes.items()},
                    "share_of_gap": {str(year): share for year, share in s.share_of_gap.items()},
                }
                for s in follow.successors
            ],
            "suggestions": [{"kind": s.kind, "why": s.why} for s in follow.suggestions],
        },
        "says": list(old_tree.says),
    }


def _light(row: Release) -> dict[str, Any]:
    return {
        "plant": row.plant,
        "full": row.full,
        "now": row.now,
        "gone": row.gone,
        "metres": row.metres,
        "bearing": row.bearing,
        "later": {str(year): percent for year, percent in row.later.items()},
        "reply": row.reply,
        "points_back": row.points_back,
        "below_need_from": row.below_need_from,
    }


def _range(when: YearRange) -> dict[str, int | None]:
    return {"early": when.early, "likely": when.likely, "late": when.late}
