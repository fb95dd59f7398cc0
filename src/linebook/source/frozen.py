"""Classes of values: what ``@dataclass(frozen=True, slots=True, kw_only=True)`` makes, made sooner.

``dataclasses`` writes out and compiles six methods for each class. That takes over half a millisecond, and there are
two hundred such classes: it was a sixth of the time in which one card is printed. Here ``__init__`` alone is compiled,
once for all classes whose fields are alike but for their names, and the others are shared. ``field``, ``fields``,
``replace`` and the errors are those of ``dataclasses``. It must not know what any class is for.
"""

from __future__ import annotations

import copyreg
import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import MISSING, Field, FrozenInstanceError, field
from functools import cache
from operator import attrgetter
from types import CodeType, FunctionType
from typing import Any, Final, NoReturn, TypeAlias, TypeVar, dataclass_transform, overload

C = TypeVar("C")

_WRITTEN: Final = attrgetter("__remake__", "__held__")
"""How pickle is told of a value: what makes it again, and of what. No line of Python is run for it: a house has
tens of thousands."""

_MADE_ANEW: Final = object()
"""Stands in a signature for a default that each value gets a new one of."""

_FEW: Final = 60
"""So many values of a class are made without compiling its ``__init__``, which takes as long as making these."""

_USUAL: Final = 12
"""So many plain fields has a class at the most whose ``__init__`` is compiled once for all classes with as many."""

_Way: TypeAlias = tuple[bool, bool, bool, bool]
"""Whether a field is given by name alone, may be given, gets a new default each time; if not by name, has a default."""

_PLAIN: Final[_Way] = (True, True, False, False)

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
    body["__held__"] = property(attrgetter("__class__", *every) if every else lambda value: (type(value),))
    metaclass: Any = type(cls)
    made: type[Any] = metaclass(cls.__name__, cls.__bases__, {**shared, **body})
    type.__setattr__(made, "__init__", _first_initialiser(made, every))
    copyreg.dispatch_table[made] = _WRITTEN
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
        if not made_so_far and not _is_usual(made, every):
            steps.extend(_steps(made, every))
        made_so_far += 1
        if values or not steps or made_so_far > _FEW or not _set_by_name(self, named, steps):
            compiled = _initialiser(made, every)  # it words what is wrong with what was given, too
            type.__setattr__(made, "__init__", compiled)
            compiled(self, *values, **named)
        elif hasattr(made, "__post_init__"):
            self.__post_init__()

    made_init.__qualname__ = f"{made.__qualname__}.__init__"
    return made_init


def _is_usual(made: type[Any], every: Mapping[str, Field[Any]]) -> bool:
    """Return whether the ``__init__`` of a class is compiled together with that of many others."""
    plain = all(_way(one) == _PLAIN for one in every.values())
    return plain and len(every) <= _USUAL and not hasattr(made, "__post_init__")


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
    """Return the compiled ``__init__``. It sets each slot directly, past the guard that keeps it from a second time."""
    known: dict[str, Any] = {"_made_anew": _MADE_ANEW}
    by_order, by_name = list[str](), list[str]()
    defaults: dict[str, Any] = {}
    for at, (name, one) in enumerate(every.items()):
        default = one.default
        if one.default_factory is not MISSING:
            known[f"_new_{at}"], default = one.default_factory, _MADE_ANEW
        if one.init:
            (by_name if one.kw_only else by_order).append(name)
            if default is not MISSING:
                defaults[name] = default
        else:
            known[f"_given_{at}"] = default
        known[f"_set_{at}"] = getattr(made, name).__set__
    code = _shared_code(tuple(map(_way, every.values())), hasattr(made, "__post_init__"))
    code = code.replace(co_varnames=("self", *by_order, *by_name))
    usual = tuple(defaults[name] for name in by_order if name in defaults)
    made_init = FunctionType(code, known, "__init__", usual)
    made_init.__kwdefaults__ = {name: defaults[name] for name in by_name if name in defaults}
    made_init.__qualname__ = f"{made.__qualname__}.__init__"
    return made_init


def _way(one: Field[Any]) -> _Way:
    """Return what there is to know of a field to compile how it is set."""
    is_anew = one.default_factory is not MISSING
    is_named = one.init and one.kw_only is True
    return is_named, one.init, is_anew, not is_named and (is_anew or one.default is not MISSING)


@cache
def _shared_code(ways: tuple[_Way, ...], is_finished: bool) -> CodeType:
    """Return the compiled ``__init__`` of all classes whose fields are set in these ways, without their names.

    To compile takes thirty times as long as to put in other names, and most classes have a few plain fields.
    ``is_finished`` says that there is a ``__post_init__``.
    """
    by_order, by_name = ["self"], list[str]()
    lines: list[str] = []
    for at, (is_named, is_given, is_anew, has_default) in enumerate(ways):
        if is_given:
            (by_name if is_named else by_order).append(f"f{at}=0" if has_default else f"f{at}")
        elif not has_default:
            continue  # left to ``__post_init__``
        value = f"f{at}" if is_given else f"_given_{at}"
        if is_anew:
            value = f"_new_{at}() if {value} is _made_anew else {value}"
        lines.append(f" _set_{at}(self, {value})")
    if is_finished:
        lines.append(" self.__post_init__()")
    head = ", ".join([*by_order, "*", *by_name] if by_name else by_order)
    known: dict[str, Any] = {}
    exec("\n".join([f"def __init__({head}):", *(lines or [" pass"])]), known)
    code: CodeType = known["__init__"].__code__
    return code


def _refuse_setting(_self: object, name: str, _value: object) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_deleting(_self: object, name: str) -> NoReturn:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _show(self: Any) -> str:
    shown = [f"{name}={getattr(self, name)!r}" for name, one in self.__dataclass_fields__.items() if one.repr]
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _remake(kind: Any, *held: object) -> object:
    """Return the value of a class that holds these in its fields."""
    made = object.__new__(kind)
    for set_field, value in zip(_setters(kind), held, strict=True):
        set_field(made, value)
    return made


@cache
def _setters(kind: Any) -> tuple[Callable[[object, object], None], ...]:
    return tuple(getattr(kind, name).__set__ for name in kind.__dataclass_fields__)


def _is_equal(self: Any, other: Any) -> object:
    if type(other) is not type(self):
        return NotImplemented
    return other is self or self.__compared__(self) == self.__compared__(other)


def _hash(self: Any) -> int:
    return hash(self.__compared__(self))


_SHARED: Final[dict[str, Any]] = {"__repr__": _show, "__remake__": staticmethod(_remake)}
_GUARDING: Final[dict[str, Any]] = {"__setattr__": _refuse_setting, "__delattr__": _refuse_deleting}
_COMPARING: Final[dict[str, Any]] = {"__eq__": _is_equal, "__hash__": _hash}
