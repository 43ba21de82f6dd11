"""A ready parser of the grammar, kept between runs, since building it takes long.

Lark keeps its tables by pickling, and whoever writes the pickle can run code; so they are kept
in the person's own cache folder, never in a journal, which may come from somebody else.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.resources import files

import lark

from backbud_grammar.cache_folder import keep_in_cache, recalled_from_cache
from backbud_grammar.digest import digest

STARTS = ["subjects", "detail"]


def load_parser() -> lark.Lark:
    """Return the parser of journal.lark, from the cache folder where it can be trusted."""
    grammar = files("backbud_grammar").joinpath("journal.lark").read_bytes()
    mark = f"{lark.__version__} {sys.version} {STARTS}".encode()
    name = f"grammar-{digest(grammar, mark).hex()}"
    parser: lark.Lark | None = recalled_from_cache(name, lark.Lark.load)
    if parser is None:
        parser = build_parser(grammar.decode())
        keep_in_cache(name, parser.save)
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
