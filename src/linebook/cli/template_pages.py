"""What ``linebook templates`` tells, as lines of at most 80 columns: the list, one template, one theme, tags, words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import Final

from linebook.documents.described import Group, describe, part_at, parts_of, view_of
from linebook.source.frozen import frozen
from linebook.templating.outline import printed_by
from linebook.templating.templates import SUFFIX, Templates

COLUMNS: Final = 80
_TERM: Final = re.compile(r" {4}((?:``[^`]+`` ?)+) {2,}(\S.*)")
_PART: Final = "part_"
_KINDS: Final = (
    "text: print it as {{ sheet.title }}; word, number: for attributes and conditions, or to print; yes/no: for "
    "{% if sheet.night %}; list: go over it with {% for row in sheet.elements %}; texts: a list of text; part: a group "
    "of names. A ? means that there may be none: ask with {% if sheet.plate %}. Ask the same way for a text that may "
    'be empty. {{ say("key") }} prints words of the catalogue. A template cannot compute.'
)


@frozen
class Template:
    """One template: its file, whose copy is in use and where, and what it is for."""

    file: str
    own: bool
    shown: str
    purpose: str

    @property
    def stem(self) -> str:
        """Return its name without its ending."""
        return self.file.removesuffix(SUFFIX)

    @property
    def called(self) -> str:
        """Return its name as it is typed."""
        return self.stem.replace("_", "-")

    @property
    def is_part(self) -> bool:
        """Return whether other templates print it."""
        return self.file.startswith(_PART)


@frozen
class ThemeLine:
    """One theme that comes with linebook: its name, whether it is in use, and what it is."""

    name: str
    used: bool
    purpose: str


def listing(templates: Sequence[Template], themes: Sequence[ThemeLine], own_theme: str) -> Iterator[str]:
    """Yield the list of all there is; ``own_theme`` tells of the house's own theme, if it has one."""
    for head, found in (
        ("Templates", [one for one in templates if not one.is_part]),
        ("Parts that several of them print", [one for one in templates if one.is_part]),
    ):
        yield head
        yield from _rows((one.called, "yours" if one.own else "", _first(one.purpose)) for one in found)
        yield ""
    yield "Themes"
    yield from _rows((one.name, "in use" if one.used else "", _first(one.purpose)) for one in themes)
    if own_theme:
        yield from wrap(own_theme, COLUMNS, initial_indent="  ", subsequent_indent="  ")


def template_page(template: Template, templates: Templates, others: Sequence[Template]) -> Iterator[str]:
    """Yield all that one template is given."""
    yield template.file
    yield from wrap(template.purpose, COLUMNS)
    yield f"In use: {template.shown}" + (" (yours)" if template.own else "")
    view = view_of(template.stem)
    if view is not None:
        printed = [one.name.removesuffix(SUFFIX).replace("_", "-") for one in printed_by(templates, template.file)]
        if printed:
            yield from wrap(f"It prints {', '.join(dict.fromkeys(printed))}.", COLUMNS)
        yield from _view(view)
    else:
        yield from _part(template, templates, others)
    yield ""
    yield from wrap(_KINDS, COLUMNS)


def _view(view: type) -> Iterator[str]:
    yield ""
    yield from _group(["sheet"], describe(view))
    yield from _parts(view, "sheet")


def _parts(view: type, start: str, only: Sequence[str] | None = None) -> Iterator[str]:
    """Yield what a view leads to; ``only`` are the names of it that count, where not all do."""
    for part, ways in parts_of(view, start, only).items():
        yield ""
        yield from _group(ways, describe(part))


def _part(template: Template, templates: Templates, others: Sequence[Template]) -> Iterator[str]:
    """Yield what a part is given: what all that print it have in common, and the names of the loops around it."""
    classes: dict[str, type] = {}
    views: list[type] = []
    for other in others:
        view = view_of(other.stem)
        printed = [one for one in printed_by(templates, other.file) if one.name == template.file]
        if view is None or not printed:
            continue
        views.append(view)
        around = [f"for {variable} in {path}" for one in printed for variable, path in one.loops]
        by = f"Printed by {other.called}" + (f", {'; '.join(dict.fromkeys(around))}" if around else "")
        yield from wrap(by, COLUMNS, subsequent_indent="  ")
        for variable, path in (loop for one in printed for loop in one.loops):
            part = part_at(view, path.split(".")[1:]) if path.startswith("sheet.") else None
            if part is not None:
                classes.setdefault(variable, part)
    for variable, part in classes.items():
        yield ""
        yield from _group([variable], describe(part))
        yield from _parts(part, variable)
    if views and not classes:
        yield from _shared(views)


