"""Writes the Python that builds a sheet, block by block, as ``markup.reader`` reads it from a template's text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import MISSING, Field, fields
from typing import Any, Final

from linebook.markup import blocks
from linebook.markup.vocabulary import BOX_ROLES, MOST_COLUMNS
from linebook.templating.code import Code, static
from linebook.templating.code_of_lines import EMPTY, LineCode, check, number, tags_in
from linebook.templating.mixed import Choice, Loop, Mixed, Tag, Unbuilt

_MOST_STEPS: Final = 999
_MOST_SHARE: Final = 90
_LEFT_SHARE: Final = 60
_PARTS: Final = ("title", "kicker", "aside")
_PAIR: Final = "dt dd"
_HEAD: Final = '''"""Generated: what builds this sheet without the text that its template writes."""

from linebook.markup.blocks import (
    Box,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Paragraph,
    Points,
    Rule,
    SheetText,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.built import (
    alone,
    columns,
    drawn,
    key,
    keyed,
    mark,
    needed,
    number,
    plain,
    plain_to_see,
    row,
    title,
    wide_row,
    woven,
)
from linebook.markup.woven import PLAIN, Style, plain_line

'''
_FUNCTION: Final = """

def build(v_sheet, say, built):
    turns, line, styled, cell, cell_of = built.turns, built.line, built.styled, built.cell, built.cell_of
    sign, put = built.sign, built.put
