"""Finding templates in a list of folders and running them, fenced. The only part that knows jinja2.

A template is read and inspected once a run. Every fault has the template's own line.
"""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping, Sequence
from dataclasses import field
from itertools import islice
from pathlib import Path, PurePosixPath
from types import TracebackType
from typing import Any, Final

from jinja2 import BaseLoader, Environment, Template, TemplateNotFound, TemplateSyntaxError, nodes
from jinja2.exceptions import SecurityError, UndefinedError

from linebook.documents.wording import Wording
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.files import read_source
from linebook.source.frozen import changing, frozen
from linebook.source.nearest import nearest
from linebook.source.spans import SourceFile, Span
from linebook.templating.fence import FencedEnvironment, Refusal, context_for
from linebook.templating.inspection import Complaint, Included, inspect_template
from linebook.templating.shipped import code_ahead, printed_ahead

SUFFIX: Final = ".xml.j2"
MOST_CHARACTERS: Final = 2_000_000
_AT_ONCE: Final = 256
"""Pieces that a template writes before it is asked how many characters they are: one at a time would take longer."""


@frozen
class TemplateFolder:
    """A folder that may hold templates. ``shown`` is how people know it."""

    path: Path
    shown: str


@frozen
class Rendered:
    """What a template wrote, and the template files it came from, its own first."""

    text: str
    sources: tuple[SourceFile, ...]


@frozen
class _Ready:
    template: Template
    sources: tuple[SourceFile, ...]


def template_name(document: str) -> str:
    """Return the file name of a document's template: *batch-card* is written by ``batch_card.xml.j2``."""
    return document.replace("-", "_") + SUFFIX


@changing(kw_only=False)
class Templates:
    """The templates of one run. Earlier folders win, file by file."""

    folders: Sequence[TemplateFolder]
    _found: dict[str, Outcome[SourceFile]] = field(default_factory=dict)
    _ready: dict[str, Outcome[_Ready]] = field(default_factory=dict)
    _trees: dict[str, nodes.Template] = field(default_factory=dict)
    _environment: FencedEnvironment = field(init=False)

    def __post_init__(self) -> None:
        self._environment = FencedEnvironment(_Loader(self))

    def render(self, name: str, view: object, wording: Wording) -> Outcome[Rendered]:
        """Return what the template writes for a view.

        Faults: LB701 (no such template), LB702 (cannot be read), LB704 (unknown name), LB705 (refused), LB706 (too
        long), and those of reading a file.
        """
        ready = self._prepare(name)
        if ready.value is None:
            return Outcome(value=None, faults=ready.faults)
        pieces: list[str] = []
        written = 0
        self._environment.begin(wording.second_language)
        writing = ready.value.template.generate(context_for(view, wording))
        try:
            while some := [*islice(writing, _AT_ONCE)]:
                written += sum(map(len, some))
                if written > MOST_CHARACTERS:
                    return Outcome(value=None, faults=(_too_long(ready.value.sources[0]),))
                pieces += some
        except (Refusal, UndefinedError, SecurityError, TypeError, ValueError, RecursionError) as error:
            return Outcome(value=None, faults=(_run_fault(error, ready.value.sources),))
        return Outcome(value=Rendered(text="".join(pieces), sources=ready.value.sources))

    def check(self, name: str) -> tuple[Fault, ...]:
        """Return what is wrong with a template and with those it prints, without running it."""
        return self._prepare(name).faults

    def get_ready(self, name: str) -> None:
        """Look over and compile a template, and those it prints, before it is asked for."""
        for source in self.sources_of(name):
            self._environment.get_template(PurePosixPath(source.path).name)

    def sources_of(self, name: str) -> tuple[SourceFile, ...]:
        """Return a template and those it prints; nothing where it is not in order."""
        ready = self._prepare(name).value
        return ready.sources if ready else ()

    def code_of(self, source: SourceFile, name: str) -> str:
        """Return the Python that a template becomes."""
        return self._environment.compile(self.tree(source), name, source.path, raw=True)

    def find(self, name: str) -> Outcome[SourceFile]:
        """Return a template's text from the first folder that has it."""
        if name not in self._found:
            self._found[name] = self._find(name)
        return self._found[name]

    def tree(self, source: SourceFile) -> nodes.Template:
        """Return a template parsed: once, to be inspected wherever it is included and then compiled."""
        if source.path not in self._trees:
            self._trees[source.path] = self._environment.parse(source.text, source.path, source.path)
        return self._trees[source.path]

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

    def _prepare(self, name: str) -> Outcome[_Ready]:
        if name not in self._ready:
            self._ready[name] = self._inspect(name)
        return self._ready[name]

    def _inspect(self, name: str) -> Outcome[_Ready]:
        if ahead := printed_ahead(name, lambda one: self.find(one).value):
            return Outcome(value=_Ready(template=self._environment.get_template(name), sources=ahead))
        found = self.find(name)
        if found.value is None:
            return Outcome(value=None, faults=found.faults)
        sources, faults = [found.value], []
        for complaint_or_include in self._read(found.value, None):
            if isinstance(complaint_or_include, Fault):
                faults.append(complaint_or_include)
                continue
            inner = self.find(complaint_or_include.name)
            if inner.value is None:
                span = _line_span(found.value, complaint_or_include.line)
                faults += [fault("LB701", wrong.message, span, hints=wrong.hints) for wrong in inner.faults]
                continue
            if inner.value not in sources:
                sources.append(inner.value)
            faults += self._inner_faults(inner.value, complaint_or_include)
        if faults:
            return Outcome(value=None, faults=tuple(dict.fromkeys(faults)))
        return Outcome(value=_Ready(template=self._environment.get_template(name), sources=tuple(sources)))

    def _inner_faults(self, source: SourceFile, included: Included) -> Iterator[Fault]:
        for part in self._read(source, included):
            if isinstance(part, Fault):
                yield part
            else:
                message = "an included template includes another"
                yield fault("LB705", message, _line_span(source, part.line), hints=("include both from the sheet",))

    def _read(self, source: SourceFile, included: Included | None) -> Iterator[Fault | Included]:
        try:
            tree = self.tree(source)
        except TemplateSyntaxError as error:
            message = f"the template cannot be read: {_say_syntax(error)}"
            yield fault("LB702", message, _line_span(source, error.lineno), hints=("check the braces on this line",))
            return
        except (RecursionError, ValueError):
            message = "the template is nested too deep, or has too long a number"
            yield fault("LB705", message, source.whole(), hints=("make it plainer",))
            return
        inspection = inspect_template(
            tree,
            loops=included.loops if included else 0,
            names=included.names if included else frozenset(),
        )
        yield from (_complaint_fault(complaint, source) for complaint in inspection.complaints)
        yield from inspection.included


