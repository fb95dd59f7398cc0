"""Remembers what a function says of the values it was last asked about, by their identity.

For what is asked of one house a dozen times and looks the whole house through. It must not know what it remembers.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar

H = TypeVar("H")
P = ParamSpec("P")
R = TypeVar("R")


def remembered(ask: Callable[Concatenate[H, P], R]) -> Callable[Concatenate[H, P], R]:
    """Return a function that gives again what it gave for the very same values, as long as the first of them stays.

    Words are told apart as words, all else by identity, because to compare two houses takes longer than most answers;
    values are held, so that no other takes their place. They are given in order; what is returned is never changed.
    """
    known: dict[tuple[object, ...], tuple[object, R]] = {}
    last: list[H] = []

    @wraps(ask)
    def asked(first: H, /, *values: P.args, **named: P.kwargs) -> R:
        if not last or last[0] is not first:
            last[:] = [first]
            known.clear()
        key = tuple([value if isinstance(value, str) else id(value) for value in values])
        found = known.get(key)
        if found is None:
            found = known[key] = (values, ask(first, *values, **named))
        return found[1]

    return asked
