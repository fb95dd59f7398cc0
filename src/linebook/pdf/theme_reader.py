"""Reads a theme file into a ``Theme``, with every fault at once.

Owns how lengths, ratios and colours are written in a theme; the names and floors are the theme's own.
It must not know what any of them is used for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Final

from linebook.pdf.theme import (
    FACES,
    INKS,
    ROLE,
    Accent,
    Density,
    Fonts,
    Ink,
    Margins,
    Paper,
    Spaces,
    Strokes,
    Style,
    Styles,
    Theme,
    floor_of,
    names_of,
)
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.nearest import nearest
from linebook.source.nodes import MappingNode, Node, Scalar, SequenceNode
from linebook.source.spans import SourceFile, Span
from linebook.source.yaml_reader import read_yaml

_PARTS: Final = (
    "papers margins fonts inks accents styles paragraphs spaces strokes densities".split()  # noqa: SIM905
)
_LENGTH: Final = re.compile(r"(\d{1,4}(?:\.\d{1,3})?) ?(pt|mm)")
_RATIO: Final = re.compile(r"\d{1,2}(?:\.\d{1,3})?")
_COLOUR: Final = re.compile(r"#[0-9a-f]{6}")
_POINTS_PER_MM: Final = 72 / 25.4


def read_theme(source: SourceFile, *, paragraph_roles: Iterable[str]) -> Outcome[Theme]:
    """Read a whole theme file. ``paragraph_roles`` are the roles of running text it must give a style.

    Faults: LB802 for a size under its floor, LB803 for an unknown or a missing name, LB108 for a value of
    another form than its name needs, and those of the YAML reader.
    """
    outcome = read_yaml(source, 0, len(source.text))
    faults = list(outcome.faults)
    if outcome.value is None:
        return Outcome(value=None, faults=tuple(faults))
    theme = _Reading(faults, source.whole()).theme(outcome.value, tuple(paragraph_roles))
    sound = not any(one.severity is Severity.ERROR for one in faults)
    return Outcome(value=theme if sound else None, faults=tuple(faults))


class _Reading:
    """One pass over one file; collects the faults met on the way and reads on with a stand-in."""

    def __init__(self, faults: list[Fault], start: Span) -> None:
        self.faults = faults
        self.start = start

    def theme(self, node: Node, roles: tuple[str, ...]) -> Theme:
        parts = self.named(node, _PARTS, self.start, "the theme")
        fields = {name: self.mapping(parts.get(name), name) for name in _PARTS if name not in ("accents", "densities")}
        return Theme(
            papers={name: self.paper(value, name) for name, value in fields["papers"].items()},
            margins=Margins(**self.lengths(parts.get("margins"), names_of(Margins), "margins")),
            fonts=self.fonts(parts.get("fonts")),
            inks=self.inks(parts.get("inks")),
            accents=tuple(self.accent(one) for one in self.items(parts.get("accents"), "accents")),
            styles=self.styles(parts.get("styles")),
            paragraphs=self.paragraphs(parts.get("paragraphs"), roles),
            spaces=Spaces(**self.lengths(parts.get("spaces"), names_of(Spaces), "spaces")),
            strokes=Strokes(**self.lengths(parts.get("strokes"), names_of(Strokes), "strokes")),
            densities=tuple(self.density(one) for one in self.items(parts.get("densities"), "densities")),
        )

    # -- shapes

    def wrong(self, node: Node | None, message: str, *hints: str) -> None:
        self.faults.append(fault("LB108", message, node.span if node is not None else self.start, hints=hints))

    def mapping(self, node: Node | None, what: str) -> dict[str, Node]:
        if isinstance(node, MappingNode):
            return {entry.key.text: entry.value for entry in node.entries}
        if node is not None:
            self.wrong(node, f"`{what}` holds names and values")
        return {}

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
                hints = (f"did you mean `{close}`?",) if close else ()
                message = f"`{entry.key.text}` is not a name that {what} has"
                self.faults.append(fault("LB803", message, entry.key.span, hints=hints))
        for name in wanted:
            if name not in found:
                message = f"`{name}` is missing from {what}"
                hints = (f"write `{name}:` as in the theme that comes with linebook",)
                self.faults.append(fault("LB803", message, node.span if node is not None else place, hints=hints))
        return found

    def items(self, node: Node | None, what: str) -> tuple[Node, ...]:
        if isinstance(node, SequenceNode) and node.items:
            return node.items
        if node is not None:
            self.wrong(node, f"`{what}` is a list with at least one entry")
        return ()

    def text(self, node: Node | None, what: str) -> str:
        if isinstance(node, Scalar):
            return node.text
        if node is not None:
            self.wrong(node, f"`{what}` is a single value")
        return ""

    def length(self, node: Node | None, what: str) -> float:
        written = self.text(node, what)
        match = _LENGTH.fullmatch(written)
        if match is None:
            if isinstance(node, Scalar):
                self.wrong(
                    node, f"`{written}` is not a length for `{what}`", "write points or millimetres, as 14 pt or 22 mm"
                )
            return 1.0
        return float(match[1]) * (_POINTS_PER_MM if match[2] == "mm" else 1.0)

    def ratio(self, node: Node | None, what: str, least: float, most: float) -> float:
        written = self.text(node, what)
        value = float(written) if _RATIO.fullmatch(written) else -1.0
        if not least <= value <= most:
            if isinstance(node, Scalar):
                self.wrong(node, f"`{written}` is not a number from {least:g} to {most:g} for `{what}`")
            return 1.0
        return value

    def choice(self, node: Node | None, what: str, known: tuple[str, ...], default: str) -> str:
        if node is None:
            return default
        written = self.text(node, what)
        if written in known:
            return written
        close = nearest(written, known)
        hints = (f"did you mean `{close}`?",) if close else (f"write one of {', '.join(known)}",)
        self.faults.append(fault("LB803", f"`{written}` is not a name that `{what}` can have", node.span, hints=hints))
        return default

    def lengths(self, node: Node | None, names: tuple[str, ...], what: str) -> dict[str, float]:
        found = self.named(node, names, self.start, f"`{what}`")
        return {name.replace("-", "_"): self.length(found.get(name), name) for name in names}

    # -- parts

    def paper(self, node: Node, what: str) -> Paper:
        return Paper(**self.lengths(node, names_of(Paper), what))

    def fonts(self, node: Node | None) -> Fonts:
        found = self.named(node, (*FACES, "ready"), self.start, "`fonts`", ("package", "folder"))
        return Fonts(
            files={name: self.text(found.get(name), name) for name in FACES},
            ready=self.text(found.get("ready"), "ready"),
            package=self.text(found.get("package"), "package"),
            folder=self.text(found.get("folder"), "folder"),
        )

    def ink(self, found: Mapping[str, Node]) -> Ink:
        node = found.get("colour")
        colour = self.text(node, "colour").lower()
        if node is not None and not _COLOUR.fullmatch(colour):
            self.wrong(node, f"`{colour}` is not a colour", 'write "#" and six digits, as "#7d2012"')
            colour = "#000000"
        return Ink(colour=colour or "#000000", grey=self.ratio(found.get("grey"), "grey", 0, 1))

    def inks(self, node: Node | None) -> dict[str, Ink]:
        found = self.named(node, INKS, self.start, "`inks`")
        return {
            name: self.ink(self.named(found.get(name), ("colour", "grey"), self.start, f"`{name}`"))
            for name in INKS
            if name in found
        }

    def accent(self, node: Node) -> Accent:
        found = self.named(node, ("colour", "grey", "over"), self.start, "an accent")
        return Accent(ink=self.ink(found), over=self.choice(found.get("over"), "over", ("white", "black"), "white"))

    def density(self, node: Node) -> Density:
        found = self.named(node, names_of(Density), self.start, "a density")
        return Density(
            type=self.ratio(found.get("type"), "type", 0.5, 1),
            leading=self.ratio(found.get("leading"), "leading", 0.85, 1.2),
            space=self.ratio(found.get("space"), "space", 0.2, 1.5),
        )

    def styles(self, node: Node | None) -> Styles:
        names = names_of(Styles)
        found = self.named(node, names, self.start, "`styles`")
        return Styles(**{name.replace("-", "_"): self.style(found.get(name), name) for name in names})

    def paragraphs(self, node: Node | None, roles: tuple[str, ...]) -> dict[str, Style]:
        found = self.named(node, roles, self.start, "`paragraphs`")
        return {role: self.style(found.get(role), role, ROLE) for role in roles}

    def style(self, node: Node | None, name: str, prefix: str = "") -> Style:
        if node is None:
            return Style(name=prefix + name, size=floor_of(prefix + name), least=floor_of(prefix + name), leading=1.3)
        found = self.named(node, ("size", "leading"), self.start, f"`{name}`", ("least", "face", "ink", "before"))
        size = self.length(found.get("size"), "size")
        style = Style(
            name=prefix + name,
            size=size,
            least=self.length(found["least"], "least") if "least" in found else size,
            leading=self.ratio(found.get("leading"), "leading", 1.1, 2),
            face=self.choice(found.get("face"), "face", FACES, "regular"),
            ink=self.choice(found.get("ink"), "ink", INKS, "ink"),
            before=self.length(found["before"], "before") if "before" in found else 0.0,
        )
        self.check_readable(style, name, found)
        return style

    def check_readable(self, style: Style, name: str, found: Mapping[str, Node]) -> None:
        """Refuse type under its floor, and grey where safety hangs on the words."""
        floor, node = floor_of(style.name), found.get("least", found.get("size"))
        if node is not None and style.least < floor:
            message = f"`{self.text(node, name)}` is too small for `{name}`, which is never under {floor:g} pt"
            self.faults.append(fault("LB802", message, node.span, hints=(f"write {floor:g} pt or more",)))
        if style.least > style.size:
            self.wrong(found["least"], f"the least size of `{name}` is more than its size")
        if style.ink != "ink" and style.never_grey:
            self.wrong(found["ink"], f"`{name}` carries what safety hangs on and is never grey", "leave `ink` out")
