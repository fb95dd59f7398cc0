"""Rendered text → a tree of elements that obeys the vocabulary. Owns expat; knows nothing of blocks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property, lru_cache
from typing import Any, Final, TypeAlias
from xml.parsers import expat

from linebook.markup.vocabulary import TAGS, Tag
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Related
from linebook.source.nearest import nearest
from linebook.source.spans import SourceFile, Span

Child: TypeAlias = "Element | str"
MOST_DEPTH: Final = 40
_ROOT: Final = "article"
_SPACE: Final = " \t\r\n"
_SOUND: Final[set[tuple[str, ...]]] = set()
"""Tags found to be right: what each stands in, its name, its class and the names of its attributes."""
_WITHOUT_TEXT: Final = frozenset(tag for tag, rules in TAGS.items() if not rules.text)
_INSTEAD: Final = {"em": "i", "strong": "b", "small": "span", "h4": "h3", "br": "p", "img": "figure", "aside": "div"}


class Element:
    """One element as parsed. ``start`` is the byte at which its tag opens.

    ``known`` is what its reader made of it, where an element that stands in many sheets is read once.
    """

    __slots__ = ("attributes", "children", "holds_text", "known", "start", "tag")

    def __init__(self, tag: str, attributes: dict[str, str], start: int) -> None:
        self.tag = tag
        self.holds_text = tag not in _WITHOUT_TEXT
        self.attributes = attributes
        self.start = start
        self.children: list[Child] = []
        self.known: Any = None

    @property
    def classes(self) -> tuple[str, ...]:
        words = self.attributes.get("class")
        return _parted(words) if words else ()

    @property
    def key(self) -> str:
        return self.attributes.get("data-key", "")

    def elements(self) -> list[Element]:
        """Return the children that are elements."""
        return [child for child in self.children if isinstance(child, Element)]


@lru_cache(maxsize=1024)
def _parted(words: str) -> tuple[str, ...]:
    return tuple(words.split())


class _Refused(Exception):
    """Stops expat at something no sheet may hold."""


class Tracer:
    """Turns byte offsets of a rendered text into spans, and finds the same words in the templates it came from."""

    def __init__(self, text: str, shown: str, templates: Sequence[SourceFile]) -> None:
        self.text, self.shown, self.templates = text, shown, templates

    @cached_property
    def source(self) -> SourceFile:
        return SourceFile(path=self.shown, text=self.text)

    @cached_property
    def raw(self) -> bytes:
        return self.text.encode("utf-8", "surrogatepass")

    def span(self, start: int, words: str = "") -> Span:
        """Return the span of ``words`` that begin at this byte, or an empty one."""
        offset = len(self.raw[:start].decode("utf-8", "ignore"))
        end = offset + len(words) if self.source.text.startswith(words, offset) else offset
        return self.source.span(offset, end)

    def related(self, words: str) -> tuple[Related, ...]:
        """Return where a template has these words first, so that a chef need not search the rendered text."""
        for template in self.templates:
            at = template.text.find(words)
            if at >= 0:
                return (Related(span=template.span(at, at + len(words)), label="the template has it here"),)
        return ()


def parse_elements(tracer: Tracer) -> Outcome[Element]:
    """Return the root element, or every fault: LB702 for text that is not XML, LB703 for what sheets do not have."""
    builder = _Builder(tracer)
    try:
        builder.parser.Parse(tracer.raw, True)
    except expat.ExpatError as error:
        span = tracer.span(builder.parser.ErrorByteIndex)
        builder.faults.append(
            fault(
                "LB702",
                f"the rendered sheet is not well formed: {_say_error(error.code)}",
                span,
                hints=("close every tag, and write `&amp;` for `&` and `&lt;` for `<` in a template's own words",),
            )
        )
    except _Refused:
        pass
    finally:
        del builder.parser  # each holds the other, and so would the whole tree stay
    root = None if builder.faults else builder.root
    return Outcome(value=root, faults=tuple(builder.faults))


def is_sound(within: str, name: str, attributes: Mapping[str, str]) -> bool:
    """Say whether a tag of this name and class, with attributes of these names, was found to be right there."""
    return _like(within, name, attributes) in _SOUND


def _like(within: str, name: str, attributes: Mapping[str, str]) -> tuple[str, ...]:
    return (within, name, attributes.get("class", ""), *attributes) if attributes else (within, name)


def parse_piece(text: str, within: str, deepest: int) -> Element | None:
    """Return the one element that stands in a tag, '' for none; None for any text with a fault."""
    builder = _Builder(Tracer(text, "", ()), deepest)
    around = Element(within, {}, 0)
    builder.open += [around] if within else []
    try:
        builder.parser.Parse(builder.tracer.raw, True)
    except (expat.ExpatError, _Refused):
        return None
    finally:
        del builder.parser
    elements = around.elements() if within else [builder.root]
    return elements[0] if len(elements) == 1 and not builder.faults else None


_ERROR_WORDS: Final = {
    "mismatched tag": "a tag is closed that is not the last one opened",
    "no element found": "it ends before all tags are closed",
    "unclosed token": "a tag is begun and not ended",
    "not well-formed (invalid token)": "a character stands where none like it may",
    "duplicate attribute": "a tag has one attribute twice",
    "undefined entity": "it names an entity that XML does not have",
    "junk after document element": "something stands after the closing tag of the sheet",
}


def _say_error(code: int) -> str:
    words = expat.ErrorString(code)
    return _ERROR_WORDS.get(words, words)


class _Builder:
    """Expat's handlers: build the tree and check each tag against the vocabulary as it comes."""

    def __init__(self, tracer: Tracer, deepest: int = MOST_DEPTH) -> None:
        self.tracer = tracer
        self.deepest = deepest
        self.faults: list[Fault] = []
        self.root: Element | None = None
        self.open: list[Element] = []
        self.parser = expat.ParserCreate("UTF-8")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._text
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.ProcessingInstructionHandler = self._instruction

    def _fault(self, message: str, words: str, *hints: str, text: str = "") -> None:
        """Add a fault at the tag that is read now, or, since expat gives text when it is over, where ``text`` began."""
        at = self.parser.CurrentByteIndex
        if text:
            at = max(self.tracer.raw.rfind(text.strip(_SPACE).encode(), 0, at), 0) or at
        span = self.tracer.span(at, words)
        self.faults.append(fault("LB703", message, span, hints=hints, related=self.tracer.related(words)))

    def _doctype(self, *_: object) -> None:
        self._fault("a sheet has no document type", "<!DOCTYPE", "leave out the `<!DOCTYPE …>` line")
        raise _Refused

    def _instruction(self, target: str, _: str) -> None:
        self._fault(f"`<?{target}` is nothing a sheet may hold", f"<?{target}", "leave it out")

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        element, opened = Element(name, attributes, self.parser.CurrentByteIndex), self.open
        if len(opened) >= self.deepest:
            self._fault(f"tags stand more than {self.deepest} deep", f"<{name}", "close tags before opening more")
            raise _Refused
        parent = opened[-1] if opened else None
        within = parent.tag if parent else ""
        like = _like(within, name, attributes)
        if like not in _SOUND:
            self._check(name, element, like)
        if parent is not None:
            parent.children.append(element)
        else:
            self.root = element
        opened.append(element)

    def _check(self, name: str, element: Element, like: tuple[str, ...]) -> None:
        """Check a tag; another like it is not looked at again, unless what an attribute says has to be."""
        rules, before = TAGS.get(name), len(self.faults)
        if rules is None:
            self._fault(f"`<{name}>` is no tag of a sheet", f"<{name}", *_tag_hints(name))
            return
        self._check_place(name)
        self._check_attributes(name, rules, element)
        if len(self.faults) == before and not rules.needs:
            _SOUND.add(like)

    def _end(self, _: str) -> None:
        self.open.pop()

    def _text(self, text: str) -> None:
        if not self.open:
            return
        parent = self.open[-1]
        if parent.holds_text:
            parent.children.append(text)
        elif text.strip(_SPACE):
            shown = " ".join(text.split())[:40]
            inside = TAGS[parent.tag].inside
            hint = "put the words in a `<p>`" if "p" in inside else "put them in a tag that holds words"
            self._fault(f"the words `{shown}` stand directly in `<{parent.tag}>`", shown, hint, text=text)

    def _check_place(self, name: str) -> None:
        if not self.open:
            if name != _ROOT:
                self._fault(
                    f"a sheet begins with `<article>`, not with `<{name}>`", f"<{name}", "wrap it in `<article>`"
                )
            return
        parent = self.open[-1].tag
        rules = TAGS.get(parent)
        if rules is not None and name not in rules.inside:
            inside = ", ".join(f"`{tag}`" for tag in rules.inside) or "nothing"
            self._fault(f"`<{name}>` may not stand in `<{parent}>`", f"<{name}", f"`<{parent}>` holds {inside}")

    def _check_attributes(self, name: str, rules: Tag, element: Element) -> None:
        for given in element.attributes:
            if given != "class" and given not in rules.attributes:
                close = nearest(given, (*rules.attributes, "class"))
                hint = (f"write `{close}`",) if close else ()
                self._fault(f"`<{name}>` has no attribute `{given}` on a sheet", f"<{name}", *hint)
        for needed in rules.needs:
            if not element.attributes.get(needed, "").strip(_SPACE):
                self._fault(f"`<{name}>` lacks its attribute `{needed}`", f"<{name}", f'write `{needed}="…"`')
        for word in element.classes:
            if word not in rules.classes:
                close = nearest(word, rules.classes)
                hint = (f"write `{close}`",) if close else ()
                self._fault(f"`<{name}>` has no class `{word}` on a sheet", f"<{name}", *hint)
        if rules.needs_class and not element.classes:
            self._fault(f"`<{name}>` needs a class", f"<{name}", f"one of {', '.join(rules.classes)}")


def _tag_hints(name: str) -> tuple[str, ...]:
    instead = _INSTEAD.get(name.lower()) or nearest(name, TAGS)
    return (f"write `<{instead}>`",) if instead else ()
