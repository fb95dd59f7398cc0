"""The base batch: a component as its spec has it, for the column that never changes. Knows no night."""

from __future__ import annotations

from linebook.compute.batches import compute_batch
from linebook.compute.results import Batch
from linebook.model.house import House
from linebook.source.remembered import remembered


@remembered
def base_batch(house: House, component_id: str) -> Batch:
    """Return the spec's own batch, split into loads where even that is above the largest batch."""
    return compute_batch(house, component_id)
