"""The catalogues of sentences: complete, in step with the English table, and by the Unicode rules of each language."""

from __future__ import annotations

import re
import subprocess
import sys
from datetime import date, timedelta
from gettext import c2py

import pytest
from babel import Locale
from babel.dates import format_date, get_day_names, get_month_names
from babel.lists import format_list
from catalogue_files import FOLDER, PLURALS, compiled, read, sentences, template, updated

from linebook.documents import limit_boxes
from linebook.documents.catalogue import LANGUAGES, catalogue_of, counted_keys
from linebook.documents.english import ENGLISH
from linebook.documents.text import words
from linebook.documents.wording import english, wording_in
from linebook.model.component import Limit
from linebook.model.limits import RULE_SETS, rule_for
from linebook.model.units import UNITS
from linebook.read import house_fields
from linebook.read.ids import kebab

SPANISH = wording_in(("es",))
PLACE = re.compile(r"\{[a-z_]+\}")
ALIKE = frozenset(
    {
        *("order.service", "order.when", "order.packs", "order.weekday", "order.amount-of", "order.idle.entry"),
        *("kicker.between", "foot.between", "list.comma", "list.reason", "list.semicolon", "note.between", "name.prep"),
        *("call.portions", "call.dish"),
        "cautions.rule",
        *("changed.item", "tasting.part", "set-up.one", "plan.minutes", "plan.loads", "plan.stock", "pull.cut"),
        *("sentence.between", "amount.moved-in", "allergens.group", "portion.size", "portion", "store.pans-of"),
        *("stage-loads.stage", "sizing.on-hand", "sizing.on-hand.undated", "note.held-back.in", "cover.short.short"),
        "store.one-pan",
        *(
            "exempt.lactitol",
            "cutting.step",
            "cutting.step.uncut",
            "plate.element",
            "log.after-time",
            "log.acidity",
            "matrix.of-lists",
            "cover.size",
            "count.night",
            "index.contain",
            "line-allergens.kinds",
            "change.turned",
            "change.turned-alone",
        ),
        *(
            "change.of",
            "change.in-column",
            "change.amount",
            "change.second",
            "guest.off",
            "guest.pass-changes.seat",
            "guest.told",
            "line-allergens.kinds",
            "guest.stop",
            "guest.seat-asks",
        ),
        *("amount.beside", "amount.with-beside", "amount.with-beside.unparted"),
        "note.in-column",
        *(
            "swap.aside.menu",
            "swap.aside.same",
            "swap.allergens.point",
            "swap.dishes.parts",
            "swap.row",
            "swap.row.leave-to",
            "swap.row.left",
        ),
        *("diet.alcohol", "also.alcohol", "origin.alcohol", "origin.mineral"),
    }
)
"""What is the same in Spanish: signs, places with nothing between them but signs, and the odd word."""

A_YEAR = [date(2027, 1, 1) + timedelta(days=step) for step in range(365)]


def test_the_languages_of_house_yaml_are_those_that_have_a_catalogue():
    assert tuple(LANGUAGES) == house_fields.LANGUAGES
    assert {path.stem for path in FOLDER.glob("*.po")} == set(LANGUAGES)


def test_the_english_catalogue_is_the_table():
    assert (FOLDER / "en.po").read_text(encoding="utf-8") == template(), "run tests/unit/documents/catalogue_files.py"


def test_the_spanish_catalogue_has_every_sentence_and_no_other():
    text = (FOLDER / "es.po").read_text(encoding="utf-8")
    assert text == updated("es", text), "run tests/unit/documents/catalogue_files.py and translate what is new"


def test_the_compiled_catalogue_is_that_of_the_text():
    text = (FOLDER / "es.po").read_text(encoding="utf-8")
    assert (FOLDER / "es.mo").read_bytes() == compiled("es", text)


def spanish_sentences():
    catalogue = read("es", (FOLDER / "es.po").read_text(encoding="utf-8"))
    for key, sentence in sentences():
        own = (sentence,) if isinstance(sentence, str) else sentence
        message = catalogue.get(own[0], context=key)
        string = message.string if message else ""
        said = (string,) if isinstance(string, str) else string
        yield key, own, said


