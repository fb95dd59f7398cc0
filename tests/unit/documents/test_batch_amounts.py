"""What a batch card says of its size: need, stock, what is over, what was had, trim, pans, what it gave."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from math import ceil

import pytest
from card_reading import asides, facts_of, paragraph, pieces, row
from sample_house import (
    SATURDAY,
    amount,
    binder_view,
    cover_view,
    degrees,
    made,
    minutes,
    night_view,
    pantry_item,
    sample_components,
    sample_house,
    sample_house_file,
    sheet,
    short_rib,
    short_rib_dish,
    simple,
)
from sized_house import RIB, sized_house, sized_night, sized_rib, stock

from linebook.compute.allergens import compute_allergens
from linebook.compute.base import base_batch
from linebook.compute.demand import compute_night
from linebook.compute.results import Leftover, PortionsGiven, Sized
from linebook.documents.batch_card import night_batch_card
from linebook.documents.vessel_words import counted_vessels
from linebook.documents.wording import english, wording_in
from linebook.model.component import Cut, Store
from linebook.model.house import Vessel
from linebook.model.occasion import Occasion
from linebook.model.units import to_base

HOUSE = sized_house()


# need, stock, over


def test_on_an_ordinary_night_nothing_is_said_of_the_size():
    assert not {"fact.needed", "fact.on-hand", "fact.over", "fact.asked"} & facts_of(sized_night(HOUSE)).keys()


def test_stock_is_taken_off_and_said_with_its_dates():
    on_hand = (stock("6 kg", made=date(2027, 3, 5)), stock("1 kg"), stock("2 kg", made=date(2027, 3, 1)))
    view = sized_night(HOUSE, 140, *on_hand)
    facts = facts_of(view)
    # 79 full and 20 to share are 238 pieces; over 0.96 at 150 g a piece 37.19 kg; less 6 kg, in whole pieces 31.2 kg
    assert pieces(140) * Fraction(9, 60) > 37
    assert paragraph(view, "makes") == "Makes 31 kg, 208 pieces"
    assert facts["fact.needed"] == "37 kg for this service; with what is on hand, make 31 kg"
    assert facts["fact.on-hand"] == (
        "6 kg, made Fri 5 March, use by Mon 8 March; 1 kg not counted: nobody wrote when it was made; "
        "2 kg, made Mon 1 March not counted: past its use-by"
    )


def test_what_is_over_says_why_and_whether_it_keeps():
    smallest = sized_rib(smallest_batch=amount("9 kg"), pieces=None)
    dish = replace(short_rib_dish(), sizes=())
    lines = tuple(replace(one, amount=amount("300 g")) if one.item == RIB else one for one in dish.elements)
    house = replace(sized_house(smallest), dishes=HOUSE.dishes | {"short-rib": replace(dish, elements=lines)})
    menu = house.menus["early-spring"]
    dishes = tuple(replace(entry, mix={}) for entry in menu.dishes)
    house = replace(house, menus={"early-spring": replace(menu, dishes=dishes)})
    facts = facts_of(sized_night(house, 20))
    # 14 portions of 300 g over 0.96 are 4.375 kg; 9 kg are made, and 4 d from Saturday reach Tuesday, which is closed
    assert facts["fact.needed"] == "4.4 kg for this service"
    assert facts["fact.over"] == (
        "4.6 kg: 4.4 kg would do, and 9 kg is the smallest batch; "
        "does not keep until Wed 10 March, the next service: log it or use it"
    )
    friday = facts_of(sized_night(house, 20, day=date(2027, 3, 5)))["fact.over"]
    assert friday.endswith("keeps until Sat 6 March, the next service, if made on Wed 3 March or later")
    fresh = replace(house, components=house.components | {RIB: replace(smallest, keeps=minutes(2 * 1440, days=True))})
    assert facts_of(sized_night(fresh, 20, day=date(2027, 3, 5)))["fact.over"].endswith(
        "keeps until Sat 6 March, the next service, if made on Fri 5 March"
    )
    unknown = replace(house, components=house.components | {RIB: replace(smallest, keeps=None)})
    assert "ask the chef before you store it" in facts_of(sized_night(unknown, 20))["fact.over"]


def test_whole_steps_are_named_as_the_reason():
    facts = facts_of(sized_night(sized_house(sized_rib(batch_step=amount("9 kg"))), 30))
    assert "it is made in whole ones of 9 kg; " in facts["fact.over"]


def by_hand(component, sized: Sized | None = None, times: str = "1/2"):
    from linebook.compute.batches import compute_batch

    house = sized_house(component)
    batch = sized.batch if sized else compute_batch(house, RIB, times=Fraction(times))
    night = compute_night(house, Occasion(menu="early-spring", covers=140, date=SATURDAY))
    alone = replace(night, occasion=replace(night.occasion, covers=0), batches={RIB: batch}, balances={}, sized=sized)
    table = compute_allergens(house, "early-spring")
    return night_batch_card(house, base_batch(house, RIB), alone, RIB, table, english())


def test_a_size_asked_for_by_hand_is_made_and_what_is_odd_of_it_is_said():
    odd = by_hand(sized_rib(smallest_batch=amount("5 kg"), batch_step=amount("2 kg")))
    assert facts_of(odd)["fact.asked"] == (
        "under the smallest batch, 5 kg: it may not come out well; not in whole ones of 2 kg"
    )
    assert "fact.asked" not in facts_of(by_hand(sized_rib(smallest_batch=amount("4.5 kg"))))


def test_what_was_had_says_what_decides_what_is_left_and_how_many_portions():
    from linebook.compute.batches import compute_batch

    batch = compute_batch(sized_house(), RIB, times=Fraction(1))
    left = Leftover(item="fine-salt", had=amount("1 kg"), used=amount("250 g"), left=amount("750 g"))
    gone = Leftover(
        item="beef-short-rib",
        had=amount("14 kg"),
        used=amount("14 kg"),
        left=replace(amount("1 kg"), number=Fraction(0)),
    )
    given = PortionsGiven(amount=amount("2 pieces"), count=28, dish="short-rib", size="to-share")
    sized = Sized(batch=batch, limiting=("beef-short-rib",), left=(gone, left), portions=(given,))
    facts = facts_of(by_hand(sized_rib(), sized))
    assert facts["fact.limit"] == "beef short rib, bone in decides how much is made"
    assert facts["fact.left"] == "750 g fine salt"
    assert facts["fact.gives"] == "28 portions of Short rib, celeriac, walnut (to share), 2 pieces each"
    both = facts_of(by_hand(sized_rib(), replace(sized, limiting=("beef-short-rib", "fine-salt"), portions=())))
    assert both["fact.limit"] == "beef short rib, bone in and fine salt decide how much is made"
    asked = facts_of(by_hand(sized_rib(), replace(sized, portions=(PortionsGiven(amount=amount("60 g"), count=30),))))
    assert asked["fact.gives"] == "30 portions of 60 g"


# trim


def test_who_makes_a_by_product_reads_how_it_stands():
    # made: 900 g a batch, 248/60 of it: 3.72 kg; needed: 79 × 25 ml and 20 × 45 ml of jus, 1.2 kg for 3 L: 1.15 kg
    # printed are 3.7 kg, and 1.15 kg of it needed
    assert row(sized_night(HOUSE), "keep.beef-trim")[3].endswith("; 2.55 kg spare: use it or log it")
    entry = replace(short_rib().also_makes[0], amount=amount("100 g"))
    short = sized_night(sized_house(sized_rib(also_makes=(entry,))))
    needed = (
        to_base(amount("1.2 kg")) * 25 * (ceil(Fraction("0.56") * 140) + Fraction("1.8") * ceil(Fraction("0.14") * 140))
    )
    needed = needed / 3000
    made_of_it = 100 * Fraction(pieces(140), 60)
    text = row(short, "keep.beef-trim")[3]
    assert text.split("; ")[-1].startswith("short by ")
    assert text.endswith("needed: make or buy it")
    shown = Fraction(text.split("short by ")[1].split(" g")[0])
    assert abs(shown - (needed - made_of_it)) <= (needed - made_of_it) / 100


def test_who_needs_a_by_product_reads_only_that_it_is_short():
    entry = replace(short_rib().also_makes[0], amount=amount("100 g"))
    short = sized_house(sized_rib(also_makes=(entry,)))
    assert "make or buy it" in row(sized_night(short, component="short-rib-jus"), "ingredient.make.beef-trim")[3]
    assert "spare" not in row(sized_night(HOUSE, component="short-rib-jus"), "ingredient.make.beef-trim")[3]


def test_stock_of_a_by_product_is_named_in_its_balance():
    on_hand = replace(stock("500 g", made=SATURDAY), item="beef-trim")
    assert row(sized_night(HOUSE, 140, on_hand), "keep.beef-trim")[3].endswith(", with 500 g on hand")


def test_a_cover_tells_what_falls_short_on_its_standard_nights():
    entry = replace(short_rib().also_makes[0], amount=amount("100 g"))
    short = sized_house(sized_rib(also_makes=(entry,)))
    for line in ("hearth", "stove"):  # who makes it and who needs it
        view = cover_view(short, line)
        (one,) = view.short
        assert one.name.plain == "beef trim, from Smoked short rib, glazed"
        assert len(one.figures) == 2
        assert all(figure.first[0].bold for figure in one.figures)
        assert "Kept for other cards, and not enough" in repr(sheet(view))
    assert cover_view(HOUSE).short == ()  # it is spare every night


# what came of it, pans, cutting


def test_a_card_asks_what_it_gave_and_of_what_was_bought():
    for view in (binder_view(HOUSE), sized_night(HOUSE)):
        assert facts_of(view)["fact.made"] == "ahead; got ___ kg; beef short rib bought ___ kg, usable ___ kg"


def test_what_nobody_trims_asks_only_what_it_gave():
    assert facts_of(binder_view(HOUSE, "brine-basic"))["fact.made"] == "ahead; got ___ L"


def test_trim_worth_writing_down_is_much_of_the_batch():
    pantry = HOUSE.pantry | {
        "celeriac": pantry_item("celeriac", "celeriac", "celery", usable=Fraction(3, 4)),
        "butter": pantry_item("butter", "unsalted butter", "milk", usable=Fraction(9, 10)),
    }
    view = binder_view(replace(HOUSE, pantry=pantry), "celeriac-puree")
    assert facts_of(view)["fact.made"] == "ahead; got ___ kg; celeriac bought ___ kg, usable ___ kg"
    only_butter = HOUSE.pantry | {"butter": pantry["butter"]}
    little = binder_view(replace(HOUSE, pantry=only_butter), "celeriac-puree")
    assert facts_of(little)["fact.made"] == "ahead; got ___ kg"


def vessels(*names: str):
    return tuple(made(Vessel, id=f"v{at}", name=name, holds=amount("3 L")) for at, name in enumerate(names))


@pytest.mark.parametrize(
    ("name", "one", "three"),
    [
        ("sixth pan 100 deep", "1 sixth pan 100 deep", "3 sixth pans 100 deep"),
        ("rack over a full pan", "1 rack over a full pan", "3 racks over a full pan"),
        ("bain-marie pot", "1 bain-marie pot", "3 bain-marie pots"),
        ("dough box", "1 dough box", "3 dough boxes"),
        ("40 L stockpot", "1 × 40 L stockpot", "3 × 40 L stockpots"),
        ("Rondeau", "1 Rondeau", "3 × Rondeau"),
    ],
)
def test_vessels_are_counted_by_their_name(name, one, three):
    house = sample_house(file=sample_house_file(vessels=vessels(name)))
    shown = [counted_vessels(house, "v0", count, english()).plain.replace("\u00a0", " ") for count in (1, 3)]
    assert shown == [one, three]


def test_a_vessel_is_not_given_a_plural_in_a_language_nobody_knows_it_in():
    house = sample_house(file=sample_house_file(vessels=vessels("sixth pan")))
    both = counted_vessels(house, "v0", 3, wording_in(("en", "es")))
    assert both.both.replace("\u00a0", " ") == "3 sixth pans / 3 × sixth pan"
    assert counted_vessels(house, "v0", 3, wording_in(("es",))).plain.replace("\u00a0", " ") == "3 × sixth pan"


@pytest.mark.parametrize(
    ("name", "three"),
    [
        ("recipiente entero de 150 de fondo", "3 recipientes enteros de 150 de fondo"),
        ("recipiente de un tercio de 65 de fondo", "3 recipientes de un tercio de 65 de fondo"),
        ("rejilla sobre recipiente entero", "3 rejillas sobre recipiente entero"),
        ("tarro hermético de 3 L", "3 tarros herméticos de 3 L"),
        ("rondón de 24 L", "3 rondones de 24 L"),
        ("sartén de hierro de 30 cm", "3 sartenes de hierro de 30 cm"),
        ("bol de 10 L", "3 boles de 10 L"),
        ("bandeja de horno 60 x 40", "3 bandejas de horno 60 x 40"),
        ("biberón", "3 biberones"),
        ("hermoso rincón", "3 × hermoso rincón"),
    ],
)
def test_vessels_are_counted_in_spanish(name, three):
    house = sample_house(file=sample_house_file(vessels=vessels(name)))
    assert counted_vessels(house, "v0", 3, wording_in(("es",))).plain.replace("\u00a0", " ") == three


def test_tonight_s_batch_is_counted_in_the_pans_it_is_stored_in():
    puree = replace(
        sample_components()["celeriac-puree"],
        density=Fraction(1),
        store=made(Store, temperature=degrees(3), vessel="third-pan-100", place="walk-in"),
    )
    house = sample_house(components=sample_components() | {"celeriac-puree": puree})
    # 70 g and 1.8 × 70 g: 79 and 20 portions are 8.05 kg, and a third pan takes 3.15 L
    assert facts_of(night_view(house, "celeriac-puree"))["fact.store"] == "3 °C, walk-in, 3 third pans 100 deep"


def test_a_load_that_fills_several_vessels_says_how_many_at_the_least():
    brine = replace(
        simple("brine-basic", "Basic brine", "stove", "10 L", ("water", "10 L")),
        stages=(replace(simple("x", "X", "stove", "1 L").stages[0], vessel="tub"),),
    )
    tub = made(Vessel, id="tub", name="brine tub", holds=amount("5 L"), fill=Fraction(9, 10), count=40)
    components = sample_components() | {"brine-basic": brine}
    house = sample_house(file=sample_house_file(vessels=(*sample_house_file().vessels, tub)), components=components)
    house = replace(house, pantry=house.pantry | {"water": pantry_item("water", "tap water", density=Fraction(1))})
    litres = Fraction(pieces(140), 60) * 9
    tubs = ceil(litres / Fraction("4.5"))
    assert f"at least {tubs} brine tubs" in asides(night_view(house, "brine-basic"))["Make"]


def test_a_card_that_is_cut_names_its_cutting_plan():
    cut = made(Cut, block=(Fraction(400), Fraction(300)), piece=(Fraction(50), Fraction(50)))
    facts = facts_of(binder_view(sized_house(sized_rib(cut=cut))))
    assert facts["fact.cut"] == "48 pieces from each block: see its cutting plan"  # 8 by 6
