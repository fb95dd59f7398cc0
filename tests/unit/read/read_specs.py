"""A small house in which every field of the format is filled, and ways to change it: shared by the tests of ``read``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from linebook.read.fields import FieldType
from linebook.read.groups import Group
from linebook.read.house_folder import HouseReading, read_house
from linebook.read.kinds import KINDS
from linebook.read.lists import ById, ListOf
from linebook.source.faults import Fault
from linebook.source.front_matter import split_front_matter
from linebook.source.nodes import MappingNode, Node, SequenceNode
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

HOUSE = """\
name: Harrow Weir
rules: FDA Food Code 2022
currency: £
temperatures: °C
measures: {cup: us, spoon: metric, pint: imperial}
nights: [80, 110, 150]
tolerance: 1 %
line_up_portions: 1
paper: a4
duplex: yes
ink: grey
theme: slate
languages: [en, es]
allergens:
  lists: [uk]
  avoid: {honey: honey}
  older_than: 365 d
  also: [raw]
lines:
  larder: {name: Larder, cooks: 2, set_up: 16:30}
  hearth: {name: Hearth}
service:
  days: [tue, wed, thu, fri, sat]
  doors: 17:30
  last_seating: 21:00
  staffed: 10:00 to 23:30
  closed: [2027-03-16]
  prep: {mon: 10:00 to 16:00}
vessels:
  rondeau-24: {name: 24 L rondeau, holds: 24 L, fill: 75 %, count: 2}
  third-pan-100: {name: third pan 100 deep, holds: 3.5 L}
  gn-rack: {name: rack}
places:
  walk-in: {name: walk-in, climate: cold, at: 3 °C, count: 1}
  blast-chiller: {name: blast chiller, climate: cold, at: 1 °C}
  smoker: {name: smoker, climate: hot}
media:
  fryer: {name: shared fryer, carries: [frying-oil], changed_between: no}
plates:
  oval-30: {name: oval plate 30 cm, shape: oval, size: 30 x 22 cm, rim: 3 cm}
  round-28: {shape: round, size: 28 cm}
instruments:
  - {scale: bench scale, up_to: 30 kg, reads: 5 g}
  - {jug: 2 L jug, up_to: 2 L, reads: 50 ml}
  - {spoon: measuring spoons, up_to: 1 tbsp, reads: 1/4 tsp}
labels: {size: 70 x 37 mm, columns: 3, rows: 8, left: 0 mm, top: 0.5 mm, gap_beside: 1 mm, gap_below: 1 mm, paper: letter}
ceilings: {sodium-nitrite: 150 ppm}
units: both
suppliers:
  - {supplier: Fell and Tarn Meats, delivers: [tue, thu], order_by: 14:00, note: text}
"""

PANTRY = """\
beef-short-rib:
  name: beef short rib, bone in
  origin: [beef, animal-fat-beef]
  unpasteurised: no
  one_food: yes
  allergens: {contains: none, may_contain: [celery], says: supplier sheet, since: 2026-11-02}
  density: 1.03 kg/L
  weighs: {leaf: 2.5 g, each: 45 g}
  usable: 72 %
  also_called: [short ribs]
  weigh_exactly: yes
  strength: {sodium-nitrite: 0.6 %}
  dilute_in: flour
  yield_tests:
    - tested: 2027-01-14
      bought: 12.5 kg
      usable: 9.1 kg
      parts: [{part: bones, weighs: 2.1 kg, item: beef-trim, value: 1.20 per kg}]
      cooked: 6.4 kg
      price: 14.20 per kg
      by: MH
      note: text
  substitutes: [{item: flour, ratio: 0.8, prep: text, note: text}]
  pack: 10 kg
  price: 14.50 per kg
  supplier: Fell and Tarn Meats
  lead: 2 d
  kept: walk-in
  parasite_exempt: farmed
  season: {first: 2027-02-01, last: 2027-04-15}
  note: text
flour:
  name: flour
  allergens:
    contains: [wheat]
    exempt: {soy: fully refined oil}
    says: label
    since: 2026-11-02
"""

MENU = """\
name: early spring
first: 2027-03-02
last: 2027-04-10
covers: {tue: 70, wed: 80, thu: 90, fri: 120, sat: 140}
oil_changed: yes
on_hand:
  - item: short-rib-glazed
    amount: 1.8 kg
    made: 2027-03-01
    use_by: 2027-03-04
    card: 7F3A-92KD
    contains: [celery]
    may_contain: [almond]
