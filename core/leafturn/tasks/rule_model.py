"""The rules of tending as data: what is done to which plants, when, and why."""

from collections.abc import Iterable
from functools import cached_property, lru_cache
from typing import Literal

from msgspec import Struct
from msgspec.structs import astuple

from leafturn.base.closed_words import CountsAs, FloraName, HoldsBy, Land, Sex, WorldPart
from leafturn.garden.model import State
from leafturn.hazards.bark import GuardStage
from leafturn.journal.answer_words import AnswerWay
from leafturn.journal.job_id import verb_id
from leafturn.kinds.pruning import Climate, Phrases, each
from leafturn.toml.packaged import folder_of, packaged


class Applies(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, dict=True):
    """Which plants or heaps a rule is for. Every condition given must hold; lists mean any of them.

    Plants whose plan is to go, to move or undecided are left out unless `plans` names it; with
    `whatever_plan` they are not, as where something over a path may come down. `roots_followed` asks for
    kinds whose root zone is followed (leafturn.soil.water.root_zones), or for all others. `established` asks
    whether a plant of a kind that roots deep has stood where it is for some summers, whatever its age.
    `guard` asks for stems whose bark wants a guard, wears one, or has outgrown it (leafturn.hazards.bark).
    `sets` asks whether fruit is to be looked for this season, or hardly any sets for want of pollen.
    `frost_comes` asks whether
    autumn frost comes to this garden at all, be it in 1 year of 20, `climates` are words that must all hold
    of it (leafturn.season.climate); heaps are asked these two as well. `water_rests` asks
    whether winter fills the ground (leafturn.soil.water.deficit), `cold_harms` whether nights that harm its
    kind come here at all (leafturn.season.winter_cold), `cultivar_bears_winter` whether its cultivar is known
    by itself to bear the cold of the usual years. `answered` are ways chosen to help a tree
    without a partner (see leafturn.partners.decisions); with `answered_by`, a northern month and day, only in
    the first season that has that day after the answer. `damaged_by` are words of which the cause in a note
    of damage names one, this season or the one before. `dwarfing` asks for trees on a stock that keeps them
    under half their height (DWARFING_SHARE), or for all but these; `self_sown` for what came by itself.
    `cut_out` asks for climbers that are cut at the foot and led nowhere (leafturn.kinds.spreading), or for
    all but these, `unwelcome` for kinds that spread here, or for all others. `sex_told` asks whether the sex
    of a plant is known, where its kind has males and females.
    `floras` are parts of the world by what grows wild there (leafturn.kinds.wild); `not_in` are lands left
    out of `regions`, `coldest_month_over_c` and `coldest_month_under_c` bounds of the mean night [degC] of
    the coldest month. Places of which all words of `without_climates` hold are left out; `snow_over_mm` asks
    for so much water [mm] in the snow of a usual winter (leafturn.season.snow). `years_here` are those since
    it was planted or moved where it stands, from the first to under the second.
    """

    subject: Literal["plant", "heap"] = "plant"
    kinds: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    without_traits: tuple[str, ...] = ()
    habits: tuple[str, ...] = ()
    layers: tuple[str, ...] = ()
    sexes: tuple[Sex, ...] = ()
    sex_told: bool | None = None
    states: tuple[State, ...] = ()
    plans: tuple[str, ...] = ()
    whatever_plan: bool = False
    stages: tuple[str, ...] = ()
    younger_than: float | None = None
    older_than: float | None = None
    lower_than_m: float | None = None
    hosted: bool | None = None
    host_states: tuple[State, ...] = ()
    guard: tuple[GuardStage, ...] = ()
    roots_followed: bool | None = None
    established: bool | None = None
    picked: bool | None = None
    sets: bool | None = None
    flowering: bool | None = None
    parts: tuple[str, ...] = ()
    partners: tuple[str, ...] = ()
    answered: tuple[AnswerWay, ...] = ()
    answered_by: str | None = None
    without_answers: tuple[AnswerWay, ...] = ()
    carriers: tuple[str, ...] = ()
    holds_by: tuple[HoldsBy, ...] = ()
    hosts_climber: bool | None = None
    cut_out: bool | None = None
    unwelcome: bool | None = None
    evergreen: bool | None = None
    frost_comes: bool | None = None
    water_rests: bool | None = None
    climates: tuple[Climate, ...] = ()
    cold_harms: bool | None = None
    cultivar_bears_winter: bool | None = None
    floras: tuple[FloraName, ...] = ()
    frost_within_days: int | None = None
    frost_chance_over: float = 0.1
    regions: tuple[WorldPart, ...] = ()
    not_in: tuple[Land, ...] = ()
    coldest_month_over_c: float | None = None
    coldest_month_under_c: float | None = None
    without_climates: tuple[Climate, ...] = ()
    snow_over_mm: float | None = None
    damaged_by: tuple[str, ...] = ()
    dwarfing: bool | None = None
    self_sown: bool | None = None
    years_here: tuple[float, float] | None = None

    @cached_property
    def given(self) -> tuple[str, ...]:
        """The names of what a rule says of it."""
        both = zip(self.__struct_fields__, astuple(self), astuple(_NO_CONDITION), strict=True)
        return tuple(name for name, own, usual in both if own is not usual and own != usual)


_NO_CONDITION = Applies()


