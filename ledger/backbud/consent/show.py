"""How a journal's code is shown to the person, and what changed in it since it was trusted.

Every sign that a terminal would not show as itself is written out, so that nothing can hide; and
the text shown is the text that would run.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import unified_diff

from backbud.consent.files import PluginFiles, text_of
from backbud.words import number
from backbud_grammar.shown import shown

CONSENT = (
    "Trusted code runs as you, each time this journal is compiled. It can do anything that you "
    "can do: read, change and delete your files, and use the network. Trust is consent, it is no "
    "cage. Trust only what you have read and understood, or who wrote it."
)


def set_lines(found: PluginFiles, trusted: Mapping[str, bytes] | None) -> Iterator[str]:
    """Every file of the set, what changed since it was trusted, and what is left out."""
    for name, data in found.files.items():
        lines = shown_lines(data)
        yield f"{shown(name)}  ({number(len(lines), 'line')})"
        wide = len(str(len(lines)))
        for at, line in enumerate(lines, 1):
            yield f"  {at:>{wide}}  {line}".rstrip()
        yield ""
    for name, flaw in found.flaws:
        yield f"{shown(name)}: {flaw.message}. {flaw.hint}"
    if trusted is not None and trusted != found.files:
        yield "What has changed since you trusted it:"
        yield ""
        yield from _changes(trusted, found.files)
        yield ""


def shown_lines(data: bytes) -> list[str]:
    """The lines of a file as they are shown; of one that is no UTF-8, which cannot run, its bytes
    written out."""
    try:
        text = text_of(data)
    except UnicodeDecodeError:
        text = data.decode("ascii", "backslashreplace")
    lines = text.split("\n")
    return [shown(line) for line in (lines[:-1] if lines[-1] == "" else lines)]


def _changes(before: Mapping[str, bytes], after: Mapping[str, bytes]) -> Iterator[str]:
    for name in sorted({*before, *after}):
        old, new = (shown_lines(files.get(name, b"")) for files in (before, after))
        if name not in after:
            yield f"{shown(name)} is gone."
        elif name not in before:
            yield f"{shown(name)} is new."
        if before.get(name) != after.get(name) and old == new:
            yield f"{shown(name)}: its line ends or its last line end are others."
        yield from unified_diff(
            old, new, f"{shown(name)} as trusted", f"{shown(name)} now", lineterm=""
        )
