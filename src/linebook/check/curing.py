"""How much of an active substance (a curing salt's nitrite) goes into what it cures, in parts by weight. Exact.

Ingoing, as inspection counts it: the weight of the substance over the green weight it goes on, nothing taken off for
what is lost later (USDA FSIS, Processing Inspectors' Calculations Handbook, 1995, ch. 3). Where a card leaves room for
two readings the higher one is taken. Knows records and weights; makes no fault and knows no words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import Final, TypeAlias

from linebook.check.weights import base_lines
from linebook.model.amounts import Amount, Percent
from linebook.model.component import ByProduct, Component, Ingredient
from linebook.model.pantry import PantryItem
from linebook.source.exact import Fraction
from linebook.source.frozen import changing, frozen

Weights: TypeAlias = Sequence[Fraction | None]
"""The grams of each line of a card; None where they are not known, or to taste."""

_MIXED_FIRST: Final = Fraction(1, 5)
"""Where what is in so far is less than this of all that is cured, the cure is mixed before the food goes in."""

_MUCH: Final = Fraction(1, 2)
"""What is less than this of the rest of a card goes on it; what is more is itself the food."""

_MINERAL: Final = ("mineral",)


@frozen
class Ingoing:
    """One active substance in what a card cures. ``part`` is its weight over that of the items ``of``.

    ``part`` is None where no weight of these is known. ``line`` is the line that brings most of it. ``estimated`` is
    true where it comes from a brine: it is shared evenly between the brine and the food, as after a long time. A
    ``cure`` goes on something else, on whose card it counts; there ``part`` is what one gram of it holds. ``carried``
    is true where it only comes in cured foods, and nothing is cured here.
    """

    substance: str
    part: Fraction | None
    of: tuple[str, ...]
    line: int
    ceiling: Fraction | None = None
    estimated: bool = False
    cure: bool = False
    carried: bool = False
    unweighed: tuple[str, ...] = ()

    @property
    def is_over(self) -> bool:
        """Return whether it is over the ceiling the house names, or cannot be told to be under it."""
        if self.cure or self.ceiling is None:
            return False
        return self.part is None or self.part > self.ceiling


@frozen
class _Basis:
    """What one line cures: the grams and the items; ``brine`` where it is shared with a brine."""

    grams: Fraction
    items: tuple[str, ...]
    brine: bool = False
    unweighed: tuple[str, ...] = ()


@changing
class Curing:
    """The cures of one house. ``served`` are the items that come to a plate, by themselves or instead of another.

    ``weights`` gives the grams of every line of a component's own batch, ``made`` those of what it makes.
    """

    pantry: Mapping[str, PantryItem]
    components: Mapping[str, Component]
    by_products: Mapping[str, tuple[tuple[Component, ByProduct], ...]]
    served: frozenset[str]
    ceilings: Mapping[str, Fraction]
    weights: Callable[[Component], Weights]
    made: Callable[[Component], Fraction | None]
    _strengths: dict[str, Mapping[str, Fraction]] = field(default_factory=dict)
    _own: dict[str, Weights] = field(default_factory=dict)

    def ingoing(self, component: Component, weights: Weights | None = None) -> tuple[Ingoing, ...]:
        """Return every active substance of a card in the order it goes in; ``weights`` are those of a sized batch."""
        if not any(self.strength(line.item) for line in component.ingredients):
            return ()
        known = self._weights(component) if weights is None else weights
        substances = dict.fromkeys(
            substance for line in component.ingredients for substance in self.strength(line.item)
        )
        return tuple(self._ingoing(component, known, substance) for substance in substances)

    def strength(self, item: str) -> Mapping[str, Fraction]:
        """Return the part of each active substance in an item: what it says, or what went into it at any depth.

        Of a cured food it is what it was cured with, by its green weight; of a cure what one gram of it holds.
        """
        found = self._strengths.get(item)
        if found is None:
            self._strengths[item] = {}  # a card that is made from itself brings nothing twice
            found = self._strengths[item] = self._strength(item)
        return found

    def _strength(self, item: str) -> Mapping[str, Fraction]:
        if item in self.pantry:
            return self.pantry[item].strength
        if item in self.components:
            return {one.substance: one.part for one in self.ingoing(self.components[item]) if one.part is not None}
        strongest: dict[str, Fraction] = {}
        for parent, _ in self.by_products.get(item, ()):
            for substance, part in self.strength(parent.id).items():
                strongest[substance] = max(part, strongest.get(substance, Fraction(0)))
        return strongest

    def _ingoing(self, component: Component, weights: Weights, substance: str) -> Ingoing:
        lines = component.ingredients
        ceiling = self.ceilings.get(substance)
        bringing = [
            (at, self.strength(line.item)[substance] * (weights[at] or 0))
            for at, line in enumerate(lines)
            if substance in self.strength(line.item)
        ]
        total = sum((active for _, active in bringing), Fraction(0))
        bases = [(active, at, self._basis(component, weights, at, substance)) for at, active in bringing]
        cures = [at for at, _ in bringing if not self._is_food(lines[at], substance)]
        unknown = tuple(dict.fromkeys(lines[at].item for at in cures if weights[at] is None))
        part = None if unknown else _sum_of_parts([(active, basis.grams) for active, _, basis in bases])
        _, at, basis = max(bases, key=lambda one: (one[0], -one[1]))
        over = part is None or ceiling is None or part > ceiling
        held = None if unknown else self._held(component, weights, total)
        if over and held is not None and self._is_cure(component):
            return Ingoing(substance=substance, part=held, of=(), line=at, ceiling=ceiling, cure=True)
        return Ingoing(
            substance=substance,
            part=part,
            of=basis.items,
            line=at,
            ceiling=ceiling,
            estimated=any(one.brine for _, _, one in bases),
            carried=not cures,
            unweighed=unknown or basis.unweighed,
        )

    def _held(self, component: Component, weights: Weights, active: Fraction) -> Fraction | None:
        """Return the part of an active substance in a cure: of what goes in, or of what is left if that is less."""
        grams, own = (sum((known or 0 for known in one), Fraction(0)) for one in (weights, self._weights(component)))
        base = self.made(component)
        made = base * grams / own if base and own else None
        least = min(grams, made) if made and grams else grams or made
        return active / least if least else None

    def _is_cure(self, component: Component) -> bool:
        """Return whether a component only goes on other things: as a brine, by percentage, or as the lesser part."""
        if component.id in self.served:
            return False
        uses = [
            (user, at)
            for user in self.components.values()
            for at, line in enumerate(user.ingredients)
            if line.item == component.id and user is not component
        ]
        return bool(uses) and all(self._goes_on(user, at) for user, at in uses)

    def _goes_on(self, user: Component, at: int) -> bool:
        line = user.ingredients[at]
        if line.medium or isinstance(line.amount, Percent):
            return True
        weights = self._weights(user)
        rest = sum(
            (weights[other] or 0 for other, one in enumerate(user.ingredients) if other != at and not one.medium),
            Fraction(0),
        )
        return (weights[at] or 0) < rest * _MUCH

    def _weights(self, component: Component) -> Weights:
        if component.id not in self._own:
            self._own[component.id] = self.weights(component)
        return self._own[component.id]

    def _basis(self, component: Component, weights: Weights, at: int, substance: str) -> _Basis:
        lines = component.ingredients
        found = _percent_base(lines, at)
        if found and not all(lines[other].medium for other in found):
            return _basis(lines, weights, found)
        if found or lines[at].medium:
            return self._brine(component, weights, at)
        return self._beside(component, weights, at, substance)

    def _beside(self, component: Component, weights: Weights, at: int, substance: str) -> _Basis:
        """Return the food that a line with an amount of its own goes on: what is in by then and seasons nothing."""
        lines = component.ingredients
        itself = self._is_food(lines[at], substance)
        foods = [
            other
            for other, line in enumerate(lines)
            if (other != at or itself) and not line.medium and not _percent_base(lines, other) and self._is_cured(line)
        ]
        by_then = [other for other in foods if _is_in(component, other, lines[at].stage)]
        if _total(weights, by_then) < _total(weights, foods) * _MIXED_FIRST:
            heaviest = max(foods, key=lambda other: weights[other] or 0)
            by_then = [other for other in foods if _is_in(component, other, lines[heaviest].stage)]
        return _basis(lines, weights, by_then)

    def _brine(self, component: Component, weights: Weights, at: int) -> _Basis:
        """Return a brine with the food in it: the substance is taken to be spread evenly over both."""
        lines = component.ingredients
        stage = lines[at].stage
        brine = [other for other, line in enumerate(lines) if line.medium and line.stage == stage]
        brine = brine if at in brine else [*brine, at]
        foods = [other for other, line in enumerate(lines) if not line.medium and other != at]
        by_then = [other for other in foods if _is_in(component, other, stage)] or foods
        shared = _basis(lines, weights, [*brine, *by_then])
        cured = tuple(dict.fromkeys(lines[other].item for other in by_then if self._is_cured(lines[other])))
        return _Basis(grams=shared.grams, items=cured, brine=True, unweighed=shared.unweighed)

    def _is_cured(self, line: Ingredient) -> bool:
        """Return whether a line is what is cured, and no salt: neither mineral nor itself weighed exactly."""
        item = self.pantry.get(line.item)
        return item is None or not (item.weigh_exactly or item.strength or item.origin == _MINERAL)

    def _is_food(self, line: Ingredient, substance: str) -> bool:
        """Return whether a line that brings a substance is a cured food: made here, and within the ceiling."""
        ceiling = self.ceilings.get(substance)
        part = self.strength(line.item).get(substance, Fraction(0))
        return line.item not in self.pantry and ceiling is not None and part <= ceiling


def _sum_of_parts(parts: Sequence[tuple[Fraction, Fraction]]) -> Fraction | None:
    """Return the parts by weight added up, as if they all met in the same food; None where one has no known weight."""
    found = Fraction(0)
    for active, grams in parts:
        if active and not grams:
            return None
        found += active / grams if active else 0
    return found


def _percent_base(lines: Sequence[Ingredient], at: int, seen: frozenset[int] = frozenset()) -> tuple[int, ...]:
    """Return what a percentage is of; where that is all percentages (salt by the meat), what those are of."""
    found = base_lines(lines, at)
    if not found or at in seen or not all(isinstance(lines[other].amount, Percent) for other in found):
        return found
    deeper = [last for other in found for last in _percent_base(lines, other, seen | {at})]
    return tuple(dict.fromkeys(deeper)) or found


def _basis(lines: Sequence[Ingredient], weights: Weights, found: Sequence[int]) -> _Basis:
    return _Basis(
        grams=_total(weights, found),
        items=tuple(dict.fromkeys(lines[at].item for at in found)),
        unweighed=tuple(lines[at].item for at in found if weights[at] is None and isinstance(lines[at].amount, Amount)),
    )


def _total(weights: Weights, found: Sequence[int]) -> Fraction:
    return sum((weights[at] or Fraction(0) for at in found), Fraction(0))


def _is_in(component: Component, at: int, stage: str | None) -> bool:
    """Return whether a line has gone in by a stage; what names no stage is in from the start."""
    names = [one.name for one in component.stages]
    own = component.ingredients[at].stage
    if own is None or stage is None or own not in names or stage not in names:
        return True
    return names.index(own) <= names.index(stage)
