"""Parsed records in, a checked house out: runs every check over the whole house, so that one run tells everything.

It must not read files nor print. A check is a plain function over the index.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from linebook.check.absent import check_absent, check_weightless_bases
from linebook.check.alternatives import check_alternatives, check_nothing_left
from linebook.check.balance import check_balance
from linebook.check.batch_sizes import check_batch_sizes
from linebook.check.braces import check_bare_amounts, check_brace_parts
from linebook.check.ceilings import check_ceilings, check_ceilings_named
from linebook.check.cooling import check_cooling, check_limits
from linebook.check.cuts import check_cuts
from linebook.check.cycles import check_cycles
from linebook.check.date_marking import check_date_marks, check_older_parts
from linebook.check.dates import check_menu_dates, check_seasons
from linebook.check.declarations import (
    check_contradictions,
    check_exemptions,
    check_substances,
    check_undeclared,
)
from linebook.check.foods import check_foods
from linebook.check.held_back import check_held_back
from linebook.check.identities import check_duplicate_ids, check_listed_twice, check_own_items
from linebook.check.index import Check, Index, build_index
from linebook.check.label_sheets import check_label_sheets
from linebook.check.loads import check_loads
from linebook.check.origins import check_origins, check_raw
from linebook.check.parasites import check_raw_fish
from linebook.check.percents import check_percent_circles
from linebook.check.pick_up import check_pick_up
from linebook.check.pieces import check_pieces
from linebook.check.plates import check_on_the_plate, check_plate_named, check_stacking
from linebook.check.reduced_oxygen import check_reduced_oxygen
from linebook.check.references import (
    check_carried,
    check_courses,
    check_items,
    check_lines,
    check_media,
    check_menu_dishes,
    check_plates,
    check_vessels_and_places,
)
from linebook.check.shares import check_mixes, check_shares
from linebook.check.solvents import check_solvents
from linebook.check.stage_most import check_stage_most
from linebook.check.stages import check_dish_headings, check_points, check_stage_names, check_stages
from linebook.check.stock_entries import check_menu_stock
from linebook.check.substitutes import check_substitute_amounts, check_substitute_circles, check_substitutes
from linebook.check.suppliers import check_bought_units, check_suppliers
from linebook.check.tastings import check_tastings
from linebook.check.units import check_units
from linebook.check.unnamed_limits import check_unnamed_limits
from linebook.check.unused import check_unlisted_dishes, check_unused_components
from linebook.check.vessels import check_vessels
from linebook.check.whole import whole_house
from linebook.check.yield_tests import check_yield_tests
from linebook.model.house import House, ParsedHouse
from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.frozen import frozen

CHECKS: Final[tuple[Check, ...]] = (
    check_duplicate_ids,
    check_own_items,
    check_listed_twice,
    check_items,
    check_carried,
    check_lines,
    check_plates,
    check_vessels_and_places,
    check_media,
    check_menu_dishes,
    check_courses,
    check_cycles,
    check_absent,
    check_weightless_bases,
    check_percent_circles,
    check_units,
    check_solvents,
    check_ceilings,
    check_ceilings_named,
    check_pieces,
    check_cuts,
    check_yield_tests,
    check_balance,
    check_brace_parts,
    check_bare_amounts,
    check_foods,
    check_stages,
    check_stage_names,
    check_dish_headings,
    check_points,
    check_cooling,
    check_limits,
    check_date_marks,
    check_older_parts,
    check_reduced_oxygen,
    check_unnamed_limits,
    check_raw_fish,
    check_vessels,
    check_stage_most,
    check_loads,
    check_label_sheets,
    check_batch_sizes,
    check_held_back,
    check_menu_dates,
    check_seasons,
    check_tastings,
    check_stacking,
    check_plate_named,
    check_on_the_plate,
    check_pick_up,
    check_shares,
    check_mixes,
    check_undeclared,
    check_substances,
    check_contradictions,
    check_exemptions,
    check_alternatives,
    check_nothing_left,
    check_origins,
    check_raw,
    check_substitutes,
    check_substitute_circles,
    check_substitute_amounts,
    check_menu_stock,
    check_suppliers,
    check_bought_units,
    check_unused_components,
    check_unlisted_dishes,
)
"""Every check, in the order of its family. None depends on another having run."""

_LAST: Final = frozenset(
    {
        check_foods,
        check_vessels,
        check_bare_amounts,
        check_brace_parts,
        check_balance,
        check_limits,
        check_older_parts,
        check_cooling,
        check_unnamed_limits,
        check_on_the_plate,
        check_bought_units,
    }
)
"""What takes longest to look at and can be wrong in a house whose answers can be worked out all the same."""

Looked: TypeAlias = Mapping[Check, tuple[Fault, ...]]
"""What each check has found."""


@frozen
class Checking:
    """A house whose rules are still to be looked at.

    ``house`` is what it is where they find nothing wrong with it; None where reading has lost a record or a part of
    one.
    """

    index: Index
    house: House | None

    def look_first(self) -> Looked:
        """Return what the checks find without which no answer can be worked out: those that are soon done."""
        return {check: tuple(check(self.index)) for check in CHECKS if check not in _LAST}

    def finish(self, looked: Looked = MappingProxyType({})) -> Outcome[House]:
        """Return the house where nothing is wrong with it, None where there is an error, and every fault there is.

        ``looked`` is what was found by ``look_first``, where that was asked.
        """
        index, parsed = self.index, self.index.parsed
        found_by = {check: looked[check] if check in looked else tuple(check(index)) for check in CHECKS}
        faults = tuple(found for each in found_by.values() for found in each)
        if parsed.translations or parsed.words:
            faults += _translation_faults(index, faults)
        sound = not any(found.severity is Severity.ERROR for found in faults)
        return Outcome(value=self.house if sound else None, faults=faults)


def begin_check(parsed: ParsedHouse) -> Checking:
    """Return a house as far as it is one without any rule having been looked at."""
    index = build_index(parsed)
    return Checking(index=index, house=whole_house(index))


def check_house(parsed: ParsedHouse) -> Outcome[House]:
    """Return the house where nothing is wrong with it, and every fault there is.

    The value is None where there is an error, and where reading has lost a record or a part of one.
    """
    return begin_check(parsed).finish()


def _translation_faults(index: Index, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Return the faults of the translations; these alone look at what else was found."""
    from linebook.check.translations import check_translations  # here, because most houses have none

    at_fault = index.parsed.at_fault | {found.span.source.path for found in faults if found.span is not None}
    has_errors = any(found.severity is Severity.ERROR for found in faults)
    return tuple(check_translations(index, at_fault, has_errors=has_errors))
