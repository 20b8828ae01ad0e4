"""Every heap as the Heaps page tells it: mix, water, course of warmth, ripeness, and where it goes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from leafturn.base import day_words, prose, quantities
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Heap
from leafturn.garden.reading.places import from_gate
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from leafturn.soil.compost import mix
from leafturn.soil.compost.batches import Batch, batch_of
from leafturn.soil.compost.heat_rule import HOT_C, HotDays, hot_days
from leafturn.soil.compost.maturity import air_of, maturity
from leafturn.soil.compost.recipe import WATER, faults_of, recipe_for
from leafturn.soil.compost.spreading import BARROW_LITRES, Spread, where_compost_goes
from leafturn.soil.compost.turning import too_hot_words
from leafturn.tasks.model import DUE, Job

SHRUNK_TO = 0.35  # guess: of a full bay a third is left as ripe compost
RECENT_DAYS = 365  # readings older than this belong to another heap, even if no emptying is noted
COURSE = 6
HOT_LASTS_DAYS = 7  # guess: a reading older than a week tells nothing of how hot a heap is
LEAST_KG = 0.5


class HeapView(Value):
    """One heap.

    Parameters
    ----------
    litres : float or None
        Of the full bay, or of ripe compost for one that is ready; None if the bay's size is not given.
    c_to_n, water_percent : float or None
        Of what went in, None where that is not written down.
    to_do : str
        What it wants now, in a few words.
    due : bool
        Whether that is work to be done now.
    mends : tuple of str
        What would put the mix right: one advice, or none.
    course : tuple of (date, degC)
        The latest readings, oldest first.
    turns : tuple of date
        When what lies in it was turned.
    says : tuple of str
        What the readings mean: turning, ripeness, days in the heat.
    spread : tuple of Spread
        Where it goes, the neediest first; only of a heap that is ready.
    """

    id: str
    name: str
    stage: str
    where: str
    litres: float | None
    c_to_n: float | None
    water_percent: float | None
    mixed_of: str
    to_do: str
    due: bool
    mends: tuple[str, ...]
    course: tuple[tuple[dt.date, float], ...]
    turns: tuple[dt.date, ...]
    says: tuple[str, ...]
    hot: HotDays
    mature: bool
    spread: tuple[Spread, ...]
    unknown: tuple[str, ...]
    job: str


def heap_views(day: GardenDay, ensemble: Ensemble, jobs: Sequence[Job]) -> tuple[HeapView, ...]:
    """Every heap of the garden file, in its order."""
    return tuple(_view(heap, day, ensemble, jobs) for heap in day.garden.heaps)


def _view(heap: Heap, day: GardenDay, ensemble: Ensemble, jobs: Sequence[Job]) -> HeapView:
    since = day.on - dt.timedelta(days=RECENT_DAYS)
    batch = batch_of(heap.id, day)
    readings = [(date, celsius) for date, celsius in batch.readings if since <= date]
    hot = hot_days(readings, (date for date in batch.turns if since <= date))
    mixed = mix.mix_of(heap.mix)
    turned = batch.turns[-1] if batch.turns else None
    ripe = maturity(readings, air_of(ensemble), turned if heap.stage == "working" else dt.date.min)
    too_hot = _too_hot(heap, readings, day)
    job = next((j for j in jobs if j.plant == heap.id and j.state in ("due", "late", "held", "soon")), None)
    litres = None if heap.bay_m is None else 1000.0 * heap.bay_m[0] * heap.bay_m[1] * heap.bay_m[2]
    if litres is not None and heap.stage == "ready":
        litres *= SHRUNK_TO
    gone = heap.stage == "ready" and batch.begun is not None and not batch.notes
    ready = heap.stage == "ready" and not gone
    # Of a heap without a size the first hundred litres are shared out; the page says the size is missing.
    spread = where_compost_goes(heap, litres or 100.0, day, ensemble.axis.year) if ready else ()
    mends = tuple(_mends(mixed, day.garden)) if heap.stage in ("filling", "working") else ()
    return HeapView(
        id=heap.id,
        name=heap.name or heap.id,
        stage=heap.stage,
        where=heap.words or from_gate(heap.point),
        litres=litres,
        c_to_n=mixed.c_to_n,
        water_percent=mixed.water_percent,
        mixed_of=", ".join(f"{quantities.kilograms(layer.kg)} {layer.what}" for layer in heap.mix),
        to_do=_to_do(heap, job, mends, spread, too_hot) if not gone else _emptied(batch),
        due=bool(too_hot) or (not gone and job is not None and job.state in DUE and job.counts_as != "empty"),
        mends=mends,
        turns=tuple(batch.turns),
        course=tuple(readings[-COURSE:]),
        says=tuple(_says(heap, job, ripe.says, too_hot, hot, batch)),
        hot=hot,
        mature=ripe.mature,
        spread=spread,
        unknown=mixed.unknown,
        job=job.id if job else "",
    )


def _emptied(batch: Batch) -> str:
    return f"emptied on {day_words.day(batch.begun)}" if batch.begun else "emptied"


def _too_hot(heap: Heap, readings: Sequence[tuple[dt.date, float]], day: GardenDay) -> str:
    """What a latest reading of too much heat means; empty where it is not, or is old."""
    limit = day.numbers["heap_too_hot_c"]
    if not readings or heap.stage == "empty":
        return ""
    on, celsius = readings[-1]
    if celsius < limit or (day.on - on).days > HOT_LASTS_DAYS:
        return ""
    return f"{quantities.celsius(celsius, 0)} {day_words.days_ago(on, day.on)}: {too_hot_words(limit)}"


def _mends(mixed: mix.Mix, garden: Garden) -> Iterable[str]:
    """What to add in kilograms and barrows, and what the mix then comes to: one advice for all its faults."""
    if mixed.c_to_n is None or mixed.water_percent is None:
        return
    faults = faults_of(mixed.c_to_n, mixed.water_percent)
    if not faults:
        return
    lain = {layer.what for heap in garden.heaps for layer in heap.mix}
    at_hand = [row for what in sorted(lain) if (row := mix.material(what)) is not None]
    recipe = recipe_for(mixed.parts, at_hand)
    fault = " and ".join(faults)
    if recipe is None:
        yield fault
        return
    added = " and ".join(_amount(part) for part in recipe.added if part.kg >= LEAST_KG)
    if not added:
        return
    yield f"{fault}: add {added} (then C:N {recipe.c_to_n:.0f}, water {recipe.water_percent:.0f} %)"


def _amount(part: mix.Part) -> str:
    more, kg = part.material, part.kg
    if more is WATER:
        return f"{quantities.litres(kg)} of water"
    if not more.kg_per_litre:
        return f"{quantities.kilograms(kg, 0)} {more.name}"
    barrows = prose.count(max(kg / more.kg_per_litre / BARROW_LITRES, 1), "barrow")
    return f"{quantities.kilograms(kg, 0)} {more.name}, about {barrows}"


def _heat_words(hot: HotDays) -> str:
    if not hot.days:
        return f"No reading of {quantities.celsius(HOT_C, 0)} or more is noted."
    turned = f"{prose.count(hot.turns, 'turning')} among them" if hot.turns else "not turned meanwhile"
    level = quantities.celsius(HOT_C, 0)
    here = f"Hot ({level} or more) on {prose.count(hot.days, 'day')} by the readings, {turned}"
    return f"{here}: do not count on weed seeds being dead."


def _to_do(heap: Heap, job: Job | None, mends: Sequence[str], spread: Sequence[Spread], too_hot: str) -> str:
    if too_hot:
        return "too hot: turn now, and wet it where it is dry"
    if job is not None and job.state in DUE:
        return f"{job.verb} now" if job.counts_as != "empty" else _spread_words(spread)
    if mends:
        return mends[0]
    if heap.stage == "ready" and spread:
        return _spread_words(spread)
    if job is not None and job.open.likely is not None:
        return f"{job.verb} from {day_words.day(job.open.likely)}"
    return {"filling": "goes on filling", "empty": "empty", "curing": "leave it to cure"}.get(
        heap.stage, "leave it"
    )


def _spread_words(spread: Sequence[Spread]) -> str:
    first = ", ".join(
        f"{s.plant} {quantities.bare_litres(s.litres)} {quantities.litres_unit()}" for s in spread[:3]
    )
    return f"spread: {first}" if first else "spread"


def _says(heap: Heap, job: Job | None, ripe: str, too_hot: str, hot: HotDays, batch: Batch) -> Iterable[str]:
    if batch.begun is not None:
        gone = f"The bay was emptied on {day_words.day(batch.begun)}; what was noted before is left out."
        stale = heap.stage == "ready" and not batch.notes
        yield f'{gone} Filled anew? Write stage = "filling" in the garden file.' if stale else gone
    if too_hot:
        yield too_hot
    elif job is not None and job.why:
        yield job.why[0]
    if heap.stage in ("working", "curing", "ready"):
        yield ripe
    if batch.readings and heap.stage != "empty":
        yield _heat_words(hot)
    if heap.bay_m is None:
        filled = quantities.litres_noun().lower()
        yield f"The bay's size is not written down: bay_m = [1.2, 1.2, 1.1] would give {filled}."
