"""Stages and the headings of the method name each other, one to one (LB501, LB502, LB506, LB507, LB605)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TypeVar

from linebook.check.index import Index
from linebook.check.words import gathered, listing, meant
from linebook.model.body import Form, Section
from linebook.model.component import Component, Stage
from linebook.model.dish import Dish
from linebook.read.ids import kebab
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.nearest import nearest
from linebook.source.spans import Span

T = TypeVar("T")

COMPONENT_HEADINGS: Final = {
    "if-it-goes-wrong": "If it goes wrong",
    "taste-for": "Taste for",
    "notes": "Notes",
}
"""Headings of a component's method that are no stages, by key."""

PICK_UP: Final = "pick-up"
DISH_HEADINGS: Final = {
    PICK_UP: "Pick-up",
    "taste-for": "Taste for",
    "at-the-pass": "At the pass",
    "if-it-goes-wrong": "If it goes wrong",
}
"""All headings a dish may have, by key."""

_DISH_POINTS: Final = {key: title for key, title in DISH_HEADINGS.items() if key != PICK_UP}


def check_stages(index: Index) -> Iterator[Fault]:
    """Yield faults where stages and headings do not answer each other."""
    for component in index.components.values():
        if not index.is_incomplete(component.id):
            yield from stages_of(component)


