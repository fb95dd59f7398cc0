"""What is said of one dish to one guest: the action, and the fewest reasons that carry it.

Words computed verdicts for the sheet and for the terminal alike; judges nothing. A refusal gives what cannot be taken
away, a change what it takes away.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final, NamedTuple

from linebook.compute.avoidances import Avoidance
from linebook.compute.guest import Action, DishVerdict, Reason
from linebook.compute.results import Answer
from linebook.documents.guest_names import avoided_name, few, what_is_in_it, with_between
from linebook.documents.guest_request import GuestSeat
from linebook.documents.measures import Measures
from linebook.documents.naming import medium_name
from linebook.documents.second import item_name, size_name
from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.diets import DIETS, Asks
from linebook.model.dish import Dish, Element
from linebook.model.house import House
from linebook.model.units import times
from linebook.source.frozen import frozen

_ORDER: Final = (Answer.CONTAINS, Answer.MAY, Answer.UNDECLARED)

_NOT_KNOWN: Final = {
    "substances": "guest.undeclared",
    "origin": "guest.no-origin",
    "raw": "guest.not-said-raw",
    "item": "guest.hidden",
}


class _Claim(NamedTuple):
    """A sentence about a part of a dish, and its values but for what it is about."""

    key: str
    others: tuple[tuple[str, Text], ...] = ()


@frozen
class GuestWriter:
    """Words the verdicts of one seat."""

    house: House
    wording: Wording
    seat: GuestSeat

    def action(self, verdict: DishVerdict) -> Text:
        """Return what to do: *Serve*, *Serve without …*, *Serve with … instead of …*, *Do not serve*, *Cannot say*."""
        say = self.wording.say
        if verdict.action is Action.WITHOUT:
            return say("verdict.without", items=self._names(verdict.leave_off))
        if verdict.action is Action.WITH:
            pairs = self.wording.listed_with_and(self._exchange(verdict.dish, pair) for pair in verdict.exchange)
            if verdict.leave_off:
                return say("verdict.with-and-without", pairs=pairs, items=self._names(verdict.leave_off))
            return say("verdict.with", pairs=pairs)
        return say(
            {
                Action.SERVE: "verdict.serve",
                Action.REFUSE: "verdict.refuse",
                Action.CANNOT_SAY: "verdict.cannot-say-alone",
            }[verdict.action]
        )

    def reason(self, verdict: DishVerdict) -> Text:
        """Return why: which element holds what, which item is not declared, through which medium. Empty to serve."""
        if verdict.action is Action.SERVE:
            return EMPTY
        claims: dict[tuple[Text, ...], dict[_Claim, list[Text]]] = {}
        for group in _grouped(self._telling(verdict)):
            parts = tuple(dict.fromkeys(self._part(reason) for reason in group))
            claim, what = self._claim(group)
            claims.setdefault(parts, {}).setdefault(claim, []).append(what)
        said = [
            self.wording.say("guest.told", parts=few(self.wording, parts), claims=self._said(own))
            for parts, own in claims.items()
        ]
        if verdict.nothing_left:
            said.append(self.wording.say("guest.nothing-left"))
        return with_between(said, self.wording)

    def change(self, verdict: DishVerdict) -> Text:
        """Return what the pass changes, with amounts: what comes off, what comes instead. Empty where nothing is."""
        if verdict.action not in (Action.WITHOUT, Action.WITH):
            return EMPTY
        dish = self.house.dishes[verdict.dish]
        off = [
            self.wording.say("guest.off", item=item_name(self.house, item), amount=self._amounts(dish, item))
            for item in verdict.leave_off
        ]
        pairs = [self._exchange(verdict.dish, pair) for pair in verdict.exchange]
        said = [self.wording.say("guest.change.with", pairs=self.wording.listed_with_and(pairs))] if pairs else []
        said += [self.wording.say("guest.change.without", items=self.wording.listed_with_and(off))] if off else []
        return with_between(said, self.wording)

    def _telling(self, verdict: DishVerdict) -> Sequence[Reason]:
        """Return the reasons that carry a verdict: of a refusal, those of parts that can neither go nor be changed."""
        own = [reason for reason in verdict.reasons if reason.alternative is None]
        if verdict.action not in (Action.REFUSE, Action.CANNOT_SAY) or verdict.nothing_left:
            return own
        dish = self.house.dishes[verdict.dish]
        stuck = [reason for reason in own if not _can_change(dish, reason, verdict.reasons)] or own
        sure = [reason for reason in stuck if reason.answer is not Answer.UNDECLARED or reason.also_may]
        return _most_certain(sure or stuck)

    def _said(self, claims: Mapping[_Claim, Sequence[Text]]) -> Text:
        """Return what is so of a part of a dish; what is said alike of several things is said once."""
        return self.wording.named(
            self.wording.say(claim.key, what=self.wording.listed_with_and(what), **dict(claim.others))
            for claim, what in claims.items()
        )

    def _claim(self, reasons: Sequence[Reason]) -> tuple[_Claim, Text]:
        """Return what is so of parts of a dish, for reasons that differ in the part alone, and of what it is so."""
        first = reasons[0]
        items = tuple(dict.fromkeys(item for reason in reasons for item in reason.items))
        if first.answer is Answer.UNDECLARED:
            return self._not_known(reasons, items), self._word(first.avoidance)
        substances = sorted({one for reason in reasons for one in reason.substances})
        what = what_is_in_it(self.house, first.avoidance, substances, items, self.wording)
        key = "guest.contains" if first.answer is Answer.CONTAINS else "guest.may"
        if not first.media:
            return _Claim(key), what
        media = self.wording.listed_with_and(medium_name(self.house, id_, self.wording) for id_ in first.media)
        return _Claim(f"{key}-from", (("media", media),)), what

    def _not_known(self, reasons: Sequence[Reason], items: Sequence[str]) -> _Claim:
        key = _NOT_KNOWN[_question(reasons[0].avoidance)]
        if all(reason.items == (reason.element,) for reason in reasons):
            key = f"{key}.alone"
        if any(reason.also_may for reason in reasons):
            key = f"{key}.also-may"
        return _Claim(key, (("items", few(self.wording, [item_name(self.house, item) for item in items])),))

    def _word(self, avoidance: Avoidance) -> Text:
        """Return what an avoidance is called; foods that no law names go by the guest's own word."""
        if avoidance.kind == "item":
            return words(next(asked.word for asked in self.seat.asked if avoidance in asked.avoidances))
        return avoided_name(self.house, avoidance, self.wording)

    def _part(self, reason: Reason) -> Text:
        if reason.element is not None:
            return item_name(self.house, reason.element)
        return self.wording.say("guest.also-used", items=few(self.wording, [*map(self._name, reason.items)]))

    def _name(self, item: str) -> Text:
        return item_name(self.house, item)

    def _names(self, items: Iterable[str]) -> Text:
        return self.wording.listed_with_and(self._name(item) for item in items)

    def _exchange(self, dish_id: str, pair: tuple[str, str]) -> Text:
        item, other = pair
        dish = self.house.dishes[dish_id]
        elements = [element for element in dish.elements if element.item == item]
        amounts = [one.amount for element in elements for one in element.alternatives if one.item == other]
        return self.wording.say(
            "guest.exchange", other=self._name(other), amount=self._sized(dish, amounts, other), item=self._name(item)
        )

    def _amounts(self, dish: Dish, item: str) -> Text:
        return self._sized(dish, [element.amount for element in dish.elements if element.item == item], item)

    def _sized(self, dish: Dish, amounts: Sequence[Amount], item: str) -> Text:
        """Return how much of a thing a portion carries, in each size of the dish."""
        measures = Measures(house=self.house.file, wording=self.wording)
        if len(dish.sizes) < 2:
            return self.wording.listed(measures.typed(amount) for amount in amounts)
        said = []
        for size in dish.sizes:
            own = [size.amounts[item]] if item in size.amounts else [times(amount, size.factor) for amount in amounts]
            carried = self.wording.listed(measures.short(amount) for amount in own)
            said.append(self.wording.say("portion.size", amount=carried, size=size_name(self.house, dish, size)))
        return self.wording.listed(said)


