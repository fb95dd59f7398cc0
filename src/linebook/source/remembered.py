"""Remembers what a function says of the values it was last asked about, by their identity.

For what is asked of one house a dozen times and looks the whole house through. It must not know what it remembers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import wraps
from typing import Any, Concatenate, Final, NamedTuple, ParamSpec, TypeAlias, TypeVar

from linebook.source.noted import note, note_all, noting

H = TypeVar("H")
P = ParamSpec("P")
R = TypeVar("R")

Question: TypeAlias = tuple[str, tuple[object, ...]]
"""What was asked: the name of the function, and the words, numbers of records and rows of words it was told."""


class Answered(NamedTuple):
    """An answer, what it was given for, and what was looked at for it; None for what ``Question`` cannot hold."""

    values: tuple[object, ...]
    answer: Any
    looked_at: frozenset[object]
    question: Question | None


REMEMBERING: Final[dict[str, tuple[Callable[..., Any], dict[tuple[object, ...], Answered], list[object]]]] = {}
"""Every function that is remembered, by its name, with what it has answered of the last house, and that house."""


def remembered(ask: Callable[Concatenate[H, P], R]) -> Callable[Concatenate[H, P], R]:
    """Return a function that gives again what it gave for the very same values, as long as the first of them stays.

    Words are told apart as words, all else by identity, because to compare two houses takes longer than most answers;
    values are held, so that no other takes their place. They are given in order; what is returned is never changed.
    Whoever asks notes the question: an answer can be the same though what was looked at for it is not.
    """
    return _remembering(ask, _question)


def gathered(ask: Callable[Concatenate[H, P], R]) -> Callable[Concatenate[H, P], R]:
    """Return a function that remembers as ``remembered`` does; whoever asks notes all that was looked at.

    For an answer about many things at once, of which each who asks takes his own part.
    """
    return _remembering(ask, lambda _name, _values: None)


def _remembering(
    ask: Callable[Concatenate[H, P], R], question: Callable[[str, tuple[object, ...]], Question | None]
) -> Callable[Concatenate[H, P], R]:
    known: dict[tuple[object, ...], Answered] = {}
    last: list[object] = []
    name = f"{ask.__module__}.{ask.__qualname__}"

    @wraps(ask)
    def asked(first: H, /, *values: P.args, **named: P.kwargs) -> R:
        if not last or last[0] is not first:
            last[:] = [first]
            known.clear()
        key = tuple([value if isinstance(value, str) else id(value) for value in values])
        found = known.get(key)
        if found is None:
            answer, looked_at = noting(lambda: ask(first, *values, **named))
            found = known[key] = Answered(values, answer, looked_at, question(name, values))
        if found.question is not None:
            note(found.question)
        else:
            note_all(found.looked_at)
        answer_known: R = found.answer
        return answer_known

    REMEMBERING[name] = (asked, known, last)
    return asked


def recall(name: str, first: object, values: Sequence[object], answered: Answered) -> None:
    """Let a function remember an answer that was worked out before, for an equal question of an equal house."""
    _, known, last = REMEMBERING[name]
    if not last or last[0] is not first:
        last[:] = [first]
        known.clear()
    known.setdefault(tuple([value if isinstance(value, str) else id(value) for value in values]), answered)


def _question(name: str, values: tuple[object, ...]) -> Question | None:
    """Return how a question is written down; None where it is about a value that cannot be."""
    told: list[object] = []
    for value in values:
        number = getattr(value, "__number__", None)
        if isinstance(value, str):
            told.append(value)
        elif isinstance(number, int):
            told.append(number)
        elif isinstance(value, tuple) and all(isinstance(one, str) for one in value):
            told.append(value)
        else:
            return None
    return name, tuple(told)
