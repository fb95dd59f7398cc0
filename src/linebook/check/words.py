"""How checks word what they found: quoting, listing and gathering one slip into one fault."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from linebook.model.amounts import Temperature
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related
from linebook.source.nearest import nearest
from linebook.source.spans import Span

MOST_RELATED = 6


def gathered(
    code: str,
    message: str,
    spans: Sequence[Span],
    *,
    hints: Iterable[str] = (),
    related: Iterable[Related] = (),
    label: str = "also here",
) -> Fault:
    """Return one fault at the first of some places, with the others as related places.

    A word mistyped once where it is defined is wrong everywhere it is used: that is one mistake, not thirty.
    """
    others = [Related(span=span, label=label) for span in spans[1 : MOST_RELATED + 1]]
    more = len(spans) - 1 - len(others)
    hints = (*hints, f"{more} more {'place uses' if more == 1 else 'places use'} it too") if more > 0 else tuple(hints)
    return fault(code, message, spans[0], hints=hints, related=(*related, *others))


def meant(word: str, candidates: Iterable[str], otherwise: str) -> str:
    """Return the hint for an unknown word: the nearest valid one, or what to do where none is near."""
    known = sorted(set(candidates))
    close = nearest(word, known)
    if close is not None:
        return f"did you mean `{close}`?"
    if known and len(known) <= 8:
        return f"write {'one of ' if len(known) > 1 else ''}{listing(known)}, or {otherwise}"
    return otherwise


def listing(words: Iterable[str], joint: str = "and") -> str:
    """Return words in backticks with commas between them: ``a``, ``b`` and ``c``."""
    quoted = [f"`{word}`" for word in words]
    if len(quoted) < 2:
        return "".join(quoted)
    return f"{', '.join(quoted[:-1])} {joint} {quoted[-1]}"


def number_text(number: Fraction) -> str:
    """Return a number as a chef writes it, with at most three decimals."""
    if number.denominator == 1:
        return str(number.numerator)
    text = f"{float(number):.3f}".rstrip("0").rstrip(".")
    return text if Fraction(text) != 0 else f"{float(number):.2g}"


def temperature_text(temperature: Temperature) -> str:
    """Return a temperature in the scale it was typed in."""
    if temperature.fahrenheit:
        return f"{number_text(temperature.celsius * 9 / 5 + 32)} °F"
    return celsius_text(temperature.celsius)


def celsius_text(celsius: Fraction | None) -> str:
    """Return degrees Celsius as a chef types them; nothing where there are none."""
    return "" if celsius is None else f"{number_text(celsius)} °C"
