"""Writes the shipped templates as code beside this module, so that no run compiles them: ``python -m`` this module.

What is there is used only for the very text it was made of, with the jinja2 it was made by. A test makes it anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path, PurePosixPath
from pprint import pformat
from typing import Final

import jinja2

from linebook.templating.templates import SUFFIX, TemplateFolder, Templates

FOLDER: Final = Path(__file__).parent / "compiled"
CONTENTS: Final = "contents.py"
_HEAD: Final = '"""Generated: what the code here was made of, each template and what it prints."""\n'


def compiled_files(shipped: Path) -> Mapping[str, str]:
    """Return every file of the folder by its name: the code of each template that is in order, and the contents."""
    templates = Templates((TemplateFolder(path=shipped, shown="templates"),))
    files: dict[str, str] = {}
    contents: dict[str, tuple[str, tuple[str, ...]]] = {}
    for name in sorted(path.name for path in shipped.glob(f"*{SUFFIX}")):
        source = templates.find(name).value
        if source is None:
            raise ValueError(f"{name} cannot be read")
        printed = () if name.startswith("part_") else tuple(_printed(templates, name))
        contents[name] = (sha256(source.text.encode()).hexdigest(), printed)
        files[f"{name.removesuffix(SUFFIX)}.py"] = templates.code_of(source, name)
    said = pformat(contents, width=110)
    kind = "dict[str, tuple[str, tuple[str, ...]]]"
    files[CONTENTS] = f'{_HEAD}\nJINJA = "{vars(jinja2)["__version__"]}"\n\nTEMPLATES: {kind} = {said}\n'
    return files


def _printed(templates: Templates, name: str) -> Iterator[str]:
    """Yield the templates that a template prints; raises ValueError where anything is wrong with it."""
    if faults := templates.check(name):
        raise ValueError(f"{name}: {faults[0].message}")
    for source in templates.sources_of(name)[1:]:
        yield PurePosixPath(source.path).name


def main() -> None:
    """Write the folder anew."""
    for old in FOLDER.glob("*.py"):
        if old.name != "__init__.py":
            old.unlink()
    for name, text in compiled_files(Path(__file__).parents[3] / "templates").items():
        (FOLDER / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
