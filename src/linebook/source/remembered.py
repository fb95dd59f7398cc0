"""Remembers what a function says of the values it was last asked about, by their identity.

For what is asked of one house a dozen times and looks the whole house through. It must not know what it remembers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import wraps
from typing import Any, Concatenate, Final, NamedTuple, ParamSpec, TypeVar

from linebook.source.frozen import frozen
from linebook.source.noted import Question, Seen, note_all, note_question, noting

H = TypeVar("H")
P = ParamSpec("P")
R = TypeVar("R")


class Answered(NamedTuple):
    """An answer, what it was given for, and what was looked at for it; None for what a question cannot hold."""

    values: tuple[object, ...]
    answer: Any
    seen: Seen
    question: Question | None


@frozen(kw_only=False)
class Remembering:
    """A function that is remembered, what it has answered of the ``last`` house, and that house."""

    ask: Callable[..., Any]
    known: dict[tuple[object, ...], Answered]
    answered: dict[Question, Answered]
    last: list[object]

    def is_of(self, house: object) -> bool:
        """Return whether what is known was answered of this house."""
        return bool(self.last) and self.last[0] is house

    def turn_to(self, house: object) -> None:
        """Forget what was answered of any other house."""
        if not self.is_of(house):
            self.last[:] = [house]
            self.forget()

    def forget(self) -> None:
        """Forget all that was answered."""
        self.known.clear()
        self.answered.clear()


REMEMBERING: Final[dict[str, Remembering]] = {}
"""Every function that is remembered, by its name."""


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
            own.turn_to(first)
        key = tuple([value if isinstance(value, str) else id(value) for value in values])
        found = known.get(key)
        if found is None:
            answer, seen = noting(lambda: ask(first, *values, **named))
            found = _know(own, key, Answered(values, answer, seen, question(name, values)))
        if found.question is not None:
            note_question(found.question)
        else:
            note_all(found.seen)
        answer_known: R = found.answer
        return answer_known

    own = REMEMBERING[name] = Remembering(asked, known, {}, last)
    return asked


def recall(name: str, first: object, values: Sequence[object], answered: Answered) -> None:
    """Let a function remember an answer that was worked out before, for an equal question of an equal house."""
    own = REMEMBERING[name]
    own.turn_to(first)
    key = tuple([value if isinstance(value, str) else id(value) for value in values])
    if key not in own.known:
        _know(own, key, answered)


def _know(own: Remembering, key: tuple[object, ...], answered: Answered) -> Answered:
    own.known[key] = answered
    if answered.question is not None:
        own.answered[answered.question] = answered
    return answered


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
