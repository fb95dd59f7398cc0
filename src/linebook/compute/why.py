"""The proof of an answer: every way from a dish to what a bought item declares, each step with its place in a file.

Owns how ways are followed and where each ends; the ways themselves are in ``flows``. It must give the answer that the
verdicts give: the most dangerous of its paths. Of what a shared medium brings, the shortest way to each thing is told.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Final, NamedTuple

from linebook.compute.ages import oldest
from linebook.compute.answers import WORST_FIRST, answer, relevant
from linebook.compute.avoidances import Avoidance, Examined, Part
from linebook.compute.flows import Edge, Flows, Node, Step
from linebook.compute.grounds import ground_of
from linebook.compute.inside import all_inside, carried, items_of_dish
from linebook.compute.kitchens import served_since_oil
from linebook.compute.makeup import NOTHING, Facts, Makeup
from linebook.compute.results import Answer
from linebook.model.dish import Dish, Element
from linebook.model.house import House
from linebook.source.frozen import frozen

MOST_PATHS: Final = 500
"""A proof longer than this is cut: nobody reads on."""

MOST_VISITS: Final = 5_000
"""Nor is every way followed through a card that is entered in thousands of ways."""


@frozen
class Path:
    """One way: from the dish's element to the item that brings it, or that nobody has declared.

    ``substances`` are the words it brings (substances, origins, foods); the last step is where a file says so.
    """

    answer: Answer
    steps: tuple[Step, ...]
    item: str
    substances: tuple[str, ...]


@frozen
class LookedAt:
    """What an answer was looked for in: ids of bought items, components and media of the dish.

    ``also_through`` are the components and dishes that go through the same media, on the menus since the oil was
    changed; ``oldest`` is the item with the oldest declaration and its date.
    """

    items: tuple[str, ...]
    components: tuple[str, ...]
    media: tuple[str, ...]
    also_through: tuple[str, ...]
    oldest: tuple[str, date] | None


@frozen
class Why:
    """An answer with its proof, most dangerous path first. ``cut`` is true where there are more than ``MOST_PATHS``."""

    answer: Answer
    paths: tuple[Path, ...]
    looked_at: LookedAt
    cut: bool = False


class _Fate(NamedTuple):
    """What becomes, on the plate, of what an item contains, may contain and does not say, further down a way.

    ``gone`` is the fate of what cooking takes away; ``as_raw`` that of what is not known and served raw, None where it
    is not served raw.
    """

    contains: Answer | None = Answer.CONTAINS
    gone: Answer | None = Answer.CONTAINS
    may: Answer | None = Answer.MAY
    undeclared: Answer | None = Answer.UNDECLARED
    as_raw: Answer | None = None

    def through_a_medium(self) -> _Fate:
        return _Fate(self.may, self.may, self.may, self.undeclared, self.as_raw)

    def cooked(self) -> _Fate:
        return _Fate(self.contains, None, None, None)


class _Way(NamedTuple):
    node: Node
    steps: tuple[Step, ...]
    fate: _Fate
    last: Node | None = None
    passed: tuple[Node, ...] = ()


def paths(house: House, menu: str, dish: str, avoidance: Avoidance) -> tuple[Path, ...]:
    """Return every way by which something avoided is in a dish of a menu, may be, or is not known not to be."""
    return why(house, menu, dish, avoidance).paths


def why(house: House, menu: str, dish: str, avoidance: Avoidance) -> Why:
    """Return the answer of a dish to one avoidance and all that speaks for it."""
    examined = Examined(house, menu, (avoidance,))
    plate = house.dishes[dish]
    flows = Flows(served_since_oil(house, house.menus[menu]))
    found: dict[Path, None] = {}
    cut = False
    for part in examined.parts(avoidance):
        walk = _Walk(flows, part)
        for path in walk.paths(plate):
            if len(found) == MOST_PATHS:
                cut = True
                break
            found.setdefault(path)
        cut = cut or walk.visited > MOST_VISITS
    return Why(
        answer=answer(examined.of_dish(avoidance, plate)),
        paths=_without_echoes(found),
        looked_at=looked_at(flows, plate),
        cut=cut,
    )


def looked_at(flows: Flows, dish: Dish) -> LookedAt:
    """Return what a dish is made of and what has met it, whatever the question."""
    house = flows.house
    items = items_of_dish(house, dish)
    inside = all_inside(house, {*(element.item for element in dish.elements), *dish.also_touches})
    components = [id_ for id_ in house.components if id_ in inside]
    through = {medium for element in dish.elements for medium in element.through}
    through |= {medium for id_ in components for stage in house.components[id_].stages for medium in stage.through}
    media = [medium for medium in house.file.media if medium.id in through]
    met: dict[str, None] = {}
    for medium in media:
        if not medium.changed_between:
            met |= dict.fromkeys(edge.to.id for edge in flows.met(Node("pool", flows.last, medium.id)))
    also = tuple(id_ for id_ in met if id_ not in inside and id_ != dish.id)
    beside = {item for id_ in also if id_ in house.dishes for item in items_of_dish(house, house.dishes[id_])}
    beside |= all_inside(house, (id_ for id_ in also if id_ in house.components)) | carried(house, through)
    return LookedAt(
        items=tuple(sorted(items)),
        components=tuple(components),
        media=tuple(medium.id for medium in media),
        also_through=also,
        oldest=oldest(house, items | beside),
    )


class _Walk:
    """All ways of one question. Up to the first medium every way is followed, beyond it the shortest to each end."""

    def __init__(self, flows: Flows, part: Part) -> None:
        self._flows = flows
        self._part = part
        self._facts: Facts = part.kitchen.facts
        self._beyond: dict[tuple[Node, _Fate], tuple[tuple[Node, Path], ...]] = {}
        self.visited = 0

    def paths(self, dish: Dish) -> Iterator[Path]:
        """Yield every way. The shortest to each end comes first, so that a proof that is cut leaves out no item."""
        starts = [_Way(edge.to, edge.steps, _Fate()) for edge in self._flows.of_dish(dish)]
        yield from self._shortest(starts)
        waiting, useful = starts[::-1], self._useful(starts)
        while waiting:
            way = waiting.pop()
            self.visited += 1
            if self.visited > MOST_VISITS:
                return
            if way.node.sort in ("bought", "made"):
                yield from self._ends(way)
            elif way.node.sort == "pool":
                yield from self._through_pool(way)
            else:
                onward = [one for one in self._onward(way) if one.node in useful and one.node not in way.passed]
                waiting.extend(reversed(onward))

    def _onward(self, way: _Way) -> Iterator[_Way]:
        for edge in self._flows.ways(way.node):
            fate = self._fate(way.node, edge, way.fate)
            if any(fate):
                yield _Way(edge.to, way.steps + edge.steps, fate, way.node, (*way.passed, way.node))

    def _fate(self, node: Node, edge: Edge, fate: _Fate) -> _Fate:
        if node.sort == "content" and (node.id, node.number - 1) in self._facts.cooked:
            fate = fate.cooked()
        if edge.to.sort == "pool":
            return fate.through_a_medium()
        if node.sort == "served" and self._facts.served_raw and edge.steps[0].kind == "element":
            element = self._flows.houses[node.at].dishes[node.id].elements[node.number]
            if isinstance(element, Element) and element.raw:
                return fate._replace(as_raw=fate.contains)
        return fate

    def _through_pool(self, way: _Way) -> Iterator[Path]:
        """Yield the ways through a medium to all that it has met, but for what this way has come from itself."""
        key = (way.node, way.fate)
        if key not in self._beyond:
            self._beyond[key] = tuple(self._beyond_pool(way.node, way.fate))
        for met, path in self._beyond[key]:
            if not _is_itself(way, met):
                yield replace(path, steps=way.steps + path.steps)

    def _beyond_pool(self, pool: Node, fate: _Fate) -> Iterator[tuple[Node, Path]]:
        """Yield, for each thing that a medium has met, the shortest way from it to each end."""
        for edge in self._flows.met(pool):
            # All that this medium has met is tried by itself: no way leads through it twice.
            for path in self._shortest([_Way(edge.to, edge.steps, fate)], pool.id):
                yield edge.to, path

    def _shortest(self, starts: Iterable[_Way], medium: str = "") -> Iterator[Path]:
        """Yield the shortest way to each item and answer, without passing a medium."""
        waiting = deque(starts)
        seen = {(way.node, way.fate) for way in waiting}
        ended: set[tuple[str, Answer]] = set()
        while waiting:
            way = waiting.popleft()
            for path in self._ends(way):
                if (path.item, path.answer) not in ended:
                    ended.add((path.item, path.answer))
                    yield path
            for onward in self._beyond_node(way):
                again = onward.node.sort == "pool" and onward.node.id == medium
                if (onward.node, onward.fate) not in seen and not again:
                    seen.add((onward.node, onward.fate))
                    waiting.append(onward)

    def _beyond_node(self, way: _Way) -> Iterator[_Way]:
        if way.node.sort == "pool":
            for edge in self._flows.met(way.node):
                if not _is_itself(way, edge.to):
                    yield _Way(edge.to, way.steps + edge.steps, way.fate)
        else:
            yield from self._onward(way)

    def _useful(self, starts: Iterable[_Way]) -> frozenset[Node]:
        """Return the parts from which some end of this question lies on, media being ends where they bring anything."""
        waiting = [way.node for way in starts]
        before: dict[Node, list[Node]] = {node: [] for node in waiting}
        ends: list[Node] = []
        while waiting:
            node = waiting.pop()
            if node.sort == "pool":
                ends += [node] if any(True for _ in self._beyond_pool(node, _Fate())) else []
                continue
            ends += [node] if self._known(node) != NOTHING else []
            for edge in self._flows.ways(node):
                if edge.to not in before:
                    waiting.append(edge.to)
                before.setdefault(edge.to, []).append(node)
        found: set[Node] = set()
        while ends:
            node = ends.pop()
            if node not in found:
                found.add(node)
                ends += before[node]
        return frozenset(found)

    def _known(self, node: Node) -> Makeup:
        if node.sort == "bought":
            return relevant(self._facts.bought[node.id], self._part.wanted)
        if node.sort == "made":
            return relevant(self._facts.made.get(node.id, NOTHING), self._part.wanted)
        return NOTHING

    def _ends(self, way: _Way) -> Iterator[Path]:
        """Yield a path for each answer of the item at the end of a way."""
        known, fate = self._known(way.node), way.fate
        ends: dict[tuple[Answer, str], set[str]] = {}
        for trace in known.contains:
            given = fate.gone if trace.substance in self._facts.cooked_away else fate.contains
            if given:
                ends.setdefault((given, trace.item), set()).add(trace.substance)
        for trace in known.may:
            if fate.may:
                ends.setdefault((fate.may, trace.item), set()).add(trace.substance)
        for trace in known.undeclared:
            if fate.undeclared:
                raw = fate.as_raw if trace.substance in self._facts.served_raw else None
                given = raw or fate.undeclared
                ends.setdefault((given, trace.item), set()).add(trace.substance)
        for (given, item), words in ends.items():
            end = ground_of(self._flows.house, self._part.kind, item, words, way.node.id)
            named = tuple(sorted(word for word in words if word))
            yield Path(answer=given, steps=(*way.steps, end), item=item, substances=named)


def _is_itself(way: _Way, met: Node) -> bool:
    """Return whether what a medium has met is what has just gone through it."""
    return way.last is not None and met in (way.last, way.last._replace(sort="before"))


def _without_echoes(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Leave out what a medium may bring and the dish has by itself; the most dangerous come first."""
    every = sorted(paths, key=lambda path: WORST_FIRST.index(path.answer))
    own = {
        (path.answer, path.item, word)
        for path in every
        if path.answer is Answer.CONTAINS or not _is_met(path)
        for word in path.substances or ("",)
    }
    return tuple(
        path
        for path in every
        if path.answer is Answer.CONTAINS or not _is_met(path) or not all(key in own for key in _keys(path))
    )


def _keys(path: Path) -> Iterator[tuple[Answer, str, str]]:
    """Yield what the dish would have to have by itself for this way through a medium to tell nothing new."""
    answer = Answer.CONTAINS if path.answer is Answer.MAY else path.answer
    yield from ((answer, path.item, word) for word in path.substances or ("",))


def _is_met(path: Path) -> bool:
    """Return whether a way leads to other food that has gone through the same medium."""
    return any(
        step.kind == "medium" and onward.kind in ("menu", "component", "dish") for step, onward in pairwise(path.steps)
    )
