"""A small invented house, built by hand from model values, for tests of sheets. No spec file is read."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, time
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from linebook.compute.allergen_index import allergen_index
from linebook.compute.allergens import compute_allergens
from linebook.compute.base import base_batch
from linebook.compute.demand import compute_night
from linebook.compute.matrix_columns import compute_also
from linebook.compute.voiding import Turned
from linebook.documents.allergen_index import allergen_index_sheet
from linebook.documents.allergen_matrix import allergen_matrix
from linebook.documents.batch_card import binder_batch_card, night_batch_card
from linebook.documents.count_sheet import count_sheet
from linebook.documents.line_allergens import line_allergens
from linebook.documents.line_cover import line_cover
from linebook.documents.parts import Member
from linebook.documents.plating_guide import plating_guide
from linebook.documents.station_card import station_card
from linebook.documents.text import words
from linebook.documents.tonight_notice import DOCUMENT as NOTICE
from linebook.documents.tonight_notice import TonightNotice
from linebook.documents.void_notice import reason_said, void_notice
from linebook.documents.wording import english
from linebook.markup.blocks import SheetText
from linebook.markup.reader import read_markup
from linebook.model.amounts import Duration, Percent, Temperature, ToTaste
from linebook.model.body import AmountOf, Block, Body, Fixed, Form, Section, Words
from linebook.model.component import Attended, ByProduct, Component, Ingredient, Limit, Scale, Stage, Store
from linebook.model.dish import Alternative, Dish, Element, Hold, Place, Shape, Size
from linebook.model.house import (
    AllergenPolicy,
    Climate,
    House,
    HouseFile,
    Instrument,
    InstrumentKind,
    Line,
    Medium,
    Plate,
    PlateShape,
    Service,
    Vessel,
    Workplace,
)
from linebook.model.menu import Course, Menu, MenuDish
from linebook.model.occasion import Occasion
from linebook.model.pantry import Declaration, PantryItem
from linebook.model.quantities import parse_amount
from linebook.model.units import METRIC_ONLY
from linebook.source.spans import SourceFile
from linebook.templating.templates import TemplateFolder, Templates, template_name

T = TypeVar("T")
SPAN = SourceFile(path="sample", text="sample").whole()
REPOSITORY = Path(__file__).parents[3]
TEMPLATES = REPOSITORY / "templates"
ALL_TEMPLATES = Templates([TemplateFolder(path=TEMPLATES, shown="templates")])
SATURDAY = date(2027, 3, 6)


def made(kind: type[T], /, **fields: Any) -> T:
    """Return a record with a place that no test reads."""
    return kind(span=SPAN, spans=MappingProxyType({}), **fields)


def amount(text: str) -> Any:
    return parse_amount(text, METRIC_ONLY)


def minutes(least: int, most: int | None = None, *, days: bool = False) -> Duration:
    return Duration(least=Fraction(least), most=Fraction(most or least), in_days=days)


def degrees(number: int) -> Temperature:
    return Temperature(celsius=Fraction(number))


_PIECE = re.compile(r"\{fixed ([^}]+)\}|\{(\d+)/(\d+) of ([a-z-]+)\}|\{([a-z-]+)\}|\*\*([^*]+)\*\*|\*([^*]+)\*")


def block(form: Form, text: str) -> Block:
    """Return a block from the little of the body's language that samples use."""
    pieces: list[Any] = []
    at = 0
    for match in _PIECE.finditer(text):
        if match.start() > at:
            pieces.append(Words(text=text[at : match.start()], span=SPAN))
        fixed, top, bottom, part_of, item, bold, italic = match.groups()
        if fixed:
            pieces.append(Fixed(text=fixed, span=SPAN))
        elif part_of:
            pieces.append(AmountOf(item=part_of, part=Fraction(int(top), int(bottom)), span=SPAN))
        elif item:
            pieces.append(AmountOf(item=item, span=SPAN))
        else:
            pieces.append(Words(text=bold or italic, strong=bool(bold), emphasis=bool(italic), span=SPAN))
        at = match.end()
    if at < len(text):
        pieces.append(Words(text=text[at:], span=SPAN))
    return Block(form=form, pieces=tuple(pieces), span=SPAN)


