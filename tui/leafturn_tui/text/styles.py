"""How a tone looks: in true colour, in 256 or 16 colours, or in none. Words carry every meaning; a tone
only repeats it.

A tone is written as tokens of the palette: `cold`, `*harm` (bold), `ink on frost2` (on a ground). `accent`
is the colour of the season. Pictures may mix colours of their own: `#3a5b2c on #1d2318`.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping

from rich.color import Color, ColorSystem
from rich.style import Style

from leafturn_tui.text.glyphs import wants_plain
from leafturn_tui.text.palette import COLOURS, GROUNDS, LETTERS, MEANS, contrast, mixed

NOTHING = Style()
# What a line stands on: the page, the bar, and the bar where it reaches over further lines.
PAGE, UNDER_BAR, JOINED_TO_IT = "ink on ground", "*ink on bar", "ink on bar"
REVERSED = ("accent", "harm_fill", "ink")  # grounds that stay visible without colour
SEASONS = ("winter", "winter", "spring", "spring", "spring", "summer", "summer", "summer", "autumn", "autumn",
           "autumn", "winter")  # fmt: skip
NEARER = 50  # of 100
LOOKS = ("dark", "light", "none")
DEPTHS = {"standard": ColorSystem.STANDARD, "256": ColorSystem.EIGHT_BIT, "truecolor": ColorSystem.TRUECOLOR}


def wants_colour() -> bool:
    """Whether colours may be used (https://no-color.org: set and not empty means no)."""
    return not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def wished_look(environ: Mapping[str, str]) -> str:
    """What LEAFTURN_LOOK asks for, else what COLORFGBG says of the screen, else dark.

    COLORFGBG is set by several terminals to the numbers of text and ground; 7 and 15 are light grounds.
    """
    asked = environ.get("LEAFTURN_LOOK", "").strip().lower()
    if asked in LOOKS:
        return asked
    return "light" if environ.get("COLORFGBG", "").rpartition(";")[2] in ("7", "15") else "dark"


def draws_plain() -> bool:
    """Whether this terminal and its environment ask for ASCII."""
    return wants_plain(os.environ, sys.stdout.encoding)


def look_name() -> str:
    """The look that this terminal and its environment ask for."""
    return wished_look(os.environ) if wants_colour() else "none"


def season_of(month: int, southern: bool) -> str:
    """The meteorological season of a month: spring, summer, autumn or winter."""
    return SEASONS[(month - 1 + 6 * southern) % 12]


class Look:
    """Gives the style of a tone.

    Parameters
    ----------
    name : str
        `dark`, `light` or `none`.
    depth : str
        What the terminal shows: `truecolor`, `256`, `standard` (16) or `none`.
    season : str
        Which colour the accent is.
    plain : bool
        Whether all is drawn in ASCII.
    """

    def __init__(
        self, name: str = "none", depth: str = "truecolor", season: str = "spring", *, plain: bool = False
    ) -> None:
        self.name = "none" if depth == "none" else name
        self.depth = depth
        self.season = season
        self.plain = plain
        self._kept: dict[str, Style] = {}

    @property
    def in_colour(self) -> bool:
        """Whether pictures may be made of coloured cells alone."""
        return self.name != "none" and not self.plain

    def turn(self, season: str) -> None:
        """Let the accent be that of another season."""
        if season != self.season:
            self.season = season
            self._kept = {}

    @property
    def page(self) -> Style:
        """Ink on the page's ground; nothing where the terminal's own ground is kept."""
        return self.style(PAGE)

    def style(self, tone: str) -> Style:
        """The style of a tone; one that is not known is plain."""
        known = self._kept.get(tone)
        if known is None:
            known = self._kept[tone] = self._made(tone)
        return known

    def hexes(self, tone: str) -> tuple[str | None, str | None, bool]:
        """Ink and ground of a tone as #rrggbb, None for what is left to the paper, and whether it is bold."""
        front, _, ground = MEANS.get(tone, tone).partition(" on ")
        bold = front.startswith("*")
        front = self._letters(front, ground)
        if self.name == "none":
            reversed_ = ground in REVERSED
            return ("#ffffff", "#000000", bold) if reversed_ else (None, None, bold)
        ink = self._hex(front.removeprefix("*") or "ink")
        return ink, self._hex(ground) if ground else None, bold

    def _letters(self, front: str, ground: str) -> str:
        """For letters on a coloured ground, dark or light, whichever is read better."""
        if front.removeprefix("*") != "letters":
            return front
        below = self._hex(ground) if self.name != "none" else None
        best = max(LETTERS, key=lambda ink: contrast(ink, below)) if below else "ink"
        return front.replace("letters", best)

    def _hex(self, token: str) -> str | None:
        if token.startswith("#"):
            return token
        if "~" in token:
            over, share, under = token.split("~")
            return mixed(self._hex(over), self._hex(under), int(share) / 100)
        colour = COLOURS.get(self.season if token == "accent" else token)
        return None if colour is None else getattr(colour, self.name)

    def _made(self, tone: str) -> Style:
        front, _, ground = MEANS.get(tone, tone).partition(" on ")
        bold = front.startswith("*")
        front = self._letters(front, ground).removeprefix("*")
        if self.name == "none":
            return Style(bold=bold or None, reverse=True if ground in REVERSED else None)
        return Style(bold=bold or None, color=self._colour(front), bgcolor=self._colour(ground))

    def _colour(self, token: str) -> Color | None:
        if token.startswith("#"):
            return Color.parse(token) if self.depth != "standard" else None
        if "~" in token:
            if self.depth != "truecolor":  # the nearer of the two, where few colours leave nothing between
                over, share, under = token.split("~")
                return self._colour(over if int(share) >= NEARER else under)
            return Color.parse(self._hex(token) or "#000000")
        colour = COLOURS.get(self.season if token == "accent" else token)
        if colour is None:
            return None
        if self.depth == "standard":
            return Color.parse(colour.of_16) if colour.of_16 else None
        if self.depth == "256" and self.name == "dark":
            return Color.parse(f"color({colour.of_256})")
        return Color.parse(colour.dark if self.name == "dark" else colour.light)


def grounds() -> tuple[str, ...]:
    """The tokens that text can stand on."""
    return tuple(name for name in GROUNDS if name != "harm_fill")


def depth_told(environ: Mapping[str, str]) -> str:
    """How many colours a terminal shows, as its environment tells: one of `DEPTHS`, or "none".

    As `rich.console.Console` reads it, to which Textual leaves it; loading that takes as long as all else
    that a first picture is drawn with.
    """
    compatible, term = environ.get("TTY_COMPATIBLE", ""), environ.get("TERM", "").lower()
    forbidden = compatible == "0" or (compatible != "1" and environ.get("FORCE_COLOR") == "")
    if forbidden or term in ("dumb", "unknown"):
        return "none"
    if environ.get("COLORTERM", "").strip().lower() in ("truecolor", "24bit"):
        return "truecolor"
    return "256" if term.strip().rpartition("-")[2] in ("256color", "kitty") else "standard"


def terminal_look() -> Look:
    """What this terminal shows, as it and its environment tell."""
    return Look(look_name(), depth_told(os.environ), plain=draws_plain())
