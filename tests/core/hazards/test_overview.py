"""Hazards: roots of walnut kin, trees over paths, bark, look-alikes."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import Plant
from leafturn.hazards.juglone import root_reach
from leafturn.hazards.overview import Hazards
from leafturn.journal.entries import Done, LossNote
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import specimen_of

ON = dt.date(2027, 4, 19)
LIBRARY, _ = load_library()


def garden(folder: Path, *plants: str) -> Almanac:
    return almanac_of(folder, garden_text(*plants, climate=None), ON)


@pytest.fixture(scope="module")
def demo(weir_meadow: Almanac) -> Hazards:
    return weir_meadow.heed()


def test_roots_of_a_young_walnut_reach_as_far_as_it_is_high() -> None:
    """Ohio State HYG-1148: trees of 2 to 8 ft have a root spread of twice their height."""
    for metres in (0.6, 1.5, 2.4, 4.0):
        tree = Plant(id="w", kind="black walnut", year=2020, height_m=metres)
        growth = growth_of(specimen_of(tree, LIBRARY), Numbers({}), 2027)
        assert root_reach(growth, np.array([2027.0]))[0] == pytest.approx(metres, rel=0.05)


def test_a_grown_walnut_reaches_15_metres_and_its_zone_only_grows() -> None:
    """The same leaflet: 50 to 60 ft (15 to 18 m) on average for mature trees, growing with the tree."""
    growth = growth_of(specimen_of(Plant(id="w", kind="black walnut", year=2020), LIBRARY), Numbers({}), 2027)
    reach = root_reach(growth, np.arange(2027, 2120, dtype=float))
    assert (np.diff(reach) >= 0).all()
    assert 15.0 <= reach[-1] <= 18.5


WALNUT = (
    plant("walnut", "black walnut", year=2021, height_m=4, at=[0, 0]),
    plant("blue", "highbush blueberry", at=[10, 0]),
    plant("far", "highbush blueberry", at=[30, 0]),
    plant("band", "apple", at=[20, 0]),
    plant("bears", "black raspberry", at=[3, 0]),
)


def test_what_stands_10_20_and_30_metres_from_a_young_walnut(tmp_path: Path) -> None:
    """HYG-1148: 10 m is reached as it grows, 20 m lies in the outer band (to 80 ft), 30 m outside."""
    lines = {line.plant: line for line in garden(tmp_path, *WALNUT).heed().juglone}
    assert lines["blue"].where == "within reach later"
    assert lines["blue"].year is not None
    assert 2028 <= lines["blue"].year <= 2060
    assert lines["band"].where == "in the outer band"
    assert "far" not in lines
    assert "bears" not in lines, "black raspberry is listed as tolerant"


def test_a_persian_walnut_on_black_walnut_stock_gives_juglone() -> None:
    """HYG-1148: Persian walnuts are often grafted on black walnut."""
    grafted = specimen_of(Plant(kind="persian walnut", rootstock="black walnut"), LIBRARY)
    assert grafted.rootstock is not None
    assert grafted.rootstock.juglone is not None
    assert grafted.juglone == "producer"
    assert specimen_of(Plant(kind="apple", rootstock="MM106"), LIBRARY).juglone == "sensitive"


def test_the_demo_has_rhubarb_and_boskoop_in_reach_and_sea_buckthorn_unknown(demo: Hazards) -> None:
    found = {(line.tree, line.plant): line for line in demo.juglone}
    rhubarb, boskoop = found["heartnut-old", "rhubarb"], found["heartnut-old", "boskoop"]
    assert rhubarb.metres == pytest.approx(6.0, abs=0.05)
    assert boskoop.metres == pytest.approx(11.0, abs=0.05)
    assert {rhubarb.suffers, boskoop.suffers} == {"sensitive"}
    assert all("reach" in line.where for line in (rhubarb, boskoop))
    assert ("heartnut-old", "small-apple") not in found
    assert found["heartnut-old", "buckthorn-f1"].suffers == "not known"


def test_the_ash_by_the_path_and_who_to_call(demo: Hazards) -> None:
    (ash,) = [line for line in demo.falls if line.plant == "toll-ash"]
    (path,) = ash.falling.paths
    assert path.nearest_m == pytest.approx(6.0, abs=0.1)
    assert path.metres == pytest.approx(39.8, abs=0.2)
    assert any("inspector" in call for call in demo.calls)


def test_ramsons_show_their_look_alikes_and_the_daffodils_here(demo: Hazards) -> None:
    """Leaves of lily of the valley are mistaken for ramsons (Frohne and Pfaender 2005, recalled)."""
    (ramsons,) = [line for line in demo.look_alikes if line.plant == "ramsons"]
    assert "daffodils" in ramsons.here
    assert any("lily of the valley" in caution for caution in ramsons.cautions)


def test_nothing_is_called_safe(demo: Hazards) -> None:
    told = [line.says for group in (demo.falls, demo.juglone, demo.bark, demo.look_alikes) for line in group]
    assert not any("safe" in sentence.lower() for sentence in (*told, *demo.calls))


def test_strong_scented_low_cover_at_a_stem_is_told_and_a_guard_still_asked_for(tmp_path: Path) -> None:
    """Common practice, no source: daffodils and their like at the foot of young stems."""
    plants = (
        plant("young", "apple", year=2025, at=[0, 0]),
        plant("ring", "daffodil", at=[0, 1]),
        plant("guarded", "apple", year=2025, at=[9, 0], guard={"height_cm": 60, "year": 2026}),
    )
    bark = {line.plant: line for line in garden(tmp_path, *plants).heed().bark}
    assert bark["young"].scented == ("ring",)
    assert "a guard does" in bark["young"].says
    assert "guarded" not in bark


GUARDED = (
    plant("old-guard", "apple", year=2019, at=[0, 0], guard={"height_cm": 60, "year": 2019}),
    plant("young-kiwi", "hardy kiwi", year=2025, at=[9, 0]),
    plant("snag", "common ash", year=1930, state="dead standing", height_m=9, at=[60, 0]),
)


def test_a_guard_looked_at_lately_is_not_asked_about(tmp_path: Path) -> None:
    """Common practice, no source: three years are as long as a guard may go unseen (a guess)."""
    almanac = garden(tmp_path, *GUARDED)
    (line,) = [b for b in almanac.heed().bark if b.plant == "old-guard"]
    assert (line.matter, line.years) == ("guard old", 8)
    seen = Done(on=dt.date(2026, 5, 2), task="garden:loosen-guard:2026")
    looked, _ = almanac.note(seen, seen.on)
    assert not [b for b in looked.heed().bark if b.plant == "old-guard"]
    other = Done(on=dt.date(2026, 5, 2), task="young-kiwi:loosen-guard:2026")
    elsewhere, _ = garden(tmp_path / "two", *GUARDED).note(other, other.on)
    assert [b for b in elsewhere.heed().bark if b.plant == "old-guard"]


def test_a_plant_whose_forerunner_was_gnawed_wants_a_guard_whatever_its_kind(tmp_path: Path) -> None:
    almanac = garden(tmp_path, *GUARDED)
    assert not [b for b in almanac.heed().bark if b.plant == "young-kiwi"]
    lost = LossNote(on=dt.date(2024, 3, 9), plant="first-young-kiwi", cause="voles")
    almanac, _ = almanac.note(lost, lost.on)
    (line,) = [b for b in almanac.heed().bark if b.plant == "young-kiwi"]
    assert line.lost == "voles"
    assert "Lost here before to voles." in line.says


def test_a_dead_tree_that_reaches_nothing_is_told_apart_and_never_called_safe(tmp_path: Path) -> None:
    (snag,) = garden(tmp_path, *GUARDED).heed().falls
    assert not snag.falling.paths
    assert "look yourself for roads, wires and neighbours" in snag.says
    assert "safe" not in snag.says


def test_climbers_and_shrubs_get_their_guard_and_a_day_to_take_it_off(tmp_path: Path) -> None:
    """Whatever Heed calls unguarded has its job in autumn; after nine years (a guess) guards come off."""
    plants = (
        plant("kiwi", "hardy kiwi", year=2025, at=[0, 0]),
        plant("hazel", "hazel", year=2025, at=[9, 0]),
        plant("old", "apple", year=2012, at=[20, 0], guard={"height_cm": 60, "year": 2013}),
        plant("young", "apple", year=2024, at=[30, 0], guard={"height_cm": 60, "year": 2025}),
    )
    loss = LossNote(on=dt.date(2024, 2, 1), plant="kiwi", cause="voles")
    almanac = almanac_of(tmp_path, garden_text(*plants), ON, loss)
    jobs = {job.verb: set(job.plants or (job.plant,)) for job in almanac.jobs() if "guard" in job.verb}
    on = {job.plant for job in almanac.jobs() if job.verb == "put guard on"}
    bare = {line.plant: line for line in almanac.heed().bark if line.matter == "no guard"}
    assert on == set(bare) == {"kiwi", "hazel"}
    assert "may come off in spring 2034" in bare["kiwi"].says
    assert jobs["loosen guard"] == {"young"}
    assert jobs["take guard off"] == {"old"}
    off = next(job for job in almanac.jobs() if job.verb == "take guard off")
    assert off.state in ("due", "soon")
    after, _ = almanac.note(Done(on=ON, task=off.id), ON)
    assert not [line for line in after.heed().bark if line.plant == "old"]


def test_only_diseases_that_plants_here_may_get_are_named_for_the_office(tmp_path: Path) -> None:
    """Fire blight is of pome fruit and its kin, oak wilt of oaks, ash dieback of ashes: common practice."""
    apple = " ".join(garden(tmp_path, plant("apple", "apple")).heed().calls)
    assert "Signs of fire blight: the plant health office" in apple
    both = " ".join(garden(tmp_path, plant("ash", "common ash"), plant("oak", "white oak")).heed().calls)
    assert "Signs of ash dieback and oak wilt: the plant health office" in both
    none = " ".join(garden(tmp_path, plant("comfrey", "comfrey")).heed().calls)
    assert "blight" not in none
    assert "the plant health office says whether to report it." in none
