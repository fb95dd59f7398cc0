"""Photographs on paper: their own bytes, once, at most 300 dots an inch, grey where the printing is."""

from io import BytesIO

import pytest
from pdf_samples import FACES, THEME, plate, sheet, text
from PIL import Image
from pypdf import PdfReader

from linebook.figures.shapes import Picture
from linebook.markup.blocks import FigureRef, Split
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing

MM = 72 / 25.4


def picture(width, height, kind="jpeg"):
    wave = Image.radial_gradient("L").resize((width, height))
    into = BytesIO()
    Image.merge("RGB", (wave, wave.rotate(90).resize((width, height)), wave)).save(into, kind)
    return Picture(content=into.getvalue(), width_px=width, height_px=height, kind=kind, alternative="a plate")


def bound(made, *, names=("photo",), **options):
    right = tuple(FigureRef(name="photo", alternative="a plate", role="photo") for _ in names)
    left = (FigureRef(name="plate", alternative="a plate"),)
    blocks = [Split(left=left, right=right, left_share=58), text("Wipe the rim.")]
    sheets = (sheet(blocks, figures={"photo": made, "plate": plate(small=False)}),)
    outcome = draw_binder(sheets, THEME, Printing(paper="a4", **options), title="Hearth", faces=FACES)
    assert outcome.faults == ()
    return outcome.value.content


def images(content):
    """Return the image objects of a PDF, and how each is placed: width and height in points."""
    reader = PdfReader(BytesIO(content))
    found, placed = {}, []
    for page in reader.pages:
        for name, reference in page["/Resources"].get("/XObject", {}).items():
            found[name] = reference.get_object()
        lines = page.get_contents().get_data().decode("latin-1").split("\n")
        placed += [(float(p[1]), float(p[4])) for p in (one.split() for one in lines) if "Do" in p]
    return found, placed


def test_a_photograph_is_put_in_as_it_is_and_once():
    made = picture(640, 480)
    found, placed = images(bound(made, names=("photo", "photo")))
    ((_, image),) = found.items()
    assert (image["/Filter"], image["/ColorSpace"], image["/BitsPerComponent"]) == ("/DCTDecode", "/DeviceRGB", 8)
    assert image._data == made.content
    assert len(placed) == 2
    for width, height in placed:
        assert width / height == pytest.approx(4 / 3, rel=0.01)


def test_it_is_reduced_to_300_dots_an_inch_where_it_is_printed():
    found, ((width, _),) = images(bound(picture(3000, 2000)))
    (image,) = found.values()
    assert image["/Width"] <= width / 72 * 300 + 1
    assert image["/Width"] >= width / 72 * 290
    assert Image.open(BytesIO(image._data)).size == (image["/Width"], image["/Height"])


@pytest.mark.parametrize(
    ("ink", "space"), [("colour", "/DeviceRGB"), ("grey", "/DeviceGray"), ("saving", "/DeviceGray")]
)
def test_it_is_grey_where_all_is_grey(ink, space):
    found, _ = images(bound(picture(640, 480), ink=ink))
    (image,) = found.values()
    assert image["/ColorSpace"] == space
    assert Image.open(BytesIO(image._data)).mode == ("RGB" if ink == "colour" else "L")


def test_one_of_few_dots_is_not_blown_up():
    _, ((width, height),) = images(bound(picture(90, 60)))
    assert (width, height) == pytest.approx((90, 60), abs=0.1)


def test_a_tall_one_stays_in_its_place():
    _, ((width, height),) = images(bound(picture(400, 4000)))
    assert height <= THEME.spaces.figure_small + 0.1
    assert width / height == pytest.approx(0.1, rel=0.02)


def test_the_same_bytes_each_time():
    assert bound(picture(900, 600)) == bound(picture(900, 600))


def test_a_png_is_put_in_as_a_jpeg():
    found, _ = images(bound(picture(300, 200, "png")))
    (image,) = found.values()
    assert Image.open(BytesIO(image._data)).format == "JPEG"


@pytest.mark.parametrize("count", [9, 14])
def test_numbers_fit_their_rings_on_the_fullest_page(count):
    """The ring shrinks with its drawing, the number does not: its corners stay inside."""
    from linebook.figures.leaders import NUMBER_RADIUS
    from linebook.figures.shapes import Drawing, Ellipse, Label
    from linebook.pdf.drawings import figure_items
    from linebook.pdf.layout import Layout

    shapes = []
    for number in range(1, count + 1):
        at = (number * 10.0, 10.0)
        shapes += [Ellipse(centre=at, rx=NUMBER_RADIUS, ry=NUMBER_RADIUS), Label(at=at, text=str(number))]
    drawing = Drawing(width=150.0, height=20.0, shapes=tuple(shapes))
    layout = Layout(THEME, FACES, min(THEME.densities, key=lambda one: one.space))
    (strip,) = figure_items(layout, FigureRef(name="plate", alternative="x"), {"plate": drawing}, 500.0)
    scale = max(op.scale for op in strip.ops if hasattr(op, "scale"))
    for op in strip.ops:
        if hasattr(op, "pieces"):
            ((setting, words),) = op.pieces
            face = FACES[setting.face]
            half_width, half_height = face.width(words) * setting.size / 2, face.capital * setting.size / 2
            assert (half_width**2 + half_height**2) ** 0.5 < NUMBER_RADIUS * scale + 1.5
            assert half_width < NUMBER_RADIUS * scale - 0.4
