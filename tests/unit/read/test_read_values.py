"""What each type of value makes of good and bad text, and where the fault points."""

from __future__ import annotations

import datetime
from fractions import Fraction

import pytest
from read_specs import GOOD, faults_of, read_changed, said

from linebook.model.amounts import Duration, Percent, Temperature, ToTaste
from linebook.model.component import Attended, Limit, Scale
from linebook.model.dish import Place, Shape
from linebook.model.house import Climate, InstrumentKind, PlateShape
from linebook.model.units import to_base

HOUSE_FILE = "house.yaml"
PANTRY_FILE = "pantry/meat.yaml"
MENU_FILE = "menus/early-spring.yaml"
DISH_FILE = "dishes/short-rib.md"
COMPONENT_FILE = "components/short-rib-glazed.md"


@pytest.fixture(scope="module")
def good(tmp_path_factory):
    value = read_changed(tmp_path_factory.mktemp("good")).outcome.value
    assert value is not None
    return value


def test_house(good):
    house = good.file
    assert (house.name, house.rules, house.currency, house.fahrenheit, house.paper) == (
        "Harrow Weir",
        "FDA Food Code 2022",
        "£",
        False,
        "a4",
    )
    assert house.nights == (80, 110, 150)
    assert house.tolerance == Fraction(1, 100)
    assert house.line_up_portions == 1
    assert (house.measures.cup, house.measures.spoon, house.measures.pint) == ("us", "metric", "imperial")
    assert {name: to_base(holds) for name, holds in house.measures.vessels.items()} == {
        "rondeau-24": 24000,
        "third-pan-100": 3500,
    }
    assert [(line.id, line.name, line.cooks, line.set_up) for line in house.lines] == [
        ("larder", "Larder", 2, datetime.time(16, 30)),
        ("hearth", "Hearth", 1, None),
    ]
    assert house.allergens.lists == ("uk",)
    assert dict(house.allergens.avoid) == {"honey": "honey"}
    assert house.allergens.older_than == Duration(least=Fraction(525600), most=Fraction(525600), in_days=True)


def test_service_and_equipment(good):
    house = good.file
    assert house.service.days == ("tue", "wed", "thu", "fri", "sat")
    assert (house.service.doors, house.service.staffed_to) == (datetime.time(17, 30), datetime.time(23, 30))
    assert house.service.closed == (datetime.date(2027, 3, 16),)
    assert [(vessel.id, vessel.fill, vessel.count) for vessel in house.vessels] == [
        ("rondeau-24", Fraction(3, 4), 2),
        ("third-pan-100", 1, None),
        ("gn-rack", 1, None),
    ]
    assert [(place.id, place.climate) for place in house.places][::2] == [
        ("walk-in", Climate.COLD),
        ("smoker", Climate.HOT),
    ]
    assert [(medium.carries, medium.changed_between) for medium in house.media] == [(("frying-oil",), False)]
    assert [(plate.name, plate.shape, plate.length, plate.width, plate.rim) for plate in house.plates] == [
        ("oval plate 30 cm", PlateShape.OVAL, 300, 220, 30),
        ("round 28", PlateShape.ROUND, 280, 280, 0),
    ]
    assert [(tool.kind, tool.name, to_base(tool.reads)) for tool in house.instruments] == [
        (InstrumentKind.SCALE, "bench scale", 5),
        (InstrumentKind.JUG, "2 L jug", 50),
        (InstrumentKind.SPOON, "measuring spoons", Fraction(5, 4)),
    ]


def test_pantry_item(good):
    rib, flour = good.pantry
    assert rib.allergens.contains == ()
    assert rib.allergens.may_contain == ("celery",)
    assert flour.allergens.contains == ("wheat",)
    assert flour.allergens.may_contain == ("soy",), "what is exempt may be in it all the same"
    assert dict(flour.allergens.exempt) == {"soy": "fully refined oil"}
    assert rib.density == Fraction(103, 100)
    assert dict(rib.weighs) == {"leaf": Fraction(5, 2), "each": 45}
    assert (rib.price.money, to_base(rib.price.per)) == (Fraction(29, 2), 1000)
    assert rib.price.span.text == "14.50 per kg"
    assert (rib.usable, rib.weigh_exactly, rib.lead.least) == (Fraction(18, 25), True, 2880)
    assert rib.span.text == "beef-short-rib"
    assert rib.at("weighs.leaf").text == "leaf"
    assert rib.at("also_called.0").text == "short ribs"


