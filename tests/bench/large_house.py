"""A house many times the demo's size: its specs again and again under other ids, its lines in pairs.

``write_large_house(source, folder, times)`` copies the demo's house ``times`` times into one. Every copy's dishes,
components and their names are told apart by a number, every second copy cooks on lines of its own, and the pantry is
shared. The courses expect as many times the portions, so that it checks as the demo does.
"""

import re
import shutil
from pathlib import Path

FOLDERS = ("components", "dishes")


def own_ids(source):
    """Return the ids of the demo's dishes and components, the longest first."""
    found = {path.stem for folder in FOLDERS for path in specs(source / folder)}
    return sorted(found, key=lambda one: (-len(one), one))


def specs(folder):
    """Return the spec files of a folder; translations, whose names have two dots, are left out."""
    return [path for path in sorted(folder.glob("*.md")) if "." not in path.stem]


def write_large_house(source, folder, times):
    """Write the house into ``folder`` and return how many dish and component specs it has."""
    ids = own_ids(source)
    names = re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, ids))})(?![\w-])")
    shutil.copytree(source / "pantry", folder / "pantry")
    written = 0
    for number in range(times):
        for kind in FOLDERS:
            (folder / kind).mkdir(exist_ok=True)
            for path in specs(source / kind):
                text = path.read_text("utf-8")
                copied = told_apart(text, names, number) if number else text
                (folder / kind / f"{again(path.stem, number)}.md").write_text(copied, "utf-8")
                written += 1
    house = (source / "house.yaml").read_text("utf-8")
    (folder / "house.yaml").write_text(with_more_lines(house), "utf-8")
    (folder / "menus").mkdir()
    for path in sorted((source / "menus").glob("*.yaml")):
        (folder / "menus" / path.name).write_text(longer_menu(path.read_text("utf-8"), names, times), "utf-8")
    return written


def again(id_, number):
    """Return an id in one of the copies: the first keeps its own."""
    return f"{id_}-n{number + 1}" if number else id_


def told_apart(text, names, number):
    """Return a spec as the copy of this number has it: ids, name, and the line where it is a second one."""
    text = names.sub(lambda found: again(found[0], number), text)
    text = re.sub(r"^(name: .*)$", rf"\1 {number + 1}", text, count=1, flags=re.MULTILINE)
    return re.sub(r"^line: ([\w-]+)$", r"line: \1-2", text, count=1, flags=re.MULTILINE) if number % 2 else text


def with_more_lines(house):
    """Return the house file with each line twice."""
    head, block, rest = re.split(r"^(lines:\n(?:  .*\n)+)", house, maxsplit=1, flags=re.MULTILINE)
    lines = block.splitlines()[1:]
    second = [re.sub(r"^  ([\w-]+): \{name: ([^,]+)", r"  \1-2: {name: \2 2", line) for line in lines]
    return f"{head}lines:\n" + "".join(f"{line}\n" for line in (*lines, *second)) + rest


def longer_menu(menu, names, times):
    """Return a menu with every copy's dishes on it and as many times the portions a cover."""
    lines = []
    for line in menu.splitlines():
        if line.startswith("  - {dish: "):
            lines += [names.sub(lambda found, at=at: again(found[0], at), line) for at in range(times)]
        else:
            lines.append(re.sub(r"(portions_a_cover: )([\d.]+)", lambda found: portions(found, times), line))
    return "\n".join(lines) + "\n"


def portions(found, times):
    """Return the portions a cover of a course, as many times; decimals stay exact."""
    whole, _, part = found[2].partition(".")
    scaled = int(whole + part) * times
    return f"{found[1]}{scaled / 10 ** len(part):.{len(part)}f}"


def main(source, folder, times):
    print(write_large_house(Path(source), Path(folder), int(times)), "specs")


if __name__ == "__main__":
    import sys

    main(*sys.argv[1:4])
