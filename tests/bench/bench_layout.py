"""The riskiest part tried first: one batch card drawn by our own line breaking, and by the PDF library's paragraphs.

    python tests/bench/bench_layout.py [--rounds N] [--pictures FOLDER]

Both draw the same words in the same faces and sizes on A4: the ingredients by stage, hung step numbers, bold times
and temperatures, a step of two hundred words. Compared are the text read back, the picture, and the time to lay out
and draw (fonts loaded and the library imported beforehand).
"""

import argparse
import statistics
import sys
import time
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from xml.sax.saxutils import escape

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests" / "unit" / "pdf")]

import pdf_samples as samples  # noqa: E402
import pypdfium2  # noqa: E402
from reportlab.lib.colors import HexColor  # noqa: E402
from reportlab.lib.fonts import addMapping  # noqa: E402
from reportlab.lib.styles import ParagraphStyle  # noqa: E402
from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: E402
from reportlab.platypus import BaseDocTemplate, Frame, KeepTogether, PageBreak, PageTemplate  # noqa: E402
from reportlab.platypus import Paragraph as Flowing  # noqa: E402
from reportlab.platypus import Table as Cells  # noqa: E402

from linebook.markup.blocks import Box, Facts, Heading, Mark, Paragraph, Rule, Run, Split, Steps, Table  # noqa: E402
from linebook.pdf.binder import draw_binder  # noqa: E402
from linebook.pdf.fonts import open_faces  # noqa: E402

THEME = samples.THEME
FACES = open_faces(THEME).value
COPIES = 20
LONG = (
    " ".join(f"turn **{number} min** and rest, then baste with the hot fat and" for number in range(1, 21))
    + " lift out."
)


def card():
    """The batch card of the samples with a step of two hundred words more."""
    made = samples.batch_card()
    blocks = [*made.text.blocks[:-2], samples.heading("Rest", 3), samples.steps(LONG, start=4), *made.text.blocks[-2:]]
    return samples.sheet(blocks, aside="for Sat 6 March only, bin after service")


def ours(made, copies=1):
    sheets = [replace(made, text=replace(made.text, id=f"card-{number}")) for number in range(copies)]
    return draw_binder(sheets, THEME, "a4", title="card", faces=FACES).value.content


class Paragraphs:
    """The same card as flowing paragraphs and tables of them."""

    def __init__(self):
        """Map the faces; the library forgets the mapping whenever a face is registered anew."""
        for name in ("regular", "bold", "italic", "bold-italic"):
            registerFont(FACES[name].font)
        for bold in (0, 1):
            for italic in (0, 1):
                name = ("bold-italic" if italic else "bold") if bold else ("italic" if italic else "regular")
                addMapping("linebook-regular", bold, italic, f"linebook-{name}")

    def style(self, style, **more):
        return ParagraphStyle(
            style.name, fontName="linebook-regular", fontSize=style.size, leading=style.size * style.leading, **more
        )

    def markup(self, content, bold=False):
        text = ""
        for one in content:
            if isinstance(one, Mark):
                text += "____" if one.kind == "blank" else ""
                continue
            piece = escape(one.text)
            piece = f"<b>{piece}</b>" if one.bold or bold else piece
            piece = f"<i>{piece}</i>" if one.italic else piece
            text += f'<font color="#595959">{piece}</font>' if one.quiet else piece
        return text

    def flowing(self, content, style, bold=False, **more):
        return Flowing(self.markup(content, bold), self.style(style, **more))

    def flow(self, blocks, width):
        return [one for block in blocks for one in self.block(block, width)]

    def block(self, block, width):
        styles = THEME.styles
        match block:
            case Paragraph():
                style = THEME.paragraphs[block.role]
                return [self.flowing(block.content, style, bold=style.face == "bold", spaceBefore=style.before)]
            case Heading():
                gap = Run(text="  ")
                content = [self.markup(block.content, bold=True), self.markup((gap, *block.aside))]
                return [Flowing("".join(content), self.style(styles.subheading, spaceBefore=10))]
            case Steps():
                style = self.style(styles.step, leftIndent=28, bulletIndent=8, bulletFontName="linebook-bold",
                                   bulletFontSize=14, spaceBefore=5)  # fmt: skip
                return [Flowing(self.markup(one.content), style, bulletText=str(one.number)) for one in block.steps]
            case Facts():
                rows = [
                    [self.flowing(one.term, styles.term, alignment=2), self.flowing(one.value, styles.fact, bold=True)]
                    for one in block.facts
                ]
                return [Cells(rows, colWidths=[width * 0.2, width * 0.8])]
            case Table():
                return [self.table(block, width)]
            case Split():
                room = [width * block.left_share / 100, width * (100 - block.left_share) / 100]
                return [Cells([[self.flow(block.left, room[0]), self.flow(block.right, room[1])]], colWidths=room)]
            case Box():
                return [
                    KeepTogether(
                        Cells(
                            [[self.flow(block.blocks, width - 12)]],
                            colWidths=[width],
                            style=[("BOX", (0, 0), (-1, -1), 1.3, HexColor("#000000"))],
                        )
                    )
                ]
            case Rule():
                return []
        raise AssertionError(block)

    def table(self, block, width):
        kinds = {"amount": THEME.styles.amount, "unit": THEME.styles.amount, "name": THEME.styles.name}
        share = {"tick": 1, "amount": 1.2, "unit": 0.8, "name": 5, "figure": 1.6, "text": 2}
        whole = sum(share[kind] for kind in block.columns)
        rows, spans = [], [("LINEBELOW", (0, 0), (-1, -1), 0.5, HexColor("#b8b8b8"))]
        for row in (*block.head, *block.rows):
            cells = []
            for cell in row.cells:
                kind = block.columns[min(len(cells), len(block.columns) - 1)]
                style = kinds.get(kind, THEME.styles.cell)
                note = (Run(text="  "), *[Run(text=one.text, italic=True) for one in cell.note]) if cell.note else ()
                right = 2 if kind in ("amount", "figure") else 0
                bold = kind in ("amount", "unit") or row.heading
                cells.append(self.flowing((*cell.content, *note), style, bold=bold, alignment=right))
                if cell.span > 1:
                    spans.append(("SPAN", (len(cells) - 1, len(rows)), (len(cells) + cell.span - 2, len(rows))))
                    cells += [""] * (cell.span - 1)
            rows.append(cells)
        return Cells(
            rows,
            colWidths=[width * share[kind] / whole for kind in block.columns],
            style=spans,
            repeatRows=len(block.head),
        )

    def draw(self, made, copies=1):
        out = BytesIO()
        paper, margins = THEME.papers["a4"], THEME.margins
        size = (paper.width, paper.height)
        document = BaseDocTemplate(out, pagesize=size, invariant=1)
        width = paper.width - margins.binding - margins.outer
        frame = Frame(margins.binding, 80, width, paper.height - 120, 0, 0, 0, 0)
        document.addPageTemplates(PageTemplate("page", [frame]))
        story = []
        for _ in range(copies):
            story += [self.head(made), self.flowing(made.text.title, THEME.styles.title, bold=True)]
            story += [*self.flow(made.text.blocks, width), PageBreak()]
        document.build(story)
        return out.getvalue()

    def head(self, made):
        return self.flowing((*made.text.kicker, Run(text="  "), *made.text.aside), THEME.styles.kicker, bold=True)


