"""What a template may be written with, checked before it ever runs: an allow-list, every refusal at once."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from jinja2 import nodes

from linebook.source.frozen import changing, frozen
from linebook.source.nearest import nearest
from linebook.templating.fence import ALLOWED_FILTERS, GIVEN_NAMES

MOST_LOOPS: Final = 3
MOST_DEPTH: Final = 60
"""How deep one thing may stand in another. Ours go 12 deep; Python takes 100 blocks and 200 brackets."""
MOST_DIGITS: Final = 12

_ALLOWED: Final = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.Name,
    nodes.Const,
    nodes.Getattr,
    nodes.If,
    nodes.For,
    nodes.Include,
    nodes.Compare,
    nodes.Operand,
    nodes.And,
    nodes.Or,
    nodes.Not,
    nodes.Filter,
    nodes.Call,
    nodes.Keyword,
    nodes.CondExpr,
)
_SAID: Final = {
    nodes.Add: "`+`",
    nodes.Sub: "`-`",
    nodes.Mul: "`*`",
    nodes.Div: "`/`",
    nodes.FloorDiv: "`//`",
    nodes.Mod: "`%`",
    nodes.Pow: "`**`",
    nodes.Neg: "`-`",
    nodes.Pos: "`+`",
    nodes.Concat: "`~`",
    nodes.Getitem: "`[…]`",
    nodes.Assign: "`set`",
    nodes.AssignBlock: "`set`",
    nodes.Macro: "`macro`",
    nodes.CallBlock: "`call`",
    nodes.FilterBlock: "a `filter` block",
    nodes.With: "`with`",
    nodes.Extends: "`extends`",
    nodes.Block: "`block`",
    nodes.Import: "`import`",
    nodes.FromImport: "`import`",
    nodes.ScopedEvalContextModifier: "an `autoescape` block",
    nodes.EvalContextModifier: "an `autoescape` block",
    nodes.Test: "`is`",
    nodes.List: "a list",
    nodes.Tuple: "a list",
    nodes.Dict: "a table of values",
}
_COMPUTES: Final = (nodes.BinExpr, nodes.UnaryExpr)
_TAKEN: Final = (*GIVEN_NAMES, "loop")
_INSTEAD: Final = "a template prints what it is given, with `if`, `for`, `include` and `say`"


@frozen
class Complaint:
    """One construct or name that a template may not have, and its line."""

    code: str
    line: int
    message: str
    hints: tuple[str, ...] = ()


@frozen
class Included:
    """A template that another prints, how deep in loops it stands there, and the names it sees."""

    name: str
    line: int
    loops: int
    names: frozenset[str]


@changing(kw_only=False)
class Inspection:
    """Walks one template's tree and gathers complaints and what it includes."""

    complaints: list[Complaint]
    included: list[Included]


def inspect_template(tree: nodes.Template, *, loops: int = 0, names: frozenset[str] = frozenset()) -> Inspection:
    """Return all that is refused in a template. ``loops`` and ``names`` are those of where it is included."""
    inspection = Inspection([], [])
    deep = _too_deep(tree)
    if deep is not None:
        inspection.complaints.append(_complain(deep, "the template is nested too deep", "make it plainer"))
        return inspection
    _walk(tree, loops, names | set(GIVEN_NAMES), inspection)
    return inspection


def _too_deep(tree: nodes.Template) -> nodes.Node | None:
    """Return the first thing that stands too deep in others, found without going in deep itself."""
    level: list[nodes.Node] = [tree]
    for _ in range(MOST_DEPTH):
        level = [child for node in level for child in node.iter_child_nodes()]
        if not level:
            return None
    return level[0]


def _walk(node: nodes.Node, loops: int, names: frozenset[str], into: Inspection) -> None:
    refused = _refusal(node, names)
    if refused is not None:
        into.complaints.append(refused)
        return
    if isinstance(node, nodes.For):
        _walk_loop(node, loops, names, into)
        return
    if isinstance(node, nodes.Include) and isinstance(node.template, nodes.Const):
        into.included.append(Included(name=str(node.template.value), line=node.lineno, loops=loops, names=names))
        return
    children = _arguments(node) if isinstance(node, nodes.Call) else node.iter_child_nodes()
    for child in children:
        _walk(child, loops, names, into)


