"""What pantry items declare about allergens (LB401, LB402, LB404)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index, place
from linebook.check.words import listing
from linebook.model.pantry import Declaration, PantryItem
from linebook.model.taxonomy import EXEMPTIONS, SUBSTANCES, find_substance, known_words
from linebook.read.house_folder import HOUSE_ID
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.nearest import nearest

NONE: Final = "none"


def check_undeclared(index: Index) -> Iterator[Fault]:
    """Yield a warning for each pantry item that is used and does not declare its allergens."""
    used = {reference.item for reference in index.references} | index.stands_in
    for medium in index.file.media if index.file is not None else ():
        used.update(medium.carries)
    for item in index.pantry.values():
        if item.allergens is None and item.id in used and not index.is_incomplete(item.id):
            yield fault(
                "LB401",
                f"{item.name} does not say what it contains, so every dish that carries it is undeclared",
                item.span,
                hints=(
                    "read the label and add `allergens: {contains: [...], says: label, since: ...}`",
                    "where the label names nothing, `contains: none`",
                ),
            )


def check_substances(index: Index) -> Iterator[Fault]:
    """Yield a fault for each declared substance that neither the taxonomy nor the house knows."""
    if index.file is None or index.is_incomplete(HOUSE_ID):
        return  # what the house avoids by itself may be what could not be read
    own = index.file.allergens.avoid
    for item in index.pantry.values():
        declaration = item.allergens
        if declaration is None:
            continue
        for part, words in (("contains", declaration.contains), ("may_contain", declaration.may_contain)):
            for number, word in enumerate(words):
                if word in SUBSTANCES or word in own or word == NONE:
                    continue
                yield fault(
                    "LB402",
                    f"`{word}` is not a substance that an allergen list names, nor one that this house avoids",
                    place(declaration, f"{part}.{number}", part),
                    hints=substance_hints(word, tuple(own)),
                )


def check_contradictions(index: Index) -> Iterator[Fault]:
    """Yield a fault for each declaration that says two things that cannot both hold."""
    for item in index.pantry.values():
        if item.allergens is not None:
            yield from _contradictions(item, item.allergens)


def check_exemptions(index: Index) -> Iterator[Fault]:
    """Yield a fault for each substance said to be exempt that no list of the house exempts for that process."""
    if index.file is None or index.is_incomplete(HOUSE_ID):
        return
    lists = index.file.allergens.lists
    for item in index.pantry.values():
        for substance, process in (item.allergens.exempt if item.allergens else {}).items():
            if not EXEMPTIONS[process].covers(substance, lists):
                yield fault(
                    "LB412",
                    f"no list this house follows exempts `{substance}` as {process}",
                    place(item.allergens, f"exempt.{substance}", "exempt") if item.allergens else item.span,
                    hints=(f"name `{substance}` in `contains`",),
                )


def substance_hints(word: str, own: tuple[str, ...]) -> tuple[str, ...]:
    """Return what to write instead of a word that is no substance; ``own`` are the house's own avoidances."""
    if word in ("yes", "no", "true", "false", "unknown"):
        return ("write what the label names, as in `[wheat, cows-milk]`, or `none` where it names nothing",)
    known = find_substance(word)
    begun = {other for other in known_words() if len(word) >= 4 and other.startswith(word)}
    meant = {found.id for other in begun if (found := find_substance(other)) is not None}
    close = known.id if known is not None else nearest(word, (*known_words(), *own))
    close = meant.pop() if known is None and len(meant) == 1 else close
    if close is not None and close not in own:
        substance = find_substance(close)
        close = substance.id if substance is not None else close
    otherwise = f"or add it to `avoid` in house.yaml if the house tracks `{word}` itself"
    return (f"did you mean `{close}`?", otherwise) if close else (otherwise.removeprefix("or "),)


def _contradictions(item: PantryItem, declaration: Declaration) -> Iterator[Fault]:
    for part, words in (("contains", declaration.contains), ("may_contain", declaration.may_contain)):
        if len(words) > 1 and any(word == NONE for word in words):
            rest = [word for word in words if word != NONE]
            yield fault(
                "LB404",
                f"{item.name} says `none` and {listing(rest)} in one list",
                place(declaration, part),
                hints=("write `none` alone, or take it out of the list",),
            )
    for number, word in enumerate(declaration.may_contain):
        if word in declaration.contains:
            first = declaration.contains.index(word)
            yield fault(
                "LB404",
                f"{item.name} both contains `{word}` and may contain it",
                place(declaration, f"may_contain.{number}", "may_contain"),
                hints=("keep it in `contains`, which is the stronger of the two",),
                related=(Related(span=place(declaration, f"contains.{first}", "contains"), label="contains it here"),),
            )
