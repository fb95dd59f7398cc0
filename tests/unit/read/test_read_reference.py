"""The format reference holds every field once for each group, in tables that Markdown can read."""

from __future__ import annotations

from markdown_it import MarkdownIt

from linebook.read.groups import walk_groups
from linebook.read.kinds import KINDS
from linebook.read.reference import format_reference, reference_for


def rows_of(text):
    """Return the cells of each table row, as a Markdown parser finds them."""
    rows, row = [], None
    for token in MarkdownIt("commonmark").enable("table").parse(text):
        if token.type == "tr_open":
            row = []
            rows.append(row)
        elif token.type == "inline" and row is not None:
            row.append(token.content)
        elif token.type == "tr_close":
            row = None
    return rows


def test_every_field_has_a_row_with_its_example():
    for kind in KINDS:
        groups = list(walk_groups(KINDS[kind].root))
        rows = [row for row in rows_of(reference_for(kind)) if row[0] != "field"]
        fields = [field for group in groups for field in group.fields]
        assert [row[0] for row in rows] == [f"`{field.name}`" for field in fields]
        for row, field in zip(rows, fields, strict=True):
            assert len(row) == 4
            assert row[1] == field.doc
            assert row[2] == ("must be there" if field.required else field.default)
            assert row[3] == f"`{field.example}`"


def test_the_whole_reference_has_a_heading_for_each_kind_of_file():
    text = format_reference()
    for kind in KINDS.values():
        assert text.count(f"### {kind.where}\n") == 1


def test_no_field_is_declared_twice_in_a_group():
    for kind in KINDS.values():
        for group in walk_groups(kind.root):
            assert len(group.by_name) == len(group.fields)
            assert all(field.doc and not field.doc.endswith(".") for field in group.fields)


def test_the_allergen_lists_are_those_of_the_taxonomy():
    from linebook.model.taxonomy.lists import LISTS
    from linebook.read import house_fields

    assert set(house_fields.LISTS) == set(LISTS)
