"""Writes the Python that makes a line of words: runs, marks, slots. Knows the tags inside text and no others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, TypeAlias

from linebook.markup.inline import MOST_COUNT
from linebook.markup.vocabulary import MARKS, SLOTS, STYLES, TAGS
from linebook.markup.woven import PLAIN, USUAL, Style, in_bold, in_italics, spaced
from linebook.templating.code import Code, static
from linebook.templating.mixed import Choice, Mixed, Printed, Tag, Unbuilt, Words

EMPTY: Final = "()"
_BLANK: Final = " \t\r\n"
_InStyle: TypeAlias = tuple[Style, str]
"""A style, and the expression of its key, '' where that is in the style."""


class LineCode:
    """Writes lines into ``code``; ``styles`` are those that stand at the head of the module, by their names."""

    def __init__(self, code: Code) -> None:
        self.code = code
        self.styles: dict[Style, str] = {PLAIN: "PLAIN"}

    def line(self, children: Sequence[Mixed]) -> str:
        """Return the expression of a line, when what it needs is written."""
        kept = without_blank(children)
        if not kept:
            return EMPTY
        if len(kept) == 1:
            (only,) = kept
            if isinstance(only, Words):
                return f"plain_line({only.text!r})"
            if isinstance(only, Choice):
                return self._chosen(only)
            if mark := self._mark_alone(only):
                return mark
            if simple := self._simple(only, (PLAIN, "")):
                return simple
        pieces = self.code.name("pieces")
        self.code.add(f"{pieces} = []")
        self._gather(kept, (PLAIN, ""), pieces)
        return f"woven({pieces})"

    def with_slot(self, children: Sequence[Mixed], slot: str) -> tuple[str, str]:
        """Return the expressions of a line and of the slot at its end."""
        kept = without_blank(children)
        end = kept[-1] if kept else None
        if _is_slot(end, slot):
            assert isinstance(end, Tag)
            return self.line(kept[:-1]), self.line(end.children)
        if not isinstance(end, Choice):
            return self.line(kept), EMPTY
        then = without_blank(end.then)
        if len(then) == 1 and _is_slot(then[0], slot) and not end.otherwise:
            content, note = self.line(kept[:-1]), self.code.name("slot")
            self.code.add(f"{note} = {EMPTY}")
            assert isinstance(then[0], Tag)
            slotted = then[0].children
            self.code.choice(end, lambda _: self.code.add(f"{note} = {self.line(slotted)}"))
            return content, note
        if len(kept) == 1 and (_is_slot(then[-1] if then else None, slot)):
            content, note = self.code.name("line"), self.code.name("slot")
            self.code.add(f"{content} = {note} = {EMPTY}")
            self.code.choice(end, lambda part: self._both(content, note, part, slot))
            return content, note
        return self.line(kept), EMPTY

    def _both(self, content: str, note: str, part: Sequence[Mixed], slot: str) -> None:
        line, slotted = self.with_slot(part, slot)
        self.code.add(f"{content} = {line}")
        self.code.add(f"{note} = {slotted}")

    def _chosen(self, choice: Choice) -> str:
        name = self.code.name("line")
        self.code.add(f"{name} = {EMPTY}")
        self.code.choice(choice, lambda part: self.code.add(f"{name} = {self.line(part)}"))
        return name

    def _simple(self, child: Mixed, style: _InStyle) -> str:
        """Return the expression of one thing printed in one style, '' for anything else."""
        if isinstance(child, Printed):
            value = self.code.expression(child.value)
            return f"line({value})" if style == (PLAIN, "") else f"styled({value}, {self._style(style)})"
        if not isinstance(child, Tag) or _kind_of(child):
            return ""
        inner = without_blank(child.children)
        return self._simple(inner[0], self._changed(child, style)) if len(inner) == len(child.children) == 1 else ""

    def _gather(self, children: Sequence[Mixed], style: _InStyle, into: str) -> None:
        self.code.each(children, lambda child: self._one(child, style, into))

    def _one(self, child: Mixed, style: _InStyle, into: str) -> None:
        if isinstance(child, Words):
            self.code.append(into, f"({spaced(child.text)!r}, {self._style(style)})")
        elif isinstance(child, Printed):
            self.code.add(f"put({into}, {self.code.expression(child.value)}, {self._style(style)})")
        elif isinstance(child, Tag):
            if _kind_of(child):
                self.code.append(into, self._mark(child))
            else:
                self._gather(child.children, self._changed(child, style), into)

    def _changed(self, tag: Tag, style: _InStyle) -> _InStyle:
        """Return the style of what stands in a tag."""
        own, key = style
        check(tag, "p")
        if tag.name != "span":
            return (in_bold(own) if tag.name == "b" else in_italics(own)), key
        kind = static(tag.attributes.get("class", ()))
        if kind not in ("", *STYLES):
            raise Unbuilt(f"a span of class {kind}")
        lang = static(tag.attributes.get("lang", (own.lang,)))
        own = own._replace(quiet=own.quiet or kind == "quiet", small=own.small or kind == "small", lang=lang)
        said = tag.attributes.get("data-key", ())
        if key and said:
            raise Unbuilt("a key in a key")
        if all(isinstance(part, str) for part in said):
            return own._replace(key=static(said) or own.key), key
        return own, self.code.said(said)

    def _style(self, style: _InStyle) -> str:
        own, key = style
        name = self.styles.setdefault(own, f"STYLE_{len(self.styles)}")
        return f"keyed({name}, {key})" if key else name

    def _mark(self, tag: Tag) -> str:
        said = self.line(tag.children)
        return f"mark({', '.join((self._kind(tag), said, *self._sizes(tag)))})"

    def _mark_alone(self, child: Mixed) -> str:
        if not isinstance(child, Tag) or not _kind_of(child):
            return ""
        inner, kind, sizes = without_blank(child.children), self._kind(child), self._sizes(child)
        if not inner:
            return f"drawn({', '.join((kind, *sizes))})"
        if len(inner) == 1 and isinstance(inner[0], Printed) and not sizes:
            return f"sign({kind}, {self.code.expression(inner[0].value)})"
        return f"alone({self._mark(child)})"

    def _kind(self, tag: Tag) -> str:
        check(tag, "p")
        return self.code.said(tag.attributes["class"])

    def _sizes(self, tag: Tag) -> tuple[str, ...]:
        names = (("data-count", USUAL.count, "count"), ("data-width", USUAL.width, "width"))
        return tuple(
            f"{name}={number(self.code, tag, attribute, usual, MOST_COUNT)}"
            for attribute, usual, name in names
            if attribute in tag.attributes
        )


def number(code: Code, tag: Tag, attribute: str, usual: int, most: int) -> str:
    """Return the expression of an attribute that is a whole number."""
    said = tag.attributes.get(attribute)
    if said is None:
        return str(usual)
    if all(isinstance(part, str) for part in said):
        words = static(said)
        if not words.isascii() or not words.isdecimal() or not 1 <= int(words) <= most:
            raise Unbuilt("no such number")
        return str(int(words))
    return f"number({code.said(said)}, {most})"


def _kind_of(tag: Tag) -> bool:
    """Return whether a tag is a mark: of a class that is one, or that is known only later."""
    said = tag.attributes.get("class", ())
    return tag.name == "span" and (any(not isinstance(part, str) for part in said) or static(said) in MARKS)


def _is_slot(child: Mixed | None, slot: str) -> bool:
    if not isinstance(child, Tag) or child.name != "span" or _kind_of(child):
        return False
    kind = static(child.attributes.get("class", ()))
    if kind in SLOTS and kind != slot:
        raise Unbuilt("a slot of another tag")
    return kind == slot


def without_blank(children: Sequence[Mixed]) -> list[Mixed]:
    """Return children without the white space around them."""
    kept = [*children]
    while kept and _is_blank(kept[0]):
        kept.pop(0)
    while kept and _is_blank(kept[-1]):
        kept.pop()
    return kept


def tags_in(children: Sequence[Mixed]) -> list[Mixed]:
    """Return what stands in a tag that holds no words of its own."""
    kept = [child for child in children if not _is_blank(child)]
    if any(isinstance(child, (Words, Printed)) for child in kept):
        raise Unbuilt("words in a tag that holds none")
    return kept


def _is_blank(child: Mixed) -> bool:
    return isinstance(child, Words) and not child.text.strip(_BLANK)


def check(tag: Tag, within: str) -> None:
    """Raise Unbuilt for a tag that sheets do not have there, or not so."""
    rules, said = TAGS.get(tag.name), tag.attributes.get("class", ())
    if rules is None or tag.name not in TAGS[within].inside:
        raise Unbuilt(f"{tag.name} in {within}")
    if not {*tag.attributes} <= {"class", *rules.attributes} or not {*rules.needs} <= {*tag.attributes}:
        raise Unbuilt(f"attributes of {tag.name}")
    kinds = static(said).split() if all(isinstance(part, str) for part in said) else []
    if not {*kinds} <= {*rules.classes} or (rules.needs_class and not kinds):
        raise Unbuilt(f"class of {tag.name}")
