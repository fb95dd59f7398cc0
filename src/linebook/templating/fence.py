"""What a template may do when it runs: print what it is given, ask for words, and nothing else.

Knows jinja2; knows no document and no file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import lru_cache
from typing import Any, Final, NoReturn

from jinja2 import BaseLoader, StrictUndefined, Undefined, nodes
from jinja2.compiler import CodeGenerator
from jinja2.exceptions import TemplateRuntimeError
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from linebook.documents.text import Piece, Text
from linebook.documents.wording import Wording
from linebook.source.nearest import nearest

ARITHMETIC: Final = frozenset(("+", "-", "*", "/", "//", "%", "**"))
SIGNS: Final = frozenset(("+", "-"))
MOST_TURNS: Final = 1_000_000
_GONE_OVER: Final = "gone over"
"""A filter that no template can name, for what its loops go over."""


class Refusal(TemplateRuntimeError):
    """Something a running template may not do. ``code`` is the fault's code."""

    def __init__(self, code: str, message: str, *hints: str) -> None:
        super().__init__(message)
        self.code = code
        self.words = message
        self.hints = hints


class Say:
    """The one thing a template may call: ``say("key")`` gives the words of that key."""

    def __init__(self, wording: Wording) -> None:
        self._wording = wording

    def __call__(self, key: str, **values: Text | str | int) -> Text:
        for value in (key, *values.values()):
            if not isinstance(value, (Text, str, int)):
                raise Refusal(
                    "LB705", "`say` is given something that is no text", "give it a key, and texts or numbers"
                )
        if key not in self._wording:
            raise Refusal("LB704", f"there are no words under `{key}`", "give a key of the catalogue of words")
        try:
            return self._wording.say(key, **values)
        except KeyError as error:
            raise Refusal(
                "LB704", f"the words under `{key}` need `{error.args[0]}`", "give it in the brackets"
            ) from None


class _Written(CodeGenerator):
    """Writes the code of templates: what ``_printable`` gives is escaped already, and is not looked at once more."""

    def _output_child_pre(self, node: nodes.Expr, frame: Any, finalize: Any) -> None:
        self.write(f"({finalize.src}")


