"""Tonight's cold: a minimum is typed, and the sheet says what it would do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.base import prose, quantities
from leafturn.journal.entries import ColdNightNote
from leafturn.season.temperature_words import NotATemperature, read_temperature
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.choice import YesNo
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.cold_night import lines_of_night

if TYPE_CHECKING:
    from leafturn_tui.host import Host

HINT = "degrees in the garden: -3, -3C or 27F"


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

    title = f"What would {quantities.celsius(night.garden_c)} do?"
    desk.ask(Sheet(title, list(lines_of_night(night)), enter=("note this night", note)))
