"""Finding templates in a list of folders, and what each says of a view. jinja2 is imported where one is run.

A template is read once a run. A shipped one builds its sheet by code that was made when linebook was installed; any
other, and a sheet with anything unusual, is run for its text.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Final

from linebook.documents.wording import Wording
from linebook.markup.blocks import SheetText
from linebook.markup.built import Built
from linebook.markup.unusual import NotPlain
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.files import read_source
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.spans import SourceFile
from linebook.templating.shipped import Build, builder_ahead, printed_ahead

if TYPE_CHECKING:
    from jinja2 import nodes

    from linebook.templating.running import Rendered, Running

SUFFIX: Final = ".xml.j2"


@frozen
class TemplateFolder:
    """A folder that may hold templates. ``shown`` is how people know it."""

    path: Path
    shown: str


def template_name(document: str) -> str:
    """Return the file name of a document's template: *batch-card* is written by ``batch_card.xml.j2``."""
    return document.replace("-", "_") + SUFFIX


class Templates:
    """The templates of one run. Earlier folders win, file by file."""

    def __init__(self, folders: Sequence[TemplateFolder]) -> None:
        self.folders = folders
        self._found: dict[str, Outcome[SourceFile]] = {}
        self._ahead: dict[str, tuple[SourceFile, ...]] = {}
        self._builders: dict[str, Build | None] = {}
        self._built: Built | None = None

    def sheet(self, name: str, view: object, wording: Wording) -> SheetText | None:
        """Return what a shipped template says of a view, built without its text.

        None for any other template, and for a sheet with anything unusual: its text says what it is, or what is wrong.
        """
        build = self._builder(name)
        if build is None:
            return None
        if self._built is None or self._built.wording is not wording:
            self._built = Built(wording)
        self._built.begin()
        try:
            return build(view, wording.say, self._built)
        except (NotPlain, AttributeError, KeyError, TypeError, ValueError, RecursionError):
            return None

    def _builder(self, name: str) -> Build | None:
        if name not in self._builders:
            self._builders[name] = builder_ahead(name) if self.ahead(name) else None
        return self._builders[name]

    def render(self, name: str, view: object, wording: Wording) -> Outcome[Rendered]:
        """Return what the template writes for a view.

        Faults: LB701 (no such template), LB702 (cannot be read), LB704 (unknown name), LB705 (refused), LB706 (too
        long), and those of reading a file.
        """
        return self.running.render(name, view, wording)

    def check(self, name: str) -> tuple[Fault, ...]:
        """Return what is wrong with a template and with those it prints, without running it."""
        return () if self.ahead(name) else self.running.check(name)

    def get_ready(self, name: str) -> None:
        """Read a template, and those it prints, before it is asked for, and have the code of it."""
        if self._builder(name) is None:
            self.running.get_ready(name)

    def sources_of(self, name: str) -> tuple[SourceFile, ...]:
        """Return a template and those it prints; nothing where it is not in order."""
        return self.ahead(name) or self.running.sources_of(name)

    def ahead(self, name: str) -> tuple[SourceFile, ...]:
        """Return a template and those it prints where all are as shipped and were looked over; () elsewhere."""
        if name not in self._ahead:
            self._ahead[name] = printed_ahead(name, lambda one: self.find(one).value)
        return self._ahead[name]

    def code_of(self, source: SourceFile, name: str) -> str:
        """Return the Python that a template becomes."""
        return self.running.code_of(source, name)

    def find(self, name: str) -> Outcome[SourceFile]:
        """Return a template's text from the first folder that has it."""
        if name not in self._found:
            self._found[name] = self._find(name)
        return self._found[name]

    def tree(self, source: SourceFile) -> nodes.Template:
        """Return a template parsed."""
        return self.running.tree(source)

    @cached_property
    def running(self) -> Running:
        """What runs templates: made when first one is to be run."""
        from linebook.templating.running import Running

        return Running(self)

    def _find(self, name: str) -> Outcome[SourceFile]:
        relative = PurePosixPath(name)
        if relative.name == name and name.endswith(SUFFIX):
            for folder in self.folders:
                if (folder.path / name).exists() or (folder.path / name).is_symlink():
                    return read_source(folder.path, relative, folder.shown)
        shown = ", ".join(f"`{folder.shown}`" for folder in self.folders) or "no folder"
        close = nearest(name, self._names())
        hints = (f"did you mean `{close}`?",) if close else ()
        message = f"there is no template `{name}`"
        return Outcome(value=None, faults=(fault("LB701", message, None, hints=(*hints, f"looked in {shown}")),))

    def _names(self) -> Iterator[str]:
        for folder in self.folders:
            if folder.path.is_dir():
                yield from sorted(path.name for path in folder.path.iterdir() if path.name.endswith(SUFFIX))
