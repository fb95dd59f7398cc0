"""Translations are of something the house has, into a language it can print, and say the same (LB217 to LB219, LB320).

What is not translated is no fault. A card that is at fault itself is mended first: its translation may be right.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from linebook.check.index import Index
from linebook.check.translated_methods import method_faults
from linebook.check.translated_texts import figures_at, figures_fault, said_figures
from linebook.check.words import meant
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.translatable import NAMES, CardTexts, Placed, card_texts, names_of_kind, phrases_of
from linebook.model.translations import (
    LANGUAGE_NAMES,
    CardWords,
    HouseWords,
    Said,
    Translation,
    Translations,
    written_language,
)
from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.nearest import nearest

_ALIASES: Final[Mapping[str, str]] = {"eng": "en", "esp": "es", "spa": "es"}


def check_translations(index: Index, at_fault: frozenset[str], *, has_errors: bool) -> Iterator[Fault]:
    """Yield every fault of the translations; ``at_fault`` are the paths of files in which another check found one."""
    written = _written(index)
    for card in index.parsed.translations:
        refused = _language_fault(card, f"{card.id}.{{}}.md", written, index)
        if refused is not None:
            yield refused
        else:
            yield from _card_faults(index, card, at_fault)
    for words in index.parsed.words:
        refused = _language_fault(words, "words.{}.yaml", written, index)
        if refused is not None:
            yield refused
        elif index.is_whole and not has_errors:
            yield from _words_faults(index, words)


def gather_translations(index: Index) -> Translations:
    """Return what the house says in other languages, as far as it was read."""
    written = _written(index)
    cards: dict[str, dict[str, CardWords]] = defaultdict(dict)
    words: dict[str, HouseWords] = {}
    for card in index.parsed.translations:
        own = index.dishes.get(card.id) if card.is_dish else index.components.get(card.id)
        if own is not None:
            cards[card.language][card.id] = card
    for one in index.parsed.words:
        words[one.language] = one
    languages = [code for code in LANGUAGE_NAMES if code != written and (code in cards or code in words)]
    by_language = {
        code: Translation(language=code, cards=MappingProxyType(cards[code]), words=words.get(code))
        for code in languages
    }
    return Translations(written=written, by_language=MappingProxyType(by_language))


def _written(index: Index) -> str:
    if index.file is None:
        return ""
    return written_language(index.file.languages, index.parsed.translated & LANGUAGE_NAMES.keys())


def _language_fault(record: CardWords | HouseWords, form: str, written: str, index: Index) -> Fault | None:
    language = record.language
    names = " and ".join(f"`{code}` ({name})" for code, name in LANGUAGE_NAMES.items())
    if language not in LANGUAGE_NAMES:
        small = language.casefold()
        near = small[:2] if small[:2] in LANGUAGE_NAMES else _ALIASES.get(small) or nearest(small, LANGUAGE_NAMES)
        mend = f"rename it to `{form.format(near)}`" if near else ""
        message = f"`{language}` is not a language that sheets are printed in"
        return fault("LB218", message, record.span, hints=[hint for hint in (mend, f"there are {names}") if hint])
    if language != written or index.file is None:
        return None
    other = next(code for code in LANGUAGE_NAMES if code != written)
    message = f"the specs are written in {LANGUAGE_NAMES[written]}, and this file translates them into it"
    hints = (
        f"rename it to `{form.format(other)}` if that is its language, or delete it",
        f"or put the language of the specs first in `languages` of house.yaml: `[{other}, {written}]`",
    )
    return fault("LB218", message, record.span, hints=hints)


def _card_faults(index: Index, words: CardWords, at_fault: frozenset[str]) -> Iterator[Fault]:
    kind, other = ("dish", "component") if words.is_dish else ("component", "dish")
    own: Dish | Component | None = (index.dishes if words.is_dish else index.components).get(words.id)
    if own is None:
        elsewhere = words.id in (index.components if words.is_dish else index.dishes)
        lost = words.id in index.unresolved or words.id in index.unresolved_dishes
        if elsewhere:
            folder = "components" if words.is_dish else "dishes"
            message = f"`{words.id}` is a {other}, and its translation stands among the {_folder(words)}"
            yield fault("LB217", message, words.span, hints=(f"move this file to {folder}",))
        elif not (index.is_broken(words.id) or lost):
            known = (card.id for card in (index.dishes if words.is_dish else index.components).values())
            mend = meant(words.id, known, "rename it after what it translates, or delete it")
            message = f"there is no {kind} `{words.id}` for this to translate"
            yield fault("LB217", message, words.span, hints=(mend,))
        return
    if index.is_incomplete(own.id) or own.span.source.path in at_fault:
        return
    for text in card_texts(own, words):
        yield from _text_faults(text, own.name)
    if words.is_whole:
        yield from method_faults(own, words)


def _folder(words: CardWords) -> str:
    return "dishes" if words.is_dish else "components"


def _text_faults(texts: CardTexts, card: str) -> Iterator[Fault]:
    """Yield the faults of one kind of texts of a card: ids that are not there, and figures that differ."""
    for key, said in texts.said.items():
        own = texts.own.get(key)
        if own is not None:
            what = f"the {texts.what} of `{key}`" if texts.key_is else f"`{key}`"
            yield from _figures_faults(what, own, said)
        elif key in texts.known:
            message = f"`{key}` has no {texts.what} in {card}" if texts.key_is else f"{card} has no `{key}`"
            yield fault("LB219", message, said.key, hints=("delete the line, or add it to the card",))
        else:
            mend = meant(key, texts.own, "delete the line")
            yield fault("LB219", f"`{key}` is not {texts.key_is} of {card}", said.key, hints=(mend,))


def _words_faults(index: Index, words: HouseWords) -> Iterator[Fault]:
    for kind, what in NAMES.items():
        own = names_of_kind(index, kind)
        said: Mapping[str, Said] = getattr(words, kind)
        for key, one in said.items():
            if key in own:
                yield from _figures_faults(f"the name of `{key}`", own[key], one)
            else:
                message = f"there is no {what} `{key}`"
                yield fault("LB219", message, one.key, hints=(meant(key, own, "delete the line"),))
    if words.phrases:
        phrases = phrases_of((*index.components.values(), *index.dishes.values()))
        for key, said_for in words.phrases.items():
            if key in phrases:
                yield from _figures_faults(f"the translation of `{key[:60]}`", Placed(key, phrases[key]), said_for)
            else:
                mend = meant(key, phrases, "type it as the spec has it, or delete the line")
                yield fault("LB219", f"no spec says `{key[:80]}`", said_for.key, hints=(mend,))


def _figures_faults(what: str, own: Placed, said: Said) -> Iterator[Fault]:
    found = figures_fault(what, figures_at(own.text, own.span), said_figures(said), said.span)
    if found is not None:
        yield found
