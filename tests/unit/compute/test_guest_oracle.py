"""Verdicts, proofs and diet columns of random houses against the oracle in ``guest_oracle``.

A few hundred houses run with the suite. By hand, with another first seed and more houses:
``python tests/unit/compute/test_guest_oracle.py 10000 10000``.
"""

from __future__ import annotations

import sys
from collections import Counter
from random import Random

from guest_houses import SUBSTANCES, random_house
from guest_oracle import BAKED, GENERAL, LAND, MAY, NONE, OPEN, SURE, Oracle, foods, origins, rawness, substances

from linebook.compute.avoidances import Avoidance, Examined, of_diet
from linebook.compute.diets import compute_diets
from linebook.compute.guest import Action, judge
from linebook.compute.why import why
from linebook.model.diets import DIETS

HOUSES = 200
FLESH = {*LAND, "fish", "crustacean", "mollusc", "insect"}
FATS = {"animal-fat", "animal-fat-poultry", "animal-fat-beef", "animal-fat-pork"}
GELATINE = {"gelatine", "gelatine-pork", "gelatine-beef", "gelatine-fish"}
FORBIDDEN = {
    "vegetarian": {*FLESH, *FATS, *GELATINE, "rennet-animal"},
    "vegan": {*FLESH, *FATS, *GELATINE, "rennet-animal", "milk", "egg", "honey"},
    "pork": {"pork", "animal-fat-pork", "gelatine-pork"},
    "gelatine": GELATINE,
    "animal-rennet": {"rennet-animal"},
    "alcohol": {"alcohol"},
}
RAW = {
    "unpasteurised": {"unpasteurised"},
    "raw-egg": {"egg"},
    "raw-fish": {"fish"},
    "raw-shellfish": {"crustacean", "mollusc"},
    "raw-meat": LAND,
}


def _random_avoidance(random: Random, kitchen, oracle):
    """An avoidance as linebook has it, and the questions it comes to."""
    way = random.random()
    if way < 0.45:
        wanted = set().union(*(GENERAL.get(word, {word}) for word in random.sample(SUBSTANCES, random.randint(1, 2))))
        name = "-".join(sorted(wanted))
        return Avoidance(id=name, name=name, kind="substance", substances=frozenset(wanted)), [
            (False, substances, wanted)
        ]
    if way < 0.65:
        id_ = random.choice(list(FORBIDDEN))
        return of_diet(DIETS[id_]), [(False, origins, FORBIDDEN[id_])]
    if way < 0.8:
        id_ = random.choice(list(RAW))
        return of_diet(DIETS[id_]), [(True, rawness, RAW[id_])]
    return _random_food(random, kitchen, oracle)


def _random_food(random: Random, kitchen, oracle):
    graph, last = oracle.ways[False].graph, oracle.ways[False].last
    there = [id_ for id_ in (*kitchen.pantry, *kitchen.components) if ((last, "item", id_), SURE) in graph]
    avoided = set(random.sample(there, min(len(there), random.randint(0, 2))))
    every = set(SUBSTANCES)
    held = [
        {word for token, word, _ in oracle.tokens(False, ("item", id_), substances, every) if token == SURE}
        for id_ in sorted(avoided)
    ]
    ask = foods(avoided, held or [set()])
    name = "+".join(sorted(avoided)) or "nothing here"
    return Avoidance(id=name, name=name, kind="item", items=frozenset(avoided)), [(False, ask, avoided)]


