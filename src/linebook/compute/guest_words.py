"""The words a guest or a server types, and what they mean in this house: substances, groups, diets, foods by name.

Owns the table of everyday words. It fails closed: a word that may be meant wider is taken wider (*nuts* are peanuts
too, *cheese* is the milk of every animal, *mint* is everything that has mint in its name), and a word that is not
known has no meaning at all, never an empty one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from typing import Final, TypeAlias

from linebook.check.prose import contains, stems
from linebook.compute.avoidances import Avoidance, of_diet
from linebook.compute.inside import bought_inside
from linebook.model.diets import DIETS
from linebook.model.house import House
from linebook.model.taxonomy import LISTS, SUBSTANCES, covered_by
from linebook.source.nearest import nearest

Stems: TypeAlias = tuple[str, ...]

MOST_NEAR: Final = 6
_ALIKE: Final = 0.5

# words · what they mean: ids of substances and diets; after a slash, foods by name, tracked or not
_EVERYDAY_TABLE: Final = """
dairy, dairy product, lactose, butter, cream, cheese, yoghurt, yogurt, ghee, whey, casein, kefir | milk
gluten, cereal, coeliac, celiac, coeliac disease, celiac disease, flour, bread, pasta | gluten
egg white, egg yolk, yolk, mayonnaise | egg
nut, all nut, nut allergy | tree-nut, peanut
marzipan, frangipane | almond
shellfish, shell fish | crustacean, mollusc
seafood, sea food | fish, crustacean, mollusc
roe, caviar, anchovy paste | fish
bivalve, cephalopod, squid ink | mollusc
seed, all seed | sesame, mustard / seed, tahini
legume, pulse | peanut, soy, lupin / bean, pea, lentil, chickpea
sulfite, sulphite, preservative | sulphites
allium | / allium, garlic, onion, shallot, leek, chive, ramson, scallion, wild garlic
mushroom, fungus, fungi | / mushroom, truffle, cep, chanterelle, morel, mycelium
citrus, citrus fruit | / lemon, lime, orange, grapefruit, mandarin, bergamot, yuzu, citron, citric
nightshade | / tomato, potato, aubergine, sweet pepper, chilli, paprika, pimiento
chilli, chili, spicy | / chilli, chili, cayenne, paprika
alcohol, wine, beer, spirit, booze | alcohol
meat, red meat | meat
chicken, duck, turkey, goose, bird | poultry
veal, ox, cow | beef
mutton, goat meat | lamb
ham, bacon, lard, pig | pork
venison, hare | game
gelatin, gelatine, aspic | gelatine
rennet | animal-rennet
veggie, vegetarian diet | vegetarian
plant based, vegan diet | vegan
pescetarian | pescatarian
unpasteurized, raw milk, raw dairy, unpasteurised milk, unpasteurized milk, unpasteurised dairy | unpasteurised
raw oyster | raw-shellfish
raw, undercooked, raw food | raw-egg, raw-fish, raw-shellfish, raw-meat, unpasteurised
"""
_GENERAL: Final[Mapping[str, str]] = {"gluten": "gluten-cereal"}
_GENERAL_OF: Final[Mapping[str, str]] = {"gluten-cereal": "gluten"}
"""A substance that is the whole of a group under another id, and back."""
_PADDING: Final = frozenset(("no", "without", "free", "allergy", "allergic", "intolerance", "intolerant", "any", "the"))


def find_avoidances(house: House, word: str) -> tuple[Avoidance, ...] | None:
    """Return what a word means a guest cannot have, None where the house does not know it.

    Everyday words come first, then what the house tracks itself, groups of any allergen list, substances and diets by
    id, name or synonym, the same in Spanish; only then pantry items and components, with everything of that name.
    """
    forms = _forms(word)
    for form in forms:
        if targets := _read_everyday(_EVERYDAY_TABLE).get(form):
            tracked = _own_named(house, form)
            return tuple(dict.fromkeys((*([tracked] if tracked else []), *_of_targets(house, *targets))))
    for form in forms:
        if found := _named(house, form):
            return (found,)
    for form in forms:
        if spanish := _in_spanish(house, form):
            return spanish
    for form in forms:
        if foods := _foods_called(house, form):
            return (_item(house, form, foods),)
    return None


def nearest_words(house: House, word: str) -> tuple[str, ...]:
    """Return words the house knows that an unknown one may have been meant for, the likeliest first."""
    typed = " ".join(word.split()).casefold()
    known = {name.casefold(): name for name in _known_words(house)}
    first = nearest(typed, known.values())
    parts = {part for part in stems(typed) if len(part) > 2}
    holding = [name for name in known.values() if parts & set(stems(name))]
    close = [known[name] for name in get_close_matches(typed, known, n=MOST_NEAR, cutoff=_ALIKE)]
    return tuple(dict.fromkeys(([first] if first else []) + close + sorted(holding)))[:MOST_NEAR]


def of_substance(house: House, id_: str) -> Avoidance:
    """Return the avoidance of a substance or group: all its kinds, and all that any list names in a group of that id.

    It is called as the first of the house's lists that has the group calls it.
    """
    group, general = _GENERAL.get(id_, id_), _GENERAL_OF.get(id_, id_)
    names = {code: one.name for code, list_ in LISTS.items() for one in list_.groups if one.id == group}
    members = {one for list_ in LISTS.values() for other in list_.groups if other.id == group for one in other.members}
    covered = frozenset(covered_by((general,))) | members
    if not names:
        return Avoidance(id=id_, name=SUBSTANCES[id_].name, kind="substance", substances=covered)
    called = next((code for code in house.file.allergens.lists if code in names), next(iter(names)))
    return Avoidance(id=group, name=names[called], kind="group", substances=covered)


def of_own(house: House, id_: str) -> Avoidance:
    """Return the avoidance of what the house tracks itself."""
    name = house.file.allergens.avoid[id_]
    return Avoidance(id=id_, name=name, kind="own", substances=frozenset(covered_by((id_,))))


def _forms(word: str) -> tuple[Stems, ...]:
    """Return the stems of a word, and without *no* before it or *free* and *allergy* after it."""
    whole = stems(word)
    bare = tuple(stem for stem in whole if stem not in _PADDING)
    return tuple(form for form in dict.fromkeys((whole, bare)) if form)


@cache
def _read_everyday(table: str) -> Mapping[Stems, tuple[tuple[str, ...], tuple[str, ...]]]:
    """Return the ids and the foods that each word of a table means."""
    found = {}
    for row in table.strip().splitlines():
        words, _, meaning = row.partition("|")
        ids, _, names = meaning.partition("/")
        target = (_listed(ids), _listed(names))
        found.update({stems(word): target for word in _listed(words)})
    return found


def _listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",") if part.strip())


def _of_targets(house: House, ids: Iterable[str], names: tuple[str, ...]) -> tuple[Avoidance, ...]:
    found = [_of_id(house, id_) for id_ in ids]
    tracked = {name: own for name in names if (own := _own_named(house, stems(name)))}
    found += tracked.values()
    if untracked := [name for name in names if name not in tracked]:
        foods = frozenset(item for name in untracked for item in _foods_called(house, stems(name)))
        found.append(Avoidance(id=untracked[0], name=untracked[0], kind="item", items=foods))
    return tuple(dict.fromkeys(found))


def _in_spanish(house: House, form: Stems) -> tuple[Avoidance, ...]:
    from linebook.compute import spanish_guest_words as spanish  # here, because most words are found without it

    if targets := _read_everyday(spanish.EVERYDAY).get(form):
        return _of_targets(house, *targets)
    id_ = next((id_ for name, id_ in spanish.names() if stems(name) == form), None)
    return () if id_ is None else (of_substance(house, id_),)


def _of_id(house: House, id_: str) -> Avoidance:
    if id_ in house.file.allergens.avoid:
        return of_own(house, id_)
    return of_substance(house, id_) if id_ in SUBSTANCES else of_diet(DIETS[id_])


def _named(house: House, form: Stems) -> Avoidance | None:
    """Return what has this id, name or synonym among the house's own avoidances, groups, substances and diets."""
    if own := _own_named(house, form):
        return own
    id_ = _substance_words().get(form)
    if id_ is not None:
        return of_substance(house, id_)
    diet = next((diet for diet in DIETS.values() if form in (stems(diet.id), stems(diet.name))), None)
    return None if diet is None else of_diet(diet)


