"""What every page has: what stands over the first block, the running head, the foot and the line's band.

Owns their places. All words are given; it must not know which document it furnishes. Points.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from linebook.markup.blocks import Inline, Run, SheetText
from linebook.markup.sheet import Band, Foot
from linebook.pdf.geometry import Geometry, band_place
from linebook.pdf.layout import Layout
from linebook.pdf.paint import accent_of
from linebook.pdf.pieces import Op, Setting, Sketch, Strip, Stroke, Words, joined, lowered
from linebook.pdf.square_code import MODULE, QUIET, ROOM, SIDE, square_code
from linebook.pdf.theme import Style
from linebook.pdf.words import Passage, Word

COVER: Final = "line-cover"


@lru_cache(maxsize=32)
def _said(text: str) -> Inline:
    """Return words of the furniture; the same at each density, so that they are measured once."""
    return (Run(text=text),)


def head(layout: Layout, text: SheetText, band: Band | None, measure: float) -> Strip:
    """Return what stands at the top of a sheet: kicker and aside, the name, a strong rule."""
    styles, spaces = layout.theme.styles, layout.theme.spaces
    title = styles.cover if text.kind == COVER else styles.title
    strips = _over(layout, text, band, measure)
    words, centred = layout.lines.words(text.title, title), layout.theme.forms.head == "centred"
    strips += layout.flow(words, title, measure, before=0, centred=centred)
    return _ruled(layout, strips, measure, spaces.under_title)


def running_head(layout: Layout, text: SheetText, continues: str, measure: float) -> Strip:
    """Return the head of a further page: the name again, and that it continues."""
    styles = layout.theme.styles
    words: list[Word] = layout.lines.words(text.title, styles.running)
    more = layout.lines.words(_said(continues), styles.beside)
    if words and more:
        words = [*words, *layout.lines.apart(more, layout.theme.spaces.term_gap)]
    return _ruled(
        layout, layout.flow(words, styles.running, measure, before=0), measure, layout.theme.spaces.under_title
    )


def _ruled(layout: Layout, strips: Sequence[Strip], measure: float, above: float) -> Strip:
    """Return a head with its strong rule under it; or with that over it, and a thin one under it."""
    strokes, around = layout.theme.strokes, layout.theme.forms.rule == "around"
    top = joined(strips) if strips else Strip(0.0, ())
    over = strokes.strong + above if around else 0.0
    stroke = strokes.thin if around else strokes.strong
    y = over + top.height + above + stroke / 2
    height = y + stroke / 2 + layout.space(layout.theme.spaces.under_rule)
    ops = [*(lowered(op, over) for op in top.ops)] if around else [*top.ops]
    if around:
        ops.append(Stroke(0, strokes.strong / 2, measure, strokes.strong / 2, strokes.strong))
    return Strip(height, (*ops, Stroke(0, y, measure, y, stroke)))


def _over(layout: Layout, text: SheetText, band: Band | None, measure: float) -> list[Strip]:
    """Return the line over the name: kicker left, aside right; one under the other where they do not fit."""
    styles, lines = layout.theme.styles, layout.lines
    kicker, aside = _kicker(layout, text.kicker, band), lines.words(text.aside, styles.aside)
    if not kicker and not aside:
        return []
    if kicker and aside and lines.natural(kicker) + layout.theme.spaces.column_gap + lines.natural(aside) > measure:
        first = layout.flow(aside, styles.aside, measure, before=0)
        return first + layout.flow(kicker, styles.kicker, measure, before=0)
    style = styles.aside if aside else styles.kicker
    height = lines.leading(style)
    baseline = layout.lines.baseline(style, height)
    ops: list[Op] = []
    for line in lines.lines(kicker, measure):
        ops.append((0.0, baseline, line, lines.marks))
    for line in lines.lines(aside, measure):
        ops.append((measure - line.width, baseline, line, lines.marks))
    fits = lines.natural(kicker) <= measure and lines.natural(aside) <= measure
    return [Strip(height, tuple(ops))] if fits else layout.flow(kicker or aside, style, measure, before=0)


def _kicker(layout: Layout, content: Inline, band: Band | None) -> list[Word]:
    """Return the kicker's words, in the line's colour where that is dark enough to read."""
    if band is not None:
        accent, ink = accent_of(layout.theme, band.position)
        if accent.can_be_read:
            return _coloured(layout, content, ink)
    return layout.lines.words(content, layout.theme.styles.kicker)


def _coloured(layout: Layout, content: Inline, ink: str) -> Passage:
    """Return a kicker's words in a line's ink: a binder has few kickers, and each many times."""
    known = layout.kickers.get((content, ink))
    if known is None:
        words = layout.lines.words(content, layout.theme.styles.kicker)
        parts = [tuple((part[0]._replace(ink=ink), *part[1:]) for part in word.parts) for word in words]
        known = Passage([word._replace(parts=part) for word, part in zip(words, parts, strict=True)])
        layout.kickers[content, ink] = known
    return known


def foot(layout: Layout, words: Foot, fingerprint: str, measure: float) -> Strip:
    """Return the foot of a sheet without its page number: a thin rule, the fingerprint and its code, quiet lines."""
    styles, spaces = layout.theme.styles, layout.theme.spaces
    stroke = layout.theme.strokes.thin
    strips = [Strip(stroke + spaces.foot_rule, (Stroke(0, stroke / 2, measure, stroke / 2, stroke),))]
    beside = measure - ROOM
    strips += _line(layout, fingerprint, styles.print, beside)
    for text in words.lines:
        strips += _line(layout, text, styles.foot, beside)
    whole = joined(strips)
    code = square_code(fingerprint, measure - SIDE, stroke + QUIET * MODULE)
    if code is None:
        return whole
    return Strip(max(whole.height, code.y + SIDE), (*whole.ops, code))


def _line(layout: Layout, text: str, style: Style, measure: float) -> list[Strip]:
    """Return a line of a foot as it is, where it fits on one; else set as any text is."""
    lines = layout.lines
    setting = lines.setting(style)
    spaced = text != text.strip() or "  " in text or "\n" in text or "\t" in text
    if spaced or not text or layout.faces[setting.face].width(text) * setting.size > measure:
        return layout.flow(lines.words(_said(text), style), style, measure, before=0)
    leading = lines.leading(style)
    return [Strip(leading, (Words(0.0, lines.baseline(style, leading), ((setting, text),)),))]


def page_number(layout: Layout, words: Foot, page: int, pages: int, measure: float) -> Op:
    """Return the page's number of its sheet's pages, at the right of the foot, left of the square code."""
    style, spaces = layout.theme.styles.print, layout.theme.spaces
    setting = layout.lines.setting(style)
    text = words.pages.replace("{page}", str(page)).replace("{pages}", str(pages))
    width = layout.faces[setting.face].width(text) * setting.size
    height = layout.lines.leading(style)
    op = Words(measure - ROOM - width, layout.lines.baseline(style, height), ((setting, text),))
    return lowered(op, layout.theme.strokes.thin + spaces.foot_rule)


def band_ops(layout: Layout, band: Band, page: Geometry, fill: str) -> list[Op]:
    """Return the band on the outer edge with the line's name along it; ``fill`` is its ink's operator.

    One that is outlined has the name in ink on the paper.
    """
    accent, _ = accent_of(layout.theme, band.position)
    style = layout.theme.styles.band
    face, name = layout.faces[style.face], band.name
    outlined = layout.theme.forms.band == "outlined"
    setting = Setting(style.face, style.size, "ink" if outlined else accent.over)
    long = face.width(name) * style.size
    left, top, width, height = band_place(layout.theme, page, band.position, band.count, long + 2 * style.size)
    upright = height > width
    rise = face.capital * style.size / 2
    if upright:
        words = Words(left + width / 2 - rise, top + (height - long) / 2, ((setting, name),), -1)
    else:
        words = Words(left + (width - long) / 2, top + height / 2 + rise, ((setting, name),))
    if outlined:
        line = layout.theme.strokes.band
        inner = f"{line / 2:.4g} {line / 2:.4g} {width - line:.4g} {height - line:.4g}"
        return [Sketch(left, top, f"{fill.upper()} {line:.4g} w {inner} re S"), words]
    return [Sketch(left, top, f"{fill} 0 0 {width:.4g} {height:.4g} re f"), words]
