"""Which sheets of an earlier print stand again: those for which nothing that was looked at has changed.

Owns that judgement, and what has to be known of a print for it. It must not know where that is kept, nor what any sheet
shows.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import field, fields, is_dataclass
from hashlib import sha256
from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

from linebook.model.followed import numbers_of, record_of
from linebook.source.faults import Fault, Outcome
from linebook.source.following import spelt
from linebook.source.frozen import frozen
from linebook.source.noted import Question, Seen, noting
from linebook.source.remembered import REMEMBERING, Answered, recall

if TYPE_CHECKING:
    from linebook.compute.results import AllergenTable, Balance, DishDemand, Night
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House


_WIDE: Final = 48
"""An answer for which more than this was looked at is compared itself: it is often the same when that is not."""


@frozen
class OldAnswer:
    """A question that was answered: what was looked at for it, and the answer's digest, '' where it is not kept.

    ``plain`` is the answer itself where it is words alone, or rows of them; else None.
    """

    seen: Seen
    answer: str
    plain: object = None


@frozen
class SheetBefore:
    """A sheet of an earlier print: its fingerprint, what was looked at for it, and what it was given besides."""

    fingerprint: str
    seen: Seen
    given: str


@frozen
class FileBefore:
    """A PDF of an earlier print: its sheets by id in their order, its digest, its pages, and where its codes are kept.

    ``codes`` is '' while they are not, and ``packed`` are they then.
    """

    sheets: Mapping[str, SheetBefore]
    digest: str
    pages: int
    turned: bool
    codes: str = ""
    packed: bytes = field(default=b"", repr=False)


@frozen
class Figured:
    """What was worked out for a print and looked at for it: ``nights`` and that they are not refused, and answers.

    ``told`` is, spelt, all that the print was told besides the house. ``portions`` and ``balances`` are those of each
    night, which every cover tells.
    """

    told: str
    nights: Seen
    portions: tuple[tuple[DishDemand, ...], ...]
    balances: tuple[Mapping[str, Balance], ...]
    answers: Seen
    table: AllergenTable
    also: AllergenTable | None


class Late(Mapping[str, Any]):
    """A part of a night that is worked out when it is looked at."""

    def __init__(self, find: Callable[[], Mapping[str, Any]]) -> None:
        self._find = find

    def __getitem__(self, key: str) -> Any:
        return self._find()[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._find())

    def __len__(self) -> int:
        return len(self._find())


class LateNights(Sequence[Any]):
    """The nights of a print, sized when the first of them is looked at."""

    def __init__(self, count: int, size: Callable[[], Sequence[Night]]) -> None:
        self._count, self._size = count, size
        self._sized: Sequence[Night] | None = None

    def __len__(self) -> int:
        return self._count

    def __getitem__(self, at: Any) -> Any:
        if self._sized is None:
            sized, _ = noting(self._size)  # their own notes are kept apart, and judged as a whole
            self._sized = sized
        return self._sized[at]


class Judge:
    """Judges what was looked at for an earlier print by what has changed since; of the first print there is nothing.

    ``house`` is followed. ``changed`` is what would be noted for all that is not as it was.
    """

    def __init__(self, house: House, asked: Mapping[Question, OldAnswer], changed: Iterable[object]) -> None:
        self._house = house
        self._asked = asked
        self._changed = set(changed)
        self._stale: dict[Question, bool] = {}

    def learn(self, changed: Iterable[object]) -> None:
        """Take in what else has changed, before anything is judged that was looked at for it."""
        self._changed.update(changed)
        self._stale.clear()

    def stands(self, seen: Seen) -> bool:
        """Return whether all that was looked at is as it was."""
        return (
            self._changed.isdisjoint(seen.fields)
            and self._changed.isdisjoint(seen.looked_up)
            and not any(map(self._is_stale, seen.asked))
        )

    def recall(self) -> None:
        """Remember the plain answers that are as they were, so that they are not worked out again."""
        for question, asked in self._asked.items():
            if asked.plain is not None and not self._is_stale(question):
                name, told = question
                import_module(name.rpartition(".")[0])
                values = [record_of(self._house, one) if isinstance(one, int) else one for one in told]
                recall(name, self._house, values, Answered(tuple(values), asked.plain, asked.seen, question))

    def _is_stale(self, question: Question) -> bool:
        """Return whether a question may have another answer."""
        known = self._stale.get(question)
        if known is None:
            asked = self._asked.get(question)
            known = asked is None or (
                not self.stands(asked.seen) and (not asked.answer or asked.answer != self._answer(question))
            )
            self._stale[question] = known
        return known

    def _answer(self, question: Question) -> str:
        """Ask a question again and return the digest of the answer, '' where it cannot be asked any more."""
        name, told = question
        try:
            import_module(name.rpartition(".")[0])
            ask = REMEMBERING[name].ask
            values = [record_of(self._house, one) if isinstance(one, int) else one for one in told]
            answer, _ = noting(lambda: ask(self._house, *values))
        except Exception:  # it was about what is not there any more, or as it was not then
            return ""
        return digest_of_answer(answer)


def _old_answer(answered: Answered, question: Question, house: House) -> OldAnswer:
    seen = answered.seen
    wide = len(seen.fields) + len(seen.looked_up) + len(seen.asked) > _WIDE
    return OldAnswer(
        seen=seen,
        answer=digest_of_answer(answered.answer) if wide and _can_be_asked_again(question, house) else "",
        plain=answered.answer if _is_plain(answered) else None,
    )


def _can_be_asked_again(question: Question, house: House) -> bool:
    """Return whether a question is about records and words alone; a night that has a number is another one then."""
    return all(type(one) is not int or one < numbers_of(house) for one in question[1])


def _is_plain(answered: Answered) -> bool:
    """Return whether an answer can be kept as it is, and a question be asked again by what it was told."""
    rows, told = answered.answer, answered.values
    return type(rows) is tuple and all(map(_is_words, rows)) and not any(type(value) is tuple for value in told)


def _is_words(row: Any) -> bool:
    return type(row) is str or (is_dataclass(row) and all(type(getattr(row, one.name)) is str for one in fields(row)))


def digest_of_answer(answer: object) -> str:
    return sha256(spelt(answer).encode("utf-8", "surrogatepass")).hexdigest()


class Questions:
    """Every question that is asked for a print of a ``house``, each written down once, with how it was answered.

    One that was not asked of that house in this process is as it was ``before``.
    """

    def __init__(self, house: House, before: Mapping[Question, OldAnswer]) -> None:
        self._house, self._before = house, before
        self._written: dict[Question, OldAnswer] = {}

    def learn(self, asked: Mapping[Question, OldAnswer]) -> None:
        """Take in what was asked of an equal house in another process."""
        self._written.update(asked)

    def within(self, sights: Iterable[Seen]) -> dict[Question, OldAnswer]:
        """Return every question in what was looked at, and in what was looked at to answer it."""
        found: dict[Question, OldAnswer] = {}
        waiting = list(sights)
        while waiting:
            for question in waiting.pop().asked:
                if question not in found and (answer := self._answer(question)) is not None:
                    found[question] = answer
                    waiting.append(answer.seen)
        return found

    def _answer(self, question: Question) -> OldAnswer | None:
        """Return how a question was answered; None where nobody knows any more: it is judged as changed."""
        written = self._written.get(question)
        if written is not None:
            return written
        own = REMEMBERING.get(question[0])
        answered = own.answered.get(question) if own is not None and own.is_of(self._house) else None
        if answered is None:
            return self._before.get(question)
        self._written[question] = written = _old_answer(answered, question, self._house)
        return written


class SheetMaking:
    """Makes the sheets of one PDF, and notes what is looked at for each; those that stand are not made."""

    def __init__(self, judge: Judge, before: FileBefore | None) -> None:
        self._judge, self._before = judge, before
        self._makers: dict[str, tuple[Callable[[], Outcome[Sheet]], str]] = {}
        self.made: dict[str, SheetBefore] = {}
        self.sheets: dict[str, Sheet | None] = {}
        """What was made, by id in order; None for one that stands."""

    def make(self, id_: str, make: Callable[[], Outcome[Sheet]], given: str = "") -> tuple[Fault, ...]:
        """Make a sheet where it does not stand, and return its faults."""
        self._makers[id_] = (make, given)
        was = self._before.sheets.get(id_) if self._before else None
        if was is not None and was.given == given and self._judge.stands(was.seen):
            self.made[id_], self.sheets[id_] = was, None
            return ()
        return self._make(id_)

    def make_others(self, there: Collection[str]) -> tuple[Fault, ...]:
        """Make the sheets that stand and are not ``there``, and return their faults."""
        wanted = [id_ for id_, sheet in self.sheets.items() if sheet is None and id_ not in there]
        return tuple(fault for id_ in wanted for fault in self._make(id_))

    def _make(self, id_: str) -> tuple[Fault, ...]:
        make, given = self._makers[id_]
        outcome, seen = noting(make)
        if outcome.value is not None:
            self.made[id_] = SheetBefore(fingerprint=outcome.value.fingerprint, seen=seen, given=given)
            self.sheets[id_] = outcome.value
        return outcome.faults

    @property
    def all_stand(self) -> bool:
        """Return whether the PDF is as it was, if it holds these sheets in this order."""
        return self._before is not None and [*self._before.sheets] == [*self.sheets] and not any(self.sheets.values())
