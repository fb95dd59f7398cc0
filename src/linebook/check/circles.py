"""Ways round in a graph of words: owns the search, knows nothing of what the words stand for."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence


def find_circles(graph: Mapping[str, Sequence[str]]) -> Iterator[tuple[str, ...]]:
    """Yield ways round, each the shortest from its first word and without that word again at the end.

    A way that shares a step with one already found is left out: mending that step mends both.
    """
    kept = _without_ends(graph)
    found: set[tuple[str, str]] = set()
    for start in kept:
        path = _shortest(kept, start)
        steps = set(zip(path, (*path[1:], start), strict=False))
        if path and found.isdisjoint(steps):
            found |= steps
            yield path


def _without_ends(graph: Mapping[str, Sequence[str]]) -> Mapping[str, Sequence[str]]:
    """Return the graph without the words that lead nowhere: where there is no way round nothing is left."""
    while True:
        kept = {word: [to for to in onward if to in graph] for word, onward in graph.items()}
        kept = {word: onward for word, onward in kept.items() if onward}
        if len(kept) == len(graph):
            return kept
        graph = kept


def _shortest(graph: Mapping[str, Sequence[str]], start: str) -> tuple[str, ...]:
    came: dict[str, str | None] = {start: None}
    queue = deque([start])
    while queue:
        at = queue.popleft()
        for onward in graph[at]:
            if onward == start:
                return _way_from(came, at)
            if onward not in came and onward in graph:
                came[onward] = at
                queue.append(onward)
    return ()


def _way_from(came: Mapping[str, str | None], at: str) -> tuple[str, ...]:
    path = []
    step: str | None = at
    while step is not None:
        path.append(step)
        step = came[step]
    return tuple(path[::-1])
