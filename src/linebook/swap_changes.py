"""What changed on each sheet that is exchanged, in words: from what it said when it was issued and what it says now.

Reads what old sheets said from the house folder; prints and writes nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.source.faults import Fault
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.swap import LineSwap, SwapStep
    from linebook.documents.parts import Member
    from linebook.documents.swap_sheet import Change
    from linebook.documents.text import Text
    from linebook.documents.wording import Wording
    from linebook.markup.blocks import SheetText
    from linebook.markup.compared import Changes
    from linebook.markup.new_names import Renamed
    from linebook.model.house import House
    from linebook.model.issue import Issue, IssuedSheet
    from linebook.model.tasting import Tasting

_NAMED: Final = ("station-card", "batch-card")
_CARDS: Final = ("station-card", "plating-guide", "batch-card", "cutting-plan")


@frozen(kw_only=True)
class OldTexts:
    """What sheets said when they were issued, from the house folder; what is not kept is a fault each."""

    folder: Path
    shown: str
    faults: list[Fault]

    def read(self, sheet: IssuedSheet) -> SheetText | None:
        """Return what a sheet said, None where that is not kept as it was written."""
        from linebook.markup.kept import read_sheet
        from linebook.read.register import text_file
        from linebook.source.codes import fault
        from linebook.source.files import read_source, show_path
        from linebook.source.spans import SourceFile

        path = text_file(sheet.fingerprint)
        opened = read_source(self.folder, path, self.shown)
        text = read_sheet(opened.value.text, sheet.fingerprint) if opened.value else None
        if text is None:
            is_there = opened.value is not None or (self.folder / path).exists()
            state = "is not as it was written" if is_there else "is not there"
            lost = fault(
                "LB906",
                f"what `{sheet.title}` said when it was issued {state}, so what changed cannot be told",
                SourceFile(path=show_path(self.shown, path), text="").whole(),
                hints=(f"put it back, as with: git checkout -- {show_path(self.shown, path)}",),
            )
            self.faults.append(lost)
        return text


def renamed_cards(
    before: Mapping[str, Issue], after: Issue, texts: Mapping[str, SheetText], old: OldTexts
) -> tuple[Renamed, ...]:
    """Return what dishes and components that stay were called and are called now, where that is another name."""
    from linebook.markup.titles import title_of_sheet

    were = {one.id: one for line, issue in before.items() for one in issue.of_line(line)}
    found = []
    for new in after.sheets:
        was = were.get(new.id)
        if new.document not in _NAMED or was is None or was.title == new.title:
            continue
        text = old.read(was)
        if text is not None:
            found.append((title_of_sheet(text), title_of_sheet(texts[new.fingerprint])))
    return tuple(found)


@frozen
class Teller:
    """Says what changed, sheet by sheet, gathered by what the sheets are about. ``before`` is each binder's issue.

    ``renames`` are those of ``renamed_cards``, ``names`` those of the house in its second language by the first.
    """

    house: House
    wording: Wording
    texts: Mapping[str, SheetText]
    old: OldTexts
    before: Mapping[str, Issue]
    after: Issue
    renames: Sequence[Renamed] = ()
    names: Mapping[str, str] | None = None

    def changes(self, swap: LineSwap) -> Iterator[Change]:
        """Yield what changed of each dish, component or sheet whose sheets are exchanged on a line."""
        from linebook.documents.swap_sheet import Change

        exchanged: dict[str, list[tuple[IssuedSheet, IssuedSheet]]] = {}
        for step in swap.steps:
            if pair := self._pair(step):
                exchanged.setdefault(self._about(pair[1]), []).append(pair)
        for about, pairs in exchanged.items():
            told = [self._told(one, other) for one, other in pairs if not self._is_same(one, other)]
            if not told:
                continue
            moved = tuple(dict.fromkeys(text for one, _ in pairs for text in self._moved(one, swap.line)))
            yield Change(
                key=about,
                line=swap.line,
                name=self._name(pairs[0][1]),
                documents=self._documents([other for _, other in pairs]),
                allergens=tuple(dict.fromkeys(text for one in told for text in one.allergens)),
                other=tuple(dict.fromkeys((*moved, *(text for one in told for text in one.other)))),
                notes=tuple(self._notes(about, self._since(pairs[0][0]))),
                verdicts=tuple(self._verdicts(told)),
                stays=pairs[0][1].document in _CARDS,
                itself=any(one.itself for one in told),
            )

    def _is_same(self, old: IssuedSheet, new: IssuedSheet) -> bool:
        """Return whether a sheet is only printed anew with all others."""
        from linebook.compute.swap import printed_alike

        same = (old.fingerprint, old.line) == (new.fingerprint, new.line)
        return same and not printed_alike(self.before[old.line], self.after)

    def _pair(self, step: SwapStep) -> tuple[IssuedSheet, IssuedSheet] | None:
        """Return the sheet that a step puts in and the one it replaces, also where that stands in another place."""
        from linebook.compute.swap import renamed

        if step.new is None or step.act.value not in ("exchange", "insert"):
            return None
        if step.old is not None:
            return step.old, step.new
        before = [one for line, issue in self.before.items() for one in issue.of_line(line)]
        now = renamed(before, self.after.sheets)
        old = next((one for one in before if now.get(one.place, one.place) == step.new.place), None)
        return (old, step.new) if old else None

    def _moved(self, old: IssuedSheet, line: str) -> Iterator[Text]:
        from linebook.documents.swap_steps import line_words

        if old.line != line:
            named = line_words(self.house, old.line, self.before, self.wording)
            yield self.wording.say("swap.from-line", line=named)

    def _since(self, old: IssuedSheet) -> date:
        """Return the day from which tasting notes are news: that of the issue a sheet is compared with."""
        return self.before[old.line].day

    def _notes(self, about: str, since: date) -> Iterator[Member]:
        from linebook.documents.parts import Member
        from linebook.documents.tasting_notes import told_note

        for at, note in enumerate(self._tastings(about)):
            if note.day >= since:
                yield Member(key=f"{about}.note.{at}", text=told_note(note, self.wording))

    def _tastings(self, about: str) -> tuple[Tasting, ...]:
        card = self.house.dishes.get(about) or self.house.components.get(about)
        return card.tastings if card else ()

    def _verdicts(self, told: Sequence[Changes]) -> Iterator[Member]:
        from linebook.documents.parts import Member

        for one in told:
            for verdict in one.verdicts:
                yield Member(key=verdict.dish, text=verdict.text)

    def _about(self, sheet: IssuedSheet) -> str:
        return sheet.subject if self._is_known(sheet) else sheet.id

    def _is_known(self, sheet: IssuedSheet) -> bool:
        return sheet.subject in self.house.dishes or sheet.subject in self.house.components

    def _name(self, sheet: IssuedSheet) -> Text:
        from linebook.documents.second import item_name
        from linebook.markup.titles import title_of_sheet

        if self._is_known(sheet):
            return item_name(self.house, sheet.subject)
        return title_of_sheet(self.texts[sheet.fingerprint])

    def _documents(self, sheets: Sequence[IssuedSheet]) -> Text:
        """Return which documents they are, but for one that is called by what it is."""
        said = (self.wording.say(f"document.{one}") for one in dict.fromkeys(sheet.document for sheet in sheets))
        name = self._name(sheets[0]).plain
        return self.wording.listed(one for one in said if one.plain != name)

    def _told(self, old: IssuedSheet, new: IssuedSheet) -> Changes:
        from linebook.markup.compared import Changes, tell_changes

        if old.fingerprint == new.fingerprint:
            return Changes(other=(self.wording.say("swap.same-words"),), itself=False)
        before = self.old.read(old)
        if before is not None and old.line != new.line:  # which is told, and is all over its head
            before = replace(before, kicker=self.texts[new.fingerprint].kicker)
        if before is None:
            unknown = (self.wording.say("swap.unknown"),)
            return Changes(allergens=unknown) if new.document in _CARDS else Changes(other=unknown)
        told = tell_changes(before, self.texts[new.fingerprint], self.wording, self.renames, self.names)
        only_moved = old.line != new.line and told.other == (self.wording.say("change.dress"),)
        return replace(told, other=()) if only_moved else told
