"""What a makeup answers to a question: which of its traces matter, and the most dangerous of the four answers.

A question is a set of words: substances, origins or foods. Contains comes before undeclared, undeclared before may
contain, and only where nothing is known against it is the answer free.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Final

from linebook.compute.makeup import Makeup, Trace
from linebook.compute.results import Answer

WORST_FIRST: Final = (Answer.CONTAINS, Answer.UNDECLARED, Answer.MAY, Answer.FREE)


def relevant(makeup: Makeup, wanted: Collection[str]) -> Makeup:
    """Return the part of a makeup that answers a question. What nobody has declared matters to every question."""
    return Makeup(
        contains=frozenset([trace for trace in makeup.contains if trace.substance in wanted]),
        may=frozenset([trace for trace in makeup.may if trace.substance in wanted]),
        undeclared=frozenset([one for one in makeup.undeclared if not one.substance or one.substance in wanted]),
    )


def words_of(makeup: Makeup) -> frozenset[str]:
    """Return every word that something in a makeup answers to; "" among them matters to every question."""
    traces = (*makeup.contains, *makeup.may, *makeup.undeclared)
    return frozenset([trace.substance for trace in traces])


def answer(of_question: Makeup) -> Answer:
    """Return the answer of what ``relevant`` has left."""
    if of_question.contains:
        return Answer.CONTAINS
    if of_question.undeclared:
        return Answer.UNDECLARED
    return Answer.MAY if of_question.may else Answer.FREE


def worst(answers: Iterable[Answer]) -> Answer:
    """Return the most dangerous of several answers; free where there are none."""
    given = set(answers)
    return next((one for one in WORST_FIRST if one in given), Answer.FREE)


def items_of(traces: Iterable[Trace]) -> tuple[str, ...]:
    """Return the bought items that bring these traces, sorted."""
    return tuple(sorted({trace.item for trace in traces}))


def media_of(traces: frozenset[Trace]) -> tuple[str, ...]:
    """Return the media that bring something which is not there without them."""
    through = [trace for trace in traces if trace.medium]
    if not through:
        return ()
    direct = {(trace.substance, trace.item) for trace in traces if not trace.medium}
    return tuple(sorted({trace.medium for trace in through if (trace.substance, trace.item) not in direct}))


def is_partly(traces: frozenset[Trace]) -> bool:
    """Return whether shared media bring some of it and not all."""
    return bool(media_of(traces)) and any(not trace.medium for trace in traces)
