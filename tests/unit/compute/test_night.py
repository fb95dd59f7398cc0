"""From covers to portions, batches and bought needs, worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from kitchen_factory import (
    amount,
    bought,
    by_product,
    component,
    dish,
    element,
    house,
    line,
    listed,
    menu,
    percent,
    size,
)

from linebook.compute.base import base_batch
from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night, users_first
from linebook.compute.portions import compute_portions, portion_amounts
from linebook.model.component import Scale
from linebook.model.occasion import Occasion
from linebook.model.units import times
from linebook.source.faults import ValueMistake


def _portions(entry, covers, *, sizes=(), line_up=0):
    kitchen = house(dishes=[dish("rib", sizes=sizes)], menus=[menu("spring", [entry])], line_up=line_up)
    return {
        demand.size: demand.portions for demand in compute_portions(kitchen, Occasion(menu="spring", covers=covers))
    }


SIZES = (size("taste", "0.4"), size("full"), size("to-share", "1.8"))


@pytest.mark.parametrize(
    ("entry", "covers", "expected"),
    [
        (listed("rib"), 100, {"full": 100}),
        (listed("rib", "0.35"), 90, {"full": 32}),  # 31.5
        (listed("rib", "0.35", "0.05"), 100, {"full": 37}),  # 35 + 1.75
        (listed("rib", "0.35", "0.05", "2"), 100, {"full": 37}),  # 2 is more than 1.75
        (listed("rib", "0.35", "0.10", "2"), 100, {"full": 39}),  # 3.5 is more than 2: 38.5
        (listed("rib", "1.5"), 70, {"full": 105}),  # a share is not capped at 1
        (listed("rib", "0"), 70, {}),
        (listed("rib", "0", at_least="2"), 70, {"full": 2}),
    ],
)
def test_one_size_is_rounded_up_once(entry, covers, expected):
    assert _portions(entry, covers) == expected


def test_sizes_share_portions_and_spare():
    entry = listed("rib", "0.35", "0.05", "2", full="0.8", **{"to-share": "0.2"})
    # 80 x 0.35 = 28, spare 2 (more than 1.4): 30; 24 full, 6 to share, none to taste but one for line-up
    assert _portions(entry, 80, sizes=SIZES, line_up=1) == {"taste": 1, "full": 24, "to-share": 6}


def test_without_a_mix_all_is_the_first_size():
    assert _portions(listed("rib", "0.5"), 9, sizes=SIZES) == {"taste": 5}


def test_sizes_scale_elements_and_their_own_amounts_win():
    plate = dish(
        "rib",
        [element("puree", "70 g"), element("rib", "2 pieces"), element("puree", "10 g")],
        sizes=[size("full"), size("share", "1.8", rib="4 pieces"), size("own", "3", puree="200 g")],
    )
    assert dict(portion_amounts(plate, "full")) == {"puree": amount("80 g"), "rib": amount("2 pieces")}
    assert dict(portion_amounts(plate, "share")) == {"puree": amount("144 g"), "rib": amount("4 pieces")}
    assert dict(portion_amounts(plate, "own")) == {"puree": amount("200 g"), "rib": amount("6 pieces")}


def _rib_house():
    pantry = [bought("beef"), bought("salt"), bought("gelatine"), bought("cream", density="1.01"), bought("thyme")]
    components = [
        component(
            "glaze", "2 kg", [line("stock", "3 L"), line("salt", percent("1", "stock")), line("thyme", "1 bunch")]
        ),
        component("stock", "10 L", [line("bone", "8 kg"), line("salt", "20 g"), line("thyme", "40 g")], density="1.02"),
        component(
            "rib",
            "9 kg",
            [line("beef", "14 kg"), line("glaze", "900 g"), line("gelatine", "4 each", scale=Scale.WHOLE)],
            pieces="60",
            loss="0.04",
            largest_batch="18 kg",
            also_makes=(by_product("bone"),),
        ),
    ]
    plates = [dish("short-rib", [element("rib", "2 pieces"), element("glaze", "20 g"), element("cream", "15 ml")])]
    return house(pantry, components, plates, [menu("spring", [listed("short-rib", "0.6")])])


def test_a_night_goes_down_every_depth():
    night = compute_night(_rib_house(), Occasion(menu="spring", covers=200))
    rib, glaze, stock = (night.batches[id_] for id_ in ("rib", "glaze", "stock"))
    # 120 portions x 2 pieces / 0.96 = 250 pieces; 250/60 x 9 kg = 37.5 kg; in 18 kg at most: 3 loads
    assert (rib.pieces, rib.total, rib.loads, rib.load) == (250, amount("37.5 kg"), 3, amount("12.5 kg"))
    assert rib.factor == Fraction(25, 6)
    beef, glaze_line, gelatine = rib.ingredients
    assert beef.total == amount("58 1/3 kg")
    assert beef.load == amount("19 4/9 kg")
    # 4 x 25/18 = 5.56 leaves a load: 6, three times
    assert (gelatine.load, gelatine.total, gelatine.base) == (amount("6 each"), amount("18 each"), amount("4 each"))
    # glaze: 120 x 20 g on plates and 900 g x 25/6 in the rib
    assert glaze_line.total == amount("3750 g")
    assert glaze.total == amount("6.15 kg")
    assert [(use.user, use.size, use.amount) for use in glaze.uses] == [
        ("short-rib", "full", amount("2.4 kg")),
        ("rib", None, amount("3.75 kg")),
    ]
    # stock: 3 L for 2 kg of glaze
    assert stock.total == amount("9.225 L")
    assert night.needs["cream"] == amount("1800 ml")
    # salt: 1 % of 9.225 L x 1.02 kg/L and 2 g a litre
    assert night.needs["salt"].number == Fraction("94.095") + Fraction("18.45")


def test_pieces_are_made_whole_and_what_goes_in_follows():
    kitchen = _rib_house()
    night = compute_night(kitchen, Occasion(menu="spring", covers=201))
    rib = night.batches["rib"]
    # 201 x 0.6 = 120.6 -> 121 portions x 2 pieces / 0.96 = 252.08 -> 253 pieces of 150 g, in three loads of 12.65 kg
    assert (rib.pieces, rib.total, rib.loads, rib.load) == (253, amount("37.95 kg"), 3, amount("12.65 kg"))
    assert rib.ingredients[0].total == times(amount("14 kg"), Fraction(253, 60))
    assert night.batches["glaze"].total == amount("6.215 kg")  # 121 x 20 g, and 900 g x 253/60


def test_what_is_made_by_count_is_whole_without_pieces_too():
    parts = [
        component("pot", "2 dozen", [line("cream", "2 kg")], loss="0.05", piece_weighs="90 g"),
        component("crumb", "300 g", [line("cracker", "4 pieces")]),
        component("cracker", "12 each", [line("flour", "300 g")], piece_weighs="30 g"),
    ]
    plates = [dish("cream-pot", [element("pot", "1 each"), element("crumb", "8 g")])]
    kitchen = house(
        [bought("cream"), bought("flour")], parts, plates, [menu("spring", [listed("cream-pot", at_least="1")])]
    )
    batches = compute_night(kitchen, Occasion(menu="spring", covers=30)).batches
    # 31 / 0.95 = 32.6 pots -> 33; 31 x 8 g = 248 g of crumb, 4 x 248/300 = 3.31 crackers -> 4
    assert batches["pot"].total == amount("2.75 dozen")
    assert batches["crumb"].total == amount("248 g")
    assert batches["cracker"].total == amount("4 each")


def test_a_batch_of_a_size_asked_for_stays_as_asked():
    kitchen = _rib_house()
    assert compute_batch(kitchen, "rib", makes=amount("1 kg")).pieces == Fraction(20, 3)
    assert compute_batch(kitchen, "rib", times=Fraction(1, 8)).pieces == Fraction(15, 2)


def test_needing_a_by_product_makes_nothing_and_buys_nothing():
    night = compute_night(_rib_house(), Occasion(menu="spring", covers=200))
    assert "bone" not in night.needs
    assert night.batches["rib"].factor == Fraction(25, 6)


def test_a_by_product_that_can_be_bought_is_bought():
    kitchen = _rib_house()
    kitchen.pantry["bone"] = bought("bone")
    night = compute_night(kitchen, Occasion(menu="spring", covers=200))
    assert night.needs["bone"] == amount("7380 g")


def test_bunches_and_grams_of_one_item_stay_apart_without_a_weight():
    kitchen = _rib_house()
    night = compute_night(kitchen, Occasion(menu="spring", covers=200))
    assert "thyme" not in night.needs
    assert night.apart["thyme"] == (amount("3.075 bunch"), amount("36.9 g"))
    kitchen.pantry["thyme"] = bought("thyme", weighs={"bunch": "40"})
    together = compute_night(kitchen, Occasion(menu="spring", covers=200))
    assert together.needs["thyme"] == amount("159.9 g")
    assert together.apart == {}


def test_users_come_before_what_they_are_made_from():
    assert users_first(_rib_house()) == ("rib", "glaze", "stock")


def test_what_nobody_orders_is_not_made():
    night = compute_night(_rib_house(), Occasion(menu="spring", covers=0))
    assert (night.demands, night.batches, night.needs) == ((), {}, {})


def test_media_and_lines_per_load_reach_the_need():
    kitchen = house(
        [bought("oil")],
        [
            component("brine", "10 L", [line("oil", "1 L")]),
            component(
                "ham",
                "5 kg",
                [line("brine", "4 L", medium=True), line("oil", "200 ml", scale=Scale.PER_LOAD)],
                largest_batch="5 kg",
            ),
        ],
        [dish("plate", [element("ham", "100 g")])],
        [menu("spring", [listed("plate")])],
    )
    night = compute_night(kitchen, Occasion(menu="spring", covers=120))  # 12 kg in 3 loads
    assert night.batches["brine"].total == amount("9.6 L")
    assert night.needs["oil"] == amount("1560 ml")


@pytest.mark.parametrize(
    ("makes", "loads", "load"),
    [("18 kg", 1, "18 kg"), ("18.001 kg", 2, "9.0005 kg"), ("90 pieces", 1, "13.5 kg"), ("50 kg", 3, "16 2/3 kg")],
)
def test_a_batch_to_order_is_split_into_the_fewest_even_loads(makes, loads, load):
    batch = compute_batch(_rib_house(), "rib", makes=amount(makes))
    assert (batch.loads, batch.load) == (loads, amount(load))


def test_a_batch_by_times_and_the_base_batch():
    kitchen = _rib_house()
    assert compute_batch(kitchen, "rib", times=Fraction(3, 2)).total == amount("13.5 kg")
    base = base_batch(kitchen, "rib")
    assert (base.factor, base.loads, base.pieces) == (1, 1, 60)
    assert all(line.base == line.load == line.total for line in base.ingredients)


@pytest.mark.parametrize(("times", "count"), [("0.1", 1), ("0.374", 1), ("0.375", 2), ("0.62", 2), ("0.625", 3)])
def test_whole_lines_round_half_up_and_never_vanish(times, count):
    leaves = compute_batch(_rib_house(), "rib", times=Fraction(times)).ingredients[2]
    assert leaves.load == amount(f"{count} each")


def test_scaling_there_and_back_is_exact():
    kitchen = _rib_house()
    there = compute_batch(kitchen, "glaze", times=Fraction(7, 3))
    back = compute_batch(kitchen, "glaze", makes=compute_batch(kitchen, "glaze", times=there.factor * 3 / 7).total)
    assert back == base_batch(kitchen, "glaze")


def test_percent_of_items_lists_and_the_batch_in_dependency_order():
    kitchen = house(
        [bought("pork"), bought("fat"), bought("water", density="1"), bought("salt"), bought("spice"), bought("egg", weighs={"each": "50"})],
        [
            component(
                "sausage",
                "12 kg",
                [
                    line("spice", percent("1", "batch")),  # of everything but itself and the ice bath
                    line("salt", percent("1.8", "pork", "fat", "water")),
                    line("pork", "7 kg"),
                    line("fat", percent("40", "pork")),
                    line("water", "200 ml"),
                    line("egg", "4 each"),
                    line("water", "5 L", medium=True, stage="chill"),
                ],
            )
        ],
    )  # fmt: skip
    spice, salt, _, fat, *_ = compute_batch(kitchen, "sausage", times=Fraction(1)).ingredients
    assert fat.load == amount("2800 g")
    # water is on the card twice: 200 g and 5 kg
    assert salt.load == amount("270 g")
    assert salt.rate == 18
    assert spice.load.number == Fraction(7000 + 2800 + 200 + 200 + 270, 100)
    doubled = compute_batch(kitchen, "sausage", times=Fraction(2)).ingredients
    assert doubled[0].total.number == 2 * spice.total.number


def test_a_percentage_is_of_whole_counts_as_weighed():
    kitchen = house(
        [bought("egg", weighs={"each": "50"}), bought("salt")],
        [component("set", "1 kg", [line("egg", "3 each", scale=Scale.WHOLE), line("salt", percent("2", "egg"))])],
    )
    egg, salt = compute_batch(kitchen, "set", times=Fraction(1, 2)).ingredients  # 1.5 eggs: 2
    assert (egg.load, salt.load) == (amount("2 each"), amount("2 g"))


def test_percentages_of_pounds_are_in_ounces():
    kitchen = house([], [component("dough", "60 lb", [line("flour", "40 lb"), line("salt", percent("1.75", "flour"))])])
    assert base_batch(kitchen, "dough").ingredients[1].load == amount("11.2 oz")


def test_a_circle_of_percentages_is_refused():
    kitchen = house([], [component("odd", "1 kg", [line("a", percent("1", "b")), line("b", percent("1", "a"))])])
    with pytest.raises(ValueMistake) as caught:
        base_batch(kitchen, "odd")
    assert caught.value.code == "LB314"


@pytest.mark.parametrize("item", ["milk", "whey", "broth"])
def test_a_percentage_of_what_has_no_weight_is_refused(item):
    odd = component("odd", "1 kg", [line(item, "1 L"), line("a", percent("1", item))], also_makes=(by_product("whey"),))
    kitchen = house([bought("milk")], [odd, component("broth", "10 L")])
    with pytest.raises(ValueMistake) as caught:
        base_batch(kitchen, "odd")
    assert caught.value.code == "LB304"
    assert item in caught.value.message


def test_a_percentage_of_a_component_s_pieces_and_of_a_by_product_by_weight():
    parts = [
        component("ham", "6 kg", pieces="12", also_makes=(by_product("rind"),)),
        component("pot", "1 kg", [line("ham", "3 pieces"), line("rind", "500 g"), line("salt", percent("1", "ham", "rind"))]),
    ]  # fmt: skip
    assert base_batch(house([], parts), "pot").ingredients[2].load == amount("20 g")


def test_what_is_added_to_taste_is_on_the_card_and_in_no_need():
    part = component("sauce", "1 kg", [line("vinegar"), line("stock", "1 kg")])
    kitchen = house(
        [bought("vinegar"), bought("stock")],
        [part],
        [dish("plate", [element("sauce", "50 g")])],
        [menu("spring", [listed("plate")])],
    )
    night = compute_night(kitchen, Occasion(menu="spring", covers=10))
    vinegar = night.batches["sauce"].ingredients[0]
    assert (vinegar.base, vinegar.load, vinegar.total, vinegar.rate) == (None, None, None, None)
    assert night.needs == {"stock": amount("500 g")}
