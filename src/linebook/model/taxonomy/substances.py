"""The foods a pantry item can declare: owns their ids, printed names and synonyms, knows no law.

Names are kitchen words; the laws that list them are in ``lists``. A *general* substance (``fish``,
``tree-nut``, ``gluten``) is what a label names when it does not say which kind.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.source.frozen import frozen


@frozen
class Substance:
    """One declarable food. ``kind_of`` names the more general substances it is a kind of."""

    id: str
    name: str
    kind_of: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()


# id · printed name · kind of · synonyms; lists are separated by commas.
_NUTS: Final = """
tree-nut | tree nut, kind not named | | nut, nuts, tree nut, tree nuts, mixed nuts
almond | almond | tree-nut | almonds, marzipan, frangipane
hazelnut | hazelnut | tree-nut | hazelnuts, filbert, cobnut, gianduja
walnut | walnut | tree-nut | walnuts, English walnut, Persian walnut
california-walnut | California walnut | walnut | California walnuts
black-walnut | black walnut | walnut | black walnuts
heartnut | heartnut | walnut | Japanese walnut
cashew | cashew | tree-nut | cashews, cashew nut
pecan | pecan | tree-nut | pecans, pecan nut
brazil-nut | Brazil nut | tree-nut | Brazil nuts
pistachio | pistachio | tree-nut | pistachios, pistachio nut
macadamia | macadamia | tree-nut | macadamias, macadamia nut, Queensland nut
pine-nut | pine nut | tree-nut | pine nuts, pinenut, pignoli
chestnut | chestnut | tree-nut | chestnuts
coconut | coconut | tree-nut | coconuts, coconut milk
beech-nut | beech nut | tree-nut | beechnut
butternut | butternut | tree-nut | white walnut
chinquapin | chinquapin | tree-nut | chinkapin
cola-nut | cola nut | tree-nut | kola nut
ginkgo-nut | ginkgo nut | tree-nut | ginkgo
hickory-nut | hickory nut | tree-nut | hickory nuts
palm-nut | palm nut | tree-nut | palm kernel
pili-nut | pili nut | tree-nut | pili
shea-nut | shea nut | tree-nut | shea
peanut | peanut | | peanuts, groundnut, groundnuts, monkey nut
"""

_CEREALS: Final = """
gluten | gluten cereal, kind not named | | cereals containing gluten, gluten cereal
wheat | wheat | gluten | flour, semolina, bulgur, couscous, seitan
spelt | spelt | wheat | dinkel, farro grande
durum | durum wheat | wheat | durum
einkorn | einkorn | wheat | farro piccolo
emmer | emmer | wheat | farro
khorasan | khorasan wheat | wheat | khorasan
triticale | triticale | wheat, rye |
rye | rye | gluten | pumpernickel
barley | barley | gluten | malt, barley malt, pearl barley
oats | oats | gluten | oat, oatmeal
buckwheat | buckwheat | | soba
"""

_ANIMAL: Final = """
milk | milk, animal not named | | dairy, lactose, whey, casein
cows-milk | cow's milk | milk | cow milk, butter, cream, yoghurt, cheese
goats-milk | goat's milk | milk | goat milk, goat's cheese
sheeps-milk | sheep's milk | milk | sheep milk, ewe's milk
buffalo-milk | buffalo milk | milk | buffalo's milk
egg | egg, bird not named | | eggs
hen-egg | hen's egg | egg | chicken egg, egg white, egg yolk
duck-egg | duck egg | egg |
goose-egg | goose egg | egg |
quail-egg | quail egg | egg | quail's egg
"""

_FISH: Final = """
fish | fish, species not named | | fish sauce, fish stock
anchovy | anchovy | fish | anchovies, garum
bass | bass | fish | sea bass
bonito | bonito | fish | katsuobushi
bream | bream | fish | sea bream
brill | brill | fish |
carp | carp | fish |
char | char | fish | arctic char
cod | cod | fish | salt cod
eel | eel | fish |
flounder | flounder | fish |
gurnard | gurnard | fish |
haddock | haddock | fish |
hake | hake | fish |
halibut | halibut | fish |
herring | herring | fish | kipper
john-dory | John Dory | fish |
ling | ling | fish |
mackerel | mackerel | fish |
monkfish | monkfish | fish |
mullet | mullet | fish | bottarga
perch | perch | fish | zander
pike | pike | fish |
plaice | plaice | fish |
pollack | pollack | fish | pollock, coley, saithe
salmon | salmon | fish | salmon roe
sardine | sardine | fish | pilchard
skate | skate | fish | ray
smelt | smelt | fish |
snapper | snapper | fish |
sole | sole | fish | Dover sole, lemon sole
sprat | sprat | fish | whitebait
sturgeon | sturgeon | fish | caviar
swordfish | swordfish | fish |
trout | trout | fish | trout roe
tuna | tuna | fish |
turbot | turbot | fish |
whiting | whiting | fish |
"""

_SHELLFISH: Final = """
shellfish | shellfish, kind not named | |
crustacean | crustacean, kind not named | shellfish | crustaceans, crustacea
crab | crab | crustacean |
crayfish | crayfish | crustacean |
krill | krill | crustacean |
langoustine | langoustine | crustacean | scampi, Dublin Bay prawn
lobster | lobster | crustacean |
prawn | prawn | crustacean | prawns
shrimp | shrimp | crustacean | shrimps, shrimp paste
mollusc | mollusc, kind not named | shellfish | molluscs, mollusk
abalone | abalone | mollusc |
clam | clam | mollusc | clams, razor clam
cockle | cockle | mollusc | cockles
cuttlefish | cuttlefish | mollusc | squid ink, cuttlefish ink
limpet | limpet | mollusc |
mussel | mussel | mollusc | mussels
octopus | octopus | mollusc |
oyster | oyster | mollusc | oysters, oyster sauce
scallop | scallop | mollusc | scallops
snail | snail | mollusc | escargot
squid | squid | mollusc | calamari
whelk | whelk | mollusc | whelks
"""

_OTHERS: Final = """
soy | soy | | soya, soybean, soybeans, tofu, miso, edamame, tamari
sesame | sesame | | sesame seed, tahini
celery | celery | | celeriac, celery seed, celery salt
mustard | mustard | | mustard seed
lupin | lupin | | lupine, lupin flour
sulphites-at-10 | sulphites, at 10 mg a kg exactly | |
sulphites | sulphites | | sulfites, sulphite, sulphur dioxide, sulfur dioxide, metabisulphite
"""


def _listed(text: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in text.split(",") if word.strip())


def _read_table(table: str) -> list[Substance]:
    found = []
    for row in table.strip().splitlines():
        id_, name, kind_of, synonyms = (cell.strip() for cell in row.split("|"))
        found.append(Substance(id=id_, name=name, kind_of=_listed(kind_of), synonyms=_listed(synonyms)))
    return found


SUBSTANCES: Final[Mapping[str, Substance]] = {
    substance.id: substance
    for table in (_CEREALS, _NUTS, _ANIMAL, _FISH, _SHELLFISH, _OTHERS)
    for substance in _read_table(table)
}
