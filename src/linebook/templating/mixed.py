"""A template as its tags with what it prints and chooses between them: the tree that its sheet is built by.

Owns laying markup and statements together; a template whose statements part a tag from its end has no such tree. It
must not know what any tag is for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Final, TypeAlias
from xml.parsers import expat

from jinja2 import nodes

from linebook.source.frozen import frozen

Mixed: TypeAlias = "Tag | Words | Printed | Choice | Loop"
Said: TypeAlias = tuple[str | nodes.Expr, ...]
"""What an attribute says: words, and what is printed between them."""

_FIRST: Final = 0xE000
_MOST: Final = 0x1800
"""Characters of nobody's own: each stands for something printed in an attribute."""


class Unbuilt(Exception):
    """A template that has to be run for its text."""


@frozen
class Tag:
    """A tag with its attributes, and what stands in it."""

    name: str
    attributes: Mapping[str, Said]
    children: list[Mixed]


@frozen
class Words:
    """Words of the template's own."""

    text: str


@frozen
class Printed:
    """Something that is printed."""

    value: nodes.Expr


@frozen
class Choice:
    """What is written where a test holds, and where it does not."""

    test: nodes.Expr
    then: list[Mixed]
    otherwise: list[Mixed]


@frozen
class Loop:
    """What is written for each of a list, and where the list is empty."""

    name: str
    over: nodes.Expr
    body: list[Mixed]
    otherwise: list[Mixed]


def mixed_tree(template: nodes.Template, included: Callable[[str], nodes.Template]) -> Tag:
    """Return the tree of a template with those it prints in their places; raises Unbuilt where there is none."""
    spelt = _Spelt(included)
    spelt.write(template.body)
    return _parsed(spelt.text, spelt.held)


class _Spelt:
    """Writes a template as XML: what it prints and its statements as processing instructions, numbered."""

    def __init__(self, included: Callable[[str], nodes.Template]) -> None:
        self.included = included
        self.text = ""
        self.held: list[nodes.Node] = []

    def write(self, body: Sequence[nodes.Node]) -> None:
        for node in body:
            if isinstance(node, nodes.Output):
                for child in node.nodes:
                    self._output(child)
            elif isinstance(node, nodes.If):
                self._if(node, node.elif_)
            elif isinstance(node, nodes.For) and isinstance(node.target, nodes.Name) and node.test is None:
                self._statement("for", node, node.body, node.else_)
            elif isinstance(node, nodes.Include) and isinstance(node.template, nodes.Const):
                self.write(self.included(str(node.template.value)).body)
            else:
                raise Unbuilt(type(node).__name__)

    def _if(self, node: nodes.If, others: Sequence[nodes.If]) -> None:
        if not others:
            self._statement("if", node, node.body, node.else_)
            return
        other = others[0]
        chained = nodes.If(other.test, other.body, [*others[1:]], node.else_, lineno=other.lineno)
        self._statement("if", node, node.body, [chained])

    def _statement(self, word: str, node: nodes.Node, body: Sequence[nodes.Node], rest: Sequence[nodes.Node]) -> None:
        if self._is_in_tag():
            raise Unbuilt("a statement in a tag")
        self.text += f"<?{word} {self._number(node)}?>"
        self.write(body)
        self.text += "<?else?>"
        self.write(rest)
        self.text += "<?end?>"

    def _output(self, child: nodes.Node) -> None:
        if isinstance(child, nodes.TemplateData):
            if any(_FIRST <= ord(letter) < _FIRST + _MOST for letter in child.data):
                raise Unbuilt("a character of nobody's own")
            self.text += child.data
        elif self._is_in_tag():
            self.text += chr(_FIRST + self._number(child))
        else:
            self.text += f"<?print {self._number(child)}?>"

    def _number(self, node: nodes.Node) -> int:
        self.held.append(node)
        if len(self.held) > _MOST:
            raise Unbuilt("too long")
        return len(self.held) - 1

    def _is_in_tag(self) -> bool:
        return self.text.rfind("<") > self.text.rfind(">")


def _parsed(text: str, held: Sequence[nodes.Node]) -> Tag:
    reading = _Reading(held)
    parser = expat.ParserCreate("UTF-8")
    parser.buffer_text = True
    parser.StartElementHandler = reading.start
    parser.EndElementHandler = reading.end
    parser.CharacterDataHandler = reading.words
    parser.ProcessingInstructionHandler = reading.instruction
    try:
        parser.Parse(text.encode(), True)
    except expat.ExpatError as error:
        raise Unbuilt(str(error)) from None
    tags = [one for one in reading.top if isinstance(one, Tag)]
    if len(tags) != 1 or any(isinstance(one, (Choice, Loop, Printed)) for one in reading.top):
        raise Unbuilt("not one sheet")
    return tags[0]


class _Reading:
    """Expat's handlers: build the tree. What is open is a list to add to, and the word that ends it."""

    def __init__(self, held: Sequence[nodes.Node]) -> None:
        self.held = held
        self.top: list[Mixed] = []
        self.open: list[tuple[str, list[Mixed]]] = [("", self.top)]

    def start(self, name: str, attributes: dict[str, str]) -> None:
        children: list[Mixed] = []
        said = {name: self._said(words) for name, words in attributes.items()}
        self._add(Tag(name=name, attributes=said, children=children))
        self.open.append(("tag", children))

    def end(self, _: str) -> None:
        self._close("tag")

    def words(self, text: str) -> None:
        self._add(Words(text=text))

    def instruction(self, word: str, number: str) -> None:
        if word == "print":
            self._add(Printed(value=_expression(self.held[int(number)])))
        elif word == "else":
            self._close("if")
        elif word == "end":
            self._close("else")
        else:
            self._open_statement(self.held[int(number)])

    def _open_statement(self, node: nodes.Node) -> None:
        body: list[Mixed] = []
        rest: list[Mixed] = []
        if isinstance(node, nodes.If):
            self._add(Choice(test=_expression(node.test), then=body, otherwise=rest))
        elif isinstance(node, nodes.For) and isinstance(node.target, nodes.Name):
            self._add(Loop(name=node.target.name, over=_expression(node.iter), body=body, otherwise=rest))
        self.open += [("else", rest), ("if", body)]

    def _said(self, words: str) -> Said:
        parts: list[str | nodes.Expr] = []
        for letter in words:
            at = ord(letter) - _FIRST
            held = self.held[at] if 0 <= at < len(self.held) else None
            if isinstance(held, nodes.Expr):
                parts.append(held)
            elif parts and isinstance(parts[-1], str):
                parts[-1] += letter
            else:
                parts.append(letter)
        return tuple(parts)

    def _add(self, one: Mixed) -> None:
        self.open[-1][1].append(one)

    def _close(self, word: str) -> None:
        if self.open.pop()[0] != word:
            raise Unbuilt("a statement parts a tag from its end")


def _expression(node: nodes.Node) -> nodes.Expr:
    assert isinstance(node, nodes.Expr)
    return node
