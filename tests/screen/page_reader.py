"""A page as a tree, read by the standard HTML parser: knows HTML's void elements and nothing of linebook."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset(("area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"))
_IN_SVG = frozenset(("ellipse", "path", "polygon", "polyline", "line", "circle", "rect"))


@dataclass
class Node:
    """One element; ``complaints`` of the root are what the parser found wrong."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    parent: Node | None = None
    children: list[Node | str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def all(self, *tags: str) -> Iterator[Node]:
        """Yield the elements inside, in document order; of these tags alone where any are named."""
        for child in self.children:
            if isinstance(child, Node):
                if not tags or child.tag in tags:
                    yield child
                yield from child.all(*tags)

    def one(self, tag: str) -> Node:
        """Return the only element of a tag."""
        (found,) = self.all(tag)
        return found

    def of_class(self, word: str) -> list[Node]:
        return [node for node in self.all() if word in node.attributes.get("class", "").split()]

    def up(self) -> Iterator[Node]:
        """Yield what it stands in, the nearest first."""
        node = self.parent
        while node is not None:
            yield node
            node = node.parent

    @property
    def text(self) -> str:
        """All words, whether seen or only read aloud; white space run together."""
        return " ".join("".join(self._words()).split())

    def _words(self) -> Iterator[str]:
        for child in self.children:
            if isinstance(child, str):
                yield child
            elif child.tag not in ("style", "script"):
                yield from child._words()
                if child.tag not in ("b", "i", "a", "span"):
                    yield " "


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("")
        self.open = self.root

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        self.root.complaints += [f"<{tag}> has `{name}` twice" for name in set(names) if names.count(name) > 1]
        node = Node(tag, {name: value or "" for name, value in attrs}, self.open)
        self.open.children.append(node)
        if tag not in VOID | _IN_SVG:
            self.open = node

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID | _IN_SVG:
            self.root.complaints.append(f"<{tag}/> is not closed by a browser")

    def handle_endtag(self, tag: str) -> None:
        if self.open.tag != tag:
            self.root.complaints.append(f"</{tag}> closes <{self.open.tag}>")
            return
        assert self.open.parent is not None
        self.open = self.open.parent

    def handle_data(self, data: str) -> None:
        self.open.children.append(data)

    def handle_comment(self, data: str) -> None:
        self.root.complaints.append(f"a comment: {data[:40]}")


def read_page(text: str) -> Node:
    """Return the root of a page."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    if reader.open is not reader.root:
        reader.root.complaints.append(f"<{reader.open.tag}> is not closed")
    return reader.root
