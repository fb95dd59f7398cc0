"""What guests and servers say in Spanish: everyday words, and the names of substances and groups as they are printed.

Owns words alone, in the form of the English table of ``guest_words``. Imported only where no English word fits. The
everyday words are kitchen words, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.model.taxonomy.spanish import GROUP_NAMES, NOT_NAMED, SUBSTANCE_NAMES

EVERYDAY: Final = """
lácteo, lactosa, queso, mantequilla, nata, crema, yogur, suero, caseína, leche | milk
gluten, celíaco, celiaco, celiaquía, harina, pan, pasta | gluten
fruto seco, frutos de cáscara, nuez, nueces | tree-nut, peanut
cacahuete, maní, cacahuate | peanut
huevo, clara, yema, mayonesa | egg
marisco | crustacean, mollusc
pescado y marisco | fish, crustacean, mollusc
camarón, gamba, langostino | shrimp, prawn
semilla | sesame, mustard / seed, tahini
legumbre | peanut, soy, lupin / bean, pea, lentil, chickpea
sulfito | sulphites
ajo | / garlic
cebolla | / onion, shallot
miel | / honey
seta, hongo, champiñón | / mushroom, truffle, cep, chanterelle, morel, mycelium
cítrico | / lemon, lime, orange, grapefruit, mandarin, bergamot, yuzu, citron, citric
alcohol, vino, cerveza | alcohol
carne | meat
pollo, pato, pavo, ave | poultry
ternera, vaca, res, buey | beef
cordero | lamb
cerdo, jamón, tocino, panceta, manteca de cerdo | pork
caza | game
gelatina | gelatine
cuajo | animal-rennet
vegetariano | vegetarian
vegano | vegan
huevo crudo | raw-egg
pescado crudo | raw-fish
marisco crudo | raw-shellfish
carne cruda | raw-meat
crudo | raw-egg, raw-fish, raw-shellfish, raw-meat, unpasteurised
sin pasteurizar | unpasteurised
"""


def names() -> Iterator[tuple[str, str]]:
    """Yield every Spanish name of a substance or group with its id, substances first."""
    for id_, name in SUBSTANCE_NAMES.items():
        yield name.text.removesuffix(NOT_NAMED).split(",")[0].strip(), id_
    for groups in GROUP_NAMES.values():
        for id_, name in groups.items():
            yield name.text, id_