class _Loader(BaseLoader):
    """Gives jinja2 the templates that ``Templates`` found."""

    def __init__(self, templates: Templates) -> None:
        self._templates = templates

    def load(self, environment: Environment, name: str, globals: MutableMapping[str, Any] | None = None) -> Template:
        found = self._templates.find(name).value
        if found is None:
            raise TemplateNotFound(name)
        code = code_ahead(name, found) or environment.compile(self._templates.tree(found), name, found.path)
        template = environment.template_class.from_code(environment, code, globals if globals is not None else {})
        template.filename = found.path  # as people know it, wherever its code lies
        return template


def _say_syntax(error: TemplateSyntaxError) -> str:
    words = " ".join((error.message or "").split()).rstrip(".")
    return words.replace("'", "`")


def _complaint_fault(complaint: Complaint, source: SourceFile) -> Fault:
    return fault(complaint.code, complaint.message, _line_span(source, complaint.line), hints=complaint.hints)


def _too_long(source: SourceFile) -> Fault:
    message = f"the template writes more than {MOST_CHARACTERS // 1_000_000} million characters"
    return fault("LB706", message, source.whole(), hints=("check its loops",))


def _run_fault(error: Exception, sources: Sequence[SourceFile]) -> Fault:
    span = _place_of(error.__traceback__, sources) or sources[0].whole()
    if isinstance(error, Refusal):
        return fault(error.code, error.words, span, hints=error.hints)
    if isinstance(error, UndefinedError):
        return fault("LB704", "the template uses a name that it is not given", span, hints=("check its names",))
    message = "the template does something here that cannot be done with what it is given"
    return fault("LB705", message, span, hints=("loop over lists, and print texts",))


def _place_of(traceback: TracebackType | None, sources: Sequence[SourceFile]) -> Span | None:
    """Return the last line of a template that was running."""
    by_path = {source.path: source for source in sources}
    span = None
    while traceback is not None:
        source = by_path.get(traceback.tb_frame.f_code.co_filename)
        if source is not None:
            span = _line_span(source, traceback.tb_lineno)
        traceback = traceback.tb_next
    return span


def _line_span(source: SourceFile, line: int) -> Span:
    """Return the span of a line without its indent."""
    number = min(max(line, 1), len(source.line_starts))
    text = source.line_text(number)
    start = source.line_starts[number - 1]
    return source.span(start + len(text) - len(text.lstrip()), start + len(text.rstrip()))
