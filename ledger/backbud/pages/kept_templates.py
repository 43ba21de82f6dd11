"""Keeps compiled templates between runs, since compiling them takes longer than filling many.

What is kept is code, so it lies in the person's own cache folder, never in a journal, which may
come from somebody else.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from backbud_grammar.cache_folder import keep_in_cache, recalled_from_cache
from backbud_grammar.digest import digest

if TYPE_CHECKING:
    from jinja2 import BytecodeCache
    from jinja2.bccache import Bucket

_DIGEST_BYTES = 16


def kept_templates(language: str, sources: Iterable[Path]) -> BytecodeCache:
    """Where jinja2 keeps the templates of a language: a file for each in the person's cache folder.
    One that is foreign, torn or out of date is made again.

    `sources`: beside the templates, the files that decide what they are compiled to.
    """
    import jinja2

    versions = f"{jinja2.__version__} {sys.version} {language}".encode()
    made_by = digest(versions, *(path.read_bytes() for path in sources))

    class KeptTemplates(jinja2.BytecodeCache):
        def load_bytecode(self, bucket: Bucket) -> None:
            found = recalled_from_cache(_name(language, bucket), lambda file: file.read()) or b""
            mark, code = found[:_DIGEST_BYTES], found[_DIGEST_BYTES:]
            if code and mark == _mark(made_by, bucket, code):
                bucket.bytecode_from_string(code)

        def dump_bytecode(self, bucket: Bucket) -> None:
            code = bucket.bytecode_to_string()
            whole = _mark(made_by, bucket, code) + code
            keep_in_cache(_name(language, bucket), lambda file: file.write(whole))

    return KeptTemplates()


def _name(language: str, bucket: Bucket) -> str:
    return f"page-{language}-{bucket.key}"


def _mark(made_by: bytes, bucket: Bucket, code: bytes) -> bytes:
    """What a file begins with that holds this code, made from that source."""
    return digest(made_by, bucket.checksum.encode(), code)
