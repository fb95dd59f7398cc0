"""The latest moments at which all limits between pairs of moments hold at once.

Each moment is one of those it is allowed, and no later than another lets it be: the later that one, the later this one
may be. Where all limits are of this kind, two ways to keep them all can be joined, the later moment of each taken, and
the join keeps them too. So there is one latest way, and going down from the latest moment of each finds it. Knows
moments only.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeAlias

from linebook.compute.slots import Slots

Rule: TypeAlias = Callable[[int], int]
"""By a moment, the latest that another may be: the later the one, the later the other."""

Mark: TypeAlias = tuple[list[int], int]
"""A state to go back to; see ``Bounds.mark``."""

_NONE: Final = -1


class Bounds:
    """Moments by number, each with the latest that it can be; see ``settle``."""

    def __init__(self) -> None:
        self.latest: list[int] = []
        self._allowed: list[Slots] = []
        self._bounded: list[list[tuple[int, int, Rule | None]]] = []
        self._woken: list[int] = []
        self._done: list[tuple[int, Slots | None]] = []
        self._is_empty = False

    def add(self, allowed: Slots) -> int:
        """Add a moment that may be any of these; return its number."""
        self.latest.append(allowed.bit_length() - 1)
        self._allowed.append(allowed)
        self._bounded.append([])
        self._is_empty |= not allowed
        return len(self.latest) - 1

    def limit(self, number: int, by: int, plus: int = 0, rule: Rule | None = None) -> None:
        """Have a moment be no later than so much after another, or after what a rule makes of that."""
        self._bounded[by].append((number, plus, rule))
        self._done.append((by, None))
        self._woken.append(by)

    def narrow(self, number: int, allowed: Slots) -> None:
        """Have a moment be one of these."""
        known = self._allowed[number]
        self._done.append((number, known))
        left = self._allowed[number] = known & allowed
        now = (left & ((1 << self.latest[number] + 1) - 1)).bit_length() - 1
        self._is_empty |= now == _NONE
        self.latest[number] = now
        self._woken.append(number)

    def settle(self) -> bool:
        """Bring every moment down to the latest at which all limits hold; return whether there is any."""
        latest, bounded, allowed, woken = self.latest, self._bounded, self._allowed, self._woken
        while woken and not self._is_empty:
            by = woken.pop()
            at = latest[by]
            for number, plus, rule in bounded[by]:
                bound = (at if rule is None else rule(at)) + plus
                if latest[number] > bound:
                    now = (allowed[number] & ((2 << bound) - 1)).bit_length() - 1 if bound >= 0 else _NONE
                    latest[number] = now
                    if now == _NONE:
                        self._is_empty = True
                        break
                    woken.append(number)
        return not self._is_empty

    def mark(self) -> Mark:
        """Return the state it is in, settled."""
        return list(self.latest), len(self._done)

    def back(self, mark: Mark) -> None:
        """Go back to a state that was marked, all added since then taken off."""
        latest, done = mark
        while len(self._done) > done:
            number, allowed = self._done.pop()
            if allowed is None:
                self._bounded[number].pop()
            else:
                self._allowed[number] = allowed
        del self._allowed[len(latest) :], self._bounded[len(latest) :]
        self.latest[:] = latest
        self._woken.clear()
        self._is_empty = False
