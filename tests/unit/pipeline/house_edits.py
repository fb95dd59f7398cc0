"""Edits of the kinds that a week brings to a house, made at random: files that come and go, words, looks, photographs."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

from PIL import Image
from spec_fields import others, places_in

SHIPPED = Path(__file__).parents[3] / "templates"
Edit = Callable[[random.Random, Path], str]


def field(pick: random.Random, root: Path) -> str:
    """Write something else in a field."""
    place = pick.choice(list(places_in(root)))
    path = root / place.path
    text = path.read_text(encoding="utf-8")
    found = list(others(text[place.start : place.end], {})) or ["9"]
    other = pick.choice(found)
    path.write_text(text[: place.start] + other + text[place.end :], encoding="utf-8")
    return f"{place.path} {place.field} {text[place.start : place.end]!r} -> {other!r}"


def amount(pick: random.Random, root: Path) -> str:
    """Make one number of a card a little more."""
    path = pick.choice(cards(root))
    text = path.read_text(encoding="utf-8")
    numbers = list(re.finditer(r"(?m)(?<=amount: )\d+", text))
    if not numbers:
        return "nothing"
    number = pick.choice(numbers)
    path.write_text(f"{text[: number.start()]}{int(number[0]) + 1}{text[number.end() :]}", encoding="utf-8")
    return f"{path.name} {number[0]} and one"


def step(pick: random.Random, root: Path) -> str:
    """Say one step more in a method, often with a letter that no other sheet has."""
    path = pick.choice(cards(root))
    word = pick.choice(["Call it aloud", "Smell it", "Ask Zoë Ćwikła", "Turn it 3 times", "Wait (a little) \\ then go"])
    text = path.read_text(encoding="utf-8")
    changed = re.sub(r"(?m)^(## .+\n)1\. ", rf"\g<1>1. {re.escape(word)}.\n2. ", text, count=1)
    path.write_text(changed.replace("\\ ", " ").replace("\\(", "(").replace("\\)", ")"), encoding="utf-8")
    return f"{path.name} + {word}"


def name(pick: random.Random, root: Path) -> str:
    """Give a card another name, which stands on many sheets."""
    path = pick.choice(cards(root))
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"(?m)^name: (.+)$", r"name: \g<1> x", text, count=1), encoding="utf-8")
    return f"{path.name} renamed"


def allergen(pick: random.Random, root: Path) -> str:
    """Let a bought item contain something else."""
    path = pick.choice(sorted((root / "pantry").glob("*.yaml")))
    text = path.read_text(encoding="utf-8")
    found = list(re.finditer(r"contains: \[([a-z, -]*)\]", text))
    if not found:
        return "nothing"
    one = pick.choice(found)
    other = pick.choice(["milk", "egg", "wheat", "soy", "mustard", "celery"])
    path.write_text(f"{text[: one.start()]}contains: [{other}]{text[one.end() :]}", encoding="utf-8")
    return f"{path.name} {one[0]} -> {other}"


def comment(pick: random.Random, root: Path) -> str:
    """Save a file otherwise without a change in what it says."""
    path = pick.choice([*cards(root), *sorted((root / "pantry").glob("*.yaml"))])
    content = path.read_bytes()
    if path.suffix == ".yaml":
        path.write_bytes(b"# looked over\n" + content)
    else:
        path.write_bytes(content.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n"))
    return f"{path.name} saved otherwise"


def copied(pick: random.Random, root: Path) -> str:
    """Put a copy of a card beside it, and a dish's on the menus after it."""
    path = pick.choice(cards(root))
    twin = path.with_name(f"{path.stem}-{pick.randrange(9)}.md")
    shutil.copy(path, twin)
    if path.parent.name == "dishes":
        for menu in sorted((root / "menus").glob("*.yaml")):
            text = menu.read_text(encoding="utf-8")
            menu.write_text(re.sub(rf"(?m)^(.*dish: ){path.stem}\b(.*)$", rf"\g<0>\n\g<1>{twin.stem}\2", text), "utf-8")
    return f"{path.name} copied"


def removed(pick: random.Random, root: Path) -> str:
    """Take a dish off the menus, and sometimes its card away."""
    path = pick.choice(sorted((root / "dishes").glob("*.md")))
    for menu in sorted((root / "menus").glob("*.yaml")):
        text = menu.read_text(encoding="utf-8")
        menu.write_text(re.sub(rf"(?m)^.*dish: {path.stem.partition('.')[0]}\b.*\n", "", text), encoding="utf-8")
    if pick.random() < 0.5:
        path.unlink()
    return f"{path.name} taken off"


