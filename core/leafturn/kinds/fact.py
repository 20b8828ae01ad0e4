"""One value of the plant library with its source, and the sources themselves."""

from typing import Annotated, Generic, Literal, TypeVar

from msgspec import Meta, Struct

from leafturn.base.evidence import Basis

T = TypeVar("T")
D = TypeVar("D")
Sure = Literal["sure", "fair", "guess"]
_DAYS = (
    r"(0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|1[0-9]|2[0-9])"
)
MonthDay = Annotated[str, Meta(pattern=f"^({_DAYS})$")]
"""A northern month and day such as "09-20"."""
SeasonStart = Annotated[str, Meta(pattern=f"^(season|{_DAYS})$")]
"""The same, or "season"."""


class Fact(Struct, Generic[T], frozen=True, array_like=True):
    """One value, the key of its source in sources.toml, how sure it is, and where in the source it stands.

    `at` is the page, table or row, such as "group XVI"; empty where the source itself tells enough.
    """

    value: T
    source: str
    sure: Sure
    at: str = ""


def value_of(fact: Fact[T] | None, otherwise: D) -> T | D:
    """A fact's value, or what serves where nothing is known."""
    return otherwise if fact is None else fact.value


def basis_of(sure: Sure) -> Basis:
    """What is told by a fact that is so sure."""
    return "guess" if sure == "guess" else "handbook"


class Source(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Where facts come from. `read` is False where the text was recalled from memory, not re-read.

    `note` holds further sentences, such as how values were converted.
    """

    title: str
    read: bool
    author: str = ""
    year: int | None = None
    where: str = ""
    note: tuple[str, ...] = ()
