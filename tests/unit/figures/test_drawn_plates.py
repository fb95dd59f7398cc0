"""Generated dishes of 1 to 14 elements on every shape of plate, held against geometry that is none of ours."""

from __future__ import annotations

from itertools import combinations
from math import hypot
from random import Random

import pytest
from drawn_plates import along, labels_of, leaders_of, points_of, random_dish, random_plate, raster, troubles

from linebook.figures.elevation import SIDE, draw_elevation
from linebook.figures.foods import draw_food
from linebook.figures.leaders import NUMBER_RADIUS
from linebook.figures.looks import APART, Look
from linebook.figures.outlines import lying
from linebook.figures.pen import Pen
from linebook.figures.plates import BESIDE, LARGE, draw_plate, laid_out, scale_of
from linebook.figures.shapes import Ellipse, Ink
from linebook.model.dish import Shape
from linebook.model.house import PlateShape
from linebook.model.plating import lay_out
from linebook.model.standing import stand

ROOMS = {"large": LARGE, "beside": BESIDE}
SEEDS = range(28)
DOTS = 10


def generated(seed):
    random = Random(seed)
    plate = random_plate(random)
    return plate, random_dish(random, 1 + seed % 14)


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("seed", SEEDS)
def test_numbers_on_the_plan_can_only_be_read_one_way(seed, room):
    plate, dish = generated(seed)
    drawing = draw_plate(plate, dish, small=False, alternative="x", room=ROOMS[room])
    assert not troubles(drawing, len(dish))
    half_length, half_width = (
        float(side) / 2 * scale_of(plate, ROOMS[room].plate) for side in (plate.length, plate.width)
    )
    for label in labels_of(drawing):
        x, y = abs(label.at[0] - drawing.width / 2), abs(label.at[1] - drawing.height / 2)
        assert hypot(max(0, x - half_length), max(0, y - half_width)) > NUMBER_RADIUS + 1


@pytest.mark.parametrize("seed", SEEDS)
def test_numbers_on_the_side_view_can_only_be_read_one_way(seed):
    plate, dish = generated(seed)
    drawing = draw_elevation(plate, dish, alternative="x")
    assert not troubles(drawing, len(dish))
    assert drawing.width == SIDE.width


def drawn_things(plate, dish, room):
    """Return the pixels of each element as drawn by itself, in plating order, and the drawing."""
    drawing = draw_plate(plate, dish, small=False, alternative="x", room=room)
    pen = Pen(centre=(drawing.width / 2, drawing.height / 2), scale=scale_of(plate, room.plate))
    edges = []
    for thing in lay_out(dish, plate):
        if thing.shape is Shape.POWDER:
            round_it = Ellipse(
                centre=pen.at(thing.x, thing.y), rx=thing.length / 2 * pen.scale, ry=thing.width / 2 * pen.scale,
                turn=thing.turn, ink=Ink(),
            )  # fmt: skip
            edges.append((thing, points_of(round_it)))
        else:
            edges.append((thing, points_of(draw_food(thing, Look(grey=0.5), pen)[1])))
    return drawing, edges


@pytest.mark.parametrize("seed", SEEDS)
def test_a_leader_ends_on_its_own_element_where_any_of_it_is_seen(seed):
    plate, dish = generated(seed)
    drawing, edges = drawn_things(plate, dish, LARGE)
    solid = [(thing.element + 1, points) for thing, points in edges if thing.shape is not Shape.POWDER]
    image = raster(solid, drawing.width, drawing.height, DOTS)
    colours = image.tobytes()
    for number, (_, anchor) in enumerate(leaders_of(drawing), 1):
        if dish[number - 1].shape is Shape.POWDER:
            continue
        alone = [points for one, points in solid if one == number]
        whole = sum(
            value == number
            for value in raster([(number, one) for one in alone], drawing.width, drawing.height, DOTS).tobytes()[::4]
        )
        seen = sum(value == number for value in colours[::4])
        if seen < max(40, whole * 0.06):
            continue
        x, y = round(anchor[0] * DOTS), round(anchor[1] * DOTS)
        near = {image.getpixel((x + dx, y + dy)) for dx in (-2, 0, 2) for dy in (-2, 0, 2)}
        assert number in near, (number, near)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_side_leader_ends_on_its_own_element(seed):
    plate, dish = generated(seed)
    drawing = draw_elevation(plate, dish, alternative="x")
    scale = scale_of(plate, SIDE.plate)
    things = lying(lay_out(dish, plate))
    heights = stand(dish, [one.thing for one in things], plate)
    floor = floor_of(drawing)
    for number, (_, anchor) in enumerate(leaders_of(drawing), 1):
        across, up = (anchor[0] - drawing.width / 2) / scale, (floor - anchor[1]) / scale
        assert any(
            one.bounds[0] - 1 <= across <= one.bounds[2] + 1 and height.bottom - 1 <= up <= height.top + 3
            for one, height in zip(things, heights, strict=True)
            if one.thing.element == number - 1
        ), number


