"""The file a plan is saved in, and read again for ``--since``: JSON text."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Final, NoReturn

from linebook.cli.options import stop_on_faults
from linebook.source.codes import fault

if TYPE_CHECKING:
    from linebook.compute.plan_record import PlanRecord
    from linebook.compute.plan_results import PrepPlan

_MOST_BYTES: Final = 50_000_000
"""Of a saved plan: a year of a large house is a tenth of it."""


def saved_text(plan: PrepPlan) -> str:
    """Return what is saved of a plan."""
    from linebook.compute.plan_record import record_of, to_plain

    return json.dumps(to_plain(record_of(plan)), separators=(",", ":")) + "\n"


def read_saved(path: Path) -> PlanRecord:
    """Return a saved plan; stops with the fault LB625 where the file is none."""
    from linebook.compute.plan_record import from_plain

    try:
        if path.stat().st_size > _MOST_BYTES:
            _refuse(path, "is larger than any plan")
        value = json.loads(path.read_text(encoding="utf-8"))
    except OSError as mistake:
        _refuse(path, f"cannot be read: {(mistake.strerror or 'unreadable').lower()}")
    except (ValueError, RecursionError):
        _refuse(path, "is no plan that was saved")
    record = from_plain(value)
    if record is None:
        _refuse(path, "is no plan that was saved")
    return record


def _refuse(path: Path, why: str) -> NoReturn:
    hint = "give the `plan-DATE.json` that `linebook plan` wrote beside the sheets"
    stop_on_faults([fault("LB625", f"`{path}` {why}", None, hints=(hint,))])
    raise SystemExit(1)
