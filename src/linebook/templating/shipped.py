"""Finds the code that was made ahead of a shipped template, where the template is still that text.

It must not know what a template does. A chef's own template, or another jinja2, finds nothing and is compiled.
"""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from importlib.util import find_spec
from types import CodeType
from typing import Final

import jinja2

from linebook.source.spans import SourceFile
from linebook.templating.compiled.contents import JINJA, TEMPLATES

_PACKAGE: Final = "linebook.templating.compiled"
_FITS: Final = vars(jinja2).get("__version__") == JINJA


def is_shipped(name: str, source: SourceFile) -> bool:
    """Return whether a template is the very text that code was made of ahead."""
    known = TEMPLATES.get(name) if _FITS else None
    return known is not None and known[0] == sha256(source.text.encode("utf-8", "surrogatepass")).hexdigest()


def printed_ahead(name: str, find: Callable[[str], SourceFile | None]) -> tuple[SourceFile, ...]:
    """Return a template and those it prints where all are as shipped, so that none needs looking over; () elsewhere."""
    own = find(name)
    if own is None or not is_shipped(name, own):
        return ()
    sources = [own]
    for inner in TEMPLATES[name][1]:
        source = find(inner)
        if source is None or not is_shipped(inner, source):
            return ()
        sources.append(source)
    return tuple(sources)


def code_ahead(name: str, source: SourceFile) -> CodeType | None:
    """Return the code of a template that is as shipped, None for any other."""
    if not is_shipped(name, source):
        return None
    module = f"{_PACKAGE}.{name.partition('.')[0]}"
    spec = find_spec(module)
    get_code = getattr(spec.loader, "get_code", None) if spec is not None else None
    code: CodeType | None = get_code(module) if get_code is not None else None
    return code
