"""Allergens against an oracle of another kind: a graph in which a substance flows, searched for paths.

An edge is *sure* where one thing is put into another and *maybe* where they share a medium. What a bought item
contains is in a dish if a way of sure edges leads there, and may be in it if any way does. Fixed seeds, plain
networkx searches; nothing of linebook's roll-up is used.
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from itertools import combinations
from random import Random

import networkx as nx
from kitchen_factory import bought, by_product, component, dish, element, house, line, listed, medium, menu, stage

from linebook.compute.allergens import compute_allergens
from linebook.compute.results import Answer

HOUSES = 1200
SUBSTANCES = (
    "almond",
    "tree-nut",
    "pine-nut",
    "wheat",
    "spelt",
    "gluten",
    "cows-milk",
    "crab",
    "shellfish",
    "squid",
    "soy",
    "honey",
)


def _some(random: Random, things, most: int) -> tuple[str, ...]:
    return tuple(random.sample(things, min(len(things), random.randint(0, most))))


def _random_house(random: Random):
    pantry = [
        bought(
            f"p{at}",
            None if random.random() < 0.05 else _some(random, SUBSTANCES, 2),
            _some(random, SUBSTANCES, 1) if random.random() < 0.3 else (),
        )
        for at in range(random.randint(2, 8))
    ]
    names = [item.id for item in pantry]
    media = [
        medium(f"m{at}", *_some(random, names, 1), changed=random.random() < 0.2) for at in range(random.randint(0, 3))
    ]
    through = [entry.id for entry in media]
    items, components = list(names), []
    for at in range(random.randint(0, 6)):
        stages = tuple(stage(f"s{n}", *_some(random, through, 2)) for n in range(random.randint(0, 3)))
        words = [entry.name for entry in stages]
        lines = [
            line(random.choice(items), "1 kg", stage=random.choice([None, *words]), medium=random.random() < 0.2)
            for _ in range(random.randint(1, 4))
        ]
        made = []
        if random.random() < 0.5:
            source = random.choice([None, random.choice(lines).item])
            item = random.choice([f"b{at}", "b0", *names[:1]])
            made.append(by_product(item, source, random.choice([None, *words])))
        components.append(
            component(
                f"c{at}",
                ingredients=lines,
                stages=stages,
                adjust_with=_some(random, items, 1),
                also_touches=_some(random, items, 1) if random.random() < 0.3 else (),
                also_makes=tuple(made),
            )
        )
        items += [f"c{at}", *(entry.item for entry in made)]
    dishes = [
        dish(
            f"d{at}",
            [
                element(random.choice(items), "10 g", *_some(random, through, 1), leave_off=random.random() < 0.5)
                for _ in range(random.randint(1, 4))
            ],
            _some(random, items, 1) if random.random() < 0.3 else (),
        )
        for at in range(random.randint(2, 6))
    ]
    plates = [plate.id for plate in dishes]
    menus = [
        menu(
            f"menu{at}",
            [listed(id_) for id_ in random.sample(plates, random.randint(1, 2))],
            date(2027, 1 + at, 1),
            oil_changed=random.random() < 0.25,
        )
        for at in range(random.randint(1, 4))
    ]
    lists = random.choice([("uk",), ("us",), ("us", "eu"), ("ca", "anz")])
    return house(pantry, components, dishes, menus, media, lists=lists, avoid={"honey": "honey"})


def _flows(kitchen, at: int, dishes, everything: bool) -> nx.DiGraph:
    """The graph of one menu; nodes carry ``at`` so that menus do not mix."""
    graph = nx.DiGraph()
    media = {entry.id: entry for entry in kitchen.file.media}
    waiting = [kitchen.dishes[id_] for id_ in dishes] + (list(kitchen.components.values()) if everything else [])
    seen = set()

    def sure(one, other):
        graph.add_edge(one, other, sure=True)

    def put(item, into):
        node = (at, "item", item)
        sure(node, into)
        if item in kitchen.pantry:
            sure(("bought", item), node)
        makers = [maker for maker, _ in kitchen.by_products.get(item, ())]
        for part in [*([kitchen.components[item]] if item in kitchen.components else []), *makers]:
            if part.id not in seen:
                waiting.append(part)
        if item in kitchen.components:
            sure((at, "stage", item, len(kitchen.components[item].stages)), node)
        for maker, entry in kitchen.by_products.get(item, ()):
            words = [step.name for step in maker.stages]
            if entry.source is not None and entry.after in words:
                sure((at, "stage", maker.id, words.index(entry.after) + 1), node)
                put_once(entry.source, node)
            else:
                sure((at, "stage", maker.id, len(words)), node)

    done = set()

    def put_once(item, into):
        if (item, into) not in done:
            done.add((item, into))
            put(item, into)

    def passes(node, through):
        for id_ in through:
            pool = (at, "pool", id_)
            sure(node, pool)
            for item in media[id_].carries:
                put_once(item, node)
            if not media[id_].changed_between and not graph.has_edge(pool, node):
                graph.add_edge(pool, node, sure=False)

    while waiting:
        thing = waiting.pop()
        if thing.id in seen:
            continue
        seen.add(thing.id)
        if hasattr(thing, "elements"):
            for index, part in enumerate(thing.elements):
                node = (at, "element", thing.id, index)
                put_once(part.item, node)
                sure(node, (at, "dish", thing.id))
                passes(node, part.through)
                for item in thing.also_touches:
                    for id_ in part.through:
                        put_once(item, (at, "pool", id_))
            for item in thing.also_touches:
                put_once(item, (at, "dish", thing.id))
            continue
        words = [step.name for step in thing.stages]
        graph.add_node((at, "stage", thing.id, len(words)))
        for entry in thing.ingredients:
            put_once(entry.item, (at, "stage", thing.id, words.index(entry.stage) + 1 if entry.stage else 0))
        for item in (*thing.adjust_with, *thing.also_touches):
            put_once(item, (at, "stage", thing.id, 0))
        for index, step in enumerate(thing.stages):
            node = (at, "stage", thing.id, index + 1)
            sure((at, "stage", thing.id, index), node)
            passes(node, step.through)
    return graph


def _whole_graph(kitchen, upto) -> tuple[nx.DiGraph, int]:
    menus = sorted(kitchen.menus.values(), key=lambda served: served.first)
    menus = menus[: menus.index(upto) + 1]
    graph = nx.DiGraph()
    for at, served in enumerate(menus):
        graph.update(_flows(kitchen, at, [entry.dish for entry in served.dishes], everything=False))
    last = len(menus) - 1
    graph.update(_flows(kitchen, last + 1, [], everything=True))
    for at, served in [*enumerate(menus[1:], start=1), (last + 1, None)]:
        if served is None or not served.oil_changed:
            for entry in kitchen.file.media:
                graph.add_edge((at - 1, "pool", entry.id), (at, "pool", entry.id), sure=True)
    return graph, last


class Oracle:
    def __init__(self, kitchen, served):
        self.kitchen = kitchen
        self.graph, self.last = _whole_graph(kitchen, served)
        self.sure = nx.subgraph_view(self.graph, filter_edge=lambda one, other: self.graph[one][other]["sure"])

    def known(self, node, graph=None):
        """Substances in it, substances perhaps in it, and undeclared items."""
        contains, may, undeclared = set(), set(), set()
        graph = self.graph if graph is None else graph
        sure = nx.subgraph_view(graph, filter_edge=lambda one, other: graph[one][other]["sure"])
        certain = nx.ancestors(sure, node)
        for source in nx.ancestors(graph, node):
            if source[0] != "bought":
                continue
            declared = self.kitchen.pantry[source[1]].allergens
            if declared is None:
                undeclared.add(source[1])
            else:
                (contains if source in certain else may).update(declared.contains)
                may.update(declared.may_contain)
        return contains, may, undeclared

    def without(self, plate, column):
        """The smallest set of items to leave off, by trying all."""
        node = (self.last, "dish", plate.id)
        items = list(dict.fromkeys(part.item for part in plate.elements))
        fixed = {part.item for part in plate.elements if not part.leave_off}
        free_to_go = [item for item in items if item not in fixed]
        for count in range(1, len(free_to_go) + 1):
            for chosen in combinations(free_to_go, count):
                if len(chosen) == len(items):
                    return ()  # a plate with nothing on it is not served
                graph = self.graph.copy()
                for index, part in enumerate(plate.elements):
                    if part.item in chosen:
                        graph.remove_edge((self.last, "element", plate.id, index), node)
                if _answer(column, *self.known(node, graph)) is Answer.FREE:
                    return chosen
        return ()


def _answer(column, contains, may, undeclared) -> Answer:
    wanted = set(column.substances)
    if wanted & contains:
        return Answer.CONTAINS
    if undeclared:
        return Answer.UNDECLARED
    return Answer.MAY if wanted & may else Answer.FREE


def test_every_cell_of_random_houses_agrees_with_the_paths():
    told: Counter = Counter()
    for seed in range(HOUSES):
        random = Random(seed)
        kitchen = _random_house(random)
        served = random.choice([*kitchen.menus.values(), list(kitchen.menus.values())[-1]])
        found = compute_allergens(kitchen, served.id)
        oracle = Oracle(kitchen, served)
        for id_, cells in found.dishes.items():
            known = oracle.known((oracle.last, "dish", id_))
            assert found.undeclared[id_] == tuple(sorted(known[2])), seed
            for column in found.columns:
                cell = cells[column.id]
                assert cell.answer is _answer(column, *known), (seed, id_, column.id)
                told[cell.answer] += 1
                if cell.answer is not Answer.FREE and seed % 8 == 0:
                    assert cell.without == oracle.without(kitchen.dishes[id_], column), (seed, id_, column.id)
                    told["left off"] += bool(cell.without)
        for id_, cells in found.components.items():
            node = (oracle.last, "stage", id_, len(kitchen.components[id_].stages))
            if node not in oracle.graph:
                node = (oracle.last + 1, *node[1:])
                told["off the menu"] += 1
            known = oracle.known(node)
            for column in found.columns:
                assert cells[column.id].answer is _answer(column, *known), (seed, id_, column.id)
    # The houses are not all alike: every answer, leave-offs and spare components do occur.
    assert set(Answer) <= set(told)
    assert min(told.values()) > 80, told


def test_one_component_alone_is_answered_as_among_all():
    spare = 0
    for seed in range(40):
        kitchen = _random_house(Random(seed))
        for menu_id in kitchen.menus:
            found = compute_allergens(kitchen, menu_id)
            for id_ in kitchen.components:
                alone = compute_allergens(kitchen, menu_id, only=id_)
                assert alone.components == {id_: found.components[id_]}
                assert alone.undeclared == {id_: found.undeclared[id_]}
                assert (alone.columns, alone.served, alone.dishes) == (found.columns, found.served, {})
                spare += id_ not in found.served
    assert spare > 20