courses:
  - {course: snacks, name: Snacks, portions_a_cover: 1.5}
  - {course: mains, name: Mains}
dishes:
  - {dish: short-rib, share: 0.35, mix: {full: 80 %, to-share: 20 %}, spare: 5 %, at_least: 2}
"""

DISH = """\
---
name: Short rib, celeriac, pickled walnut
line: hearth
course: mains
price: 34
menu_text: as the menu words it
plate: oval-30
warm: yes
call: 9 min
pick_up:
  - {do: grill, takes: 6 min, rests: 2 min, line: hearth, where: smoker, at_once: 6}
plain: Beef rib, smoked
cutlery: [steak knife, fork]
shared: yes
sizes:
  taste: {name: a taste, factor: 0.4}
  full: {name: full, factor: 1}
  to-share: {name: to share, factor: 1.8, amounts: {short-rib-glazed: 4 pieces}}
elements:
  - item: celeriac-puree
    amount: 70 g
    at: centre
    reach: 0.4
    shape: swoosh
    size: 90 x 30 mm
    turned: 20
    height: 6 mm
    tool: no. 16 scoop
    hold: {at: 65 °C, most: 2 h, after: bin, in: third-pan-100}
    through: fryer
    leave_off: yes
    alternative: {item: crushed-peas, amount: 60 g, through: fryer, note: from its own tub}
    raw: yes
    note: thick end left
  - {item: short-rib-glazed, amount: 2 pieces, at: [5 o'clock, 4:30 o'clock], on: celeriac-puree}
also_touches: [frying-oil]
tested: 2027-02-10
photo: photos/short-rib.png
tastings:
  - {date: 2027-02-11, tasted: flat, changed: verjuice, by: MH}
---
## Pick-up

1. Warm {celeriac-puree} of the purée.

## Taste for

- salt, then smoke
"""

COMPONENT = """\
---
name: Smoked short rib, glazed
line: hearth
sort: braise
makes: 9 kg
pieces: 60
piece_weighs: 150 g
largest_batch: 18 kg
smallest_batch: 3 kg
batch_step: 1.5 kg
cut: {block: 390 x 290 mm, piece: 60 x 40 mm, kerf: 2 mm, edges: 5 mm, blocks: 2, turned: yes}
density: 1.05 kg/L
loss: 4 %
keeps: 4 d
kept_by: own plan
store: {at: 3 °C, in: third-pan-100, where: walk-in}
make: ahead
fresh_within: 4 h
ingredients:
  - item: beef-short-rib
    amount: 14 kg
    prep: trimmed of silverskin
    weigh: before
    stage: brine
    medium: yes
    scale: held back
    first: 80 %
    note: text
  - {item: fine-salt, amount: 1.8 %, of: beef-short-rib}
  - {item: sugar, amount: 2 %, of: [beef-short-rib, fine-salt]}
  - {item: pepper, amount: to taste}
  - {item: flour, amount: 2 cups}
  - {item: stock, amount: 2 third-pan-100}
adjust_with: [cider-vinegar]
also_touches: [frying-oil]
raw: [beef-short-rib]
also_makes:
  - {item: beef-trim, name: beef trim, amount: 900 g, from: beef-short-rib, after: brine, keeps: 2 d}
stages:
  - {stage: brine}
  - stage: smoke
    hands_on: 20 min
    unattended: 7 h to 9 h
    finish: 15 min
    may_hold: 2 h
    where: blast chiller
    vessel: gn-rack
    fill: 60 %
    heat: 105 °C
    until: 93 °C
    limit: cool
    attended: someone in the building
    through: fryer
    at_most: 28 kg
    of: [beef-short-rib]
    work: grows
    time: judge
    sets_date: yes
substitutes: [{item: beef-trim}]
tested: 2027-01-20
tastings: [{date: 2027-01-21, tasted: too salt, changed: brine, by: MH}]
---
## Brine

1. Whisk {1/3 of sugar} sugar into {fixed 2 L} water.

## Smoke

1. Smoke until the probe reads **93 °C**.
"""

DISH_WORDS = """\
---
name: Costilla, apionabo, nuez encurtida
menu_text: como lo dice la carta
notes: {celeriac-puree: lo grueso a la izquierda}
tools: {celeriac-puree: cuchara n.º 16}
sizes: {to-share: para compartir}
---
## Pase

1. Calentar {celeriac-puree} de puré.

