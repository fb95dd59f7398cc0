"""What is packed without air, or lies under oil with an aromatic, and names no limit for it (LB532).

FDA Food Code 3-502.12 for packs; a pack that is opened within 48 h needs no plan (3-502.12(F), from memory). National
Center for Home Food Preservation, garlic in oil (2002). It is told only where fields alone show it: a vessel that is
named for it; bought oil over bought aromatics, by their names. The plan and the authority decide, so it is a warning.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Final, TypeAlias

from linebook.check.cold_keeping import days_kept, places_of
from linebook.check.index import Index, place
from linebook.check.prose import contains, stems
from linebook.check.weights import grams_of, line_amounts
from linebook.model.amounts import Amount, Kind, ToTaste
from linebook.model.component import Component, Ingredient, KeptBy, Limit
from linebook.model.dating import is_kept_frozen
from linebook.model.house import HouseFile
from linebook.model.units import to_base
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related

_WITHOUT_AIR: Final = tuple(map(stems, ("vacuum", "vac", "sous vide", "sousvide", "vacío", "al vacío")))
_OPENED_WITHIN: Final = 2
"""Days: a pack that lives no longer than 48 h."""

_OIL: Final = frozenset(stems("oil aceite"))
_AROMATICS: Final = frozenset(
    stems(
        "garlic shallot onion scallion leek chive ramson ginger galangal turmeric horseradish chilli chili jalapeno "
        "habanero lemongrass basil parsley mint thyme rosemary sage tarragon dill oregano marjoram coriander cilantro "
        "chervil lovage sorrel bay mushroom cep truffle tomato ajo chalota cebolla puerro jengibre guindilla albahaca "
        "perejil menta tomillo romero salvia estragon eneldo oregano cilantro seta trufa tomate"
    )
)
_NOT_FRESH: Final = frozenset(
    stems(
        "oil vinegar dried dry powder powdered ground granulated salt pickle pickled fermented black paste seed jar "
        "tin tinned canned aceite vinagre seco polvo molido sal encurtido fermentado negro pasta semilla"
    )
)
_SOUR: Final = frozenset(stems("vinegar verjus verjuice lemon lime citric lactic wine vinagre limon lima vino"))
_LIES_UNDER: Final = Fraction(2, 5)
"""Oil for so much of the weight of what lies in it covers it: it fills the room between."""
_ELSE: Final = Fraction(1, 4)
"""Where more than this part of the oil and the aromatics is something else, it is a sauce, not aromatics in oil."""
_STAYS: Final = Fraction(3, 5)
"""Where less than this part of the oil is in what is made, it was for frying, or was poured off."""
_OIL_DENSITY: Final = Fraction(92, 100)
"""g/ml of an oil whose pantry entry gives none (common practice, no source)."""


_Weighed: TypeAlias = Mapping[Ingredient, Fraction | None]
"""Lines of a card with their grams, None where nobody knows."""


def check_unnamed_limits(index: Index) -> Iterator[Fault]:
    """Yield a warning for each component that ends in a pack without air, or under oil, and names no limit for it."""
    if index.file is None:
        return
    places, airless = places_of(index), _airless(index.file)
    oils = {id for id in index.pantry if _words(index, id) & _OIL}
    aromatics = {id for id in index.pantry if (words := _words(index, id)) & _AROMATICS and not words & _NOT_FRESH}
    for component in index.components.values():
        if index.is_incomplete(component.id) or is_kept_frozen(component, places) or component.kept_by is KeptBy.PLAN:
            continue
        limits = {stage.limit for stage in component.stages}
        days = days_kept(component.keeps) if component.keeps is not None else None
        if not limits & {Limit.PACKED} and (days is None or days > _OPENED_WITHIN):
            yield from _packed(component, airless)
        if not limits & {Limit.OIL, Limit.ACIDIFY, Limit.PACKED} and (days is None or days > 1):
            items = {line.item for line in component.ingredients}
            if items & oils and items & aromatics:
                yield from _under_oil(index, component)


def _airless(file: HouseFile) -> Callable[[str], bool]:
    """Return what tells of the id of a vessel whether that, or its name, says that it is one without air."""
    vessels = {vessel.id: vessel.name for vessel in file.vessels}

    @cache
    def is_without_air(vessel: str) -> bool:
        said = stems(f"{vessel.replace('-', ' ')} {vessels.get(vessel, '')}")
        return any(contains(said, word) for word in _WITHOUT_AIR)

    return is_without_air


def _packed(component: Component, is_without_air: Callable[[str], bool]) -> Iterator[Fault]:
    """Yield a warning where the store, or the last vessel that a stage names, is one without air."""
    store = component.store
    if store is not None and store.vessel is not None:
        inside, span = is_without_air(store.vessel), place(store, "in", "vessel")
    else:
        last = next((one for one in reversed(component.stages) if one.vessel is not None), None)
        inside = last is not None and is_without_air(last.vessel or "")
        span = last.at("vessel") if last is not None else component.at("stages")
    if inside:
        yield fault(
            "LB532",
            f"{component.name} is kept without air, and no stage of it has a limit for that",
            span,
            hints=(
                f"write `limit: {Limit.PACKED.value}` on the stage that packs it: its card then prints rule and log",
                *_HINTS,
            ),
        )


def _under_oil(index: Index, component: Component) -> Iterator[Fault]:
    """Yield a warning where a fresh aromatic lies under bought oil, or was steeped in it."""
    oils, aromatics, others = _parted(index, component)
    if not oils or not aromatics or component.kept_by is not None or any(_is_sour(index, line) for line in others):
        return
    if _lies_under(index, component, oils, aromatics, others):
        oil, aromatic = next(iter(oils)), next(iter(aromatics))
        yield fault(
            "LB532",
            f"{component.name} keeps {_name(index, aromatic.item)} in oil, and no stage of it has a limit for that",
            oil.at("item"),
            hints=(
                f"write `limit: {Limit.OIL.value}` on its last stage: the card then prints the rule and a log",
                f"or `limit: {Limit.ACIDIFY.value}` where it is made sour first",
                *_HINTS,
            ),
            related=(Related(span=aromatic.at("item"), label="what lies in it"),),
        )


def _lies_under(index: Index, component: Component, oils: _Weighed, aromatics: _Weighed, others: _Weighed) -> bool:
    """Return whether the oil covers what lies in it, is most of it all, and is still there when it is made."""
    made, oil = grams_of(index, component.id, component.makes), _total(oils)
    under, rest = _total(aromatics), [grams for line, grams in others.items() if not line.medium]
    if made is None or made < oil * _STAYS or any(grams is None for grams in rest):
        return False
    return oil >= under * _LIES_UNDER and sum(filter(None, rest), Fraction(0)) <= (oil + under) * _ELSE


def _total(lines: _Weighed) -> Fraction:
    return sum((grams for line, grams in lines.items() if grams is not None and not line.medium), Fraction(0))


_HINTS: Final = (
    "or store it frozen, or say what your licensed food-safety plan lets you do: `kept_by: own plan`",
    "without air botulinum grows unseen: local code and your plan decide, and may ask for a licence",
)


def _parted(index: Index, component: Component) -> tuple[_Weighed, _Weighed, _Weighed]:
    """Return the lines that are bought oil, those that are fresh aromatics, and all others, with their grams."""
    oils: dict[Ingredient, Fraction | None] = {}
    aromatics: dict[Ingredient, Fraction | None] = {}
    others: dict[Ingredient, Fraction | None] = {}
    for line, amount in zip(component.ingredients, line_amounts(index, component), strict=True):
        words, found = _words(index, line.item), others
        if line.item in index.pantry and words & _OIL and not line.medium:
            found = oils
        elif line.item in index.pantry and words & _AROMATICS and not words & _NOT_FRESH:
            found = aromatics
        if not isinstance(line.amount, ToTaste):
            found[line] = _grams(index, line, amount)
    return oils, aromatics, others


def _words(index: Index, item: str) -> frozenset[str]:
    return frozenset(stems(f"{item.replace('-', ' ')} {_name(index, item)}"))


def _name(index: Index, item: str) -> str:
    bought = index.pantry.get(item)
    return bought.name if bought is not None else item


def _is_sour(index: Index, line: Ingredient) -> bool:
    return bool(_words(index, line.item) & _SOUR)


def _grams(index: Index, line: Ingredient, amount: Amount | None) -> Fraction | None:
    if amount is None:
        return None
    grams = grams_of(index, line.item, amount)
    if grams is None and amount.unit.kind is Kind.VOLUME and _words(index, line.item) & _OIL:
        return to_base(amount) * _OIL_DENSITY
    return grams
