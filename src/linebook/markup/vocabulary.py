"""The tags a sheet is written in: strict XHTML with a short list of tags, classes and attributes.

Owns the vocabulary and its documentation; knows nothing of templates, expat or paper.

A sheet is one ``article``. Everything that may change between two issues carries ``data-key``::

    <article id="batch-card:pickle" class="batch-card"
             data-line="larder" data-page="portrait">
      <header>
        <p class="kicker">over the name</p>
        <h1>the name</h1>
        <p class="aside">beside it: draft, or for which night</p>
      </header>
      blocks
    </article>

Blocks
    ``section``     groups blocks for whoever reads the template; draws nothing
    ``h2`` ``h3``   a heading; ``<span class="aside">`` at its end stands beside it, quieter. ``data-page="new"`` on an
                    ``h2`` outside boxes and splits starts a page with it, where the sheet is longer than one
    ``p``           running text; its class is a role (``body`` where there is none)
    ``dl``          labelled lines: ``dt`` and ``dd`` in turn; the key stands on the ``dt``
    ``table``       ``colgroup`` with one ``col`` a column (its class is the kind), ``thead``, ``tbody``
    ``tr``          a row; class ``group`` makes it the head of a group
    ``td`` ``th``   a cell; ``colspan``; ``scope`` (``col`` or ``row``) on ``th``; ``<span class="note">`` at its
                    end stands under the rest, quieter
    ``ol`` ``li``   numbered steps; ``start`` where the numbers run on
    ``ul`` ``li``   points
    ``hr``          a thin rule
    ``figure``      a drawing kept beside the sheet: ``data-figure`` its name, ``aria-label`` what it shows in
                    words; ``figcaption`` its caption
    ``div.box``     a frame with a role as its second class: ``<div class="box limit">``
    ``div.split``   two stacks side by side: ``div.left`` and ``div.right``; ``data-left`` is the left one's share
                    in per cent

Inside text
    ``b`` ``i`` and ``span`` with a class of style (``quiet``, ``small``), with ``lang``, or with ``data-key``;
    or a ``span`` that is a mark: ``tick`` (``data-count`` boxes), ``blank`` (``data-width`` in em), ``number``,
    or an allergen mark. What stands inside a mark is how it is said aloud.

    ``span.two`` holds words in two languages: the first, and at its end ``<span class="second" lang="es">``. A text
    that is given to a template in two languages is written so. What a block says in the second language comes
    together after what it says in the first; beside a ``blank`` to write on, each stands after its own.

White space runs together as in HTML; a no-break space does not.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.source.frozen import frozen

KINDS: Final = (
    "station-card",
    "batch-card",
    "plating-guide",
    "allergen-matrix",
    "line-cover",
    "line-allergens",
    "allergen-index",
    "void-notice",
    "tonight-notice",
    "screen-index",
    "guest-sheet",
    "set-up-sheet",
    "cutting-plan",
    "count-sheet",
    "order-sheet",
    "prep-day",
    "prep-week",
    "pull-list",
    "tasting-notes",
    "tasting-sheet",
    "call-sheet",
    "line-up-sheet",
    "swap-sheet",
)
PARAGRAPH_ROLES: Final = ("body", "lead", "note", "caution", "safety", "source", "quiet")
FACT_ROLES: Final = ("plain", "allergens", "verdicts", "legend")
TABLE_ROLES: Final = ("ingredients", "elements", "matrix", "log", "contents", "list", "seats", "calls")
COLUMN_KINDS: Final = ("tick", "amount", "unit", "name", "figure", "mark", "number", "text")
FIGURE_ROLES: Final = ("large", "small", "photo")
BOX_ROLES: Final = ("limit", "caution")
MARKS: Final = (
    "tick",
    "blank",
    "number",
    "contains",
    "may",
    "undeclared",
    "free",
    "contains-leave",
    "may-leave",
    "undeclared-leave",
)
STYLES: Final = ("quiet", "small")
SLOTS: Final = ("aside", "note")
PAIR: Final = "two"
SECOND: Final = "second"
SCOPES: Final = ("col", "row")
MOST_COLUMNS: Final = 64


@frozen
class Tag:
    """What one tag may carry. ``inside`` names the tags it may hold; ``text`` says whether it may hold words."""

    inside: tuple[str, ...] = ()
    text: bool = False
    classes: tuple[str, ...] = ()
    needs_class: bool = False
    attributes: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


_INLINE: Final = ("b", "i", "span")
_BLOCKS: Final = ("section", "h2", "h3", "p", "dl", "table", "ol", "ul", "hr", "figure", "div")

TAGS: Final[Mapping[str, Tag]] = {
    "article": Tag(
        inside=("header", *_BLOCKS),
        classes=KINDS,
        needs_class=True,
        attributes=("id", "data-line", "data-page"),
        needs=("id",),
    ),
    "header": Tag(inside=("p", "h1")),
    "section": Tag(inside=_BLOCKS),
    "h1": Tag(inside=_INLINE, text=True),
    "h2": Tag(inside=_INLINE, text=True, attributes=("data-key", "data-page")),
    "h3": Tag(inside=_INLINE, text=True, attributes=("data-key",)),
    "p": Tag(inside=_INLINE, text=True, classes=(*PARAGRAPH_ROLES, "kicker", "aside"), attributes=("data-key",)),
    "dl": Tag(inside=("dt", "dd"), classes=FACT_ROLES),
    "dt": Tag(inside=_INLINE, text=True, attributes=("data-key",)),
    "dd": Tag(inside=_INLINE, text=True),
    "table": Tag(inside=("colgroup", "thead", "tbody"), classes=TABLE_ROLES),
    "colgroup": Tag(inside=("col",)),
    "col": Tag(classes=COLUMN_KINDS, needs_class=True),
    "thead": Tag(inside=("tr",)),
    "tbody": Tag(inside=("tr",)),
    "tr": Tag(inside=("td", "th"), classes=("group",), attributes=("data-key",)),
    "td": Tag(inside=_INLINE, text=True, attributes=("colspan",)),
    "th": Tag(inside=_INLINE, text=True, attributes=("colspan", "scope")),
    "ol": Tag(inside=("li",), attributes=("start",)),
    "ul": Tag(inside=("li",)),
    "li": Tag(inside=_INLINE, text=True, attributes=("data-key",)),
    "hr": Tag(),
    "figure": Tag(
        inside=("figcaption",),
        classes=FIGURE_ROLES,
        attributes=("data-figure", "aria-label"),
        needs=("data-figure", "aria-label"),
    ),
    "figcaption": Tag(inside=_INLINE, text=True),
    "div": Tag(
        inside=_BLOCKS,
        classes=("box", "split", "left", "right", *BOX_ROLES),
        needs_class=True,
        attributes=("data-key", "data-left"),
    ),
    "b": Tag(inside=_INLINE, text=True),
    "i": Tag(inside=_INLINE, text=True),
    "span": Tag(
        inside=_INLINE,
        text=True,
        classes=(*STYLES, *SLOTS, *MARKS, PAIR, SECOND),
        attributes=("data-key", "data-count", "data-width", "lang"),
    ),
}