def floor_of(drawing):
    """Return where the floor of the cut plate is on paper: the lowest point of its surface, drawn from left to right."""
    profile = next(one for one in drawing.shapes if getattr(one, "ink", None) == Ink(fill=0.93, width=0.4)).points
    surface = [profile[0]]
    for point in profile[1:]:
        if point[0] <= surface[-1][0]:
            break
        surface.append(point)
    return max(y for _, y in surface)


@pytest.mark.parametrize("seed", SEEDS)
def test_layers_that_lie_over_each_other_are_told_apart_without_colour(seed):
    plate, dish = generated(seed)
    _, looks = laid_out(plate, dish)
    drawing, edges = drawn_things(plate, dish, LARGE)
    pixels = {}
    for thing, points in edges:
        image = raster([(1, points)], drawing.width, drawing.height, 4).tobytes()[::4]
        pixels.setdefault(thing.element, set()).update(at for at, value in enumerate(image) if value)
    for one, other in combinations(sorted(pixels), 2):
        if len(pixels[one] & pixels[other]) > 60:
            a, b = looks[one], looks[other]
            assert a.hatch != b.hatch or abs(a.grey - b.grey) >= APART, (one, other)


@pytest.mark.parametrize("shape", list(Shape))
@pytest.mark.parametrize("turn", [0, 90])
def test_a_thing_is_drawn_as_long_and_wide_as_the_spec_says(shape, turn):
    """Extents measured on the flattened curve: at most 2 % off, and never larger by more than that."""
    plate, (element,) = random_plate(Random(1)), random_dish(Random(1), 1)
    from dataclasses import replace

    (thing, *_) = lay_out([replace(element, shape=shape, places=(), size=(80, 30), turned=turn)], plate)
    if shape is Shape.POWDER:
        grains = draw_food(thing, Look(grey=0.5), Pen(centre=(0.0, 0.0), scale=1.0))
        points = [point for one in grains for point in points_of(one)]
    else:
        points = points_of(draw_food(thing, Look(grey=0.5), Pen(centre=(0.0, 0.0), scale=1.0))[1])
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points) - min(y for _, y in points)
    slack = 0.12 if shape is Shape.POWDER else 0.02
    length, width = (wide, high) if turn == 0 else (high, wide)
    assert length == pytest.approx(80, rel=slack)
    assert width == pytest.approx(30, rel=slack)


def test_both_views_have_one_scale_in_columns_of_their_widths():
    """The sheet gives the plan 58 parts in a hundred and the side view 42."""
    assert BESIDE.width / SIDE.width == pytest.approx(58 / 42)
    assert BESIDE.plate == SIDE.plate


def test_the_first_number_is_told_from_the_others():
    plate, dish = generated(6)
    drawing = draw_plate(plate, dish, small=False, alternative="x")
    rings = [one for one in drawing.shapes if isinstance(one, Ellipse) and one.rx == NUMBER_RADIUS]
    assert rings[0].ink.width > 2 * max(one.ink.width for one in rings[1:])


def test_sampling_finds_leaders_that_cross():
    """The oracle must find what it is for."""
    assert min(hypot(a[0] - b[0], a[1] - b[1]) for a in along((0, 0), (9, 9)) for b in along((0, 9), (9, 0))) < 0.3


@pytest.mark.parametrize("shape", list(PlateShape))
def test_every_shape_of_plate_is_met(shape):
    assert any(generated(seed)[0].shape is shape for seed in SEEDS)
