"""A house's own texts in the languages it prints: what is translated, what is not, and how it is counted."""

from __future__ import annotations

import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from sample_house import REPOSITORY

from linebook.cli.asked import Asked
from linebook.compute.base import base_batch
from linebook.documents.braces import FIRST, SECOND, BinderBraces
from linebook.documents.method import MethodWriter
from linebook.documents.second import (
    avoidance_name,
    by_product_name,
    course_name,
    dish_name,
    element_note,
    find_said,
    ingredient_note,
    item_name,
    line_name,
    menu_name,
    menu_text,
    phrase,
    place_name,
    plate_name,
    prep_text,
    said_sections,
    section_title,
    size_name,
    sort_text,
    stage_name,
    tool_text,
    vessel_name,
)
from linebook.documents.text import Piece, Text
from linebook.documents.untranslated import find_untranslated, untranslated_sentences
from linebook.documents.wording import wording_in
from linebook.model.body import AmountOf, Block, Form, Words
from linebook.pipeline import load_house
from linebook.source.spans import SourceFile

SMALL_HOUSE = REPOSITORY / "tests" / "cases" / "small-house"

PUREE = """\
---
name: Puré de apionabo
sort: puré
preps: {celeriac: pelado y en dados, butter.2: fría}
notes: {butter.2: en dos veces}
---
## Cocer
1. Sudar el apionabo con {1/2 of butter} de la mantequilla, tapado, **20 minutos**.

## Triturar
1. Triturar con {1/2 of cream} de la nata, {fine-salt} de la sal y {1/2 of butter}. {1/2 of cream} del bol.
2. Afinar con limón.

## Enfriar
1. Extender a 3 cm y enfriar por debajo de 5 °C.

## Debe saber
- Apionabo antes que mantequilla.
"""
SHIN = """\
---
name: Jarrete estofado
stages: {chill: enfriar}
also_makes: {shin-trim: recortes}
---
"""
PLATE = """\
---
name: "Jarrete, apionabo, nuez"
menu_text: Jarrete de la casa
notes: {celeriac-puree: a la izquierda}
tools: {braised-shin: pinza}
sizes: {to-share: para compartir}
---
## Taste for
- Vaca profunda y después el dulzor del apionabo.
"""
WORDS = """\
dishes: {fritters: Buñuelos de nuez, shin: otro nombre}
components: {walnut-fritter: Buñuelo}
pantry: {celeriac: apionabo, butter: mantequilla, fine-salt: sal fina}
lines: {stove: Fogones}
vessels: {pot-24: olla de 24 L}
places: {walk-in: cámara}
media: {fryer: freidora}
plates: {oval-30: plato ovalado}
courses: {mains: Principales}
menus: {early-spring: primavera}
avoid: {honey: miel}
phrases: {trimmed: limpio, full: entero, Taste for: Debe saber, If it goes wrong: Si sale mal}
"""
CHANGES = (
    ("components/celeriac-puree.md", "line: stove\n", "line: stove\nsort: mash\n"),
    (
        "components/celeriac-puree.md",
        "  - {item: cream,",
        "  - {item: butter, amount: 100 g, prep: cold, note: in two goes, stage: blend}\n  - {item: cream,",
    ),
    ("components/celeriac-puree.md", "{1/2 of butter} butter under a lid until it gives to a spoon.", "{1/2 of butter} butter, lidded, 20 min."),
    ("components/celeriac-puree.md", "{cream} cream, {fine-salt} salt and {1/2 of butter} butter.", "{1/2 of cream} cream, {fine-salt} salt and {1/2 of butter} butter. {1/2 of cream} in the bowl."),
    ("dishes/shin.md", "price: 24\n", "price: 24\nmenu_text: Shin of the house\n"),
    ("dishes/shin.md", "shape: swoosh, size: 90 x 30 mm,", "shape: swoosh, size: 90 x 30 mm, note: to the left,"),
    ("dishes/shin.md", "amount: 2 pieces, at:", "amount: 2 pieces, tool: tongs, at:"),
)  # fmt: skip
FILES = {
    "components/celeriac-puree.es.md": PUREE,
    "components/braised-shin.es.md": SHIN,
    "dishes/shin.es.md": PLATE,
    "words.es.yaml": WORDS,
}


