"""Blocks as HTML: what each says, what it leads to, and how it is said aloud; independent of any template."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from linebook.documents.wording import english
from linebook.figures.shapes import Curve, Drawing, Ellipse, Ink, Label, Picture, Polygon
from linebook.markup.blocks import (
    Block,
    Box,
    Cell,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    Second,
    SheetText,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.sheet import Band, Foot, Sheet
from linebook.screen.blocks import BlockPainter
from linebook.screen.folder import draw_screen
from linebook.screen.inline import Inliner
from linebook.screen.page import Frame

FRAME = Frame(house="A & B", language="en", accents=("#762013", "#2f6ea1"))
FILES = {"batch-card:leek-oil": "batch-card-leek-oil.html", "station-card:leeks": "station-card-leeks.html"}


def _run(text: str, **style: object) -> Inline:
    return (Run(text=text, **style),)  # type: ignore[arg-type]


def _sheet(*blocks: Block, id_: str = "station-card:leeks", kind: str = "station-card", **more: object) -> Sheet:
    text = SheetText(
        id=id_, kind=kind, line="", landscape=False, kicker=(), title=_run("Leeks"), aside=(), blocks=blocks
    )
    return Sheet(text=text, foot=Foot(lines=("issued", "named")), fingerprint="0123ABCD", **more)  # type: ignore[arg-type]


def _html(*blocks: Block, files: Mapping[str, str] = FILES, **more: object) -> str:
    painter = BlockPainter(_sheet(*blocks, **more), Inliner(wording=english(), files=files))
    return painter.html(blocks).strip()


def _page(*blocks: Block, **more: object) -> str:
    drawn = draw_screen([_sheet(*blocks, **more)], english(), FRAME)
    assert drawn.value is not None, drawn.faults
    return drawn.value[0].content.decode()


@pytest.mark.parametrize(
    ("block", "html"),
    [
        (Paragraph(content=_run("a < b & c")), '<p class="body">a &lt; b &amp; c</p>'),
        (Paragraph(content=_run("x", bold=True, italic=True)), '<p class="body"><i><b>x</b></i></p>'),
        (
            Paragraph(content=_run("x", quiet=True, lang="fr")),
            '<p class="body"><span class="quiet" lang="fr">x</span></p>',
        ),
        (Rule(), "<hr/>"),
        (Points(points=(Paragraph(content=_run("a")),)), "<ul><li>a</li></ul>"),
        (Steps(steps=(Step(number=1, content=_run("a")),)), "<ol><li>a</li></ol>"),
        (
            Steps(steps=(Step(number=4, content=_run("a")), Step(number=7, content=_run("b")))),
            '<ol start="4"><li>a</li><li value="7">b</li></ol>',
        ),
        (
            Facts(facts=(Fact(term=_run("Keeps"), value=_run("5 d")),)),
            '<dl class="plain"><div><dt>Keeps</dt><dd>5 d</dd></div></dl>',
        ),
        (
            Paragraph(content=(*_run("Salt"), Second(content=_run("Sal"), lang="es"))),
            '<p class="body">Salt <span class="second" lang="es">Sal</span></p>',
        ),
        (
            Heading(level=2, content=_run("Salt"), aside=_run("bench")),
            '<div class="headed"><h2 id="part-1" class="heading">Salt</h2><p class="beside">bench</p></div>',
        ),
    ],
)
def test_a_block_is_written_so(block: Block, html: str) -> None:
    assert _html(block) == html


@pytest.mark.parametrize(
    ("mark", "seen", "said"),
    [
        (Mark(kind="number", word="12"), "12", ""),
        (Mark(kind="tick"), "", "box to tick"),
        (Mark(kind="tick", count=3), "", "3 boxes to tick"),
        (Mark(kind="blank", width=9), "", "to fill in on the printed sheet"),
        (Mark(kind="contains", word="contains milk"), "C", "contains milk"),
        (Mark(kind="may-leave", word="may contain egg"), "M", "may contain egg"),
        (Mark(kind="undeclared", word="not declared"), "?", "not declared"),
        (Mark(kind="free", word="not in it"), "no", "not in it"),
    ],
)
def test_a_mark_is_seen_and_said(mark: Mark, seen: str, said: str) -> None:
    html = _html(Paragraph(content=(mark,)))
    aloud = "".join(re.findall(r'<span class="said">(.*?)</span>', html))
    shown = re.sub(r'<span class="said">.*?</span>', "", html)
    assert aloud == said
    assert re.sub(r"<[^>]*>", "", shown) == seen
    if mark.kind not in ("number", "tick", "blank"):
        assert f'class="mark {mark.kind}" aria-hidden="true"' in html


def test_a_legend_says_each_letter_and_its_words_once() -> None:
    fact = Fact(term=(Mark(kind="may", word="may contain"),), value=_run("may contain"))
    html = _html(Facts(facts=(fact,), role="legend"))
    assert html.count("may contain") == 1
    assert '<span class="mark may">M</span>' in html


def test_heading_levels_skip_none() -> None:
    def heading(level: int) -> Heading:
        return Heading(level=level, content=_run("x"))

    boxed = Box(blocks=(heading(3), heading(2), heading(3)))
    html = _html(heading(3), boxed, heading(3), heading(2), heading(3), boxed, heading(2))
    assert re.findall(r"<h([1-6])", html) == ["2", "3", "3", "4", "2", "2", "3", "4", "4", "5", "2"]


def _row(key: str, *cells: Cell, heading: bool = False) -> Row:
    return Row(cells=cells, key=key, heading=heading)


def test_a_table_has_heads_with_scopes_and_leads_to_cards() -> None:
    table = Table(
        columns=("amount", "unit", "name"),
        role="elements",
        head=(_row("heads", Cell(content=_run("One portion"), scope="col", span=3)),),
        rows=(
            _row("group", Cell(content=_run("Sauce"), span=3), heading=True),
            _row(
                "element.leek-oil",
                Cell(content=_run("4")),
                Cell(content=_run("g")),
                Cell(content=_run("Leek oil"), note=_run("bottle"), scope="row"),
            ),
        ),
    )
    assert _html(table) == (
        '<table class="elements"><caption class="said">What a portion carries</caption>'
        '<thead><tr><th scope="colgroup" colspan="3" class="of-amount whole">One portion</th></tr></thead>'
        '<tbody><tr class="group"><th scope="rowgroup" colspan="3"><span class="still">Sauce</span></th></tr>'
        '<tr><td class="of-amount">4</td><td class="of-unit">g</td><th scope="row" class="of-name">'
        '<a href="batch-card-leek-oil.html">Leek oil</a> <span class="note">bottle</span></th></tr></tbody></table>'
    )


@pytest.mark.parametrize(
    ("key", "file"),
    [
        ("element.leek-oil", "batch-card-leek-oil.html"),
        ("element.leek-oil.2", "batch-card-leek-oil.html"),
        ("ingredient.leek-oil.salt", ""),
        ("ingredient.mix.leek-oil", "batch-card-leek-oil.html"),
        ("keep.leek-oil", "batch-card-leek-oil.html"),
        ("dish.leeks", "station-card-leeks.html"),
        ("portions.leeks.half", "station-card-leeks.html"),
        ("sheet:batch-card:leek-oil", "batch-card-leek-oil.html"),
        ("sheet:batch-card:gone", ""),
        ("yield.leek-oil", ""),
        ("element", ""),
        ("", ""),
    ],
)
def test_a_row_leads_to_the_card_of_what_it_names(key: str, file: str) -> None:
    table = Table(columns=("name",), head=(), rows=(_row(key, Cell(content=_run("x"), scope="row")),))
    assert re.findall(r'href="([^"]*)"', _html(table)) == ([file] if file else [])


def test_a_wide_table_carries_each_figures_head_for_a_phone() -> None:
    table = Table(
        columns=("amount", "unit", "name", "figure"),
        head=(
            _row(
                "heads",
                Cell(content=_run("each load"), scope="col", span=2),
                Cell(content=_run("ingredient"), scope="col"),
                Cell(content=_run("in all"), scope="col"),
            ),
        ),
        rows=(
            _row(
                "ingredient.mix.salt",
                Cell(content=_run("12")),
                Cell(content=_run("kg")),
                Cell(content=_run("salt"), scope="row"),
                Cell(content=_run('24 "kg"')),
            ),
        ),
    )
    html = _html(table)
    assert 'data-label="each load">12\u00a0kg</td>' in html
    assert 'data-label="in all">24 &quot;kg&quot;</td>' in html
    assert html.count('role="row"') == 2
    assert {role: html.count(f'role="{role}"') for role in ("columnheader", "rowheader", "cell")} == {
        "columnheader": 3,
        "rowheader": 1,
        "cell": 2,
    }


def test_a_drawing_is_svg_with_its_title_and_words() -> None:
    drawing = Drawing(
        width=40,
        height=20.5,
        shapes=(
            Ellipse(centre=(10, 10), rx=3.6, ry=3.6, ink=Ink(fill=1.0)),
            Label(at=(10, 10), text="1"),
            Ellipse(centre=(20, 10), rx=5, ry=2, turn=30, ink=Ink(stroke=None, fill=0.5)),
            Polygon(points=((0, 0), (1, 1)), closed=False, ink=Ink(dash=(1, 2))),
            Polygon(points=((0, 0), (1, 1), (2, 0))),
            Curve(start=(0, 0), pieces=(((1, 1), (2, 2), (3, 3.333)),)),
        ),
        alternative="unused",
    )
    html = _html(
        FigureRef(name="plate", alternative="1 leek & oil", caption=_run("to scale")), figures={"plate": drawing}
    )
    assert html == (
        '<figure class="large"><svg id="figure-1" viewBox="0 0 40 20.5" role="img" aria-labelledby="figure-1-title figure-1-words">'
        '<title id="figure-1-title">Leeks: the plate</title><desc id="figure-1-words">1 leek &amp; oil</desc>'
        '<ellipse class="round" cx="10" cy="10" rx="3.6" ry="3.6" fill="#ffffff" stroke="#000000" stroke-width="0.3"/>'
        '<text class="number" x="10" y="10">1</text>'
        '<ellipse cx="20" cy="10" rx="5" ry="2" transform="rotate(30 20 10)" fill="#808080"/>'
        '<polyline points="0,0 1,1" fill="none" stroke="#000000" stroke-width="0.3" stroke-dasharray="1 2"/>'
        '<polygon points="0,0 1,1 2,0" fill="none" stroke="#000000" stroke-width="0.3"/>'
        '<path d="M0 0C1 1 2 2 3 3.33Z" fill="none" stroke="#000000" stroke-width="0.3"/>'
        "</svg><figcaption>to scale</figcaption></figure>"
    )


def test_drawings_of_a_page_are_to_one_scale_with_labels_that_can_be_read() -> None:
    drawings = {"above": Drawing(width=93, height=72, shapes=()), "side": Drawing(width=62, height=30, shapes=())}
    page = _page(*(FigureRef(name=name, alternative="x") for name in drawings), figures=drawings)
    assert "#figure-1 { width: 372px; }\n#figure-2 { width: 248px; }\n" in page
    assert "  #figure-1 { width: 100%; }\n" in page
    assert "  #figure-2 { width: 66.67%; }\n" in page
    size = float(re.findall(r"#figure-2 text \{ font-size: ([0-9.]+)px; \}", page)[0])
    assert 16 <= size * (320 - 32 + 24) / 93 < 16.5
    assert ".round {" not in page, "the ring holds such a label as it is"
    wide = {"plate": Drawing(width=150, height=72, shapes=())}
    assert "#figure-1 .round { rx: 5.39px; ry: 5.39px; }" in _page(
        FigureRef(name="plate", alternative="x"), figures=wide
    )


def test_a_photograph_is_part_of_the_page() -> None:
    photo = Picture(content=b"\xff\xd8\xff", width_px=4, height_px=3, kind="jpeg", alternative="unused")
    reference = FigureRef(name="photo", alternative='the "plate"')
    page = _page(reference, figures={"photo": photo})
    assert '<img src="data:image/jpeg;base64,/9j/" width="4" height="3" alt="the &quot;plate&quot;"/>' in page
    assert "form-action &#x27;none&#x27;; img-src data:" in page
    assert "img-src" not in _page()


def test_a_drawing_that_is_not_there_is_a_fault() -> None:
    missing = FigureRef(name="plate", alternative="x")
    for block in (missing, Box(blocks=(missing,)), Split(left=(), right=(missing,))):
        drawn = draw_screen([_sheet(block)], english(), FRAME)
        assert [(fault.code, fault.message) for fault in drawn.faults] == [
            ("LB704", "the station card `Leeks` has no drawing named `plate`")
        ]


@pytest.mark.parametrize("share", [1, 45, 46, 54, 55, 99])
def test_two_stacks_stand_side_by_side(share: int) -> None:
    html = _html(Split(left=(Rule(),), right=(Rule(), Rule()), left_share=share))
    kind = "less" if share < 46 else "even" if share < 55 else "more"
    assert html == f'<div class="split {kind}">\n<div><hr/>\n</div>\n<div><hr/>\n<hr/>\n</div></div>'


@pytest.mark.parametrize("letter", ["\u202e", "\u2066", "\u200f", "\x07", "\ufeff"])
def test_what_would_turn_words_round_is_a_fault(letter: str) -> None:
    drawn = draw_screen([_sheet(Paragraph(content=_run(f"no {letter}nuts")))], english(), FRAME)
    assert drawn.value is None
    (fault,) = drawn.faults
    assert fault.code == "LB104"
    assert f"U+{ord(letter):04X}" in fault.message or "a byte order mark" in fault.message
    assert "on the station card `Leeks`" in fault.message


def test_letters_are_composed_and_what_only_hides_is_left_out() -> None:
    assert _html(Paragraph(content=_run("pure\u0301e\u200b of"))) == '<p class="body">pur\u00e9e of</p>'


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.seen: set[tuple[str, tuple[str, ...]]] = set()
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add((tag, tuple(name for name, _ in attrs)))

    def handle_data(self, data: str) -> None:
        self.words += data


HOSTILE = '</style></title><script>alert(1)</script><img src=x onerror=\'a\'>" onload="a" ]]> <!-- {{ x }} &amp; &#60;'


def test_hostile_text_is_text_everywhere() -> None:
    """The same page with plain and with hostile words has the same tags with the same attributes."""
    pages = []
    for words in ("plain", HOSTILE):
        content: Inline = (
            Run(text=words, key=words, lang="en"),
            Mark(kind="may", word=words),
            Mark(kind="blank", word=words),
        )
        blocks: tuple[Block, ...] = (
            Heading(level=2, content=_run(words), aside=content),
            Paragraph(content=(*content, Second(content=_run(words), lang="es"))),
            Facts(facts=(Fact(term=content, value=content),)),
            Table(
                columns=("name", "figure"),
                head=(_row("", Cell(content=content, scope="col"), Cell(content=_run(words), scope="col")),),
                rows=(_row(words, Cell(content=content, note=content, scope="row"), Cell(content=content)),),
            ),
            Steps(steps=(Step(number=1, content=content),)),
            Points(points=(Paragraph(content=content),)),
            FigureRef(name="plate", alternative=words, caption=content),
            FigureRef(name="photo", alternative=words),
        )
        figures = {
            "plate": Drawing(width=1, height=1, shapes=(Label(at=(0, 0), text=words),)),
            "photo": Picture(content=b"x", width_px=1, height_px=1),
        }
        sheet = _sheet(*blocks, figures=figures)
        text = replace(sheet.text, title=_run(words), kicker=content, aside=content)
        sheet = replace(sheet, text=text, foot=Foot(lines=(words,)), fingerprint=words)
        frame = Frame(house=words, language="en", accents=())
        drawn = draw_screen([sheet], english(), frame)
        assert drawn.value is not None
        page = _Tags()
        page.feed(drawn.value[0].content.decode())
        pages.append(page)
    assert pages[0].seen == pages[1].seen
    assert pages[1].words.count("<script>alert(1)</script>") > 15


def test_pages_are_named_after_sheets_in_plain_letters_and_never_alike() -> None:
    ids = {
        "station-card:leeks": "station-card-leeks",
        "batch-card:../../x": "batch-card-x",
        "batch-card:X": "batch-card-x-2",
    }
    ids |= {"allergen-matrix:spring": "allergen-matrix", "screen-index": "index", "Ünder:№": "nder", "№": "batch-card"}
    kinds = {"allergen-matrix:spring": "allergen-matrix", "screen-index": "screen-index"}
    sheets = [_sheet(id_=id_, kind=kinds.get(id_, "batch-card")) for id_ in ids]
    drawn = draw_screen(sheets, english(), FRAME)
    assert drawn.value is not None
    assert [file.name for file in drawn.value] == [f"{name}.html" for name in ids.values()]


def test_the_lines_colour_stands_at_the_top_and_nowhere_else() -> None:
    band = Band(name="Hearth", position=1, count=2)
    assert ":root { --accent: #2f6ea1; }" in _page(band=band)
    assert "--accent: #2f6ea1" not in _page()
    assert all(
        "accent" not in line or "border-top" in line or line.strip().startswith(("--accent", ":root"))
        for line in _page(band=band).splitlines()
    )


def test_the_same_sheets_give_the_same_bytes() -> None:
    assert _page(Rule(), band=Band(name="Hearth", position=0, count=1)) == _page(
        Rule(), band=Band(name="Hearth", position=0, count=1)
    )