def test_menu(good):
    (menu,) = good.menus
    assert menu.id == "early-spring"
    assert menu.covers["sat"] == 140
    assert menu.oil_changed
    assert [(course.id, course.portions) for course in menu.courses] == [("snacks", Fraction(3, 2)), ("mains", None)]
    (listed,) = menu.dishes
    assert (listed.share, listed.spare, listed.at_least) == (Fraction(35, 100), Fraction(1, 20), 2)
    assert dict(listed.mix) == {"full": Fraction(4, 5), "to-share": Fraction(1, 5)}
    assert menu.courses[0].at("id").text == menu.courses[0].at("course").text == "snacks"


def test_dish(good):
    (dish,) = good.dishes
    first, second = dish.elements
    assert first.places == (Place(clock=None),)
    assert second.places == (Place(clock=Fraction(5)), Place(clock=Fraction(9, 2)))
    assert (first.shape, first.size, first.turned, first.reach) == (Shape.SWOOSH, (90, 30), 20, Fraction(2, 5))
    assert first.hold.temperature == Temperature(celsius=Fraction(65))
    assert (first.hold.most.least, first.hold.after, first.hold.vessel) == (120, "bin", "third-pan-100")
    assert (first.through, first.leave_off, second.on) == (("fryer",), True, "celeriac-puree")
    assert [(size.id, size.factor) for size in dish.sizes] == [
        ("taste", Fraction(2, 5)),
        ("full", 1),
        ("to-share", Fraction(9, 5)),
    ]
    assert dish.sizes[2].amounts["short-rib-glazed"].number == 4
    assert dish.warm is True
    assert second.at("places.1").text == second.at("at.1").text == "4:30 o'clock"


def test_component(good):
    (component,) = good.components
    amounts = [ingredient.amount for ingredient in component.ingredients]
    assert amounts[1] == Percent(number=Fraction(9, 5), of=("beef-short-rib",))
    assert amounts[2] == Percent(number=Fraction(2), of=("beef-short-rib", "fine-salt"))
    assert amounts[3] == ToTaste()
    assert amounts[4].unit.key == "us-cup"
    assert to_base(amounts[5]) == 7000
    first = component.ingredients[0]
    assert (first.weigh_before, first.medium, first.scale, first.stage) == (True, True, Scale.HELD_BACK, "brine")
    assert component.also_makes[0].source == "beef-short-rib"
    assert component.also_makes[0].at("from").text == component.also_makes[0].at("source").text == "beef-short-rib"
    stage = component.stages[1]
    assert (stage.where, stage.limit, stage.attended, stage.fill) == (
        "blast-chiller",
        Limit.COOL,
        Attended.BUILDING,
        Fraction(3, 5),
    )
    assert (stage.unattended.least, stage.unattended.most) == (420, 540)
    assert (component.loss, component.density, component.make_daily) == (Fraction(1, 25), Fraction(21, 20), False)
    assert (component.store.vessel, component.store.place) == ("third-pan-100", "walk-in")
    assert component.span.text == "name: Smoked short rib, glazed"


