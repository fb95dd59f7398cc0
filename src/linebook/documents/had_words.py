"""What there was to size a batch by, in words: as the card weighs it, after its prep, and what that is as bought."""

from __future__ import annotations

from linebook.compute.results import Batch, Leftover
from linebook.compute.yields import as_purchased
from linebook.documents.measures import Measures
from linebook.documents.second import item_name
from linebook.documents.stand_in_text import prep_said
from linebook.documents.text import Text
from linebook.model.amounts import Amount, Kind
from linebook.model.house import House
from linebook.model.usable import item_yield


def had_text(house: House, batch: Batch, one: Leftover, measures: Measures) -> Text:
    """Return what there is of an item, weighed as the card weighs it: *9.3 kg trout, weighed as prepared: filleted*."""
    wording = measures.wording
    values = {"amount": measures.typed(one.had), "item": item_name(house, one.item)}
    lines = [line.ingredient for line in batch.ingredients if line.ingredient.item == one.item]
    if lines and all(line.weigh_before for line in lines):
        return wording.say("sizing.had.before", **values)
    preps = [prep_said(house, batch.component, line, wording, italic=True) for line in lines if not line.weigh_before]
    once = {text.both: text for text in preps if text}
    bought = _as_bought(house, one)
    if bought is not None:
        values["bought"] = measures.short(bought)
    if once:
        key = "sizing.had.prepared" if bought is None else "sizing.had.prepared-bought"
        return wording.say(key, prep=wording.listed_with_and(once.values()), **values)
    return wording.say("sizing.had" if bought is None else "sizing.had.usable", **values)


def _as_bought(house: House, one: Leftover) -> Amount | None:
    """Return what must have been bought for it, where that is more and is known; a count has no part by weight."""
    item = house.pantry.get(one.item)
    if item is None or one.had.unit.kind is Kind.COUNT or item_yield(item).part == 1:
        return None
    return Amount(number=as_purchased(item, one.had.number), unit=one.had.unit)
