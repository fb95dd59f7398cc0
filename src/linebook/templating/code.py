"""Writes Python: the expressions, choices and loops of a template. It must not know what any tag is for."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Final

from jinja2 import nodes

from linebook.source.frozen import changing
from linebook.templating.mixed import Choice, Loop, Mixed, Said, Unbuilt

_INDENT: Final = "    "
_SIGNS: Final = {"eq": "==", "ne": "!=", "lt": "<", "lteq": "<=", "gt": ">", "gteq": ">="}
_LAST: Final = "last"


@changing(kw_only=False)
class _Line:
    """A line of code. One that begins a list has its name; one that adds something to it, what is added too."""

    depth: int
    text: str
    into: str = ""
    added: tuple[str, ...] = ()
    begins: str = ""

    def names(self, name: str) -> bool:
        """Return whether a name made for this code stands in the line."""
        return name == self.into or any(re.search(rf"\b{name}\b", one) for one in (self.text, *self.added))


class Code:
    """The body of one function as it is written."""

    def __init__(self, names: Sequence[str]) -> None:
        self._names: list[str] = [*names]
        self._lines: list[_Line] = []
        self._depth = 1
        self._made = 0
        self._loops: list[tuple[str, str]] = []

    def name(self, kind: str) -> str:
        """Return a new name."""
        self._made += 1
        return f"{kind}{self._made}"

    def add(self, text: str) -> None:
        """Add a line."""
        self._lines.append(_Line(self._depth, text))

    def append(self, into: str, value: str) -> None:
        """Add what adds a value to a list."""
        last = self._lines[-1] if self._lines else None
        if last is not None and last.into == into and last.depth == self._depth:
            last.added = (*last.added, value)
        else:
            self._lines.append(_Line(self._depth, "", into, (value,)))

    def begun(self, kind: str) -> str:
        """Begin a list, and return its name."""
        into = self.name(kind)
        self._lines.append(_Line(self._depth, f"{into} = []", begins=into))
        return into

    def ended(self, into: str) -> str:
        """Return the tuple of what was added to a list: where all is known to be added at once, without that list."""
        at = next(at for at, line in enumerate(self._lines) if line.begins == into)
        rest = [line for line in self._lines[at + 1 :] if line.names(into)]
        if len(rest) > 1 or any(line.into != into or line.depth != self._depth for line in rest):
            return f"tuple({into})"
        self._lines = [line for line in self._lines if line.begins != into and line not in rest]
        return _tuple(rest[0].added) if rest else "()"

    def text(self) -> str:
        """Return the code."""
        return "".join(f"{_INDENT * line.depth}{_spelt(line)}\n" for line in self._lines)

    @contextmanager
    def indented(self) -> Iterator[None]:
        """Write what follows further in."""
        self._depth += 1
        before = len(self._lines)
        yield
        if len(self._lines) == before:
            self.add("pass")
        self._depth -= 1

    def each(self, children: Sequence[Mixed], write: Callable[[Mixed], None]) -> None:
        """Write children in turn, with the choices and loops they stand in."""
        for child in children:
            if isinstance(child, Choice):
                self.choice(child, lambda part: self.each(part, write))
            elif isinstance(child, Loop):
                self._loop(child, write)
            else:
                write(child)

    def choice(self, choice: Choice, write: Callable[[Sequence[Mixed]], None]) -> None:
        """Write a choice; each of its parts in its own way."""
        self.add(f"if {self.expression(choice.test)}:")
        with self.indented():
            write(choice.then)
        if choice.otherwise:
            self.add("else:")
            with self.indented():
                write(choice.otherwise)

    def _loop(self, loop: Loop, write: Callable[[Mixed], None]) -> None:
        over, at, before = self.name("over"), self.name("at"), len(self._lines)
        if loop.name in self._names:
            raise Unbuilt("a name in the place of another")
        self.add(f"{over} = turns({self.expression(loop.over)})")
        self.add(f"for v_{loop.name} in {over}:")
        self._names.append(loop.name)
        self._loops.append((over, at))
        with self.indented():
            self.each(loop.body, write)
        self._loops.pop()
        self._names.pop()
        body = self._lines[before + 2 :]
        if any(line.names(at) for line in body):
            self._lines[before + 1].text = f"for {at}, v_{loop.name} in enumerate({over}, 1):"
        elif len(body) == 1 and _is_one(body[0].added) and not loop.otherwise:
            listed = self._lines[before].text.partition(" = ")[2]
            del self._lines[before:]
            self.append(body[0].into, f"*[{body[0].added[0]} for v_{loop.name} in {listed}]")
        if loop.otherwise:
            self.add(f"if not {over}:")
            with self.indented():
                self.each(loop.otherwise, write)

    def expression(self, node: nodes.Node) -> str:
        """Return an expression of a template as Python."""
        match node:
            case nodes.Name() if node.name in self._names:
                return f"v_{node.name}"
            case nodes.Getattr(node=nodes.Name(name="loop"), attr=attribute) if self._loops and attribute == _LAST:
                over, at = self._loops[-1]
                return f"({at} == len({over}))"
            case nodes.Getattr() if not node.attr.startswith("_"):
                return f"{self.expression(node.node)}.{node.attr}"
            case nodes.Const() if isinstance(node.value, (str, int)):
                return repr(node.value)
            case nodes.Call(node=nodes.Name(name="say"), args=[nodes.Const() as key], kwargs=[]):
                return f"say({key.value!r})"
            case nodes.Filter(node=nodes.Expr() as inner, name="plain", args=[], kwargs=[]):
                return f"plain({self.expression(inner)})"
            case nodes.Not():
                return f"(not {self.expression(node.node)})"
            case nodes.And() | nodes.Or():
                word = "and" if isinstance(node, nodes.And) else "or"
                return f"({self.expression(node.left)} {word} {self.expression(node.right)})"
            case nodes.CondExpr(expr2=nodes.Expr() as other):
                return f"({self.expression(node.expr1)} if {self.expression(node.test)} else {self.expression(other)})"
            case nodes.Compare(ops=[nodes.Operand() as operand]) if operand.op in _SIGNS:
                return f"({self.expression(node.expr)} {_SIGNS[operand.op]} {self.expression(operand.expr)})"
        raise Unbuilt(type(node).__name__)

    def said(self, said: Said) -> str:
        """Return what an attribute says."""
        parts = [repr(part) if isinstance(part, str) else _key(self.expression(part)) for part in said]
        if len(parts) <= 1:
            return parts[0] if parts else "''"
        return f"''.join(({', '.join(parts)}))" if len(parts) > 3 else " + ".join(parts)


def _key(value: str) -> str:
    """Return what an attribute says of a value; of plain words, as nearly all are, without a call."""
    return f"(k if type(k := {value}) is str and k.isprintable() else key(k))"


def _spelt(line: _Line) -> str:
    if not line.into:
        return line.text
    if _is_one(line.added):
        return f"{line.into}.append({line.added[0]})"
    return f"{line.into} += {_tuple(line.added)}"


def _is_one(values: Sequence[str]) -> bool:
    """Return whether one value is added, and not all of a list: no comprehension may unpack another."""
    return len(values) == 1 and not values[0].startswith("*")


def _tuple(values: Sequence[str]) -> str:
    if len(values) == 1:
        return f"tuple({values[0][1:]})" if values[0].startswith("*") else f"({values[0]},)"
    return f"({', '.join(values)})"


def static(said: Said) -> str:
    """Return what an attribute says where nothing is printed in it; raises Unbuilt elsewhere."""
    if any(not isinstance(part, str) for part in said):
        raise Unbuilt("an attribute that is not known before")
    return "".join(part for part in said if isinstance(part, str))
