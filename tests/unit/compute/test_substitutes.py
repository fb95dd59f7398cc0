"""A house without some items: what stands in and how much of it, worked out by hand, and what falls.

Then generated houses, against a second way of working out what can be had: a thing is to be had if some way of making it
is, asked from the plate down, where the tool goes from what is missing up.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from kitchen_factory import (
    AT,
    alternative,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    medium,
    menu,
    percent,
    size,
    stage,
)

from linebook.compute.allergens import compute_allergens
from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.compute.guest_words import find_avoidances
from linebook.compute.results import Answer
from linebook.compute.substitutes import without
from linebook.compute.why import why
from linebook.model.amounts import Amount, ToTaste
from linebook.model.body import AmountOf, Block, Body, Fixed, Form, Section, Words
from linebook.model.component import Component, Scale
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.pantry import PantryItem
from linebook.model.supply import Substitute
from linebook.model.tonight import Fallen
from linebook.model.translations import CardWords, HouseWords, Said, Translation, Translations

HOUSES = 400
NAMES = {"walnuts": "nueces", "hazelnuts": "avellanas"}


def stand_in(item: str, ratio: str = "1", note: str | None = None) -> Substitute:
    return Substitute(item=item, ratio=Fraction(ratio), note=note, **AT)


def having(record: PantryItem | Component, *substitutes: Substitute) -> PantryItem | Component:
    return replace(record, substitutes=substitutes)


def kitchen(pantry, components, elements, media=(), **fields) -> House:
    plate = dish("plate", elements, **fields)
    return house(pantry, components, [plate], [menu("m", [listed("plate")])], media)


def lines_of(kitchen: House, id_: str) -> list[tuple[str, str]]:
    return [(one.item, shown(one.amount)) for one in kitchen.components[id_].ingredients]


def shown(value: object) -> str:
    if isinstance(value, Amount):
        return f"{value.number} {value.unit.symbol}"
    return "to taste" if isinstance(value, ToTaste) else f"{value.number} % of {', '.join(value.of)}"


EEL = having(bought("eel", ["fish"]), stand_in("trout", "4/5"))


def test_a_weight_is_multiplied_by_the_ratio():
    made = without(
        kitchen([EEL, bought("trout")], [component("mousse", "1 kg", [line("eel", "2.5 kg")])], [element("mousse")]),
        ["eel"],
    )
    assert lines_of(made, "mousse") == [("trout", "2 kg")]


def test_a_volume_goes_over_both_densities_else_by_the_measure():
    # 1 L of cream at 0.99 g/ml is 990 g; half of it is 495 g; at 1.1 g/ml that is 450 ml.
    cream = having(bought("cream", density="0.99"), stand_in("curd", "1/2"))
    for density, expected in (("1.1", "9/20 L"), (None, "1/2 L")):
        house_ = kitchen(
            [cream, bought("curd", density=density)],
            [component("sauce", "1 kg", [line("cream", "1 L")])],
            [element("sauce")],
        )
        made = without(house_, ["cream"])
        assert lines_of(made, "sauce") == [("curd", expected)]
        assert made.tonight.stands_in[0].by == ("weight" if density else "measure",)


@pytest.mark.parametrize(
    ("weighs", "expected"),
    [({"leaf": "2"}, ("silver", "8 leaf")), ({}, ("silver", "40 g"))],
    ids=["counted in the same word", "by weight"],
)
def test_a_count_stays_one_where_the_stand_in_is_counted_so(weighs, expected):
    # 10 leaves x 0.8 are 8 leaves; by weight 10 x 5 g x 0.8 are 40 g.
    bronze = having(bought("bronze", weighs={"leaf": "5"}), stand_in("silver", "4/5"))
    jelly = component("jelly", "1 kg", [line("bronze", "10 leaves", scale=Scale.WHOLE)])
    made = without(kitchen([bronze, bought("silver", weighs=weighs)], [jelly], [element("jelly")]), ["bronze"])
    assert lines_of(made, "jelly") == [expected]
    assert made.components["jelly"].ingredients[0].scale is (Scale.WHOLE if weighs else Scale.LINEAR)


def test_a_percentage_is_multiplied_and_one_of_the_missing_is_of_what_stands_in():
    cure = component(
        "cure", "1 kg", [line("eel", "1 kg"), line("salt", percent("2", "eel")), line("spice", percent("1", "salt"))]
    )
    spice = having(bought("spice"), stand_in("pepper", "3/2"))
    made = without(
        kitchen([EEL, bought("trout"), bought("salt"), spice, bought("pepper")], [cure], [element("cure")]),
        ["eel", "spice"],
    )
    assert lines_of(made, "cure") == [("trout", "4/5 kg"), ("salt", "2 % of trout"), ("pepper", "3/2 % of salt")]
    batch = compute_batch(made, "cure")
    assert [one.total.number for one in batch.ingredients] == [Fraction(4, 5), 16, Fraction(6, 25)]  # kg, g, g


def test_the_first_that_can_be_had_stands_in_and_then_what_stands_in_for_it():
    pantry = [
        having(bought("a"), stand_in("b", "1/2"), stand_in("c", "2")),
        having(bought("b"), stand_in("d", "3")),
        bought("c"),
        bought("d"),
    ]
    plain = kitchen(pantry, [component("x", "1 kg", [line("a", "1 kg")])], [element("x")])
    assert lines_of(without(plain, ["a"]), "x") == [("b", "1/2 kg")]
    assert lines_of(without(plain, ["a", "b"]), "x") == [("c", "2 kg")]
    assert lines_of(without(plain, ["a", "b", "c"]), "x") == [("d", "3/2 kg")]  # 1 x 1/2 x 3
    assert without(plain, ["a", "b", "c", "d"]).tonight.dishes == (Fallen(id="plate", path=("plate", "x", "a")),)


def test_a_component_without_its_item_falls_unless_it_has_a_substitute_itself():
    mousse = component("mousse", "1 kg", [line("eel", "1 kg")])
    spread = component("spread", "1 kg", [line("beet", "1 kg")])
    pantry = [bought("eel"), bought("beet")]
    fallen = without(kitchen(pantry, [mousse, spread], [element("mousse")]), ["eel"])
    assert not fallen.dishes
    assert not fallen.menus["m"].dishes
    assert set(fallen.components) == {"spread"}
    assert fallen.tonight.components == (Fallen(id="mousse", path=("mousse", "eel")),)
    saved = without(
        kitchen(pantry, [having(mousse, stand_in("spread", "2")), spread], [element("mousse", "10 g")]), ["eel"]
    )
    assert [(one.item, shown(one.amount)) for one in saved.dishes["plate"].elements] == [("spread", "20 g")]


def test_every_place_of_a_card_follows():
    pantry = [having(bought("oil", ["peanut"]), stand_in("rape")), bought("rape"), bought("flour")]
    batter = component("batter", "1 kg", [line("flour", "1 kg", stage="fry")], stages=[stage("fry", "fryer")])
    batter = replace(batter, adjust_with=("oil",), also_touches=("oil", "rape"))
    before = kitchen(
        pantry, [batter], [element("batter", instead=[alternative("oil")])], [medium("fryer", "oil")], touches=["oil"]
    )
    made = without(before, ["oil"])
    card = made.components["batter"]
    assert (card.adjust_with, card.also_touches) == (("rape",), ("rape",))
    assert made.file.media[0].carries == ("rape",)
    assert made.dishes["plate"].also_touches == ("rape",)
    assert made.dishes["plate"].elements[0].alternatives[0].item == "rape"


def test_a_medium_without_what_is_in_it_takes_down_all_that_goes_through_it():
    batter = component("batter", "1 kg", [line("flour", "1 kg", stage="fry")], stages=[stage("fry", "fryer")])
    made = without(
        kitchen([bought("oil"), bought("flour")], [batter], [element("batter")], [medium("fryer", "oil")]), ["oil"]
    )
    assert made.tonight.dishes == (Fallen(id="plate", path=("plate", "batter", "oil")),)


def test_an_alternative_falls_alone():
    made = without(
        kitchen([bought("eel"), bought("beet")], [], [element("beet", instead=[alternative("eel")])]), ["eel"]
    )
    assert made.dishes["plate"].alternatives == ()


def test_an_alternative_that_becomes_its_own_element_is_no_choice():
    made = without(kitchen([EEL, bought("trout")], [], [element("trout", instead=[alternative("eel")])]), ["eel"])
    assert made.dishes["plate"].alternatives == ()


def test_a_size_keeps_its_own_amount_of_what_stands_in():
    sizes = [size("full"), size("to-share", "2", eel="50 g")]
    made = without(kitchen([EEL, bought("trout")], [], [element("eel", "20 g")], sizes=sizes), ["eel"])
    full, shared = made.dishes["plate"].sizes
    assert dict(full.amounts) == {}
    assert {item: shown(one) for item, one in shared.amounts.items()} == {"trout": "40 g"}


def test_where_two_elements_become_one_a_size_s_amount_is_that_of_both():
    # 50 g of eel become 40 g of trout; the trout of the plate is 30 g x 2; a portion to share carries 100 g.
    sizes = [size("to-share", "2", eel="50 g")]
    before = kitchen([EEL, bought("trout")], [], [element("eel", "20 g"), element("trout", "30 g")], sizes=sizes)
    night = compute_night(without(before, ["eel"]), Occasion(menu="m", covers=10))
    assert night.needs["trout"].number == 1000


def test_trim_of_what_is_replaced_is_not_there():
    loins = replace(
        component("loins", "1 kg", [line("eel", "2 kg", stage="trim")], stages=[stage("trim")]),
        also_makes=(by_product("eel-trim", "eel", "trim"),),
        body=method(AmountOf(item="eel-trim", span=AT["span"]), words(" of trim is kept")),
    )
    paste = component("paste", "1 kg", [line("eel-trim", "1 kg")])
    plates = [dish("loin", [element("loins")]), dish("toast", [element("paste")])]
    before = house([EEL, bought("trout")], [loins, paste], plates, [menu("m", [listed("loin"), listed("toast")])])
    made = without(before, ["eel"])
    assert made.by_products == {}
    assert set(made.dishes) == {"loin"}
    assert made.tonight.gone == (Fallen(id="eel-trim", path=("eel-trim", "eel")),)
    assert made.tonight.dishes[0].path == ("toast", "paste", "eel-trim", "eel")
    assert made.components["loins"].body.sections[0].blocks[0].pieces[0] == Fixed(text="0 kg", span=AT["span"])


def words(text: str) -> Words:
    return Words(text=text, span=AT["span"])


def method(*pieces: object) -> Body:
    block = Block(form=Form.STEP, pieces=tuple(pieces), span=AT["span"])
    return Body(sections=(Section(title="Trim", key="trim", blocks=(block,), span=AT["span"]),))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [(" smoked eel, and stir", " trout in place of smoked eel, and stir"), (" in a pan", " trout in a pan")],
)
def test_a_brace_says_what_stands_in_and_in_place_of_what(typed, expected):
    card = replace(
        component("x", "1 kg", [line("eel", "1 kg")]), body=method(AmountOf(item="eel", span=AT["span"]), words(typed))
    )
    made = without(kitchen([EEL, bought("trout")], [card], [element("x")]), ["eel"])
    brace, *rest = made.components["x"].body.sections[0].blocks[0].pieces
    assert brace.item == "trout"
    assert "".join(one.text for one in rest) == expected


def test_a_translated_method_follows_in_its_own_words():
    """*91 g … de la nuez* must not stand where hazelnuts are meant; a note keeps its line under the new item."""
    pantry = [having(bought("walnuts"), stand_in("hazelnuts")), bought("hazelnuts")]
    card = component("crumb", "1 kg", [line("walnuts", "1 kg")])
    names = {id_: Said(text=name, span=AT["span"], key=AT["span"]) for id_, name in NAMES.items()}
    note = Said(text="en trozos", span=AT["span"], key=AT["span"])
    spanish = CardWords(
        id="crumb",
        language="es",
        is_dish=False,
        preps={"walnuts": note},
        body=method(AmountOf(item="walnuts", span=AT["span"]), words(" de la nuez, tostada")),
        **AT,
    )
    said = HouseWords(language="es", pantry=names, **AT)
    translation = Translation(language="es", cards={"crumb": spanish}, words=said)
    before = kitchen(pantry, [card], [element("crumb")])
    before = replace(before, second=Translations(written="en", by_language={"es": translation}))
    made = without(before, ["walnuts"]).second.by_language["es"].cards["crumb"]
    brace, *rest = made.body.sections[0].blocks[0].pieces
    assert brace.item == "hazelnuts"
    assert "".join(one.text for one in rest) == " avellanas en lugar de la nuez, tostada"
    assert dict(made.preps) == {"hazelnuts": note}


def test_what_nothing_uses_changes_nothing():
    before = kitchen([bought("eel"), bought("beet")], [], [element("beet")])
    made = without(before, ["eel"])
    assert made.tonight.unused == ("eel",)
    assert replace(made, tonight=None) == replace(before, by_products=made.by_products, menus=made.menus)


def test_touched_is_what_it_reaches_at_any_depth():
    parts = [
        component("mousse", "1 kg", [line("eel", "1 kg")]),
        component("filling", "1 kg", [line("mousse", "1 kg")]),
        component("salad", "1 kg", [line("beet", "1 kg")]),
    ]
    plates = [dish("tart", [element("filling")]), dish("salad-plate", [element("salad")])]
    served = menu("m", [listed("tart"), listed("salad-plate")])
    made = without(house([EEL, bought("trout"), bought("beet")], parts, plates, [served]), ["eel"])
    assert dict(made.tonight.touched) == {"mousse": ("eel",), "filling": ("eel",), "tart": ("eel",)}


def test_an_undeclared_stand_in_leaves_the_dish_undeclared():
    made = without(kitchen([EEL, bought("trout", None)], [], [element("eel")]), ["eel"])
    table = compute_allergens(made, "m")
    assert table.undeclared["plate"] == ("trout",)
    assert {finding.answer for finding in table.dishes["plate"].values()} == {Answer.UNDECLARED}


@pytest.mark.parametrize("changed", [False, True], ids=["shared fryer", "changed between foods"])
def test_what_has_been_fried_before_tonight_is_still_in_the_oil(changed):
    """Nobody empties the fryer because the eel did not come: the chips still may have met it."""
    plates = [dish("eel-plate", [element("eel", "10 g", "fryer")]), dish("chips", [element("potato", "10 g", "fryer")])]
    served = menu("m", [listed("eel-plate"), listed("chips")])
    pantry = [having(bought("eel", ["trout"]), stand_in("beet")), bought("beet"), bought("potato")]
    made = without(house(pantry, [], plates, [served], [medium("fryer", changed=changed)]), ["eel"])
    finding = compute_allergens(made, "m").dishes["chips"]["fish"]
    assert finding.answer is (Answer.FREE if changed else Answer.MAY)
    assert finding.items == (() if changed else ("eel",))


def test_the_proof_of_an_answer_knows_what_was_fried_before_tonight():
    plates = [dish("eel-plate", [element("eel", "10 g", "fryer")]), dish("chips", [element("potato", "10 g", "fryer")])]
    served = menu("m", [listed("eel-plate"), listed("chips")])
    made = without(
        house([bought("eel", ["trout"]), bought("potato")], [], plates, [served], [medium("fryer")]), ["eel"]
    )
    (fish,) = find_avoidances(made, "fish")
    proof = why(made, "m", "chips", fish)
    assert proof.answer is Answer.MAY
    assert [[(step.kind, step.id) for step in path.steps] for path in proof.paths] == [
        [
            ("medium", "fryer"),
            ("menu", "m"),
            ("dish", "eel-plate"),
            ("element", "eel"),
            ("ground", "eel"),
        ]
    ]


def test_a_card_that_two_stand_ins_make_impossible_falls():
    """Each stands in alone; together, 1 L of curd without a density would be what a percentage is of."""
    pantry = [
        having(bought("cream", density="1"), stand_in("curd")),
        having(bought("meat"), stand_in("curd")),
        bought("curd"),
        bought("salt"),
    ]
    mix = component("mix", "1 kg", [line("cream", "1 L"), line("meat", "1 kg"), line("salt", percent("2", "meat"))])
    before = kitchen(pantry, [mix], [element("mix")])
    assert set(without(before, ["cream"]).components) == {"mix"}
    assert set(without(before, ["meat"]).components) == {"mix"}
    both = without(before, ["cream", "meat"])
    assert not both.components
    assert both.tonight.dishes == (Fallen(id="plate", path=("plate", "mix")),)


# -- generated houses


class _Random:
    """A house whose items name substitutes further on in one order, so that none is made from itself."""

    def __init__(self, seed: int) -> None:
        self.random = random = Random(seed)
        self.bought = [f"p{at}" for at in range(random.randint(2, 6))]
        self.made = [f"c{at}" for at in range(random.randint(1, 6))]
        order = [*self.made, *self.bought]  # a component uses what comes after it alone, and so do substitutes
        self.substitutes = {
            item: tuple(
                stand_in(other, str(Fraction(random.randint(1, 12), random.randint(1, 6))))
                for other in dict.fromkeys(random.choices(order[at + 1 :] or [item], k=random.randint(0, 2)))
                if other != item
            )
            for at, item in enumerate(order)
        }
        self.uses = {
            id_: tuple(dict.fromkeys(random.choices(order[at + 1 :], k=random.randint(1, 3))))
            for at, id_ in enumerate(self.made)
        }
        self.plates = {f"d{at}": tuple(dict.fromkeys(random.choices(order, k=random.randint(1, 3)))) for at in range(3)}
        self.missing = tuple(dict.fromkeys(random.choices(order, k=random.randint(1, 3))))

    def house(self) -> House:
        pantry = [having(bought(id_), *self.substitutes[id_]) for id_ in self.bought]
        components = [
            having(component(id_, "1 kg", [line(item, "100 g") for item in self.uses[id_]]), *self.substitutes[id_])
            for id_ in self.made
        ]
        plates = [dish(id_, [element(item) for item in items]) for id_, items in self.plates.items()]
        return house(pantry, components, plates, [menu("m", [listed(id_) for id_ in self.plates])])

    def had(self, item: str) -> bool:
        """Return whether an item itself is to be had: not missing, and all that goes into it, or stands in, is."""
        return item not in self.missing and all(self.serves(one) is not None for one in self.uses.get(item, ()))

    def serves(self, item: str) -> tuple[str, Fraction] | None:
        """Return what is used where a card names an item: itself, or the nearest in its tree of substitutes."""
        if self.had(item):
            return item, Fraction(1)
        level = [(item, Fraction(1))]
        seen = {item}
        while level:
            onward = []
            for id_, ratio in level:
                for one in self.substitutes[id_]:
                    if self.had(one.item):
                        return one.item, ratio * one.ratio
                    if one.item not in seen:
                        seen.add(one.item)
                        onward.append((one.item, ratio * one.ratio))
            level = onward
        return None


@pytest.mark.parametrize("seed", range(HOUSES))
def test_generated_houses_are_as_worked_out_from_the_plate_down(seed):
    made = _Random(seed)
    tonight = without(made.house(), made.missing)
    kept = {id_ for id_, items in made.plates.items() if all(made.serves(item) for item in items)}
    assert set(tonight.dishes) == kept
    assert {entry.dish for entry in tonight.menus["m"].dishes} == kept
    assert set(tonight.components) == {id_ for id_ in made.made if made.had(id_)}
    for id_ in tonight.components:
        expected = [(item, Fraction(100) * ratio) for item, ratio in map(made.serves, made.uses[id_])]
        assert [(one.item, one.amount.number) for one in tonight.components[id_].ingredients] == expected
    for fallen in (*tonight.tonight.dishes, *tonight.tonight.components):
        assert fallen.path[-1] in made.missing or len(fallen.path) == 1
        for user, item in zip(fallen.path, fallen.path[1:], strict=False):
            assert item in (*made.uses.get(user, ()), *made.plates.get(user, ()))
            assert made.serves(item) is None
    compute_night(tonight, Occasion(menu="m", covers=10))
