"""What can be done for a guest, worked out another way: tokens that flow through a graph, and every change tried.

A bought item sends out tokens for what it is known to bring: ``sure``, ``baked`` (sure until it is cooked), ``may``,
``open`` (not known of it, and certain where it is served raw) and ``none`` (not known at all). A token reaches a part of
a dish if networkx finds a way. Verdicts come from trying every set of changes. Nothing of linebook's computing is used.
"""

from __future__ import annotations

from itertools import product

import networkx as nx

SURE, BAKED, MAY, OPEN, NONE = "sure", "baked", "may", "open", "none"
TOKENS = (SURE, BAKED, MAY, OPEN, NONE)
MEDIUM = {SURE: MAY, BAKED: MAY, MAY: MAY, OPEN: OPEN, NONE: NONE}
RAW = {**{token: token for token in TOKENS}, OPEN: SURE}
COOKED = {SURE: SURE}
SAME = {token: token for token in TOKENS}


class Ways:
    """The graph of one menu and of those before it, with or without what cooking does."""

    def __init__(self, kitchen, served, heat: bool, figure):
        self.kitchen, self.heat, self.figure = kitchen, heat, figure
        self.graph = nx.DiGraph()
        self.media = {one.id: one for one in kitchen.file.media}
        menus = sorted(kitchen.menus.values(), key=lambda one: one.first)
        menus = menus[: menus.index(served) + 1]
        while any(one.oil_changed for one in menus[1:]):
            menus = menus[1:]
        self.last = len(menus) - 1
        for at, one in enumerate(menus):
            self._menu(at, one)
            for medium in self.media if at else ():
                self._edge((at - 1, "pool", medium), (at, "pool", medium), SAME)

    def _edge(self, one, other, change):
        for token, becomes in change.items():
            self.graph.add_edge((one, token), (other, becomes))

    def _menu(self, at, menu):
        needed, waiting = set(), []
        for entry in menu.dishes:
            plate = self.kitchen.dishes[entry.dish]
            self._item_users(at, plate.also_touches, (at, "touch", plate.id), waiting)
            for number, part in enumerate(plate.elements):
                self._part(at, plate, (at, "on", plate.id, number), part, waiting, raw=part.raw and self.heat)
                for order, other in enumerate(part.alternatives):
                    self._part(at, plate, (at, "instead", plate.id, number, order), other, waiting)
        while waiting:
            item = waiting.pop()
            if item in needed:
                continue
            needed.add(item)
            self._item(at, item, waiting)

    def _item_users(self, at, items, into, waiting):
        for item in items:
            waiting.append(item)
            self._edge((at, "item", item), into, SAME)

    def _part(self, at, plate, node, part, waiting, raw=False):
        waiting.append(part.item)
        self._edge((at, "item", part.item), node, RAW if raw else SAME)
        self._through(at, part.through, node, node, waiting)
        for medium in part.through:
            self._edge((at, "touch", plate.id), (at, "pool", medium), SAME)

    def _through(self, at, media, gives, takes, waiting):
        for medium in media:
            self._edge(gives, (at, "pool", medium), SAME)
            self._item_users(at, self.media[medium].carries, takes, waiting)
            if not self.media[medium].changed_between:
                self._edge((at, "pool", medium), takes, MEDIUM)

    def _item(self, at, item, waiting):
        node = (at, "item", item)
        if item in self.kitchen.pantry:
            self._edge(("bought", item), node, SAME)
        if item in self.kitchen.components:
            self._component(at, self.kitchen.components[item], waiting)
            self._edge((at, "card", item, len(self.kitchen.components[item].stages)), node, SAME)
        for parent, left in self.kitchen.by_products.get(item, ()):
            self._edge(("itself", item), node, SAME)
            self._component(at, parent, waiting)
            words = [step.name for step in parent.stages]
            known = left.source is not None and left.after in words
            if known:
                self._item_users(at, [left.source], node, waiting)
            self._edge((at, "card", parent.id, words.index(left.after) + 1 if known else len(words)), node, SAME)

    def _component(self, at, card, waiting):
        words = [step.name for step in card.stages]
        self._edge(("itself", card.id), (at, "card", card.id, 0), SAME)
        self._item_users(at, (*card.adjust_with, *card.also_touches), (at, "card", card.id, 0), waiting)
        for one in card.ingredients:
            into = (at, "pan", card.id, words.index(one.stage) + 1) if one.stage in words else (at, "card", card.id, 0)
            self._item_users(at, [one.item], into, waiting)
        for number, step in enumerate(card.stages, start=1):
            pan = (at, "pan", card.id, number)
            self._edge((at, "card", card.id, number - 1), pan, SAME)
            self._through(at, step.through, pan, pan, waiting)
            cooked = self.heat and self._cooks(step)
            self._edge(pan, (at, "card", card.id, number), COOKED if cooked else SAME)

    def _cooks(self, step):
        if step.limit is not None and step.limit.value == "cook":
            return True
        return step.until is not None and step.until.celsius >= self.figure

    def reaching(self, node):
        """All (source, token at the source, token here)."""
        found = set()
        for token in TOKENS:
            if (node, token) in self.graph:
                for source, sent in nx.ancestors(self.graph, (node, token)):
                    if source[0] in ("bought", "itself"):
                        found.add((source, sent, token))
        return found


