"""Writes the tables of docs/skill.md and its pictures from measurements. Run from the project's root.

`python docs/make_skill_plots.py OUT`, where OUT holds what `python -m tests.skill.every_series` wrote.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from pathlib import Path

DOCS = Path(__file__).parent
NAMES = {
    "jp_cherry_first": "Japan, cherry, first flower",
    "jp_cherry_full": "Japan, cherry, full bloom",
    "jp_plum": "Japan, apricot (mume)",
    "kr_cherry": "Korea, cherry",
    "kr_peach": "Korea, peach",
    "kr_forsythia": "Korea, forsythia",
}
OTHERS = {
    "kr_azalea": "Korea, azalea",
    "kr_pear": "Korea, pear",
    "kr_locust": "Korea, black locust",
    "jp_wisteria": "Japan, wisteria",
    "jp_camellia": "Japan, camellia",
}
WAYS = ("fitted", "stated")
BY_NOTES = (0, 1, 3, 8)
Found = Mapping[tuple[str, str, str, int], dict]
LEADS = {"jan1": "1 January", "30": "30 days", "14": "14 days", "7": "7 days", "none": "season known"}
# the colours that people of all kinds of colour vision tell apart (Okabe and Ito 2008; from memory)
COLOURS = ("#0072b2", "#d55e00", "#009e73", "#cc79a7", "#e69f00", "#56b4e9")
WIDTH, HEIGHT, LEFT, BOTTOM, TOP, RIGHT = 640, 360, 56, 48, 40, 190


@dataclass
class Plot:
    """Lines over evenly spaced places along the bottom; y runs from `low` to `high`."""

    title: str
    places: Sequence[str]
    low: float
    high: float
    unit: str
    under: list[str] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)
    named: list[tuple[float, str, str]] = field(default_factory=list)

    def x(self, place: int) -> float:
        """How far from the left a place stands."""
        return LEFT + 20 + place * (WIDTH - LEFT - RIGHT - 40) / (len(self.places) - 1)

    def y(self, value: float) -> float:
        """How far from the top a value stands."""
        return HEIGHT - BOTTOM - (value - self.low) / (self.high - self.low) * (HEIGHT - BOTTOM - TOP)

    def band(self, low: float, high: float) -> None:
        """A pale band across."""
        self.under.append(
            f'<rect x="{LEFT}" y="{self.y(high):.1f}" width="{WIDTH - LEFT - RIGHT}" '
            f'height="{self.y(low) - self.y(high):.1f}" fill="#eeeeee"/>'
        )

    def line(self, values: Mapping[int, float], colour: str, name: str, dashed: bool = False) -> None:
        """One line by place, named at its right end."""
        points = [(self.x(place), self.y(value)) for place, value in values.items()]
        dash = ' stroke-dasharray="5 4"' if dashed else ""
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        self.parts.append(f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"{dash}/>')
        self.parts += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in points]
        if name:
            self.named.append((points[-1][1], name, colour))

    def svg(self, ticks: Sequence[float]) -> str:
        """The picture."""
        frame = [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}">',
            '<g font-family="sans-serif">',
            f"<title>{escape(self.title)}</title>",
            f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>',
            text(LEFT, 22, self.title, size=14),
        ]
        right = WIDTH - RIGHT
        across = [f'<path d="M{LEFT} {self.y(t):.1f}H{right}" stroke="#cccccc"/>' for t in ticks]
        labels = [text(LEFT - 6, self.y(t) + 4, f"{t:g}{self.unit}", anchor="end") for t in ticks]
        below = [text(self.x(i), HEIGHT - 20, name, anchor="middle") for i, name in enumerate(self.places)]
        return (
            "\n".join([*frame, *self.under, *across, *self.parts, *labels, *below, *self._legend()])
            + "\n</g>\n</svg>\n"
        )

    def _legend(self) -> list[str]:
        """Names beside the ends of their lines, moved apart where they would lie on one another."""
        placed, last = [], 0.0
        for y, name, colour in sorted(self.named):
            last = max(y + 4, last + 15)
            placed.append(text(WIDTH - RIGHT + 6, last, name, colour=colour))
        return placed


def text(
    x: float, y: float, words: str, anchor: str = "start", colour: str = "#222222", size: int = 12
) -> str:
    """One line of words."""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{colour}" font-size="{size}">'
        f"{escape(words)}</text>"
    )


def by_notes(found: Found) -> str:
    """Ratio of the forecast's RMSE to that of the notes' mean, fitted and stated, by the number of notes."""
    places = [str(k) for k in BY_NOTES]
    plot = Plot("Miss (RMSE, days) by the number of own notes, season's weather known", places, 0, 16, " d")
    for series, colour in zip(NAMES, COLOURS, strict=True):
        for way in WAYS:
            rows = {i: found[series, way, "none", k]["forecast"]["rmse"] for i, k in enumerate(BY_NOTES)}
            name = NAMES[series] if way == "fitted" else ""
            plot.line({i: min(v, 16) for i, v in rows.items()}, colour, name, dashed=way == "stated")
    return plot.svg([0, 4, 8, 12, 16])


def by_lead(found: Found, figure: str) -> str:
    """Mean miss, or the share of ranges that held, by how far ahead it was asked."""
    if figure == "mae":
        plot = Plot("Mean miss (days) by when it was asked, three notes", list(LEADS.values()), 0, 10, " d")
        ticks = range(0, 11, 2)
    else:
        plot = Plot("80 % ranges that held, three notes", list(LEADS.values()), 50, 100, " %")
        plot.band(75, 85)
        ticks = range(50, 101, 10)
    scale = 1 if figure == "mae" else 100
    for (series, name), colour in zip(NAMES.items(), COLOURS, strict=True):
        for way in WAYS:
            rows = [found[series, way, lead, 3]["forecast"][figure] for lead in LEADS]
            label = name if way == "fitted" else ""
            plot.line({i: scale * v for i, v in enumerate(rows)}, colour, label, dashed=way == "stated")
    return plot.svg(list(ticks))


def hindcasts(found: Found, names: Mapping[str, str]) -> str:
    """The table with the season's weather known: fitted and stated side by side, by the number of notes."""
    rows = [
        "| series | way | " + " | ".join(f"{k} notes" if k != 1 else "1 note" for k in BY_NOTES) + " |",
        "|---" * (len(BY_NOTES) + 2) + "|",
    ]
    ratios: dict[str, list[float]] = {way: [] for way in WAYS}
    first: dict[str, list[float]] = {way: [] for way in WAYS}
    for series, name in names.items():
        for way in WAYS:
            cells = []
            for k in BY_NOTES:
                row = found[series, way, "none", k]
                now, notes = row["forecast"], row["mean_of_notes"]
                ratio = now["rmse"] / notes["rmse"] if k else None
                told = "" if ratio is None else f" ({ratio:.2f})"
                unsaid = f", {row['unsaid']} not said" if row.get("unsaid") else ""
                cells.append(f"{now['rmse']:.1f}{told} {100 * now['coverage80']:.0f} %{unsaid}")
                if k == 3 and ratio is not None:
                    ratios[way].append(ratio)
                if k == 0:
                    first[way].append(now["rmse"])
            rows.append(f"| {name if way == 'fitted' else ''} | {way} | " + " | ".join(cells) + " |")
    told = [
        f"{way}: mean ratio with three notes {sum(r) / len(r):.3f}, largest {max(r):.3f}; without notes "
        f"{sum(first[way]) / len(r):.1f} d"
        for way, r in ratios.items()
    ]
    return "\n".join([*rows, "", "; ".join(told).capitalize() + "."])


