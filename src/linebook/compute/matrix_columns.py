"""The columns a house asks for beside its allergens: diets, and raw or undercooked animal food, with their answers.

They are a table of their own, because what a label does not say of allergens and what nobody has said of origin are two
things to ask for. A house that asks for none costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.compute.allergens import table_of
from linebook.compute.diets import joined_tables
from linebook.compute.kitchens import Kind, Kitchens
from linebook.compute.results import AllergenTable, Column
from linebook.model.diets import DIETS, MAY_BE_RAW, UNPASTEURISED, Asks
from linebook.model.house import AllergenPolicy, House
from linebook.model.origins import ORIGINS

RAW = "raw"
"""The column of every animal food that is served raw or undercooked, whatever its kind, or is not pasteurised."""
_WORDS = (*ORIGINS, UNPASTEURISED)


def also_columns(policy: AllergenPolicy) -> tuple[Column, ...]:
    """Return the columns that a house asks for beside its allergens, in its own order."""
    return tuple(_columns(policy))


def compute_also(house: House, menu: str) -> AllergenTable | None:
    """Return the answers to what a house asks beside its allergens, None where it asks nothing."""
    columns = also_columns(house.file.allergens)
    if not columns:
        return None
    kitchens = Kitchens(house, menu)
    names = {word: word for word in _WORDS}
    kinds = {Kind.ORIGINS: Asks.ORIGIN, Kind.RAW: Asks.RAW}
    tables = [
        table_of(kitchens, kind, wanted, names)
        for kind, asks in kinds.items()
        if (wanted := [column for column in columns if _asks(column) is asks])
    ]
    return joined_tables(columns, tables)


def _columns(policy: AllergenPolicy) -> Iterator[Column]:
    for id_ in dict.fromkeys(policy.also):
        forbidden = MAY_BE_RAW | {UNPASTEURISED} if id_ == RAW else DIETS[id_].forbids
        words = tuple(word for word in _WORDS if word in forbidden)
        name = "raw or undercooked" if id_ == RAW else DIETS[id_].name
        yield Column(id=f"{id_}-diet", name=name, substances=words, diet=id_)


def _asks(column: Column) -> Asks:
    return Asks.RAW if column.diet == RAW else DIETS[column.diet].asks