def _check_verdicts(kitchen, menu, random: Random, told: Counter, seed: int) -> None:
    oracle = Oracle(kitchen, menu)
    asked = [_random_avoidance(random, kitchen, oracle) for _ in range(random.randint(1, 3))]
    asked = list({one[0]: one for one in asked}.values())
    verdicts = judge(kitchen, menu, [one for one, _ in asked])
    assert [verdict.dish for verdict in verdicts] == [entry.dish for entry in kitchen.menus[menu].dishes]
    for verdict in verdicts:
        plate = kitchen.dishes[verdict.dish]
        action, left, exchanged = oracle.verdict(plate, [questions for _, questions in asked])
        assert verdict.action.value == action, (seed, menu, plate.id, asked)
        if verdict.action in (Action.WITH, Action.WITHOUT):
            assert list(verdict.leave_off) == left, (seed, menu, plate.id)
            assert list(verdict.exchange) == exchanged, (seed, menu, plate.id)
        else:
            assert (verdict.leave_off, verdict.exchange) == ((), ())
        assert bool(verdict.reasons) == (verdict.action is not Action.SERVE)
        told[verdict.action] += 1
    _check_proofs(kitchen, menu, oracle, random.choice(asked), told, seed)


def _check_proofs(kitchen, menu, oracle, asked, told: Counter, seed: int) -> None:
    """Every path ends where a token comes from, and every token has a path."""
    avoidance, questions = asked
    examined = Examined(kitchen, menu, [avoidance])
    for entry in kitchen.menus[menu].dishes:
        plate = kitchen.dishes[entry.dish]
        nodes = [("touch", plate.id), *(("on", plate.id, number) for number in range(len(plate.elements)))]
        arrived = {
            token
            for node in nodes
            for heat, ask, wanted in questions
            for token in oracle.tokens(heat, node, ask, wanted)
        }
        sure = {(word, item) for token, word, item in arrived if token in (SURE, BAKED)}
        expected = {
            "contains": {item for _, item in sure},
            "undeclared": {item for token, _, item in arrived if token in (OPEN, NONE)},
            "may contain": {item for token, word, item in arrived if token == MAY and (word, item) not in sure},
        }
        proof = why(kitchen, menu, plate.id, avoidance)
        told["cut"] += proof.cut
        found = {key: {path.item for path in proof.paths if path.answer.value == key} for key in expected}
        assert found["contains"] == expected["contains"], (seed, plate.id, avoidance)
        assert found["undeclared"] == expected["undeclared"], (seed, plate.id, avoidance)
        assert expected["may contain"] <= found["may contain"] | found["contains"], (seed, plate.id, avoidance)
        known = examined.of_dish(avoidance, plate)
        assert found["may contain"] <= {trace.item for trace in known.may}, (seed, plate.id, avoidance)
        told["paths"] += len(proof.paths)


def test_verdicts_and_proofs_of_random_houses_agree_with_the_oracle():
    told = run(range(HOUSES))
    assert set(Action) <= set(told)
    del told["cut"]
    assert min(told.values()) > 20, told


def run(seeds) -> Counter:
    told: Counter = Counter()
    for seed in seeds:
        random = Random(seed)
        kitchen = random_house(random)
        for menu in kitchen.menus:
            _check_verdicts(kitchen, menu, random, told, seed)
            told["menus"] += 1
        told["houses"] += 1
    return told


def test_diet_columns_of_random_houses_agree_with_the_oracle():
    told: Counter = Counter()
    for seed in range(0, HOUSES, 3):
        kitchen = random_house(Random(seed))
        menu = list(kitchen.menus)[-1]
        table, oracle = compute_diets(kitchen, menu), Oracle(kitchen, menu)
        for id_, cells in table.dishes.items():
            plate = kitchen.dishes[id_]
            for diet, cell in cells.items():
                if diet not in FORBIDDEN and diet not in RAW:
                    continue
                ask = (True, rawness, RAW[diet]) if diet in RAW else (False, origins, FORBIDDEN[diet])
                nodes = [("touch", id_), *(("on", id_, number) for number in range(len(plate.elements)))]
                answers = [oracle.answers(node, [ask])[0] for node in nodes]
                order = ["contains", "undeclared", "may contain", "free"]
                assert cell.answer.value == min(answers, key=order.index), (seed, id_, diet)
                told[cell.answer] += 1
    assert len(told) == 4
    assert min(told.values()) > 5, told


if __name__ == "__main__":
    count, first = int(sys.argv[1]), int(sys.argv[2])
    print(run(range(first, first + count)))
