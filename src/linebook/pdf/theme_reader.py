"""Reads a theme, of one file or laid together of several, into a ``Theme``, with every fault at once.

Owns what each part of a theme may be; the names and floors are the theme's own. It must not know what any of them is
used for, nor where themes are found.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from linebook.pdf.contrast import INK_CONTRAST, LEAST_CONTRAST, WHITE
from linebook.pdf.theme import (
    FACES,
    FORMS,
    INKS,
    LARGEST_SIZE,
    LEAST_BINDING,
    LEAST_EDGE,
    LEAST_MEASURE,
    PAPER_TOLERANCE,
    PAPERS,
    POINTS_PER_MM,
    ROLE,
    TEXT_INKS,
    Accent,
    Density,
    Fonts,
    Forms,
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
from linebook.pdf.theme_values import Values, entries_of
from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.nearest import nearest
from linebook.source.nodes import Node
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

_PARTS: Final = (
    "papers margins fonts inks accents styles paragraphs spaces strokes forms densities".split()  # noqa: SIM905
)
LINE_ACCENTS: Final = "line-accents"
_LONG: Final = frozenset(
    {"matrix-name", "matrix-head-most", "repeat-below", "figure-large", "figure-small", "band-length", "band-first"}
    | {"band-step"}
)
_MOST_SPACE: Final = 40 * POINTS_PER_MM
_MOST_LONG_SPACE: Final = 250 * POINTS_PER_MM
_SPACE_BOUNDS: Final[Mapping[str, tuple[float, float]]] = {
    **{name: (0.0, _MOST_LONG_SPACE if name in _LONG else _MOST_SPACE) for name in names_of(Spaces)},
    "mark-size": (14.0, 30.0),
    "tick": (9.0, 30.0),
    "number-circle": (8.0, 20.0),
    "matrix-head-most": (48.0, _MOST_LONG_SPACE),
    "mark-column": (16.0, 80.0),
    "mark-column-least": (16.0, 80.0),
    "figure-large": (60 * POINTS_PER_MM, _MOST_LONG_SPACE),
    "figure-small": (40 * POINTS_PER_MM, _MOST_LONG_SPACE),
}
"""Points. The least of what is drawn keeps it legible beside 12 pt type; the most keeps room for words."""

_STROKE_BOUNDS: Final = dict.fromkeys(names_of(Strokes), (0.25, 8.0))
_SHOWN_MM: Final = {"binding": 22, "outer": 10, "top": 10, "bottom": 10, "side": 10}


def read_theme(source: SourceFile, *, paragraph_roles: Iterable[str]) -> Outcome[Theme]:
    """Read a theme that is whole in one file. See ``theme_of``."""
    outcome = read_yaml(source, 0, len(source.text))
    if outcome.value is None:
        return Outcome(value=None, faults=outcome.faults)
    made = theme_of(outcome.value, [source], paragraph_roles=paragraph_roles)
    faults = (*outcome.faults, *made.faults)
    sound = not any(one.severity is Severity.ERROR for one in faults)
    return Outcome(value=made.value if sound else None, faults=faults)


def theme_of(
    node: Node, sources: Sequence[SourceFile], *, paragraph_roles: Iterable[str], lines: Sequence[str] = ()
) -> Outcome[Theme]:
    """Return the theme that a tree holds. ``sources`` are the files it was laid together of, the topmost first.

    ``paragraph_roles`` are the roles of running text it must give a style; ``lines`` the ids of the house's lines.
    Faults, each in the file whose value is at fault: LB802 for a size under its floor, LB803 for an unknown or a
    missing name, LB806 for a paper or a margin that cannot be kept, LB807 for too little contrast, LB206 for the
    accent of an unknown line, LB108 and LB316 for a value of another form or size than its name needs.
    """
    faults: list[Fault] = []
    theme = _Reading(faults, sources).theme(node, tuple(paragraph_roles), lines)
    sound = not any(one.severity is Severity.ERROR for one in faults)
    return Outcome(value=theme if sound else None, faults=tuple(faults))


class _Reading(Values):
    """Reads the parts of a theme."""

    def theme(self, node: Node, roles: tuple[str, ...], lines: Sequence[str]) -> Theme:
        parts = self.named(node, _PARTS, self.start, "the theme", (LINE_ACCENTS,))
        papers = self.papers(parts.get("papers"))
        accents = tuple(self.accent(one, "an accent") for one in self.items(parts.get("accents"), "accents"))
        return Theme(
            papers=papers,
            margins=self.margins(parts.get("margins"), parts.get("spaces"), papers.values()),
            fonts=self.fonts(parts.get("fonts")),
            inks=self.inks(parts.get("inks")),
            accents=self.line_accents(parts.get(LINE_ACCENTS), accents, lines),
            styles=self.styles(parts.get("styles")),
            paragraphs=self.paragraphs(parts.get("paragraphs"), roles),
            spaces=Spaces(**self.lengths(parts.get("spaces"), names_of(Spaces), "spaces", _SPACE_BOUNDS)),
            strokes=Strokes(**self.lengths(parts.get("strokes"), names_of(Strokes), "strokes", _STROKE_BOUNDS)),
            forms=self.forms(parts.get("forms")),
            densities=tuple(self.density(one) for one in self.items(parts.get("densities"), "densities")),
        )

    # -- the page

    def papers(self, node: Node | None) -> dict[str, Paper]:
        found = self.named(node, PAPERS, self.start, "`papers`")
        return {name: self.paper(value, name) for name, value in found.items() if name in PAPERS}

    def paper(self, node: Node, name: str) -> Paper:
        """Read a paper; only the sizes that are sold are laid out for."""
        paper, known = Paper(**self.lengths(node, names_of(Paper), name)), PAPERS[name]
        found = entries_of(node)
        for side in names_of(Paper):
            real, given = getattr(known, side), getattr(paper, side)
            if side in found and self.is_length(found[side]) and abs(real - given) > PAPER_TOLERANCE:
                written = self.text(found[side], side)
                message = f"`{name}` has a {side} of {real / POINTS_PER_MM:.1f} mm, not `{written}`"
                hint = f"write `{side}: {real / POINTS_PER_MM:.1f} mm`; a sheet is laid out for its paper, never scaled"
                self.report("LB806", message, found[side], hint)
        return paper

    def margins(self, node: Node | None, spaces: Node | None, papers: Iterable[Paper]) -> Margins:
        """Read the margins: clear of holes, of what printers leave blank and of the band, with room between them."""
        names = names_of(Margins)
        before = len(self.faults)
        margins = Margins(**self.lengths(node, names, "margins"))
        found = entries_of(node)
        for name in names:
            least, value = LEAST_BINDING if name == "binding" else LEAST_EDGE, getattr(margins, name)
            if name in found and self.is_length(found[name]) and value < least - 0.01:
                why = "the holes come into the text" if name == "binding" else "printers and thumbs take the edge"
                message = f"`{self.text(found[name], name)}` is too little for `{name}`: {why}"
                self.report("LB806", message, found[name], f"write {_SHOWN_MM[name]} mm or more")
        if len(self.faults) == before:
            self.check_room(margins, found, entries_of(spaces), tuple(papers))
        return margins

    def check_room(
        self, margins: Margins, found: Mapping[str, Node], spaces: Mapping[str, Node], papers: tuple[Paper, ...]
    ) -> None:
        if not papers or not set(names_of(Margins)) <= set(found) or not {"band-inset", "band-width"} <= set(spaces):
            return  # told as missing
        if not all(self.is_length(spaces[name]) for name in ("band-inset", "band-width")):
            return
        inset, width = (self.length(spaces[name], name) for name in ("band-inset", "band-width"))
        if inset < LEAST_EDGE - 0.01:
            written = self.text(spaces["band-inset"], "band-inset")
            message = f"`{written}` is too little for `band-inset`: printers and thumbs take the edge"
            self.report("LB806", message, spaces["band-inset"], "write 10 mm or more")
        elif inset + width > margins.outer + 0.01:
            blamed = self.blamed(found["outer"], spaces["band-width"], spaces["band-inset"])
            message = f"the band takes {(inset + width) / POINTS_PER_MM:.1f} mm of the outer edge, more than its margin"
            self.report("LB806", message, blamed, "make `outer` larger, or `band-width` or `band-inset` smaller")
        for across, names in (("width", ("binding", "outer")), ("height", ("side",))):
            taken = sum(getattr(margins, name) for name in names) * (2 if across == "height" else 1)
            self.check_measure(min(getattr(one, across) for one in papers) - taken, found, names)
        down = min(one.width for one in papers) - margins.binding - margins.outer
        if down >= LEAST_MEASURE:
            upright = min(one.height for one in papers) - margins.top - margins.bottom
            self.check_measure(upright, found, ("top", "bottom"))

    def check_measure(self, room: float, found: Mapping[str, Node], names: tuple[str, ...]) -> None:
        if room < LEAST_MEASURE - 0.01:
            margins = " and ".join(f"`{name}`" for name in names)
            message = f"{margins} leave {max(room, 0) / POINTS_PER_MM:.0f} mm for the text, which needs 100 mm"
            blamed = self.blamed(*(found[name] for name in names))
            self.report("LB806", message, blamed, "make the margins smaller")

    # -- fonts

    def fonts(self, node: Node | None) -> Fonts:
        """Read the fonts. A face that a file on top names without a package is the house's own, whatever lies under."""
        found = self.named(node, (*FACES, "ready"), self.start, "`fonts`", ("package", "folder"))
        package, folder = found.get("package"), found.get("folder")
        own = frozenset(
            name for name in FACES if package is not None and self.is_own(found.get(name)) and not self.is_own(package)
        )
        return Fonts(
            files={name: self.text(found.get(name), name) for name in FACES},
            ready=self.text(found.get("ready"), "ready"),
            package=self.text(package, "package"),
            folder=self.text(folder, "folder"),
            own=own,
            own_folder=self.text(folder, "folder") if own and self.is_own(folder) else "",
            spans={name: found[name].span for name in FACES if name in found},
        )

    # -- inks

    def ink(self, found: Mapping[str, Node]) -> Ink:
        colour = self.colour(found.get("colour"))
        return Ink(colour=colour or "#000000", grey=self.ratio(found.get("grey"), "grey", 0, 1))

    def inks(self, node: Node | None) -> dict[str, Ink]:
        found = self.named(node, INKS, self.start, "`inks`")
        return {name: self.named_ink(found[name], name) for name in INKS if name in found}

    def named_ink(self, node: Node, name: str) -> Ink:
        found = self.named(node, ("colour", "grey"), self.start, f"`{name}`")
        before = len(self.faults)
        ink = self.ink(found)
        if name in TEXT_INKS and len(self.faults) == before and {"colour", "grey"} <= set(found):
            least = INK_CONTRAST if name == "ink" else LEAST_CONTRAST
            why = "amounts, steps and allergens are printed in it" if name == "ink" else "words are printed in it"
            self.check_contrast(ink, WHITE, least, found, f"white paper, and {why}")
        return ink

    def check_contrast(self, ink: Ink, other: str, least: float, found: Mapping[str, Node], ground: str) -> None:
        """Refuse a colour, or else its grey, that is too near to what it is seen against."""
        for part, seen in (("colour", Ink(colour=ink.colour, grey=0.0 if other == WHITE else 1.0)), ("grey", ink)):
            ratio = seen.contrast(other)
            if ratio < least:
                named = "" if part == "colour" else "the grey "
                message = f"{named}`{self.text(found[part], part)}` has a contrast of {_down(ratio)} to {ground}"
                way = "darker" if other == WHITE else "lighter"
                mend = f"make it {way}: it needs {least:g} or more"
                self.report("LB807", message, found[part], mend)
                return

    def accent(self, node: Node, what: str) -> Accent:
        found = self.named(node, ("colour", "grey", "over"), self.start, what)
        before = len(self.faults)
        accent = Accent(ink=self.ink(found), over=self.choice(found.get("over"), "over", ("white", "black"), "white"))
        if len(self.faults) == before and {"colour", "grey", "over"} <= set(found):
            other = WHITE if accent.over == "white" else "#000000"
            self.check_contrast(accent.ink, other, LEAST_CONTRAST, found, f"the {accent.over} name on the band")
        return accent

    def line_accents(self, node: Node | None, accents: tuple[Accent, ...], lines: Sequence[str]) -> tuple[Accent, ...]:
        """Return the accents with those that lines were given by their ids in place of the ones at their positions."""
        if node is None:
            return accents
        given: dict[str, Accent] = {}
        for name, value in self.mapping(node, LINE_ACCENTS).items():
            given[name] = self.accent(value, f"the accent of `{name}`")
        entries = getattr(node, "entries", ())
        for entry in entries:
            if entry.key.text not in lines:
                close = nearest(entry.key.text, lines)
                hint = f"did you mean `{close}`?" if close else f"house.yaml has {', '.join(lines) or 'no lines'}"
                self.report("LB206", f"`{entry.key.text}` is not a line of house.yaml", entry.key, hint)
        if not accents:
            return accents
        count = max(len(lines), len(accents))
        ordered = [accents[at % len(accents)] for at in range(count)]
        return tuple(given.get(lines[at], one) if at < len(lines) else one for at, one in enumerate(ordered))

    # -- type

    def styles(self, node: Node | None) -> Styles:
        names = names_of(Styles)
        found = self.named(node, names, self.start, "`styles`")
        return Styles(**{name.replace("-", "_"): self.style(found.get(name), name) for name in names})

    def paragraphs(self, node: Node | None, roles: tuple[str, ...]) -> dict[str, Style]:
        found = self.named(node, roles, self.start, "`paragraphs`")
        return {role: self.style(found.get(role), role, ROLE) for role in roles}

    def style(self, node: Node | None, name: str, prefix: str = "") -> Style:
        floor = floor_of(prefix + name)
        if node is None:
            return Style(name=prefix + name, size=floor, least=floor, leading=1.3)
        found = self.named(node, ("size", "leading"), self.start, f"`{name}`", ("least", "face", "ink", "before"))
        size = self.length(found.get("size"), "size", 0, LARGEST_SIZE)
        style = Style(
            name=prefix + name,
            size=size,
            least=self.length(found["least"], "least", 0, LARGEST_SIZE) if "least" in found else size,
            leading=self.ratio(found.get("leading"), "leading", 1.1, 2),
            face=self.choice(found.get("face"), "face", FACES, "regular"),
            ink=self.choice(found.get("ink"), "ink", TEXT_INKS, "ink"),
            before=self.length(found["before"], "before", 0, _MOST_SPACE) if "before" in found else 0.0,
        )
        return self.readable(style, name, floor, found)

    def readable(self, style: Style, name: str, floor: float, found: Mapping[str, Node]) -> Style:
        """Refuse type under its floor, and grey where safety hangs on the words.

        A size that a file on top brings below the ``least`` of the file under it brings that down too.
        """
        least, size = found.get("least"), found.get("size")
        if style.ink != "ink" and style.never_grey:
            hint = "leave `ink` out, or write `ink: ink`"
            self.report("LB108", f"`{name}` carries what safety hangs on and is never grey", found["ink"], hint)
        for node, points in ((size, style.size), (least, style.least)):
            if node is not None and points < floor:
                message = f"`{self.text(node, name)}` is too small for `{name}`, which is never under {floor:g} pt"
                self.report("LB802", message, node, f"write {floor:g} pt or more")
                return style
        if style.least > style.size:
            if size is not None and least is not None and self.depth(size) < self.depth(least):
                return replace(style, least=style.size)
            mend = "make it less, or leave it out"
            self.report("LB108", f"the least size of `{name}` is more than its size", least, mend)
        return style

    # -- the rest

    def forms(self, node: Node | None) -> Forms:
        found = self.named(node, FORMS, self.start, "`forms`")
        return Forms(**{name: self.choice(found.get(name), name, known, known[0]) for name, known in FORMS.items()})

    def density(self, node: Node) -> Density:
        found = self.named(node, names_of(Density), self.start, "a density")
        return Density(
            type=self.ratio(found.get("type"), "type", 0.5, 1),
            leading=self.ratio(found.get("leading"), "leading", 0.85, 1.2),
            space=self.ratio(found.get("space"), "space", 0.2, 1.5),
        )


def _down(ratio: float) -> str:
    """Return a contrast with one digit, never rounded up to the bound it misses."""
    return f"{int(ratio * 10) / 10:g}"
