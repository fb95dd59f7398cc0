"""The exact numbers that amounts are kept in: the standard library's fractions, whose commonest sums take a third.

A book of binders is a hundred thousand sums of such numbers with each other and with whole ones. Only these are done
here; whatever comes with another kind of number, and every text, is left to the class that is extended. It must not
know what is measured. Types are checked as if it were that class.
"""

from __future__ import annotations

import fractions
from math import gcd
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from fractions import Fraction
else:
    _new = object.__new__

    class Fraction(fractions.Fraction):
        """A fraction in lowest terms, as ``fractions.Fraction`` is: equal to it, with its hash, text and errors."""

        __slots__ = ()

        numerator = fractions.Fraction._numerator
        denominator = fractions.Fraction._denominator

        def __new__(cls, numerator: Any = 0, denominator: Any = None, **how: bool) -> Any:
            if type(numerator) is int:
                if denominator is None:
                    return _made(numerator, 1)
                if type(denominator) is int and denominator > 0 and not how:
                    return _reduced(numerator, denominator)
            elif type(numerator) is Fraction and denominator is None:
                return numerator
            return super().__new__(cls, numerator, denominator, **how)

        def __hash__(self) -> int:
            return hash(self._numerator) if self._denominator == 1 else super().__hash__()

        def __float__(self) -> float:
            return self._numerator / self._denominator

        def __neg__(self) -> Any:
            return _made(-self._numerator, self._denominator)

        def __abs__(self) -> Any:
            return _made(abs(self._numerator), self._denominator)

        def __add__(self, other: Any) -> Any:
            kind = type(other)
            if kind is Fraction:
                number = self._numerator * other._denominator + other._numerator * self._denominator
                return _reduced(number, self._denominator * other._denominator)
            if kind is int:
                return _made(self._numerator + other * self._denominator, self._denominator)
            return super().__add__(other)

        def __radd__(self, other: Any) -> Any:
            return self.__add__(other) if type(other) is int else super().__radd__(other)

        def __sub__(self, other: Any) -> Any:
            kind = type(other)
            if kind is Fraction:
                number = self._numerator * other._denominator - other._numerator * self._denominator
                return _reduced(number, self._denominator * other._denominator)
            if kind is int:
                return _made(self._numerator - other * self._denominator, self._denominator)
            return super().__sub__(other)

        def __rsub__(self, other: Any) -> Any:
            if type(other) is int:
                return _made(other * self._denominator - self._numerator, self._denominator)
            return super().__rsub__(other)

        def __mul__(self, other: Any) -> Any:
            kind = type(other)
            if kind is Fraction:
                return _reduced(self._numerator * other._numerator, self._denominator * other._denominator)
            if kind is int:
                return _reduced(self._numerator * other, self._denominator)
            return super().__mul__(other)

        def __rmul__(self, other: Any) -> Any:
            return self.__mul__(other) if type(other) is int else super().__rmul__(other)

        def __truediv__(self, other: Any) -> Any:
            kind = type(other)
            if kind is Fraction and other._numerator > 0:
                return _reduced(self._numerator * other._denominator, self._denominator * other._numerator)
            if kind is int and other > 0:
                return _reduced(self._numerator, self._denominator * other)
            return super().__truediv__(other)

        def __rtruediv__(self, other: Any) -> Any:
            if type(other) is int and self._numerator > 0:
                return _reduced(other * self._denominator, self._numerator)
            return super().__rtruediv__(other)

        def __eq__(self, other: Any) -> Any:
            kind = type(other)
            if kind is int:
                return self._numerator == other and self._denominator == 1
            if kind is Fraction:
                return self._numerator == other._numerator and self._denominator == other._denominator
            return super().__eq__(other)

        def __lt__(self, other: Any) -> Any:
            kind = type(other)
            if kind is int:
                return self._numerator < other * self._denominator
            if kind is Fraction:
                return self._numerator * other._denominator < other._numerator * self._denominator
            return super().__lt__(other)

        def __le__(self, other: Any) -> Any:
            kind = type(other)
            if kind is int:
                return self._numerator <= other * self._denominator
            if kind is Fraction:
                return self._numerator * other._denominator <= other._numerator * self._denominator
            return super().__le__(other)

        def __gt__(self, other: Any) -> Any:
            kind = type(other)
            if kind is int:
                return self._numerator > other * self._denominator
            if kind is Fraction:
                return self._numerator * other._denominator > other._numerator * self._denominator
            return super().__gt__(other)

        def __ge__(self, other: Any) -> Any:
            kind = type(other)
            if kind is int:
                return self._numerator >= other * self._denominator
            if kind is Fraction:
                return self._numerator * other._denominator >= other._numerator * self._denominator
            return super().__ge__(other)

    def _made(numerator: int, denominator: int) -> Fraction:
        made = _new(Fraction)
        made._numerator = numerator
        made._denominator = denominator
        return made

    def _reduced(numerator: int, denominator: int) -> Fraction:
        made = _new(Fraction)
        shared = gcd(numerator, denominator)
        if shared == 1:
            made._numerator, made._denominator = numerator, denominator
        else:
            made._numerator, made._denominator = numerator // shared, denominator // shared
        return made


__all__ = ("Fraction",)
