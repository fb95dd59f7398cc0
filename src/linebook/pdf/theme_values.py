"""Reads single values of a theme: lengths, ratios, colours, choices, and groups of named values.

Owns how each is written and what is said of one that is not so. It must not know what any of them is used for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from linebook.pdf.theme import POINTS_PER_MM
from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.nearest import nearest
from linebook.source.nodes import MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import SourceFile, Span

_LENGTH: Final = re.compile(r"(\d{1,4}(?:\.\d{1,3})?) ?(pt|mm)")
_RATIO: Final = re.compile(r"\d{1,2}(?:\.\d{1,3})?")
_COLOUR: Final = re.compile(r"#[0-9a-f]{6}")


class Values:
    """One pass over one theme; collects the faults met on the way and reads on with a stand-in.

    A theme may be laid together of several files: ``sources``, the one that lies on top first.
    """

    def __init__(self, faults: list[Fault], sources: Sequence[SourceFile]) -> None:
        self.faults = faults
        self.sources = sources
        self.start = sources[0].whole()

    def blamed(self, *nodes: Node | None) -> Node | None:
        """Return which of several values that do not fit each other is at fault: the one laid on top of the others."""
        given = [node for node in nodes if node is not None]
        return min(given, key=self.depth, default=None)

    def is_own(self, node: Node | None) -> bool:
        """Return whether a value stands in the file that lies on top."""
        return node is not None and self.depth(node) == 0

    def depth(self, node: Node) -> int:
        """Return how many files lie on top of the one a value stands in."""
        return next((at for at, one in enumerate(self.sources) if one is node.span.source), len(self.sources))

    def report(self, code: str, message: str, node: Node | None, *hints: str) -> None:
        """Note a fault at a value."""
        self.faults.append(fault(code, message, node.span if node is not None else self.start, hints=hints))

    def mapping(self, node: Node | None, what: str) -> dict[str, Node]:
        """Return the entries of a group by name."""
        if node is not None and not isinstance(node, MappingNode):
            self.report("LB108", f"`{what}` holds names and values", node)
        return entries_of(node)

    def is_length(self, node: Node | None) -> bool:
        """Return whether a value has the form of a length."""
        return isinstance(node, Scalar) and _LENGTH.fullmatch(node.text) is not None

    def named(
        self, node: Node | None, names: Iterable[str], place: Span, what: str, optional: Iterable[str] = ()
    ) -> dict[str, Node]:
        """Return the values by name, with a fault for each name too many and each one missing."""
        wanted, spare = tuple(names), tuple(optional)
        found = self.mapping(node, what)
        known = (*wanted, *spare)
        entries = node.entries if isinstance(node, MappingNode) else ()
        for entry in entries:
            if entry.key.text not in known:
                close = nearest(entry.key.text, known)
                hint = f"did you mean `{close}`?" if close else f"{what} has {', '.join(known)}"
                self.report("LB803", f"`{entry.key.text}` is not a name that {what} has", entry.key, hint)
        if node is not None and not isinstance(node, MappingNode):
            return found  # told as what it is, not as all it does not have
        for name in wanted:
            if name not in found:
                message = f"`{name}` is missing from {what}"
                hints = (f"write `{name}:` as in the theme that comes with linebook",)
                self.faults.append(fault("LB803", message, node.span if node is not None else place, hints=hints))
        return found

    def items(self, node: Node | None, what: str) -> tuple[Node, ...]:
        """Return the entries of a list that has at least one."""
        if isinstance(node, SequenceNode) and node.items:
            return node.items
        if node is not None:
            self.report("LB108", f"`{what}` is a list with at least one entry", node)
        return ()

    def text(self, node: Node | None, what: str) -> str:
        """Return a single value as written."""
        if isinstance(node, Scalar):
            return node.text
        if node is not None:
            self.report("LB108", f"`{what}` is a single value", node)
        return ""

    def length(self, node: Node | None, what: str, least: float = 0.0, most: float = 10_000.0) -> float:
        """Return a length in points; ``least`` and ``most`` bound it."""
        written = self.text(node, what)
        match = _LENGTH.fullmatch(written)
        if match is None:
            if isinstance(node, Scalar):
                hint = "write points or millimetres, as 14 pt or 22 mm"
                self.report("LB108", f"`{written}` is not a length for `{what}`", node, hint)
            return max(least, 1.0)
        points = float(match[1]) * (POINTS_PER_MM if match[2] == "mm" else 1.0)
        if points > most:
            message = f"`{written}` is too much for `{what}`, which is at most {most:.3g} pt"
            self.report("LB316", message, node, f"write {most:.3g} pt or less")
        elif points < least:
            message = f"`{written}` is too little for `{what}`, which is at least {least:.3g} pt"
            self.report("LB316", message, node, f"write {least:.3g} pt or more")
        return min(max(points, least), most)

    def ratio(self, node: Node | None, what: str, least: float, most: float) -> float:
        """Return a plain number."""
        written = self.text(node, what)
        value = float(written) if _RATIO.fullmatch(written) else -1.0
        if not least <= value <= most:
            if isinstance(node, Scalar):
                message = f"`{written}` is not a number from {least:g} to {most:g} for `{what}`"
                self.report("LB108", message, node, f"write a number from {least:g} to {most:g}")
            return 1.0
        return value

    def colour(self, node: Node | None) -> str:
        """Return a colour as ``#rrggbb``."""
        colour = self.text(node, "colour").lower()
        if isinstance(node, Scalar) and not _COLOUR.fullmatch(colour):
            hint = 'write "#" and six digits in quotes, as "#7d2012"'
            self.report("LB108", f"`{colour}` is not a colour", node, hint)
            return ""
        return colour

    def choice(self, node: Node | None, what: str, known: tuple[str, ...], default: str) -> str:
        """Return one of a few words."""
        if node is None:
            return default
        written = self.text(node, what)
        if written in known or not isinstance(node, Scalar):
            return written or default
        close = nearest(written, known)
        hint = f"did you mean `{close}`?" if close else f"write one of {', '.join(known)}"
        self.report("LB803", f"`{written}` is not a name that `{what}` can have", node, hint)
        return default

    def lengths(
        self,
        node: Node | None,
        names: tuple[str, ...],
        what: str,
        bounds: Mapping[str, tuple[float, float]] | None = None,
    ) -> dict[str, float]:
        """Return a group of lengths, each by the name of its field."""
        found = self.named(node, names, self.start, f"`{what}`")
        limits = bounds or {}
        return {
            name.replace("-", "_"): self.length(found.get(name), name, *limits.get(name, (0.0, 10_000.0)))
            for name in names
        }


def entries_of(node: Node | None) -> dict[str, Node]:
    """Return the values of a group by name; of anything else none."""
    return {entry.key.text: entry.value for entry in node.entries} if isinstance(node, MappingNode) else {}
