"""A cutting plan with its drawing. Owns how the two go together, and not how either is made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linebook.compute.base import base_batch
from linebook.compute.results import Night
from linebook.documents.cutting_plan import FIGURE, CuttingPlan, binder_cutting_plan, night_cutting_plan
from linebook.documents.wording import Wording
from linebook.figures.cutting import draw_cutting
from linebook.figures.shapes import Drawing
from linebook.model.cutting import cut_plan
from linebook.model.house import House


def cutting_view(
    house: House, component: str, menu: str, nights: Sequence[Night], night: Night | None, wording: Wording
) -> tuple[CuttingPlan, Mapping[str, Drawing]]:
    """Return the cutting plan of a component that is cut and its drawing, for standard nights or for one ``night``."""
    cut = house.components[component].cut
    assert cut is not None
    if night is not None:
        view = night_cutting_plan(house, night, component, wording)
    else:
        view = binder_cutting_plan(house, base_batch(house, component), nights, menu, wording)
    return view, {FIGURE: draw_cutting(cut_plan(cut), alternative=view.figure.alternative.plain)}
