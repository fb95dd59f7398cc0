"""Plate drawings on generated dishes: leaders never meet, numbers follow plating order, proportions are true."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linebook.figures.leaders import NUMBER_RADIUS
from linebook.figures.plates import LARGE, draw_plate
from linebook.figures.shapes import Drawing, Ellipse, Ink, Label, Polygon
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.dish import Element, Place, Shape
from linebook.model.house import Plate, PlateShape
from linebook.model.plating import Laid, lay_out, overhang, point_at
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="dishes/x.md", text="x").whole()
EACH = Unit(key="each", kind=Kind.COUNT, symbol="piece", plural="pieces", counts="each")
GRAM = Unit(key="g", kind=Kind.MASS, symbol="g", plural="g")


def plate(shape: PlateShape = PlateShape.ROUND, length: int = 280, width: int = 280, rim: int = 40) -> Plate:
    return Plate(
        span=SPAN, spans={}, id="p", name="p", shape=shape,
        length=Fraction(length), width=Fraction(width), rim=Fraction(rim),
    )  # fmt: skip


def element(item: str, number: int, unit: Unit, shape: Shape, *places: int, **more: object) -> Element:
    where = tuple(Place(clock=Fraction(hour) if hour else None) for hour in places)
    amount = Amount(number=Fraction(number), unit=unit)
    return Element(span=SPAN, spans={}, item=item, amount=amount, shape=shape, places=where, **more)  # type: ignore[arg-type]


@st.composite
def dishes(draw: st.DrawFn) -> tuple[Element, ...]:
    made: list[Element] = []
    for index in range(draw(st.integers(1, 14))):
        on = draw(st.none() | st.sampled_from([e.item for e in made])) if made else None
        made.append(
            element(
                f"item-{index}",
                draw(st.integers(1, 6)),
                draw(st.sampled_from([EACH, GRAM])),
                draw(st.sampled_from(list(Shape))),
                *draw(st.lists(st.integers(0, 12), max_size=3)),
                reach=Fraction(draw(st.integers(0, 8)), 10),
                on=on,
            )
        )
    return tuple(made)


def leaders(drawing: Drawing) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """The leaders, read from the drawing itself: the wide white lines drawn under each."""
    lines = [
        s for s in drawing.shapes if isinstance(s, Polygon) and s.ink == Ink(width=0.9, stroke=1.0) and not s.closed
    ]
    return [(line.points[0], line.points[1]) for line in lines]


def meet(a: tuple, b: tuple) -> bool:
    """Textbook orientation test for two closed segments."""

    def turn(p: tuple, q: tuple, r: tuple) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    (p, q), (r, s) = a, b
    return turn(p, q, r) * turn(p, q, s) < 0 and turn(r, s, p) * turn(r, s, q) < 0


@given(dishes(), st.sampled_from(list(PlateShape)))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_leaders_never_meet_and_every_element_has_its_number(elements: tuple[Element, ...], shape: PlateShape) -> None:
    drawing = draw_plate(plate(shape), elements, small=False, alternative="x")
    lines = leaders(drawing)
    labels = [s for s in drawing.shapes if isinstance(s, Label)]
    assert [label.text for label in labels] == [str(n + 1) for n in range(len(elements))]
    assert not [pair for pair in combinations(lines, 2) if meet(*pair)]
    for a, b in combinations(labels, 2):
        assert hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) > 2 * NUMBER_RADIUS
    for label in labels:
        assert NUMBER_RADIUS <= label.at[0] <= drawing.width - NUMBER_RADIUS
        assert NUMBER_RADIUS <= label.at[1] <= drawing.height - NUMBER_RADIUS


def test_no_leader_runs_through_another_number() -> None:
    elements = tuple(element(f"i{n}", 1, GRAM, Shape.MOUND, n % 12 + 1) for n in range(12))
    drawing = draw_plate(plate(), elements, small=False, alternative="x")
    labels = [s.at for s in drawing.shapes if isinstance(s, Label)]
    for own, (start, end) in enumerate(leaders(drawing)):
        for number, at in enumerate(labels):
            if number == own:
                continue
            along = [
                (start[0] + (end[0] - start[0]) * k / 200, start[1] + (end[1] - start[1]) * k / 200) for k in range(201)
            ]
            assert min(hypot(x - at[0], y - at[1]) for x, y in along) > NUMBER_RADIUS


@pytest.mark.parametrize(("length", "width"), [(280, 280), (300, 220), (240, 320)])
def test_a_plate_keeps_its_proportions(length: int, width: int) -> None:
    shape = PlateShape.OVAL if length != width else PlateShape.ROUND
    drawing = draw_plate(plate(shape, length, width), (), small=False, alternative="x")
    rim = next(s for s in drawing.shapes if isinstance(s, Ellipse))
    assert rim.rx / rim.ry == pytest.approx(length / width, rel=1e-3)
    assert 2 * max(rim.rx, rim.ry) == pytest.approx(LARGE.plate, rel=1e-3)


@pytest.mark.parametrize(("hour", "x", "y"), [(12, 0, -100), (3, 100, 0), (6, 0, 100), (9, -100, 0), (4, 86.60254, 50)])
def test_clock_places_are_seen_from_the_guest(hour: int, x: float, y: float) -> None:
    """sin and cos of 30 degrees a clock hour, worked by hand; 6 o'clock is nearest the guest."""
    assert point_at(Place(clock=Fraction(hour)), Fraction(1), plate()) == pytest.approx((x, y), abs=1e-4)


def test_reach_on_a_square_plate_runs_to_the_inner_edge() -> None:
    square = plate(PlateShape.SQUARE, 240, 240, 20)
    assert point_at(Place(clock=Fraction(3, 2)), Fraction(1), square) == pytest.approx((100, -100))


def thing(x: float, shape: Shape = Shape.MOUND, size: float = 50) -> Laid:
    return Laid(element=0, shape=shape, x=x, y=0, length=size, width=size, turn=0)


@pytest.mark.parametrize(("x", "over"), [(0, 0), (115, 0), (125, 10), (-125, 10)])
def test_overhang_on_a_round_plate(x: float, over: float) -> None:
    """Plate radius 140 mm, mound radius 25 mm: at 125 mm it stands 10 mm over."""
    assert overhang(thing(x), plate()) == pytest.approx(over, abs=0.1)


def test_a_square_piece_reaches_a_round_edge_with_its_corner_first() -> None:
    assert overhang(thing(110), plate()) == 0
    assert overhang(thing(114, Shape.PIECE), plate()) == pytest.approx(hypot(139, 25) - 140, abs=0.1)


def test_counts_are_drawn_one_by_one_and_dealt_over_places() -> None:
    discs = element("walnut", 5, EACH, Shape.DISC, 9, 12, 2)
    assert len(lay_out((discs,), plate())) == 5
    assert len(lay_out((element("crumb", 6, GRAM, Shape.POWDER, 0),), plate())) == 1


def test_what_stands_on_something_without_a_place_lies_on_it() -> None:
    meat = element("meat", 1, EACH, Shape.PIECE, 5, reach=Fraction(1, 2))
    crumb = element("crumb", 6, GRAM, Shape.POWDER, on="meat")
    base, top = lay_out((meat, crumb), plate())
    assert (base.x, base.y) == (top.x, top.y)
