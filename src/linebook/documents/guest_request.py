"""What a table asks: its seats, and for each what a guest avoids, in the guest's words and as this house takes them.

Values only. Which words there are, and how they are typed, is not its business.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeAlias

from linebook.compute.avoidances import Avoidance
from linebook.compute.guest import DishVerdict
from linebook.source.frozen import frozen

Degree: TypeAlias = Literal["", "allergy", "intolerance", "preference"]
"""How strongly a guest avoids a thing. '' is not said. No answer depends on it."""


@frozen
class AskedWord:
    """One word of a guest, as it was typed, and what it is taken as; never nothing."""

    word: str
    avoidances: tuple[Avoidance, ...]


@frozen
class GuestSeat:
    """A guest, or several who ask the same. ``places`` are the seats' numbers or names; () where none was given."""

    places: tuple[str, ...]
    degree: Degree
    asked: tuple[AskedWord, ...]

    @property
    def avoidances(self) -> tuple[Avoidance, ...]:
        """Return all that the guest avoids, each once."""
        return tuple(dict.fromkeys(one for asked in self.asked for one in asked.avoidances))


@frozen
class GuestRequest:
    """A table and those of its seats that ask. ``table`` is '' where it was not given."""

    table: str
    seats: tuple[GuestSeat, ...]


@frozen
class AnsweredSeat:
    """A seat and what to do with every dish of the menu for it, in menu order."""

    seat: GuestSeat
    verdicts: tuple[DishVerdict, ...]


def answered(request: GuestRequest, verdicts: Sequence[tuple[DishVerdict, ...]]) -> tuple[AnsweredSeat, ...]:
    """Return the seats of a request with their verdicts, which come in the order of the seats."""
    return tuple(AnsweredSeat(seat=seat, verdicts=own) for seat, own in zip(request.seats, verdicts, strict=True))
