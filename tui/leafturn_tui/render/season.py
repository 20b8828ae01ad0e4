"""Bloom, frost and a cold night as JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.answers.cold_night import ColdHit, Tonight
from leafturn.answers.frost import Frost
from leafturn.bloom.frost.loss import FrostLoss
from leafturn.bloom.model import SeasonEvent
from leafturn_tui.render.json_parts import Answer, iso, number, quantiles, shell

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def season(almanac: AlmanacFace) -> Answer:
    """Events, heat and frost."""
    whole = almanac.season()
    heat, frost = whole.heat, whole.frost
    return shell(almanac) | {
        "events": [event(e) for e in whole.events],
        "heat": {
            "base": number(heat.base),
            "to_date": number(heat.to_date),
            "normal": number(heat.normal),
            "days_ahead": heat.days_ahead,
        },
        "frost": {
            "threshold_celsius": number(frost.threshold),
            "last": quantiles(frost.last) | _years(frost.last_years),
            "first": quantiles(frost.first) | _years(frost.first_years),
            "last_gone": number(frost.last_gone),
        },
        "frosts": [frost_dates(f) for f in whole.frosts],
        "frost_free_days": None
        if whole.frost_free is None
        else {"p10": whole.frost_free.short, "p50": whole.frost_free.usual, "p90": whole.frost_free.long},
        "frost_trend_days_per_decade": None
        if whole.frost_trend is None
        else {
            "likely": number(whole.frost_trend.days_per_decade),
            "low": number(whole.frost_trend.low),
            "high": number(whole.frost_trend.high),
            "since": whole.frost_trend.since,
            "years": whole.frost_trend.years,
            "words": whole.frost_trend.words,
        },
        "frost_losses": [frost_loss(loss) for loss in almanac.frost_losses().values()],
    }


def frost_loss(said: FrostLoss) -> Answer:
    """What frost takes of one plant's flowers over the season."""
    return {
        "plant": said.plant,
        "chance_of_a_tenth": number(said.chance_of_a_tenth),
        "mean_share": number(said.mean_share),
        "share_so_far": number(said.share_so_far),
        "worst_night": iso(said.worst_night),
        "basis": said.basis,
    }


def frost_dates(said: Frost) -> Answer:
    """Last and first night of one depth of cold; `station` is null where the garden is no frost pocket."""
    return {
        "threshold_celsius": number(said.threshold),
        "last": quantiles(said.last) | _years(said.last_years),
        "first": quantiles(said.first) | _years(said.first_years),
        "last_gone": number(said.last_gone),
        "station": None
        if said.station_last is None or said.station_first is None
        else {"last": quantiles(said.station_last), "first": quantiles(said.station_first)},
    }


def _years(share: float) -> Answer:
    """In how many of ten usual years such a night comes at all."""
    return {"years_in_ten": number(10 * share)}


def event(said: SeasonEvent) -> Answer:
    """One event of the season."""
    return {
        "plant": said.plant,
        "event": said.event,
        "bbch": said.bbch,
        "early": iso(said.when.early),
        "likely": iso(said.when.likely),
        "late": iso(said.when.late),
        "observed": iso(said.observed),
        "basis": said.basis,
        "days_from_normal": said.days_from_normal,
    }


def tonight(almanac: AlmanacFace, night: Tonight, question: str | None) -> Answer:
    """What a cold night would do; `question` is what a person would be asked about the figure typed."""
    return shell(almanac) | {
        "garden_celsius": number(night.garden_c),
        "station_celsius": number(night.station_c),
        "question": question,
        "plants": [cold_hit(h) for h in night.plants],
        "not_known": list(night.not_known),
        "caution": night.caution,
    }


def cold_hit(said: ColdHit) -> Answer:
    """One plant on a cold night."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "stage": said.stage,
        "stage_from": said.stage_from,
        "share_lost": number(said.share),
        "share_lost_low": number(said.low),
        "share_lost_high": number(said.high),
        "tenth_lost_at_celsius": number(said.tenth_c),
        "nine_tenths_lost_at_celsius": number(said.nine_tenths_c),
        "height_metres": number(said.height_m),
        "cover": said.cover,
        "cover_words": said.cover_words,
        "words": said.words,
        "basis": said.basis,
    }