def paragraphs(made, copies=1):
    return Paragraphs().draw(made, copies)


def texts(data):
    """The letters of each page as another program reads them, without spaces."""
    document = pypdfium2.PdfDocument(data)
    pages = ["".join(page.get_textpage().get_text_range().split()) for page in document]
    document.close()
    return pages


def whole(wanted, pages):
    """Say whether a text stands on the pages, cut at most once where a page ends."""
    joined = any(wanted in page for page in pages)
    cut = any(wanted[:at] in one and wanted[at:] in two for one, two in pairwise(pages) for at in range(len(wanted)))
    return joined or cut


def ink(data):
    """The part of the first page that is inked, and how many lines of text it has, told from its picture."""
    document = pypdfium2.PdfDocument(data)
    image = document[0].render(scale=1.5, grayscale=True).to_pil().convert("L")
    document.close()
    width, height = image.size
    rows = [min(image.crop((0, y, width, y + 1)).tobytes()) < 128 for y in range(height)]
    lines = sum(now and not before for before, now in zip([False, *rows], rows, strict=False))
    dark = sum(value < 128 for value in image.tobytes())
    return dark / (width * height), lines, image


def seconds(draw, made, rounds):
    """The time one more card costs: a file of many against a file of one, medians of ``rounds``."""

    def middle(copies):
        times = []
        for _ in range(rounds + 1):
            start = time.perf_counter()
            draw(made, copies)
            times.append(time.perf_counter() - start)
        return statistics.median(times[1:])

    return (middle(COPIES + 1) - middle(1)) / COPIES


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--pictures", type=Path, help="keep a picture of each first page in this folder")
    options = parser.parse_args()
    made = card()
    print(f"{'way':<12}{'ms a card':>10}{'pages':>7}{'letters':>9}{'ink':>8}{'lines':>7}  the long step")
    for name, draw in (("our lines", ours), ("paragraphs", paragraphs)):
        data = draw(made)
        pages = texts(data)
        dark, lines, image = ink(data)
        kept = "whole" if whole("".join(LONG.replace("**", "").split()), pages) else "NOT WHOLE"
        spent, count = seconds(draw, made, options.rounds) * 1000, len("".join(pages))
        print(f"{name:<12}{spent:>10.1f}{len(pages):>7}{count:>9}{dark:>8.3f}{lines:>7}  {kept}")
        if options.pictures:
            options.pictures.mkdir(parents=True, exist_ok=True)
            image.save(options.pictures / f"{name.replace(' ', '-')}.png")


if __name__ == "__main__":
    main()