def moved(pick: random.Random, root: Path) -> str:
    """Give a card another id, everywhere."""
    path = pick.choice([card for card in cards(root) if card.stem.count(".") == 0])
    new = f"{path.stem}-{pick.randrange(9)}"
    path.rename(path.with_name(f"{new}.md"))
    for file in (*root.rglob("*.md"), *root.rglob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        file.write_text(re.sub(rf"(?<![\w-]){path.stem}(?![\w-])", new, text), encoding="utf-8")
    return f"{path.stem} is {new}"


def translation(pick: random.Random, root: Path) -> str:
    """Say something in Spanish: of a card, or in the words of the house."""
    if pick.random() < 0.5:
        path = pick.choice([card for card in cards(root) if card.stem.count(".") == 0])
        path.with_name(f"{path.stem}.es.md").write_text(f"---\nname: Nombre {pick.randrange(99)}\n---\n", "utf-8")
        return f"{path.stem} in Spanish"
    file = root / "words.es.yaml"
    path = pick.choice(sorted((root / "dishes").glob("*.md")))
    file.write_text(f"dishes:\n  {path.stem.partition('.')[0]}: Plato {pick.randrange(99)}\n", encoding="utf-8")
    return "words in Spanish"


def template(pick: random.Random, root: Path) -> str:
    """Write a template or a theme of the house's own, or take them away."""
    folder = root / "templates"
    if folder.is_dir() and pick.random() < 0.4:
        shutil.rmtree(folder)
        return "no looks of its own"
    folder.mkdir(exist_ok=True)
    if pick.random() < 0.5:
        text = f"based_on: standard\nspaces: {{bullet: {pick.choice(['14 pt', '16 pt', '17 pt'])}}}\n"
        (folder / "theme.yaml").write_text(text, encoding="utf-8")
        return "a theme"
    file = pick.choice(["station_card.xml.j2", "batch_card.xml.j2", "line_cover.xml.j2"])
    text = (SHIPPED / file).read_text(encoding="utf-8")
    (folder / file).write_text(text.replace("{{ view.aside }}", "{{ view.title }}"), encoding="utf-8")
    return f"a {file}"


def photograph(pick: random.Random, root: Path) -> str:
    """Give a dish a photograph, or another one."""
    path = pick.choice(sorted((root / "dishes").glob("*.md")))
    (root / "photos").mkdir(exist_ok=True)
    picture = root / "photos" / f"{path.stem.partition('.')[0]}.jpg"
    Image.linear_gradient("L").resize((900, 600)).rotate(pick.choice([0, 180])).convert("RGB").save(picture)
    text = path.read_text(encoding="utf-8")
    if "photo:" not in text and path.stem.count(".") == 0:
        path.write_text(text.replace("---\n", f"---\nphoto: photos/{picture.name}\n", 1), encoding="utf-8")
    return f"{picture.name}"


def served(pick: random.Random, root: Path) -> str:
    """Take a dish off a menu, or put one on it that was taken off before or never was on it."""
    menu = pick.choice(sorted((root / "menus").glob("*.yaml")))
    text = menu.read_text(encoding="utf-8")
    lines = re.findall(r"(?m)^.*\bdish: [a-z0-9-]+.*\n", text)
    dishes = [card.stem for card in sorted((root / "dishes").glob("*.md")) if card.stem.count(".") == 0]
    off = [dish for dish in dishes if not re.search(rf"dish: {dish}\b", text)]
    line = pick.choice(lines)
    if off and pick.random() < 0.6:
        dish = pick.choice(off)
        menu.write_text(text.replace(line, line + re.sub(r"dish: [a-z0-9-]+", f"dish: {dish}", line)), encoding="utf-8")
        return f"{dish} on {menu.stem}"
    menu.write_text(text.replace(line, ""), encoding="utf-8")
    return f"{line.strip()} off {menu.stem}"


def dates(pick: random.Random, root: Path) -> str:
    """Let a menu begin or end on another day, so that another one may be in force."""
    menu = pick.choice(sorted((root / "menus").glob("*.yaml")))
    text = menu.read_text(encoding="utf-8")
    kind = pick.choice(["first", "last"])
    day = re.search(rf"(?m)^{kind}: (\d{{4}}-\d\d)-(\d\d)", text)
    if day is None:
        return "nothing"
    other = max(1, min(28, int(day[2]) + pick.choice([-20, -1, 1, 2, 20])))
    menu.write_text(text.replace(day[0], f"{kind}: {day[1]}-{other:02}"), encoding="utf-8")
    return f"{menu.stem} {kind} {other}"


def stock(pick: random.Random, root: Path) -> str:
    """Have some of a component on hand which holds what its card does not, or none any more."""
    menu = pick.choice(sorted((root / "menus").glob("*.yaml")))
    text = menu.read_text(encoding="utf-8")
    if "on_hand:" in text:
        menu.write_text(re.sub(r"(?m)^on_hand:\n(?:  .*\n)+", "", text), encoding="utf-8")
        return f"nothing on hand for {menu.stem}"
    made = re.search(r"(?m)^first: (\S+)", text)
    item = pick.choice([card.stem for card in sorted((root / "components").glob("*.md")) if card.stem.count(".") == 0])
    day = made[1] if made else "2027-03-01"
    held = pick.choice(["mustard", "celery", "milk"])
    entry = f"on_hand:\n  - {{item: {item}, amount: 1 kg, made: {day}, contains: [{held}]}}\n"
    menu.write_text(entry + text, encoding="utf-8")
    return f"{item} with {held} on hand for {menu.stem}"


def nothing(pick: random.Random, root: Path) -> str:
    """Leave all as it is: another way of printing may be asked for."""
    return "nothing"


def cards(root: Path) -> list[Path]:
    return sorted((*(root / "dishes").glob("*.md"), *(root / "components").glob("*.md")))


EDITS: tuple[tuple[Edit, int], ...] = (
    (field, 6),
    (amount, 5),
    (step, 5),
    (name, 3),
    (allergen, 3),
    (comment, 2),
    (copied, 1),
    (removed, 1),
    (moved, 1),
    (translation, 2),
    (template, 1),
    (photograph, 1),
    (nothing, 1),
    (served, 5),
    (dates, 2),
    (stock, 3),
)


def edit(pick: random.Random, root: Path) -> str:
    """Make one edit and tell it."""
    made, weights = zip(*EDITS, strict=True)
    (chosen,) = pick.choices(made, weights)
    return f"{chosen.__name__}: {chosen(pick, root)}"
