"""The canopy's table of light, and what is behind one line of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.canopy.model import OldTree, Release
from leafturn_tui.render import canopy as canopy_lines
from leafturn_tui.text.layout import MARGINS, Column, Row, columns, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

FULL_FROM = 70  # width from which the way to each plant fits beside the reply
LATER_FROM = 100  # width from which thirty years on fits too


def release_rows(releases: tuple[Release, ...], later: tuple[int, int], width: int) -> list[Row]:
    """A line a plant: light with the old tree full, now, gone and later, and how the plant replies."""
    after = later if width >= LATER_FROM else later[:1]
    titles = ["May-Sep, % of open", "", "full", "now", "gone", *map(str, after), "reply"]
    table = [[piece(t, "heading") for t in titles]]
    for r in releases:
        then = [f"{r.later[year]:.0f}" if year in r.later else "" for year in after]
        short = f", short from {r.below_need_from}" if r.below_need_from else ""
        table.append(
            [
                piece(r.plant + (" (guess)" if r.guessed else "")),
                piece(f"{r.metres:.1f} m {r.bearing}"),
                *(piece(figure) for figure in (f"{r.full:.0f}", f"{r.now:.0f}", f"{r.gone:.0f}", *then)),
                piece(r.reply + short, "thin" if r.scorches else ""),
            ]
        )
    figures = [Column(4, 4, right=True)] * (3 + len(after))
    shape = [Column(26, 10, gives=1), Column(9, 6), *figures, Column()]
    if width + MARGINS < FULL_FROM:
        table = [[cells[0], *cells[2:]] for cells in table]
        shape = [shape[0], *shape[2:]]
    laid = columns(table, shape, width)
    head = Row(laid[0])
    return [
        head,
        *(Row(line, r.plant, _why(r), r.plant) for r, line in zip(releases, laid[1:], strict=True)),
    ]


BASIS = (
    "Crowns are solids that pass the published share of the light, as a mean over their outline; 55 % of it "
    "comes from the sun's track and 45 % from the whole sky (a guess); growth is a curve through what was "
    "measured. The yearly chances of a fall are rules of thumb that the garden file may change."
)


def _why(release: Release) -> str:
    return f"{release.plant}: {canopy_lines.light_words(release)}"


def light_sentences(almanac: AlmanacFace, old_tree: OldTree, release: Release) -> list[str]:
    """A plant's light by month and by year, in sentences."""
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    now, gone = almanac.light_by_month(), almanac.light_by_month(old_tree.plant)
    by_month = [
        f"{month} {a:.0f} and {b:.0f}"
        for month, a, b in zip(months, now.get(release.plant, ()), gone.get(release.plant, ()), strict=False)
    ]
    years = list(release.later)[::5]
    said = [
        f"{release.metres:.1f} m {release.bearing} of {old_tree.plant}: {canopy_lines.light_words(release)}.",
        f"{release.points_back:.0f} of the {release.points:.0f} points are already back.",
        f"By month, now and without {old_tree.plant}: {', '.join(by_month)}.",
        f"By year: {', '.join(f'{y} {release.later[y]:.0f}' for y in years)}.",
    ]
    if release.need is not None:
        said.append(f"Its kind wants {release.need:.0f} % of open light.")
    if release.scorch is not None:
        said.append(f"Above {release.scorch:.0f} % its leaves scorch.")
    if release.below_need_from is not None:
        said.append(f"From {release.below_need_from} on it has less than that.")
    return [*said, BASIS]
