"""Light with and without the old tree as bars, and the light of thirty years as a ribbon."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from leafturn_tui.charts.heights import LEAST, STAIR, Cell, hill, pieces, pieces_drawn, placed
from leafturn_tui.text.layout import Piece, Row, fit, piece

BAR, SHORT_BAR = 20, 10
FIGURES = 9  # "  76 100 "
MOST_YEARS = 31
LEAST_LIGHT = 50.0  # % of open light at which the ribbon begins: less than that all woody fruit lacks light
STANDS = 0.03  # a smaller chance that the tree stands is a dot
STEPS = 4  # of the ribbon's colour
MARKED = (10, 20, 30)  # years ahead that are written over the ribbon


def head_rows(years: Sequence[int], down: int | None, width: int, name: int) -> list[Row]:
    """What the columns are; over the ribbon some years, that of the likely fall in red."""
    bar, shown = widths(width, name)
    words: list[tuple[int, str, str]] = []
    for n, year in enumerate(years[:shown]):
        if year == down:
            words.insert(0, (n, f"{year % 100:02d}", "*harm"))
        elif n == 0 or n in MARKED:
            words.append((n, f"{year % 100:02d}", "dim"))
    left = fit("", name) + fit("now and without it" if bar > SHORT_BAR else "light", bar + FIGURES)
    return [Row((Piece(left, "dim"), *pieces(placed(words, shown))))]


def tree_row(
    name: str, said: str, shares: Sequence[float], width: int, of_name: int, tone: str = "crown_old"
) -> tuple[Piece, ...]:
    """Of the old tree a share of 0 to 1 by year: that it still stands, what of its crown lives."""
    bar, shown = widths(width, of_name)
    line: list[Cell] = [(hill(max(p, LEAST)) if p >= STANDS else "·", tone) for p in shares[:shown]]
    return (
        Piece(fit(piece(name).text, of_name - 1) + " "),
        Piece(fit(said, bar + FIGURES), "dim"),
        *pieces(line),
    )


def light_row(
    name: str,
    now: float,
    gone: float,
    later: Mapping[int, float],
    years: Sequence[int],
    width: int,
    of_name: int,
) -> tuple[Piece, ...]:
    """One plant: a bar up to today's light and on to that without the tree, both figures, thirty years.

    Parameters
    ----------
    name : str
    now, gone : float [% of open light]
    later : mapping of year to float [% of open light]
    years : sequence of int
    width, of_name : int [cells]
        The whole row; the name in it with the blank behind it.
    """
    bar, shown = widths(width, of_name)
    cells: list[Cell] = []
    for n in range(bar):
        at = 100 * (n + 0.5) / bar
        cells.append(("▆", "f_sun") if at <= now else ("▂", "f_well") if at <= gone else (" ", ""))
    ribbon = [_year(later.get(year, now)) for year in years[:shown]]
    return (
        Piece(fit(piece(name).text, of_name - 1) + " "),
        *pieces_drawn(cells, STAIR),
        Piece(f"{now:>4.0f}{gone:>4.0f} "),
        *pieces(ribbon),
    )


def widths(width: int, name: int) -> tuple[int, int]:
    """Cells of the bar, and years of the ribbon that find room beside names of so many cells."""
    bar = max(SHORT_BAR, min(BAR, width - name - FIGURES - MOST_YEARS))
    return bar, max(0, min(MOST_YEARS, width - name - bar - FIGURES))


def _year(percent: float) -> Cell:
    """The taller and the yellower, the more light."""
    height = max(0, min(6, int(7 * (percent - LEAST_LIGHT) / (100 - LEAST_LIGHT))))
    share = max(0.0, min(1.0, (percent - 55) / 45))
    step = round(share * STEPS) * 100 // STEPS
    return "▁▂▃▄▅▆▇"[height], f"f_sun~{step}~crown_tall"
