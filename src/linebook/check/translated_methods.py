"""A method and its translation have the same sections, steps, figures and braces (LB214, LB320, LB509, LB510).

What is not translated is no fault; what would print one step under another one, or another figure, is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from linebook.check.prose import runs
from linebook.check.step_figures import figures_in
from linebook.check.translated_texts import Typed, figures_at, figures_fault, typed_figures
from linebook.check.words import listing, meant
from linebook.model.body import AmountOf, Block, Body, Fixed, Form, Section
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.numbers import write_number
from linebook.model.translations import CardWords, paired_sections
from linebook.read.fields import first_line
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import Span

_Brace: TypeAlias = tuple[str, str]
_Signature: TypeAlias = tuple[object, ...]

_CALLED = {Form.STEP: "step", Form.POINT: "point", Form.PARAGRAPH: "paragraph"}


def method_faults(card: Component | Dish, translated: CardWords) -> Iterator[Fault]:
    """Yield the faults of one translated method; one for each slip."""
    own, other = card.body, translated.body
    if not other.sections:
        return
    signatures = _Signatures()
    unpaired = _sections_fault(own, other, signatures)
    if unpaired is not None:
        yield unpaired
        return
    listed = _listed(card)
    for section, said in paired_sections(own, other):
        yield from _steps_faults(section, said, listed, signatures)


def _sections_fault(own: Body, other: Body, signatures: _Signatures) -> Fault | None:
    """Return the fault of a translation whose sections cannot be told to be those of the card."""
    places = {section.key: at for at, section in enumerate(own.sections)}
    if all(section.key in places for section in other.sections):
        return None
    if len(other.sections) < len(own.sections):
        return _missing_section(own, other, signatures)
    if len(other.sections) > len(own.sections):
        return _extra_section(own, other, signatures)
    for at, section in enumerate(other.sections):
        if places.get(section.key, at) != at:
            return _out_of_order(own.sections[at], section, own.sections[places[section.key]])
    mine, theirs = signatures.of(own), signatures.of(other)
    moved = [at for at, (one, two) in enumerate(zip(mine, theirs, strict=True)) if one != two]
    if len(moved) > 1 and all(theirs[at] in [mine[place] for place in moved] for at in moved):
        at = moved[0]
        meant_one = next(own.sections[place] for place in moved if mine[place] == theirs[at])
        return _out_of_order(own.sections[at], other.sections[at], meant_one)
    return None


def _missing_section(own: Body, other: Body, signatures: _Signatures) -> Fault:
    kept = _aligned(signatures.of(own), signatures.of(other))
    left = [section for at, section in enumerate(own.sections) if at not in kept]
    after = [place for place, at in enumerate(kept) if own.sections[at].span.start > left[0].span.start]
    span = other.sections[after[0] if after else -1].span
    where = "above this heading" if after else "after this section"
    titles = listing(f"## {section.title}" for section in left)
    return fault(
        "LB509",
        f"this method leaves out {titles}, which the card has",
        span,
        hints=(f"put {'it' if len(left) == 1 else 'them'} {where}, or give every heading as the card has it",),
        related=[Related(span=section.span, label="not translated") for section in left[:4]],
    )


def _extra_section(own: Body, other: Body, signatures: _Signatures) -> Fault:
    kept = _aligned(signatures.of(other), signatures.of(own))
    section = next(one for at, one in enumerate(other.sections) if at not in kept)
    message = f"`## {section.title}` translates no section of the card"
    return fault("LB509", message, section.span, hints=("take it out, or add it to the card too",))


def _out_of_order(here: Section, section: Section, meant_one: Section) -> Fault:
    return fault(
        "LB509",
        f"`## {section.title}` stands where the card has `## {here.title}`, and reads like `## {meant_one.title}`",
        section.span,
        hints=("put the sections in the order of the card",),
        related=(Related(span=here.span, label="the card has this here"),),
    )


def _steps_faults(own: Section, other: Section, listed: Sequence[str], signatures: _Signatures) -> Iterator[Fault]:
    if [block.form for block in own.blocks] != [block.form for block in other.blocks]:
        yield _steps_differ(own, other)
        return
    mine, theirs = signatures.of_section(own), signatures.of_section(other)
    if mine == theirs:
        return
    moved = [at for at, (one, two) in enumerate(zip(mine, theirs, strict=True)) if one != two]
    if len(moved) > 1 and Counter(mine[at] for at in moved) == Counter(theirs[at] for at in moved):
        at = moved[0]
        what = _CALLED[other.blocks[at].form]
        message = f"the {what}s of `## {other.title}` are not in the order of the card, from {what} {at + 1} on"
        related = (Related(span=_line(own.blocks[at]), label="the card has this here"),)
        yield fault("LB510", message, _line(other.blocks[at]), hints=("put them in its order",), related=related)
        return
    for at in moved:
        said = other.blocks[at]
        yield from _block_faults(f"{_CALLED[said.form]} {at + 1} of `## {other.title}`", own.blocks[at], said, listed)


def _steps_differ(own: Section, other: Section) -> Fault:
    forms = [(len([b for b in one.blocks if b.form is form])) for form in Form for one in (own, other)]
    for form, (mine, theirs) in zip(Form, zip(forms[::2], forms[1::2], strict=True), strict=True):
        if mine != theirs:
            name = _CALLED[form]
            message = f"`## {other.title}` has {_counted(theirs, name)}, and the card has {_counted(mine, name)} there"
            break
    else:
        message = f"the steps and points of `## {other.title}` are not in the order of the card"
    return fault(
        "LB510",
        message,
        other.span,
        hints=("translate each step as one step, in the same order",),
        related=(Related(span=own.span, label="what it translates"),),
    )


def _block_faults(what: str, own: Block, other: Block, listed: Sequence[str]) -> Iterator[Fault]:
    unknown = [piece for piece in other.pieces if isinstance(piece, AmountOf) and piece.item not in listed]
    mine, theirs = _braces(own), _braces(other)
    for piece in unknown:
        near = [name for name, _ in mine] or listed
        message = f"`{piece.span.text}` names nothing on the card that this translates"
        yield fault("LB214", message, piece.span, hints=(meant(piece.item, near, "take the braces out"),))
    if not unknown and Counter(mine) != Counter(theirs):
        yield _braces_differ(what, own, other)
        return
    found = figures_fault(what, _figures(own), _figures(other), _line(other))
    if found is not None:
        yield found


def _braces_differ(what: str, own: Block, other: Block) -> Fault:
    mine, theirs = Counter(_braces(own)), Counter(_braces(other))
    missing = [_typed_brace(*brace) for brace in (mine - theirs).elements()]
    extra = list((theirs - mine).elements())
    pieces = [piece for piece in other.pieces if isinstance(piece, AmountOf) and _brace(piece) in extra]
    span = pieces[-1].span if pieces else _line(other)
    related = (Related(span=_line(own), label="what it translates"),)
    if missing and extra:
        message = f"{what} has `{pieces[-1].span.text}`, and what it translates has `{missing[0]}`"
        return fault("LB320", message, span, hints=(f"write `{missing[0]}`",), related=related)
    if missing:
        message = f"{what} leaves out `{missing[0]}`, so the amount would not be printed"
        return fault("LB320", message, span, hints=(f"write `{missing[0]}` where the amount belongs",), related=related)
    message = f"{what} has `{pieces[-1].span.text}`, which does not stand in what it translates"
    return fault("LB320", message, span, hints=("take the braces out, or mend the card",), related=related)


def _aligned(longer: Sequence[_Signature], shorter: Sequence[_Signature]) -> list[int]:
    """Return for each of the shorter which of the longer it answers, in order, so that the most of them are alike."""
    best: list[tuple[int, list[int]]] = [(0, [])] * (len(longer) + 1)
    for at, one in enumerate(shorter):
        row: list[tuple[int, list[int]]] = [(-1, [])] * (len(longer) + 1)
        for place in range(at, len(longer)):
            score, path = best[place]
            taken = (score + _likeness(longer[place], one), [*path, place]) if len(path) == at else (-1, [])
            row[place + 1] = max(row[place], taken, key=lambda found: found[0])
        best = row
    return best[len(longer)][1]


def _likeness(one: _Signature, other: _Signature) -> int:
    return 3 if one == other else 1 if len(one) == len(other) else 0


class _Signatures:
    """What is compared of the sections of two methods, worked out once: their order is looked at, then their steps."""

    __slots__ = ("_known",)

    def __init__(self) -> None:
        self._known: dict[int, _Signature] = {}

    def of_section(self, section: Section) -> _Signature:
        """Return what is compared of a section, which lives as long as this."""
        known = self._known.get(id(section))
        if known is None:
            known = self._known[id(section)] = tuple(map(_block_signature, section.blocks))
        return known

    def of(self, body: Body) -> list[_Signature]:
        """Return what is compared of each section of a method."""
        return [self.of_section(section) for section in body.sections]


def _block_signature(block: Block) -> _Signature:
    """Return what is compared of a block, without places: its form, its figures and its braces."""
    figures: list[tuple[str, str]] = []
    for piece in block.pieces:
        if isinstance(piece, Fixed):
            figures += (figure.value for figure in figures_in(piece.text))
    for run in runs(block):
        figures += (figure.value for figure in figures_in(run.text))
    return block.form, tuple(sorted(figures)), tuple(sorted(_braces(block)))


def _figures(block: Block) -> tuple[Typed, ...]:
    found: list[Typed] = []
    for run in runs(block):
        found += typed_figures(run.text, run.span)
    for piece in block.pieces:
        if isinstance(piece, Fixed):
            found += figures_at(piece.text, piece.span)
    return tuple(found)


def _braces(block: Block) -> tuple[_Brace, ...]:
    return tuple(_brace(piece) for piece in block.pieces if isinstance(piece, AmountOf))


def _brace(piece: AmountOf) -> _Brace:
    return piece.item, "" if piece.part == 1 else write_number(piece.part, fractions=True)


def _typed_brace(item: str, part: str) -> str:
    return f"{{{part} of {item}}}" if part else f"{{{item}}}"


def _listed(card: Component | Dish) -> list[str]:
    if isinstance(card, Dish):
        return [element.item for element in card.ever_served]
    return [line.item for line in card.ingredients] + [made.item for made in card.also_makes]


def _counted(number: int, name: str) -> str:
    return f"{number or 'no'} {name}{'' if number == 1 else 's'}"


def _line(block: Block) -> Span:
    return first_line(block.span)
