"""Values that note which of their fields are looked at, and how a value is spelt so that no two differ unnoticed.

Owns the classes such values have, which are those of the values with other readers for their fields. It must not know
what any value is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import Any, Final, NoReturn, TypeVar, cast

from linebook.source.noted import NOTED, note
from linebook.source.spans import SourceFile, Span

T = TypeVar("T")

STEP: Final = 128
"""So many numbers each value has: more than any has fields."""


def following(value: T, number: int, quiet: Mapping[str, object] | None = None) -> T:
    """Return the same frozen value, which notes ``number`` and the place of each field that is looked at.

    ``quiet`` are fields that have another value here, and note themselves what is looked at of them.
    """
    kind: Any = type(value)
    instead = quiet or {}
    made: Any = object.__new__(_class_of(kind, tuple(instead)))
    for name, set_field, get_field in _slots(kind):
        set_field(made, instead[name] if name in instead else get_field(value))
    object.__setattr__(made, "__number__", number)
    return cast(T, made)


class Looked(Mapping[str, T]):
    """A mapping that notes what is looked up in it: an id with its number, or that alone for all there are."""

    def __init__(self, values: Mapping[str, T], number: int) -> None:
        self._values, self._number = values, number

    def __getitem__(self, key: str) -> T:
        note((self._number, key))
        return self._values[key]

    def __contains__(self, key: object) -> bool:
        note((self._number, key))
        return key in self._values

    def __iter__(self) -> Iterator[str]:
        note(self._number)
        return iter(self._values)

    def __len__(self) -> int:
        note(self._number)
        return len(self._values)


@cache
def _slots(kind: Any) -> tuple[tuple[str, Callable[[object, object], None], Callable[[object], object]], ...]:
    names = kind.__dataclass_fields__
    return tuple((name, getattr(kind, name).__set__, getattr(kind, name).__get__) for name in names)


@cache
def _class_of(kind: Any, quiet: tuple[str, ...]) -> type[Any]:
    names = tuple(kind.__dataclass_fields__)
    assert len(names) < STEP
    body: dict[str, Any] = {"__slots__": ("__number__",), "__init__": _refuse, "__reduce__": _refuse}
    made: type[Any] = type(kind.__name__, (kind,), body)
    number = made.__dict__["__number__"].__get__
    for at, name in enumerate(names):
        if name not in quiet:
            type.__setattr__(made, name, property(_reader(getattr(kind, name).__get__, number, at)))
    return made


def _reader(get: Callable[[object], Any], number: Callable[[object], int], at: int) -> Callable[[object], Any]:
    def look(value: object, /, add: Callable[[Any], None] = NOTED.add) -> Any:
        add(number(value) + at)
        return get(value)

    return look


def _refuse(*_: object, **__: object) -> NoReturn:
    raise TypeError("a value that is followed is neither copied nor sent")


def spelt(value: object) -> str:
    """Return a value in full, so that two are spelt the same only where all that can be told of them is the same.

    Where it stands in its file cannot; a followed value is its number, for its fields are noted themselves.
    """
    into: list[str] = []
    _spell(value, into.append)
    return "".join(into)


def _spell(value: Any, add: Callable[[str], None]) -> None:
    kind: Any = type(value)
    if kind is str or kind is int or value is None or kind is bool:
        add(f"{value!r},")
    elif kind is Fraction:
        add(f"{value.numerator}/{value.denominator},")
    elif kind is Span or kind is SourceFile:
        add("@,")
    elif hasattr(value, "__number__"):
        add(f"#{value.__number__},")
    elif kind is tuple or kind is list:
        add(f"({len(value)} ")
        for one in value:
            _spell(one, add)
        add(")")
    elif (names := _names_of(kind)) is not None:
        add(f"<{kind.__name__} ")
        for name in names:
            _spell(getattr(value, name), add)
        add(">")
    elif isinstance(value, Mapping):
        add(f"{{{len(value)} ")
        for name, one in value.items():
            _spell(name, add)
            _spell(one, add)
        add("}")
    elif isinstance(value, Enum):
        add(f"{kind.__name__}.{value.name},")
    elif isinstance(value, frozenset | set):
        add(f"[{len(value)} ")
        add("".join(sorted(map(spelt, value))))
        add("]")
    elif isinstance(value, tuple):  # one with names
        add(f"{kind.__name__}(")
        for one in value:
            _spell(one, add)
        add(")")
    else:
        add(f"{kind.__name__} {value!r},")


@cache
def _names_of(kind: Any) -> tuple[str, ...] | None:
    fields: Mapping[str, object] | None = getattr(kind, "__dataclass_fields__", None)
    return None if fields is None else tuple(fields)