@pytest.mark.parametrize(("key", "own", "said"), list(spanish_sentences()))
def test_a_spanish_sentence_says_all_the_english_one_does(key, own, said):
    assert all(said), "not translated"
    assert len(said) == (1 if len(own) == 1 else PLURALS["es"][0])
    for one in said:
        model = own[0] if one is said[0] else own[-1]
        assert sorted(PLACE.findall(one)) == sorted(PLACE.findall(model))
        assert one.count("**") == model.count("**")
        assert one.count("¿") == one.replace("**?**", "").count("?") == model.replace("**?**", "").count("?")
        assert one.startswith(" ") == model.startswith(" ")
        assert one.endswith(" ") == model.endswith(" ")
        assert one.endswith(".") == model.endswith(".") or one in ("ud.", "uds.", "cda.", "cdas.", "cdta.", "cdtas.")
        letters = PLACE.sub("", model)
        if letters[:1].isalpha() and PLACE.sub("", one)[:1].isalpha():
            names = key.startswith(
                ("weekday.", "month.", "language.", "rules.", "limit.cited.")
            )  # each by its own rule
            assert names or one[:1].isupper() == letters[:1].isupper(), one
    if key not in ALIKE:
        assert said[0] != own[0], "the same as the English"


def test_what_is_listed_as_alike_is_alike():
    for key in ALIKE:
        assert catalogue_of("es").sentences[key] == ENGLISH[key]


def test_what_is_not_in_a_catalogue_is_said_in_english(tmp_path, monkeypatch):
    text = (FOLDER / "es.po").read_text(encoding="utf-8").replace('msgstr "borrador: aún sin probar"', 'msgstr ""')
    (tmp_path / "catalogues").mkdir()
    (tmp_path / "catalogues" / "es.mo").write_bytes(compiled("es", text))
    monkeypatch.setattr("linebook.documents.catalogue.__file__", str(tmp_path / "catalogue.py"))
    found = catalogue_of.__wrapped__("es")
    assert found.sentences["draft"] == ENGLISH["draft"]
    assert found.sentences["fact.loss"] == "Merma"


# -- plurals, by CLDR


@pytest.mark.parametrize(("language", "forms"), [("en", ("one", "other")), ("es", ("one", "many", "other"))])
def test_the_plural_rule_is_cldr_s(language, forms):
    count, rule = PLURALS[language]
    chosen, cldr = c2py(rule), Locale(language).plural_form
    assert count == len(forms)
    numbers = [*range(2000), *(step * 250_000 for step in range(200)), 1_000_001, 10**9]
    assert [forms[chosen(number)] for number in numbers] == [cldr(number) for number in numbers]


def test_a_catalogue_at_work_chooses_as_cldr_does():
    ours = {"one": "one", "many": "million", "other": "many"}
    for number in (0, 1, 2, 11, 21, 100, 101, 999_999, 1_000_000, 1_000_001, 2_000_000):
        key = f"covers.{ours[Locale('es').plural_form(number)]}"
        sentence = catalogue_of("es").sentences[key]
        assert SPANISH.say_count("covers", number).plain == sentence.replace("{count}", str(number))
    assert SPANISH.say_count("covers", 1).plain == "1 cubierto"
    assert SPANISH.say_count("covers", 80).plain == "80 cubiertos"


def test_every_counted_key_has_one_and_many():
    assert counted_keys()
    for key in counted_keys():
        assert {f"{key}.one", f"{key}.many"} <= set(ENGLISH)


# -- days, by CLDR


def test_names_of_days_and_months_are_cldr_s():
    for language, wording in (("en", english()), ("es", SPANISH)):
        days = get_day_names("abbreviated", locale=language)
        months = get_month_names("wide", locale=language)
        assert [wording.say(f"weekday.{at}").plain for at in range(7)] == [days[at] for at in range(7)]
        assert [wording.say(f"month.{at}").plain for at in range(1, 13)] == [months[at] for at in range(1, 13)]


@pytest.mark.parametrize(("wording", "locale"), [(english(), "en_GB"), (SPANISH, "es")], ids=["en", "es"])
def test_a_day_with_its_year_is_cldr_s_long_form(wording, locale):
    for day in A_YEAR:
        assert wording.full_day(day).plain == format_date(day, "long", locale=locale).replace(" ", "\u00a0")


