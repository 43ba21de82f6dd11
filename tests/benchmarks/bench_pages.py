"""A journal goes in; at what share of jinja2's own rate its tree pages are made comes out.

Not part of the suite: `pytest tests/benchmarks/bench_pages.py -s` (ACTS=20000 for 200 trees). The
run is that of `make` in one process, up to its last tree: a part of the trees is planned, then the
pages of some of them are made, from each tree and its plan. Then jinja2 renders the same templates
from the very data that the pages of these trees were laid out as. Only these two are timed, both in
this process's own time, in turn, so that a busy machine slows both.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Iterable, Iterator
from datetime import date
from functools import cache
from itertools import islice
from pathlib import Path
from time import process_time

import pytest
from generate import generate
from jinja2 import Environment, Template

from backbud import in_parts
from backbud.collection.state import Tree
from backbud.compiled import compiling
from backbud.pages.render import shared_by_pages
from backbud.pages.templating import template
from backbud.pages.tree_page import (
    AT_ONCE,
    pages_of_each,
    templates_of,
    tree_page_of,
    trees_data,
)
from backbud.session import open_session
from backbud.views.narrow import only_tree
from backbud.views.nursery import Nursery

ACTS = int(os.environ.get("ACTS", "100000"))
TODAY = date(2026, 11, 20)
LEAST_SHARE = 0.5


@cache
def _plain(name: str) -> Template:
    """A template as jinja2 itself compiles it, with our filters."""
    ours = template(name).environment
    plain = Environment(
        loader=ours.loader,
        autoescape=True,
        undefined=ours.undefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    plain.filters |= ours.filters
    plain.globals |= ours.globals
    return plain.get_template(name)


class _Timed:
    """Makes the pages of trees in the place of `make`, and holds each against jinja2 alone."""

    def __init__(self) -> None:
        self.ours = self.jinjas = 0.0
        self.trees = self.pages = self.size = 0

    def pages_of_trees(self, view: Nursery, trees: Iterable[Tree]) -> Iterator[tuple[str, bytes]]:
        shared = shared_by_pages(view)
        each = (only_tree(view, tree) for tree in trees)
        while some := list(islice(each, AT_ONCE)):
            if not self.trees:
                # The templates are read by the first page, whoever renders it.
                tree_page_of(some[0], shared)
                for _, name, _ in (one for own in trees_data(some) for one in templates_of(own)):
                    _plain(name)
            began = process_time()
            made = list(pages_of_each(some, shared))
            self.ours += process_time() - began
            data = [one for own in trees_data(some) for one in templates_of(own)]
            shown = [(name, shared | own) for _, name, own in data]
            began = process_time()
            texts = [_plain(name).render(own) for name, own in shown]
            self.jinjas += process_time() - began
            assert [text.encode() for text in texts] == [content for _, content in made]
            self.trees += len(some)
            self.pages += len(made)
            self.size += sum(len(content) for _, content in made)
            yield from made


def test_tree_pages_beside_jinja_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    generate(tmp_path, ACTS)
    timed = _Timed()
    monkeypatch.setattr(in_parts, "pages_of_trees", timed.pages_of_trees)
    # A copy of this process would keep its times to itself.
    monkeypatch.setattr(in_parts, "MANY_TREES", ACTS)
    # As in every command.
    gc.disable()
    session = open_session(str(tmp_path), TODAY)
    count = len(session.histories.trees)
    for _ in compiling(session):
        if timed.trees == count:
            break
    share = timed.jinjas / timed.ours
    print(
        f"\n{timed.pages} pages of {count} trees, {timed.size / timed.pages / 1000:.0f} kB each:"
        f" {timed.pages / timed.ours:.0f} a second, jinja2 alone {timed.pages / timed.jinjas:.0f}:"
        f" {share:.2f} of its rate (at least {LEAST_SHARE})"
    )
    assert timed.trees == count
    assert share >= LEAST_SHARE
