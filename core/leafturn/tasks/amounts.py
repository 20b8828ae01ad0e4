"""What a job spreads or pours, in litres and barrows."""

from __future__ import annotations

from leafturn.soil.compost.spreading import amount_words, area_m2
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject


def amount_of(rule: Rule, subject: Subject, season: SeasonModel) -> str:
    """How much a rule spreads or pours for a subject, in a sentence; empty if it does neither."""
    if rule.counts_as == "water" and subject.plants:
        water = season.water
        said = (water.litres_words([plant.id for plant in subject.plants]), water.rain_question)
        return " ".join(part for part in said if part)
    areas = [area_m2(plant, season.kind(plant)) for plant in subject.plants]
    return amount_words(sum(areas), rule.layer_cm, rule.water_mm)
