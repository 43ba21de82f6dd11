"""No module of the program needs itself, by whatever way round."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter

import grimp

# Parted when publishing is rebuilt: the memory is written as the output is, and read by it.
BEING_MENDED = {("backbud.publish.commit", "backbud.publish.memory")}


def test_no_circle_of_imports() -> None:
    """Imports inside functions count too; those for the type checker alone do not."""
    graph = grimp.build_graph(
        "backbud", "backbud_grammar", "backbud_species", exclude_type_checking_imports=True
    )
    needs = {
        module: {
            other
            for other in graph.find_modules_directly_imported_by(module)
            if (module, other) not in BEING_MENDED
        }
        for module in graph.modules
    }
    assert len(needs) > 400
    try:
        TopologicalSorter(needs).prepare()
    except CycleError as error:
        raise AssertionError(" -> ".join(reversed(error.args[1]))) from None