def ahead(found: Found, names: Mapping[str, str]) -> str:
    """The table of forecasts made before the season was known."""
    leads = list(LEADS)[:-1]
    head = ["series", "way", *(LEADS[lead] for lead in leads)]
    rows = ["| " + " | ".join(head) + " |", "|---" * len(head) + "|"]
    for series, name in names.items():
        for way in WAYS:
            cells = []
            for lead in leads:
                row = found[series, way, lead, 3]["forecast"]
                cells.append(f"{row['mae']:.1f} / {row['rmse']:.1f} / {100 * row['coverage80']:.0f} %")
            rows.append(f"| {name if way == 'fitted' else ''} | {way} | " + " | ".join(cells) + " |")
    return "\n".join(rows)


def with_tables(page: str, tables: Mapping[str, str]) -> str:
    """The page with each table between its marks."""
    for name, table in tables.items():
        begin, end = f"<!-- {name} -->\n", f"\n<!-- end of {name} -->"
        before, after = page[: page.index(begin)], page[page.index(end) :]
        page = before + begin + table + after
    return page


def main() -> None:
    """Read, write."""
    found = {}
    for file in Path(sys.argv[1]).glob("*.json"):
        series, way, lead, notes = file.name.removesuffix(".json").rsplit(".", 3)
        found[series, way, lead, int(notes.removeprefix("k"))] = json.loads(file.read_text(encoding="utf-8"))
    pictures = {
        "skill_by_notes": by_notes(found), "skill_miss_ahead": by_lead(found, "mae"),
        "skill_held_ahead": by_lead(found, "coverage80"),
    }  # fmt: skip
    for name, picture in pictures.items():
        (DOCS / "pictures" / f"{name}.svg").write_text(picture, encoding="utf-8")
    tables = {
        "hindcasts": hindcasts(found, NAMES), "ahead": ahead(found, NAMES),
        "others": hindcasts(found, OTHERS), "others ahead": ahead(found, OTHERS),
    }  # fmt: skip
    page = DOCS / "skill.md"
    page.write_text(with_tables(page.read_text(encoding="utf-8"), tables), encoding="utf-8")


if __name__ == "__main__":
    main()
