"""What is to be minded of jobs told together says whose it is."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.papers import job

from leafturn.tasks.model import Job
from leafturn.tasks.week.cautions import cautions_of_all


def told(name: str, cautions: tuple[str, ...]) -> Job:
    return replace(job(name), name=name, cautions=cautions)


def test_a_caution_of_some_of_the_jobs_names_their_plants() -> None:
    thorns, sap, saw = "Its thorns are long.", "The sap burns.", "Saw in pairs."
    jobs = [
        told("lemon", (saw, thorns)),
        told("fig", (saw, sap)),
        told("lime", (saw, thorns)),
    ]
    assert list(cautions_of_all(jobs)) == [saw, f"lemon and lime: {thorns}", f"fig: {sap}"]
    assert list(cautions_of_all(jobs[:1])) == [saw, thorns]


def test_a_plant_that_stands_in_two_of_the_jobs_is_named_once() -> None:
    limbs = "Look up first."
    alone = replace(told("ash", (limbs,)), plants=("ash",))
    both = replace(told("ash and pear", (limbs,)), plants=("ash", "pear"))
    assert list(cautions_of_all([alone, both, told("fig", ())])) == [f"ash and pear: {limbs}"]


def test_what_is_to_be_minded_at_many_plants_names_none() -> None:
    saw = "Saw in pairs."
    jobs = [told(f"pear-{n}", (saw,)) for n in range(4)]
    assert list(cautions_of_all([*jobs, told("fig", ())])) == [saw]


def test_of_what_is_picked_together_each_poison_is_told_of_its_plant(tmp_path: Path) -> None:
    """Rhubarb and ramsons come in the same weeks; only of rhubarb the blades are poisonous."""
    text = garden_text(plant("stalks", "rhubarb", year=2020), plant("wild", "ramsons", year=2020))
    almanac = almanac_of(tmp_path, text, "2027-05-01")
    (line,) = (line for line in almanac.round().lines if {job.verb for job in line.jobs} == {"pick"})
    said = list(cautions_of_all(line.jobs))
    assert [one.split(":")[0] for one in said if "leaf blades are poisonous" in one] == ["stalks"]
    assert [one.split(":")[0] for one in said if "lily of the valley" in one] == ["wild"]