def _walk_loop(node: nodes.For, loops: int, names: frozenset[str], into: Inspection) -> None:
    if loops + 1 > MOST_LOOPS:
        message = f"loops stand more than {MOST_LOOPS} deep"
        into.complaints.append(_complain(node, message, "print the inner one from another loop"))
        return
    if node.recursive:
        into.complaints.append(_complain(node, "a loop may not call itself", "leave out `recursive`"))
    if not isinstance(node.target, nodes.Name):
        into.complaints.append(_complain(node, "a loop takes one name", "write `for row in …`"))
        return
    if node.target.name in _TAKEN:
        message = f"`{node.target.name}` is a name that is taken"
        into.complaints.append(_complain(node, message, "give what the loop goes over another name, like `row`"))
        return
    inner = names | {node.target.name, "loop"}
    _walk(node.iter, loops, names, into)
    for part in (*node.body, *([node.test] if node.test else [])):
        _walk(part, loops + 1, inner, into)
    for part in node.else_:
        _walk(part, loops, names, into)


def _refusal(node: nodes.Node, names: frozenset[str]) -> Complaint | None:
    if isinstance(node, nodes.Name):
        return _unknown_name(node, names)
    if isinstance(node, nodes.Call):
        return None if _is_say(node.node) else _complain(node, "only `say` can be called", _INSTEAD)
    if isinstance(node, nodes.Filter) and node.name not in ALLOWED_FILTERS:
        return _complain(node, f"templates have no filter `{node.name}`", "the only filter is `plain`")
    if isinstance(node, nodes.Include) and not isinstance(node.template, nodes.Const):
        return _complain(node, "an include names its template in quotes", 'write `{% include "allergens.xml.j2" %}`')
    if isinstance(node, nodes.Getattr) and node.attr.startswith("_"):
        return _complain(node, f"`{node.attr}` is not for templates", "use the names a sheet is given")
    if isinstance(node, nodes.Const) and isinstance(node.value, int) and node.value >= 10**MOST_DIGITS:
        return _complain(node, f"a number has more than {MOST_DIGITS} digits", "write a shorter one")
    if isinstance(node, _ALLOWED):
        return None
    said = _SAID.get(type(node), f"`{type(node).__name__.lower()}`")
    if isinstance(node, _COMPUTES) and not isinstance(node, (nodes.And, nodes.Or, nodes.Not)):
        return _complain(node, f"{said} computes, and a template may not", "amounts come finished: print them")
    return _complain(node, f"{said} is not for templates", _INSTEAD)


def _unknown_name(node: nodes.Name, names: frozenset[str]) -> Complaint | None:
    if node.name in names:
        return None
    close = nearest(node.name, names)
    hints = (f"did you mean `{close}`?",) if close else ()
    known = ", ".join(f"`{name}`" for name in sorted(names))
    message = f"there is nothing called `{node.name}` here"
    return Complaint(code="LB704", line=node.lineno, message=message, hints=(*hints, f"there is {known}"))


def _is_say(node: nodes.Node) -> bool:
    return isinstance(node, nodes.Name) and node.name == "say"


def _arguments(call: nodes.Call) -> Iterator[nodes.Node]:
    yield from call.args
    yield from call.kwargs
    yield from (part for part in (call.dyn_args, call.dyn_kwargs) if part is not None)


def _complain(node: nodes.Node, message: str, hint: str) -> Complaint:
    return Complaint(code="LB705", line=_line_of(node), message=message, hints=(hint,))


def _line_of(node: nodes.Node) -> int:
    """Return a node's line; jinja2 gives some blocks none, and what stands in them has one."""
    return node.lineno or next((inner.lineno for inner in node.find_all(nodes.Node) if inner.lineno), 1)
