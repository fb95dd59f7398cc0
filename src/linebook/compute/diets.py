"""The answers to questions about diet, as columns of a table like that of allergens: vegetarian, pork, raw egg.

Contains says that something the diet forbids is in it, undeclared that an origin nobody has given may be. What is
forbidden is in ``model.diets``; how it flows and what is known of it are in ``makeup`` and ``origin_facts``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from linebook.compute.allergens import table_of
from linebook.compute.kitchens import Kind, Kitchens
from linebook.compute.results import AllergenTable, Column, Finding, PartFindings
from linebook.model.diets import DIETS, UNPASTEURISED, Asks
from linebook.model.house import House
from linebook.model.origins import ORIGINS


def diet_columns(diets: Iterable[str] | None = None) -> tuple[Column, ...]:
    """Return the columns of some diets, or of all, in the order of the table of diets."""
    wanted = None if diets is None else frozenset(diets)
    words = (*ORIGINS, UNPASTEURISED)
    return tuple(
        Column(
            id=diet.id,
            name=diet.name,
            substances=tuple(word for word in words if word in diet.forbids),
            own=True,
        )
        for diet in DIETS.values()
        if wanted is None or diet.id in wanted
    )


def compute_diets(house: House, menu: str, diets: Iterable[str] | None = None) -> AllergenTable:
    """Return the answer of every dish and component of a menu to some diets, or to all.

    A finding's ``substances`` are words for origins. ``undeclared`` names the items whose origin, or whether they are
    raw or pasteurised, matters and is not known.
    """
    columns = diet_columns(diets)
    kitchens = Kitchens(house, menu)
    names = {word: word.replace("-", " ") for word in (*ORIGINS, UNPASTEURISED)}
    asks = {Kind.ORIGINS: Asks.ORIGIN, Kind.RAW: Asks.RAW}
    tables = [
        table_of(kitchens, kind, [column for column in columns if DIETS[column.id].asks is asked], names)
        for kind, asked in asks.items()
    ]
    return joined_tables(columns, tables)


def joined_tables(columns: tuple[Column, ...], tables: Sequence[AllergenTable]) -> AllergenTable:
    """Return several tables of one menu side by side, one at the least, in the order of the columns."""
    first = tables[0]
    return AllergenTable(
        menu=first.menu,
        served=first.served,
        columns=columns,
        dishes=_joined(columns, [table.dishes for table in tables]),
        components=_joined(columns, [table.components for table in tables]),
        undeclared={
            id_: tuple(sorted({item for table in tables for item in table.undeclared[id_]})) for id_ in first.undeclared
        },
        parts={id_: _joined_parts(columns, [table.parts[id_] for table in tables]) for id_ in first.parts},
    )


def _joined(
    columns: Iterable[Column], tables: list[Mapping[str, Mapping[str, Finding]]]
) -> dict[str, dict[str, Finding]]:
    """Return the findings of several tables side by side, in the order of the columns."""
    found = {}
    for id_ in tables[0]:
        every = {column: finding for table in tables for column, finding in table[id_].items()}
        found[id_] = {column.id: every[column.id] for column in columns}
    return found


def _joined_parts(columns: Iterable[Column], tables: Sequence[tuple[PartFindings, ...]]) -> tuple[PartFindings, ...]:
    found = []
    for same in zip(*tables, strict=True):
        every = {column: finding for part in same for column, finding in part.findings.items()}
        undeclared = tuple(sorted({item for part in same for item in part.undeclared}))
        findings = {column.id: every[column.id] for column in columns}
        found.append(replace(same[0], findings=findings, undeclared=undeclared))
    return tuple(found)
