"""Values that note which of their fields are looked at, and how a value is spelt so that no two differ unnoticed.

Owns the classes such values have, which are those of the values with other readers for their fields. It must not know
what any value is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from functools import cache
from typing import Any, Final, NoReturn, TypeVar, cast

from linebook.source.exact import Fraction
from linebook.source.noted import note_field, note_look_up
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
        note_look_up((self._number, key))
        return self._values[key]

    def __contains__(self, key: object) -> bool:
        note_look_up((self._number, key))
        return key in self._values

    def __iter__(self) -> Iterator[str]:
        note_field(self._number)
        return iter(self._values)

    def __len__(self) -> int:
        note_field(self._number)
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
    for at, name in enumerate(names):
        if name not in quiet:
            type.__setattr__(made, f"_{name}", getattr(kind, name))
            type.__setattr__(made, name, property(_reader(f"_{name}", at)))
    return made


def _reader(held: str, at: int) -> Callable[[Any], Any]:
    """Return what reads a field, which is found as ``held``, too.

    It has a code of its own: Python learns from each what it mostly meets there, and that is then one class alone.
    """

    def look(value: Any, /, add: Callable[[int], None] = note_field) -> Any:
        add(value.__number__ + at)
        return value.held

    names = tuple(held if name == "held" else name for name in look.__code__.co_names)
    look.__code__ = look.__code__.replace(co_names=names)
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
