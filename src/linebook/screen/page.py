"""One page: what stands round a sheet's blocks, and the rules by which nothing else is loaded.

Owns landmarks, titles and links. It must not know how a block is written. A page is well-formed XML and HTML alike.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final

from linebook.markup.sheet import Sheet
from linebook.screen.blocks import BlockPainter, Place
from linebook.screen.figures import drawing_rules
from linebook.screen.inline import Inliner, plain
from linebook.screen.spelling import spelt
from linebook.source.frozen import frozen

INDEX: Final = "screen-index"
_MAIN: Final = "sheet"


@frozen
class Leading:
    """A link to another page: its file, and its words in HTML."""

    file: str
    words: str


@frozen
class Frame:
    """What the pages of one house share: its name, its first language, and the colour of each line as ``#rrggbb``."""

    house: str
    language: str
    accents: tuple[str, ...]


def page_html(sheet: Sheet, inliner: Inliner, frame: Frame, own: str, others: Sequence[Leading]) -> str:
    """Return the page of a sheet. ``own`` is its file; ``others`` are the pages that its head leads to."""
    painter = BlockPainter(sheet, inliner)
    blocks = painter.html(sheet.text.blocks)
    style = _style(sheet, frame) + drawing_rules(painter.drawings)
    title = " · ".join(dict.fromkeys((plain(sheet.text.title), _document(sheet, inliner), frame.house)))
    return (
        "<!DOCTYPE html>\n"
        f'<html lang="{spelt(frame.language)}">\n'
        f"<head>\n{_head(title, style, pictures='<img ' in blocks)}</head>\n"
        f'<body class="{spelt(sheet.text.kind)}">\n'
        f'<a class="skip" href="#{_MAIN}">{inliner.say("screen.skip")}</a>\n'
        f"{_bar(inliner, own, others)}"
        f'<main id="{_MAIN}" tabindex="-1">\n<article>\n{_over(sheet, inliner)}'
        f"{_jump(painter.places, inliner) if sheet.text.kind == INDEX else ''}"
        f"{blocks}</article>\n</main>\n{_foot(sheet)}</body>\n</html>\n"
    )


def _head(title: str, style: str, *, pictures: bool) -> str:
    """Return what stands before a page: its title, its style, and that it may load nothing else."""
    digest = b64encode(sha256(style.encode()).digest()).decode("ascii")
    rules = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    rules += "; img-src data:" if pictures else ""
    return (
        '<meta charset="utf-8"/>\n'
        f'<meta http-equiv="Content-Security-Policy" content="{spelt(rules)}"/>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        '<meta name="referrer" content="no-referrer"/>\n'
        '<meta name="format-detection" content="telephone=no"/>\n'
        f"<title>{spelt(title)}</title>\n<style>{style}</style>\n"
    )


def _style(sheet: Sheet, frame: Frame) -> str:
    """Return the style of a page, its line's colour at the top."""
    if sheet.band is None or not frame.accents:
        return _rules()
    return f"{_rules()}:root {{ --accent: {frame.accents[sheet.band.position % len(frame.accents)]}; }}\n"


@cache
def _rules() -> str:
    return (Path(__file__).parent / "screen.css").read_text(encoding="utf-8")


def _bar(inliner: Inliner, own: str, others: Sequence[Leading]) -> str:
    links = "".join(
        f'<li><a href="{spelt(other.file)}"{_current(other.file == own)}><span>{other.words}</span></a></li>'
        for other in others
    )
    return f'<header class="bar"><nav aria-label="{inliner.name("screen.sheets")}"><ul>{links}</ul></nav></header>\n'


def _current(current: bool) -> str:
    return ' aria-current="page"' if current else ""


def _jump(places: Sequence[Place], inliner: Inliner) -> str:
    """Return links to the main headings of a page that is longer than a screen."""
    links = "".join(f'<li><a href="#{place.id}">{spelt(place.words)}</a></li>' for place in places if place.level == 2)
    return f'<nav class="jump" aria-label="{inliner.name("screen.on-page")}"><ul>{links}</ul></nav>\n'


def _over(sheet: Sheet, inliner: Inliner) -> str:
    text = sheet.text
    kicker = f'<p class="kicker">{inliner.html(text.kicker, along=True)}</p>\n' if text.kicker else ""
    aside = f'<p class="aside">{inliner.html(text.aside, along=True)}</p>\n' if text.aside else ""
    return f"<header>\n{kicker}<h1>{inliner.html(text.title)}</h1>\n{aside}</header>\n"


def _foot(sheet: Sheet) -> str:
    lines = "".join(f"<p>{spelt(line)}</p>\n" for line in sheet.foot.lines)
    return f'<footer>\n<p class="print">{spelt(sheet.fingerprint)}</p>\n{lines}</footer>\n'


def _document(sheet: Sheet, inliner: Inliner) -> str:
    return inliner.wording.say(f"document.{sheet.text.kind}").plain