def _own_named(house: House, form: Stems) -> Avoidance | None:
    for id_, name in house.file.allergens.avoid.items():
        if form in (stems(id_), stems(name)):
            return of_own(house, id_)
    return None


@cache
def _substance_words() -> Mapping[Stems, str]:
    """Return substances and groups by every word for them. An id or a name comes before a synonym."""
    found: dict[Stems, str] = {}
    for substance in SUBSTANCES.values():
        for word in (substance.id, substance.name):
            found.setdefault(stems(word), substance.id)
    for list_ in LISTS.values():
        for group in list_.groups:
            for word in (group.id, group.name):
                found.setdefault(stems(word), group.id)
    for substance in SUBSTANCES.values():
        for word in substance.synonyms:
            found.setdefault(stems(word), substance.id)
    return found


def _item(house: House, form: Stems, foods: Mapping[str, bool]) -> Avoidance:
    """Return the avoidance of foods by name. What is declared in the thing of that very name is avoided with it."""
    exact = [item for item, is_exact in foods.items() if is_exact]
    single = exact[0] if exact else None
    declared = [house.pantry[item].allergens for item in bought_inside(house, exact)]
    substances = {substance for one in declared if one is not None for substance in one.contains}
    return Avoidance(
        id=single or "-".join(form),
        name=house.name_of(single) if single else " ".join(form),
        kind="item",
        substances=frozenset(covered_by(sorted(substances))),
        items=frozenset(foods),
    )


