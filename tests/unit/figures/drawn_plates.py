"""Random dishes, and what a drawing of one shows, read from its shapes alone: an oracle that shares no geometry."""

from __future__ import annotations

from fractions import Fraction
from math import cos, hypot, pi, radians, sin
from random import Random

from PIL import Image, ImageDraw

from linebook.figures.leaders import NUMBER_RADIUS
from linebook.figures.shapes import Curve, Drawing, Ellipse, Ink, Label, Polygon
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.dish import Element, Place, Shape
from linebook.model.house import Plate, PlateShape
from linebook.source.spans import SourceFile

SPAN = SourceFile(path="dishes/x.md", text="x").whole()
EACH = Unit(key="each", kind=Kind.COUNT, symbol="piece", plural="pieces", counts="each")
GRAM = Unit(key="g", kind=Kind.MASS, symbol="g", plural="g")
LEADER = Ink(width=0.9, stroke=1.0)
SIZES = {
    PlateShape.ROUND: (280, 280, 40),
    PlateShape.OVAL: (320, 230, 35),
    PlateShape.SQUARE: (260, 260, 20),
    PlateShape.RECTANGLE: (340, 150, 10),
    PlateShape.BOWL: (240, 240, 30),
    PlateShape.BOARD: (200, 300, 0),
}


def random_plate(random: Random) -> Plate:
    shape = random.choice(list(PlateShape))
    length, width, rim = (Fraction(one) for one in SIZES[shape])
    return Plate(span=SPAN, spans={}, id="p", name="p", shape=shape, length=length, width=width, rim=rim)


def random_dish(random: Random, count: int) -> tuple[Element, ...]:
    """Return elements stacked, scattered and counted as no chef would; their sizes may fall off the plate."""
    made: list[Element] = []
    for index in range(count):
        places = [random.choice([None, *range(1, 13)]) for _ in range(random.choice([0, 0, 1, 1, 2, 3]))]
        size = (Fraction(random.randint(8, 120)), Fraction(random.randint(8, 60))) if random.random() < 0.6 else None
        made.append(
            Element(
                span=SPAN,
                spans={},
                item=f"item-{index}",
                amount=Amount(number=Fraction(random.randint(1, 6)), unit=random.choice([EACH, GRAM])),
                shape=random.choice(list(Shape)),
                places=tuple(Place(clock=Fraction(hour) if hour else None) for hour in places),
                reach=Fraction(random.randint(0, 10), 10) if random.random() < 0.7 else None,
                on=random.choice(made).item if made and random.random() < 0.4 else None,
                size=size,
                turned=Fraction(random.randint(-180, 180)) if random.random() < 0.5 else None,
                height=Fraction(random.randint(1, 90)) if random.random() < 0.5 else None,
            )
        )
    return tuple(made)


def leaders_of(drawing: Drawing) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Return the leaders: the wide white lines drawn under each, from the ring to the dot."""
    lines = [one for one in drawing.shapes if isinstance(one, Polygon) and not one.closed and one.ink == LEADER]
    return [(line.points[0], line.points[-1]) for line in lines]


def labels_of(drawing: Drawing) -> list[Label]:
    return [one for one in drawing.shapes if isinstance(one, Label)]


def along(start: tuple[float, float], end: tuple[float, float], step: float = 0.3) -> list[tuple[float, float]]:
    count = max(1, int(hypot(end[0] - start[0], end[1] - start[1]) / step))
    return [
        (start[0] + (end[0] - start[0]) * k / count, start[1] + (end[1] - start[1]) * k / count)
        for k in range(count + 1)
    ]


def nearest(one: list[tuple[float, float]], other: list[tuple[float, float]]) -> float:
    return min(hypot(a[0] - b[0], a[1] - b[1]) for a in one for b in other)


def troubles(drawing: Drawing, count: int) -> list[str]:
    """Return everything by which a reader could take one number for another."""
    found = []
    labels, leaders = labels_of(drawing), leaders_of(drawing)
    if [label.text for label in labels] != [str(number) for number in range(1, count + 1)] or len(leaders) != count:
        return ["numbers are not 1, 2, 3 in plating order"]
    lines = [along(*leader) for leader in leaders]
    for i, label in enumerate(labels):
        x, y = label.at
        edge = NUMBER_RADIUS + 0.3
        if not (edge <= x <= drawing.width - edge and edge <= y <= drawing.height - edge):
            found.append(f"number {i + 1} is cut off")
        if hypot(leaders[i][0][0] - x, leaders[i][0][1] - y) > NUMBER_RADIUS + 0.01:
            found.append(f"leader {i + 1} does not begin at its number")
        for j, other in enumerate(labels):
            if j != i and nearest(lines[j], [label.at]) < NUMBER_RADIUS + 0.4:
                found.append(f"leader {j + 1} meets number {i + 1}")
            if j < i and hypot(other.at[0] - x, other.at[1] - y) < 2 * NUMBER_RADIUS + 0.4:
                found.append(f"numbers {j + 1} and {i + 1} touch")
            if j < i and nearest(lines[i], lines[j]) < 0.4:
                found.append(f"leaders {j + 1} and {i + 1} meet")
    return found


def points_of(shape: Ellipse | Polygon | Curve) -> list[tuple[float, float]]:
    if isinstance(shape, Polygon):
        return list(shape.points)
    if isinstance(shape, Ellipse):
        c, s = cos(radians(shape.turn)), sin(radians(shape.turn))
        ring = [(shape.rx * cos(k * pi / 60), shape.ry * sin(k * pi / 60)) for k in range(120)]
        return [(shape.centre[0] + u * c - v * s, shape.centre[1] + u * s + v * c) for u, v in ring]
    flat, start = [shape.start], shape.start
    for a, b, end in shape.pieces:
        for k in range(1, 25):
            t = k / 24
            weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3)
            flat.append(
                tuple(sum(w * p[axis] for w, p in zip(weights, (start, a, b, end), strict=True)) for axis in (0, 1))
            )  # type: ignore[arg-type]
        start = end
    return flat


def raster(shapes: list[tuple[int, list[tuple[float, float]]]], width: float, height: float, dots: int) -> Image.Image:
    """Paint each outline in the colour of its number, later ones over earlier ones."""
    image = Image.new("I", (int(width * dots) + 1, int(height * dots) + 1), 0)
    pen = ImageDraw.Draw(image)
    for number, points in shapes:
        pen.polygon([(x * dots, y * dots) for x, y in points], fill=number)
    return image
