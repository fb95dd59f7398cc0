"""What the lists and the foods are called in Spanish: in the law's own words where a law has them, with who says so.

Owns names alone, by the ids of ``lists`` and ``substances``. It is imported only where Spanish is printed. The
Regulation's text was read in the quotations of Annex II by a regional health authority (riojasalud.es, *Alérgenos en
alimentos*) and by consal.es, which agree; FDA's words on its own Spanish page; those of the Codex are from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.source.frozen import frozen

ANNEX: Final = "Reglamento (UE) n.º 1169/2011, anexo II"
RESIDUES: Final = "Reglamento (UE) 2017/626, anexo (frutos de cáscara)"
AGENCY: Final = "FDA, ¿Tiene alergias a los alimentos? Lea la etiqueta"
CODEX: Final = "Codex CXS 1-1985, 4.2.1.4, versión española (de memoria)"
TRADE: Final = "trade word"
"""The sources. ``TRADE`` is no law's word: it is what the food is called in kitchens and at markets."""


@frozen
class Name:
    """A name and who gives it."""

    text: str
    source: str


_SOURCES: Final = {"annex": ANNEX, "residues": RESIDUES, "agency": AGENCY, "codex": CODEX, "trade": TRADE}

# id · name · source
_SUBSTANCES: Final = """
gluten | cereal con gluten, tipo sin indicar | trade
wheat | trigo | annex
spelt | espelta | annex
durum | trigo duro | trade
einkorn | trigo escaña | trade
emmer | trigo emmer | trade
khorasan | trigo khorasan | annex
triticale | triticale | trade
rye | centeno | annex
barley | cebada | annex
oats | avena | annex
buckwheat | trigo sarraceno | trade
tree-nut | frutos de cáscara, tipo sin indicar | trade
almond | almendras | annex
hazelnut | avellanas | annex
walnut | nueces | annex
california-walnut | nueces de California | trade
black-walnut | nueces negras | trade
heartnut | nueces del Japón | trade
cashew | anacardos | annex
pecan | pacanas | annex
brazil-nut | nueces de Brasil | annex
pistachio | pistachos | residues
macadamia | nueces macadamia | annex
pine-nut | piñones | residues
chestnut | castañas | residues
coconut | coco | trade
beech-nut | hayucos | trade
butternut | nueces blancas americanas | trade
chinquapin | castañas chinquapin | trade
cola-nut | nueces de cola | trade
ginkgo-nut | nueces de ginkgo | trade
hickory-nut | nueces de hicoria | trade
palm-nut | nueces de palma | trade
pili-nut | nueces de pili | trade
shea-nut | nueces de karité | trade
peanut | cacahuetes | annex
milk | leche, animal sin indicar | trade
cows-milk | leche de vaca | trade
goats-milk | leche de cabra | trade
sheeps-milk | leche de oveja | trade
buffalo-milk | leche de búfala | trade
egg | huevo, ave sin indicar | trade
hen-egg | huevo de gallina | trade
duck-egg | huevo de pata | trade
goose-egg | huevo de oca | trade
quail-egg | huevo de codorniz | trade
fish | pescado, especie sin indicar | trade
anchovy | anchoa | trade
bass | lubina | trade
bonito | bonito | trade
bream | besugo o dorada | trade
brill | rémol | trade
carp | carpa | trade
char | salvelino | trade
cod | bacalao | trade
eel | anguila | trade
flounder | platija | trade
gurnard | rubio | trade
haddock | eglefino | trade
hake | merluza | trade
halibut | fletán | trade
herring | arenque | trade
john-dory | pez de San Pedro | trade
ling | maruca | trade
mackerel | caballa | trade
monkfish | rape | trade
mullet | mújol o salmonete | trade
perch | perca | trade
pike | lucio | trade
plaice | solla | trade
pollack | abadejo o carbonero | trade
salmon | salmón | trade
sardine | sardina | trade
skate | raya | trade
smelt | eperlano | trade
snapper | pargo | trade
sole | lenguado | trade
sprat | espadín | trade
sturgeon | esturión | trade
swordfish | pez espada | trade
trout | trucha | trade
tuna | atún | trade
turbot | rodaballo | trade
whiting | merlán | trade
shellfish | marisco, tipo sin indicar | trade
crustacean | crustáceo, tipo sin indicar | trade
crab | cangrejo | trade
crayfish | cangrejo de río | trade
krill | kril | trade
langoustine | cigala | trade
lobster | bogavante o langosta | trade
prawn | gamba o langostino | trade
shrimp | camarón | trade
mollusc | molusco, tipo sin indicar | trade
abalone | abulón | trade
clam | almeja | trade
cockle | berberecho | trade
cuttlefish | sepia | trade
limpet | lapa | trade
mussel | mejillón | trade
octopus | pulpo | trade
oyster | ostra | trade
scallop | vieira | trade
snail | caracol | trade
squid | calamar | trade
whelk | buccino | trade
soy | soja | annex
sesame | sésamo | annex
celery | apio | annex
mustard | mostaza | annex
lupin | altramuces | annex
sulphites-at-10 | sulfitos, a 10 mg/kg exactos | trade
sulphites | sulfitos | annex
"""

