"""A ready parser of the grammar, kept between runs, since building it takes long.

Lark keeps its tables by pickling, and whoever writes the pickle can run code; so they are kept
in the person's own cache folder, never in a journal, which may come from somebody else.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

import lark

from backbud_grammar.digest import digest

STARTS = ["subjects", "detail"]


def load_parser() -> lark.Lark:
    """Return the parser of journal.lark, from the cache folder where it can be trusted."""
    grammar = files("backbud_grammar").joinpath("journal.lark").read_bytes()
    mark = f"{lark.__version__} {sys.version} {STARTS}".encode()
    name = f"grammar-{digest(grammar, mark).hex()}"
    folder = cache_folder()
    kept = folder / name if folder else None
    if kept is not None and _mine(kept) and kept.is_file():
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


def cache_folder() -> Path | None:
    """Return the person's own cache folder for backbud, made if need be, or None.

    A path that is not absolute is left out, as the XDG base directories have it; it would lead into
    whatever folder a command is given in. So is one that lies in a journal.
    """
    named = (os.environ.get(name, "") for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"))
    base = next(filter(os.path.isabs, named), None)
    try:
        folder = (Path(base) if base else Path.home() / ".cache").joinpath("backbud")
        if not folder.is_absolute() or _in_a_journal(folder.resolve()):
            return None
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except (OSError, RuntimeError):
        return None
    return folder if _mine(folder) else None


def _in_a_journal(folder: Path) -> bool:
    return any(os.path.lexists(above / "backbud.toml") for above in (folder, *folder.parents))


def _mine(path: Path) -> bool:
    """Whether the path is this person's own and nobody else may write it."""
    try:
        found = path.lstat()
    except OSError:
        return False
    if stat.S_ISLNK(found.st_mode):
        return False
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _keep(parser: lark.Lark, path: Path) -> None:
    waiting = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        with waiting.open("wb") as file:
            parser.save(file)
        waiting.replace(path)
    except OSError:
        waiting.unlink(missing_ok=True)
