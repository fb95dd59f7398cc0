"""What one reading has found so far: owns the list of faults and the ids that could not be read, no field types."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field, replace
from typing import Final

from linebook.model.units import Measures
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related, Severity, ValueMistake
from linebook.source.frozen import changing
from linebook.source.spans import Span

_MOST_RELATED: Final = 6


class Unread:
    """The type of ``UNREAD``."""


UNREAD: Final = Unread()
"""Stands for a value that could not be read; its fault has been reported already."""


@changing
class Reading:
    """Collects while spec files are read; local to one reading and never handed on.

    ``measures`` are those of the house, as far as they are known. ``cups_unread`` is true where house.yaml could not
    say what a cup, spoon or pint is, and ``vessels_unread`` holds the vessels of which it could not say what they
    hold (None: of all): a unit that is not known for that reason is not the fault of whoever uses it.
    ``losses`` counts the parts that could not be read, also those that were not reported a second time.
    ``refused`` are places in the file being read that its YAML reader has reported. ``known`` holds texts that have
    been read already by the same parser: a spec says ``20 min`` many times.
    """

    measures: Measures | None = None
    cups_unread: bool = False
    vessels_unread: frozenset[str] | None = frozenset()
    faults: list[Fault] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)
    incomplete: set[str] = field(default_factory=set)
    losses: int = 0
    refused: tuple[Span, ...] = ()
    known: dict[tuple[object, str], object] = field(default_factory=dict)

    def learn(self, measures: Measures) -> None:
        """Take in what the house's cups and vessels hold; what was read without knowing it is forgotten."""
        self.measures = measures
        self.known.clear()

    def report(self, code: str, message: str, span: Span, *hints: str) -> None:
        """Add a fault; empty hints are left out. What was refused as YAML already is not reported again."""
        self.losses += 1
        if self.is_refused(span):
            return
        self.faults.append(fault(code, message, span, hints=tuple(hint for hint in hints if hint)))

    def is_refused(self, span: Span) -> bool:
        """Return whether a part of this place was reported by the YAML reader."""
        return any(span.start < other.end and other.start < span.end for other in self.refused)

    def report_mistake(self, mistake: ValueMistake, span: Span) -> None:
        """Add the fault of a text that could not be read, unless house.yaml is the cause and has been reported."""
        if mistake.code == "LB317" and (self.cups_unread or self._is_told(mistake, span)):
            self.losses += 1
            return
        unread = self.vessels_unread
        if mistake.code == "LB302" and (unread is None or not unread.isdisjoint(span.text.split())):
            self.losses += 1
            return
        self.report(mistake.code, mistake.message, span, *mistake.hints)

    def _is_told(self, mistake: ValueMistake, span: Span) -> bool:
        """Add the place to the fault that tells of the same measure already; false where this is the first."""
        for number, told in enumerate(self.faults):
            if told.code == mistake.code and told.hints == mistake.hints:
                if len(told.related) < _MOST_RELATED:
                    related = (*told.related, Related(span=span, label="typed here too"))
                    self.faults[number] = replace(told, related=related)
                return True
        return False

    @property
    def is_clean(self) -> bool:
        """Return whether there is nothing to be said of what was read."""
        return not (self.faults or self.losses or self.broken or self.incomplete)

    def take(self, faults: Iterable[Fault]) -> None:
        """Add faults found by another reader; an error there is a part that could not be read."""
        for found in faults:
            self.faults.append(found)
            self.losses += found.severity is Severity.ERROR

    def trial(self) -> Reading:
        """Return an empty reading with the same measures, to try a value without reporting it."""
        return Reading(measures=self.measures, cups_unread=self.cups_unread, vessels_unread=self.vessels_unread)