def section(title: str, *texts: str, form: Form = Form.STEP) -> Section:
    key = title.lower().replace(" ", "-")
    return Section(title=title, key=key, blocks=tuple(block(form, text) for text in texts), span=SPAN)


def pantry_item(id_: str, name: str, contains: str | None = "", may: str = "", **fields: Any) -> PantryItem:
    declaration = None
    if contains is not None:
        declaration = made(
            Declaration,
            contains=tuple(contains.split()),
            may_contain=tuple(may.split()),
            says="label",
            since=date(2026, 11, 2),
        )
    return made(PantryItem, id=id_, name=name, allergens=declaration, weighs=fields.pop("weighs", {}), **fields)


def sample_pantry() -> dict[str, PantryItem]:
    items = (
        pantry_item("beef-short-rib", "beef short rib, bone in"),
        pantry_item("fine-salt", "fine salt"),
        pantry_item("curing-salt", "curing salt", weigh_exactly=True),
        pantry_item("chipotle-paste", "chipotle paste", None),
        pantry_item("mustard-seed", "mustard seed", "mustard", may="sesame"),
        pantry_item("gelatine-leaf", "gelatine leaf, silver", weighs={"leaf": Fraction(5, 2)}),
        pantry_item("celeriac", "celeriac", "celery"),
        pantry_item("butter", "unsalted butter", "milk"),
        pantry_item("walnut", "walnut halves", "walnut"),
        pantry_item("sourdough-crumb", "sourdough crumb", "wheat"),
        pantry_item("frying-oil", "frying oil", ""),
        pantry_item("hake", "hake fillet", "fish"),
        pantry_item("flour", "plain flour", "wheat"),
        pantry_item("cider-vinegar", "cider vinegar", "sulphites"),
        pantry_item("lovage", "lovage", weighs={"leaf": Fraction(1, 2)}),
    )
    return {item.id: item for item in items}


def short_rib() -> Component:
    return made(
        Component,
        id="short-rib-glazed",
        name="Smoked short rib, glazed",
        line="hearth",
        sort="smoke",
        makes=amount("9 kg"),
        pieces=Fraction(60),
        largest_batch=amount("18 kg"),
        loss=Fraction(4, 100),
        keeps=minutes(4 * 1440, days=True),
        store=made(Store, temperature=degrees(3), vessel="third-pan-100", place="walk-in"),
        ingredients=(
            made(
                Ingredient,
                item="beef-short-rib",
                amount=amount("14 kg"),
                prep="trimmed of silverskin",
                stage="brine",
                weigh_before=True,
            ),
            made(Ingredient, item="brine-basic", amount=amount("9 L"), stage="brine", medium=True),
            made(Ingredient, item="curing-salt", amount=amount("31 g"), stage="brine"),
            made(
                Ingredient,
                item="fine-salt",
                amount=Percent(number=Fraction("1.8"), of=("beef-short-rib",)),
                stage="smoke",
            ),
            made(Ingredient, item="chipotle-paste", amount=amount("250 g"), stage="smoke", note="stir the jar first"),
            made(Ingredient, item="gelatine-leaf", amount=amount("4 leaves"), stage="smoke", scale=Scale.WHOLE),
            made(Ingredient, item="mustard-seed", amount=amount("20 g"), stage="smoke", scale=Scale.PER_LOAD),
            made(Ingredient, item="cider-vinegar", amount=ToTaste(), stage="smoke"),
        ),
        adjust_with=("cider-vinegar",),
        also_touches=("frying-oil",),
        also_makes=(
            made(
                ByProduct,
                item="beef-trim",
                name="beef trim",
                amount=amount("900 g"),
                source="beef-short-rib",
                after="brine",
            ),
        ),
        stages=(
            made(
                Stage,
                name="brine",
                hands_on=minutes(25),
                unattended=minutes(960, 1200),
                finish=minutes(20),
                where="walk-in",
            ),
            made(
                Stage,
                name="smoke",
                hands_on=minutes(20),
                unattended=minutes(420, 540),
                may_hold=minutes(120),
                where="smoker",
                vessel="smoker-rack",
                fill=Fraction(7, 10),
                heat=degrees(105),
                until=degrees(93),
                limit=Limit.COOK,
                attended=Attended.BUILDING,
            ),
            made(Stage, name="chill", hands_on=minutes(20), where="blast-chiller", limit=Limit.COOL),
        ),
        tested=date(2027, 1, 20),
        body=Body(
            sections=(
                section(
                    "Brine",
                    "Lay {beef-short-rib} rib bone side down, pour over {brine-basic} brine at 3 °C.",
                    "Lift out after 16 to 20 h, rinse, dry on racks **30 min**.",
                ),
                section(
                    "Smoke",
                    "Rub with {1/2 of fine-salt} salt. Smoke over *beech* at 105 °C until the core reads 93 °C.",
                    "Stir {chipotle-paste} paste into {fixed 2 L} of water, then the other {1/2 of fine-salt}.",
                ),
                section("Chill", "In one layer, uncovered, straight in the chiller."),
                section("If it goes wrong", "Stuck at 70 °C: leave the heat alone.", form=Form.POINT),
            )
        ),
    )


