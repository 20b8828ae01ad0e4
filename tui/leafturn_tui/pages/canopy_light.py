"""The canopy's table of light, and what is behind one line of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.base.day_words import SHORT_MONTHS
from leafturn.canopy.model import OldTree, Release
from leafturn.canopy.sentences import points_back_words
from leafturn_tui.charts.light_years import BAR, FIGURES, MOST_YEARS, head_rows, light_row, tree_row
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render import canopy as canopy_lines
from leafturn_tui.text.layout import Piece, Row, cut, name_cells

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

LEAST_ANSWER = 14  # cells from which a plant's answer finds room behind its line


def release_rows(old_tree: OldTree, year: int, width: int) -> list[Row]:
    """The tree with its chance to stand by year, then a line a plant: light now, without it, by year.

    Where there is room each plant's answer stands behind its line, else below those that scorch.
    """
    years = list(range(year, year + MOST_YEARS))
    down = dict(old_tree.down_by)
    stands = [1.0 - down.get(n, max(down.values(), default=0.0)) for n in years]
    plant = old_tree.plant
    name = name_cells((plant, *(r.plant for r in old_tree.releases)), width)
    ribbon = name + BAR + FIGURES + MOST_YEARS
    rows = [
        *head_rows(years, old_tree.down.likely, width, name),
        Row(
            tree_row(plant, "chance it stands", stands, width, name),
            f"tree {plant}",
            old_tree.down_says,
            plant,
        ),
        *_tree_years(old_tree, years, width, name),
    ]
    for r in old_tree.releases:
        cells = light_row(r.plant, r.now, r.gone, r.later, years, width, name)
        answer = r.reply + (f", short from {r.below_need_from}" if r.below_need_from else "")
        tone = "amber" if r.scorches else "dim"
        if width >= ribbon + LEAST_ANSWER:
            cells = (*cells, Piece(f"  {cut(answer, width - ribbon - 2)}", tone))
        rows.append(Row(cells, r.plant, _why(r), r.plant))
        if width < ribbon + LEAST_ANSWER and r.scorches:
            rows.append(Row((Piece(" " * name), Piece(f"* {answer}", tone)), joined=True))
    return rows


def _tree_years(old_tree: OldTree, years: list[int], width: int, name: int) -> list[Row]:
    """What of its crown lives, and what of its gap is covered, by year; nothing of what is not known."""
    told = (
        ("crown that lives", old_tree.live, "crown_old"),
        ("gap covered", old_tree.succession.covered, "crown_mid"),
    )
    return [
        Row(tree_row("", said, [shares.get(year, 0.0) for year in years], width, name, tone), joined=True)
        for said, shares, tone in told
        if shares
    ]


BASIS = (
    "Crowns are solids that pass the published share of the light, as a mean over their outline; 55 % of it "
    "comes from the sun's track and 45 % from the whole sky (a guess); growth is a curve through what was "
    "measured. The yearly chances of a fall are rules of thumb that the garden file may change."
)


def _why(release: Release) -> str:
    return f"{release.plant}: {canopy_lines.light_words(release)}"


def what_is_behind(old_tree: OldTree) -> Sheet:
    """All that is said of an old tree."""
    said = [*old_tree.says, *canopy_lines.heirs_words(old_tree), BASIS]
    return Sheet(f"{old_tree.plant}: what is behind this?", said)


def light_sentences(almanac: AlmanacFace, old_tree: OldTree, release: Release) -> list[str]:
    """A plant's light by month and by year, in sentences."""
    now, gone = (
        almanac.light_by_month([release.plant], without)[release.plant] for without in (None, old_tree.plant)
    )
    by_month = [f"{month} {a:.0f}/{b:.0f}" for month, a, b in zip(SHORT_MONTHS, now, gone, strict=True)]
    years = list(release.later)[::5]
    where = f"{quantities.metres(release.metres)} {release.bearing} of {old_tree.plant}"
    said = [
        f"{where}: {canopy_lines.light_words(release)}.",
        points_back_words(release, looked=old_tree.crown_known),
        f"By month, now/without {old_tree.plant}: {', '.join(by_month)}.",
        f"By year: {', '.join(f'{y} {release.later[y]:.0f}' for y in years)}.",
    ]
    if release.need is not None:
        said.append(f"Its kind wants {release.need:.0f} % of open light.")
    if release.scorch is not None:
        said.append(f"Above {release.scorch:.0f} % its leaves scorch.")
    if release.below_need_from is not None:
        said.append(f"From {release.below_need_from} on it has less than that.")
    return [*said, BASIS]
