"""What lies in the vessel at each stage of a card: which lines have gone in, and which by-products have come out.

Says only which; what they weigh is not its business. Lines and stages are meant by their places on the card.
"""

from __future__ import annotations

from linebook.model.component import ByProduct, Component, Ingredient, Stage
from linebook.source.frozen import frozen


@frozen
class Held:
    """What fills the vessel of one stage.

    The ``lines`` lie in it less the by-products that have ``left`` since. ``before`` are the lines that went in earlier
    elsewhere, ``left_before`` the by-products that have left those; how much of them is still there is only known from
    what comes of the card: ``later`` are the lines that go in from then on, ``leaves`` the by-products that leave.
    """

    lines: tuple[int, ...]
    left: tuple[ByProduct, ...] = ()
    before: tuple[int, ...] = ()
    left_before: tuple[ByProduct, ...] = ()
    later: tuple[int, ...] = ()
    leaves: tuple[ByProduct, ...] = ()


def stages_of(component: Component) -> tuple[int | None, ...]:
    """Return the stage at which each line goes in; None where it does not say and the card has not just one stage."""
    stages = {stage.name: at for at, stage in enumerate(component.stages)}
    unsaid = 0 if len(stages) == 1 else None
    named = [line.stage for line in component.ingredients]
    return tuple([unsaid if name is None else stages.get(name) for name in named])


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
    return _lying(component.ingredients, stages_of(component), stage)


def _lying(lines: tuple[Ingredient, ...], its_stages: tuple[int | None, ...], stage: int) -> tuple[int, ...]:
    return tuple(
        [
            at
            for at, its in enumerate(its_stages)
            if its == stage or (not lines[at].medium and (its is None or its < stage))
        ]
    )


def stays_in(component: Component, stage: int) -> Held:
    """Return what fills the vessel of a stage: all that went into it over the stages it has stood in that vessel.

    A stage that names no vessel between two in the same one moves nothing. Where more goes in, what was only worked on
    by hand just before (trimmed on the board, seared in a pan) lies in it as it went in; what stood or cooked by itself
    elsewhere lies in it too, but may be much less by then. Media count at their own stage alone; what cooks
    away in the vessel counts as it went in, since that is when it is fullest.
    """
    lines, its_stages = component.ingredients, stages_of(component)
    since = _in_same_vessel(component.stages, stage)
    if not any(its is not None and since <= its <= stage for its in its_stages):
        return Held(lines=())
    while since > 0 and component.stages[since - 1].unattended is None:
        since -= 1
    if since == 0:  # a line of no stage is there from the start
        return Held(lines=_lying(lines, its_stages, stage), left=out_before(component, stage))
    solid = [at for at, line in enumerate(lines) if not line.medium]
    lying = _lying(lines, its_stages, stage)
    gone, before = out_before(component, stage), out_before(component, since)
    return Held(
        lines=tuple(at for at in lying if _or_start(its_stages[at]) >= since),
        left=tuple(made for made in gone if made not in before),
        before=tuple(at for at in lying if _or_start(its_stages[at]) < since),
        left_before=before,
        later=tuple(at for at in solid if _or_start(its_stages[at]) >= since),
        leaves=tuple(made for made in component.also_makes if made.after is not None and made not in before),
    )


def _in_same_vessel(stages: tuple[Stage, ...], stage: int) -> int:
    """Return the stage since which it has stood in the vessel that a stage names."""
    since, vessel = stage, stages[stage].vessel
    for earlier in range(stage - 1, -1, -1):
        if stages[earlier].vessel == vessel:
            since = earlier
        elif stages[earlier].vessel is not None:
            break
    return since


def runs_in_a_vessel(component: Component) -> tuple[tuple[int, ...], ...]:
    """Return the stages over which it stands in one vessel, where those are several; what names none is among them."""
    runs, at, stages = [], 0, component.stages
    while at < len(stages):
        last = after = at
        while stages[at].vessel is not None and after + 1 < len(stages):
            after += 1
            if stages[after].vessel == stages[at].vessel:
                last = after
            elif stages[after].vessel is not None:
                break
        if last > at:
            runs.append(tuple(range(at, last + 1)))
        at = last + 1
    return tuple(runs)


def _or_start(stage: int | None) -> int:
    return -1 if stage is None else stage


def counted_in(component: Component, stage: int) -> tuple[int, ...]:
    """Return the lines that the most of a stage counts: those ``of`` which lie in it then, or all that do."""
    of = component.stages[stage].of
    lying = lies_in(component, stage)
    return tuple(at for at in lying if component.ingredients[at].item in of) if of else lying


def out_before(component: Component, stage: int) -> tuple[ByProduct, ...]:
    """Return the by-products that have left the vessel before a stage."""
    also_makes = component.also_makes
    if not also_makes:
        return ()
    names = {earlier.name for earlier in component.stages[:stage]}
    return tuple(made for made in also_makes if made.after in names)


def counts_pieces(component: Component, stage: int) -> bool:
    """Return whether the most of a stage counts the pieces that the card makes: a count, of nothing on the card."""
    most = component.stages[stage].at_most
    if most is None or component.stages[stage].of or most.unit.counts is None:
        return False
    counted = component.makes.unit.counts
    return most.unit.counts == counted or (most.unit.counts == "each" and bool(component.pieces))
