"""Names of things on paper: items, lines, and the headings over a sheet's name. Knows no document."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from linebook.documents.second import item_name, line_name, medium_text
from linebook.documents.text import Piece, Text, joined, words
from linebook.documents.wording import Wording
from linebook.model.house import House, Line
from linebook.read.ids import kebab


def line_of(house: House, line: str) -> Line:
    """Return a line of the house by its id."""
    return next(entry for entry in house.file.lines if entry.id == line)


def medium_name(house: House, medium: str, wording: Wording) -> Text:
    """Return the name of a shared medium as it stands in a sentence: without an article the chef typed before it."""
    name = next(entry.name for entry in house.file.media if entry.id == medium)
    articles = wording.say("article").plain.split("|")
    article = next((one for one in articles if name.casefold().startswith(one) and len(name) > len(one)), "")
    return medium_text(house, medium, name[len(article) :])


def kicker(house: House, line: str, document: str, wording: Wording) -> Text:
    """Return what stands over a sheet's name: its line and which document it is."""
    return joined((line_name(house, line), wording.say(f"document.{document}")), wording.say("kicker.between"))


@cache
def foot_counts(wording: Wording) -> tuple[str, str]:
    """Return how a foot counts pages and columns, with places for the numbers; they are the same on every sheet."""
    pages = wording.say("foot.pages", page="{page}", pages="{pages}").plain
    return pages, wording.say("foot.columns", first="{first}", last="{last}", count="{count}").both


def names_of(house: House, items: Iterable[str], wording: Wording) -> Text:
    """Return the printed names of items as a list."""
    return wording.named(item_name(house, item) for item in items)


def made_by(house: House, item: str, line: str, wording: Wording) -> Text:
    """Return where an item comes from: another line, a card of this line, or nothing for what is bought."""
    component = house.components.get(item)
    if component is None:
        makers = house.by_products.get(item, ())
        if not makers or item in house.pantry:
            return words("")
        parent, _ = makers[0]
        own = parent.line == line
        key = "from.by-product" if own else "from.by-product-of-line"
        return wording.say(key, parent=item_name(house, parent.id), line=line_name(house, parent.line))
    if component.line == line:
        return wording.say("from.own-card")
    return wording.say("from.line", line=line_name(house, component.line))


def rules_text(rules: str, wording: Wording) -> Text:
    """Return what a set of rules is called in a sentence: *the UK rules*, *las normas del Reino Unido*."""
    return wording.say(f"rules.{kebab(rules)}")


def before_comma(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return a name without what is told of it after a comma."""
    if not pieces or "," not in pieces[0].words:
        return pieces[:1]
    name = pieces[0]
    return (Piece(name.words.partition(",")[0], name.bold, name.italic),)
