"""Running templates, fenced: looking them over, what they write, and every fault with the template's own line.

Made only where a template is run for its text, as a chef's own is. It finds no file: ``Templates`` does.
"""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping, Sequence
from itertools import islice
from pathlib import PurePosixPath
from types import TracebackType
from typing import Any, Final, Protocol

from jinja2 import BaseLoader, Environment, Template, TemplateNotFound, TemplateSyntaxError, nodes
from jinja2.exceptions import SecurityError, UndefinedError

from linebook.documents.wording import Wording
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen
from linebook.source.spans import SourceFile, Span
from linebook.templating.fence import FencedEnvironment, Refusal, context_for
from linebook.templating.inspection import Complaint, Included, inspect_template
from linebook.templating.shipped import code_ahead

MOST_CHARACTERS: Final = 2_000_000
_AT_ONCE: Final = 256
"""Pieces that a template writes before it is asked how many characters they are: one at a time would take longer."""


class Found(Protocol):
    """Where templates are found."""

    def find(self, name: str) -> Outcome[SourceFile]:
        """Return a template's text."""

    def ahead(self, name: str) -> tuple[SourceFile, ...]:
        """Return a template and those it prints where all are as shipped and were looked over; () elsewhere."""


@frozen
class Rendered:
    """What a template wrote, and the template files it came from, its own first."""

    text: str
    sources: tuple[SourceFile, ...]


@frozen
class _Ready:
    template: Template
    sources: tuple[SourceFile, ...]


class Running:
    """Templates looked over, compiled and run, each looked over once."""

    def __init__(self, found: Found) -> None:
        self._found = found
        self._ready: dict[str, Outcome[_Ready]] = {}
        self.trees: dict[str, nodes.Template] = {}
        self.environment = FencedEnvironment(_Loader(self, found))

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
        self.environment.begin(wording.second_language)
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
            self.environment.get_template(PurePosixPath(source.path).name)

    def sources_of(self, name: str) -> tuple[SourceFile, ...]:
        """Return a template and those it prints; nothing where it is not in order."""
        ready = self._prepare(name).value
        return ready.sources if ready else ()

    def code_of(self, source: SourceFile, name: str) -> str:
        """Return the Python that a template becomes."""
        return self.environment.compile(self.tree(source), name, source.path, raw=True)

    def tree(self, source: SourceFile) -> nodes.Template:
        """Return a template parsed: once, to be inspected wherever it is included and then compiled."""
        if source.path not in self.trees:
            self.trees[source.path] = self.environment.parse(source.text, source.path, source.path)
        return self.trees[source.path]

    def _prepare(self, name: str) -> Outcome[_Ready]:
        if name not in self._ready:
            self._ready[name] = self._inspect(name)
        return self._ready[name]

    def _inspect(self, name: str) -> Outcome[_Ready]:
        if ahead := self._found.ahead(name):
            return Outcome(value=_Ready(template=self.environment.get_template(name), sources=ahead))
        found = self._found.find(name)
        if found.value is None:
            return Outcome(value=None, faults=found.faults)
        sources, faults = [found.value], []
        for complaint_or_include in self._read(found.value, None):
            if isinstance(complaint_or_include, Fault):
                faults.append(complaint_or_include)
                continue
            inner = self._found.find(complaint_or_include.name)
            if inner.value is None:
                span = _line_span(found.value, complaint_or_include.line)
                faults += [fault("LB701", wrong.message, span, hints=wrong.hints) for wrong in inner.faults]
                continue
            if inner.value not in sources:
                sources.append(inner.value)
            faults += self._inner_faults(inner.value, complaint_or_include)
        if faults:
            return Outcome(value=None, faults=tuple(dict.fromkeys(faults)))
        return Outcome(value=_Ready(template=self.environment.get_template(name), sources=tuple(sources)))

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
    """Gives jinja2 the templates that are found."""

    def __init__(self, running: Running, found: Found) -> None:
        self._running, self._found = running, found

    def load(self, environment: Environment, name: str, globals: MutableMapping[str, Any] | None = None) -> Template:
        found = self._found.find(name).value
        if found is None:
            raise TemplateNotFound(name)
        code = code_ahead(name, found) or environment.compile(self._running.tree(found), name, found.path)
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
