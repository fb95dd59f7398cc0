"""Ten questions of guests at the demo house, answered by reading its spec files by hand, never by running anything.

``S`` is serve, ``-`` do not serve; ``no X, Y`` is serve without; ``A for B`` is A instead of B. The remark says which
file decides. Names are ids. Early spring's fryer still holds late winter's oil (``oil_changed: no``): salt cod fritters
with egg, milk, wheat and cod went through it. Late winter's oil was changed. The slicer is changed between uses.
"""

from __future__ import annotations

from typing import Final

QUESTIONS: Final = """
early-spring: egg
  house-bread S; oyster-cucumber-ice S; cured-trout-rye S; peas-fresh-cheese S; hake-mussels S
  leeks-almond no leek-crisp             # the fryer, from the fritters of last menu
  short-rib-celeriac no celeriac-crisp   # the same
  potato-dumplings -                     # egg-yolk in potato-dumpling
  rhubarb-custard -                      # egg-yolk in buttermilk-custard
  honey-cake -                           # whole-egg in honey-cake-layers

early-spring: celery
  house-bread S; oyster-cucumber-ice S; hake-mussels S; rhubarb-custard S; honey-cake S
  cured-trout-rye -                      # dill-seed (may) in pickle-liquor, in pickled-cucumber
  peas-fresh-cheese no rye-crumb         # caraway-seed (may) in rye-bread, four levels down
  leeks-almond no leek-crisp             # celeriac-crisp through the same fryer
  short-rib-celeriac -                   # celeriac-puree
  potato-dumplings -                     # celery-stick in roasted-stock, in beef-filling

early-spring: fish
  house-bread S; oyster-cucumber-ice S; peas-fresh-cheese S; rhubarb-custard S; honey-cake S
  leeks-almond no leek-crisp             # salt cod in last menu's oil
  short-rib-celeriac no celeriac-crisp   # the same
  cured-trout-rye -; hake-mussels -
  potato-dumplings -                     # dark-fish-sauce, which beef-filling is adjusted with

early-spring: shellfish
  house-bread S; cured-trout-rye S; peas-fresh-cheese S; leeks-almond S; short-rib-celeriac S; potato-dumplings S
  rhubarb-custard S; honey-cake S
  oyster-cucumber-ice -; hake-mussels -  # molluscs; the kelp may carry crab besides

early-spring: nuts
  house-bread S; oyster-cucumber-ice S; cured-trout-rye S; peas-fresh-cheese S; potato-dumplings S; hake-mussels S
  rhubarb-custard S; honey-cake S
  leeks-almond -                         # almond-sauce cannot be left off
  short-rib-celeriac seed-crumb for walnut-crumb, pickled-cucumber for pickled-walnut-discs

early-spring: sesame
  house-bread S; oyster-cucumber-ice S; leeks-almond S; potato-dumplings S; hake-mussels S; rhubarb-custard S
  honey-cake S
  short-rib-celeriac S                   # only its alternative has seeds, and it is not asked for
  cured-trout-rye no rye-crisps          # sunflower-seeds and linseed (may) in rye-bread
  peas-fresh-cheese no rye-crumb         # the same, one level further down

early-spring: milk
  oyster-cucumber-ice S
  house-bread olive-oil for cultured-butter
  leeks-almond no leek-crisp             # buttermilk
  potato-dumplings no brown-butter
  cured-trout-rye -; peas-fresh-cheese -; short-rib-celeriac -; rhubarb-custard -; honey-cake -
  hake-mussels -                         # unsalted-butter in also_touches

early-spring: gluten
  oyster-cucumber-ice S; hake-mussels S
  cured-trout-rye no rye-crisps; peas-fresh-cheese no rye-crumb; leeks-almond no leek-crisp
  # the seed crumb that might stand in for the walnut crumb has cracked rye, so the crumb is left off
  short-rib-celeriac pickled-cucumber for pickled-walnut-discs, no walnut-crumb, celeriac-crisp
  rhubarb-custard sunflower-seeds for oat-crumble
  house-bread -; potato-dumplings -; honey-cake -

late-winter: fish
  house-bread S; chicory-pear-walnut S; hearth-cabbage S; duck-leg-lentils S; barley-mushroom-pot S
  hazelnut-meringue-quince S; honey-cake S
  short-rib-celeriac no celeriac-crisp   # the fritters' fryer
  salt-cod-fritters -; cured-trout-rye -
  beet-tartare -                         # dark-fish-sauce in dressed-beet

late-winter: mustard
  house-bread S; barley-mushroom-pot S; hazelnut-meringue-quince S; honey-cake S
  salt-cod-fritters no black-garlic-mayonnaise
  beet-tartare -; cured-trout-rye -; duck-leg-lentils -
  chicory-pear-walnut -                  # smooth-mustard in cider-dressing
  hearth-cabbage -                       # rapeseed-oil (may) in also_touches
  short-rib-celeriac -                   # smoked-paprika (may) in short-rib-glaze
"""


def questions() -> list[tuple[str, str, dict[str, str]]]:
    """Return menu, word, and the answer to each dish by its id."""
    found = []
    for block in QUESTIONS.strip().split("\n\n"):
        head, *lines = block.splitlines()
        menu, word = head.split(": ")
        parts = [part.strip() for line in lines for part in line.partition("#")[0].split(";")]
        found.append((menu, word, dict(part.split(" ", 1) for part in parts if part)))
    return found
