"""Classes of values: what ``@dataclass(frozen=True, slots=True, kw_only=True)`` makes, made sooner.

``dataclasses`` writes out and compiles six methods for each class. That takes over half a millisecond, and there are
two hundred such classes: it was a sixth of the time in which one card is printed. Here ``__init__`` alone is compiled,
when there are more than a few values of a class, and the others are shared. ``field``, ``fields``, ``replace`` and the
errors are those of ``dataclasses``. It must not know what any class is for.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import MISSING, Field, FrozenInstanceError, field
from operator import attrgetter
from typing import Any, Final, NoReturn, TypeAlias, TypeVar, dataclass_transform, overload

C = TypeVar("C")

_MADE_ANEW: Final = object()
"""Stands in a signature for a default that each value gets a new one of."""

_FEW: Final = 60
"""So many values of a class are made without compiling its ``__init__``, which takes as long as making these."""

_Step: TypeAlias = tuple[str, Callable[[object, Any], None], bool, Any, Any]
"""How one field is set: its name, its slot, whether it may be given, its default, what makes its default."""

_IS_FIELD: Final = vars(dataclasses)["_FIELD"]
"""The mark by which ``fields`` and ``replace`` tell a field from a class variable; it has no public name."""


@overload
def frozen(cls: type[C]) -> type[C]: ...
@overload
def frozen(*, eq: bool = True, kw_only: bool = True) -> Callable[[type[C]], type[C]]: ...
@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def frozen(cls: type[Any] | None = None, *, eq: bool = True, kw_only: bool = True) -> Any:
    """Return the class with a slot for each annotated name, given by name, compared by value and never set again.

    With ``eq=False`` a value is equal to itself alone; with ``kw_only=False`` fields are also given by their order.
    Every annotation is a field; there are no class variables.
    """
    shared = _SHARED | _GUARDING | (_COMPARING if eq else {})
    return _make(cls, kw_only, shared) if cls is not None else lambda given: _make(given, kw_only, shared)


@overload
def changing(cls: type[C]) -> type[C]: ...
@overload
def changing(*, kw_only: bool = True) -> Callable[[type[C]], type[C]]: ...
@dataclass_transform(eq_default=False, kw_only_default=True, field_specifiers=(field,))
def changing(cls: type[Any] | None = None, *, kw_only: bool = True) -> Any:
    """Return a class like a frozen one whose fields may be set again. A value is equal to itself alone."""
    return _make(cls, kw_only, _SHARED) if cls is not None else lambda given: _make(given, kw_only, _SHARED)


def _make(cls: type[Any], kw_only: bool, shared: Mapping[str, Any]) -> type[Any]:
    body = dict(vars(cls))
    inherited = {name: one for base in cls.__mro__[:0:-1] for name, one in _fields_of(base).items()}
    kinds = body.get("__annotations__", {})
    own = {name: _field(name, kind, body.pop(name, MISSING), kw_only) for name, kind in kinds.items()}
    every = inherited | own
    compared = [one.name for one in every.values() if one.compare]
    body.pop("__dict__", None)  # made by the class statement, for values without slots
    body.pop("__weakref__", None)
    body["__qualname__"] = cls.__qualname__
    body["__slots__"] = tuple(name for name in own if name not in inherited)
    body["__dataclass_fields__"] = every
    body["__compared__"] = staticmethod(attrgetter(*compared) if compared else type)
    body["__held__"] = staticmethod(_getter(tuple(every)))
    metaclass: Any = type(cls)
    made: type[Any] = metaclass(cls.__name__, cls.__bases__, {**shared, **body})
    type.__setattr__(made, "__init__", _first_initialiser(made, every))
    return made


def _fields_of(cls: type[Any]) -> Mapping[str, Field[Any]]:
    found: Mapping[str, Field[Any]] = vars(cls).get("__dataclass_fields__", {})
    return found


def _field(name: str, kind: object, given: Any, kw_only: bool) -> Field[Any]:
    one: Any = given if isinstance(given, Field) else field(default=given)
    one.name, one.type, one.kw_only, one._field_type = name, kind, kw_only, _IS_FIELD
    checked: Field[Any] = one
    return checked


def _first_initialiser(made: type[Any], every: Mapping[str, Field[Any]]) -> Any:
    """Return an ``__init__`` for the first values of a class, which puts the compiled one in its place for the rest.

    One command makes values of half the classes, and of most of these so few that compiling would take longer.
    """
    steps: list[_Step] = []
    made_so_far = 0

    def made_init(self: Any, *values: object, **named: Any) -> None:
        nonlocal made_so_far
        if not made_so_far:
            steps.extend(_steps(made, every))
        made_so_far += 1
        if values or made_so_far > _FEW or not _set_by_name(self, named, steps):
            compiled = _initialiser(made, every)  # it words what is wrong with what was given, too
            type.__setattr__(made, "__init__", compiled)
            compiled(self, *values, **named)
        elif hasattr(made, "__post_init__"):
            self.__post_init__()

    made_init.__qualname__ = f"{made.__qualname__}.__init__"
    return made_init


def _steps(made: type[Any], every: Mapping[str, Field[Any]]) -> Iterator[_Step]:
    """Yield how each field is set that is not left to ``__post_init__``."""
    for name, one in every.items():
        if one.init or one.default is not MISSING or one.default_factory is not MISSING:
            yield name, getattr(made, name).__set__, one.init, one.default, one.default_factory


def _set_by_name(value: object, named: Mapping[str, Any], steps: Sequence[_Step]) -> bool:
    """Set the fields of a value; False where a name is missing or is one too many."""
    taken = 0
    for name, set_field, is_given, default, make_default in steps:
        if is_given and name in named:
            taken += 1
            set_field(value, named[name])
        elif default is not MISSING:
            set_field(value, default)
        elif make_default is not MISSING:
            set_field(value, make_default())
        else:
            return False
    return taken == len(named)


def _initialiser(made: type[Any], every: Mapping[str, Field[Any]]) -> Any:
    """Compile ``__init__``. It sets each slot directly, past the guard that keeps it from being set again."""
    known: dict[str, Any] = {"_made_anew": _MADE_ANEW}
    by_order, by_name = ["self"], list[str]()
    lines: list[str] = []
    for name, one in every.items():
        value, default = name, one.default
        if one.default_factory is not MISSING:
            known[f"_new_{name}"], default = one.default_factory, _MADE_ANEW
            value = f"_new_{name}() if {name} is _made_anew else {name}"
        if default is not MISSING:
            known[f"_default_{name}"] = default
        if one.init:
            taken = by_name if one.kw_only else by_order
            taken.append(name if default is MISSING else f"{name}=_default_{name}")
        elif default is MISSING:
            continue  # left to ``__post_init__``
        else:
            lines.append(f" {name} = _default_{name}")
        known[f"_set_{name}"] = getattr(made, name).__set__
        lines.append(f" _set_{name}(self, {value})")
    if hasattr(made, "__post_init__"):
        lines.append(" self.__post_init__()")
    head = ", ".join([*by_order, "*", *by_name] if by_name else by_order)
    exec("\n".join([f"def __init__({head}):", *(lines or [" pass"])]), known)
    made_init = known["__init__"]
    made_init.__qualname__ = f"{made.__qualname__}.__init__"
    return made_init


def _refuse_setting(_self: object, name: str, _value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_deleting(_self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _show(self: Any) -> str:
    shown = [f"{name}={getattr(self, name)!r}" for name, one in self.__dataclass_fields__.items() if one.repr]
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _getter(names: tuple[str, ...]) -> Callable[[Any], tuple[object, ...]]:
    """Return what gets all the fields of a value at once, in their order."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda value: tuple(getattr(value, name) for name in names)


def _state(self: Any) -> tuple[object, ...]:
    held: tuple[object, ...] = self.__held__(self)
    return held


def _set_state(self: Any, state: tuple[object, ...]) -> None:
    for name, value in zip(self.__dataclass_fields__, state, strict=True):
        object.__setattr__(self, name, value)


def _is_equal(self: Any, other: Any) -> object:
    if type(other) is not type(self):
        return NotImplemented
    return other is self or self.__compared__(self) == self.__compared__(other)


def _hash(self: Any) -> int:
    return hash(self.__compared__(self))


_SHARED: Final[dict[str, Any]] = {"__repr__": _show, "__getstate__": _state, "__setstate__": _set_state}
_GUARDING: Final[dict[str, Any]] = {"__setattr__": _refuse_setting, "__delattr__": _refuse_deleting}
_COMPARING: Final[dict[str, Any]] = {"__eq__": _is_equal, "__hash__": _hash}
