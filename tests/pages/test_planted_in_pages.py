"""The measuring script finds what is wrong on a page: each check is shown one planted defect, and a page without any."""

from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import fontpkg_lato
import pytest
from measure import POINTS_PER_MM, Card, Defect, contrast, hole_zones, measure, whole_page
from printed_pages import Box, read_pages
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

MM = POINTS_PER_MM
A4 = (595.28, 841.89)
UPRIGHT = whole_page(left=22, top=13, right=20, bottom=12, binding="left", band="right")
BOTH_SIDES = whole_page(left=22, top=13, right=20, bottom=12, binding="left", band="right", mirrored=True)

LATO = Path(fontpkg_lato.__file__).parent / "files" / "Lato-Regular.ttf"
pdfmetrics.registerFont(TTFont("Planted", str(LATO), shapable=False))


@dataclass
class Sheet:
    """A page to draw on in millimetres from its upper left corner."""

    canvas: Canvas

    def write(self, x, y, text, *, size=12.0, colour="#000000", font="Planted"):
        self.canvas.setFillColor(HexColor(colour))
        self.canvas.setFont(font, size)
        self.canvas.drawString(x * MM, A4[1] - y * MM, text)

    def fill(self, x, y, wide, high, colour):
        self.canvas.setFillColor(HexColor(colour))
        self.canvas.rect(x * MM, A4[1] - (y + high) * MM, wide * MM, high * MM, stroke=0, fill=1)

    def rule(self, x, y, to_x, to_y):
        self.canvas.setStrokeColor(HexColor("#000000"))
        self.canvas.line(x * MM, A4[1] - y * MM, to_x * MM, A4[1] - to_y * MM)

    def dot(self, x, y, colour="#000000"):
        self.canvas.setFillColor(HexColor(colour))
        self.canvas.circle(x * MM, A4[1] - y * MM, 1, stroke=0, fill=1)


