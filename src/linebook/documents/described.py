"""What a template is given, said in plain words: read from the views themselves, so that it cannot be out of date.

Owns how a view's fields and their docstrings are told to people. It must not know any one document.
"""

from __future__ import annotations

import ast
import importlib
import re
import sys
from collections.abc import Sequence
from inspect import getsource
from itertools import pairwise
from types import UnionType
from typing import Any, Final, Union, get_args, get_origin, get_type_hints

from linebook.documents.text import Text
from linebook.source.frozen import frozen

_PLAIN: Final = {Text: "text", str: "word", int: "number", bool: "yes/no"}
_VARIABLES: Final = {"Labelled": "fact", "LimitBox": "limit"}
_CAPITAL: Final = re.compile(r"(?<!^)(?=[A-Z])")


@frozen
class Name:
    """One name of a view: what kind of value it is, what it holds, and the class of what it leads to, if any."""

    name: str
    kind: str
    doc: str
    leads_to: type | None = None
    listed: bool = False


@frozen
class Group:
    """A class of parts of a view: what it is called, and its names."""

    title: str
    doc: str
    names: tuple[Name, ...]


def view_of(stem: str) -> type | None:
    """Return the view that the template ``stem`` is given, or None: the class and the module of its name."""
    try:
        module = importlib.import_module(f"linebook.documents.{stem}")
    except ModuleNotFoundError:
        return None
    found = getattr(module, "".join(part.capitalize() for part in stem.split("_")), None)
    return found if isinstance(found, type) else None


def describe(view: type) -> Group:
    """Return a view's own names: its fields, and what it tells beside them."""
    docs = _docs_of(view)
    hints = get_type_hints(view)
    names = [_name(field, hints[field], docs.get(field, "")) for field in vars(view)["__dataclass_fields__"]]
    for name, value in vars(view).items():
        if isinstance(value, property) and not name.startswith("_"):
            doc = (value.__doc__ or "").split("\n\n")[0].removeprefix("Return ")
            names.append(_name(name, get_type_hints(value.fget)["return"], doc[:1].upper() + doc[1:]))
    doc = " ".join((view.__doc__ or "").split("\n\n")[0].split())
    return Group(title=title_of(view), doc=doc, names=tuple(names))


def parts_of(view: type, start: str = "sheet", only: Sequence[str] | None = None) -> dict[type, tuple[str, ...]]:
    """Return the classes that a view leads to, each with the ways to it, as a template writes them.

    ``start`` is what the view itself is called there; ``only`` are the names of it that count, where not all do.
    """
    found: dict[type, list[str]] = {}
    waiting: list[tuple[str, type]] = [(start, view)]
    seen = {view}
    while waiting:
        path, here = waiting.pop(0)
        for name in describe(here).names:
            if name.leads_to is None or (only is not None and here is view and name.name not in only):
                continue
            way = f"{path}.{name.name}"
            loop = f"{{% for {variable_of(name.leads_to)} in {way} %}}"
            found.setdefault(name.leads_to, []).append(loop if name.listed else way)
            if name.leads_to not in seen:
                seen.add(name.leads_to)
                waiting.append((variable_of(name.leads_to) if name.listed else way, name.leads_to))
    return {part: tuple(ways) for part, ways in found.items()}


def part_at(view: type, path: Sequence[str]) -> type | None:
    """Return the class that a path of names leads to from a view."""
    here: type | None = view
    for step in path:
        if here is None or "__dataclass_fields__" not in vars(here):
            return None
        here = next((name.leads_to for name in describe(here).names if name.name == step), None)
    return here


def variable_of(view: type) -> str:
    """Return what one of a list is well called in a loop."""
    return _VARIABLES.get(view.__name__, title_of(view).split()[-1])


def title_of(view: type) -> str:
    """Return what a class is called, in words."""
    return " ".join(_CAPITAL.split(view.__name__)).lower()


def _name(name: str, hint: Any, doc: str) -> Name:
    kind, leads_to, listed = _kind(hint)
    return Name(name=name, kind=kind, doc=" ".join(doc.split()), leads_to=leads_to, listed=listed)


def _kind(hint: Any) -> tuple[str, type | None, bool]:
    """Return the kind of value in words, what it leads to, and whether it is a list."""
    origin, inner = get_origin(hint), get_args(hint)
    if origin in (Union, UnionType):
        kind, leads_to, listed = _kind(next(one for one in inner if one is not type(None)))
        return f"{kind}?", leads_to, listed
    if origin is tuple:
        kind, leads_to, _ = _kind(inner[0])
        return "list" if leads_to else f"{kind}s", leads_to, True
    if hint in _PLAIN:
        return _PLAIN[hint], None, False
    return "part", hint, False


def _docs_of(view: type) -> dict[str, str]:
    """Return the docstrings under the fields of a class."""
    tree = ast.parse(getsource(sys.modules[view.__module__]))
    body = next((node.body for node in tree.body if isinstance(node, ast.ClassDef) and node.name == view.__name__), [])
    docs: dict[str, str] = {}
    for field, after in pairwise(body):
        if (
            isinstance(field, ast.AnnAssign)
            and isinstance(field.target, ast.Name)
            and isinstance(after, ast.Expr)
            and isinstance(after.value, ast.Constant)
            and isinstance(after.value.value, str)
        ):
            docs[field.target.id] = after.value.value
    return docs
