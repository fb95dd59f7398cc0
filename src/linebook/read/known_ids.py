"""A name typed where an id belongs: finds the id it stands for once the whole house has been read.

Only words a mend better: it makes no fault and takes none away.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Protocol

from linebook.model.house import ParsedHouse
from linebook.read.ids import is_id, kebab
from linebook.source.faults import Fault
from linebook.source.nearest import nearest


class _Named(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def name(self) -> str: ...


def mend_ids(faults: tuple[Fault, ...], parsed: ParsedHouse) -> tuple[Fault, ...]:
    """Return the faults, each LB203 with the id that was most likely meant, where making one of the text gives none."""
    if all(fault.code != "LB203" for fault in faults):
        return faults
    names: dict[str, str] = {}
    for id, name in _known(parsed):
        names[id] = id
        names.setdefault(kebab(name), id)
    return tuple(_mended(fault, names) if fault.code == "LB203" else fault for fault in faults)


def _mended(fault: Fault, names: dict[str, str]) -> Fault:
    typed = fault.span.text if fault.span is not None else ""
    meant = kebab(typed)
    if not meant or names.get(meant) == meant:
        return fault
    close = names.get(meant) or names.get(nearest(meant, names) or "")
    return replace(fault, hints=(f"did you mean `{close}`?", *fault.hints[-1:])) if close else fault


def _known(parsed: ParsedHouse) -> Iterator[tuple[str, str]]:
    house = parsed.file
    equipment: tuple[tuple[_Named, ...], ...] = ()
    if house is not None:
        equipment = (house.lines, house.vessels, house.places, house.media, house.plates)
    cards: tuple[tuple[_Named, ...], ...] = (parsed.components, parsed.dishes, parsed.menus, parsed.pantry)
    for records in (*cards, *equipment):
        yield from ((record.id, record.name) for record in records if is_id(record.id))
    yield from ((id, id) for id in parsed.broken if is_id(id))
