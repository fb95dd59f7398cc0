"""What the words of a command ask of printing. It is sent to the process that draws, so it must not know click."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.model.house import House, Ink, Systems
    from linebook.pdf.printing import Printing


@frozen
class Asked:
    """What the command line says of printing; None and empty leave it to the house. ``opens`` shows it at the end."""

    paper: str | None = None
    duplex: bool | None = None
    ink: Ink | None = None
    large: bool = False
    half_sheet: bool = False
    languages: tuple[str, ...] = ()
    units: Systems | None = None
    opens: bool = False

    def printing(self, house: House) -> Printing:
        """Return how to print. The wall and the rail have no backs: there house.yaml's two sides do not hold."""
        from linebook.pdf.printing import Printing

        one_sided = self.large or self.half_sheet
        return Printing(
            paper=(self.paper or house.file.paper).lower(),
            duplex=house.file.duplex and not one_sided if self.duplex is None else self.duplex,
            ink=self.ink or house.file.ink,
            large=self.large,
            half_sheet=self.half_sheet,
        )

    def house(self, house: House) -> House:
        """Return the house as it is to be printed now: in the languages and the units asked for."""
        if self.units:
            house = in_units(house, self.units)
        if not self.languages:
            return house
        printed = replace(house, file=replace(house.file, languages=self.languages))
        if house.second is not None:
            return printed
        from linebook.model.translations import Translations

        return replace(printed, second=Translations(written=house.file.languages[0], by_language={}))


def in_units(house: House, units: Systems) -> House:
    """Return the house as printed in a system of units."""
    return replace(house, file=replace(house.file, units=units))
