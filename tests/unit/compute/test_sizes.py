"""How large a batch is and in how many loads each of its stages is made, worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from kitchen_factory import (
    AT,
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
    stage,
)

from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.compute.mass import weigh_batch
from linebook.compute.results import Standing, Uncounted
from linebook.compute.steps import is_in_whole_steps, is_under_smallest
from linebook.model.amounts import Amount, Duration
from linebook.model.component import Component, Scale, Stage
from linebook.model.house import Vessel
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.model.tonight import Tonight
from linebook.source.faults import ValueMistake

DAY = date(2027, 3, 6)
FOUR_DAYS = Duration(least=Fraction(4 * 1440), most=Fraction(4 * 1440), in_days=True)
EIGHT_HOURS = Duration(least=Fraction(480), most=Fraction(480))


def _of(text: str) -> Amount:
    """An amount that may be nothing, which a spec may not."""
    number, unit = text.split(" ", 1)
    return Amount(number=Fraction(number), unit=amount(f"1 {unit}").unit)


def _night(part: Component, needed: str, covers: int, *, on_hand=(), others=(), pantry=()):
    kitchen = house(
        pantry, [part, *others], [dish("plate", [element(part.id, needed)])], [menu("spring", [listed("plate")])]
    )
    return compute_night(kitchen, Occasion(menu="spring", covers=covers, date=DAY, on_hand=tuple(on_hand)))


def _sized(part: Component, *, step=None, smallest=None) -> Component:
    return replace(
        part,
        batch_step=None if step is None else amount(step),
        smallest_batch=None if smallest is None else amount(smallest),
    )


def _stock(item: str, how_much: str, made: str | None = None, use_by: str | None = None) -> StockEntry:
    return StockEntry(
        item=item,
        amount=amount(how_much),
        made=None if made is None else date.fromisoformat(made),
        use_by=None if use_by is None else date.fromisoformat(use_by),
        **AT,
    )


@pytest.mark.parametrize(
    ("step", "smallest", "largest", "covers", "total", "loads", "surplus"),
    [
        (None, None, None, 61, "6.1 kg", 1, "0 kg"),
        (None, "8 kg", None, 61, "8 kg", 1, "1.9 kg"),  # make the smallest
        ("2.4 kg", None, None, 61, "7.2 kg", 1, "1.1 kg"),  # three trays
        ("2.4 kg", "8 kg", None, 61, "9.6 kg", 1, "3.5 kg"),  # the smallest is in whole trays too
        ("2.4 kg", None, "7.2 kg", 96, "9.6 kg", 2, "0 kg"),  # four trays: two and two
        ("2.4 kg", None, "7.2 kg", 100, "14.4 kg", 2, "4.4 kg"),  # five trays in two even loads: three and three
        ("2.4 kg", None, "5 kg", 100, "14.4 kg", 3, "4.4 kg"),  # two trays fit into one load, not two and a bit
        (None, None, "5 kg", 100, "10 kg", 2, "0 kg"),
        (None, None, "5 kg", 101, "10.1 kg", 3, "0 kg"),
    ],
)
def test_steps_smallest_and_largest(step, smallest, largest, covers, total, loads, surplus):
    fields = {} if largest is None else {"largest_batch": largest}
    part = _sized(component("cake", "4.8 kg", [line("flour", "2 kg")], **fields), step=step, smallest=smallest)
    batch = _night(part, "100 g", covers).batches["cake"]
    assert (batch.total, batch.loads, batch.surplus) == (amount(total), loads, _of(surplus))
    assert batch.needed == amount(f"{covers / 10} kg")
    assert batch.on_hand is None


def test_pieces_then_whole_trays():
    part = _sized(component("slab", "2.4 kg", [line("flour", "1 kg")], pieces="16"), step="16 pieces")
    batch = _night(part, "1 piece", 33).batches["slab"]
    assert (batch.pieces, batch.total, batch.surplus) == (48, amount("7.2 kg"), amount("2.25 kg"))  # 15 pieces over


def test_a_size_asked_for_stays_and_is_told_where_it_is_no_good_one():
    part = _sized(component("cake", "4.8 kg", [line("flour", "2 kg")]), step="2.4 kg", smallest="2 kg")
    batch = compute_batch(house([], [part]), "cake", makes=amount("1.9 kg"))
    assert (batch.total, batch.needed, batch.surplus) == (amount("1.9 kg"), None, None)
    assert is_under_smallest(part, batch.total)
    assert not is_in_whole_steps(part, batch.total)
    assert not is_under_smallest(part, amount("2 kg"))
    assert is_in_whole_steps(part, amount("7.2 kg"))


def _rib(*, whole: Scale = Scale.LINEAR, **fields: object) -> Component:
    """9 kg of rib: 14 kg of meat under 9 L of brine, then smoked, then braised in its own pot."""
    part = component(
        "rib",
        "9 kg",
        [
            line("beef", "14 kg", stage="brine"),
            line("brine", "9 L", stage="brine", medium=True),
            line("bay", "3 each", stage="brine", scale=whole),
            line("stock", "4 L", stage="braise"),
            line("thyme", "20 g", stage="braise", scale=Scale.PER_LOAD),
            line("salt", percent("1", "beef", "thyme"), stage="braise"),
        ],
        also_makes=(by_product("trim", "beef", "brine"),),
        **fields,
    )
    return replace(part, stages=(stage("brine"), stage("smoke"), stage("braise")))


def _kitchen(part: Component, vessels=()):
    pantry = [
        bought("beef"),
        bought("brine", density="1.05"),
        bought("bay", weighs={"each": "1"}),
        bought("stock", density="1"),
        bought("thyme"),
        bought("salt"),
    ]
    made = house(pantry, [part])
    return replace(made, file=replace(made.file, vessels=tuple(vessels)))


def _most(part: Component, at: int, most: str, *of: str) -> Component:
    stages = list(part.stages)
    stages[at] = replace(stages[at], at_most=amount(most), of=of)
    return replace(part, stages=tuple(stages))


@pytest.mark.parametrize(
    ("most", "of", "loads"),
    [
        ("28 kg", ("beef",), (1, 1, 1)),  # twice the card: 28 kg of beef
        ("27.9 kg", ("beef",), (2, 1, 1)),
        ("18 L", ("brine",), (1, 1, 1)),
        ("17 L", ("brine",), (2, 1, 1)),
        ("46.906 kg", (), (1, 1, 1)),  # 28 kg of beef, 18 L x 1.05 and 6 g of bay leaves
        ("46.905 kg", (), (2, 1, 1)),
        ("15 kg", ("beef", "brine"), (4, 1, 1)),  # 46.9 kg
    ],
)
def test_a_stage_counts_what_lies_in_it(most, of, loads):
    batch = compute_batch(_kitchen(_most(_rib(), 0, most, *of)), "rib", times=Fraction(2))
    assert (batch.loads, batch.stage_loads) == (1, loads)


def test_a_later_stage_holds_what_went_in_less_media_and_trim():
    # smoked: 28 kg of beef and 6 g of bay leaves, less 2 kg of trim; the brine stays behind
    kitchen = _kitchen(_most(_rib(), 1, "26.006 kg"))
    assert compute_batch(kitchen, "rib", times=Fraction(2)).stage_loads == (1, 1, 1)
    kitchen = _kitchen(_most(_rib(), 1, "26.005 kg"))
    assert compute_batch(kitchen, "rib", times=Fraction(2)).stage_loads == (1, 2, 1)


def test_a_stage_of_its_own_capacity_needs_no_loads_of_the_largest_batch():
    part = _most(_rib(largest_batch="9 kg"), 1, "100 kg")
    batch = compute_batch(_kitchen(part), "rib", times=Fraction(3))
    assert (batch.loads, batch.stage_loads) == (3, (3, 1, 3))
    assert [entry.loads for entry in batch.ingredients] == [3, 3, 3, 3, 3, 3]


def test_each_line_is_split_by_its_own_stage():
    part = _most(_most(_rib(whole=Scale.WHOLE), 0, "10 kg", "beef"), 2, "5 L", "stock")
    batch = compute_batch(_kitchen(part), "rib", times=Fraction(2))
    assert batch.stage_loads == (3, 1, 2)
    beef, brine, bay, stock, thyme, salt = batch.ingredients
    assert (beef.total, beef.load, beef.loads) == (amount("28 kg"), amount("9 1/3 kg"), 3)
    assert (brine.load, stock.load) == (amount("6 L"), amount("4 L"))
    assert (bay.load, bay.total, bay.unrounded) == (amount("2 each"), amount("6 each"), amount("2 each"))
    assert (thyme.load, thyme.total) == (amount("20 g"), amount("40 g"))  # once a load of its stage
    assert (salt.total, salt.load) == (amount("280.4 g"), amount("140.2 g"))  # of all the beef and all the thyme
    assert salt.rate == 10


def test_what_goes_in_by_the_load_takes_its_room_in_each():
    part = component(
        "ham",
        "9 kg",
        [line("ham", "9 kg", stage="cook"), line("water", "3 kg", stage="cook", scale=Scale.PER_LOAD)],
        stages=(replace(stage("cook"), at_most=amount("12 kg")),),
    )
    # 36 kg of ham: in four loads 9 kg and 3 kg of water, which is 12 kg; in three it is 15 kg
    batch = compute_batch(house([bought("ham"), bought("water")], [part]), "ham", times=Fraction(4))
    assert batch.stage_loads == (4,)
    assert batch.ingredients[1].total == amount("12 kg")


def test_a_stage_counts_the_pieces_that_are_made():
    part = replace(component("bun", "4 kg", pieces="80"), stages=(replace(stage("bake"), at_most=amount("30 pieces")),))
    assert compute_batch(house([], [part]), "bun", makes=amount("90 pieces")).stage_loads == (3,)
    assert compute_batch(house([], [part]), "bun", makes=amount("91 pieces")).stage_loads == (4,)


@pytest.mark.parametrize(
    ("holds", "fill", "count", "loads"),
    [
        # 28 kg of beef less 2 kg of trim, 6 g of bay leaves, 8 L of stock, 20 g of thyme, 280.2 g of salt: 34.3062 L
        ("50 L", "1", None, (1, 1, 1)),
        ("50 L", "0.687", None, (1, 1, 1)),
        ("50 L", "0.686", None, (1, 1, 2)),
        ("12 L", "1", None, (1, 1, 3)),
        ("12 L", "1", 2, (1, 1, 2)),
    ],
)
def test_a_vessel_splits_what_it_does_not_hold(holds, fill, count, loads):
    pot = Vessel(id="pot", name="pot", holds=amount(holds), fill=Fraction(fill), count=count, **AT)
    part = _rib()
    part = replace(part, stages=(*part.stages[:2], replace(part.stages[2], vessel="pot")))
    batch = compute_batch(_kitchen(part, [pot]), "rib", times=Fraction(2))
    assert batch.stage_loads == loads


ALONE = Duration(least=Fraction(60), most=Fraction(60))


def _pot(holds: str) -> Vessel:
    return Vessel(id="pot", name="pot", holds=amount(holds), fill=Fraction(1), count=None, **AT)


def _split(holds: str, *stages: Stage) -> tuple[int, ...]:
    part = replace(_rib(), stages=stages)
    return compute_batch(_kitchen(part, [_pot(holds)]), "rib", times=Fraction(2)).stage_loads


BRINED, SMOKED, BRAISED = stage("brine"), stage("smoke"), stage("braise")


def test_what_stood_by_itself_elsewhere_counts_what_comes_of_it():
    # 18 kg are made with 8 L of stock, 20 g of thyme and 280.2 g of salt: 9.6998 kg of it were there before; 18 L
    smoked = replace(SMOKED, unattended=ALONE)
    assert _split("18 L", BRINED, smoked, replace(BRAISED, vessel="pot")) == (1, 1, 1)
    assert _split("17.9 L", BRINED, smoked, replace(BRAISED, vessel="pot")) == (1, 1, 2)


def test_a_vessel_keeps_what_went_in_at_an_earlier_stage_and_unnamed_stages_move_nothing():
    brined = replace(BRINED, vessel="pot", unattended=ALONE)
    for between in (SMOKED, replace(SMOKED, vessel="pot"), replace(SMOKED, unattended=ALONE)):
        # 28 kg of beef and 18 L of brine; then without the brine and the trim, as above
        assert _split("47 L", brined, between, replace(BRAISED, vessel="pot")) == (1, 1, 1)
        assert _split("34 L", brined, between, replace(BRAISED, vessel="pot"))[2] == 2
    elsewhere = replace(SMOKED, vessel="rack", unattended=ALONE)
    assert _split("18 L", brined, elsewhere, replace(BRAISED, vessel="pot")) == (3, 1, 1)


def test_where_nothing_goes_in_nothing_is_asked_of_a_vessel():
    assert _split("1 L", BRINED, replace(SMOKED, vessel="pot"), BRAISED) == (1, 1, 1)


def test_what_stands_in_and_cannot_be_counted_leaves_the_loads_of_the_whole():
    part = _most(_rib(largest_batch="9 kg"), 0, "20 each", "bay")
    kitchen = _kitchen(part)
    assert compute_batch(kitchen, "rib", times=Fraction(2)).stage_loads == (1, 2, 2)
    leaf = replace(part.ingredients[2], amount=amount("3 g"))
    stands_in = replace(part, ingredients=(*part.ingredients[:2], leaf, *part.ingredients[3:]))
    kitchen.components["rib"] = stands_in
    kitchen.pantry["bay"] = bought("bay")
    with pytest.raises(ValueMistake, match="cannot be turned into a count"):
        compute_batch(kitchen, "rib", times=Fraction(2))
    tonight = replace(kitchen, tonight=Tonight(before=kitchen, missing=("bay-leaf",)))
    assert compute_batch(tonight, "rib", times=Fraction(2)).stage_loads == (2, 2, 2)


def test_held_back_grows_with_the_batch():
    part = component("soup", "5 L", [line("salt", "40 g", scale=Scale.HELD_BACK)], largest_batch="5 kg", density="1")
    salt = compute_batch(house([bought("salt")], [part]), "soup", times=Fraction(3)).ingredients[0]
    assert (salt.load, salt.total) == (amount("40 g"), amount("120 g"))


def test_stock_is_taken_off_and_lowers_what_it_is_made_from():
    stock_pot = component("stock", "10 L", [line("bone", "8 kg")], density="1", keeps=FOUR_DAYS)
    glaze = component("glaze", "2 kg", [line("stock", "3 L")], loss="0.1", keeps=FOUR_DAYS)
    entries = [
        _stock("glaze", "1.5 kg", made="2027-03-04"),
        _stock("glaze", "500 g", made="2027-03-03", use_by="2027-03-06"),
        _stock("stock", "1 L", made="2027-03-03"),  # its last day
    ]
    night = _night(glaze, "20 g", 180, others=[stock_pot], pantry=[bought("bone")], on_hand=entries)
    # 180 x 20 g / 0.9 = 4 kg; 2 kg on hand; 2 kg made, of 3 L of stock, 2 L of which are made
    made, pot = night.batches["glaze"], night.batches["stock"]
    assert (made.needed, made.on_hand, made.total, made.surplus) == tuple(map(_of, ("4 kg", "2 kg", "2 kg", "0 kg")))
    assert (pot.needed, pot.on_hand, pot.total) == (amount("3 L"), amount("1 L"), amount("2 L"))
    assert night.needs["bone"] == amount("1600 g")
    assert [(use.used, use.last) for use in night.stock] == [
        (amount("1.5 kg"), date(2027, 3, 7)),
        (amount("0.5 kg"), date(2027, 3, 6)),
        (amount("1 L"), date(2027, 3, 6)),
    ]


def test_what_must_be_served_first_is_taken_first():
    part = component("glaze", "2 kg", [line("stock", "3 L")], keeps=FOUR_DAYS)
    entries = [_stock("glaze", "1 kg", made="2027-03-05"), _stock("glaze", "1 kg", made="2027-03-03")]
    night = _night(part, "20 g", 60, on_hand=entries)
    assert [use.used for use in night.stock] == [amount("0.2 kg"), amount("1 kg")]


def test_with_enough_on_hand_nothing_is_made():
    part = component("glaze", "2 kg", [line("stock", "3 L")], keeps=FOUR_DAYS)
    night = _night(part, "20 g", 50, on_hand=[_stock("glaze", "1 kg", made="2027-03-06")], pantry=[bought("stock")])
    assert night.batches == {}
    assert night.covered == {"glaze": amount("1 kg")}
    assert night.needs == {}


@pytest.mark.parametrize(
    ("keeps", "made", "use_by", "reason"),
    [
        (FOUR_DAYS, "2027-03-03", None, None),  # day 4
        (FOUR_DAYS, "2027-03-02", None, Uncounted.OVER),
        (FOUR_DAYS, None, None, Uncounted.UNDATED),
        (FOUR_DAYS, "2027-03-02", "2027-03-06", None),  # the label says so
        (FOUR_DAYS, "2027-03-05", "2027-03-05", Uncounted.OVER),
        (FOUR_DAYS, "2027-03-07", None, Uncounted.AHEAD),
        (FOUR_DAYS, None, "2027-03-06", None),
        (EIGHT_HOURS, "2027-03-06", None, None),
        (EIGHT_HOURS, "2027-03-05", None, Uncounted.OVER),
        (None, "2027-03-06", None, None),
        (None, "2027-03-05", None, Uncounted.NO_LIFE),
    ],
)
def test_stock_counts_while_it_is_in_life(keeps, made, use_by, reason):
    part = component("glaze", "2 kg", [line("stock", "3 L")], keeps=keeps)
    night = _night(part, "20 g", 60, on_hand=[_stock("glaze", "1 kg", made, use_by)])
    (use,) = night.stock
    assert use.reason is reason
    assert (use.counted is None) == (reason is not None)
    assert night.batches["glaze"].total == (amount("0.2 kg") if reason is None else amount("1.2 kg"))


def test_stock_in_a_unit_that_cannot_meet_or_of_nothing_known_does_not_count():
    part = component("glaze", "2 kg", [line("stock", "3 L")], keeps=FOUR_DAYS)
    entries = [_stock("glaze", "1 L", made="2027-03-06"), _stock("gloss", "1 kg", made="2027-03-06")]
    night = _night(part, "20 g", 60, on_hand=entries)
    assert [use.reason for use in night.stock] == [Uncounted.UNITS, Uncounted.UNKNOWN]


def test_a_night_without_a_date_has_no_stock():
    part = component("glaze", "2 kg", [line("stock", "3 L")], keeps=FOUR_DAYS)
    kitchen = house([], [part], [dish("plate", [element("glaze", "20 g")])], [menu("spring", [listed("plate")])])
    kitchen.menus["spring"] = replace(kitchen.menus["spring"], on_hand=(_stock("glaze", "9 kg", made="2027-03-06"),))
    standard = compute_night(kitchen, Occasion(menu="spring", covers=60))
    assert (standard.stock, standard.batches["glaze"].total) == ((), amount("1.2 kg"))
    dated = compute_night(kitchen, Occasion(menu="spring", covers=60, date=DAY))
    assert dated.covered == {"glaze": amount("1.2 kg")}


@pytest.mark.parametrize(
    ("takes", "held", "standing", "difference"),
    [
        ("500 g", None, Standing.SPARE, "1.5 kg"),  # two batches leave 2 kg
        ("1 kg", None, Standing.SPARE, "1 kg"),
        ("2 kg", None, Standing.COVERED, "0 kg"),
        ("3 kg", None, Standing.SHORT, "1 kg"),
        ("3 kg", "400 g", Standing.SHORT, "0.6 kg"),
        ("3 kg", "1 kg", Standing.COVERED, "0 kg"),
    ],
)
def test_trim_is_covered_short_or_spare(takes, held, standing, difference):
    rib = component("rib", "9 kg", [line("beef", "14 kg")], also_makes=(by_product("trim"),))
    sauce = component("sauce", "1 kg", [line("trim", takes)])
    kitchen = house(
        [bought("beef")],
        [rib, sauce],
        [dish("plate", [element("rib", "180 g"), element("sauce", "10 g")])],
        [menu("spring", [listed("plate")])],
    )
    entries = () if held is None else (_stock("trim", held, use_by="2027-03-06"),)
    night = compute_night(kitchen, Occasion(menu="spring", covers=100, date=DAY, on_hand=entries))
    balance = night.balances["trim"]
    assert (balance.standing, balance.difference) == (standing, _of(difference))
    assert [(use.user, use.amount) for use in balance.makers] == [("rib", amount("2 kg"))]
    assert [(use.user, use.amount) for use in balance.uses] == [("sauce", amount(takes))]


def test_trim_that_nobody_makes_tonight_is_short_of_all():
    rib = component("rib", "9 kg", [line("beef", "14 kg")], also_makes=(by_product("trim"),))
    kitchen = house([], [rib], [dish("plate", [element("trim", "10 g")])], [menu("spring", [listed("plate")])])
    balance = compute_night(kitchen, Occasion(menu="spring", covers=100)).balances["trim"]
    assert (balance.standing, balance.difference, balance.makers) == (Standing.SHORT, amount("1 kg"), ())


def test_trim_in_measures_that_cannot_meet_is_not_balanced():
    rib = component("rib", "9 kg", [line("beef", "14 kg")], also_makes=(by_product("trim"),))
    kitchen = house(
        [bought("beef")],
        [rib],
        [dish("plate", [element("rib", "180 g"), element("trim", "2 pieces")])],
        [menu("spring", [listed("plate")])],
    )
    balance = compute_night(kitchen, Occasion(menu="spring", covers=50)).balances["trim"]
    assert (balance.standing, balance.made, balance.needed) == (Standing.APART, amount("1 kg"), amount("100 pieces"))


def test_what_goes_in_is_made_kept_or_lost():
    batch = compute_batch(_kitchen(_rib()), "rib", times=Fraction(2))
    # 28 kg, 6 bay leaves of 1 g, 8 kg of stock, 20 g of thyme, 1 % of 28.02 kg; media are not in it
    mass = weigh_batch(_kitchen(_rib()), batch)
    assert mass.went_in == 28000 + 6 + 8000 + 20 + Fraction("280.2")
    assert (mass.makes, mass.by_products) == (18000, 2000)
    assert mass.lost == mass.went_in - 20000


def test_what_cannot_be_weighed_is_not_balanced():
    part = component("soup", "5 L", [line("leek", "4 bunches")])
    assert weigh_batch(house([bought("leek")], [part]), compute_batch(house([bought("leek")], [part]), "soup")) is None
