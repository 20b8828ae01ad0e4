"""A garden's own rules, wind, amounts, and heat counted from a day."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, own_rule, plant

from leafturn.almanac import Almanac, open_almanac
from leafturn.assembly.sources import read_sources
from leafturn.garden.model import Plant
from leafturn.journal.entries import Done, WeatherNote
from leafturn.kinds.library import load_library
from leafturn.soil.compost.spreading import amount_words
from leafturn.tasks.garden_rules import read_own_rules
from leafturn.tasks.rule_checks import complaints
from leafturn.tasks.rule_model import load_rules
from leafturn.tasks.timing.phrases import read_moment

GARDEN = garden_text(
    plant("ash", "common ash", year=1930, state="declining", at=[5, 5]),
    plant("quince", "quince", year=2025, at=[0, 12]),
    own_rule(
        "sow under", title="sow clover under {name}", applies={"kinds": ["quince"]},
        open="heat 100 above 5 from 03-01", close="12 w after last frost",
    ),
    own_rule(
        "weed", title="weed round {name}", aplies={"kinds": ["quince"]}, open="04-01", close="05-01",
    ),
)  # fmt: skip


def on(folder: Path, day: str) -> Almanac:
    return almanac_of(folder, GARDEN, day)


def test_there_are_at_least_sixty_rules_with_ids_of_their_own() -> None:
    rules = load_rules().rules
    assert len(rules) >= 60
    assert len({rule.id for rule in rules}) == len(rules)


def test_a_rule_in_the_garden_file_makes_jobs_and_a_slip_costs_one_sentence(tmp_path: Path) -> None:
    almanac = on(tmp_path, "2027-05-20")
    job = almanac.job("quince:sow-under")
    assert job is not None
    assert job.title == "sow clover under quince"
    assert job.state in ("due", "late")
    assert job.source == "the garden file"
    assert any("since 1 Mar" in said for said in job.why)
    (fault,) = almanac.faults
    assert "rule 'weed' is left out" in fault.message
    assert fault.line == GARDEN.splitlines().index('verb = "weed"')
    assert almanac.job("quince:weed") is None
    assert almanac.jobs()


def test_an_own_rule_takes_the_place_of_a_packaged_one(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(
        GARDEN.replace('verb = "sow under"', 'id = "spring-mulch"\nverb = "spring mulch"')
    )
    almanac = open_almanac(tmp_path, dt.date(2027, 5, 20))
    mulch = [job for job in almanac.jobs() if job.verb == "spring mulch"]
    assert [job.title for job in mulch] == ["sow clover under quince"]


WHOLE = {"verb": "x", "title": "x {name}", "applies": {}, "open": "04-01", "close": "05-01"}


@pytest.mark.parametrize(
    ("table", "said"),
    [
        (WHOLE | {"open": "blom end"}, "bloom end"),
        ({key: WHOLE[key] for key in WHOLE if key != "close"}, "it lacks"),
        (WHOLE | {"applies": {"kind": 1}}, "key kind"),
        (WHOLE | {"verb": "x:y"}, "colon"),
        (WHOLE | {"holds": ["rain"]}, "hold"),
        ({"verb": 3}, "left out"),
        (WHOLE | {"applies": {"kinds": ["peer"]}}, "Did you mean pear?"),
        (WHOLE | {"applies": {"traits": ["pomme"]}}, "Did you mean pome?"),
        (WHOLE | {"applies": {"without_traits": ["nutt"]}}, "Did you mean nut?"),
        (WHOLE | {"applies": {"habits": ["treee"]}}, "Did you mean tree?"),
        (WHOLE | {"applies": {"layers": ["canopi"]}}, "Did you mean canopy?"),
        (WHOLE | {"applies": {"partners": ["lack"]}}, "Did you mean lacks?"),
        (WHOLE | {"applies": {"subject": "heap", "stages": ["workin"]}}, "Did you mean working?"),
        (WHOLE | {"applies": {"parts": ["fruits"]}}, "Did you mean fruit?"),
        (WHOLE | {"applies": {"trait": ["pome"]}}, "Did you mean traits?"),
        (WHOLE | {"title": "x {nam}"}, "Did you mean {name}?"),
        (WHOLE | {"minutes": -4}, "minutes = -4"),
        (WHOLE | {"harm": 99}, "harm = 99"),
        (WHOLE | {"open": "05-01", "close": "04-01"}, "never comes after"),
        (WHOLE | {"open": "11-15", "close": "02-01"}, "winter = true"),
        (WHOLE | {"open": "10-15", "close": "02-01"}, "Write a close that comes later."),
        (WHOLE | {"open": "bloom end", "close": "2 d before first open"}, "never comes after"),
        (WHOLE | {"open": "3 w after ripe", "close": "2 w after ripe"}, "never comes after"),
        (WHOLE | {"open": "heat 200 above 5", "close": "heat 100 above 5"}, "never comes after"),
        (WHOLE | {"open": "grown 2 m", "close": "grown 1 m"}, "never comes after"),
        (WHOLE | {"open": "2027-05-01", "close": "2027-04-01"}, "never comes after"),
    ],
)
def test_every_slip_in_an_own_rule_is_said(table: dict[str, object], said: str) -> None:
    rules, (fault,) = read_own_rules([{**table, "line": 7}], "garden.toml")
    assert rules == ()
    assert fault.line == 7
    assert said in fault.sentence()


@pytest.mark.parametrize(
    "table",
    [
        WHOLE | {"open": "11-15", "close": "02-01", "winter": True},
        WHOLE | {"open": "bloom end", "close": "3 w after full bloom"},  # the weather decides
        WHOLE | {"open": "heat 100 above 5", "close": "3 w after heat 100 above 5"},
        WHOLE | {"open": "heat 200 above 5", "close": "heat 100 above 10"},  # counted otherwise
        WHOLE | {"open": "heat 200 above 5 from 03-01", "close": "heat 100 above 5"},
        WHOLE | {"open": "grown 1 m", "close": "grown 2 m"},
        WHOLE | {"open": "2027-04-01", "close": "2027-05-01"},
        WHOLE | {"open": "04-01", "close": "04-01", "harm": 3, "minutes": 0, "title": "look round"},
        WHOLE | {"applies": {"kinds": ["pear"], "traits": ["pome"], "habits": ["tree"]}},
    ],
)
def test_what_may_be_meant_is_let_stand(table: dict[str, object]) -> None:
    rules, faults = read_own_rules([table], "garden.toml")
    assert faults == ()
    assert len(rules) == 1


def test_every_packaged_rule_would_pass_as_a_rule_of_ones_own() -> None:
    library = load_library()[0]
    assert [(r.id, said) for r in load_rules().rules for said in complaints(r, library)] == []


def test_a_kind_that_only_the_garden_knows_may_be_named() -> None:
    library = load_library()[0]
    weed = Plant(kind="zzyzx weed")
    table = WHOLE | {"applies": {"kinds": [library.match(weed.kind).kind.name]}}
    assert read_own_rules([table], "garden.toml", library, [weed])[1] == ()
    assert len(read_own_rules([table], "garden.toml", library)[1]) == 1


def test_a_moment_may_name_a_plant_of_the_garden_and_no_other() -> None:
    plum = Plant(kind="european plum", id="early-plum")
    table = WHOLE | {"open": "when early-plum fades", "close": "3 w after when early-plum fades"}
    assert read_own_rules([table], "garden.toml", plants=[plum])[1] == ()
    slip = WHOLE | {"open": "when early-plumb fades"}
    (fault,) = read_own_rules([slip], "garden.toml", plants=[plum])[1]
    assert "Did you mean early-plum?" in fault.sentence()


def test_moments_of_two_plants_are_in_no_order_before_the_weather_has_come() -> None:
    plums = [Plant(kind="european plum", id=name) for name in ("early-plum", "late-plum")]
    table = WHOLE | {"open": "bloom end of early-plum", "close": "first open of late-plum"}
    assert read_own_rules([table], "garden.toml", plants=plums)[1] == ()
    one = WHOLE | {"open": "bloom end of early-plum", "close": "first open of early-plum"}
    assert len(read_own_rules([one], "garden.toml", plants=plums)[1]) == 1


def test_two_rules_of_ones_own_with_one_verb_both_stand() -> None:
    rules, _ = read_own_rules([WHOLE, WHOLE | {"open": "04-02"}], "garden.toml")
    assert len({rule.id for rule in rules}) == 2


def test_taking_the_place_of_a_packaged_rule_is_said_in_a_note(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(
        GARDEN.replace('verb = "sow under"', 'id = "spring-mulch"\nverb = "spring mulch"')
    )
    (note,) = [note for note in read_sources(tmp_path).notes if "takes the place" in note]
    line = GARDEN.splitlines().index('verb = "sow under"')
    assert f"line {line}" in note
    assert '"spring-mulch"' in note


def test_wind_makes_a_look_over_job_the_next_day_and_done_it_is_gone(tmp_path: Path) -> None:
    """Common practice, no source: what wind loosened may fall on a still day."""
    calm = on(tmp_path, "2027-03-20")
    assert calm.job("garden:look-after-wind") is None
    windy, _ = calm.note(WeatherNote(on=calm.on, wind=True), calm.on)
    ahead = windy.job("garden:look-after-wind")
    assert ahead is not None
    assert ahead.state == "soon"
    after = windy.at(dt.date(2027, 3, 21))
    job = after.job("garden:look-after-wind")
    assert job is not None
    assert job.state == "due"
    assert "Wind was noted on 20 Mar" in job.why[0]
    assert any("inspector" in caution for caution in job.cautions)
    done, _ = after.note(Done(on=after.on, task=job.id), after.on)
    assert not [j for j in done.jobs() if j.verb == "look after wind" and j.state in ("due", "late", "soon")]
    again, _ = done.at(dt.date(2027, 4, 2)).note(
        WeatherNote(on=dt.date(2027, 4, 2), wind=True), dt.date(2027, 4, 2)
    )
    assert any(j.verb == "look after wind" and j.state == "soon" for j in again.jobs())


def test_mulch_is_told_in_litres_and_barrows_with_a_bare_ring(tmp_path: Path) -> None:
    """1 cm on 1 m2 is 10 litres; a ring of 15 cm round the bark stays bare (extension mulching advice)."""
    assert amount_words(3.0, 7.0, None).startswith("7 cm on 3.0 m2 are 210 litres, about 3 barrows")
    assert amount_words(2.0, None, 20.0) == "20 mm on 2.0 m2 are 40 litres of water."
    assert amount_words(0.0, 7.0, None) == ""
    job = on(tmp_path, "2027-05-20").job("quince:spring-mulch")
    assert job is not None
    assert any("litres" in line and "barrow" in line and "15 cm kept bare" in line for line in job.why)
    assert 3 <= len(job.why) <= 6


def test_heat_may_be_counted_from_a_day_of_its_own() -> None:
    moment = read_moment("2 w after heat 97 above 10 from 03-01")
    assert (moment.need, moment.base, moment.month_day, moment.shift) == (97.0, 10.0, "03-01", 14)
    assert read_moment("heat 97 above 10").month_day == ""
    assert read_moment("grown 2.5 m").need == 2.5
