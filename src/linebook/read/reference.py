"""The format reference as Markdown tables, made from the same declarations as the reader.

``python -m linebook.read.reference`` prints it, for the README.
"""

from __future__ import annotations

from linebook.model.taxonomy import SUBSTANCES
from linebook.read.fields import Field
from linebook.read.groups import Group, walk_groups
from linebook.read.kinds import KINDS

_HEAD = ("| field | what it is | without it | example |", "|---|---|---|---|")


def reference_for(kind: str) -> str:
    """Return the tables of one kind of file: its own fields first, then each group of fields inside it."""
    found = KINDS[kind]
    lines = [f"### {found.where}", ""]
    for number, group in enumerate(walk_groups(found.root)):
        if number or not isinstance(found.root, Group):
            lines += [f"**{_title(group)}**", ""]
        lines += [*_HEAD, *(_row(field) for field in group.fields), ""]
    return "\n".join(lines)


def format_reference() -> str:
    """Return the tables of every kind of file, then the substances a pantry item may declare."""
    return "\n".join([*(reference_for(kind) for kind in KINDS), substance_reference()])


def substance_reference() -> str:
    """Return the ids a pantry item may declare, under what each is a kind of."""
    families: dict[str, list[str]] = {}
    for substance in SUBSTANCES.values():
        for family in substance.kind_of or ("",):
            families.setdefault(family, []).append(f"`{substance.id}`")
    lines = ["### Substances", "", "What `contains` and `may_contain` take, beside the house's own `avoid`:", ""]
    for family, ids in sorted(families.items()):
        lines.append(f"- {f'kinds of `{family}`' if family else 'by themselves'}: {', '.join(sorted(ids))}")
    return "\n".join([*lines, ""])


def _title(group: Group) -> str:
    name = group.name.split(" ", 1)[1] if group.name.startswith(("a ", "an ", "the ")) else group.name
    return name[0].upper() + name[1:]


def _row(field: Field) -> str:
    without = "must be there" if field.required else field.default
    return f"| `{field.name}` | {_cell(field.doc)} | {_cell(without)} | `{_cell(field.example)}` |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


if __name__ == "__main__":
    print(format_reference())
