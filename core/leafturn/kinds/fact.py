"""One value of the plant library with its source, and the sources themselves."""

from typing import Generic, Literal, TypeVar

from msgspec import Struct

T = TypeVar("T")
Sure = Literal["sure", "fair", "guess"]


class Fact(Struct, Generic[T], frozen=True, array_like=True):
    """One value, the key of its source in sources.toml, how sure it is, and where in the source it stands.

    `at` is the page, table or row, such as "group XVI"; empty where the source itself tells enough.
    """

    value: T
    source: str
    sure: Sure
    at: str = ""


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