class Oracle:
    def __init__(self, kitchen, menu_id):
        served = kitchen.menus[menu_id]
        self.kitchen = kitchen
        self.ways = {heat: Ways(kitchen, served, heat, 75) for heat in (False, True)}
        self._reached = {}

    def tokens(self, heat, node, question, wanted):
        """The tokens that matter which arrive at a part."""
        node = (self.ways[heat].last, *node)
        if (heat, node) not in self._reached:
            self._reached[heat, node] = self.ways[heat].reaching(node)
        found = set()
        for source, sent, token in self._reached[heat, node]:
            for kind, word, *item in question(self.kitchen, source):
                if kind == sent and (word in wanted or (not word and kind in (OPEN, NONE))):
                    found.add((token, word, item[0] if item else source[1]))
        return found

    def answers(self, node, questions):
        """The answer of a part to each question, as contains, undeclared, may or free."""
        arrived = {token for heat, ask, wanted in questions for token, _, _ in self.tokens(heat, node, ask, wanted)}
        known = "contains" if arrived & {SURE, BAKED} else "undeclared" if arrived & {OPEN, NONE} else None
        return known or ("may contain" if MAY in arrived else "free"), bool(arrived & {SURE, BAKED, MAY})

    def verdict(self, plate, avoidances):
        """(action, left off, exchanged), by trying every set of changes."""

        def free(node):
            return all(self.answers(node, questions)[0] == "free" for questions in avoidances)

        def known_bad(node):
            return any(self.answers(node, questions)[1] for questions in avoidances)

        groups = list(dict.fromkeys(part.item for part in plate.elements))
        of = {item: [n for n, part in enumerate(plate.elements) if part.item == item] for item in groups}
        nodes = {n: ("on", plate.id, n) for n in range(len(plate.elements))}
        good = {n: free(node) for n, node in nodes.items()}
        instead = {
            n: next((o.item for k, o in enumerate(part.alternatives) if free(("instead", plate.id, n, k))), None)
            for n, part in enumerate(plate.elements)
        }
        touches = ("touch", plate.id)
        best = None
        for changed in product((False, True), repeat=len(groups)):
            out = [item for item, gone in zip(groups, changed, strict=True) if gone]
            if not all(instead[n] or plate.elements[n].leave_off for item in out for n in of[item]):
                continue
            stays = [n for item in groups if item not in out for n in of[item]]
            comes = [instead[n] for item in out for n in of[item] if instead[n]]
            if free(touches) and all(good[n] for n in stays) and (stays or comes):
                choice = (len(out), out)
                best = choice if best is None or choice < best else best
        if best is None:
            return self._refusal(plate, groups, of, good, instead, touches, known_bad, free), [], []
        exchanged = [
            (item, other) for item in best[1] for other in dict.fromkeys(instead[n] for n in of[item]) if other
        ]
        left = [item for item in best[1] if not any(instead[n] for n in of[item])]
        return ("serve with instead" if exchanged else "serve without" if left else "serve"), left, exchanged

    def _refusal(self, plate, groups, of, good, instead, touches, known_bad, free):
        stuck = [
            n
            for item in groups
            if not all(good[n] for n in of[item])
            and not all(instead[n] or plate.elements[n].leave_off for n in of[item])
            for n in of[item]
        ]
        if not stuck and free(touches):
            return "do not serve"  # all of it would have to be left off
        bad = [("on", plate.id, n) for n in stuck] + [touches]
        return "do not serve" if any(known_bad(node) for node in bad) else "cannot say"


