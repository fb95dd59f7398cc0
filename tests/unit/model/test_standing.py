"""How high things stand: worked out by hand from the heights the spec gives."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest

from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.dish import Element, Place, Shape
from linebook.model.house import Plate, PlateShape
from linebook.model.plating import lay_out
from linebook.model.standing import USUAL_HEIGHT, depth, is_built, reach_at, stand, surface
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="dishes/x.md", text="x").whole(), "spans": {}}
EACH = Unit(key="each", kind=Kind.COUNT, symbol="piece", plural="pieces", counts="each")
CENTRE = (Place(clock=None),)


def plate(shape=PlateShape.ROUND, length=280, width=280, rim=40):
    return Plate(**AT, id="p", name="p", shape=shape, length=Fraction(length), width=Fraction(width), rim=Fraction(rim))


def element(item, shape, height=None, *, on=None, places=CENTRE, reach=None, size=(60, 60)):
    return Element(
        **AT, item=item, amount=Amount(number=Fraction(1), unit=EACH), shape=shape, places=places, reach=reach, on=on,
        height=None if height is None else Fraction(height), size=(Fraction(size[0]), Fraction(size[1])),
    )  # fmt: skip


def heights(*elements, on=None):
    return [(one.bottom, one.top) for one in stand(elements, lay_out(elements, on or plate()), on or plate())]


def test_layers_stand_on_each_other():
    """A sponge of 20, cream of 8 on it, a disc of 3 on the cream: 0-20, 20-28, 28-31."""
    assert heights(
        element("sponge", Shape.PIECE, 20),
        element("cream", Shape.LINE, 8, on="sponge"),
        element("disc", Shape.DISC, 3, on="cream"),
    ) == [(0, 20), (20, 28), (28, 31)]


def test_what_stands_on_one_element_at_one_place_is_piled_up():
    assert heights(
        element("meat", Shape.PIECE, 30),
        element("crumb", Shape.POWDER, 2, on="meat"),
        element("leaf", Shape.LEAVES, 5, on="meat"),
    ) == [(0, 30), (30, 32), (32, 37)]


def test_what_no_spec_sets_on_another_stands_on_the_plate():
    assert heights(element("purée", Shape.POOL, 3), element("fish", Shape.PIECE, 30)) == [(0, 3), (0, 30)]


def test_a_round_mound_is_lower_towards_its_edge():
    """18 mm out on a mound of radius 30 and height 20, set on at 3 o'clock with the rim 100 mm out."""
    out = element("leaf", Shape.LEAVES, 4, on="mound", places=(Place(clock=Fraction(3)),), reach=Fraction(18, 100))
    (_, (bottom, _)) = heights(element("mound", Shape.MOUND, 20), out)
    assert bottom == pytest.approx(20 * sqrt(1 - 0.6**2))


def test_what_is_set_beside_its_base_does_not_float():
    beside = element("crisp", Shape.PIECE, 10, on="mound", places=(Place(clock=Fraction(3)),), reach=Fraction(9, 10))
    assert heights(element("mound", Shape.MOUND, 20), beside)[1] == (0, 10)


@pytest.mark.parametrize("shape", list(Shape))
def test_a_height_not_given_is_the_usual_one_of_the_shape(shape):
    assert heights(element("thing", shape))[0] == (0, USUAL_HEIGHT[shape])


def test_a_rim_rises_and_a_bowl_is_deep():
    """A rim of 40 rises 0.35 of its width, 14 mm; a bowl 200 mm across inside is 0.28 of that deep, 56 mm."""
    flat, bowl = plate(), plate(PlateShape.BOWL)
    assert (surface(flat, 0, 0), surface(flat, 99, 0), surface(flat, 140, 0)) == (0, 0, pytest.approx(14))
    assert (depth(flat), depth(bowl)) == (0, pytest.approx(56))
    assert surface(bowl, 100, 0) == pytest.approx(56)
    assert reach_at(bowl, surface(bowl, 70, 0)) == pytest.approx(70)
    assert reach_at(flat, 5) == 140


def test_what_is_stiff_lies_on_a_bowl_s_wall():
    """A disc of 120 mm in a bowl 200 mm across inside: its edge is 0.6 of the way out, 56 x 0.6^4 up."""
    assert heights(element("toast", Shape.DISC, 8, size=(120, 120)), on=plate(PlateShape.BOWL))[0][0] == pytest.approx(
        56 * 0.6**4
    )


@pytest.mark.parametrize(
    ("elements", "built"),
    [
        ((element("a", Shape.PIECE),), False),
        ((element("a", Shape.PIECE), element("salt", Shape.POWDER, on="a")), False),
        ((element("a", Shape.POOL), element("b", Shape.PIECE, on="a")), True),
        ((element("a", Shape.PIECE, 12),), True),
        ((), False),
    ],
)
def test_when_a_dish_is_seen_from_the_side(elements, built):
    assert is_built(elements) is built
