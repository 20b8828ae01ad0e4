"""The section of a kind that tells what is picked of it, and when."""

from typing import Literal

from msgspec import Struct

from leafturn.kinds.fact import Fact, MonthDay

Winters = Literal["cold winters", "mild winters"]
RIPENING = ("fruit", "nut", "berries", "cones", "pods", "mast")  # parts picked that ripen
NO_FOOD = ("leaves for mulch", "mast")  # what is gathered for the ground, for sowing or for animals


class HarvestFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What is picked and when.

    Either `after_full_bloom_days`, counted where winters are cold or, as `counted_where` says, mild; or,
    for leaves, shoots and roots, the `season` in which they are picked in western and central Europe, from
    one month and day to another. Before `not_before`, a northern month and day, nothing is ripe however warm
    it is: for what waits for shorter days. Roots whose top stops growing on days of a mean under
    `stops_below_c` [degC] are lifted from then on, where that comes before their season. `keeps_days` is the
    range [d] the crop keeps in a cool cellar or, of nuts and dry herbs, dry and cool.
    """

    part: Fact[str] | None = None
    after_full_bloom_days: Fact[float] | None = None
    counted_where: Fact[Winters] | None = None
    season: Fact[tuple[MonthDay, MonthDay]] | None = None
    not_before: Fact[MonthDay] | None = None
    stops_below_c: Fact[float] | None = None
    length_days: Fact[float] | None = None
    spread_days: Fact[float] | None = None
    keeps_days: Fact[tuple[float, float]] | None = None

    @property
    def ripens(self) -> bool:
        """Whether what is picked is a fruit or a nut, which ripens; leaves, roots and flowers do not."""
        if self.part is None:
            return self.season is None
        return self.part.value in RIPENING

    @property
    def is_food(self) -> bool:
        """Whether what is picked is for the table."""
        return self.part is not None and self.part.value not in NO_FOOD