class Rule(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One rule of tending.

    `open`, `best` and `close` are moments (see leafturn.tasks.timing.phrases); of several, the window opens
    at the last and closes at the first; it is best done by the last. `winter` windows stand in the rest
    before the season. With `again` the job comes back within the season once done. `closed_by` names the
    kind of note that counts as doing it. `counts_as` is what else it comes to once done, which other pages
    reckon with, whatever its verb. `harm` is the cost of missing it: 0 none, 1 slight, 2 a crop,
    3 a plant or a person. `layer_cm` is the depth of what is spread, `water_mm` of what is poured: with
    either the reasons give litres and barrows. `look` names what there is to see where the job is only to
    look; such jobs are told together. `title_ahead` is what a job is called before its window opens, where
    something is then to be made ready. With `cut` the rule is for plants whose way of pruning
    (leafturn.kinds.pruning) has a cut of that name, and takes its dates and reasons from there.
    `too_late` says what a missed window means: "do not" where doing it now would harm, "gone by" where it
    would only be of no use, "still" where it stays late until it is done or let go.
    A rule that `follows` another, by its id, stands only where that one's job was done for the same plants in
    the months before: what was put on is taken off.
    `frost_cautions` are told while a frost of spring may still come.
    An `away` job is done elsewhere than at the plant.
    `{sleepers}` and `{slug eaters}` in a sentence are animals of the garden's part of the world.
    """

    id: str
    verb: str
    title: str
    title_ahead: str | None = None
    applies: Applies
    cut: str | None = None
    open: Phrases = ()
    close: Phrases = ()
    best: Phrases = ()
    winter: bool = False
    again: bool = False
    closed_by: str | None = None
    closed_by_stage: str | None = None
    counts_as: CountsAs | None = None
    together: Literal["guild", "kind", "garden"] | None = None
    soon_days: int = 7
    harm: float = 1.0
    minutes: float = 15.0
    minutes_each: float = 0.0
    layer_cm: float | None = None
    water_mm: float | None = None
    demands: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    look: str | None = None
    away: bool = False
    too_late: Literal["do not", "gone by", "still"] = "gone by"
    instead: str | None = None
    follows: str | None = None
    because: str = ""
    if_skipped: str
    cautions: tuple[str, ...] = ()
    frost_cautions: tuple[str, ...] = ()
    basis: Literal["handbook", "rule of thumb", "guess"] = "handbook"
    source: str = ""

    @property
    def phrases(self) -> tuple[str, ...]:
        """All its moments, as they are written."""
        return (*each(self.open), *each(self.best), *each(self.close))

    def __post_init__(self) -> None:
        """Ask for the dates and reasons of a rule that takes none from a way of pruning."""
        if self.cut is None:
            for key in ("open", "close", "best", "because", "source"):
                if not getattr(self, key):
                    raise ValueError(f"Object missing required field `{key}`")


class HoldRule(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A reason to wait: between two dates, after rain, or after a cold night.

    With `by_region` the dates are those of the region that the garden file states, where it has any; a
    region without them keeps the usual ones if the hold binds `everywhere`, else it is free. `regions`
    are the parts of the world in which it binds while no region is stated. Without dates of the region it
    starts with `start_in_cold` where winters are cold, but for the parts of the world in `cold_but_in`.
    """

    name: str
    reason: str
    start: str | None = None
    end: str | None = None
    start_in_cold: str | None = None
    cold_but_in: tuple[WorldPart, ...] = ()
    rain_mm: float | None = None
    dry_days: int = 2
    colder_than_c: float | None = None
    by_region: bool = False
    everywhere: bool = True
    regions: tuple[WorldPart, ...] = ()
    source: str

    @property
    def own_days(self) -> tuple[str, str]:
        """The names under `[rule]` of the steward's own first and last day."""
        key = self.name.replace(" ", "_")
        return f"{key}_from", f"{key}_to"


class RuleFile(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One file of rules."""

    rule: tuple[Rule, ...] = ()
    hold: tuple[HoldRule, ...] = ()


class RuleBook(Struct, frozen=True, kw_only=True):
    """All rules in force."""

    rules: tuple[Rule, ...]
    holds: dict[str, HoldRule]


@lru_cache(maxsize=1)
def load_rules() -> RuleBook:
    """The rules that come with the program, all files under `tasks/rules`.

    Raises
    ------
    msgspec.ValidationError
        If a packaged file is not of the shape above; a test reads them all.
    """
    files = sorted((folder_of("leafturn.tasks") / "rules").glob("*.toml"))
    return rule_book(packaged("leafturn.tasks", f"rules/{file.name}", RuleFile)() for file in files)


def verbs_that_count(rules: Iterable[Rule]) -> dict[CountsAs, frozenset[str]]:
    """Verbs, as they stand in ids of jobs, by what their rules count as.

    Parameters
    ----------
    rules : iterable of Rule
        Those in force; the program's own count besides, as notes may be of a rule since replaced.
    """
    found: dict[CountsAs, set[str]] = {}
    for rule in (*load_rules().rules, *rules):
        if rule.counts_as is not None:
            found.setdefault(rule.counts_as, set()).add(verb_id(rule.verb))
    return {word: frozenset(verbs) for word, verbs in found.items()}


def rule_book(files: Iterable[RuleFile]) -> RuleBook:
    """Several files made one; of two rules with one id the later holds."""
    rules: dict[str, Rule] = {}
    holds: dict[str, HoldRule] = {}
    for file in files:
        rules.update({rule.id: rule for rule in file.rule})
        holds.update({hold.name: hold for hold in file.hold})
    return RuleBook(rules=tuple(rules.values()), holds=holds)