def simple(id_: str, name: str, line: str, makes: str, *items: tuple[str, str], **fields: Any) -> Component:
    lines = tuple(made(Ingredient, item=item, amount=amount(text), stage="make") for item, text in items)
    return made(
        Component,
        id=id_,
        name=name,
        line=line,
        makes=amount(makes),
        ingredients=lines,
        stages=(made(Stage, name="make", hands_on=minutes(15)),),
        body=Body(sections=(section("Make", *(f"Add {{{item}}} now." for item, _ in items)),)),
        **{"keeps": minutes(2 * 1440, days=True), "tested": date(2027, 1, 20), **fields},
    )


def sample_components() -> dict[str, Component]:
    items = (
        short_rib(),
        simple("brine-basic", "Basic brine", "stove", "10 L", ("fine-salt", "600 g")),
        simple("celeriac-puree", "Celeriac purée", "hearth", "4.5 kg", ("celeriac", "4 kg"), ("butter", "350 g")),
        simple("walnut-crumb", "Walnut crumb", "hearth", "600 g", ("walnut", "400 g"), ("sourdough-crumb", "300 g")),
        simple("short-rib-jus", "Short rib jus", "stove", "3 L", ("beef-trim", "1.2 kg"), tested=None),
    )
    return {item.id: item for item in items}


def place(hour: str | None) -> Place:
    return Place(clock=None if hour is None else Fraction(hour))


def short_rib_dish() -> Dish:
    return made(
        Dish,
        id="short-rib",
        name="Short rib, celeriac, walnut",
        line="hearth",
        course="fire",
        price=Fraction(34),
        menu_text="Smoked short rib, celeriac, pickled walnut",
        plate="oval-30",
        warm=True,
        call=minutes(9),
        sizes=(
            made(Size, id="full", name="full", amounts={}),
            made(
                Size,
                id="to-share",
                name="to share",
                factor=Fraction("1.8"),
                amounts={"short-rib-glazed": amount("4 pieces")},
            ),
        ),
        elements=(
            made(
                Element,
                item="celeriac-puree",
                amount=amount("70 g"),
                places=(place("10"), place("3")),
                shape=Shape.SWOOSH,
                size=(Fraction(110), Fraction(34)),
                tool="no. 16 scoop",
                hold=made(Hold, temperature=degrees(65), most=minutes(120), after="bin", vessel="third-pan-100"),
                note="thick end left",
            ),
            made(
                Element,
                item="short-rib-glazed",
                amount=amount("2 pieces"),
                places=(place("5"),),
                reach=Fraction("0.4"),
                on="celeriac-puree",
                shape=Shape.PIECE,
                turned=Fraction(20),
            ),
            made(Element, item="walnut-crumb", amount=amount("6 g"), on="short-rib-glazed", leave_off=True),
            made(Element, item="lovage", amount=amount("3 leaves"), places=(place("9"), place("12"), place("2"))),
            made(Element, item="short-rib-jus", amount=amount("25 ml"), places=(place(None),), shape=Shape.POOL),
        ),
        tested=date(2027, 2, 10),
        body=Body(
            sections=(
                section(
                    "Pick-up",
                    "Two pieces glaze side up on the grate, lid down, 4 min.",
                    "Brush twice, 1 min between. Core 74 °C. Jus at the pass, {short-rib-jus} of it.",
                ),
                section("Taste for", "Smoke first, then the walnut.", form=Form.POINT),
                section("At the pass", "Rim clean to the inner circle.", form=Form.POINT),
            )
        ),
    )