"""


def code_of_sheet(article: Tag) -> str:
    """Return the module that builds a sheet as the template of this tree writes it.

    Raises Unbuilt for a template that is not plain enough, or that writes what no sheet may hold.
    """
    writer = _SheetCode()
    writer.write(article)
    styles = "".join(f"{name} = {style!r}\n" for style, name in writer.lines.styles.items() if name != "PLAIN")
    return f"{_HEAD}{styles}{_FUNCTION}{writer.code.text()}"


class _SheetCode:
    def __init__(self) -> None:
        self.code = Code(("sheet",))
        self.lines = LineCode(self.code)

    def write(self, article: Tag) -> None:
        """Write the whole function."""
        children = tags_in(article.children)
        first = children[0] if children else None
        if article.name != "article" or not isinstance(first, Tag) or first.name != "header":
            raise Unbuilt("a sheet without its head")
        said, page = article.attributes, static(article.attributes.get("data-page", ("portrait",)))
        kind = static(said.get("class", ()))
        if not {*said} <= {"id", "class", "data-line", "data-page"} or page not in ("portrait", "landscape"):
            raise Unbuilt("attributes of a sheet")
        self._header(first)
        blocks = self._list(children[1:], self._block, "article")
        made = _made(
            "SheetText",
            id=f"needed({self.code.said(said['id'])})",
            kind=repr(kind),
            line=self.code.said(said.get("data-line", ())),
            landscape=repr(page == "landscape"),
            kicker="kicker",
            title="title(name)",
            aside="aside",
            blocks=blocks,
        )
        self.code.add(f"return {made}")

    def _header(self, header: Tag) -> None:
        self.code.add(f"kicker = name = aside = {EMPTY}")
        written: list[str] = []

        def part(child: Mixed) -> None:
            assert isinstance(child, Tag)
            check(child, "header")
            kind = "title" if child.name == "h1" else static(child.attributes.get("class", ()))
            if kind not in _PARTS or kind in written:
                raise Unbuilt("the head of a sheet")
            written.append(kind)
            self.code.add(f"{'name' if kind == 'title' else kind} = {self.lines.line(child.children)}")

        children = tags_in(header.children)
        if any(isinstance(child, Loop) for child in children):
            raise Unbuilt("a loop in the head of a sheet")
        self.code.each(_bare(children), part)

    # -- blocks

    def _list(self, children: Sequence[Mixed], write: Callable[[Tag, str], None], within: str) -> str:
        """Return the tuple to which each tag adds its own."""
        into = self.code.begun("all")
        self._into(children, write, within, into)
        return self.code.ended(into)

    def _into(self, children: Sequence[Mixed], write: Callable[[Tag, str], None], within: str, into: str) -> None:
        def one(child: Mixed) -> None:
            assert isinstance(child, Tag)
            if child.name != _PAIR:
                check(child, within)
            write(child, into)

        self.code.each(_bare(children), one)

    def _block(self, tag: Tag, into: str) -> None:
        if tag.name == "section":
            self._into(tag.children, self._block, tag.name, into)
            return
        write = {
            "h2": self._heading,
            "h3": self._heading,
            "p": self._paragraph,
            "dl": self._facts,
            "table": self._table,
            "ol": self._steps,
            "ul": self._points,
            "hr": lambda _: "Rule()",
            "figure": self._figure,
            "div": self._division,
        }.get(tag.name)
        if write is None:
            raise Unbuilt(f"{tag.name} among blocks")
        self.code.append(into, write(tag))

    def _heading(self, tag: Tag) -> str:
        content, aside = self.lines.with_slot(tag.children, "aside")
        page = tag.attributes.get("data-page")
        if page is not None and static(page) != "new":
            raise Unbuilt("a heading that starts something else")
        starts = {"starts_page": "True"} if page else {}
        return _made("Heading", level=tag.name[1], content=content, aside=aside, key=self._key(tag), **starts)

    def _paragraph(self, tag: Tag) -> str:
        role = _role(tag, "body")
        if role in ("kicker", "aside") or " " in role:
            raise Unbuilt("a paragraph out of its place")
        return _made("Paragraph", content=self.lines.line(tag.children), role=repr(role), key=self._key(tag))

    def _facts(self, tag: Tag) -> str:
        role = _role(tag, "plain")

        def fact(pair: Tag, into: str) -> None:
            term, said = pair.children
            assert isinstance(term, Tag)
            assert isinstance(said, Tag)
            check(term, "dl")
            check(said, "dl")
            name, value = self.lines.line(term.children), self.lines.line(said.children)
            value = f"plain_to_see({value})" if role == "allergens" else value
            self.code.append(into, _made("Fact", term=name, value=value, key=self._key(term)))

        return _made("Facts", facts=self._list(_paired(tag.children), fact, "dl"), role=repr(role))

    def _steps(self, tag: Tag) -> str:
        first = self.code.name("first")
        self.code.add(f"{first} = {number(self.code, tag, 'start', 1, _MOST_STEPS)}")

        def step(li: Tag, into: str) -> None:
            content = self.lines.line(li.children)
            at = f"{first} + len({into})"
            self.code.add(f"{into}.append({_made('Step', number=at, content=content, key=self._key(li))})")

        return _made("Steps", steps=self._list(tag.children, step, "ol"))

    def _points(self, tag: Tag) -> str:
        def point(li: Tag, into: str) -> None:
            content = self.lines.line(li.children)
            self.code.append(into, _made("Paragraph", content=content, key=self._key(li)))

        return _made("Points", points=self._list(tag.children, point, "ul"))

    def _figure(self, tag: Tag) -> str:
        captions = tags_in(tag.children)
        if len(captions) > 1 or not all(isinstance(one, Tag) and one.name == "figcaption" for one in captions):
            raise Unbuilt("what stands in a figure")
        caption = next((self.lines.line(one.children) for one in captions if isinstance(one, Tag)), EMPTY)
        return _made(
            "FigureRef",
            name=f"needed({self.code.said(tag.attributes['data-figure'])})",
            alternative=f"needed({self.code.said(tag.attributes['aria-label'])})",
            caption=caption,
            role=repr(_role(tag, "large")),
        )

    def _division(self, tag: Tag) -> str:
        kind, *more = _role(tag, "").split()
        if kind == "box" and len(more) <= 1 and {*more} <= {*BOX_ROLES}:
            blocks = self._list(tag.children, self._block, "div")
            role = more[0] if more else BOX_ROLES[0]
            return _made("Box", blocks=blocks, role=repr(role), key=self._key(tag))
        sides = [one for one in tags_in(tag.children) if isinstance(one, Tag)]
        if (kind, more) != ("split", []) or [_role(one, "") for one in sides] != ["left", "right"]:
            raise Unbuilt("neither a box nor a split")
        left, right = (self._list(one.children, self._block, "div") for one in sides)
        share = number(self.code, tag, "data-left", _LEFT_SHARE, _MOST_SHARE)
        return _made("Split", left=left, right=right, left_share=share)

    # -- tables

    def _table(self, tag: Tag) -> str:
        parts = tags_in(tag.children)
        first = parts[0] if parts else None
        if not isinstance(first, Tag) or first.name != "colgroup":
            raise Unbuilt("a table that does not begin with its columns")
        found = self._list(first.children, self._column, "colgroup")
        kinds, width = self.code.name("columns"), self.code.name("width")
        self.code.add(f"{kinds} = columns({found})")
        head, rows = self.code.begun("head"), self.code.begun("rows")
        self.code.add(f"{width} = len({kinds})")

        def part(one: Mixed) -> None:
            assert isinstance(one, Tag)
            check(one, "table")
            into = {"thead": head, "tbody": rows}.get(one.name)
            if into is None:
                raise Unbuilt("columns after rows")
            self._into(one.children, lambda row, into: self._row(row, into, width), one.name, into)

        self.code.each(_bare(parts[1:]), part)
        role = _role(tag, "ingredients")
        return _made("Table", columns=kinds, head=self.code.ended(head), rows=self.code.ended(rows), role=repr(role))

    def _column(self, tag: Tag, into: str) -> None:
        self.code.append(into, repr(static(tag.attributes["class"]).split()[0]))

    def _row(self, tag: Tag, into: str, width: str) -> None:
        is_wide = [False]

        def cell(one: Tag, cells: str) -> None:
            is_wide[0] |= "colspan" in one.attributes
            self.code.append(cells, self._cell(one))

        cells = self._list(tag.children, cell, "tr")
        heading = ", heading=True" if _role(tag, "") else ""
        kind = "wide_row" if is_wide[0] else "row"
        self.code.append(into, f"{kind}({cells}, {width}, {self._key(tag)}{heading})")

    def _cell(self, tag: Tag) -> str:
        scope = static(tag.attributes.get("scope", ()))
        if scope not in ("", "col", "row"):
            raise Unbuilt("a scope that says nothing")
        content, note = self.lines.with_slot(tag.children, "note")
        span = number(self.code, tag, "colspan", 1, MOST_COLUMNS)
        given = [content, note, repr(scope), span]
        if given[1:] == [EMPTY, "''", "1"] and content.startswith("line(") and content.count("(") == 1:
            return f"cell{content.removeprefix('line')}"
        for usual in ("1", "''", EMPTY):
            if given[-1] != usual:
                break
            given.pop()
        return f"cell_of({', '.join(given)})"

    def _key(self, tag: Tag) -> str:
        return self.code.said(tag.attributes.get("data-key", ()))


def _made(made: str, **values: str) -> str:
    """Return what makes a value, by the order of its fields where they may be given so.

    A field that has nothing in it is left out where it has a default.
    """
    all_fields: list[Field[Any]] = [*fields(getattr(blocks, made))]
    asked = [one.name for one in all_fields if one.default is MISSING]
    given = {name: value for name, value in values.items() if name in asked or value not in (EMPTY, "''")}
    if any(one.kw_only for one in all_fields):
        return f"{made}({', '.join(f'{name}={value}' for name, value in given.items())})"
    while all_fields[-1].name not in given:
        all_fields.pop()
    return f"{made}({', '.join(given.get(one.name, repr(one.default)) for one in all_fields)})"


def _role(tag: Tag, usual: str) -> str:
    return " ".join(static(tag.attributes.get("class", ())).split()) or usual


def _bare(children: Sequence[Mixed]) -> list[Mixed]:
    """Return what stands in a tag without words of its own, also within choices and loops."""
    bare: list[Mixed] = []
    for child in tags_in(children):
        bare.append(_within(child, _bare) if isinstance(child, Choice | Loop) else child)
    return bare


def _within(child: Choice | Loop, change: Callable[[Sequence[Mixed]], list[Mixed]]) -> Choice | Loop:
    """Return a choice or a loop with what stands in it changed."""
    otherwise = change(child.otherwise)
    if isinstance(child, Choice):
        return Choice(test=child.test, then=change(child.then), otherwise=otherwise)
    return Loop(name=child.name, over=child.over, body=change(child.body), otherwise=otherwise)


def _paired(children: Sequence[Mixed]) -> list[Mixed]:
    """Return labelled lines with each label and its value as one."""
    paired: list[Mixed] = []
    rest = [*tags_in(children)]
    while rest:
        child = rest.pop(0)
        if isinstance(child, Choice | Loop):
            paired.append(_within(child, _paired))
        else:
            value = rest.pop(0) if rest else None
            if not isinstance(child, Tag) or not isinstance(value, Tag) or (child.name, value.name) != ("dt", "dd"):
                raise Unbuilt("a label without its value")
            paired.append(Tag(name=_PAIR, attributes={}, children=[child, value]))
    return paired
