"""What a heap is made of: its ratio of carbon to nitrogen, and its water.

Notes
-----
With Q the fresh mass [kg], C and N hundredths of dry mass and M the water in hundredths of fresh mass,
C:N = sum Q C (100 - M) / sum Q N (100 - M), and water = sum Q M / sum Q (Rynk 1992, NRAES-54, recalled).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec import Struct

from leafturn.base.value import Value
from leafturn.garden.model import HeapLayer
from leafturn.toml.packaged import row_named, rows_by_name

# What composts best and what does: as in Manitoba Agriculture, Compost Elements (read), but for its 70 % of
# water; LSU AgCenter publication 3838-D, after NRAES-54 (read), has 65, and the same of carbon to nitrogen.
BEST_C_TO_N, FAIR_C_TO_N = (25.0, 30.0), (20.0, 40.0)
BEST_WATER, FAIR_WATER = (50.0, 60.0), (40.0, 65.0)


class Material(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One thing that goes into heaps.

    `carbon` and `nitrogen` are hundredths of dry mass [%], `water` of fresh mass [%]. `kg_per_litre` is
    how heavily it lies in a barrow, a guess; None where nobody measures it in barrows.
    """

    nitrogen: float
    carbon: float
    water: float
    source: str
    also: tuple[str, ...] = ()
    kg_per_litre: float | None = None
    name: str = ""

    @property
    def dry(self) -> float:
        """Dry share of fresh mass, 0 to 1."""
        return 1.0 - self.water / 100.0


class Part(Value):
    """So much [kg, fresh] of a material."""

    material: Material
    kg: float


class Mix(Value):
    """What a heap is made of, as far as its materials are known.

    `c_to_n` and `water_percent` are None where nothing of it is known; `unknown` are materials the table
    lacks, which are left out of the sum.
    """

    parts: tuple[Part, ...]
    c_to_n: float | None
    water_percent: float | None
    unknown: tuple[str, ...] = ()


materials = rows_by_name("leafturn.soil.compost", "materials.toml", Material)
"""Every known material by name."""


def material(name: str) -> Material | None:
    """A material by one of its names; None if the table lacks it."""
    return row_named(materials(), name)


def mix_of(layers: Iterable[HeapLayer]) -> Mix:
    """The mix that the layers of a heap make."""
    known = [(layer, material(layer.what)) for layer in layers]
    parts = tuple(Part(material=row, kg=layer.kg) for layer, row in known if row is not None and layer.kg)
    return Mix(
        parts=parts,
        c_to_n=c_to_n(parts) if parts else None,
        water_percent=water_percent(parts) if parts else None,
        unknown=tuple(layer.what for layer, row in known if row is None),
    )


def c_to_n(parts: Sequence[Part]) -> float:
    """Carbon to nitrogen by mass; inf where there is no nitrogen at all."""
    carbon = sum(p.kg * p.material.dry * p.material.carbon for p in parts)
    nitrogen = sum(p.kg * p.material.dry * p.material.nitrogen for p in parts)
    return carbon / nitrogen if nitrogen > 0 else math.inf


def water_percent(parts: Sequence[Part]) -> float:
    """Water in hundredths of fresh mass [%]; 0 for an empty heap."""
    mass = sum(p.kg for p in parts)
    return sum(p.kg * p.material.water for p in parts) / mass if mass > 0 else 0.0
