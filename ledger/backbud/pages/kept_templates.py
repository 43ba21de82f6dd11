"""Keeps compiled templates between runs, since compiling them takes longer than filling many.

What is kept is code, so it lies in the person's own cache folder, never in a journal, which may
come from somebody else.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from backbud_grammar.cache_folder import cache_folder, is_mine
from backbud_grammar.digest import digest

if TYPE_CHECKING:
    from jinja2 import BytecodeCache
    from jinja2.bccache import Bucket

_DIGEST_BYTES = 16


def kept_templates(language: str, sources: Iterable[Path]) -> BytecodeCache | None:
    """Where jinja2 keeps the templates of a language; None where nothing can be kept.

    `sources`: beside the templates, the files that decide what they are compiled to.
    """
    folder = cache_folder()
    if folder is None:
        return None
    from jinja2 import __version__

    versions = f"{__version__} {sys.version} {language}".encode()
    made_by = digest(versions, *(path.read_bytes() for path in sources))
    return _keeping(folder / f"page-{language}", made_by)


def _keeping(start: Path, made_by: bytes) -> BytecodeCache:
    """A file for each template, whose path begins so; one that is foreign, torn or out of date is
    made again."""
    from jinja2 import BytecodeCache

    class KeptTemplates(BytecodeCache):
        def load_bytecode(self, bucket: Bucket) -> None:
            path = start.with_name(f"{start.name}-{bucket.key}")
            try:
                found = path.read_bytes() if is_mine(path) and path.is_file() else b""
            except OSError:
                return
            mark, code = found[:_DIGEST_BYTES], found[_DIGEST_BYTES:]
            if code and mark == _mark(made_by, bucket.checksum, code):
                bucket.bytecode_from_string(code)

        def dump_bytecode(self, bucket: Bucket) -> None:
            path = start.with_name(f"{start.name}-{bucket.key}")
            waiting = path.with_name(f"{path.name}.{os.getpid()}")
            code = bucket.bytecode_to_string()
            try:
                waiting.write_bytes(_mark(made_by, bucket.checksum, code) + code)
                waiting.replace(path)
            except OSError:
                waiting.unlink(missing_ok=True)

    return KeptTemplates()


def _mark(made_by: bytes, source: str, code: bytes) -> bytes:
    """What a file begins with that holds this code, made from that source."""
    return digest(made_by, source.encode(), code)
