"""Wording of faults: listing, numbers, and one report for one slip."""

from fractions import Fraction

import pytest

from linebook.check.words import gathered, listing, meant, number_text
from linebook.source.spans import SourceFile

SOURCE = SourceFile(path="x.yaml", text="butter\n" * 12)
SPANS = [SOURCE.span(at * 7, at * 7 + 6) for at in range(12)]


@pytest.mark.parametrize(
    ("words", "text"), [([], ""), (["a"], "`a`"), (["a", "b"], "`a` and `b`"), (["a", "b", "c"], "`a`, `b` and `c`")]
)
def test_listing(words, text):
    assert listing(words) == text


@pytest.mark.parametrize(
    ("number", "text"),
    [
        ("3", "3"),
        ("1/2", "0.5"),
        ("2/3", "0.667"),
        ("0.48", "0.48"),
        ("110", "110"),
        ("1/3000", "0.00033"),
        ("-18", "-18"),
    ],
)
def test_number_text(number, text):
    assert number_text(Fraction(number)) == text


def test_one_place_stands_alone():
    fault = gathered("LB201", "no item `x`", SPANS[:1], hints=("write `y`",))
    assert fault.span == SPANS[0]
    assert fault.related == ()
    assert fault.hints == ("write `y`",)


def test_further_places_stand_beside_the_first():
    fault = gathered("LB201", "no item `x`", SPANS[:3], label="also used here")
    assert [(related.span, related.label) for related in fault.related] == [(s, "also used here") for s in SPANS[1:3]]
    assert fault.hints == ()


def test_many_places_are_counted():
    fault = gathered("LB201", "no item `x`", SPANS)
    assert len(fault.related) == 6
    assert fault.hints == ("5 more places use it too",)
    assert gathered("LB201", "no item `x`", SPANS[:8]).hints == ("1 more place uses it too",)


def test_meant_gives_the_nearest_else_the_few_else_what_to_do():
    assert meant("buter", ["butter", "cream"], "add it") == "did you mean `butter`?"
    assert meant("xyzzy", ["butter", "cream"], "add it") == "write one of `butter` and `cream`, or add it"
    assert meant("xyzzy", [f"item-{n}" for n in range(20)], "add it") == "add it"
    assert meant("xyzzy", [], "add it") == "add it"