def _foods_called(house: House, form: Stems) -> dict[str, bool]:
    """Return the foods whose name holds these words, and whether the words are all of it."""
    found: dict[str, bool] = {}
    for item, names in _foods(house):
        named = [stems(name) for name in names]
        if any(contains(name, form) for name in named):
            found[item] = found.get(item, False) or form in named
    return found


def _foods(house: House) -> Iterator[tuple[str, tuple[str, ...]]]:
    for item in house.pantry.values():
        shorter = (item.name.split(",")[0], item.name.split("(")[0])
        yield item.id, (item.id, item.name, *shorter, *item.also_called)
    for component in house.components.values():
        yield component.id, (component.id, component.name)
    for other in house.second.by_language.values() if house.second else ():
        names = {**other.words.pantry, **other.words.components} if other.words else {}
        yield from (
            (id_, (said.text,)) for id_, said in names.items() if id_ in house.pantry or id_ in house.components
        )
        yield from ((id_, (card.name,)) for id_, card in other.cards.items() if card.name and not card.is_dish)
    for id_, makers in house.by_products.items():
        yield id_, (id_, *(made.name for _, made in makers))


def _known_words(house: House) -> Iterator[str]:
    """Yield every word that means something here."""
    for row in _EVERYDAY_TABLE.strip().splitlines():
        yield from _listed(row.partition("|")[0])
    for id_, name in house.file.allergens.avoid.items():
        yield from (id_, name)
    for substance in SUBSTANCES.values():
        yield from (substance.id, substance.name.split(",")[0], *substance.synonyms)
    yield from (group.name for list_ in LISTS.values() for group in list_.groups)
    yield from (diet.name for diet in DIETS.values())
    for _, names in _foods(house):
        yield from names[:2]