class FencedEnvironment(ImmutableSandboxedEnvironment):
    """A sandbox in which only listed names, one filter and ``say`` exist, and nothing can be computed."""

    code_generator_class = _Written
    intercepted_binops = ARITHMETIC
    intercepted_unops = SIGNS

    def __init__(self, loader: BaseLoader) -> None:
        super().__init__(
            loader=loader,
            autoescape=True,
            undefined=StrictUndefined,
            finalize=self._printable,
            trim_blocks=True,
            lstrip_blocks=True,
            auto_reload=False,
            cache_size=-1,
        )
        self._let_through: set[tuple[type[object], str]] = set()
        self.globals = {}
        self.filters = {"plain": _plain, _GONE_OVER: self._go_over}
        self.tests = {}
        self._turns = 0
        self._second_language = ""

    def begin(self, second_language: str = "") -> None:
        """Count the turns of loops from nothing: one sheet is about to be rendered, in one language or two."""
        self._turns = 0
        self._second_language = second_language

    def _generate(self, source: nodes.Template, *rest: Any, **options: Any) -> str:
        """Write the code of a template with what each loop goes over passed through ``_go_over``; the tree stays."""
        loops = [(loop, loop.iter) for loop in source.find_all(nodes.For)]
        for loop, over in loops:
            loop.iter = nodes.Filter(over, _GONE_OVER, [], [], None, None, lineno=loop.lineno)
        try:
            return super()._generate(source, *rest, **options)
        finally:
            for loop, over in loops:
                loop.iter = over

    def _go_over(self, value: Any) -> Any:
        """Let a loop go over a list of the sheet: not over letters, and not for ever."""
        if isinstance(value, Undefined):
            return value  # going over it tells its name
        if not isinstance(value, tuple):
            raise Refusal(
                "LB705", "a loop goes over something that is no list", "loop over a list that the sheet is given"
            )
        self._turns += len(value)
        if self._turns > MOST_TURNS:
            raise Refusal(
                "LB706", f"the loops of the template go round more than {MOST_TURNS:,} times", "check its loops"
            )
        return value

    def _printable(self, value: Any) -> str:
        """Return what is written for a value, escaped: text in its marks, a word or a number as it is."""
        if isinstance(value, Text):
            return _marked(value, self._second_language)
        if isinstance(value, Markup):  # words of the template's own, which it was compiled with
            return value
        if isinstance(value, str):
            return _escaped(value)
        if isinstance(value, int) and not isinstance(value, bool):
            return str(value)
        if isinstance(value, Undefined):
            raise Refusal(
                "LB704", f"there is nothing called `{value._undefined_name}` here", "use a name the sheet is given"
            )
        raise Refusal("LB705", "something is printed that is no text", "print one of its parts, or loop over it")

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> NoReturn:
        raise Refusal("LB705", f"`{operator}` computes, and a template may not", "amounts come finished: print them")

    def call_unop(self, context: Context, operator: str, arg: Any) -> NoReturn:
        raise Refusal("LB705", f"`{operator}` computes, and a template may not", "amounts come finished: print them")

    def is_safe_callable(self, obj: Any) -> bool:
        return isinstance(obj, Say)

    def getattr(self, obj: Any, attribute: str) -> Any:
        """Return an attribute the sandbox lets through; it judges by class and name, so it is asked once for each."""
        place = (type(obj), attribute)
        if place in self._let_through:
            return getattr(obj, attribute)
        value = super().getattr(obj, attribute)
        if isinstance(value, Undefined):
            raise _unknown(obj, attribute)
        if is_dataclass(obj):
            self._let_through.add(place)
        return value

    def getitem(self, obj: Any, argument: str | Any) -> NoReturn:
        raise Refusal("LB705", f"`[{argument}]` is not for templates", "write a point and the name")


ALLOWED_FILTERS: Final = ("plain",)
GIVEN_NAMES: Final = ("sheet", "say")


def context_for(view: object, wording: Wording) -> Mapping[str, object]:
    """Return the names a template is given: the sheet's view, and what finds words."""
    return {"sheet": view, "say": Say(wording)}


def _unknown(obj: Any, attribute: str) -> Refusal:
    known = [field.name for field in fields(obj)] if is_dataclass(obj) else []
    if attribute.startswith("_"):
        return Refusal("LB705", f"`{attribute}` is not for templates", "use the names a sheet is given")
    close = nearest(attribute, known)
    hints = [f"did you mean `{close}`?"] if close else []
    if known:
        hints.append("there is " + ", ".join(f"`{name}`" for name in known))
    return Refusal("LB704", f"there is nothing called `{attribute}` here", *hints)


def _plain(value: Any) -> str:
    if isinstance(value, Text):
        return value.plain
    if isinstance(value, str):
        return value
    raise Refusal("LB705", "`plain` is given something that is no text", "give it a text")


def _marked(text: Text, second_language: str) -> str:
    """Return a text escaped and in its marks; one in two languages as a pair, the second inside at its end."""
    marked = _pieces(text.first)
    if text.second is None:
        return marked
    second = _pieces(text.second)
    return f'<span class="two">{marked}<span class="second" lang="{_escaped(second_language)}">{second}</span></span>'


@lru_cache(maxsize=1 << 13)
def _escaped(words: str) -> str:
    return str(escape(words))


def _pieces(pieces: Sequence[Piece]) -> str:
    """Return the words of pieces, escaped, each in its marks."""
    marked = ""
    for piece in pieces:
        words = _escaped(piece.words)
        if piece.italic:
            words = f"<i>{words}</i>"
        marked += f"<b>{words}</b>" if piece.bold else words
    return marked
