"""A ready parser of the grammar, kept between runs, since building it takes long.

Lark keeps its tables by pickling, and whoever writes the pickle can run code; so they are kept
in the person's own cache folder, never in a journal, which may come from somebody else.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

import lark

from backbud_grammar.cache_folder import cache_folder, is_mine
from backbud_grammar.digest import digest

STARTS = ["subjects", "detail"]


def load_parser() -> lark.Lark:
    """Return the parser of journal.lark, from the cache folder where it can be trusted."""
    grammar = files("backbud_grammar").joinpath("journal.lark").read_bytes()
    mark = f"{lark.__version__} {sys.version} {STARTS}".encode()
    name = f"grammar-{digest(grammar, mark).hex()}"
    folder = cache_folder()
    kept = folder / name if folder else None
    if kept is not None and is_mine(kept) and kept.is_file():
        try:
            with kept.open("rb") as file:
                return lark.Lark.load(file)
        except Exception:
            # A torn or foreign file is no reason to stop: the tables are built again.
            pass
    parser = build_parser(grammar.decode())
    if kept is not None:
        _keep(parser, kept)
    return parser


def build_parser(grammar: str, starts: Sequence[str] = STARTS) -> lark.Lark:
    """Build the parser from the grammar's text, for these start symbols."""
    return lark.Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=list(starts),
        maybe_placeholders=False,
        propagate_positions=False,
    )


def _keep(parser: lark.Lark, path: Path) -> None:
    waiting = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        with waiting.open("wb") as file:
            parser.save(file)
        waiting.replace(path)
    except OSError:
        waiting.unlink(missing_ok=True)
