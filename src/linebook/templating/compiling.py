"""Writes the shipped templates as code beside this module, so that no run compiles them: installing does it.

``python -m linebook.templating.compiling`` does it again after a template was changed; without that the changed one is
compiled by each run. What is there is used only for the very text it was made of, with the jinja2 and the fence it was
made by.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from pprint import pformat
from typing import Final

import jinja2
from jinja2 import nodes

from linebook.source.spans import SourceFile
from linebook.templating.code_of_sheets import code_of_sheet
from linebook.templating.mixed import Unbuilt, mixed_tree
from linebook.templating.shipped import BUILT, builder_digest, digest, fence_digest
from linebook.templating.templates import SUFFIX, TemplateFolder, Templates

FOLDER: Final = Path(__file__).parent / "compiled"
CONTENTS: Final = "contents.py"
_HEAD: Final = '"""Generated: what the code here was made of and by, each template and what it prints."""'


def compiled_files(shipped: Path) -> Mapping[str, str]:
    """Return every file of the folder by its name: the code of each template, and last of all the contents.

    Raises ValueError for a template that cannot be read or is not in order.
    """
    templates = Templates((TemplateFolder(path=shipped, shown="templates"),))
    files: dict[str, str] = {"__init__.py": f"{_HEAD}\n"}
    contents: dict[str, tuple[str, tuple[str, ...]]] = {}
    for name in sorted(path.name for path in shipped.glob(f"*{SUFFIX}")):
        source = templates.find(name).value
        if source is None:
            raise ValueError(f"{name} cannot be read")
        contents[name] = (digest(source), () if name.startswith("part_") else _printed(templates, name))
        files[f"{name.removesuffix(SUFFIX)}.py"] = templates.code_of(source, name)
        if not name.startswith("part_") and (code := _builder(templates, source)):
            files[f"{BUILT}{name.removesuffix(SUFFIX)}.py"] = code
    made_by = f'JINJA = "{vars(jinja2)["__version__"]}"\n\nFENCE = "{fence_digest()}"\n\nBUILDER = "{builder_digest()}"'
    files[CONTENTS] = f"{_HEAD}\n\n{made_by}\n\nTEMPLATES = {pformat(contents, width=110)}\n"
    return files


def _builder(templates: Templates, source: SourceFile) -> str:
    """Return the code that builds a template's sheet, '' where it has to be run for its text."""

    def included(name: str) -> nodes.Template:
        found = templates.find(name).value
        if found is None:
            raise Unbuilt(name)
        return templates.tree(found)

    try:
        return code_of_sheet(mixed_tree(templates.tree(source), included))
    except Unbuilt:
        return ""


def _printed(templates: Templates, name: str) -> tuple[str, ...]:
    """Return the templates that a template prints; raises ValueError where anything is wrong with it."""
    if faults := templates.check(name):
        raise ValueError(f"{name}: {faults[0].message}")
    return tuple(PurePosixPath(source.path).name for source in templates.sources_of(name)[1:])


def main() -> None:
    """Write the folder anew."""
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.glob("*.py"):
        old.unlink()
    for name, text in compiled_files(Path(__file__).parents[3] / "templates").items():
        (FOLDER / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