## Debe saber

- sal, luego humo
"""

COMPONENT_WORDS = """\
---
name: Costilla ahumada, glaseada
sort: estofado
preps: {beef-short-rib: sin telilla}
notes: {beef-short-rib: texto}
stages: {brine: salmuera}
also_makes: {beef-trim: recortes de vaca}
---
## Salmuera

1. Disolver {1/3 of sugar} de azúcar en {fixed 2 L} de agua.

## Ahumar

1. Ahumar hasta que la sonda marque **93 °C**.
"""

HOUSE_WORDS = """\
dishes: {short-rib: Costilla}
components: {short-rib-glazed: Costilla ahumada}
pantry: {flour: harina}
lines: {hearth: Fuego}
vessels: {rondeau-24: rondón de 24 L}
places: {walk-in: cámara}
media: {fryer: freidora común}
plates: {oval-30: plato ovalado de 30 cm}
courses: {snacks: Aperitivos}
menus: {early-spring: principios de primavera}
avoid: {honey: miel}
phrases: {trimmed of silverskin: sin telilla}
"""

PHOTO = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000002000000010800000000d14920560000000b4944415478da63703800000143010196b5009b"
    "0000000049454e44ae426082"
)
"""A PNG picture of two dots."""

GOOD: Mapping[str, str] = {
    "house.yaml": HOUSE,
    "pantry/meat.yaml": PANTRY,
    "menus/early-spring.yaml": MENU,
    "dishes/short-rib.md": DISH,
    "components/short-rib-glazed.md": COMPONENT,
    "dishes/short-rib.es.md": DISH_WORDS,
    "components/short-rib-glazed.es.md": COMPONENT_WORDS,
    "words.es.yaml": HOUSE_WORDS,
}
KIND_OF = {"house.yaml": "house", "pantry": "pantry", "menus": "menu", "dishes": "dish", "components": "component"}


def write_house(root: Path, changes: Mapping[str, str] | None = None) -> Path:
    """Write the good house with some files changed or added, and return its folder."""
    for path, text in {**GOOD, **(changes or {})}.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(text.encode())
    (root / "photos").mkdir(exist_ok=True)
    (root / "photos" / "short-rib.png").write_bytes(PHOTO)
    return root


def read_changed(root: Path, changes: Mapping[str, str] | None = None) -> HouseReading:
    return read_house(write_house(root, changes), "specs")


def faults_of(root: Path, path: str, old: str, new: str) -> tuple[Fault, ...]:
    """Return the faults after one replacement in one file."""
    assert GOOD[path].count(old) == 1, f"{old!r} must stand once in {path}"
    return read_changed(root, {path: GOOD[path].replace(old, new)}).outcome.faults


def said(faults: tuple[Fault, ...]) -> list[tuple[str, str]]:
    """Return code and pointed-at text of each fault."""
    return [(fault.code, fault.span.text if fault.span else "") for fault in faults]


def node_of(path: str, text: str) -> MappingNode:
    """Return the fields of a file as read."""
    source = SourceFile(path=path, text=text)
    start, end = 0, len(text)
    if path.endswith(".md"):
        parts = split_front_matter(source).value
        assert parts is not None
        start, end = parts.yaml_start, parts.yaml_end
    node = read_yaml(source, start, end).value
    assert type(node) is MappingNode
    return node


def kind_of(path: str) -> str:
    """Return the kind of a file, by its place and name."""
    if path.startswith("words."):
        return "words"
    kind = KIND_OF[path.split("/", maxsplit=1)[0]]
    return f"{kind}-words" if path.endswith(".es.md") else kind


def root_of(path: str) -> FieldType:
    return KINDS[kind_of(path)].root


def groups_in(kind: FieldType, node: Node) -> Iterator[tuple[Group, MappingNode]]:
    """Yield every group of fields with the node it is read from."""
    if isinstance(kind, Group) and type(node) is MappingNode:
        yield kind, node
        for entry in node.entries:
            yield from groups_in(kind.by_name[entry.key.text].type, entry.value)
    elif isinstance(kind, ById) and type(node) is MappingNode:
        for entry in node.entries:
            yield from groups_in(kind.group, entry.value)
    elif isinstance(kind, ListOf) and type(node) is SequenceNode:
        for item in node.items:
            yield from groups_in(kind.item, item)
    elif isinstance(kind, ListOf) and kind.single:
        yield from groups_in(kind.item, node)
