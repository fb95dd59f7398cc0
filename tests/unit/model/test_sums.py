"""Sums over one denominator, held against Python's own sums of fractions."""

import random
from fractions import Fraction

from linebook.model.sums import sum_of


def test_of_nothing_is_nought():
    assert sum_of([]) == 0
    assert isinstance(sum_of([]), Fraction)


def test_is_what_adding_one_by_one_gives():
    chance = random.Random(7)
    for _ in range(500):
        numbers = [
            Fraction(chance.randint(-(10**6), 10**6), chance.choice((1, 1, 1, 3, 8, 1000, 7 * 10**9)))
            for _ in range(chance.randint(1, 12))
        ]
        assert sum_of(iter(numbers)) == sum(numbers, Fraction(0))
