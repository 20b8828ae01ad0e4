"""Guards seen to before winter, what deer browsed is fenced, and young plants are raised from one's own.

Heights of guards, and when hardwood cuttings and layers are made, are those of the pages that the rules name.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import DamageNote, Done

TUBE = {"kind": "tube", "height_cm": 120, "year": 2025}


def titles(almanac: Almanac, state: str = "due") -> list[str]:
    return [job.title for job in almanac.jobs() if job.state == state]


def test_guards_are_seen_to_before_winter_and_not_in_summer(tmp_path: Path) -> None:
    young = plant("young", "apple", year=2025, at=[0, 0], guard=TUBE)
    old = plant("old", "apple", year=1990, at=[9, 0])
    almanac = almanac_of(tmp_path, garden_text(young, old), "2027-10-10")
    (job,) = [job for job in almanac.jobs() if job.rule == "look-at-guards"]
    assert job.state == "due"
    assert job.plants == ("young",)
    assert "120 cm for small deer" in " ".join(job.why)
    assert not any("guards" in title for title in titles(almanac.at(dt.date(2027, 8, 1))))
    seen, _ = almanac.note(Done(on=almanac.on, task=job.id), almanac.on)
    assert not any("stand whole" in title for title in titles(seen))


def test_what_deer_browsed_is_caged(tmp_path: Path) -> None:
    text = garden_text(
        plant("pear", "pear", year=2023, at=[0, 0]), plant("big", "pear", year=1990, at=[9, 0])
    )
    almanac = almanac_of(tmp_path, text, "2027-01-20")
    assert not any("cage" in title for title in titles(almanac))
    for tree in ("pear", "big"):
        almanac, _ = almanac.note(DamageNote(on=almanac.on, plant=tree, cause="roe deer"), almanac.on)
    assert [title for title in titles(almanac) if "cage" in title] == ["put a tube or a cage round pear"]


def test_a_cage_once_made_is_asked_for_again_only_after_new_damage(tmp_path: Path) -> None:
    text = garden_text(plant("pear", "pear", year=2023, at=[0, 0]))
    almanac = almanac_of(tmp_path, text, "2027-01-20")

    def asked(day: dt.date) -> bool:
        return any("cage" in title for title in titles(almanac.at(day)))

    almanac, _ = almanac.note(DamageNote(on=dt.date(2027, 1, 10), plant="pear", cause="roe deer"), almanac.on)
    assert asked(dt.date(2027, 1, 20))
    job = next(job for job in almanac.jobs() if job.rule == "guard-from-browsers")
    almanac, _ = almanac.note(Done(on=almanac.on, task=job.id), almanac.on)
    assert not asked(dt.date(2027, 3, 1))
    assert not asked(dt.date(2028, 1, 20)), "the cage stands"
    again = DamageNote(on=dt.date(2028, 2, 1), plant="pear", cause="deer over the cage")
    almanac, _ = almanac.at(dt.date(2028, 2, 1)).note(again, dt.date(2028, 2, 1))
    assert asked(dt.date(2028, 2, 3))


def test_what_loses_nothing_if_it_is_left_comes_last_however_soon_it_closes(tmp_path: Path) -> None:
    """Layers and cuttings do as well any other year (the rules' own words; common practice, no source)."""
    text = garden_text(
        plant("hazel", "hazel", year=2010, at=[1, 0]),
        plant("pear", "pear", year=2005, at=[30, 0]),
        plant("young", "apple", year=2026, at=[40, 0]),
    )
    almanac = almanac_of(tmp_path, text, "2027-03-01")
    for day in range(0, 70, 7):
        week = almanac.at(dt.date(2027, 3, 1) + dt.timedelta(days=day)).round()
        for jobs in ([job for job in week.jobs if job.state in ("due", "late")], week.waiting):
            rules = [job.rule for job in jobs]
            assert "layer-hazel" not in rules[:-1], (day, rules)


def test_cuttings_are_taken_of_grown_bushes_at_rest_in_one_job(tmp_path: Path) -> None:
    text = garden_text(
        plant("currant", "redcurrant", year=2012, at=[0, 0]),
        plant("vine", "grape", year=2010, at=[9, 0]),
        plant("young", "blackcurrant", year=2024, at=[18, 0]),
        plant("hazel", "hazel", year=2010, at=[27, 0]),
    )
    almanac = almanac_of(tmp_path, text, "2027-01-15")
    (job,) = [job for job in almanac.jobs() if job.rule == "take-hardwood-cuttings"]
    assert job.plants == ("currant", "vine")
    assert job.state in ("due", "held")
    order = [line.id for line in almanac.round().jobs]
    assert job.id not in order[: len(order) // 2], "it can wait for what cannot"
    assert not any("hardwood" in title for title in titles(almanac.at(dt.date(2027, 5, 20))))
    spring = [job.rule for job in almanac.at(dt.date(2027, 4, 5)).jobs() if job.state == "due"]
    assert "layer-hazel" in spring
