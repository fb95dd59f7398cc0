"""Houses made by code to strain a page: very few and very many of everything, very short and very long.

Owns their texts alone. Every word in them is made up; only lengths and numbers matter.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

MENU = "strain"
LINE, OTHER = "bench", "rest"
DISHES = 60
AVOIDED = 16
"""Of the house's own: with the fourteen of the law thirty columns of the matrix."""

_WORDS = re.findall(
    r"\w+",
    "warm salt leek oil ash rind crust seed stem leaf root bark loaf cream brine pear plum quince beet chard sorrel lovage "
    "barley rye oat hake mussel trout eel brown green sweet sharp soft crisp burnt dried cured aged whole half thin deep",
)

FORTY_WORDS = "Eel oil on oat rye and leek ash in a rind of beet, pear, plum and cream, to be cut in two or six and set on its own with a bit of old rye to go by it at the end of it all"
LONG_WORD = "leeksmokedbarleyrindcuredquincepearsorrelashbrinetroutloaf"

_WHOLE = "{contains: none, says: label, since: 2026-11-02}"


def prose(words: int, start: int = 0) -> str:
    """Return that many words with stops between, the same each time."""
    made = []
    for at in range(words):
        word = _WORDS[(start + at * 7 + at // 5) % len(_WORDS)]
        starts = at % 11 == 0
        ends = at % 11 == 10 or at == words - 1
        made.append((word.capitalize() if starts else word) + ("." if ends else ""))
    return " ".join(made)


def write_house(folder: Path) -> Path:
    """Write the house into a folder that is not there yet."""
    for name, text in house_texts().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


def house_texts() -> Mapping[str, str]:
    """Return the files of the house by their paths."""
    texts = {"house.yaml": _house(), "pantry/all.yaml": _pantry(), f"menus/{MENU}.yaml": _menu()}
    texts |= {f"components/{name}.md": text for name, text in _components().items()}
    texts |= {f"dishes/{name}.md": text for name, text in _dishes().items()}
    return texts


def _house() -> str:
    avoided = ", ".join(f"own-{number}: {_WORDS[number]} kept apart" for number in range(AVOIDED))
    return f"""\
name: Strain House
rules: UK
nights: [40, 90, 400]
measures: {{cup: metric, spoon: metric, pint: imperial}}
allergens:
  lists: [uk]
  avoid: {{{avoided}}}
lines:
  {LINE}: {{name: Bench, cooks: 1}}
  {OTHER}: {{name: Rest, cooks: 1}}
service:
  days: [fri, sat]
  doors: 17:30
  last_seating: 21:00
  staffed: 09:00 to 23:30
vessels:
  pot-24: {{name: 24 L pot, holds: 24 L, fill: 90 %}}
  third-pan: {{name: third pan, holds: 3.5 L}}
places:
  walk-in: {{name: walk-in, climate: cold, at: 3 °C}}
  blast-chiller: {{name: blast chiller, climate: cold, at: 1 °C}}
  oven: {{name: oven, climate: hot}}
  pass: {{name: pass, climate: hot}}
media:
  fryer: {{name: shared fryer, carries: [frying-oil], changed_between: no}}
plates:
  round-30: {{name: round plate 30 cm, shape: round, size: 30 cm, rim: 3 cm}}
instruments:
  - {{scale: bench scale, up_to: 30 kg, reads: 5 g}}
  - {{scale: fine scale, up_to: 2 kg, reads: 0.1 g}}
  - {{jug: 2 L jug, up_to: 2 L, reads: 50 ml}}
"""


def _pantry() -> str:
    lists = [
        "[wheat, milk]",
        "[egg]",
        "[fish, own-3]",
        "[almond, walnut, hazelnut]",
        "[mustard, celery]",
        "[sesame]",
        "none",
    ]
    rows = [
        f"item-{number}:\n  name: {prose(3, number).rstrip('.').lower()} {number}\n  allergens: {{contains: {lists[number % len(lists)]}, may_contain: [soy], says: label, since: 2026-11-02}}\n  weighs: {{each: 50 g}}\n"
        for number in range(60)
    ]
    rows += [
        f"own-{number}-jar:\n  name: jar {number}\n  allergens: {{contains: [own-{number}], says: label, since: 2026-11-02}}\n"
        for number in range(AVOIDED)
    ]
    rows.append(f"water:\n  name: water\n  allergens: {_WHOLE}\n  density: 1 kg/L\n")
    rows.append(f"frying-oil:\n  name: frying oil\n  allergens: {_WHOLE}\n  density: 0.92 kg/L\n")
    rows.append(f"long-item:\n  name: {LONG_WORD} {LONG_WORD}\n  allergens: {_WHOLE}\n")
    return "".join(rows)


def _menu() -> str:
    courses = ("first", "middle", "last")
    rows = "".join(f"  - {{dish: {dish}, share: 0.05, at_least: 2}}\n" for dish in _dishes())
    named = "".join(
        f"  - {{course: {course}, name: {course.capitalize()}, portions_a_cover: 1}}\n" for course in courses
    )
    return f"name: strain\nfirst: 2027-03-02\ncovers: {{fri: 90, sat: 90}}\noil_changed: no\ncourses:\n{named}dishes:\n{rows}"


# -- components


def _components() -> Mapping[str, str]:
    return {
        "three": _component(
            "Three things to stir", ["water", "item-6", "item-0"], {"mix": ["Stir {water} water into the rest."]}
        ),
        "sixty": _component(FORTY_WORDS, [f"item-{number}" for number in range(60)], _four_stages(), makes="20 kg"),
        "wordy": _component("Words without end", ["item-1", "long-item", "item-2"], _wordy_stages(), note=prose(36, 5)),
        "limits": _limits(),
        "middling": _component(
            "A card that just runs over", [f"item-{number}" for number in range(9)], _middling_stages()
        ),
    }


def _four_stages() -> dict[str, list[str]]:
    return {
        name: [prose(22, at * 3 + step) for step in range(4)]
        for at, name in enumerate(("soak", "roast", "press", "finish"))
    }


def _wordy_stages() -> dict[str, list[str]]:
    return {
        "talk": [prose(200), f"Now say {LONG_WORD}{LONG_WORD} aloud."],
        "talk-more": [prose(120, 4), prose(30, 2), prose(200, 9)],
    }


def _middling_stages() -> dict[str, list[str]]:
    return {
        "first-half": [prose(24, step) for step in range(5)],
        "second-half": [prose(24, step + 9) for step in range(6)],
    }


def _component(
    name: str, items: Sequence[str], stages: Mapping[str, Sequence[str]], *, note: str = "", makes: str = "4 kg"
) -> str:
    named = list(stages)
    rows = "".join(
        f"  - {{item: {item}, amount: {10 + at * 7} g, stage: {named[at * len(named) // len(items)]}, prep: {prose(4, at).rstrip('.').lower()}"
        + (f', note: "{note}"' if note else "")
        + "}\n"
        for at, item in enumerate(items)
    )
    listed = "".join(
        f"  - {{stage: {stage}, hands_on: {10 + 5 * at} min, where: walk-in}}\n" for at, stage in enumerate(named)
    )
    body = "".join(
        f"## {stage.replace('-', ' ').capitalize()}\n\n" + "".join(f"1. {step}\n" for step in steps) + "\n"
        for stage, steps in stages.items()
    )
    return f"""\
---
name: {name}
line: {LINE}
makes: {makes}
keeps: 3 d
store: {{at: 3 °C, in: third-pan, where: walk-in}}
ingredients:
{rows}stages:
{listed}tested: 2027-01-20
---

{body}## If it goes wrong

- {prose(14, 2)}
- {prose(20, 8)}
"""


def _limits() -> str:
    """A component of five limits, made in many loads on the largest night, and in more of them at its first stage."""
    return f"""\
---
name: Watched at every turn
line: {LINE}
makes: 2 kg
pieces: 40
largest_batch: 2 kg
keeps: 3 d
store: {{at: 3 °C, in: third-pan, where: walk-in}}
ingredients:
  - {{item: item-1, amount: 1.6 kg, stage: cook}}
  - {{item: item-6, amount: 500 g, stage: cook, scale: held back}}
also_makes:
  - {{item: limits-trim, name: trim of what is watched, amount: 200 g, after: cook}}
stages:
  - {{stage: cook, hands_on: 20 min, unattended: 40 min, work: grows, time: judge, at_most: 1 kg, of: item-1, until: 75 °C, where: oven, limit: cook}}
  - {{stage: chill, hands_on: 10 min, unattended: 2 h, where: blast-chiller, limit: cool}}
  - {{stage: reheat, hands_on: 10 min, until: 75 °C, where: oven, limit: reheat}}
  - {{stage: keep, hands_on: 5 min, may_hold: 2 h, where: pass, limit: hold}}
  - {{stage: chill-again, hands_on: 10 min, unattended: 2 h, where: blast-chiller, limit: cool}}
tested: 2027-01-20
---

## Cook

1. {prose(16)}
1. {prose(26, 3)}

## Chill

1. {prose(18, 5)}

## Reheat

1. {prose(12, 7)}

## Keep

1. {prose(14, 9)}

## Chill again

1. {prose(11, 2)}
"""


# -- dishes


def _dishes() -> Mapping[str, str]:
    named = {
        "grand": _grand(),
        "small": _dish("Two on a plate", ["three", "item-6"]),
        "verdicts": _dish(
            "Much that can be left off",
            [f"item-{number}" for number in range(7)],
            leave_off=True,
            also=", also_touches: [frying-oil]",
        ),
        "users": _dish(FORTY_WORDS, ["sixty", "wordy", "limits", "middling"]),
    }
    rest = DISHES - len(named)
    filler = {
        f"dish-{number}": _dish(
            f"{prose(3 + number % 6, number).rstrip('.')} {number}",
            [f"item-{number % 60}", f"own-{number % AVOIDED}-jar"],
            line=OTHER,
            course=("first", "middle", "last")[number * 3 // rest],
        )
        for number in range(rest)
    }
    return {**named, **filler}


def _dish(
    name: str, items: Sequence[str], *, line: str = LINE, course: str = "first", leave_off: bool = False, also: str = ""
) -> str:
    off = ", leave_off: yes" if leave_off else ""
    rows = "".join(
        f"  - {{item: {item}, amount: {'2 pieces' if item == 'limits' else '20 g'}{off}}}\n" for item in items
    )
    return f"""\
---
name: {name}
line: {line}
course: {course}
elements:
{rows}{"also_touches: [frying-oil]" + chr(10) if also else ""}tested: 2027-02-10
---

## Pick-up

1. {prose(12, len(name))}
2. {prose(9, len(name) + 2)}

## Taste for

- {prose(8, 3)}
"""


def _grand() -> str:
    """Fourteen elements on one plate, each with all a row can hold."""
    shapes = ("mound", "disc", "dots", "leaves", "piece", "powder", "pool")
    rows = "".join(
        f"  - {{item: item-{at}, amount: {8 + at} g, at: {1 + at % 12} o'clock, reach: {0.3 + 0.04 * at:.2f}, shape: {shapes[at % len(shapes)]}, "
        f"size: {26 + at % 3 * 6} x {24 + at % 2 * 6} mm, tool: {prose(3, at).rstrip('.').lower()}, note: {prose(7, at + 2).rstrip('.').lower()}, "
        f"hold: {{at: 65 °C, most: 2 h, after: bin, in: third-pan}}{', leave_off: yes' if at % 3 == 0 else ''}}}\n"
        for at in range(14)
    )
    return f"""\
---
name: {FORTY_WORDS}
line: {LINE}
course: middle
plate: round-30
warm: yes
call: 9 min
sizes:
  taste: {{name: a taste, factor: 0.4}}
  full: {{name: full, factor: 1}}
  to-share: {{name: to share, factor: 1.8}}
elements:
{rows}tested: 2027-02-10
---

## Pick-up

1. {prose(18)}
2. {prose(24, 3)}
3. {prose(30, 6)}
4. {prose(12, 8)}

## Taste for

- {prose(8, 3)}
- {prose(14, 7)}

## At the pass

- {prose(10, 4)}
"""