def load(folder, languages=("en", "es"), files=FILES):
    root = Path(shutil.copytree(SMALL_HOUSE, folder / "specs"))
    for path, old, new in CHANGES:
        text = (root / path).read_text(encoding="utf-8")
        assert text.count(old) == 1, old
        (root / path).write_text(text.replace(old, new), encoding="utf-8")
    for path, text in files.items():
        (root / path).write_text(text, encoding="utf-8")
    house = (root / "house.yaml").read_text(encoding="utf-8")
    (root / "house.yaml").write_text(f"{house}languages: [{', '.join(languages)}]\n", encoding="utf-8")
    loaded = load_house(root, "specs")
    assert not loaded.faults, [(fault.span.place, fault.code, fault.message) for fault in loaded.faults]
    return loaded.value


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    return load(tmp_path_factory.mktemp("two"))


def in_languages(house, *languages):
    return replace(house, file=replace(house.file, languages=languages))


def shown(text):
    second = "".join(piece.words for piece in text.second) if text.second is not None else None
    return text.plain.replace("\u00a0", " "), second.replace("\u00a0", " ") if second is not None else None


def every_text(house):
    """Return every text that has a place of its own in a translation, by what it is."""
    puree, shin = house.components["celeriac-puree"], house.components["braised-shin"]
    dish = house.dishes["shin"]
    second_butter = [line for line in puree.ingredients if line.item == "butter"][1]
    return {
        "component": item_name(house, "celeriac-puree"),
        "dish": dish_name(house, "shin"),
        "pantry": item_name(house, "celeriac"),
        "by-product": by_product_name(house, shin, "shin-trim", "shin trim"),
        "by-product elsewhere": item_name(house, "shin-trim"),
        "line": line_name(house, "stove"),
        "vessel": vessel_name(house, "pot-24"),
        "place": place_name(house, "walk-in"),
        "plate": plate_name(house, "oval-30"),
        "course": course_name(house, house.menus["early-spring"].courses[-1]),
        "menu": menu_name(house, "early-spring"),
        "avoid": avoidance_name(house, "honey", "honey"),
        "menu text": menu_text(house, dish),
        "sort": sort_text(house, puree),
        "size": size_name(house, dish, next(size for size in dish.sizes if size.id == "to-share")),
        "prep": prep_text(house, puree, puree.ingredients[0]),
        "prep of a second line": prep_text(house, puree, second_butter),
        "note of a second line": ingredient_note(house, puree, second_butter),
        "element's note": element_note(house, dish, dish.elements[0]),
        "tool": tool_text(house, dish, dish.elements[1]),
        "phrase": phrase(house, "trimmed"),
        "dish without a file": dish_name(house, "fritters"),
        "component without a file": item_name(house, "walnut-fritter"),
        "stage without a heading": stage_name(house, shin, "chill", find_said(house, shin, "chill")),
        "stage with a heading": stage_name(house, puree, "cook", find_said(house, puree, "cook")),
    }


BOTH = {
    "component": ("Celeriac puree", "Puré de apionabo"),
    "dish": ("Shin, celeriac, walnut", "Jarrete, apionabo, nuez"),
    "pantry": ("celeriac", "apionabo"),
    "by-product": ("shin trim", "recortes"),
    "by-product elsewhere": ("shin trim", "recortes"),
    "line": ("Stove", "Fogones"),
    "vessel": ("24 L pot", "olla de 24 L"),
    "place": ("walk-in", "cámara"),
    "plate": ("oval plate", "plato ovalado"),
    "course": ("Mains", "Principales"),
    "menu": ("early spring", "primavera"),
    "avoid": ("honey", "miel"),
    "menu text": ("Shin of the house", "Jarrete de la casa"),
    "sort": ("mash", "puré"),
    "size": ("to share", "para compartir"),
    "prep": ("peeled and diced", "pelado y en dados"),
    "prep of a second line": ("cold", "fría"),
    "note of a second line": ("in two goes", "en dos veces"),
    "element's note": ("to the left", "a la izquierda"),
    "tool": ("tongs", "pinza"),
    "phrase": ("trimmed", "limpio"),
    "dish without a file": ("Walnut fritters", "Buñuelos de nuez"),
    "component without a file": ("Walnut fritter", "Buñuelo"),
    "stage without a heading": ("Chill", "enfriar"),
    "stage with a heading": ("Cook", "Cocer"),
}


