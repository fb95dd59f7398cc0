"""Ways round in a graph, compared with networkx, which is not used by the tool."""

import networkx
from hypothesis import given
from hypothesis import strategies as st

from linebook.check.circles import find_circles

WORDS = "abcdefg"
GRAPHS = st.dictionaries(st.sampled_from(WORDS), st.lists(st.sampled_from(WORDS), max_size=4), max_size=7)


@given(GRAPHS)
def test_found_where_the_graph_has_one_and_only_there(graph):
    oracle = networkx.DiGraph([(word, to) for word, onward in graph.items() for to in onward])
    circles = list(find_circles(graph))
    assert bool(circles) == (not networkx.is_directed_acyclic_graph(oracle))
    for path in circles:
        steps = list(zip(path, (*path[1:], path[0]), strict=True))
        assert all(oracle.has_edge(*step) for step in steps)
        assert len(set(path)) == len(path)


@given(GRAPHS)
def test_no_step_is_told_twice(graph):
    steps = [step for path in find_circles(graph) for step in zip(path, (*path[1:], path[0]), strict=True)]
    assert len(steps) == len(set(steps))


@given(GRAPHS)
def test_without_the_told_steps_what_is_left_is_told_next(graph):
    left = {word: list(onward) for word, onward in graph.items()}
    for _ in range(40):
        circles = list(find_circles(left))
        if not circles:
            break
        for path in circles:
            for start, to in zip(path, (*path[1:], path[0]), strict=True):
                left[start] = [other for other in left[start] if other != to]
    oracle = networkx.DiGraph([(word, to) for word, onward in left.items() for to in onward])
    assert networkx.is_directed_acyclic_graph(oracle)


def test_a_deep_chain_does_not_end_the_search():
    chain = {str(n): [str(n + 1)] for n in range(5000)}
    assert list(find_circles(chain)) == []
    assert len(next(find_circles({**chain, "5000": ["0"]}))) == 5001
