"""Everything that a journal's own plugins add to it, where the person trusts them.

The steps, in order:
    read     the files of plugins/, once (consent/files.py)
    trust    whether the person consented to these very bytes (consent/record.py)
    run      each file, in its own package (sources.py), for so long at most (budget.py)
    gather   acts, rules, facts, sections and species, each looked at (gather.py, sound.py)

A journal without plugins/ costs one look, and nothing more is imported.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping

from backbud.consent.place import PLUGINS
from backbud.plugins.added import NO_PLUGINS, Plugins

# A process that compiles a journal again and again runs a set once.
_ran: dict[tuple[str, str], Plugins] = {}


def plugins_of(journal: str, common_ids: Callable[[], frozenset[str]]) -> Plugins:
    """What the plugins of a journal add: those of a trusted set, else nothing.

    `common_ids`: the ids of the rules that hold for every tree already; asked where code runs.
    """
    if not os.path.lexists(os.path.join(journal, PLUGINS)):
        return NO_PLUGINS
    from backbud.consent.files import read_plugins
    from backbud.consent.record import trusted_files

    found = read_plugins(journal)
    if not found.files:
        return Plugins(flaws=found.flaws)
    trusted = trusted_files(journal)
    if trusted != found.files:
        return Plugins(left_out=_left_out(journal, found.files, trusted), flaws=found.flaws)
    key = (journal, found.digest)
    if key not in _ran:
        from backbud.plugins.gather import gathered_plugins

        _ran[key] = gathered_plugins(journal, found, common_ids())
    return _ran[key]


def _left_out(journal: str, files: Mapping[str, bytes], trusted: Mapping[str, bytes] | None) -> str:
    """One line on what does not run, and how to look at it."""
    from backbud.words import number

    if trusted is None:
        what = f"{number(len(files), 'plugin file')} in {PLUGINS}/, which you have not trusted"
    else:
        changed = [
            name for name in sorted({*files, *trusted}) if files.get(name) != trusted.get(name)
        ]
        more = f" and {len(changed) - 1} more" if len(changed) > 1 else ""
        what = f"{PLUGINS}/, changed since you trusted it: {changed[0]}{more}"
    return f"Left out: {what}. Look at it: backbud trust {journal}"