BAD = [
    (HOUSE_FILE, "rules: FDA Food Code 2022", "rules: fda", "LB118", "fda"),
    (HOUSE_FILE, "temperatures: °C", "temperatures: K", "LB118", "K"),
    (HOUSE_FILE, "lists: [uk]", "lists: [uk, usa]", "LB405", "usa"),
    (HOUSE_FILE, "nights: [80, 110, 150]", "nights: [80, 1.5]", "LB301", "1.5"),
    (HOUSE_FILE, "tolerance: 1 %", "tolerance: 60 %", "LB316", "60 %"),
    (HOUSE_FILE, "line_up_portions: 1", "line_up_portions: -1", "LB310", "-1"),
    (HOUSE_FILE, "cooks: 2", "cooks: two", "LB301", "two"),
    (HOUSE_FILE, "set_up: 16:30", "set_up: 4pm", "LB313", "4pm"),
    (HOUSE_FILE, "days: [tue, wed, thu, fri, sat]", "days: [tuesday]", "LB118", "tuesday"),
    (HOUSE_FILE, "staffed: 10:00 to 23:30", "staffed: 10:00", "LB313", "10:00"),
    (HOUSE_FILE, "closed: [2027-03-16]", "closed: [16/3/2027]", "LB313", "16/3/2027"),
    (HOUSE_FILE, "fill: 75 %", "fill: 0 %", "LB310", "0 %"),
    (HOUSE_FILE, "count: 2", "count: 0", "LB316", "0"),
    (HOUSE_FILE, "climate: hot", "climate: warm", "LB118", "warm"),
    (HOUSE_FILE, "at: 1 °C", "at: 1", "LB311", "1"),
    (HOUSE_FILE, "shape: oval, size: 30 x 22 cm", "shape: oval, size: 30 cm", "LB318", "30 cm"),
    (HOUSE_FILE, "size: 28 cm", "size: 28", "LB318", "28"),
    (HOUSE_FILE, "rim: 3 cm", "rim: 3", "LB318", "3"),
    (HOUSE_FILE, "up_to: 30 kg", "up_to: 30 L", "LB304", "30 L"),
    (HOUSE_FILE, "reads: 50 ml", "reads: 50 g", "LB304", "50 g"),
    (HOUSE_FILE, "cup: us", "cup: imperial", "LB118", "imperial"),
    (HOUSE_FILE, "{honey: honey}", "{Honey: honey}", "LB203", "Honey"),
    (PANTRY_FILE, "weighs: {leaf: 2.5 g", "weighs: {handful: 2.5 g", "LB302", "handful"),
    (PANTRY_FILE, "leaf: 2.5 g", "leaf: 2.5 ml", "LB304", "2.5 ml"),
    (PANTRY_FILE, "leaf: 2.5 g, each: 45 g", "each: 45 g, piece: 40 g", "LB102", "piece"),
    (PANTRY_FILE, "usable: 72 %", "usable: 172 %", "LB316", "172 %"),
    (PANTRY_FILE, "usable: 72 %", "usable: 0.72", "LB301", "0.72"),
    (PANTRY_FILE, "density: 1.03 kg/L", "density: 1.03", "LB301", "1.03"),
    (PANTRY_FILE, "price: 14.50 per kg", "price: 14.50", "LB301", "14.50"),
    (PANTRY_FILE, "weigh_exactly: yes", "weigh_exactly: maybe", "LB118", "maybe"),
    (PANTRY_FILE, "says: label", "says: the rep", "LB118", "the rep"),
    (PANTRY_FILE, "lead: 2 d", "lead: soon", "LB312", "soon"),
    (PANTRY_FILE, "lead: 2 d", "lead: 1 d to 2 d", "LB312", "1 d to 2 d"),
    (PANTRY_FILE, "contains: [wheat]", "contains: [Wheat Flour]", "LB203", "Wheat Flour"),
    (MENU_FILE, "first: 2027-03-02", "first: 2027-02-30", "LB313", "2027-02-30"),
    (MENU_FILE, "tue: 70", "tue: 70.5", "LB301", "70.5"),
    (MENU_FILE, "tue: 70", "tues: 70", "LB118", "tues"),
    (MENU_FILE, "share: 0.35", "share: some", "LB301", "some"),
    (MENU_FILE, "full: 80 %", "full: 180 %", "LB316", "180 %"),
    (MENU_FILE, "portions_a_cover: 1.5", 'portions_a_cover: "1,5"', "LB303", '"1,5"'),
    (DISH_FILE, "price: 34", "price: £34", "LB301", "£34"),
    (DISH_FILE, "at: centre", "at: middle left", "LB318", "middle left"),
    (DISH_FILE, "at: [5 o'clock, 4:30 o'clock]", "at: [5 o'clock, 25 o'clock]", "LB318", "25 o'clock"),
    (DISH_FILE, "reach: 0.4", "reach: 1.4", "LB316", "1.4"),
    (DISH_FILE, "shape: swoosh", "shape: swosh", "LB118", "swosh"),
    (DISH_FILE, "size: 90 x 30 mm", "size: 90 x 30", "LB318", "90 x 30"),
    (DISH_FILE, "turned: 20", "turned: 400", "LB316", "400"),
    (DISH_FILE, "after: bin", "after: keep", "LB118", "keep"),
    (DISH_FILE, "factor: 0.4", "factor: 0", "LB310", "0"),
    (DISH_FILE, "leave_off: yes", "leave_off: on", "LB118", "on"),
    (DISH_FILE, "  taste: {", "  a taste: {", "LB203", "a taste"),
    (COMPONENT_FILE, "makes: 9 kg", "makes: 9", "LB301", "9"),
    (COMPONENT_FILE, "makes: 9 kg", "makes: 9 kgs of rib", "LB301", "9 kgs of rib"),
    (COMPONENT_FILE, "makes: 9 kg", "makes: 0 kg", "LB310", "0 kg"),
    (COMPONENT_FILE, "makes: 9 kg", "makes: 1,500 g", "LB303", "1,500 g"),
    (COMPONENT_FILE, "pieces: 60", "pieces: 0", "LB310", "0"),
    (COMPONENT_FILE, "piece_weighs: 150 g", "piece_weighs: 3 each", "LB304", "3 each"),
    (COMPONENT_FILE, "loss: 4 %", "loss: 100 %", "LB316", "100 %"),
    (COMPONENT_FILE, "make: ahead", "make: weekly", "LB118", "weekly"),
    (COMPONENT_FILE, "weigh: before", "weigh: raw", "LB118", "raw"),
    (COMPONENT_FILE, "amount: 2 cups", "amount: 2 handfuls", "LB302", "2 handfuls"),
    (COMPONENT_FILE, "amount: 2 third-pan-100", "amount: 2 third-pan-10", "LB302", "2 third-pan-10"),
    (COMPONENT_FILE, "amount: 1.8 %, of: beef-short-rib", "amount: 1.8 %", "LB107", "1.8 %"),
    (COMPONENT_FILE, "amount: to taste", "amount: to taste, of: batch", "LB106", "batch"),
    (COMPONENT_FILE, "limit: cool", "limit: chill", "LB118", "chill"),
    (COMPONENT_FILE, "attended: someone in the building", "attended: nobody", "LB118", "nobody"),
    (COMPONENT_FILE, "unattended: 7 h to 9 h", "unattended: 9 h to 7 h", "LB315", "9 h to 7 h"),
    (COMPONENT_FILE, "hands_on: 20 min", "hands_on: 20", "LB312", "20"),
    (COMPONENT_FILE, "until: 93 °C", "until: 93 degrees", "LB311", "93 degrees"),
    (COMPONENT_FILE, "tested: 2027-01-20", "tested: last week", "LB313", "last week"),
]


