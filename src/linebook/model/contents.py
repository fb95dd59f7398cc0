"""What lies in the vessel at each stage of a card: which lines have gone in, and which by-products have come out.

Says only which; what they weigh is not its business. Lines and stages are meant by their places on the card.
"""

from __future__ import annotations

from linebook.model.component import ByProduct, Component


def stages_of(component: Component) -> tuple[int | None, ...]:
    """Return the stage at which each line goes in; None where it does not say and the card has not just one stage."""
    stages = {stage.name: at for at, stage in enumerate(component.stages)}
    unsaid = 0 if len(stages) == 1 else None
    return tuple(unsaid if line.stage is None else stages.get(line.stage) for line in component.ingredients)


def stage_of(component: Component, line: int) -> int | None:
    """Return the stage at which one line goes in."""
    return stages_of(component)[line]


def goes_in(component: Component, stage: int) -> tuple[int, ...]:
    """Return the lines that go in at a stage."""
    return tuple(at for at, its in enumerate(stages_of(component)) if its == stage)


def lies_in(component: Component, stage: int) -> tuple[int, ...]:
    """Return the lines that lie in the vessel at a stage: all that went in by then, media at their own stage alone.

    A line of no stage is there from the start.
    """
    found = []
    for at, its in enumerate(stages_of(component)):
        line = component.ingredients[at]
        if its == stage or (not line.medium and (its is None or its < stage)):
            found.append(at)
    return tuple(found)


def counted_in(component: Component, stage: int) -> tuple[int, ...]:
    """Return the lines that the most of a stage counts: those ``of`` which lie in it then, or all that do."""
    of = component.stages[stage].of
    lying = lies_in(component, stage)
    return tuple(at for at in lying if component.ingredients[at].item in of) if of else lying


def out_before(component: Component, stage: int) -> tuple[ByProduct, ...]:
    """Return the by-products that have left the vessel before a stage."""
    names = {earlier.name for earlier in component.stages[:stage]}
    return tuple(made for made in component.also_makes if made.after in names)


def counts_pieces(component: Component, stage: int) -> bool:
    """Return whether the most of a stage counts the pieces that the card makes: a count, of nothing on the card."""
    most = component.stages[stage].at_most
    if most is None or component.stages[stage].of or most.unit.counts is None:
        return False
    counted = component.makes.unit.counts
    return most.unit.counts == counted or (most.unit.counts == "each" and bool(component.pieces))
