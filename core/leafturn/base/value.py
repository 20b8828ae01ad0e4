"""What every value here is: frozen, told by name, and compared by what it holds."""

from __future__ import annotations

from dataclasses import Field, dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar, dataclass_transform


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
class Value:
    """Base of frozen values: a subclass lists its fields, which are given by their names.

    With `class X(Value, eq=False)` two values are equal only if they are one, as for those that hold arrays.
    """

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]

    def __init_subclass__(cls, *, eq: bool = True) -> None:
        """Make a frozen dataclass of the subclass."""
        super().__init_subclass__()
        dataclass(frozen=True, kw_only=True, eq=eq)(cls)