def check_stage_names(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage an ingredient or by-product names that its card does not have."""
    for component in index.components.values():
        if index.is_incomplete(component.id):
            continue
        used: dict[str, list[Span]] = defaultdict(list)
        for line in component.ingredients:
            if line.stage is not None:
                used[line.stage].append(line.at("stage"))
        for by_product in component.also_makes:
            if by_product.after is not None:
                used[by_product.after].append(by_product.at("after"))
        names = [stage.name for stage in component.stages]
        headings = {section.key for section in component.body.sections}
        missing_rows = headings - {kebab(name) for name in names}
        for word, spans in used.items():
            if word not in names and kebab(word) not in missing_rows:
                message = f"{component.name} has no stage `{word}`"
                yield gathered("LB507", message, spans, hints=(meant(word, names, "add it to the stages"),))


def check_points(index: Index) -> Iterator[Fault]:
    """Yield a fault where points follow the steps of a stage or a pick-up: the heading above them is gone."""
    for card in index.cards:
        if index.is_incomplete(card.id):
            continue
        quiet = COMPONENT_HEADINGS if isinstance(card, Component) else _DISH_POINTS
        present = {section.key for section in card.body.sections}
        gone = [f"`## {title}`" for key, title in quiet.items() if key not in present]
        for section in card.body.sections:
            steps = [number for number, block in enumerate(section.blocks) if block.form is Form.STEP]
            if section.key in quiet or not steps or section.blocks[-1].form is not Form.POINT:
                continue
            point = next(block for block in section.blocks[steps[-1] :] if block.form is Form.POINT)
            yield fault(
                "LB605",
                f"points follow the steps of `## {section.title}`, and no heading says what they are",
                point.pieces[0].span,
                hints=(
                    f"put a heading above them, such as {' or '.join(gone or ['`## Notes`'])}",
                    "or number them as steps",
                ),
            )


def check_dish_headings(index: Index) -> Iterator[Fault]:
    """Yield faults for headings a dish cannot have, and for a dish without a pick-up."""
    for dish in index.dishes.values():
        if not index.is_incomplete(dish.id):
            yield from _headings_of(dish)


def stages_of(component: Component) -> Iterator[Fault]:
    """Yield the faults of one component's stages and headings."""
    twice = list(_stage_twice(component.stages))
    yield from twice
    keys = {kebab(stage.name): stage for stage in component.stages}
    titles = {section.key: section for section in component.body.sections}
    bare = [stage for key, stage in keys.items() if key not in titles]
    stray = [section for key, section in titles.items() if key not in keys and key not in COMPONENT_HEADINGS]
    for stage, section in _paired(bare, stray):
        bare.remove(stage)
        stray.remove(section)
        yield _mistyped(stage, section, component)
    doubled = len(component.body.sections) - len(titles)  # reading has told these: one may belong to a bare stage
    for stage in bare[doubled:]:
        yield fault(
            "LB501",
            f"the stage `{stage.name}` has no heading in the method",
            stage.at("stage"),
            hints=(f"add `## {stage.name.capitalize()}` with its steps below it, or take the stage away",),
        )
    for section in stray[len(twice) :]:
        yield _stray_heading(section, component)


def _mistyped(stage: Stage, section: Section, component: Component) -> Fault:
    mends = [f"write `stage: {section.title.lower()}`", f"write `## {stage.name.capitalize()}`"]
    named = {line.stage for line in component.ingredients} | {made.after for made in component.also_makes}
    if stage.name in named:  # then the heading is the one that is mistyped
        mends.reverse()
    return fault(
        "LB501",
        f"the stage `{stage.name}` has no heading of its name, and `## {section.title}` names no stage",
        stage.at("stage"),
        hints=(mends[0], f"or {mends[1]}"),
        related=(Related(span=section.span, label="this heading names no stage"),),
    )


def _stray_heading(section: Section, component: Component) -> Fault:
    close = nearest(section.title, COMPONENT_HEADINGS.values())
    uses = [line.at("stage") for line in component.ingredients if line.stage and kebab(line.stage) == section.key]
    uses += [made.at("after") for made in component.also_makes if made.after and kebab(made.after) == section.key]
    add = f"add `- {{stage: {section.title.lower()}}}` to the stages, or put the steps under the heading of their stage"
    return fault(
        "LB502",
        f"`## {section.title}` is not a stage of this card",
        section.span,
        hints=(f"did you mean `## {close}`?",) if close else (add,),
        related=[Related(span=span, label="names it as a stage") for span in uses[:4]],
    )


def _paired(bare: Iterable[Stage], stray: Iterable[Section]) -> list[tuple[Stage, Section]]:
    """Match each stage without a heading with the stray heading that is most likely the same word mistyped."""
    stages, sections = list(bare), list(stray)
    pairs: list[tuple[Stage, Section]] = []
    for stage in stages:
        close = nearest(kebab(stage.name), [section.key for section in sections])
        match = next((section for section in sections if section.key == close), None)
        if match is None and len(stages) == len(sections) == 1:
            match = None if nearest(sections[0].title, COMPONENT_HEADINGS.values()) else sections[0]
        if match is not None:
            pairs.append((stage, match))
            sections.remove(match)
    return pairs


def _stage_twice(stages: Sequence[Stage]) -> Iterator[Fault]:
    seen: dict[str, Stage] = {}
    for stage in stages:
        key = kebab(stage.name)
        if key in seen:
            yield fault(
                "LB506",
                f"two stages are called `{stage.name}`",
                stage.at("stage"),
                hints=("give the second a name of its own, in the stages and in the method",),
                related=(Related(span=seen[key].at("stage"), label="the first one"),),
            )
        seen.setdefault(key, stage)


def _headings_of(dish: Dish) -> Iterator[Fault]:
    sections = dish.body.sections
    stray = [section for section in sections if section.key not in DISH_HEADINGS]
    has_pick_up = any(section.key == PICK_UP and section.blocks for section in sections)
    misnamed = None
    if dish.body.find_section(PICK_UP) is None:
        close = nearest(PICK_UP, [section.key for section in stray])
        misnamed = next((section for section in stray if section.key == close), None)
        misnamed = misnamed or (stray[0] if len(stray) == 1 else None)
    for section in stray:
        near = "Pick-up" if section is misnamed else nearest(section.title, DISH_HEADINGS.values())
        known = listing([f"## {title}" for title in DISH_HEADINGS.values()])
        yield fault(
            "LB502",
            f"`## {section.title}` is not a heading that a dish has",
            section.span,
            hints=(f"did you mean `## {near}`?",) if near else (f"a dish has {known}",),
        )
    if not has_pick_up and misnamed is None:
        empty = dish.body.find_section(PICK_UP)
        yield fault(
            "LB605",
            f"{dish.name} has no step under `## Pick-up`" if empty else f"{dish.name} has no `## Pick-up`",
            empty.span if empty else dish.span,
            hints=("add the steps from call to pass under a heading `## Pick-up`",),
        )