@pytest.mark.parametrize(("path", "old", "new", "code", "pointed"), BAD, ids=[f"{row[2]}" for row in BAD])
def test_a_bad_value_is_one_fault_with_its_place_and_a_hint(tmp_path, path, old, new, code, pointed):
    faults = faults_of(tmp_path, path, old, new)
    assert said(faults) == [(code, pointed)]
    (fault,) = faults
    line = GOOD[path][: GOOD[path].index(old)].count("\n") + 1
    assert fault.span.line == line
    assert fault.hints
    assert not fault.message.endswith(".")


def test_a_word_near_a_choice_is_offered(tmp_path):
    (fault,) = faults_of(tmp_path, DISH_FILE, "shape: swoosh", "shape: swosh")
    assert fault.hints[0] == "did you mean `swoosh`?"
    assert "`mound`" in fault.hints[1]


@pytest.mark.parametrize(
    ("path", "old", "new", "mend"),
    [
        (COMPONENT_FILE, "makes: 9 kg", "makes: [9 kg]", "write `makes: 9 kg`, without a dash or brackets"),
        (COMPONENT_FILE, "makes: 9 kg", "makes: {9 kg}", "write `makes: 9 kg`, without braces"),
        (COMPONENT_FILE, "makes: 9 kg", "makes: {weight: 9 kg}", "write `makes: 9 kg`"),
        (HOUSE_FILE, "days: [tue, wed, thu, fri, sat]", "days: {tue: 1}", "write `days: [tue, wed, thu, fri, sat]`"),
        (HOUSE_FILE, "nights: [80, 110, 150]", "nights: {80: x}", "write `nights: [80, 110, 150]`"),
        (COMPONENT_FILE, "store: {at: 3 °C, in: third-pan-100, where: walk-in}", "store: 3 °C", "write `{at: 3 °C}`"),
        (HOUSE_FILE, "{name: shared fryer, carries: [frying-oil], changed_between: no}", "fryer", None),
        (
            COMPONENT_FILE,
            "  - {item: pepper, amount: to taste}",
            "  - pepper",
            "write `{item: pepper, amount: 14 kg}`",
        ),
        (HOUSE_FILE, "  - {jug: 2 L jug, up_to: 2 L, reads: 50 ml}", "  - 2 L jug", None),
        (HOUSE_FILE, "avoid: {honey: honey}", "avoid: [honey]", "write `avoid: {honey: honey}`"),
    ],
)
def test_a_wrong_shape_is_narrowed_to_what_was_meant(tmp_path, path, old, new, mend):
    (fault,) = faults_of(tmp_path, path, old, new)
    assert fault.code == "LB108"
    if mend:
        assert fault.hints[0] == mend
    else:
        assert fault.hints[0].startswith("write `{")