def test_each_text_in_both_languages(house):
    assert {what: shown(text) for what, text in every_text(house).items()} == BOTH


def test_each_text_in_the_second_language_alone(house):
    found = every_text(in_languages(house, "es"))
    assert {what: shown(text) for what, text in found.items()} == {what: (two, None) for what, (_, two) in BOTH.items()}


def test_each_text_with_the_languages_the_other_way_round(house):
    found = every_text(in_languages(house, "es", "en"))
    assert {what: shown(text) for what, text in found.items()} == {
        what: (two, one) for what, (one, two) in BOTH.items()
    }


def test_each_text_in_the_specs_own_language_alone(house):
    found = every_text(in_languages(house, "en"))
    assert {what: shown(text) for what, text in found.items()} == {what: (one, None) for what, (one, _) in BOTH.items()}


def test_what_is_not_translated_stands_once(house):
    for languages in (("en", "es"), ("es",), ("es", "en")):
        printed = in_languages(house, *languages)
        assert shown(item_name(printed, "cream")) == ("double cream", None)
        assert shown(item_name(printed, "brine")) == (house.name_of("brine"), None)
        assert shown(line_name(printed, "cold")) == ("Cold", None)
        assert shown(phrase(printed, "never heard")) == ("never heard", None)
        assert phrase(printed, None) == Text(())


def test_sections_pair_by_order_or_by_the_headings_that_are_kept(house):
    puree, dish = house.components["celeriac-puree"], house.dishes["shin"]
    assert [(said.own.title, said.second.title) for said in said_sections(house, puree)] == [
        ("Cook", "Cocer"),
        ("Blend", "Triturar"),
        ("Chill", "Enfriar"),
        ("Taste for", "Debe saber"),
    ]
    pick_up, taste = said_sections(house, dish)
    assert (pick_up.own.key, pick_up.second) == ("pick-up", None)
    assert taste.second.blocks[0].pieces[0].text.startswith("Vaca profunda")
    assert shown(section_title(house, pick_up)) == ("Pick-up", None)
    assert shown(section_title(house, taste)) == ("Taste for", None)  # the heading is kept as it is
    wrong = said_sections(house, house.components["braised-shin"])[-1]
    assert shown(section_title(house, wrong)) == ("If it goes wrong", "Si sale mal")  # a phrase


def steps_of(house, card, say):
    writer = MethodWriter(say_amount=say)
    return [
        member.text
        for said in said_sections(house, card)
        for passage in writer.passages(said)
        for member in passage.items
    ]


def marked(pieces):
    return "".join(f"[{piece.words}]" if piece.bold else piece.words for piece in pieces).replace("\u00a0", "~")


def test_steps_stand_in_both_languages_with_their_amounts(house):
    def say(brace, _section, _following, language):
        return Text(
            (Piece(words=f"{brace.item} {language}", bold=True),), (Piece(words=f"{brace.item} {language}", bold=True),)
        )

    first, second, third, *_ = steps_of(house, house.components["celeriac-puree"], say)
    assert marked(first.first) == "Sweat the celeriac in [butter 0] butter, lidded, [20~min]."
    assert marked(first.second) == "Sudar el apionabo con [butter 1] de la mantequilla, tapado, [20~minutos]."
    assert marked(second.second).endswith("[Cream 1] del bol.")  # it begins a sentence
    assert (marked(third.first), marked(third.second)) == ("Sharpen with lemon.", "Afinar con limón.")


def test_a_binder_s_amounts_are_words_of_each_language(house):
    puree = house.components["celeriac-puree"]
    braces = BinderBraces(house=house, batch=base_batch(house, "celeriac-puree"), wording=wording_in(("en", "es")))
    first, second, *_ = steps_of(house, puree, braces.say)
    assert first.plain.startswith("Sweat the celeriac in ½ of the butter, lidded")
    assert "".join(piece.words for piece in first.second).startswith(
        "Sudar el apionabo con ½ de la mantequilla, tapado"
    )
    spanish = "".join(piece.words for piece in second.second)
    assert spanish == "Triturar con ½ de la nata, la sal y ½ de la cantidad de mantequilla. ½ del bol."