def hake_dish() -> Dish:
    return made(
        Dish,
        id="hake-fritter",
        name="Hake fritter",
        line="stove",
        course="snacks",
        elements=(
            made(Element, item="hake", amount=amount("40 g"), through=("fryer",)),
            made(Element, item="flour", amount=amount("5 g"), through=("fryer",)),
        ),
        also_touches=("frying-oil",),
        body=Body(sections=(section("Pick-up", "Fry {hake} hake at 180 °C for 3 min."),)),
    )


def leek_dish() -> Dish:
    return made(
        Dish,
        id="celeriac-crisp",
        name="Celeriac crisps",
        line="hearth",
        course="snacks",
        elements=(made(Element, item="celeriac", amount=amount("30 g"), through=("fryer",)),),
        tested=date(2027, 2, 1),
        body=Body(sections=(section("Pick-up", "Fry at 150 °C for 80 s."),)),
    )


def sample_menu() -> Menu:
    return made(
        Menu,
        id="early-spring",
        name="early spring",
        first=date(2027, 3, 2),
        covers={"sat": 140},
        courses=(
            made(Course, id="snacks", name="Snacks"),
            made(Course, id="fire", name="From the fire"),
        ),
        dishes=(
            made(
                MenuDish,
                dish="short-rib",
                share=Fraction("0.7"),
                mix={"full": Fraction(4, 5), "to-share": Fraction(1, 5)},
            ),
            made(MenuDish, dish="hake-fritter", share=Fraction("0.5"), mix={}),
            made(MenuDish, dish="celeriac-crisp", share=Fraction("0.5"), mix={}),
        ),
        oil_changed=True,
    )


def instrument(kind: InstrumentKind, name: str, up_to: str, reads: str) -> Instrument:
    return made(Instrument, name=name, kind=kind, up_to=amount(up_to), reads=amount(reads))


def sample_house_file(**changes: Any) -> HouseFile:
    fields: dict[str, Any] = {
        "name": "Sample House",
        "rules": "FDA Food Code 2022",
        "nights": (80, 150),
        "lines": (
            made(Line, id="hearth", name="Hearth", cooks=2, set_up=time(15, 30)),
            made(Line, id="stove", name="Stove"),
        ),
        "service": made(Service, days=("sat",), doors=time(17, 30)),
        "allergens": made(AllergenPolicy, lists=("uk",), avoid={"honey": "honey"}),
        "vessels": (
            made(Vessel, id="third-pan-100", name="third pan 100 deep", holds=amount("3.5 L"), fill=Fraction(9, 10)),
            made(Vessel, id="smoker-rack", name="smoker rack", holds=amount("20 L"), count=6),
        ),
        "places": (
            made(Workplace, id="walk-in", name="walk-in", climate=Climate.COLD, temperature=degrees(3)),
            made(Workplace, id="smoker", name="smoker", climate=Climate.HOT),
            made(Workplace, id="blast-chiller", name="blast chiller", climate=Climate.COLD),
        ),
        "media": (made(Medium, id="fryer", name="shared fryer", carries=("frying-oil",)),),
        "plates": (
            made(
                Plate,
                id="oval-30",
                name="oval plate 30 cm",
                shape=PlateShape.OVAL,
                length=Fraction(300),
                width=Fraction(220),
                rim=Fraction(30),
            ),
        ),
        "instruments": (
            instrument(InstrumentKind.SCALE, "bench scale", "15 kg", "5 g"),
            instrument(InstrumentKind.SCALE, "fine scale", "500 g", "0.1 g"),
            instrument(InstrumentKind.JUG, "5 L jug", "5 L", "100 ml"),
            instrument(InstrumentKind.JUG, "beaker", "100 ml", "1 ml"),
        ),
    }
    return made(HouseFile, **{**fields, **changes})


def sample_house(
    *,
    file: HouseFile | None = None,
    components: dict[str, Component] | None = None,
    dishes: dict[str, Dish] | None = None,
) -> House:
    """Return the house, or one with other parts in it."""
    components = components or sample_components()
    by_products: dict[str, Any] = {}
    for component in components.values():
        for entry in component.also_makes:
            by_products[entry.item] = (*by_products.get(entry.item, ()), (component, entry))
    all_dishes = dishes or {dish.id: dish for dish in (short_rib_dish(), hake_dish(), leek_dish())}
    return House(
        file=file or sample_house_file(),
        pantry=sample_pantry(),
        components=components,
        dishes=all_dishes,
        menus={"early-spring": sample_menu()},
        by_products=by_products,
    )