def _shared(views: Sequence[type]) -> Iterator[str]:
    """Yield what all of several views have; where they say different things of it, all that."""
    every = [{name.name: name for name in describe(view).names} for view in views]
    common = []
    for name in every[0].values():
        found = [names[name.name] for names in every if name.name in names]
        if len(found) == len(every) and len({one.kind for one in found}) == 1:
            docs = dict.fromkeys(one.doc.rstrip(".") for one in found)
            common.append(replace(name, doc=" / ".join(docs) + "."))
    yield ""
    yield from _group(["sheet"], Group(title="", doc="what all that print it have", names=tuple(common)))
    yield from _parts(views[0], "sheet", [name.name for name in common])


def _group(ways: Sequence[str], group: Group) -> Iterator[str]:
    doc = group.doc.rstrip(".").replace("``", "")
    yield from ways[:-1]
    yield from wrap(f"{ways[-1]}  {doc[:1].lower()}{doc[1:]}", COLUMNS, subsequent_indent="  ")
    yield from _rows((f".{one.name}", one.kind, one.doc) for one in group.names)


def theme_page(name: str, text: str, place: str) -> Iterator[str]:
    """Yield what a theme is, and what stands in its file."""
    yield f"theme {name} ({place})"
    yield ""
    yield from text.rstrip().splitlines()


def tags_page() -> Iterator[str]:
    """Yield the tags and classes that a sheet is written in."""
    from linebook.markup import vocabulary

    yield from _narrow((vocabulary.__doc__ or "").split("\n\n", 2)[2])
    yield "Classes"
    for said, words in (
        ("article", vocabulary.KINDS),
        ("p", vocabulary.PARAGRAPH_ROLES),
        ("dl", vocabulary.FACT_ROLES),
        ("table", vocabulary.TABLE_ROLES),
        ("col", vocabulary.COLUMN_KINDS),
        ("figure", vocabulary.FIGURE_ROLES),
        ("div.box", vocabulary.BOX_ROLES),
        ("span", (*vocabulary.STYLES, *vocabulary.SLOTS, *vocabulary.MARKS)),
    ):
        yield from wrap(f"{said:9} {', '.join(words)}", COLUMNS, initial_indent="    ", subsequent_indent=" " * 14)


def _narrow(text: str) -> Iterator[str]:
    """Yield a reference of terms and what they are, set for a terminal; markup shown as it is typed stays so."""
    for block in text.rstrip().split("\n\n"):
        lines = block.splitlines()
        if lines[0].lstrip().startswith("<"):
            yield from lines
        else:
            heads = [line for line in lines[:1] if not line.startswith(" ") and len(lines) > 1 and lines[1][:1] == " "]
            yield from heads
            yield from _terms(lines[len(heads) :])
        yield ""


def _terms(lines: Sequence[str]) -> Iterator[str]:
    """Yield terms with what they are beside them, and running text, each wrapped anew."""
    rows: list[tuple[str, str, str]] = []
    prose: list[str] = []
    for line in lines:
        match = _TERM.fullmatch(line)
        if match:
            rows.append((_unquoted(match[1]), "", _unquoted(match[2])))
        elif rows:
            rows[-1] = (rows[-1][0], "", f"{rows[-1][2]} {_unquoted(line.strip())}")
        else:
            prose.append(_unquoted(line))
    indent = " " * (len(prose[0]) - len(prose[0].lstrip())) if prose else ""
    yield from wrap(" ".join(line.strip() for line in prose), COLUMNS, initial_indent=indent, subsequent_indent=indent)
    yield from _rows(rows)


def _unquoted(text: str) -> str:
    return text.replace("``", "").replace("::", ":")


def words_page(sentences: Iterable[tuple[str, str]]) -> Iterator[str]:
    """Yield the keys of the catalogue and what they say."""
    for key, sentence in sentences:
        yield from wrap(f"{key}  {sentence}".replace("\u00a0", " "), COLUMNS, subsequent_indent="    ")


def _rows(rows: Iterable[tuple[str, str, str]]) -> Iterator[str]:
    """Yield rows of three columns, the last one wrapped."""
    made = list(rows)
    first = max((len(row[0]) for row in made), default=0)
    second = max((len(row[1]) for row in made), default=0)
    for name, kind, doc in made:
        head = f"  {name:{first}}  {kind:{second}}  " if second else f"  {name:{first}}  "
        yield from wrap(doc, COLUMNS, initial_indent=head, subsequent_indent=" " * len(head)) or [head.rstrip()]


def _first(text: str) -> str:
    """Return the first sentence of a text."""
    return text.split(". ", maxsplit=1)[0].removesuffix(".") + "." if text else ""
