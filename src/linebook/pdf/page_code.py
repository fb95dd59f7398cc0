"""What is left of a drawn sheet that lets it stand in another document of the same look: its pages as they are written.

Owns what of a sheet the rest of a document depends on. It must not know what any sheet says, nor where this is kept.
"""

from __future__ import annotations

from dataclasses import field

from linebook.source.frozen import frozen


@frozen
class PageCode:
    """One page: its size in points, its packed stream, the faces it sets in their order, and its links.

    A link is the key of a sheet and left, bottom, right, top.
    """

    width: float
    height: float
    stream: bytes = field(repr=False)
    faces: tuple[str, ...]
    links: tuple[tuple[str, tuple[float, float, float, float]], ...] = ()


@frozen
class SheetCode:
    """A drawn sheet. ``name`` is its entry in the outline, ``blank`` what its empty back says, both as printed.

    ``letters`` are all its characters. Its pages are good where a document has the same ``extra`` characters, beside
    those its theme has ready.
    """

    id: str
    fingerprint: str
    section: str
    name: str
    blank: str
    landscape: bool
    letters: str
    extra: str
    pages: tuple[PageCode, ...]
