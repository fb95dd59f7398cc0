"""What is said to be left on hand names real items, in units that can meet, once each, with known substances.

One rule for the stock of a menu and for a file of what is left (LB201, LB212, LB223, LB304, LB309, LB402 to LB404,
LB505).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Protocol

from linebook.check.declarations import NONE, substance_hints
from linebook.check.index import Index, place
from linebook.check.words import listing
from linebook.model.amounts import Kind
from linebook.model.component import ByProduct, Component
from linebook.model.conversion import in_makes
from linebook.model.house import House, HouseFile
from linebook.model.pantry import PantryItem
from linebook.model.quantities import write_amount
from linebook.model.supply import StockEntry
from linebook.model.taxonomy import SUBSTANCES
from linebook.model.units import same_measure
from linebook.read.house_folder import HOUSE_ID, PANTRY_ID
from linebook.read.ids import kebab
from linebook.read.on_hand import read_on_hand
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Related, Severity, ValueMistake
from linebook.source.nearest import nearest


class Known(Protocol):
    """What entries of stock may name: an index of what was read, or a checked house."""

    @property
    def file(self) -> HouseFile | None: ...
    @property
    def pantry(self) -> Mapping[str, PantryItem]: ...
    @property
    def components(self) -> Mapping[str, Component]: ...
    @property
    def by_products(self) -> Mapping[str, tuple[tuple[Component, ByProduct], ...]]: ...


def check_menu_stock(index: Index) -> Iterator[Fault]:
    """Yield the faults of what menus say is on hand."""
    for menu in index.menus.values():
        yield from entry_faults(menu.on_hand, index)


def open_on_hand(path: Path, shown: str, house: House) -> Outcome[tuple[StockEntry, ...]]:
    """Read and check a file of what is left; the value is None where there is an error."""
    read = read_on_hand(path, shown, house.file.measures)
    if read.value is None:
        return read
    faults = (*read.faults, *entry_faults(read.value, house))
    sound = not any(one.severity is Severity.ERROR for one in faults)
    return Outcome(value=read.value if sound else None, faults=faults)


def entry_faults(entries: Sequence[StockEntry], known: Known) -> Iterator[Fault]:
    """Yield every fault of some entries of stock, in their order."""
    seen: dict[tuple[object, ...], StockEntry] = {}
    for entry in entries:
        yield from _item_faults(entry, known)
        yield from _date_faults(entry)
        yield from _substance_faults(entry, known)
        key = (entry.item, entry.made, entry.card)
        if key in seen:
            made = f", made {entry.made.isoformat()}," if entry.made else ""
            yield fault(
                "LB212",
                f"`{entry.item}`{made} is listed twice on hand",
                entry.at("item"),
                hints=("add the two amounts up on one line, or give each its own day in `made`",),
                related=(Related(span=seen[key].at("item"), label="first here"),),
            )
        seen.setdefault(key, entry)


def _item_faults(entry: StockEntry, known: Known) -> Iterator[Fault]:
    component, item = known.components.get(entry.item), known.pantry.get(entry.item)
    makers = known.by_products.get(entry.item, ())
    if component is None and item is None and not makers:
        if not (isinstance(known, Index) and (known.is_broken(entry.item) or known.is_incomplete(PANTRY_ID))):
            yield fault(
                "LB201",
                f"no pantry item, component or by-product has the id `{entry.item}`",
                entry.at("item"),
                hints=_item_hints(entry.item, known),
            )
        return
    if isinstance(known, Index) and known.is_incomplete(entry.item):
        return  # what could not be read may be the density or the pieces
    if component is not None:
        yield from _component_faults(entry, component)
    elif item is None and not any(same_measure(entry.amount.unit, made.amount.unit) for _, made in makers):
        maker, made = makers[0]
        kind = made.amount.unit.kind
        how = f"in {made.amount.unit.plural}" if kind is Kind.COUNT else f"by {kind.value}"
        yield fault(
            "LB304",
            f"`{write_amount(entry.amount)}` of {made.name} is on hand, and `{write_amount(made.amount)}` is made",
            entry.at("amount"),
            hints=(f"type the amount {how}",),
            related=(Related(span=made.at("amount"), label=f"made in this unit by {maker.name}"),),
        )
    if entry.card is not None and component is None and not makers:
        yield fault(
            "LB223",
            f"`{entry.item}` is bought, and `card` is the fingerprint of a batch card",
            entry.at("card"),
            hints=("delete the line; what its label says goes in `contains`",),
        )


def _component_faults(entry: StockEntry, component: Component) -> Iterator[Fault]:
    try:
        in_makes(component, entry.amount)
    except ValueMistake as mistake:
        counted = entry.amount.unit.counts == "each" and not component.pieces
        unit = component.makes.unit
        typed = f"or type it in {unit.plural}" if unit.kind is Kind.COUNT else f"or type it by {unit.kind.value}"
        yield fault(
            "LB309" if counted else "LB304",
            f"`{component.id}` is on hand by the piece, and its card does not say how many pieces it makes"
            if counted
            else mistake.message,
            entry.at("amount"),
            hints=("add `pieces:` and a number to its card, below `makes`" if counted else mistake.hints[0], typed),
            related=(Related(span=component.at("makes"), label="made in this unit"),),
        )


def _date_faults(entry: StockEntry) -> Iterator[Fault]:
    if entry.made is not None and entry.use_by is not None and entry.use_by < entry.made:
        yield fault(
            "LB505",
            f"`{entry.item}` is to be used by {entry.use_by}, before the day it was made",
            entry.at("use_by"),
            hints=("put the later day in `use_by`",),
            related=(Related(span=entry.at("made"), label="made on this day"),),
        )


def _substance_faults(entry: StockEntry, known: Known) -> Iterator[Fault]:
    if known.file is None or (isinstance(known, Index) and known.is_incomplete(HOUSE_ID)):
        return
    own = known.file.allergens.avoid
    for part, words in (("contains", entry.contains or ()), ("may_contain", entry.may_contain)):
        for number, word in enumerate(words):
            if word not in SUBSTANCES and word not in own and word != NONE:
                yield fault(
                    "LB402",
                    f"`{word}` is not a substance that an allergen list names, nor one that this house avoids",
                    place(entry, f"{part}.{number}", part),
                    hints=substance_hints(word, tuple(own)),
                )
        if len(words) > 1 and NONE in words:
            rest = [word for word in words if word != NONE]
            yield fault(
                "LB404",
                f"`{entry.item}` says `none` and {listing(rest)} in one list",
                place(entry, part),
                hints=("write `none` alone, or take it out of the list",),
            )
    for number, word in enumerate(entry.may_contain):
        if word in (entry.contains or ()):
            yield fault(
                "LB404",
                f"`{entry.item}` both contains `{word}` and may contain it",
                place(entry, f"may_contain.{number}", "may_contain"),
                hints=("keep it in `contains`, which is the stronger of the two",),
            )
    if entry.may_contain and entry.contains is None:
        yield fault(
            "LB403",
            f"`{entry.item}` says what it may contain, and not what it contains",
            place(entry, "may_contain"),
            hints=("add what its label names: `contains: [...]`, or `contains: none` where it names nothing",),
        )


def _item_hints(word: str, known: Known) -> tuple[str, ...]:
    """Return what to write instead of an unknown id: that of the very name, or the nearest."""
    names = {item.name: item.id for item in known.pantry.values()}
    names |= {component.name: component.id for component in known.components.values()}
    names |= {made[0][1].name: id_ for id_, made in known.by_products.items()}
    named = next((id_ for name, id_ in names.items() if kebab(name) == kebab(word)), None)
    close = named or nearest(word, (*known.components, *known.pantry, *known.by_products))
    close = close or names.get(nearest(word, names) or "")
    return (f"did you mean `{close}`?",) if close else ("write the id of a component, a by-product or a pantry item",)