# The United Kingdom has the Regulation's list, and no Spanish of its own: the Regulation's stands.
_EUROPE: Final = """
gluten-cereal | cereales que contengan gluten | annex
crustacean | crustáceos | annex
egg | huevos | annex
fish | pescado | annex
peanut | cacahuetes | annex
soy | soja | annex
milk | leche | annex
tree-nut | frutos de cáscara | annex
celery | apio | annex
mustard | mostaza | annex
sesame | granos de sésamo | annex
sulphites | dióxido de azufre y sulfitos | annex
lupin | altramuces | annex
mollusc | moluscos | annex
"""

_GROUPS: Final = {
    "us": """
milk | leche | agency
egg | huevo | agency
fish | pescado | agency
crustacean | crustáceos | agency
tree-nut | frutos secos | agency
wheat | trigo | agency
peanut | maní (cacahuate) | agency
soy | soya | agency
sesame | sésamo | agency
sulphites | agentes sulfitantes | trade
""",
    "eu": _EUROPE,
    "uk": _EUROPE,
    "ca": """
tree-nut | frutos de cáscara | trade
peanut | cacahuetes | trade
sesame | semillas de sésamo | trade
wheat | trigo o triticale | trade
egg | huevos | trade
milk | leche | trade
soy | soja | trade
crustacean | crustáceos | trade
mollusc | moluscos | trade
fish | pescado | trade
mustard | semillas de mostaza | trade
gluten-cereal | fuentes de gluten | trade
sulphites | sulfitos añadidos | trade
""",
    "anz": """
wheat | trigo | trade
gluten-cereal | gluten | trade
tree-nut | frutos de cáscara | trade
crustacean | crustáceo | trade
mollusc | molusco | trade
egg | huevo | trade
fish | pescado | trade
lupin | altramuces | trade
milk | leche | trade
peanut | cacahuete | trade
sesame | sésamo | trade
soy | soja | trade
sulphites | sulfitos | trade
""",
    "codex": """
gluten-cereal | cereales que contienen gluten | codex
crustacean | crustáceos | codex
egg | huevos | codex
fish | pescado | codex
peanut | maní | codex
soy | soja | codex
milk | leche | codex
tree-nut | nueces de árboles | codex
sulphites | sulfito | codex
sesame | sésamo | trade
buckwheat | trigo sarraceno | trade
celery | apio | trade
lupin | altramuces | trade
mustard | mostaza | trade
""",
}


def _read_table(table: str) -> dict[str, Name]:
    found = {}
    for row in table.strip().splitlines():
        id_, text, source = (cell.strip() for cell in row.split("|"))
        found[id_] = Name(text=text, source=_SOURCES[source])
    return found


SUBSTANCE_NAMES: Final[Mapping[str, Name]] = _read_table(_SUBSTANCES)
"""Each substance's name by its id. Nuts are in the plural, as the law has them."""

GROUP_NAMES: Final[Mapping[str, Mapping[str, Name]]] = {code: _read_table(table) for code, table in _GROUPS.items()}
"""Each group's name by its list and its id."""

TITLES: Final[Mapping[str, str]] = {
    "us": "lista de Estados Unidos",
    "eu": "lista de la Unión Europea",
    "uk": "lista del Reino Unido",
    "ca": "lista de Canadá",
    "anz": "lista de Australia y Nueva Zelanda",
    "codex": "lista del Codex Alimentarius",
}
SHORT: Final[Mapping[str, str]] = {
    "us": "EE. UU.",
    "eu": "UE",
    "uk": "Reino Unido",
    "ca": "Canadá",
    "anz": "ANZ",
    "codex": "Codex",
}
NOT_NAMED: Final = "sin indicar"
"""How a general name ends that does not say which kind it is."""