def test_names_and_amounts_as_fields_are_shown_as_an_item(tmp_path):
    (fault,) = faults_of(tmp_path, COMPONENT_FILE, "  - {item: pepper, amount: to taste}", "  - pepper: 20 g")
    assert said((fault,)) == [("LB106", "pepper")]
    assert fault.hints == ("write `{item: pepper, amount: 20 g}`",)


def test_a_single_record_without_its_dash_is_still_read(tmp_path):
    text = GOOD[MENU_FILE].replace("dishes:\n  - {dish", "dishes:\n  {dish").replace("share: 0.35", "share: lots")
    faults = read_changed(tmp_path, {MENU_FILE: text}).outcome.faults
    assert [fault.code for fault in faults] == ["LB108", "LB301"]
    assert "dash" in faults[0].hints[0]


def test_a_list_of_lines_is_told_to_be_ids(tmp_path):
    text = GOOD[HOUSE_FILE].replace("  larder: {", "  - {").replace("  hearth: {", "  - {")
    (fault,) = read_changed(tmp_path, {HOUSE_FILE: text}).outcome.faults
    assert fault.code == "LB108"
    assert "id, a colon" in fault.hints[0]


def test_a_field_of_another_group_is_said_to_be_so(tmp_path):
    text = GOOD[COMPONENT_FILE].replace("sort: braise", "unattended: 7 h")
    (fault,) = read_changed(tmp_path, {COMPONENT_FILE: text}).outcome.faults
    assert fault.message == "`unattended` is a field of a stage, not of a component"
    assert fault.hints[-1] == "move it to a stage, or delete it"


def test_instruments_are_one_thing_each(tmp_path):
    faults = faults_of(tmp_path, HOUSE_FILE, "{jug: 2 L jug, up_to", "{jug: 2 L jug, scale: a, up_to")
    assert said(faults) == [("LB106", "2 L jug")]
    faults = faults_of(tmp_path, HOUSE_FILE, "{jug: 2 L jug, up_to", "{up_to")
    assert said(faults) == [("LB107", "up_to: 2 L")]


def test_ids_of_places_may_be_typed_with_spaces_and_items_not(tmp_path):
    assert faults_of(tmp_path, COMPONENT_FILE, "vessel: gn-rack", "vessel: gn  rack") == ()
    faults = faults_of(tmp_path, COMPONENT_FILE, "item: pepper", "item: black pepper")
    assert said(faults) == [("LB203", "black pepper")]
    assert faults[0].hints[0] == "write `black-pepper`"


def test_true_and_false_are_understood_as_yes_and_no(tmp_path):
    assert faults_of(tmp_path, COMPONENT_FILE, "medium: yes", "medium: true") == ()
    assert faults_of(tmp_path, DISH_FILE, "warm: yes", "warm: false") == ()


def test_share_may_be_a_percentage(tmp_path):
    text = GOOD[MENU_FILE].replace("share: 0.35", "share: 35 %")
    value = read_changed(tmp_path, {MENU_FILE: text}).outcome.value
    assert value.menus[0].dishes[0].share == Fraction(7, 20)


def test_long_texts_and_lists_are_refused(tmp_path):
    faults = faults_of(tmp_path, COMPONENT_FILE, "note: text", f"note: {'x' * 2001}")
    assert [fault.code for fault in faults] == ["LB110"]
    assert "2,000" in faults[0].message
    assert faults_of(tmp_path, COMPONENT_FILE, "note: text", f"note: {'x' * 2000}") == ()
    many = ", ".join(f"id-{number}" for number in range(501))
    faults = faults_of(tmp_path, COMPONENT_FILE, "adjust_with: [cider-vinegar]", f"adjust_with: [{many}]")
    assert [fault.code for fault in faults] == ["LB110"]
    faults = faults_of(tmp_path, HOUSE_FILE, "{honey: honey}", "{" + ", ".join(f"i{n}: n" for n in range(501)) + "}")
    assert [fault.code for fault in faults] == ["LB110"]


def test_text_of_several_lines_becomes_one_line(tmp_path):
    text = GOOD[DISH_FILE].replace("menu_text: as the menu words it", "menu_text: |\n  as the\n  menu words it")
    value = read_changed(tmp_path, {DISH_FILE: text}).outcome.value
    assert value.dishes[0].menu_text == "as the menu words it"


def test_what_yaml_refused_is_not_reported_again(tmp_path):
    faults = faults_of(tmp_path, COMPONENT_FILE, "makes: 9 kg", "makes: *later")
    assert [fault.code for fault in faults] == ["LB103"]
    faults = faults_of(tmp_path, COMPONENT_FILE, "makes: 9 kg", "makes: “9 kg”")
    assert [fault.code for fault in faults] == ["LB104"]
