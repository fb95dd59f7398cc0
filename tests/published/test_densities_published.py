"""Weights of household measures, against the USDA National Nutrient Database for Standard Reference, Release 28.

Source: USDA Agricultural Research Service, SR28 (2015, revised 2016), Weight file: grams per household measure of the
edible part, with the food's NDB number. A measure is the US customary one. The file rounds its grams, hence 3 %.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from linebook.model.amounts import Kind
from linebook.model.conversion import Facts, convert
from linebook.model.quantities import parse_amount, parse_density
from linebook.model.units import Measures
from linebook.source.nodes import MappingNode
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

US = Measures(cup="us", spoon="us", pint="us")
TOLERANCE = Fraction(3, 100)

# NDB number, food, measure, grams (SR28), density in g/ml as a chef types it, to two places
SR28 = [
    ("14555", "water, bottled", "1 cup", "237", "1.00"),
    ("01077", "milk, whole", "1 cup", "244", "1.03"),
    ("01088", "buttermilk, cultured", "1 cup", "245", "1.04"),
    ("01050", "cream, light", "1 cup", "240", "1.01"),
    ("01053", "cream, heavy whipping", "1 cup", "238", "1.01"),
    ("01056", "sour cream", "1 cup", "230", "0.97"),
    ("01116", "yogurt, plain, whole milk", "1 cup", "245", "1.04"),
    ("01036", "ricotta, whole milk", "1 cup", "246", "1.04"),
    ("01017", "cream cheese", "1 cup", "232", "0.98"),
    ("01145", "butter, without salt", "1 cup", "227", "0.96"),
    ("01123", "egg, whole", "1 cup", "243", "1.03"),
    ("01124", "egg white", "1 cup", "243", "1.03"),
    ("01125", "egg yolk", "1 cup", "243", "1.03"),
    ("19296", "honey", "1 cup", "339", "1.43"),
    ("19304", "molasses", "1 cup", "337", "1.42"),
    ("19353", "maple syrup", "1 cup", "315", "1.33"),
    ("19350", "corn syrup, light", "1 cup", "341", "1.44"),
    ("19335", "sugar, granulated", "1 cup", "200", "0.85"),
    ("19336", "sugar, powdered, unsifted", "1 cup", "120", "0.51"),
    ("19334", "sugar, brown, packed", "1 cup", "220", "0.93"),
    ("02047", "salt, table", "1 cup", "292", "1.23"),
    ("02048", "vinegar, cider", "1 cup", "239", "1.01"),
    ("02053", "vinegar, distilled", "1 cup", "238", "1.01"),
    ("02069", "vinegar, balsamic", "1 cup", "255", "1.08"),
    ("04053", "oil, olive", "1 cup", "216", "0.91"),
    ("04582", "oil, canola", "1 cup", "218", "0.92"),
    ("04002", "lard", "1 cup", "205", "0.87"),
    ("04574", "duck fat", "1 cup", "205", "0.87"),
    ("20081", "flour, all-purpose", "1 cup", "125", "0.53"),
    ("20083", "flour, bread", "1 cup", "137", "0.58"),
    ("20080", "flour, whole-grain wheat", "1 cup", "120", "0.51"),
    ("20027", "cornstarch", "1 cup", "128", "0.54"),
    ("20066", "semolina", "1 cup", "167", "0.71"),
    ("20005", "barley, pearled", "1 cup", "200", "0.85"),
    ("16069", "lentils, raw", "1 cup", "192", "0.81"),
    ("16123", "soy sauce", "1 cup", "255", "1.08"),
    ("09152", "lemon juice", "1 cup", "244", "1.03"),
    ("11546", "tomato paste", "1 cup", "262", "1.11"),
    ("18079", "bread crumbs, dry", "1 cup", "108", "0.46"),
    ("12120", "hazelnuts, whole", "1 cup", "135", "0.57"),
    ("18372", "baking soda", "1 tsp", "4.6", "0.93"),
    ("18373", "cream of tartar", "1 tsp", "3", "0.61"),
    ("02030", "black pepper, ground", "1 tsp", "2.3", "0.47"),
    ("02028", "paprika", "1 tsp", "2.3", "0.47"),
    ("14096", "wine, red, table", "1 fl oz", "29.4", "0.99"),
    ("14037", "spirits, 80 proof", "1 fl oz", "27.8", "0.94"),
]

# Honey is in SR28 by the cup and by the tablespoon: 339 g and 21 g, NDB 19296.
HONEY = [("1 cup", "339"), ("1 tbsp", "21")]

# Item of the demo pantry → NDB number of the same food. Foods packed or ground otherwise there are left out.
PANTRY = {
    **{"soy-sauce": "16123", "tomato-paste": "11546", "strong-white-flour": "20083", "plain-flour": "20081"},
    **{"wholemeal-flour": "20080", "semolina": "20066", "pearl-barley": "20005", "green-lentils": "16069"},
    **{"caster-sugar": "19335", "icing-sugar": "19336", "dark-treacle": "19304", "bicarbonate": "18372"},
    **{"cream-of-tartar": "18373", "whole-milk": "01077", "double-cream": "01053", "whipping-cream": "01053"},
    **{"unsalted-butter": "01145", "buttermilk": "01088", "whole-egg": "01123", "egg-yolk": "01125"},
    **{"egg-white": "01124", "duck-fat": "04574", "water": "14555", "fine-salt": "02047"},
    **{"smoked-paprika": "02028", "cider-vinegar": "02048", "rapeseed-oil": "04582", "olive-oil": "04053"},
    **{"heather-honey": "19296", "blossom-honey": "19296", "red-wine": "14096", "lemon-juice": "09152"},
    "hazelnuts": "12120",
}


def within(value: Fraction, published: Fraction) -> bool:
    return abs(value - published) <= published * TOLERANCE


@pytest.mark.parametrize(("ndb", "food", "measure", "grams", "density"), SR28)
def test_a_measure_of_a_food_weighs_what_sr28_says(ndb: str, food: str, measure: str, grams: str, density: str) -> None:
    facts = Facts(name=food, density=parse_density(f"{density} g/ml", US))
    weight = convert(parse_amount(measure, US), Kind.MASS, facts)
    assert within(weight, Fraction(grams)), f"NDB {ndb}: {float(weight):.1f} g"
    volume = convert(parse_amount(f"{grams} g", US), Kind.VOLUME, facts)
    assert within(volume, convert(parse_amount(measure, US), Kind.VOLUME, facts))


@pytest.mark.parametrize(("measure", "grams"), HONEY)
@pytest.mark.parametrize(("other", "other_grams"), HONEY)
def test_one_food_by_two_measures(measure: str, grams: str, other: str, other_grams: str) -> None:
    facts = Facts(name="honey", density=parse_density(f"{grams} g/{measure.removeprefix('1 ')}", US))
    assert within(convert(parse_amount(other, US), Kind.MASS, facts), Fraction(other_grams))


@pytest.mark.parametrize(("ndb", "food", "measure", "grams", "density"), SR28[:5])
def test_the_tolerance_would_catch_a_metric_cup(ndb: str, food: str, measure: str, grams: str, density: str) -> None:
    facts = Facts(name=food, density=parse_density(f"{density} g/ml", US))
    assert not within(convert(parse_amount(measure, Measures(cup="metric")), Kind.MASS, facts), Fraction(grams))


def test_eggs_weigh_what_sr28_says() -> None:
    # NDB 01123, whole egg: one large egg is 50 g, and 4.86 large eggs are a cup of 243 g
    facts = Facts(name="egg", density=parse_density("1.03 g/ml", US), weighs={"each": Fraction(50)})
    assert within(convert(parse_amount("1 cup", US), Kind.COUNT, facts), Fraction("4.86"))
    assert within(convert(parse_amount("4.86 each", US), Kind.MASS, facts), Fraction(243))


def demo_densities() -> dict[str, str]:
    found = {}
    for file in sorted((Path(__file__).parents[2] / "specs" / "pantry").glob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        node = read_yaml(SourceFile(path=file.name, text=text), 0, len(text)).value
        assert isinstance(node, MappingNode), file
        for item in node.entries:
            for entry in item.value.entries:
                if entry.key.text == "density":
                    found[item.key.text] = entry.value.text
    return found


@pytest.mark.parametrize("item", sorted(PANTRY))
def test_the_demo_pantry_agrees_with_sr28(item: str) -> None:
    _, _, measure, grams, _ = next(row for row in SR28 if row[0] == PANTRY[item])
    published = Fraction(grams) / convert(parse_amount(measure, US), Kind.VOLUME, Facts(name=item))
    density = parse_density(demo_densities()[item], US)
    assert within(density, published), f"{item}: {float(density):.3f}, SR28 {float(published):.3f} g/ml"
