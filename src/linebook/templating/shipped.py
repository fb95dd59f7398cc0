"""Finds the code that was made ahead of a shipped template, where the template is still that text.

It must not know what a template does. A chef's own template, another jinja2, or a tree that was never installed finds
nothing, and what is asked for is compiled.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from functools import cache
from hashlib import sha256
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from types import CodeType
from typing import Any, Final, TypeAlias

from linebook.markup.blocks import SheetText
from linebook.markup.built import Built
from linebook.source.spans import SourceFile

_PACKAGE: Final = "linebook.templating.compiled"
_FENCE: Final = ("fence.py", "inspection.py")
"""What says which code a template becomes, and which template may become any."""
_BUILDER: Final = ("mixed.py", "code.py", "code_of_lines.py", "code_of_sheets.py", "../markup/blocks.py")
"""What says how a template becomes the code that builds its sheet, the order of a block's fields among it."""
BUILT: Final = "built_"
"""The name of that code begins so."""

Build: TypeAlias = Callable[[Any, Any, Built], SheetText]
"""Builds a sheet of a view, what finds words, and what makes lines."""


def digest(source: SourceFile) -> str:
    """Return what tells the text of a template from any other."""
    return sha256(source.text.encode("utf-8", "surrogatepass")).hexdigest()


def fence_digest() -> str:
    """Return what tells this fence from any other."""
    return _digest_of(_FENCE)


@cache
def builder_digest() -> str:
    """Return what tells what writes the code of sheets from any other."""
    return _digest_of(_BUILDER)


def _digest_of(names: Sequence[str]) -> str:
    here = Path(__file__).parent
    return sha256(b"".join((here / name).read_bytes() for name in names)).hexdigest()


def _contents() -> Mapping[str, tuple[str, tuple[str, ...]]]:
    """Return the digest of each template that code was made of, and those it prints; nothing by another fence."""
    with suppress(ImportError, SyntaxError, OSError, AttributeError):
        made = import_module(f"{_PACKAGE}.contents")
        if fence_digest() == made.FENCE:
            known: Mapping[str, tuple[str, tuple[str, ...]]] = made.TEMPLATES
            return known
    return {}


_KNOWN: Final = _contents()


def is_shipped(name: str, source: SourceFile) -> bool:
    """Return whether a template is the very text that code was made of ahead."""
    return name in _KNOWN and _KNOWN[name][0] == digest(source)


def printed_ahead(name: str, find: Callable[[str], SourceFile | None]) -> tuple[SourceFile, ...]:
    """Return a template and those it prints where all are as shipped, so that none needs looking over; () elsewhere."""
    own = find(name)
    if own is None or not is_shipped(name, own):
        return ()
    sources = [own]
    for inner in _KNOWN[name][1]:
        source = find(inner)
        if source is None or not is_shipped(inner, source):
            return ()
        sources.append(source)
    return tuple(sources)


def code_ahead(name: str, source: SourceFile) -> CodeType | None:
    """Return the code that jinja2 made of a template that is as shipped, None for any other, or by another jinja2."""
    import jinja2

    if not is_shipped(name, source) or vars(jinja2)["__version__"] != import_module(f"{_PACKAGE}.contents").JINJA:
        return None
    module = f"{_PACKAGE}.{name.partition('.')[0]}"
    spec = find_spec(module)
    get_code = getattr(spec.loader, "get_code", None) if spec is not None else None
    code: CodeType | None = get_code(module) if get_code is not None else None
    return code


def builder_ahead(name: str) -> Build | None:
    """Return what builds the sheet of a template that is as shipped, with all it prints; None where nothing does."""
    with suppress(ImportError, SyntaxError, OSError, AttributeError):
        if builder_digest() == import_module(f"{_PACKAGE}.contents").BUILDER:
            made = import_module(f"{_PACKAGE}.{BUILT}{name.partition('.')[0]}")
            build: Build = made.build
            return build
    return None
