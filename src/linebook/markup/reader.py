"""A rendered sheet → its block tree. Knows the vocabulary; knows nothing of templates' language or of paper."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from typing import Final, NoReturn

from linebook.markup.blocks import (
    Block,
    Box,
    Fact,
    Facts,
    FigureRef,
    Heading,
    Inline,
    Paragraph,
    Points,
    Rule,
    Run,
    Second,
    SheetText,
    Split,
    Step,
    Steps,
)
from linebook.markup.elements import Element, Tracer, parse_elements
from linebook.markup.inline import Complain, InlineReader
from linebook.markup.plain_elements import plain_elements
from linebook.markup.tables import TableReader
from linebook.markup.unusual import NotPlain
from linebook.markup.vocabulary import BOX_ROLES
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.spans import SourceFile

_PAGES: Final = ("portrait", "landscape")
_NEW: Final = "new"
_LEFT_SHARE: Final = 60


def read_markup(text: str, template: str, *, sources: Sequence[SourceFile] = ()) -> Outcome[SheetText]:
    """Read one rendered sheet. ``template`` is the path shown for it in faults.

    ``sources`` are the template files it came from: a fault then also shows where the template has the tag.
    Faults: LB702 for text that is not XML; LB703 for a tag, class, attribute or order that sheets do not have.
    """
    with suppress(NotPlain):
        return Outcome(value=_Reader(_leave).read_sheet(plain_elements(text)))
    tracer = Tracer(text, template, sources)
    parsed = parse_elements(tracer)
    if parsed.value is None:
        return Outcome(value=None, faults=parsed.faults)
    complaints = _Complaints(tracer)
    sheet = _Reader(complaints).read_sheet(parsed.value)
    return Outcome(value=None if complaints.faults else sheet, faults=tuple(complaints.faults))


def _leave(_element: Element, message: str, _hint: str) -> NoReturn:
    """Leave a sheet that has something wrong to who can tell where: an element known from others has no place here."""
    raise NotPlain(message)


class _Complaints:
    """What is wrong with one sheet. Apart from its readers, so that none holds another and the sheet with it."""

    def __init__(self, tracer: Tracer) -> None:
        self.tracer = tracer
        self.faults: list[Fault] = []

    def __call__(self, element: Element, message: str, hint: str) -> None:
        words = f"<{element.tag}"
        span = self.tracer.span(element.start, words)
        self.faults.append(fault("LB703", message, span, hints=(hint,), related=self.tracer.related(words)))


class _Reader:
    def __init__(self, complain: Complain) -> None:
        self.complain = complain
        self.inline = InlineReader(complain=complain)
        self.tables = TableReader(inline=self.inline, complain=complain)

    def read_sheet(self, article: Element) -> SheetText:
        header = next((child for child in article.elements() if child.tag == "header"), None)
        title, kicker, aside = self._read_header(article, header)
        page = article.attributes.get("data-page", _PAGES[0])
        if page not in _PAGES:
            self.complain(article, f'`data-page="{page}"` is no way to turn a page', "write `portrait` or `landscape`")
        return SheetText(
            id=article.attributes["id"],
            kind=article.classes[0],
            line=article.attributes.get("data-line", ""),
            landscape=page == "landscape",
            kicker=kicker,
            title=title,
            aside=aside,
            blocks=self._read_blocks([child for child in article.elements() if child is not header]),
        )

    def _read_header(self, article: Element, header: Element | None) -> tuple[Inline, Inline, Inline]:
        parts: dict[str, Inline] = {}
        for child in header.elements() if header else ():
            part = "title" if child.tag == "h1" else " ".join(child.classes)
            if part not in ("title", "kicker", "aside") or part in parts:
                self.complain(
                    child, "a header holds one `h1`, one `p.kicker` and one `p.aside`", "move it below the header"
                )
            parts[part] = self.inline.read(child)
        if not parts.get("title"):
            self.complain(header or article, "a sheet has no name", "begin it with `<header><h1>…</h1></header>`")
        return parts.get("title", ()), parts.get("kicker", ()), parts.get("aside", ())

    def _read_blocks(self, elements: Sequence[Element]) -> tuple[Block, ...]:
        blocks: list[Block] = []
        for element in elements:
            if element.tag == "section":
                blocks.extend(self._read_blocks(element.elements()))
            else:
                block = self._read_block(element)
                if block is not None:
                    blocks.append(block)
        return tuple(blocks)

    def _read_block(self, element: Element) -> Block | None:
        match element.tag:
            case "h2" | "h3":
                return self._read_heading(element)
            case "p":
                return self._read_paragraph(element)
            case "dl":
                return self._read_facts(element)
            case "table":
                return self.tables.read(element)
            case "ol":
                return self._read_steps(element)
            case "ul":
                points = [Paragraph(content=self.inline.read(li), key=li.key) for li in element.elements()]
                return Points(points=tuple(points))
            case "hr":
                return Rule()
            case "figure":
                return self._read_figure(element)
            case "div":
                return self._read_division(element)
        self.complain(element, f"`<{element.tag}>` stands out of its place", "move it into the header")
        return None

    def _read_heading(self, element: Element) -> Heading:
        content, aside = self.inline.read_with_slot(element, "aside")
        page = element.attributes.get("data-page")
        if page not in (None, _NEW):
            self.complain(element, f'`data-page="{page}"` is no way to start a heading', 'write `data-page="new"`')
        return Heading(
            level=int(element.tag[1]), content=content, aside=aside, key=element.key, starts_page=page == _NEW
        )

    def _read_paragraph(self, element: Element) -> Paragraph:
        role = " ".join(element.classes) or "body"
        if role in ("kicker", "aside") or len(element.classes) > 1:
            self.complain(
                element, f"a paragraph in the sheet has no class `{role}`", "give it one role, such as `note`"
            )
        return Paragraph(content=self.inline.read(element), role=role, key=element.key)

    def _read_facts(self, element: Element) -> Facts:
        role = " ".join(element.classes) or "plain"
        children = element.elements()
        facts: list[Fact] = []
        for index in range(0, len(children), 2):
            pair = children[index : index + 2]
            if [child.tag for child in pair] != ["dt", "dd"]:
                self.complain(pair[0], "a `dl` holds `dt` and `dd` in turn", "write one `dd` after each `dt`")
                break
            term, value = self.inline.read(pair[0]), self.inline.read(pair[1])
            if role == "allergens":
                self._check_plain_to_see(pair[1], value)
            facts.append(Fact(term=term, value=value, key=pair[0].key))
        return Facts(facts=tuple(facts), role=role)

    def _check_plain_to_see(self, element: Element, value: Inline) -> None:
        """Words a guest's safety hangs on are never missing, grey or small."""
        runs = [run for run in value if isinstance(run, Run)]
        runs += [run for second in value if isinstance(second, Second) for run in second.content]
        if not runs:
            self.complain(element, "a line about allergens is empty", "print what the card is given for it")
        if any(run.quiet or run.small for run in runs):
            self.complain(element, "words about allergens may not be quiet or small", "take the class away")

    def _read_steps(self, element: Element) -> Steps:
        first = self.inline.number(element, "start", 1, most=999)
        steps = [
            Step(number=first + index, content=self.inline.read(li), key=li.key)
            for index, li in enumerate(element.elements())
        ]
        return Steps(steps=tuple(steps))

    def _read_figure(self, element: Element) -> FigureRef:
        captions = element.elements()
        return FigureRef(
            name=element.attributes["data-figure"],
            alternative=" ".join(element.attributes["aria-label"].split(" ")),
            caption=self.inline.read(captions[0]) if captions else (),
            role=" ".join(element.classes) or "large",
        )

    def _read_division(self, element: Element) -> Block | None:
        classes = element.classes
        if classes[0] == "box" and len(classes) <= 2 and set(classes[1:]) <= set(BOX_ROLES):
            role = classes[1] if len(classes) > 1 else BOX_ROLES[0]
            return Box(blocks=self._read_blocks(element.elements()), role=role, key=element.key)
        sides = [child.classes for child in element.elements()]
        if classes == ("split",) and sides == [("left",), ("right",)]:
            left, right = element.elements()
            return Split(
                left=self._read_blocks(left.elements()),
                right=self._read_blocks(right.elements()),
                left_share=self.inline.number(element, "data-left", _LEFT_SHARE, most=90),
            )
        hint = 'write `<div class="box limit">`, or `<div class="split">` with one `left` and one `right` inside'
        self.complain(element, f'`<div class="{" ".join(classes)}">` is neither a box nor a split', hint)
        return None
