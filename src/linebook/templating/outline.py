"""How templates are put together: what each is for, which others it prints, and what those are given.

Owns reading a template's tree for people. It must not know any document.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from jinja2 import TemplateSyntaxError, nodes

from linebook.source.frozen import frozen
from linebook.templating.templates import Templates

_COMMENT: Final = re.compile(r"\A\s*\{#-?(.*?)-?#\}", re.DOTALL)


@frozen
class Printed:
    """A template that another prints. ``loops`` are the names it sees beside ``sheet``, each with what it goes over."""

    name: str
    loops: tuple[tuple[str, str], ...]


def purpose(text: str) -> str:
    """Return what a template says it is for: the comment it begins with, on one line."""
    match = _COMMENT.match(text)
    return " ".join(match[1].split()) if match else ""


def printed_by(templates: Templates, name: str) -> tuple[Printed, ...]:
    """Return what a template prints of other templates, in order; nothing where it cannot be read."""
    found = templates.find(name)
    if found.value is None:
        return ()
    try:
        tree = templates.tree(found.value)
    except (TemplateSyntaxError, RecursionError, ValueError):
        return ()
    return tuple(_printed(tree, ()))


def _printed(node: nodes.Node, loops: tuple[tuple[str, str], ...]) -> Iterator[Printed]:
    if isinstance(node, nodes.Include) and isinstance(node.template, nodes.Const):
        yield Printed(name=str(node.template.value), loops=loops)
    inner = loops
    if isinstance(node, nodes.For) and isinstance(node.target, nodes.Name):
        inner = (*loops, (node.target.name, _path(node.iter)))
    for child in node.iter_child_nodes():
        yield from _printed(child, inner)


def _path(node: nodes.Node) -> str:
    if isinstance(node, nodes.Getattr):
        return f"{_path(node.node)}.{node.attr}"
    return node.name if isinstance(node, nodes.Name) else "…"
