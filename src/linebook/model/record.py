"""The base of every record read from a spec file: where it stands and where each field stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen
class Record:
    """``span`` is the record (its id or first line); ``spans`` holds each given field's value span.

    Names are those the chef types; where the attribute has another name, both are there (``from``, ``source``).
    For a list field the key ``name.0``, ``name.1`` … gives each item's span where it is a plain value; for a
    mapping of values (``mix``, ``amounts``, ``weighs``, ``covers``, ``avoid``) ``name.full`` gives the key's span.
    """

    span: Span = field(compare=False, repr=False)
    spans: Mapping[str, Span] = field(compare=False, repr=False)

    def at(self, name: str) -> Span:
        """Return the span of a field's value, or of the record where the field was not given."""
        return self.spans.get(name, self.span)
