"""The format reference as Markdown tables, made from the same declarations as the reader."""

from __future__ import annotations

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
    """Return the tables of every kind of file."""
    return "\n".join(reference_for(kind) for kind in KINDS)


def _title(group: Group) -> str:
    name = group.name.split(" ", 1)[1] if group.name.startswith(("a ", "an ", "the ")) else group.name
    return name[0].upper() + name[1:]


def _row(field: Field) -> str:
    without = "must be there" if field.required else field.default
    return f"| `{field.name}` | {_cell(field.doc)} | {_cell(without)} | `{_cell(field.example)}` |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")
