"""A peer: the words of finished pages set by Typst, a general typesetter, from its wheel: one fresh process.

Run as ``python peer_typst.py WORDS.json OUT.pdf``; the words, the cells and the font are those of
``yardstick_cells.py``. Typst uses all processors it finds.
"""

import sys
from importlib.resources import files
from pathlib import Path

import typst

SOURCE = """
#set page(paper: "a4", margin: 40pt)
#set text(font: "Lato", size: 9pt)
#set par(leading: 2pt)
#let cells(words) = {
  if words.len() > 8 { (table.cell(colspan: 4, words.join(" ")),) } else {
    let each = calc.ceil(words.len() / 4)
    range(4).map(at => words.slice(calc.min(at * each, words.len()), calc.min((at + 1) * each, words.len())).join(" "))
  }
}
#for lines in json("WORDS") {
  table(columns: (1fr,) * 4, stroke: (bottom: 0.5pt + rgb("#b8b8b8")), inset: (x: 6pt, y: 1pt),
    ..lines.map(cells).flatten())
  pagebreak(weak: true)
}
"""


def main(words, target):
    words = Path(words).resolve()
    source = words.with_suffix(".typ")
    source.write_text(SOURCE.replace("WORDS", words.name), "utf-8")
    fonts = str(files("fontpkg_lato") / "files")
    typst.compile(str(source), output=target, font_paths=[fonts], ignore_system_fonts=True)


if __name__ == "__main__":
    main(*sys.argv[1:3])