def _question(avoidance: Avoidance) -> str:
    """Return what is asked of a food: what it contains, where it comes from, whether it is raw, or what it holds."""
    if avoidance.kind != "diet":
        return "item" if avoidance.kind == "item" else "substances"
    return "origin" if DIETS[avoidance.id].asks is Asks.ORIGIN else "raw"


def _can_change(dish: Dish, reason: Reason, reasons: Sequence[Reason]) -> bool:
    """Return whether the part of the dish a reason is about may be left off, or exchanged for something free."""
    if reason.element is None:
        return False
    against = {one.alternative for one in reasons if one.element == reason.element and one.alternative}
    return all(
        element.leave_off or _has_free(element, against) for element in dish.elements if element.item == reason.element
    )


def _has_free(element: Element, against: set[str]) -> bool:
    return any(other.item not in against for other in element.alternatives)


def _most_certain(reasons: Sequence[Reason]) -> list[Reason]:
    """Return of each avoidance the most certain reasons alone: a dish that contains it is not refused for traces."""
    best: dict[Avoidance, int] = {}
    for reason in reasons:
        rank = _ORDER.index(reason.answer)
        best[reason.avoidance] = min(rank, best.get(reason.avoidance, rank))
    return [reason for reason in reasons if _ORDER.index(reason.answer) == best[reason.avoidance]]


def _grouped(reasons: Sequence[Reason]) -> Iterator[tuple[Reason, ...]]:
    """Yield the reasons that differ in the part of the dish alone, the most certain first."""
    groups: dict[tuple[Answer, Avoidance, tuple[str, ...]], list[Reason]] = {}
    for reason in reasons:
        groups.setdefault((reason.answer, reason.avoidance, reason.media), []).append(reason)
    for group in sorted(groups.values(), key=lambda group: _ORDER.index(group[0].answer)):
        yield tuple(group)


def by_course(house: House, menu: str, verdicts: Iterable[DishVerdict]) -> Mapping[str, tuple[DishVerdict, ...]]:
    """Return verdicts by the id of their dish's course, in serving order; a dish of no listed course comes last, ''."""
    given = tuple(verdicts)
    known = [course.id for course in house.menus[menu].courses]
    found = {course: tuple(one for one in given if house.dishes[one.dish].course == course) for course in known}
    found[""] = tuple(one for one in given if house.dishes[one.dish].course not in known)
    return {course: own for course, own in found.items() if own}
