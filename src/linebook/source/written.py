"""Values written out as bytes for another process of ours, or for the next run; it must not know what any value is."""

from __future__ import annotations

import copyreg
import pickle
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from linebook.source.exact import Fraction


def pickled(value: object) -> bytes:
    """Return a value as it is sent, which what is read of a house is as here alone."""
    return pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)


def _read_only(values: Mapping[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(values)


# What is read of a house holds both: pickle does not know how to send the first, and sends the second as digits.
copyreg.pickle(MappingProxyType, lambda values: (_read_only, (dict(values),)))
copyreg.pickle(Fraction, lambda number: (Fraction, (number.numerator, number.denominator)))