def test_a_day_with_its_weekday_has_cldr_s_parts_and_no_comma():
    for day in A_YEAR:
        assert english().day(day).plain == format_date(day, "EEE d MMMM", "en").replace(" ", "\u00a0")
        assert SPANISH.day(day).plain == format_date(day, "EEE d 'de' MMMM", "es").replace(" ", "\u00a0")
    assert SPANISH.day(date(2027, 3, 6)).plain.replace("\u00a0", " ") == "sáb 6 de marzo"


# -- lists


def listed(wording, *names):
    return wording.listed_with_and(words(name) for name in names).plain


@pytest.mark.parametrize("names", [("sal",), ("sal", "pan"), ("sal", "pan", "vino"), ("a", "b", "c", "d")])
def test_a_list_is_joined_as_cldr_has_it(names):
    assert listed(SPANISH, *names) == format_list(names, locale="es")
    assert listed(english(), *names) == format_list(names, locale="en_GB")


# The Unicode pattern is the same for all words; that *y* gives way is written in ICU's code, which these follow.
@pytest.mark.parametrize(
    ("second", "joint"),
    [
        ("hinojo", "e"),
        ("Hinojo", "e"),
        ("iceberg", "e"),
        ("Idiazábal", "e"),
        ("hígado", "e"),
        ("hielo", "y"),
        ("hierbas", "y"),
        ("hiato", "y"),
        ("yema", "y"),
        ("yuca", "y"),
        ("aceite", "y"),
        ("huevo", "y"),
    ],
)
def test_y_is_e_before_the_sound_of_i(second, joint):
    assert listed(SPANISH, "puerro", second) == f"puerro {joint} {second}"
    assert listed(english(), "leek", second) == f"leek and {second}"


def test_each_language_joins_by_its_own_next_word():
    both = wording_in(("en", "es"))
    said = both.listed_with_and([words("leek", "puerro"), words("fennel", "hinojo")])
    assert said.both == "leek and fennel / puerro e hinojo"
    assert both.listed_with_and([words("leek"), words("iceberg")]).both == "leek and iceberg / leek e iceberg"


# -- units


def test_unit_words_are_those_of_the_units():
    for unit in UNITS.values():
        number = unit.key.removeprefix("scoop-")
        name = "scoop" if number != unit.key else unit.symbol
        if unit.kind.value != "count" and name not in ("cup", "tbsp", "tsp", "scoop"):
            assert unit.symbol == unit.plural, "a symbol has no plural"
            assert f"unit.{name}.one" not in ENGLISH
            continue
        assert ENGLISH[f"unit.{name}.one"].replace("{number}", number) == unit.symbol
        assert ENGLISH[f"unit.{name}.many"].replace("{number}", number) == unit.plural


# -- rules and their sources


def test_rules_and_laws_are_called_in_english_as_the_table_of_limits_has_them():
    assert {key: ENGLISH[key] for key in ENGLISH if key.startswith("rules.")} == {
        f"rules.{kebab(rules)}": rules for rules in RULE_SETS
    }
    cited = {key.removeprefix("limit.cited."): ENGLISH[key] for key in ENGLISH if key.startswith("limit.cited.")}
    assert {name: source for source, name in limit_boxes._CITED.items()} == cited
    sources = {rule_for(rules, limit).source for rules in RULE_SETS for limit in Limit}
    assert {source for source in sources if "Regulation (EC)" in source} == set(cited.values())


# -- only what is asked for


def test_a_house_of_one_language_reads_no_other():
    code = (
        "import sys, pathlib\n"
        "opened = []\n"
        "sys.addaudithook(lambda event, args: opened.append(str(args[0])) if event == 'open' else None)\n"
        "from linebook.documents.wording import wording_in\n"
        "assert wording_in(('en',)).say('fact.loss').plain == 'Loss'\n"
        "assert not [path for path in opened if path.endswith('.mo')], opened\n"
        "assert 'linebook.model.taxonomy.spanish' not in sys.modules\n"
        "assert wording_in(('es', 'en')).say('fact.loss').both == 'Merma / Loss'\n"
        "assert [path for path in opened if path.endswith('es.mo')]\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
