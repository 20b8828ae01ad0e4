"""What to mind while picking stands on the picking job itself."""

from __future__ import annotations

from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

GARDEN = garden_text(
    plant("ramsons", "ramsons", year=2018, patch_m2=2, at=[0, 0]),
    plant("naked-lady", "autumn crocus", year=2018, at=[1, 0]),
    plant("elder", "black elder", year=2015, at=[9, 0]),
    plant("rhubarb", "rhubarb", year=2015, at=[5, 0]),
)


def test_a_picking_names_the_look_alikes_and_the_poisonous_plants_beside_it(tmp_path: Path) -> None:
    """Autumn crocus for ramsons, elder raw, rhubarb leaves (Frohne and Pfaender 2005)."""
    almanac = almanac_of(tmp_path, GARDEN, "2027-04-20")
    said = {}
    for job in almanac.jobs():
        if job.verb == "pick":
            said.setdefault(job.plant, " ".join(job.cautions))
    for name in ("ramsons", "elder", "rhubarb"):
        own = [
            caution.value for caution in almanac.library.match(almanac.garden.plant(name).kind).kind.cautions
        ]
        assert own
        assert all(caution in said[name] for caution in own), name
    assert "Poisonous plants that grow here: naked-lady" in said["ramsons"]
    assert "naked-lady" not in said["elder"]


def test_other_work_is_not_told_what_to_mind_while_picking(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, GARDEN, "2027-04-20")
    other = [job for job in almanac.jobs() if job.verb != "pick"]
    assert other
    assert not any("Poisonous plants that grow here" in c for job in other for c in job.cautions)
