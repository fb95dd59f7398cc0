"""Every plan of a few batches in which all is ready and nothing strained: the best of them, or that there is none.

Every way to share the demands of each component out among batches is tried, users before parts, and for each of these
the latest moments of all batches together (``plan_clashes``). Fewest batches in all first, then freshest: the moments
at which batches are ready, added up, as late as can be. Knows demands and batches; what is small is not its business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from linebook.compute.plan_clashes import Clashes, TooManyError, ready_of
from linebook.compute.plan_group import Group, Groups, Want
from linebook.source.frozen import frozen

MOST_DEMANDS: Final = 10
"""So many demands on one component, at the most, that could be met by one batch."""

_ENOUGH: Final = 1 << 62
"""No plan is ready later."""


@frozen(eq=False)
class Whole:
    """A plan: its batches in the order of their components, and the latest moments; ``ready`` added up."""

    groups: tuple[Group, ...]
    latest: tuple[int, ...]
    ready: int


class Search:
    """Looks for the best plan of the demands of the plates; ``order`` is that of the components, users first."""

    def __init__(
        self,
        groups: Groups,
        most: Callable[[str], int | None],
        plated: Mapping[str, Sequence[Want]],
        order: Sequence[str],
        tries: int,
    ) -> None:
        self._groups, self._plated, self._order = groups, plated, order
        self._bounds = groups.bounds
        self._clashes = Clashes(groups.bounds, most, tries)
        self._made: list[Group] = []
        self._best: Whole | None = None
        self._above = 0
        self._cut = self._any = False
        self._can: dict[tuple[Want, ...], bool] = {}
        self._users = _all_users(groups, order, plated)
        self._dues = {id_: [want.demand.due for want in plated.get(id_, ()) if want.demand] for id_ in order}
        self._latest_due = self._dues_of_all()
        self._least = {id_: self._fewest(id_) for id_ in order}

    @property
    def least(self) -> int:
        """Return so many batches as there are at the least."""
        return self._rest(0)

    def best(self, batches: int, above: int, *, any_: bool = False) -> Whole | None:
        """Return the freshest plan of no more batches that is fresher than so much, None where there is none.

        Where ``any_`` will do, it is the first that is found.
        """
        self._best, self._above, self._cut, self._any = None, above, False, any_
        self._component(0, {id_: tuple(wants) for id_, wants in self._plated.items()}, batches)
        return self._best

    @property
    def known(self) -> Whole | None:
        """Return the best plan that was found so far, None where there is none."""
        return self._best

    @property
    def tried_all(self) -> bool:
        """Return whether more batches could not help: none of the tries ended for want of one more."""
        return not self._cut

    def _component(self, at: int, wants: Mapping[str, tuple[Want, ...]], left: int) -> None:
        """Share out the demands of one component and of all after it, with so many batches ``left``."""
        while at < len(self._order) and not wants.get(self._order[at]):
            at += 1
        if at == len(self._order):
            found = self._clashes.latest(self._made, self._above)
            if found is not None:
                self._above = _ENOUGH if self._any else found[0]
                self._best = Whole(groups=tuple(self._made), latest=tuple(found[1]), ready=found[0])
            return
        known = sorted(wants[self._order[at]], key=self._due)
        self._share(at, known, wants, left)

    def _share(self, at: int, known: Sequence[Want], wants: Mapping[str, tuple[Want, ...]], left: int) -> None:
        """Make a batch for the first of these and any others, and share out the rest."""
        if not known:
            self._component(at + 1, wants, left)
            return
        if left - 1 < self._rest(at + 1):
            self._cut = True
            return
        for chosen, others in self._with_first(known):
            self._clashes.try_one()
            mark = self._bounds.mark()
            group = self._groups.make(self._order[at], chosen)
            if group is not None:
                self._made.append(group)
                if self._could_be_fresher(at, others, wants, left - 1):
                    further = dict(wants)
                    for want in self._groups.wants_of(group):
                        further[want.component] = (*further.get(want.component, ()), want)
                    self._share(at, others, further, left - 1)
                self._made.pop()
            self._bounds.back(mark)

    def _could_be_fresher(
        self, at: int, others: Sequence[Want], wants: Mapping[str, tuple[Want, ...]], left: int
    ) -> bool:
        """Return whether what is made, and the rest ready as late as it is wanted, is fresher than the best known."""
        ready = ready_of(self._made, self._bounds.latest)
        if ready <= self._above and not left:
            return False
        highest, spare = 0, left
        if others:
            ready += self._due(others[0])
            spare -= 1
            highest = max(self._due(want) for want in others)
        for id_ in self._order[at + 1 :]:
            number = self._least[id_]
            if number:
                ready += self._latest_due[id_] * number if self._users[id_] else self._latest_of(id_, number)
                highest = max(highest, self._latest_due[id_])
                spare -= number
        return ready + max(0, spare) * highest > self._above

    def _latest_of(self, id_: str, number: int) -> int:
        dues = sorted(self._dues[id_])
        return dues[0] + sum(dues[len(dues) - number + 1 :]) if number > 1 else dues[0]

    def _due(self, want: Want) -> int:
        if want.demand is not None:
            return want.demand.due
        starts = want.user.of_stage(want.stage) if want.user is not None else ()
        return min(self._bounds.latest[start] for start in starts)

    def _rest(self, at: int) -> int:
        return sum(self._least[id_] for id_ in self._order[at:])

    def _dues_of_all(self) -> dict[str, int]:
        """Return the latest moment at which each component could be wanted."""
        found: dict[str, int] = {}
        for id_ in self._order:
            found[id_] = max([*self._dues[id_], *(found[user] for user in self._users[id_])], default=0)
        return found

    def _fewest(self, id_: str) -> int:
        """Return the fewest batches for what plates take of a component, had it the kitchen to itself."""
        wants = tuple(self._plated.get(id_, ()))
        if not wants:
            return int(bool(self._users[id_]))
        return self._fewest_of(id_, wants, {})

    def _fewest_of(self, id_: str, wants: tuple[Want, ...], known: dict[tuple[Want, ...], int]) -> int:
        if not wants:
            return 0
        if wants not in known:
            known[wants] = len(wants)
            for chosen, others in self._with_first(wants):
                if self._may_be_one(id_, tuple(chosen)):
                    known[wants] = min(known[wants], 1 + self._fewest_of(id_, tuple(others), known))
        return known[wants]

    def _may_be_one(self, id_: str, wants: tuple[Want, ...]) -> bool:
        if wants not in self._can:
            self._clashes.try_one()
            mark = self._bounds.mark()
            self._can[wants] = self._groups.make(id_, wants) is not None
            self._bounds.back(mark)
        return self._can[wants]

    def _with_first(self, wants: Sequence[Want]) -> Iterator[tuple[list[Want], list[Want]]]:
        """Yield every choice of the first with others that it may be made with, the largest first, and what is left."""
        first, due, not_before = wants[0], self._due(wants[0]), self._groups.not_before(wants[0])
        may = [want for want in wants[1:] if self._groups.not_before(want) <= due and not_before <= self._due(want)]
        if len(may) >= MOST_DEMANDS:
            raise TooManyError
        for mask in range((1 << len(may)) - 1, -1, -1):
            chosen = {want for at, want in enumerate(may) if mask >> at & 1}
            yield [first, *(want for want in may if want in chosen)], [want for want in wants[1:] if want not in chosen]


def _all_users(groups: Groups, order: Sequence[str], plated: Mapping[str, Sequence[Want]]) -> dict[str, set[str]]:
    """Return for each component those made from it that are made at all."""
    users: dict[str, set[str]] = {id_: set() for id_ in order}
    for id_ in order:
        if plated.get(id_) or users[id_]:
            for part in groups.parts_of(id_):
                users[part].add(id_)
    return users