GENERAL = {
    "almond": {"almond", "tree-nut"},
    "wheat": {"wheat", "gluten"},
    "gluten": {"gluten", "wheat"},
    "tree-nut": {"tree-nut", "almond", "pine-nut"},
    "pine-nut": {"pine-nut", "tree-nut"},
    "crab": {"crab", "shellfish"},
    "oyster": {"oyster", "shellfish"},
    "shellfish": {"shellfish", "crab", "oyster"},
}
"""Which declared words may stand for a substance, of those that the houses use."""
IMPLIED = {
    "cows-milk": "milk",
    "hen-egg": "egg",
    "crab": "crustacean",
    "oyster": "mollusc",
    "hake": "fish",
    "honey": "honey",
}
COULD_BE = {
    "gelatine": ("gelatine-pork", "gelatine-beef", "gelatine-fish"),
    "rennet": ("rennet-animal", "rennet-vegetable", "rennet-microbial"),
    "animal-fat": ("animal-fat-poultry", "animal-fat-beef", "animal-fat-pork"),
}
LAND = {"beef", "veal", "lamb", "pork", "game", "poultry"}


def substances(kitchen, source):
    if source[0] != "bought":
        return
    declared = kitchen.pantry[source[1]].allergens
    if declared is None:
        yield NONE, ""
        return
    for word in declared.contains:
        yield SURE, word
    for word in declared.may_contain:
        yield MAY, word


def _origin_words(item):
    declared = item.allergens.contains if item.allergens else ()
    return {*(item.origin or ()), *(IMPLIED[word] for word in declared if word in IMPLIED)}


def origins(kitchen, source):
    if source[0] != "bought":
        return
    item = kitchen.pantry[source[1]]
    words = _origin_words(item)
    if item.origin is None:
        yield NONE, ""
    for word in words:
        yield SURE, word
        for other in COULD_BE.get(word, ()):
            if other not in words:
                yield NONE, other
    for word in item.allergens.may_contain if item.allergens else ():
        if word in IMPLIED and IMPLIED[word] not in words:
            yield MAY, IMPLIED[word]


def rawness(kitchen, source):
    if source[0] == "itself":
        for id_ in kitchen.components[source[1]].raw if source[1] in kitchen.components else ():
            for word in _may_be_raw(kitchen.pantry[id_]):
                yield SURE, word, id_
        return
    item = kitchen.pantry[source[1]]
    if item.origin is None:
        yield NONE, ""
    for word in _may_be_raw(item):
        yield OPEN, word
    if item.unpasteurised:
        yield BAKED, "unpasteurised"
    elif item.unpasteurised is None and _origin_words(item) & {"milk", "egg", "honey", "juice"}:
        yield NONE, "unpasteurised"


def _may_be_raw(item):
    words = _origin_words(item) & {"egg", "fish", "crustacean", "mollusc", *LAND}
    return words - ({"egg"} if item.unpasteurised is False else set())


def foods(avoided, held):
    """A question about foods by name; ``held`` are the substances certainly in each of them."""

    def ask(kitchen, source):
        if source[1] in avoided:
            yield SURE, source[1]
        elif source[0] == "bought":
            item = kitchen.pantry[source[1]]
            hides = any(_hides(item, inside) for inside in held)
            if not item.one_food and hides:
                yield NONE, ""

    return ask


def _hides(item, inside):
    if item.allergens is None:
        return True
    declared = {*item.allergens.contains, *item.allergens.may_contain}
    return all(GENERAL.get(word, {word}) & declared for word in inside)
