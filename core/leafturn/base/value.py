"""What every value here is: frozen, told by name, and compared by what it holds."""

from __future__ import annotations

from typing import Any, dataclass_transform

import msgspec


class _ByName(msgspec.StructMeta):
    """Makes the fields of every subclass be given by name, which msgspec wants said class by class."""

    def __new__(mcs, name: str, bases: tuple[type, ...], body: dict[str, Any], **options: Any) -> _ByName:
        return super().__new__(mcs, name, bases, body, **{"kw_only": True, **options})


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(msgspec.field,))
class Value(msgspec.Struct, metaclass=_ByName, frozen=True, dict=True, weakref=True):
    """Base of frozen values: a subclass lists its fields, which are given by their names.

    With `class X(Value, eq=False)` two values are equal only if they are one, as for those that hold arrays;
    with `kw_only=False` the fields may be given in order. `msgspec.structs.replace` makes a changed copy.
    """
