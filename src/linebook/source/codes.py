"""Every fault code of linebook, with its name, severity and title: the one place codes are declared.

A number is never reused. It must not know what is checked where, nor how a fault is printed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from linebook.source.faults import Fault, Related, Severity
from linebook.source.frozen import frozen
from linebook.source.spans import Span


@frozen
class Code:
    """One kind of fault. ``number`` is ``LBnnn``, ``name`` its kebab-case name, ``title`` a few words."""

    number: str
    name: str
    severity: Severity
    title: str


_ERRORS: Final = (
    # 1 reading
    ("LB101", "yaml-syntax", "the text between the --- lines, or a .yaml file, cannot be read"),
    ("LB102", "duplicate-key", "a field is written twice"),
    ("LB103", "refused-yaml", "a shortcut that linebook does not allow in a spec"),
    ("LB104", "refused-character", "a character that does not belong here"),
    ("LB105", "front-matter", "the block between the --- lines is missing or not closed"),
    ("LB106", "unknown-field", "a field that is not known here"),
    ("LB107", "missing-field", "a field that is needed is not there"),
    ("LB108", "wrong-shape", "a list, a group of fields or a single value where another is needed"),
    ("LB109", "empty-value", "a field without a value"),
    ("LB110", "too-large", "a file or a text longer or deeper than it may be"),
    ("LB111", "not-utf-8", "a file that is not saved as UTF-8 text"),
    ("LB113", "outside-house", "a file that leads out of the house folder"),
    ("LB114", "house-file-missing", "the house folder has no house.yaml"),
    ("LB115", "unreadable-file", "a file that cannot be opened"),
    ("LB117", "body-markup", "something in the method that cannot be printed"),
    ("LB118", "unknown-choice", "a word that is not one of the allowed ones"),
    ("LB119", "wrong-ending", "a spec that is not read for the ending of its file's name"),
    # 2 ids and references
    ("LB201", "unknown-item", "an item that no spec or pantry file has"),
    ("LB202", "duplicate-id", "one id used for two things"),
    ("LB203", "bad-id", "an id with characters it may not have"),
    ("LB204", "cycle", "a component that is made from itself"),
    ("LB206", "unknown-line", "a line that house.yaml does not have"),
    ("LB207", "unknown-course", "a course that the menu does not have"),
    ("LB208", "unknown-plate", "a plate that house.yaml does not have"),
    ("LB209", "unknown-vessel-or-place", "a vessel or a place that house.yaml does not have"),
    ("LB210", "unknown-medium", "a shared medium that house.yaml does not have"),
    ("LB211", "unknown-dish", "a dish that no file has"),
    ("LB212", "listed-twice", "one thing listed twice"),
    ("LB214", "unknown-brace", "braces that name nothing on this card"),
    ("LB216", "own-item", "a card that lists itself, or a dish used as an item"),
    ("LB220", "own-substitute", "a substitute that is the item itself, or named twice"),
    ("LB221", "substitute-cycle", "a substitute that would make a component part of itself"),
    ("LB222", "substitute-exact", "a substitute of or by an item that must be weighed exactly"),
    ("LB223", "card-of-bought", "a batch card's fingerprint on an item that is bought"),
    ("LB218", "unknown-language", "a translation into a language that is not printed, or into the specs' own"),
    # 3 amounts and units
    ("LB301", "unreadable-amount", "an amount that cannot be read"),
    ("LB302", "unknown-unit", "a unit that is not known"),
    ("LB303", "ambiguous-number", "a number that can be read in two ways"),
    ("LB304", "units-cannot-meet", "units that cannot be turned into one another"),
    ("LB305", "percent-of-absent", "a percentage of something that is not on the card"),
    ("LB308", "pieces-disagree", "a count of pieces that does not fit the weight made"),
    ("LB309", "pieces-missing", "a piece whose weight is not known"),
    ("LB310", "not-positive", "an amount that must be more than nothing"),
    ("LB311", "unreadable-temperature", "a temperature that cannot be read"),
    ("LB312", "unreadable-duration", "a length of time that cannot be read"),
    ("LB313", "unreadable-date-or-time", "a date or a time of day that cannot be read"),
    ("LB314", "percent-circle", "percentages that go round in a circle"),
    ("LB315", "range-backwards", "a range whose end is before its start"),
    ("LB316", "out-of-range", "a number outside what is possible here"),
    ("LB317", "measure-not-named", "a cup, spoon or pint whose size the house has not named"),
    ("LB318", "unreadable-length-or-place", "a length or a place on the plate that cannot be read"),
    ("LB330", "yield-over-bought", "a yield test that weighs more than was bought"),
    ("LB332", "cut-gives-fewer", "a cut that does not give the pieces the card counts"),
    ("LB320", "figures-differ", "a translation whose figures are not those of what it translates"),
    ("LB321", "nothing-held-back", "a part held back of what is not, or cannot be, held back"),
    ("LB322", "exact-held-back", "holding back of what must be weighed exactly"),
    ("LB323", "batches-disagree", "a smallest batch or a step above the largest batch"),
    ("LB327", "over-the-ceiling", "more of an active substance than the house's ceiling"),
    ("LB328", "cannot-be-weighed-exactly", "an amount to be weighed exactly that no instrument reads"),
    # 4 allergens
    ("LB402", "unknown-substance", "a substance that no allergen list has"),
    ("LB403", "declaration-incomplete", "an allergen declaration with a part missing"),
    ("LB404", "contradiction", "an allergen declaration that contradicts itself"),
    ("LB405", "unknown-list", "an allergen list that is not known"),
    ("LB407", "own-alternative", "an alternative that is the element itself"),
    ("LB408", "unknown-origin", "an origin that is not known"),
    ("LB409", "origin-contradicted", "an origin that contradicts what the item declares"),
    ("LB410", "nothing-left", "a leave-off that takes the only element off the plate"),
    ("LB411", "raw-elsewhere", "an item said to be raw on a card that it does not go into"),
    ("LB412", "not-exempt", "a substance said to be exempt that no list of the house exempts so"),
    # 5 stages and schedule
    ("LB501", "stage-without-heading", "a stage without a heading of its name in the method"),
    ("LB502", "heading-without-stage", "a heading in the method that is no stage"),
    ("LB503", "hot-then-cold", "a hot stage goes to a cold place without cooling"),
    ("LB504", "vessel-too-small", "a vessel that cannot take the batch"),
    ("LB505", "dates-out-of-order", "a last day before the first day"),
    ("LB506", "stage-twice", "two stages with one name"),
    ("LB507", "unknown-stage", "a stage that this card does not have"),
    ("LB508", "limit-contradicted", "a temperature or time that breaks the limit it names"),
    ("LB509", "sections-differ", "a translated method whose sections are not those of the card"),
    ("LB511", "of-without-most", "what a stage counts, without the most it takes"),
    ("LB512", "not-in-the-stage", "something to be counted at a stage that does not lie in it"),
    ("LB513", "most-too-little", "the most of a stage that is not enough for the least that is made"),
    ("LB527", "packed-too-long", "food without air, or under oil, kept longer or warmer than its rule lets it"),
    ("LB510", "steps-differ", "a translated section whose steps are not those of the card, one to one"),
    # 6 stations and plating
    ("LB601", "off-the-plate", "an element that does not fit on its plate"),
    ("LB603", "on-nothing", "an element that stands on something not set before it"),
    ("LB604", "no-plate", "elements with places, or a photograph, but no plate"),
    ("LB605", "section-missing", "a part of the method that every card needs is not there"),
    ("LB606", "size-mix", "the sizes of a dish do not add up"),
    ("LB607", "photo-name", "a photograph that is not named as a file in the folder photos"),
    ("LB608", "photo-missing", "a photograph that is not there"),
    ("LB609", "photo-unreadable", "a photograph that cannot be read"),
    ("LB610", "photo-too-large", "a photograph larger than any page needs"),
    ("LB621", "pick-up-time", "a strand of a pick-up that takes no time, or far too much"),
    ("LB622", "at-once-where", "portions at once without the place they fill"),
    ("LB623", "label-too-small", "a label whose words do not fit at the least size that is allowed"),
    ("LB624", "labels-off-paper", "sheets of labels that run off their paper"),
    ("LB625", "saved-plan-unreadable", "a saved plan that cannot be read"),
    # 7 templates
    ("LB701", "template-missing", "a template that cannot be found"),
    ("LB702", "template-syntax", "a template that cannot be read"),
    ("LB703", "unknown-tag", "a tag or class that sheets do not have"),
    ("LB704", "unknown-name", "a name that this template is not given"),
    ("LB705", "refused-construct", "something that templates may not do"),
    ("LB706", "template-output-too-long", "a template that writes too much"),
    ("LB709", "covers-unknown", "no service, or no covers for one, in the days to order for"),
    # 8 theme and page fit
    ("LB801", "missing-character", "a character that the font does not have"),
    ("LB802", "type-under-floor", "type smaller than can be read at arm's length"),
    ("LB803", "unknown-theme-name", "a name that the theme does not have"),
    ("LB804", "does-not-fit", "something that does not fit on its page"),
    ("LB805", "font-refused", "a font that cannot be used"),
    ("LB806", "page-not-kept", "a paper or a margin that printers and holes do not leave"),
    ("LB807", "low-contrast", "a colour or a grey that words cannot be read in, or on"),
    ("LB808", "unknown-theme", "a theme that is not there"),
    # 9 output
    ("LB901", "cannot-write", "a file that cannot be written"),
    ("LB902", "no-menu-in-force", "no menu is in force on the day"),
    ("LB903", "nothing-served", "no dish of the menu can be served without what is missing"),
    ("LB904", "issue-damaged", "an issue in the register that is not as it was written"),
    ("LB905", "nothing-issued", "nothing was issued by the day that is compared with"),
    ("LB908", "note-not-placed", "a tasting note that cannot be put into its file"),
)

_WARNINGS: Final = (
    ("LB112", "cut-by-comment", "text after # that is left out"),
    ("LB116", "stray-file", "a file that is not read"),
    ("LB205", "unused-component", "a component that nothing uses"),
    ("LB213", "food-only-in-method", "a food in the method that is not on the card"),
    ("LB215", "dish-not-on-a-menu", "a dish that no menu lists"),
    ("LB217", "translation-of-nothing", "a translation of a dish or component that no file has"),
    ("LB219", "words-for-nothing", "a translation of a name or text that the specs do not have"),
    ("LB306", "bare-amount-in-method", "an amount in the method that does not scale"),
    ("LB307", "makes-more-than-it-weighs", "a batch that makes more than went in"),
    ("LB319", "braces-exceed-amount", "parts of an ingredient in the method that add up to more than all of it"),
    ("LB324", "not-in-whole-steps", "a batch as written that is not in whole ones of its step"),
    ("LB329", "ceiling-not-met", "an active substance without a ceiling, or a ceiling without a substance"),
    ("LB333", "bought-in-other-units", "a pack or a price in a unit that what is used cannot be turned into"),
    ("LB401", "undeclared", "a pantry item without an allergen declaration"),
    ("LB413", "stock-unknown", "stock of which nobody knows what is in it"),
    ("LB406", "no-help", "an alternative that brings all that the element brings"),
    ("LB331", "yields-disagree", "a declared yield that is not what the yield tests give"),
    ("LB526", "past-its-date-mark", "food kept for more days than the rule for date marking allows"),
    ("LB528", "raw-fish-not-frozen", "fish served raw that nothing freezes"),
    ("LB529", "older-than-its-part", "food that is said to keep longer than a part of it"),
    ("LB530", "tastings-out-of-order", "a tasting note under one of a later day"),
    ("LB531", "tasting-ahead", "a tasting note of a day that is still to come"),
    ("LB532", "limit-not-named", "food without air, or under oil with an aromatic, without a limit for that"),
    ("LB602", "course-shares", "dish shares that do not add up to what the course expects"),
    ("LB611", "cut-gives-more", "a cut that gives more pieces than the card counts"),
    ("LB620", "call-differs", "a call that is not what the longest strand of the pick-up needs"),
    ("LB707", "supplier-not-listed", "a supplier that house.yaml does not list among its suppliers"),
    ("LB906", "issued-text-lost", "what a sheet said when it was issued is no longer kept"),
    ("LB907", "register-not-read", "a register that cannot be read, so that sheets bear the day they are printed"),
    ("LB909", "issues-side-by-side", "two issues of one day, made apart, that put different sheets in one binder"),
)


def _register() -> Mapping[str, Code]:
    codes = [Code(number=n, name=name, severity=Severity.ERROR, title=title) for n, name, title in _ERRORS]
    codes += [Code(number=n, name=name, severity=Severity.WARNING, title=title) for n, name, title in _WARNINGS]
    return MappingProxyType({code.number: code for code in sorted(codes, key=lambda code: code.number)})


CODES: Final[Mapping[str, Code]] = _register()


def fault(
    code: str,
    message: str,
    span: Span | None,
    *,
    hints: Iterable[str] = (),
    related: Iterable[Related] = (),
) -> Fault:
    """Return a fault of a registered code, with the severity the registry gives it."""
    return Fault(
        code=code,
        severity=CODES[code].severity,
        message=message,
        span=span,
        hints=tuple(hints),
        related=tuple(related),
    )
