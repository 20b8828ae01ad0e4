"""The colours of the pages, by what they mean: one dark and one light set, and what few colours do instead.

Every text token holds 4.5:1 (WCAG 2.1 AA) on every ground it can stand on, every fill 3:1 on the page's
ground and on the darkest frost; `tests/tui/text/test_palette.py` reckons it. `faint` is for rules and
empty tracks only, never for text.
"""

from __future__ import annotations

from leafturn.base.value import Value


class Colour(Value, kw_only=False):
    """One token: dark, light, the number among 256 colours on dark, the name among sixteen."""

    dark: str
    light: str
    of_256: int
    of_16: str = ""


TEXT = {
    "ink": Colour("#ebe8dc", "#21251b", 253),
    "dim": Colour("#a9ae9b", "#575d4d", 248),
    "spring": Colour("#b9d46a", "#456400", 149, "green"),
    "summer": Colour("#f0cf5c", "#6b5600", 221, "yellow"),
    "autumn": Colour("#e3a867", "#7a4a00", 179, "yellow"),
    "winter": Colour("#9fc9dd", "#2c5a78", 152, "cyan"),
    "harm": Colour("#ff8a70", "#ad2116", 209, "red"),
    "amber": Colour("#f2b544", "#805200", 215, "yellow"),
    "cold": Colour("#8cc8f0", "#135c93", 117, "cyan"),
    "well": Colour("#86cf8e", "#1f6b33", 114, "green"),
    "bloom": Colour("#e9a0cf", "#8f3875", 182, "magenta"),
    "sun": Colour("#f3e27a", "#6d5c00", 228, "bright_yellow"),
}

FILLS = {
    "faint": Colour("#4f5647", "#c3c5b4", 240, "bright_black"),
    "f_bloom": Colour("#d98fbf", "#b35796", 175, "magenta"),
    "f_full": Colour("#ffd0ec", "#6e1f58", 225, "bright_magenta"),
    "f_well": Colour("#7cc585", "#3d8450", 114, "green"),
    "f_amber": Colour("#e9a93c", "#a86600", 215, "yellow"),
    "f_cold": Colour("#7fbfe8", "#3677ab", 117, "cyan"),
    "f_sun": Colour("#f0dc6a", "#987400", 221, "bright_yellow"),
    "f_store": Colour("#8f9481", "#74796a", 245, "white"),
    "crown_tall": Colour("#468652", "#3f7d4a", 65, "green"),
    "crown_mid": Colour("#5f9e55", "#5c9c55", 71, "green"),
    "crown_low": Colour("#8fb765", "#7f9f4e", 107, "bright_green"),
    "crown_old": Colour("#b08a4a", "#b07f2e", 137, "yellow"),
    "path": Colour("#8c8676", "#8d8672", 245, "white"),
    "heap": Colour("#7d6a4d", "#a08a68", 95, "yellow"),
}

GROUNDS = {
    "ground": Colour("#14170f", "#fbf9f2", 233),
    "raised": Colour("#20251b", "#eeecdf", 235),
    "bar": Colour("#323d27", "#dbe5c4", 236),
    "frost1": Colour("#1a2733", "#eaf2f8", 233),
    "frost2": Colour("#1d3145", "#d3e6f4", 17),
    "frost3": Colour("#213d58", "#c0dcf0", 18),
    "band": Colour("#2e3423", "#e9e4c9", 236),
    "week": Colour("#1b1f15", "#f3f1e6", 234),
    "meadow": Colour("#1d2318", "#eff0dd", 234),
    "harm_fill": Colour("#c02f1f", "#ad2116", 124, "red"),
}

LETTERS = ("#14170f", "#fbf9f2")  # dark and light, for names on crowns and on light


def mixed(over: str | None, under: str | None, share: float) -> str | None:
    """A colour laid over another: `share` of the upper one."""
    if over is None or under is None:
        return over or under
    parts = [(int(a[i : i + 2], 16), int(b[i : i + 2], 16)) for a, b in ((over, under),) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(a * share + b * (1 - share)):02x}" for a, b in parts)


def _lights() -> dict[str, Colour]:
    """Five steps of light on the ground, the brightest first: sun into the dark page, straw into shade."""
    steps = zip((65, 45, 30, 18, 5), (100, 75, 50, 25, 5), (186, 143, 101, 58, 236), strict=True)
    return {
        f"light{n}": Colour(
            mixed("#f3e27a", "#14170f", dark / 100) or "", mixed("#ffe98a", "#47583a", light / 100) or "", few
        )
        for n, (dark, light, few) in enumerate(steps, 1)
    }


ON_HARM = Colour("#ffffff", "#ffffff", 231, "bright_white")
COLOURS = TEXT | FILLS | GROUNDS | _lights() | {"on_harm": ON_HARM}

# Tones by what they are for: the state of a job, the standing of a tree, a part of the page.
MEANS = {
    "quiet": "dim",
    "soon": "dim",
    "held": "dim",
    "passed": "dim",
    "done": "dim",
    "let go": "dim",
    "late": "*amber",
    "due": "*ink",
    "tonight": "*harm",
    "fault": "*amber",
    "lacks": "*amber",
    "thin": "amber",
    "served": "well",
    "question": "*accent",
    "key": "*accent",
    "heading": "*ink",
    "name": "*ink",
}


def contrast(one: str, other: str) -> float:
    """The contrast of two colours like #20251b by WCAG 2.1: 1 for the same, 21 for black on white."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
