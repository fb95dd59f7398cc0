"""What any page must keep to, whoever wrote it: returns complaints, so that planted defects can be counted.

Sources: HTML Living Standard (outline, tables, ids); WCAG 2.2 success criteria as named beside each rule.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterator, Mapping
from hashlib import sha256
from itertools import pairwise
from xml.etree import ElementTree

from page_reader import Node, read_page
from style_reader import contrasts, declarations, sizes_in_rem

HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")
_ALLOWED = frozenset(
    (
        *("html", "head", "meta", "title", "style", "body", "a", "header", "nav", "main", "article", "footer", "div"),
        *("h1", "h2", "h3", "h4", "h5", "h6", "p", "span", "b", "i", "hr", "ul", "ol", "li", "dl", "dt", "dd"),
        *("table", "caption", "thead", "tbody", "tr", "th", "td", "figure", "figcaption", "img"),
        *("svg", "desc", "text", "ellipse", "path", "polygon", "polyline"),
    )
)
_LOADS = ("src", "srcset", "data", "poster", "action", "formaction", "background", "ping", "manifest", "xlink:href")


def complaints_about(text: str, files: Mapping[str, str]) -> list[str]:
    """Return everything wrong with a page; ``files`` are all pages of its folder by name."""
    page = read_page(text)
    found = list(page.complaints)
    found += _well_formed(text)
    for check in _RULES:
        found += check(page)
    return found + list(_links(page, files))


def _well_formed(text: str) -> Iterator[str]:
    if not text.startswith("<!DOCTYPE html>\n"):
        yield "does not begin with the document type of HTML"
    try:
        ElementTree.fromstring(text.removeprefix("<!DOCTYPE html>\n"))
    except ElementTree.ParseError as error:
        yield f"not well formed: {error}"


def _one_of_each(page: Node) -> Iterator[str]:
    """SC 1.3.1, 2.4.1, 2.4.2, 3.1.1: title, language, landmarks, one first heading, a way past what is repeated."""
    for tag in ("main", "h1", "style", "head", "body"):
        if len(list(page.all(tag))) != 1:
            yield f"{len(list(page.all(tag)))} <{tag}>"
    if len([node for node in page.all("title") if node.parent and node.parent.tag == "head"]) != 1:
        yield "not one title"
    html = next(page.all("html"))
    if not re.fullmatch(r"[a-z]{2}", html.attributes.get("lang", "")):
        yield "no language"
    if not next(page.all("title")).text:
        yield "an empty title"
    body = next(page.all("body"))
    landmarks = [child.tag for child in body.children if isinstance(child, Node)]
    if landmarks != ["a", "header", "main", "footer"]:
        yield f"landmarks {landmarks}"
    first = next(body.all("a"))
    if (
        first.attributes.get("class") != "skip"
        or first.attributes.get("href") != f"#{page.one('main').attributes['id']}"
    ):
        yield "the first link does not skip to the sheet"
    for nav in page.all("nav"):
        if not nav.attributes.get("aria-label"):
            yield "a nav without a name"


def _headings(page: Node) -> Iterator[str]:
    """SC 1.3.1: levels begin at 1 and skip none; none is empty."""
    levels = [int(node.tag[1]) for node in page.all(*HEADINGS)]
    if levels[:1] != [1]:
        yield f"the first heading is of level {levels[:1]}"
    for before, after in pairwise(levels):
        if after > before + 1:
            yield f"a heading of level {after} follows one of {before}"
    for node in page.all(*HEADINGS):
        if not node.text:
            yield f"an empty <{node.tag}>"


def _ids(page: Node) -> Iterator[str]:
    """SC 1.3.1: ids are unique, and what names another by id finds it."""
    ids = [node.attributes["id"] for node in page.all() if "id" in node.attributes]
    yield from (f"the id {one} twice" for one in set(ids) if ids.count(one) > 1)
    for node in page.all():
        for name in ("aria-labelledby", "aria-describedby"):
            yield from (f"{name} names no {one}" for one in node.attributes.get(name, "").split() if one not in ids)


def _tables(page: Node) -> Iterator[str]:
    """SC 1.3.1: each table has a caption, each head a scope, each row as many cells as columns, each data row a head."""
    for table in page.all("table"):
        if not next((node.text for node in table.all("caption")), ""):
            yield "a table without a caption"
        widths = set()
        for row in table.all("tr"):
            cells = list(row.all("th", "td"))
            widths.add(sum(int(cell.attributes.get("colspan", "1")) for cell in cells))
            if row.parent is None or row.parent.tag not in ("thead", "tbody"):
                yield "a row outside a head or body"
            if row.parent and row.parent.tag == "tbody" and sum(cell.tag == "th" for cell in cells) != 1:
                yield f"a row with {sum(cell.tag == 'th' for cell in cells)} heads: {row.text[:40]}"
            if "role" in table.attributes and any("role" not in cell.attributes for cell in cells):
                yield "a table that is laid out as lines has a cell without its role"
        if len(widths) > 1:
            yield f"rows of {sorted(widths)} columns"
        for head in table.all("th"):
            if head.attributes.get("scope") not in ("col", "row", "colgroup", "rowgroup"):
                yield f"a head without a scope: {head.text[:40]}"
            if not head.text:
                yield "an empty head"


def _figures(page: Node) -> Iterator[str]:
    """SC 1.1.1: each drawing and picture is said in words."""
    for svg in page.all("svg"):
        if svg.attributes.get("role") != "img" or not svg.attributes.get("aria-labelledby"):
            yield "a drawing that is no image to who hears the page"
        if not all(next((node.text for node in svg.all(tag)), "") for tag in ("title", "desc")):
            yield "a drawing without words"
    for image in page.all("img"):
        if not image.attributes.get("alt", "").strip():
            yield "a picture without words"


def _marks(page: Node) -> Iterator[str]:
    """SC 1.4.1, 1.1.1: a mark is a letter with its words beside it; a matrix cell says them; no cell is empty."""
    for mark in page.of_class("mark"):
        if mark.text not in ("C", "M", "?", "no"):
            yield f"a mark without its letter: {mark.text}"
    for cell in page.all("td"):
        if "of-mark" in cell.attributes.get("class", ""):
            said = [node for node in cell.of_class("said") if len(node.text) > 2]
            if not said:
                yield "a cell of the matrix without words"
    for hidden in page.all():
        if hidden.attributes.get("aria-hidden") == "true" and "mark" in hidden.attributes.get("class", ""):
            following = hidden.parent.children[hidden.parent.children.index(hidden) + 1] if hidden.parent else ""
            if not isinstance(following, Node) or not following.text:
                yield "a mark that only the eye has"


def _scrolls(page: Node) -> Iterator[str]:
    """SC 2.1.1: what scrolls by itself can be reached by keys and has a name."""
    for region in page.of_class("scroll"):
        wanted = {"role": "region", "tabindex": "0"}
        if any(region.attributes.get(name) != value for name, value in wanted.items()):
            yield "a part that scrolls and takes no focus"
        if not region.attributes.get("aria-label"):
            yield "a part that scrolls and has no name"


def _nothing_loaded(page: Node) -> Iterator[str]:
    """No element that loads or runs; the policy lets in nothing but this style by its digest."""
    for node in page.all():
        if node.tag not in _ALLOWED:
            yield f"<{node.tag}>"
        for name, value in node.attributes.items():
            if name.startswith("on") or name == "style":
                yield f"an attribute {name}"
            if name in _LOADS and not value.startswith(("data:image/jpeg;base64,", "data:image/png;base64,")):
                yield f"{name} loads {value[:40]}"
    style = "".join(child for child in page.one("style").children if isinstance(child, str))
    if re.search(r"url\(|@import|expression|javascript", style):
        yield "the style loads something"
    digest = b64encode(sha256(style.encode()).digest()).decode()
    policy = next(
        (node.attributes.get("content", "") for node in page.all("meta") if "http-equiv" in node.attributes), ""
    )
    rules = {part.split()[0]: part.split()[1:] for part in policy.split(";") if part.strip()}
    wanted = {"default-src": ["'none'"], "style-src": [f"'sha256-{digest}'"], "base-uri": ["'none'"]}
    wanted |= {"form-action": ["'none'"]}
    if list(page.all("img")):
        wanted["img-src"] = ["data:"]
    if rules != wanted:
        yield f"the policy is {policy}"


def _style(page: Node) -> Iterator[str]:
    """SC 1.4.3 (4.5 to 1), 1.4.4, 2.4.7, 2.3.3: contrast by the formula, no small words, focus seen, nothing moves."""
    style = "".join(child for child in page.one("style").children if isinstance(child, str))
    for pair, ratio in contrasts(style).items():
        if ratio < 4.5:
            yield f"{pair} has a contrast of {ratio:.2f}"
    yield from (f"words of {size}rem" for size in sizes_in_rem(style) if size < 1)
    for selector, name, value in declarations(style):
        if name.startswith(("animation", "transition")) or (name, value) == ("scroll-behavior", "smooth"):
            yield f"{selector} moves"
        if name == "outline" and value in ("0", "none") and selector != "main:focus":
            yield f"{selector} hides the focus"


def _links(page: Node, files: Mapping[str, str]) -> Iterator[str]:
    """SC 2.4.4: each link has words and ends inside the folder, at something that is there."""
    for link in page.all("a"):
        href = link.attributes.get("href", "")
        file, _, part = href.partition("#")
        if not re.fullmatch(r"[a-z0-9-]+\.html|", file) or (file and file not in files):
            yield f"a link to {href}"
        elif part and f'id="{part}"' not in (files[file] if file else "".join(_ids_of(page))):
            yield f"a link to no part {href}"
        if not link.text:
            yield f"a link without words to {href}"
        if any(node.tag == "a" for node in link.up()):
            yield "a link in a link"


def _ids_of(page: Node) -> Iterator[str]:
    for node in page.all():
        if "id" in node.attributes:
            yield f'id="{node.attributes["id"]}"'


_RULES: tuple[Callable[[Node], Iterator[str]], ...] = (
    _one_of_each,
    _headings,
    _ids,
    _tables,
    _figures,
    _marks,
    _scrolls,
    _nothing_loaded,
    _style,
)
