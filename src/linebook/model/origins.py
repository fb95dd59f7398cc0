"""The words for where a food comes from, one plain table, and which of them a declared substance stands for.

Knows no house and no diet. An origin that nobody has given is in no table: it is not known. Light to import.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Final

from linebook.source.frozen import frozen


@frozen
class Origin:
    """One word for where a food comes from. ``could_be`` names what a word that does not say which may stand for."""

    id: str
    doc: str
    could_be: tuple[str, ...] = ()


# word · what it is · what it could be
_TABLE: Final = """
plant | a plant or seaweed, its oil, sugar, starch or vinegar |
juice | juice of fruit or vegetables that is drunk or set; a squeeze of lemon is of plant |
fungus | a mushroom or other fungus |
microbe | yeast, bacteria, moulds and what they make |
mineral | salt, bicarbonate, ash and their like |
water | water |
alcohol | wine, beer, cider, spirits, and what is steeped in them |
milk | milk of any animal and what is made of it; name its rennet too |
egg | egg of any bird |
honey | honey, wax and other work of bees |
insect | insects and what is made of them, as carmine and shellac |
fish | fish, roe, fish sauce |
crustacean | crab, lobster, prawn and their like |
mollusc | oyster, mussel, squid, snail and their like |
poultry | chicken, duck, goose and other kept birds |
beef | grown cattle |
veal | calf |
lamb | lamb and mutton, goat too |
pork | pig, boar too |
game | deer, hare, pigeon and other wild animals, boar left out |
animal-fat-poultry | rendered fat of birds |
animal-fat-beef | dripping, suet, tallow |
animal-fat-pork | lard |
animal-fat | rendered animal fat, kind not named | animal-fat-poultry, animal-fat-beef, animal-fat-pork
gelatine-pork | gelatine from pigs |
gelatine-beef | gelatine from cattle |
gelatine-fish | gelatine from fish, isinglass |
gelatine | gelatine, kind not named | gelatine-pork, gelatine-beef, gelatine-fish
rennet-animal | rennet from a stomach |
rennet-vegetable | rennet from a plant |
rennet-microbial | rennet from a mould or another microbe |
fining | what a drink was cleared with, not named | gelatine-pork, gelatine-beef, gelatine-fish, egg, milk, mineral
rennet | rennet, kind not named | rennet-animal, rennet-vegetable, rennet-microbial
"""


def _words(text: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in text.split(",") if word.strip())


def _read_table() -> dict[str, Origin]:
    found = {}
    for row in _TABLE.strip().splitlines():
        id_, doc, could_be = (cell.strip() for cell in row.split("|"))
        found[id_] = Origin(id=id_, doc=doc, could_be=_words(could_be))
    return found


ORIGINS: Final[Mapping[str, Origin]] = _read_table()

MAY_BE_UNPASTEURISED: Final = frozenset(("milk", "egg", "honey", "juice"))
"""The origins of which it matters whether they are pasteurised."""

_DECLARED: Final = ("milk", "egg", "fish", "crustacean", "mollusc")


def origins_of(substances: Iterable[str]) -> frozenset[str]:
    """Return the animal origins that declared substances come from: cow's milk from milk, hake from fish.

    What a house tracks under a word of the table (honey, pork) comes from there too. Shellfish whose kind is not
    named is of neither kind for certain.
    """
    known = _origin_of()
    return frozenset(known[substance] for substance in substances if substance in known)


@cache
def _origin_of() -> Mapping[str, str]:
    from linebook.model.taxonomy import SUBSTANCES, covered_by  # here, because reading a house does not need it

    own = {word: word for word in ORIGINS if word not in SUBSTANCES}
    kinds = {kind: word for word in _DECLARED for kind in covered_by((word,)) if kind != "shellfish"}
    return own | kinds