def standard_night(covers: int) -> Occasion:
    return Occasion(menu="early-spring", covers=covers)


def dated_night(covers: int = 140) -> Occasion:
    return Occasion(menu="early-spring", covers=covers, date=SATURDAY)


def binder_view(house: House, component: str = "short-rib-glazed") -> Any:
    nights = [compute_night(house, standard_night(covers)) for covers in house.file.nights]
    table = compute_allergens(house, "early-spring")
    return binder_batch_card(house, base_batch(house, component), nights, table, english())


def night_view(house: House, component: str = "short-rib-glazed", covers: int = 140, made: date | None = None) -> Any:
    night = compute_night(house, dated_night(covers))
    table = compute_allergens(house, "early-spring")
    return night_batch_card(house, base_batch(house, component), night, component, table, english(), made)


def station_view(house: House, dish: str = "short-rib") -> Any:
    return station_card(house, dish, compute_allergens(house, "early-spring"), english())


def plating_view(house: House, dish: str = "short-rib") -> Any:
    return plating_guide(house, dish, compute_allergens(house, "early-spring"), english())


def matrix_view(house: House) -> Any:
    return allergen_matrix(house, compute_allergens(house, "early-spring"), english())


def cover_view(house: House, line: str = "hearth", fingerprints: dict[str, str] | None = None) -> Any:
    nights = [compute_night(house, standard_night(covers)) for covers in house.file.nights]
    return line_cover(house, line, compute_allergens(house, "early-spring"), english(), fingerprints or {}, nights)


def with_changes(house: House) -> House:
    """The house with everything declared, and a thing to serve to a guest instead of the crumb: it brings mustard."""
    dish = house.dishes["short-rib"]
    instead = Alternative(item="mustard-seed", amount=amount("2 g"), span=SPAN, spans={})
    elements = tuple(
        replace(element, alternatives=(instead,)) if element.item == "walnut-crumb" else element
        for element in dish.elements
    )
    pantry = {**house.pantry, "chipotle-paste": pantry_item("chipotle-paste", "chipotle paste", "")}
    dishes = {**house.dishes, "short-rib": replace(dish, elements=elements)}
    return replace(house, pantry=pantry, dishes=dishes)


def line_page_view(house: House, line: str = "hearth") -> Any:
    return line_allergens(
        house, line, compute_allergens(house, "early-spring"), english(), compute_also(house, "early-spring")
    )


def index_view(house: House) -> Any:
    return allergen_index_sheet(house, "early-spring", allergen_index(house, "early-spring"), english())


def void_view(house: House) -> Any:
    turned = Turned(contains=("sesame",), since=SATURDAY)
    reason = reason_said(house, ["walnut-crumb"], turned, "spill", english())
    return void_notice("7F3A91C2", reason, english(), words("From now: sesame."))


def count_view(house: House) -> Any:
    cards = dict.fromkeys(house.components, "7F3A91C2")
    return count_sheet(house, "hearth", "early-spring", SATURDAY, cards, english())


def tonight_view(house: House) -> Any:
    """A notice with something under each of its heads."""
    members = [Member(key=key, text=words(f"words of {key}")) for key in ("instead", "contains", "may", "fewer")]
    return TonightNotice(
        id=NOTICE, title=words("Tonight"), instead=(members[0],), brings=tuple(members[1:3]), fewer=(members[3],)
    )


def document_of(view: Any) -> str:
    return view.id.partition(":")[0]


def rendered(view: Any) -> str:
    """Return the XHTML of a view by the templates of the checkout; fails on any fault."""
    outcome = ALL_TEMPLATES.render(template_name(document_of(view)), view, english())
    assert outcome.value is not None, outcome.faults
    return outcome.value.text


def sheet(view: Any) -> SheetText:
    """Return the block tree of a view; fails on any fault, and where it is built otherwise than its text is read."""
    outcome = read_markup(rendered(view), "sheet.xml")
    assert outcome.value is not None, outcome.faults
    assert ALL_TEMPLATES.sheet(template_name(document_of(view)), view, english()) == outcome.value
    return outcome.value
