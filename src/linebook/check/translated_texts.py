"""A text and what it translates, held against each other: the figures must be the same (LB320).

Nobody on the line can tell which of two temperatures is right. Numbers in words are not compared.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from linebook.check.step_figures import Figure, figures_in
from linebook.model.translations import Said
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen
class Typed:
    """A figure as typed, in one form for both languages, with its place."""

    value: tuple[str, str]
    text: str
    span: Span


def typed_figures(text: str, place: Callable[[int, int], Span]) -> tuple[Typed, ...]:
    """Return the figures of a text; ``place`` gives the span of some of its characters."""
    return tuple(_typed(figure, text, place) for figure in figures_in(text))


def said_figures(said: Said) -> tuple[Typed, ...]:
    """Return the figures of a text in the front matter of a translation."""
    return figures_at(said.text, said.span)


def figures_at(text: str, span: Span) -> tuple[Typed, ...]:
    """Return the figures of a text that stands in a file at ``span``, with quotes around it or not."""
    figures = figures_in(text)
    if not figures:  # as in most texts
        return ()
    begins = span.text.find(text)

    def place(start: int, end: int) -> Span:
        return span if begins < 0 else span.source.span(span.start + begins + start, span.start + begins + end)

    return tuple(_typed(figure, text, place) for figure in figures)


def figures_fault(what: str, own: Sequence[Typed], other: Sequence[Typed], whole: Span) -> Fault | None:
    """Return the fault where a translation has other figures; ``what`` names the text, ``whole`` is its place."""
    if not own and not other:  # as in most texts
        return None
    missing, extra = _left(own, other), _left(other, own)
    if not missing and not extra:
        return None
    related = [Related(span=missing[0].span, label="the card says")] if missing else []
    if missing and extra:
        message = f"{what} says `{extra[0].text}`, and what it translates says `{missing[0].text}`"
        hints = (f"write `{missing[0].text}`, or mend the card",)
        return fault("LB320", message, extra[0].span, hints=hints, related=related)
    if missing:
        message = f"{what} leaves out `{missing[0].text}`, which stands in what it translates"
        hints = (f"write `{missing[0].text}` where it belongs, in digits",)
        return fault("LB320", message, whole, hints=hints, related=related)
    message = f"{what} says `{extra[0].text}`, which does not stand in what it translates"
    return fault("LB320", message, extra[0].span, hints=("take it out, or mend the card",))


def _left(one: Sequence[Typed], other: Sequence[Typed]) -> list[Typed]:
    """Return the figures of ``one`` that ``other`` does not have as often."""
    spare = Counter(figure.value for figure in other)
    left: list[Typed] = []
    for figure in one:
        if spare[figure.value]:
            spare[figure.value] -= 1
        else:
            left.append(figure)
    return left


def _typed(figure: Figure, text: str, place: Callable[[int, int], Span]) -> Typed:
    return Typed(value=figure.value, text=text[figure.start : figure.end].strip(), span=place(figure.start, figure.end))
