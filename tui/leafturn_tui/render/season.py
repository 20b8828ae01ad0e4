"""What is coming, and when: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.base.name_order import name_order
from leafturn.base.prose import HARDLY_EVER, of_ten
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields, quantiles
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    import datetime as dt

    from leafturn.answers.chill import Chill
    from leafturn.answers.frost import Frost
    from leafturn.answers.season import Heat, Season
    from leafturn.bloom.frost.loss import FrostLoss
    from leafturn.bloom.model import SeasonEvent
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="What is coming, and when?", place=20)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What is coming, and when: bloom and picking with their ranges, heat and frost."""
    on = almanac.on
    whole = almanac.season()
    for event in sorted(
        whole.events, key=lambda e: (e.observed or e.when.likely or on.max, name_order(e.plant))
    ):
        when, usual = phrases.event_day(event, on), phrases.against_usual(event)
        yield ", ".join(part for part in (when, event.plant, event.event, usual, event.basis) if part)
        if event.second is not None and event.second.says:
            yield f"    {event.second.says}"
    yield ""
    yield from frost_lines(whole, on)
    yield from chill_lines(whole)
    yield from _frost_losses(almanac)
    yield from whole.notes


def frost_lines(whole: Season, on: dt.date) -> Iterator[str]:
    """Last and first frost of garden and weather station, at three depths, and how the last moves."""
    frost = whole.frost
    gone = f"; {phrases.frost_gone(frost.last_gone)}" if frost.last.likely else ""
    here = "" if frost.station_last is None else " in the garden"
    yield f"last frost{here} {phrases.frost_day(frost.last, frost.last_years, on)}{gone}"
    yield f"first frost of autumn{here} {phrases.frost_day(frost.first, frost.first_years, on)}"
    if frost.station_last is not None and frost.station_first is not None:
        last, first = phrases.likely(frost.station_last, on), phrases.likely(frost.station_first, on)
        yield f"at the weather station: last frost {last}, first {first}"
    for cold in whole.frosts[1:]:
        last = phrases.frost_day(cold.last, cold.last_years, on)
        first = phrases.frost_day(cold.first, cold.first_years, on)
        yield f"{quantities.celsius(cold.threshold)} or colder: last {last}, first of autumn {first}"
    if whole.frost_free is not None:
        days = whole.frost_free
        spread = f" ({days.short} to {days.long})" if days.short < days.long else ""
        yield f"days without frost: {days.usual}{spread}"
    if whole.frost_trend is not None:
        yield whole.frost_trend.words


def chill_lines(whole: Season) -> Iterator[str]:
    """What this winter gathers; plants that want more stand among the season's notes."""
    if whole.chill is not None:
        yield whole.chill.words[0]


def _frost_losses(almanac: AlmanacFace) -> Iterator[str]:
    """What frost takes of the flowers, where it is worth a word, worst first."""
    losses = [loss for loss in almanac.frost_losses().values() if loss.chance_of_a_tenth >= HARDLY_EVER]
    for loss in sorted(losses, key=lambda loss: (-loss.mean_share, name_order(loss.plant))):
        share = phrases.tenths(loss.mean_share, loss.mean_share, loss.mean_share)
        crop = phrases.tenths(loss.crop_lost, loss.crop_lost, loss.crop_lost)
        chance, night = of_ten(loss.chance_of_a_tenth), phrases.day(loss.worst_night, almanac.on)
        yield (
            f"{loss.plant}: that frost takes a tenth of the flowers or more this spring: {chance}; "
            f"on average {share} of the flowers, {crop} of the crop, most about {night}, {loss.basis}"
        )


def as_json(almanac: AlmanacFace) -> Answer:
    """Events, heat and frost."""
    whole = almanac.season()
    heat, frost = whole.heat, whole.frost
    return {
        "events": [event(e) for e in whole.events],
        "heat": heat_sums(heat),
        "frost": {
            "threshold_celsius": frost.threshold,
            "last": quantiles(frost.last) | _years(frost.last_years),
            "first": quantiles(frost.first) | _years(frost.first_years),
            "last_gone": frost.last_gone,
        },
        "frosts": [frost_dates(f) for f in whole.frosts],
        "frost_free_days": None
        if whole.frost_free is None
        else fields(whole.frost_free, p10="short", p50="usual", p90="long"),
        "frost_trend_days_per_decade": None
        if whole.frost_trend is None
        else fields(whole.frost_trend, "low", "high", "since", "years", "words", likely="days_per_decade"),
        "frost_losses": [frost_loss(loss) for loss in almanac.frost_losses().values()],
        "winter_chill": None if whole.chill is None else winter_chill(whole.chill),
    }


def frost_loss(said: FrostLoss) -> Answer:
    """What frost takes of one plant's flowers over the season."""
    names = ("plant", "chance_of_a_tenth", "mean_share", "share_so_far", "worst_night", "basis")
    return fields(said, *names)


def heat_sums(said: Heat) -> Answer:
    """Degree-days to date against the usual year, by a sine through each day and by the four cases."""
    own = fields(said, "base", "to_date", "normal", "days_ahead")
    return own if said.four_cases is None else own | {"four_cases": heat_sums(said.four_cases)}


def winter_chill(said: Chill) -> Answer:
    """This winter's chill by two counts, and what each plant wants of it; `short` is a share of winters."""
    amounts = {
        name: fields(amount, p10="low", p50="usual", p90="high")
        for name, amount in (
            ("portions", said.portions),
            ("hours_to_7_2_celsius", said.hours),
            ("hours_0_to_7_2_celsius", said.hours_above_freezing),
        )
    }
    plants = [fields(one, "plant", "wants", "unit", "short", "dated") for one in said.plants]
    return amounts | {"plants": plants, "says": list(said.words)}


def frost_dates(said: Frost) -> Answer:
    """Last and first night of one depth of cold; `station` is null where the garden is no frost pocket."""
    return {
        "threshold_celsius": said.threshold,
        "last": quantiles(said.last) | _years(said.last_years),
        "first": quantiles(said.first) | _years(said.first_years),
        "last_gone": said.last_gone,
        "station": None
        if said.station_last is None or said.station_first is None
        else {"last": quantiles(said.station_last), "first": quantiles(said.station_first)},
    }


def _years(share: float) -> Answer:
    """In how many of ten usual years such a night comes at all."""
    return {"years_in_ten": 10 * share}


def event(said: SeasonEvent) -> Answer:
    """One event of the season."""
    noted = fields(said, "plant", "event", "bbch", "observed", "basis", "days_from_normal")
    second = said.second
    opinion = None if second is None else fields(second, "by_sine", "by_four_cases", "days", "says")
    return noted | fields(said.when, "early", "likely", "late") | {"degree_days": opinion}
