"""Moves aside what does not bear the person's mark, so that `make --take-over` can begin anew.

Nothing is deleted and nothing overwritten: it stands in `made-aside/`, in a new folder each time.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator

from backbud.person import known_key_for
from backbud.publish import ASIDE, COMMITMENT, MADE, MANIFEST, MEMORY, STAGED
from backbud.publish.commit import finish
from backbud.publish.lock import lock
from backbud.publish.manifest import PURPOSE, read_manifest
from backbud.publish.plain import is_link, read_plain
from backbud.publish.refused import ForeignError, PublishError


def take_over(journal: str, made: str = MADE) -> list[str]:
    """Move aside what does not bear the person's mark: a commitment, staged files, the output.

    `made`: the folder of the output, as a relative path. Returns a sentence for each thing moved.
    PublishError where the system refuses; what was moved until then stays where it is now.
    """
    told: list[str] = []
    with lock(journal):
        try:
            for name in _foreign(journal, made):
                target = _new_folder(journal)
                os.rename(os.path.join(journal, name), os.path.join(journal, target))
                told.append(f"{name} did not bear your mark. It is in {target} now, as it was.")
        except OSError as error:
            raise PublishError(f"Could not move it aside: {error.strerror or error}.") from error
    return told


def _foreign(journal: str, made: str) -> Iterator[str]:
    try:
        finish(journal)
    except ForeignError:
        for name in (f"{MEMORY}/{COMMITMENT}", f"{MEMORY}/{STAGED}"):
            if os.path.lexists(os.path.join(journal, name)):
                yield name
    if _is_foreign(journal, made):
        yield made


def _is_foreign(journal: str, made: str) -> bool:
    try:
        found = os.lstat(os.path.join(journal, made))
    except FileNotFoundError:
        return False
    if is_link(found) or not stat.S_ISDIR(found.st_mode):
        return True
    name = f"{made}/{MANIFEST}"
    if not os.path.lexists(os.path.join(journal, name)):
        return False  # nobody's list says that anything in it is ours: none of it is touched
    data = read_plain(journal, name)
    key = known_key_for(PURPOSE, journal)
    return data is None or not key or read_manifest(key, made, data) is None


def _new_folder(journal: str) -> str:
    """A path below `made-aside/` where there is nothing yet."""
    folder = os.path.join(journal, ASIDE)
    os.makedirs(folder, exist_ok=True)
    if is_link(os.lstat(folder)):
        raise PublishError(f"{ASIDE} is a link. Remove the link.")
    taken = {name.casefold() for name in os.listdir(folder)}
    number = next(n for n in range(1, len(taken) + 2) if str(n) not in taken)
    return f"{ASIDE}/{number}"
