"""A journal goes in; at what share of jinja2's own rate its tree pages are made comes out.

Not part of the suite: `pytest tests/benchmarks/bench_pages.py -s` (ACTS=20000 for 200 trees). Each
tree's page is made as `make` makes it, from the tree and its plan. Then jinja2 renders the same
template from the very data that this page was laid out as. Both of this process's own time, tree by
tree, so that a busy machine slows both.
"""

from __future__ import annotations

import gc
import os
from datetime import date
from pathlib import Path
from time import process_time

from generate import generate

from backbud.compiled import nursery_of
from backbud.pages.render import shared_by_pages
from backbud.pages.templating import template
from backbud.pages.tree_page import TEMPLATE, tree_data, tree_page_of
from backbud.session import open_session
from backbud.views.narrow import only_tree

ACTS = int(os.environ.get("ACTS", "100000"))
TODAY = date(2026, 11, 20)
LEAST_SHARE = 0.5


def test_tree_pages_beside_jinja_alone(tmp_path: Path) -> None:
    generate(tmp_path, ACTS)
    session = open_session(str(tmp_path), TODAY)
    view = nursery_of(session, session.plan())
    shared = shared_by_pages(view)
    # As in every command. The templates are read by the first page, whoever renders it.
    gc.disable()
    tree_page_of(only_tree(view, view.trees[0]), shared)
    ours = jinjas = 0.0
    size = 0
    for tree in view.trees:
        own = only_tree(view, tree)
        began = process_time()
        (_, content), *_ = tree_page_of(own, shared)
        made = process_time()
        data = shared | tree_data(own)
        ready = process_time()
        text = template(TEMPLATE).render(data)
        jinjas += process_time() - ready
        ours += made - began
        size += len(content)
        assert text.encode() == content
    count = len(view.trees)
    share = jinjas / ours
    print(
        f"\n{count} tree pages, {size / count / 1000:.0f} kB each: {count / ours:.0f} a second,"
        f" jinja2 alone {count / jinjas:.0f}: {share:.2f} of its rate (at least {LEAST_SHARE})"
    )
    assert share >= LEAST_SHARE
