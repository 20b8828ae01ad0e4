"""Tonight's cold: a minimum is typed, and the sheet says what it would do."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.base import prose, quantities
from leafturn.journal.entries import ColdNightNote
from leafturn.season.temperature_words import NotATemperature, read_temperature
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.choice import YesNo
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.cold_night import lines_of_night
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Column, Piece, Row, paragraph, piece, wrapped_columns

if TYPE_CHECKING:
    from leafturn.answers.cold_night import Tonight
    from leafturn_tui.host import Host

TABLE = 72  # columns from which the plants stand in a table, before each is told in full
SHAPE = (Column(24, 10, gives=1), Column(), Column(16, 10), Column(), Column(40, 12, gives=2))
HINT = "degrees in the garden: -3, -3C or 27F"


class NightSheet(Sheet):
    """What a night would do: a table of what it hurts, worst first, then all of it in words."""

    def __init__(self, night: Tonight, note: Callable[[], None]) -> None:
        title = f"What would {quantities.celsius(night.garden_c)} do?"
        super().__init__(title, list(lines_of_night(night)), ("note this night", note))
        self._plants = night.plants

    def below(self, typed: str, width: int) -> list[Row]:
        """How it is said, the table where there is room for it, and the rest."""
        if width < TABLE or not self._plants:
            return super().below(typed, width)
        first, *more = self.paragraphs
        in_words = [row for said in more for row in paragraph(said, width - 1, indent=1)]
        return [*paragraph(first, width - 1, indent=1), *self._table(width), BLANK, *in_words]

    def _table(self, width: int) -> list[Row]:
        heads = [Piece(said, "dim") for said in ("plant", "lost of 10", "stage", "a tenth at", "what to do")]
        plants = [
            [
                piece(hit.plant),
                Piece(phrases.tenths_in_table(hit.share, hit.low, hit.high), "harm" if hit.cover else ""),
                piece(hit.stage),
                Piece(quantities.celsius(hit.tenth_c)),
                piece(hit.cover_words),
            ]
            for hit in self._plants
        ]
        rows = wrapped_columns([heads, *plants], SHAPE, width - 2)
        return [Row((Piece(" "), *line)) for lines in rows for line in lines]


def ask_tonight(desk: Host) -> None:
    """Ask for the night's minimum, of which a forecast is offered; an odd one is asked about once."""

    def understood(text: str) -> tuple[float, str | None]:
        try:
            return read_temperature(text)
        except NotATemperature as why:
            raise NotUnderstood(str(why)) from None

    def preview(text: str) -> str:
        return quantities.celsius(understood(text)[0]) if text.strip() else HINT

    def take(text: str) -> None:
        celsius, question = understood(text)
        if question:
            desk.ask(YesNo(prose.capital(question), lambda: _show(desk, celsius), "yes"))
        else:
            _show(desk, celsius)

    almanac, text = desk.almanac, ""
    for night in almanac.foreseen()[:1]:
        if night.eve == almanac.on:
            text = quantities.bare_celsius(night.station_c + almanac.garden.place.frost_pocket_c)
    desk.ask(
        Typing(
            "How cold may tonight be?", take, preview=preview, enter="what would it do?", text=text,
            is_offer=True,
        )
    )  # fmt: skip


def _show(desk: Host, celsius: float) -> None:
    night = desk.almanac.tonight(celsius)

    def note() -> None:
        desk.consider(ColdNightNote(on=desk.almanac.on, tmin_c=round(night.garden_c, 1)))

    desk.ask(NightSheet(night, note))
