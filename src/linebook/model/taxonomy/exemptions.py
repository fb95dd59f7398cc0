"""What lists let go undeclared though it is made from a food they name: owns the processes, each with its law.

An exemption is only ever stated by a label or a supplier, never assumed: nothing here is applied by itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.source.frozen import frozen

_EU: Final = "Regulation (EU) No 1169/2011, Annex II"
_UK: Final = "assimilated Reg. 1169/2011, Annex II"
_US: Final = "FD&C Act 201(qq)(2), from memory"

_CEREALS: Final = ("gluten", "wheat", "spelt", "durum", "rye", "barley", "oats", "triticale")
_NUTS: Final = ("tree-nut", "almond", "hazelnut", "walnut", "cashew", "pecan", "brazil-nut", "pistachio", "macadamia")
_US_OILS: Final = ("soy", "peanut", "sesame", "milk", "egg", "fish", "crustacean", "wheat", *_NUTS, "pine-nut")


@frozen
class Exemption:
    """One process. ``laws`` names, for each list that exempts it, the substances it may come from and the source."""

    id: str
    laws: Mapping[str, tuple[tuple[str, ...], str]]

    def covers(self, substance: str, lists: tuple[str, ...]) -> bool:
        """Return whether one of these lists exempts what this process makes from a substance."""
        return any(substance in self.laws[id_][0] for id_ in lists if id_ in self.laws)


def _in_europe(id_: str, *substances: str) -> Exemption:
    return Exemption(id=id_, laws={"eu": (substances, _EU), "uk": (substances, _UK)})


EXEMPTIONS: Final[Mapping[str, Exemption]] = {
    one.id: one
    for one in (
        Exemption(id="fully refined oil", laws={"eu": (("soy",), _EU), "uk": (("soy",), _UK), "us": (_US_OILS, _US)}),
        _in_europe("glucose syrup", "wheat", "barley"),
        _in_europe("maltodextrin", "wheat"),
        _in_europe("distillate", *_CEREALS, *_NUTS, "milk", "cows-milk"),
        _in_europe("lactitol", "milk", "cows-milk"),
        _in_europe("fining of beer or wine", "fish"),
        _in_europe("carrier of vitamins or colour", "fish"),
        _in_europe("tocopherols or plant sterols", "soy"),
    )
}