@pytest.mark.parametrize(
    ("before", "after", "printed"),
    [
        ("Untar con ", " de la mantequilla fría", "Untar con la mantequilla fría"),
        ("Añadir ", " del apio y remover", "Añadir el apio y remover"),
        ("Lavar. ", " de los puerros se secan", "Lavar. Los puerros se secan"),
        ("", " del caldo se cuela", "El caldo se cuela"),
    ],
)
def test_an_amount_that_is_not_printed_leaves_the_article_of_its_name(before, after, printed):
    source = SourceFile(path="x", text=f"{before}{{x}}{after}")
    at = source.span(0, 1)
    pieces = (Words(text=before, span=at), AmountOf(item="x", span=at), Words(text=after, span=at))
    block = Block(form=Form.STEP, pieces=tuple(piece for piece in pieces if getattr(piece, "text", "x")), span=at)
    writer = MethodWriter(say_amount=lambda *_: Text(()))
    assert writer.text(block, "section").plain == printed


def test_a_binder_s_words_do_not_mix_the_languages(house):
    braces = BinderBraces(house=house, batch=base_batch(house, "celeriac-puree"), wording=wording_in(("en", "es")))
    blend = find_said(house, house.components["celeriac-puree"], "blend")
    salt = next(piece for piece in blend.own.blocks[0].pieces if getattr(piece, "item", "") == "fine-salt")
    assert braces.say(salt, "blend", " salt and", FIRST).plain == "the"
    assert braces.say(salt, "blend", " sal y", FIRST).plain == "the fine salt"  # English does not know *sal*
    assert shown(braces.say(salt, "blend", " sal y", SECOND))[1] == "la cantidad de"


def test_what_is_missing_is_counted(house):
    (missing,) = find_untranslated(house)
    # Names: Braised shin's and the purée's and the dish's are there; brine and sauce are not.
    assert missing.methods == 5 - 1 + 2  # of the components' all but the purée's, of the dishes' both: one in part
    names = {item.name for item in house.pantry.values()} - {"celeriac", "butter", "fine salt"}
    names |= {house.name_of(id_) for id_ in ("brine", "shin-sauce")}
    file = house.file
    names |= {one.name for one in (*file.lines, *file.vessels, *file.places, *file.media, *file.plates)}
    names -= {"Stove", "24 L pot", "walk-in", "shared fryer", "oval plate"}
    names |= {course.name for menu in house.menus.values() for course in menu.courses} - {"Mains"}
    names |= {menu.name for menu in house.menus.values()} - {"early spring"}
    assert missing.names == len(names)
    notes = {line.prep for card in house.components.values() for line in card.ingredients if line.prep}
    notes |= {card.sort for card in house.components.values() if card.sort}
    notes -= {"peeled and diced", "cold", "trimmed", "mash"}
    assert missing.notes == len(notes)
    assert untranslated_sentences(house) == (
        f"Spanish: {missing.names} names, {missing.methods} methods and {len(notes)} note{'s' * (len(notes) != 1)} are "
        "not translated yet; printed in English",
    )


def test_nothing_is_counted_in_the_language_the_specs_are_written_in(house, tmp_path):
    assert find_untranslated(in_languages(house, "en")) == ()
    assert not in_languages(house, "en").prints_translations
    spanish = load(tmp_path / "a", languages=("es",), files={})
    assert find_untranslated(spanish) == ()
    both = load(tmp_path / "b", languages=("en", "es"), files={})
    assert both.second is None
    (missing,) = find_untranslated(both)
    assert missing.methods == len(both.dishes) + len(both.components)
    asked = Asked(languages=("es",)).house(load(tmp_path / "c", languages=("en",), files={}))
    assert [missing.methods for missing in find_untranslated(asked)] == [missing.methods]


def test_a_house_that_prints_one_language_can_have_its_specs_in_another(tmp_path):
    house = load(tmp_path, languages=("es",))
    assert house.second.written == ""
    assert shown(item_name(house, "celeriac")) == ("apionabo", None)
    (missing,) = find_untranslated(house)
    assert missing.sentence.endswith("are not translated yet; printed as the specs have it")


def test_a_house_without_translations_loads_nothing_of_them():
    code = (
        "import sys; from pathlib import Path; from linebook.pipeline import load_house\n"
        f"house = load_house(Path({str(SMALL_HOUSE)!r}), 'specs').value\n"
        "assert house.second is None\n"
        "print([name for name in sys.modules if 'transla' in name])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
