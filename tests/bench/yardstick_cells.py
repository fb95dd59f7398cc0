"""The yardstick: the words of finished pages, set again as tables of flowing cells by the PDF library's own layout.

Run as ``python yardstick_cells.py WORDS.json OUT.pdf``: one fresh process, imports included. ``WORDS.json`` holds a
list of pages, each a list of lines, each a list of words. A line of up to eight words becomes a row of four cells,
a longer one a row of one; each cell is a paragraph, escaped; each page of words starts a new page.
"""

import json
import sys
from importlib.resources import files
from xml.sax.saxutils import escape

from reportlab import rl_config
from reportlab.lib import colors
from reportlab.lib.fonts import addMapping
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import BaseDocTemplate, Frame, PageBreak, PageTemplate, Paragraph, Table, TableStyle

rl_config.useA85 = 0
rl_config.invariant = 1

WIDTH, HEIGHT = A4
MARGIN = 40
CELL_WORDS = 8
RULES = TableStyle(
    [
        ("LINEBELOW", (0, 0), (-1, -1), 0.5, colors.HexColor("#b8b8b8")),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
    ]
)


def cells(words):
    """Split a short line's words over four cells; keep a long line whole."""
    if len(words) > CELL_WORDS:
        return [" ".join(words), "", "", ""]
    each = -(-len(words) // 4)
    return [" ".join(words[at * each : (at + 1) * each]) for at in range(4)]


def story(pages):
    style = ParagraphStyle("cell", fontName="regular", fontSize=9, leading=11)
    flow = []
    for lines in pages:
        rows, spans = [], []
        for words in lines:
            if len(words) > CELL_WORDS:
                spans.append(("SPAN", (0, len(rows)), (-1, len(rows))))
            rows.append([Paragraph(escape(text), style) if text else "" for text in cells(words)])
        if rows:
            column = (WIDTH - 2 * MARGIN) / 4
            flow.append(Table(rows, colWidths=[column] * 4, style=TableStyle(spans, parent=RULES)))
        flow.append(PageBreak())
    return flow


def main(source, target):
    folder = files("fontpkg_lato") / "files"
    pdfmetrics.registerFont(TTFont("regular", str(folder / "Lato-Regular.ttf")))
    for bold in (0, 1):
        for italic in (0, 1):
            addMapping("regular", bold, italic, "regular")
    with open(source, encoding="utf-8") as file:
        pages = json.load(file)
    document = BaseDocTemplate(target, pagesize=A4, invariant=1, pageCompression=1)
    frame = Frame(MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN, 0, 0, 0, 0)
    document.addPageTemplates(PageTemplate("page", [frame]))
    document.build(story(pages))


if __name__ == "__main__":
    main(*sys.argv[1:3])