def drawn(*pages, cards=UPRIGHT):
    """Draw pages by functions that each get a sheet, and measure them."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=A4, pageCompression=0)
    for page in pages:
        page(Sheet(canvas))
        canvas.showPage()
    canvas.save()
    return measure(out.getvalue(), cards)


def sound(sheet):
    """A page as it should be: a name, a rule, words on fills dark and light, a name on the band, holes clear."""
    sheet.write(22, 30, "Smoked short rib, glazed", size=24)
    sheet.rule(22, 33, 190, 33)
    sheet.write(22, 41, "Lift out at 93 °C; jus, quail egg", size=9)
    sheet.fill(22, 50, 12, 8, "#000000")
    sheet.write(25, 55.5, "C", colour="#ffffff")
    sheet.fill(40, 50, 40, 8, "#efefef")
    sheet.write(42, 55.5, "quiet words", colour="#595959")
    sheet.fill(193, 40, 6, 60, "#762013")
    sheet.canvas.saveState()
    sheet.canvas.translate(194.5 * MM, A4[1] - 60 * MM)
    sheet.canvas.rotate(-90)
    sheet.canvas.setFont("Planted", 9.5)
    sheet.canvas.setFillColor(HexColor("#ffffff"))
    sheet.canvas.drawString(0, 0, "Hearth")
    sheet.canvas.restoreState()


def test_a_sound_page_has_no_defect():
    assert drawn(sound, sound) == []


PLANTED = {
    "nearer than 10 mm to the upper edge": ("edge", lambda sheet: sheet.write(60, 9, "too high"), "too high"),
    "nearer than 10 mm to the outer edge": ("edge", lambda sheet: sheet.write(180, 80, "runs on to the edge"), "runs on"),
    "in the binding margin": ("margin", lambda sheet: sheet.write(20, 70, "punched"), "punched"),
    "in the lower margin": ("margin", lambda sheet: sheet.write(60, 286, "low"), "low"),
    "half in the outer margin": ("margin", lambda sheet: sheet.write(176, 90, "half out here"), "half out"),
    "on another text": ("overlap", lambda sheet: sheet.write(23, 31.5, "over the name"), "stand on one another"),
    "twice in one place": ("overlap", lambda sheet: sheet.write(22, 30, "Smoked short rib, glazed", size=24), "stand on one another"),
    "crossed by a rule": ("crossed", lambda sheet: sheet.rule(22, 28, 60, 28), "a line runs through"),
    "crossed by an upright line": ("crossed", lambda sheet: sheet.rule(30, 20, 30, 60), "a line runs through"),
    "run through by a slim box": ("crossed", lambda sheet: sheet.fill(22, 39.5, 40, 0.4, "#b8b8b8"), "a line runs through"),
    "over the edge of the page": ("cut", lambda sheet: sheet.write(195, 130, "cut by the edge"), "cut by the edge of the page"),
    "painted over": ("cut", lambda sheet: sheet.fill(21, 18, 120, 14.5, "#ffffff"), "does not show"),
    "painted over in part": ("cut", lambda sheet: sheet.fill(22, 20, 20, 12, "#ffffff"), "shows only in part"),
    "white on white": ("cut", lambda sheet: sheet.write(60, 80, "unseen", colour="#ffffff"), "does not show"),
    "under nine points": ("small", lambda sheet: sheet.write(60, 80, "fine print", size=8.9), "8.90 pt"),
    "pale": ("contrast", lambda sheet: sheet.write(60, 80, "pale", colour="#777777"), "4.5 to 1"),
    "dark on dark": ("contrast", lambda sheet: (sheet.fill(58, 74, 40, 10, "#444444"), sheet.write(60, 80, "dim")), "dim"),
    "grey on the grey of a fill": ("contrast", lambda sheet: (sheet.fill(58, 74, 40, 10, "#d8d8d8"), sheet.write(60, 80, "dim", colour="#6a6a6a")), "dim"),
    "in a font not in the file": ("font", lambda sheet: sheet.write(60, 80, "borrowed", font="Helvetica"), "borrowed"),
    "where an ISO hole comes": ("holes", lambda sheet: sheet.dot(12, 148.5 + 40), "ISO 838"),
    "where the other ISO hole comes": ("holes", lambda sheet: sheet.dot(14, 148.5 - 42, "#dddddd"), "ISO 838"),
    "where the middle US hole comes": ("holes", lambda sheet: sheet.dot(9, 148.5), "a US hole"),
    "where the upper US hole comes": ("holes", lambda sheet: sheet.dot(12, 148.5 - 108), "a US hole"),
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(PLANTED))
def test_a_planted_defect_is_found_where_it_is(name):
    check, plant, said = PLANTED[name]

    def spoilt(sheet):
        sound(sheet)
        plant(sheet)

    found = drawn(sound, spoilt)
    assert [one for one in found if one.check == check and said in one.what]
    assert {one.page for one in found} == {2}


def test_small_type_is_found_where_a_page_is_scaled():
    def scaled(sheet):
        sheet.canvas.scale(0.7, 0.7)
        sheet.write(40, 30, "twelve points, scaled")

    (one,) = [one for one in drawn(scaled) if one.check == "small"]
    assert "8.40 pt" in one.what


def test_text_that_a_clip_cuts_is_found():
    def clipped(sheet):
        path = sheet.canvas.beginPath()
        path.rect(0, 0, 50 * MM, A4[1])
        sheet.canvas.clipPath(path, stroke=0, fill=0)
        sheet.write(30, 80, "behind the edge of a frame")

    assert [one.check for one in drawn(clipped)] == ["cut"]


def test_a_defect_says_its_page_and_its_place():
    (one,) = drawn(sound, lambda sheet: sheet.write(60, 80, "fine print", size=8))
    assert (one.page, one.check) == (2, "small")
    assert one.box.left == pytest.approx(60 * MM, abs=1.5)
    assert one.box.bottom == pytest.approx(80 * MM, abs=3)
    assert str(one).startswith("page 2, 170,")
    assert isinstance(one, Defect)


def test_the_holes_and_margins_of_a_back_are_mirrored():
    """The same page is sound on the front; on the back its text stands in the outer margin, its band over the holes."""
    found = drawn(sound, sound, cards=BOTH_SIDES)
    assert {one.page for one in found} == {2}
    assert "margin" in {one.check for one in found}

    def back(sheet):
        sheet.canvas.translate(-2 * MM, 0)
        sheet.write(22, 30, "moved to the other margin")

    assert drawn(sound, back, cards=BOTH_SIDES) == []
    spoilt = drawn(sound, lambda sheet: (back(sheet), sheet.dot(210 - 12 + 2, 148.5 + 40)), cards=BOTH_SIDES)
    assert {one.check for one in spoilt} == {"holes"}


def test_the_zones_are_where_the_standards_put_the_holes():
    """ISO 838: 80 mm apart, centres 12 mm in, 6 mm wide; US: 108 mm apart (reference/plating_service.yaml)."""
    paper = Box(0, 0, *A4)
    for edge in ("left", "right", "top", "bottom"):
        zones = list(hole_zones(Card(paper, paper, edge)))
        assert len(zones) == 5
        along = [
            ((zone.top + zone.bottom) if edge in ("left", "right") else (zone.left + zone.right)) / 2 / MM
            for _, zone in zones
        ]
        middle = (297 if edge in ("left", "right") else 210) / 2
        assert sorted(round(one - middle) for one in along) == [-108, -40, 0, 40, 108]
        for name, zone in zones:
            deep = {"left": zone.left, "right": A4[0] - zone.right, "top": zone.top, "bottom": A4[1] - zone.bottom}[
                edge
            ] / MM
            assert deep == pytest.approx(7.75 if "ISO" in name else 4, abs=0.01)


def test_contrast_is_told_as_published():
    """reference/plating_service.yaml, contrast_checks: ratios on white by the WCAG formula."""
    white = (255, 255, 255)
    for colour, ratio in (
        ((0, 0, 0), 21),
        ((0x59,) * 3, 7.005),
        ((0x76,) * 3, 4.542),
        ((0x77,) * 3, 4.478),
        ((255, 0, 0), 3.998),
    ):
        assert contrast(colour, white) == pytest.approx(ratio, abs=0.001)


def test_a_form_object_is_refused_rather_than_passed_unmeasured():
    out = BytesIO()
    canvas = Canvas(out, pagesize=A4)
    canvas.beginForm("inside")
    canvas.setFont("Planted", 4)
    canvas.drawString(1, 1, "tiny")
    canvas.endForm()
    canvas.doForm("inside")
    canvas.save()
    with pytest.raises(AssertionError, match="form object"):
        read_pages(out.getvalue())
