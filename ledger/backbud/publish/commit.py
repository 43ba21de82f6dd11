"""A set of files comes in; `made/` then holds exactly that set, or after any failure the last one.

How it stays whole:
1. Files whose bytes differ are staged in `.backbud/staged/` and synced. Nothing else has changed.
2. A synced list of them and their digests is renamed to `.backbud/commitment`. From here on the new
   set counts.
3. The manifest names the old and the new files, so that whatever happens each has an owner.
4. Each staged file is renamed into `made/`, files of the old set that are gone are removed.
5. The manifest names the new files only; then the commitment is removed.
A run that dies before 2 leaves staged files, which `finish` throws away. One that dies after it
leaves the commitment, which `finish` carries out: a step already done is seen by its missing
staged file. If `.backbud/` is deleted half way, the manifest in `made/` still names all that is
ours, and the next `publish` compares bytes and writes what is missing.
The commitment, the staging folder and the manifest bear the person's mark (mark.py). What does not
came with the journal, from anybody: nothing of it is done, and nothing of it is removed.
"""

from __future__ import annotations

import errno
import os
import stat
import sys
import time
import unicodedata
from _thread import get_ident
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from functools import lru_cache
from typing import NamedTuple

from backbud.person import key_for
from backbud.publish import ASIDE, COMMITMENT, MADE, MADE_ON, MANIFEST, MEMORY, STAGED
from backbud.publish.manifest import PURPOSE, digest_of, read, written
from backbud.publish.mark import sealed
from backbud.publish.memory import PURPOSE as MEMORY_PURPOSE
from backbud.publish.memory import recall
from backbud.publish.plain import is_link, read_plain

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

LOCK = "lock"
LOCK_WAIT_SECONDS = 10.0
_LOCK_PAUSE_SECONDS = 0.05
_LOCKED_BYTE = 1 << 30  # far behind the text, which others may read while Windows locks this byte

# Windows refuses to replace or remove a file that a reader has open for a moment.
RETRY_PAUSES_SECONDS: tuple[float, ...] = (
    (0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8) if sys.platform == "win32" else ()
)

_STAGED_MARK = "mark"  # the first file to come into the staging folder, the last to go
_STILL_WHOLE = "The output of last time is still whole."
_TO_FINISH = "The output is half way: the next command finishes it."

_held: set[tuple[str, int, int]] = set()  # the journal, the process and its thread


class PublishError(Exception):
    """The output could not be published; the message is for the person at the bench."""


class BusyError(PublishError):
    """Another run holds the journal's lock."""


class ForeignError(PublishError):
    """Something in the journal would have to be acted on and does not bear the person's mark."""

    def __init__(self, name: str, outcome: str) -> None:
        super().__init__(
            f"{name} does not bear your mark: it came with the journal, or an older backbud made"
            f" it. {outcome} To move it to {ASIDE} and make all anew: backbud make --take-over"
        )


class Published(NamedTuple):
    """What one publishing did: relative paths written and removed, and how many stayed as is."""

    written: tuple[str, ...]
    removed: tuple[str, ...]
    kept: int


class Seen(NamedTuple):
    """A file of the output as it was last seen, and what it held then."""

    size: int
    modified_ns: int
    changed_ns: int
    number: int
    content: bytes
    digest: str


# What was written so shortly before it was seen may be written over with nothing to tell by.
_TOO_NEW_NS = 2_000_000_000


class _Move(NamedTuple):
    staged: str  # file name in the staging folder
    digest: str
    name: str  # relative path in the folder of the output; of a manifest its own name
    is_new: bool  # the old manifest does not name it


class _Commitment(NamedTuple):
    made: str  # the folder of the output, as a relative path in the journal
    coming: _Move  # staged manifest that names the old and the new files
    final: _Move  # staged manifest that names the new files
    moves: tuple[_Move, ...]
    gone: tuple[str, ...]


def publish(
    journal: str,
    files: Mapping[str, bytes],
    seen: dict[str, Seen] | None = None,
    made: str = MADE,
) -> Published:
    """Make `made/` of the journal's folder hold exactly `files` (relative POSIX path to bytes).

    Files that no earlier publishing wrote stay untouched. `seen`: by relative path the files that
    this process has seen, so that those which nobody has touched since need not be read again; who
    publishes again and again hands the same one over each time. `made`: another folder of the
    journal for it, as a relative path. Raises PublishError if a name cannot be used, if something
    that is not ours is in the way, if the folder or one in it is a link, if another run holds the
    lock, or if the system refuses; the message says in what state the output is left. ForeignError
    if what is there bears a list of files that this person's backbud did not write.
    """
    _check_names(tuple(files))
    seen = {} if seen is None else seen
    with lock(journal):
        finish(journal)
        with _in_words(journal, _STILL_WHOLE):
            key = key_for(PURPOSE, journal)
            folder = _made_folder(journal, made)
            old_digests = _old_digests(journal, made, key)
            old = frozenset(old_digests)
            gone = sorted(old - files.keys())
            changed = _changed_names(folder, files, gone, seen)
            _check_way(folder, changed, gone, old)
        digests = {name: _digest(name, content, seen) for name, content in files.items()}
        if changed or gone or old_digests != digests:
            manifests = [written(key, made, each) for each in ({**old_digests, **digests}, digests)]
            commitment = _commit(journal, made, files, manifests, changed, gone, old)
            with _in_words(journal, _TO_FINISH):
                _carry_out(journal, commitment, again=False)
    return Published(tuple(changed), tuple(gone), len(files) - len(changed))


def finish(journal: str) -> bool:
    """Carry out a commitment that an earlier run left, or throw away what it only staged.

    Returns True if there was a commitment. Every command calls this first; with nothing left over
    it writes nothing and takes no lock. Raises PublishError as `publish` does, ForeignError where
    what is left is not of this person's making: then nothing is done.
    """
    is_committed = os.path.lexists(_commitment_path(journal))
    if not is_committed and not os.path.lexists(_staged_folder(journal)):
        return False
    try:
        with lock(journal, LOCK_WAIT_SECONDS if is_committed else 0.0):
            return _finish_locked(journal)
    except BusyError:
        if is_committed:
            raise
        return False  # what is staged is not left over: another run is staging it now


def _finish_locked(journal: str) -> bool:
    with _in_words(journal, _TO_FINISH):
        commitment = _read_commitment(journal)
        if commitment is not None:
            _carry_out(journal, commitment, again=True)
            return True
        if not _throw_away(journal):
            raise ForeignError(f"{MEMORY}/{STAGED}", "Nothing of it was touched.")
        return False


def memory_folder(journal: str) -> str:
    """The path of `.backbud/` in the journal, made if it is missing, with a `.gitignore` of all.

    Raises PublishError if it is a link or cannot be made.
    """
    folder = os.path.join(journal, MEMORY)
    with _in_words(journal, _STILL_WHOLE):
        if not os.path.isdir(journal):
            raise PublishError(f"There is no folder {journal}.")
        _make_real_folder(folder, MEMORY)
        if not os.path.lexists(os.path.join(folder, ".gitignore")):
            write_whole(folder, ".gitignore", b"*\n")
    return folder


def write_whole(folder: str, name: str, content: bytes) -> None:
    """Write a small file of the memory so that a reader finds the old bytes or the new ones.

    Raises OSError.
    """
    path = os.path.join(folder, name)
    beside = f"{path}.{os.getpid()}-{get_ident()}"
    _remove_if_there(beside)  # left by a dead process that had this one's number
    try:
        _write_new(beside, content)
        _sync_file(beside)
        _retried(os.replace, beside, path)
    except OSError:
        _remove_if_there(beside)
        raise


# --- names -------------------------------------------------------------------------------------


# Who publishes again and again has mostly the same names.
@lru_cache(maxsize=1)
def _check_names(names: tuple[str, ...]) -> None:
    """Refuse names that lead out of `made/`, or that are one file or folder on some system."""
    spelled: dict[str, tuple[str, bool]] = {}
    for name in names:
        if not _is_plain(name):
            raise PublishError(f"{name!r} cannot be the name of an output file.")
        for path, is_file in [(name, True), *((folder, False) for folder in _folders_of(name))]:
            other, was_file = spelled.setdefault(_folded(path), (path, is_file))
            if other != path or was_file != is_file:
                raise PublishError(f"{other} and {path} cannot both be in the output.")


def _is_plain(name: str) -> bool:
    """Whether a path is relative, printable, below its folder and not the manifest's own."""
    if "\\" in name or ":" in name or name.split("/")[0].casefold() == MANIFEST:
        return False
    if not name.isprintable() and any(
        unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in name
    ):
        return False
    return all(part not in ("", ".", "..") for part in name.split("/"))


def _folders_of(name: str) -> list[str]:
    """The folders above a relative path, outermost first: `a/b/c` gives `a`, `a/b`."""
    parts = name.split("/")
    return ["/".join(parts[:count]) for count in range(1, len(parts))]


def _folded(name: str) -> str:
    """The name as a file system sees it that knows neither case nor ways to write one letter."""
    if name.isascii():
        return name.lower()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


# --- looking, before anything is changed ---------------------------------------------------------


def _made_folder(journal: str, made: str) -> str:
    for folder in (*_folders_of(made), made):
        _make_real_folder(os.path.join(journal, folder), folder)
    return os.path.join(journal, made)


def _make_real_folder(path: str, shown: str) -> None:
    found = _lstat(path)
    if found is None:
        os.mkdir(path)
        _sync_folder(os.path.dirname(path) or os.curdir)
    elif is_link(found):
        raise PublishError(
            f"{shown} is a link, and backbud writes only into real folders. Remove the link."
        )
    elif not stat.S_ISDIR(found.st_mode):
        raise PublishError(f"{shown} is in the way: it should be a folder. Move it away.")


def check_file(path: str, shown: str) -> None:
    """Raise PublishError where something stands at a path that is no file: a link, a folder."""
    found = _lstat(path)
    if found is not None and not stat.S_ISREG(found.st_mode):
        raise PublishError(f"{shown} is in the way: it should be a file. Move it away.")


def _lstat(path: str) -> os.stat_result | None:
    """What stands at a path, a link itself and not its target; None if nothing does."""
    try:
        return os.lstat(path)
    except (FileNotFoundError, NotADirectoryError):
        return None


def _old_digests(journal: str, made: str, key: bytes) -> dict[str, str]:
    """The files that earlier runs wrote, by the manifest in the folder of the output."""
    name = f"{made}/{MANIFEST}"
    if _lstat(os.path.join(journal, name)) is None:
        return {}
    data = read_plain(journal, name)
    digests = _read_manifest(key, made, data) if data is not None else None
    if digests is None:
        raise ForeignError(f"{made}/", "It is left alone.")
    return digests


# Who publishes again and again mostly finds the same one.
@lru_cache(maxsize=1)
def _read_manifest(key: bytes, made: str, data: bytes) -> dict[str, str] | None:
    return read(key, made, data)


def _digest(name: str, content: bytes, seen: Mapping[str, Seen]) -> str:
    known = seen.get(name)
    return known.digest if known is not None and known.content == content else digest_of(content)


def _changed_names(
    made: str, files: Mapping[str, bytes], gone: Iterable[str], seen: dict[str, Seen]
) -> list[str]:
    """The files to stage: bytes differ, or an old file of nearly the same name is to go.

    On a system that does not know case, that old file may be the very one that was compared.
    """
    nearly = set(map(_folded, gone))
    for name in gone:
        seen.pop(name, None)
    return [
        name
        for name in sorted(files)
        if (nearly and _folded(name) in nearly) or not _holds(made, name, files[name], seen)
    ]


def _holds(made: str, name: str, content: bytes, seen: dict[str, Seen]) -> bool:
    path = f"{made}/{name}"
    found = _lstat(path)
    if found is None or not stat.S_ISREG(found.st_mode) or found.st_size != len(content):
        return False
    mark = found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino
    known = seen.get(name)
    if known is not None and known[:4] == mark:
        return known.content == content
    now = time.time_ns()
    with open(path, "rb") as file:
        held = file.read()
    if max(found.st_mtime_ns, found.st_ctime_ns) < now - _TOO_NEW_NS:
        seen[name] = Seen(*mark, content if held == content else held, digest_of(held))
    return held == content


def _check_way(made: str, changed: list[str], gone: list[str], old: frozenset[str]) -> None:
    """Refuse if a link, or something that is not ours, is where a file is to come or to go."""
    near = {_folded(name): name for name in old}
    seen: set[str] = set()
    if (changed or gone) and not os.access(made, os.W_OK | os.X_OK):
        raise _may_not_write(_shown(made))
    for name in [*changed, *gone]:
        for folder in _folders_of(name):
            if folder not in seen:
                seen.add(folder)
                _check_folder(made, folder, old)
    for name in changed:
        _check_target(made, name, old, near)
    for name in gone:
        found = _lstat(os.path.join(made, name))
        if found is not None and is_link(found):
            raise _link_in_the_way(_shown(made, name))


def _check_folder(made: str, folder: str, old: frozenset[str]) -> None:
    path = os.path.join(made, folder)
    found = _lstat(path)
    if found is None:
        return
    if is_link(found):
        raise _link_in_the_way(_shown(made, folder))
    if stat.S_ISDIR(found.st_mode):
        if not os.access(path, os.W_OK | os.X_OK):
            raise _may_not_write(_shown(made, folder))
    elif folder not in old:
        raise _in_the_way(_shown(made, folder))


def _check_target(made: str, name: str, old: frozenset[str], near: Mapping[str, str]) -> None:
    path = os.path.join(made, name)
    found = _lstat(path)
    if found is None:
        return
    if is_link(found):
        raise _link_in_the_way(_shown(made, name))
    if stat.S_ISDIR(found.st_mode):
        _check_leaving(made, name, old)
    elif name not in old:
        # It may be ours under another spelling, where the file system does not know case.
        other = near.get(_folded(name))
        found_other = _lstat(os.path.join(made, other)) if other else None
        if found_other is None or not os.path.samestat(found, found_other):
            raise _in_the_way(_shown(made, name))


def _check_leaving(made: str, folder: str, old: frozenset[str]) -> None:
    """Refuse if a folder that makes way for a file holds anything that is not ours."""
    ours = old.union(*(_folders_of(name) for name in old))
    with os.scandir(os.path.join(made, folder)) as entries:
        for entry in entries:
            name = f"{folder}/{entry.name}"
            if name not in ours or entry.is_symlink():
                raise _in_the_way(_shown(made, name))
            if entry.is_dir(follow_symlinks=False):
                _check_leaving(made, name, old)


def _shown(made: str, name: str = "") -> str:
    """A file of the output as the person knows it: by its path in the journal."""
    folder = os.path.basename(made)
    return "/".join(filter(None, ("" if folder == MADE else MADE_ON, folder, name)))


def _may_not_write(folder: str) -> PublishError:
    return PublishError(f"{folder} may not be written to. {_STILL_WHOLE}")


def _in_the_way(name: str, outcome: str = _STILL_WHOLE) -> PublishError:
    return PublishError(
        f"{name} is in the way: backbud did not write it and leaves it alone."
        f" Move it away. {outcome}"
    )


def _link_in_the_way(name: str) -> PublishError:
    return PublishError(
        f"{name} is a link, and backbud writes only into real folders."
        f" Remove the link. {_STILL_WHOLE}"
    )


# --- committing ----------------------------------------------------------------------------------


def _commit(
    journal: str,
    made: str,
    files: Mapping[str, bytes],
    manifests: Sequence[bytes],
    changed: list[str],
    gone: list[str],
    old: frozenset[str],
) -> _Commitment:
    """Stage what differs, then rename the list of it: after that the new set counts.

    `manifests`: of the old and the new files together, and of the new ones.
    """
    staged = _staged_folder(journal)
    run = os.getpid()  # so that a second run can never take these files for its own
    contents = {f"{run}-{count}": files[name] for count, name in enumerate(changed)}
    moves = tuple(
        _Move(source, digest_of(content), name, name not in old)
        for (source, content), name in zip(contents.items(), changed, strict=True)
    )
    coming, final = (
        _Move(f"{run}-{which}", digest_of(content), MANIFEST, False)
        for which, content in zip(("coming", "final"), manifests, strict=True)
    )
    commitment = _Commitment(made, coming, final, moves, tuple(gone))
    contents |= dict(zip((coming.staged, final.staged), manifests, strict=True))
    target = _commitment_path(journal)
    try:
        with _in_words(journal, _STILL_WHOLE):
            key = key_for(MEMORY_PURPOSE, journal)
            text = _commitment_text(commitment).encode()
            contents[f"{run}-{COMMITMENT}"] = sealed(key, COMMITMENT, text, journal)
            mark = sealed(key, f"{STAGED}/{_STAGED_MARK}", b"", journal)
            _stage(staged, {_STAGED_MARK: mark})
            _stage(staged, contents)
            _check_same_disk(journal, made)
            _retried(os.replace, os.path.join(staged, f"{run}-{COMMITMENT}"), target)
    except PublishError:
        # Staged files may be what fills the disk. Left lying, the next command removes them.
        if not os.path.lexists(target):
            with suppress(OSError):
                _throw_away(journal)
        raise
    with _in_words(journal, _TO_FINISH):
        _sync_folder(os.path.join(journal, MEMORY))
    return commitment


def _stage(staged: str, contents: Mapping[str, bytes]) -> None:
    """Write all, then sync all: the first sync takes most of the others with it."""
    _make_real_folder(staged, f"{MEMORY}/{STAGED}")
    paths = [os.path.join(staged, name) for name in contents]
    for path, content in zip(paths, contents.values(), strict=True):
        _write_new(path, content)
    for path in paths:
        _sync_file(path)
    _sync_folder(staged)


def _check_same_disk(journal: str, made: str) -> None:
    """Refuse before the commitment what no rename could carry out after it."""
    if os.lstat(os.path.join(journal, made)).st_dev != os.lstat(_staged_folder(journal)).st_dev:
        raise PublishError(
            f"{made} and {MEMORY} lie on different disks. Put both on the journal's own."
        )


def _commitment_text(commitment: _Commitment) -> str:
    moves = [("coming", commitment.coming), ("final", commitment.final)]
    moves += [("new" if move.is_new else "changed", move) for move in commitment.moves]
    lines = [f"{what} {move.staged} {move.digest} {move.name}" for what, move in moves]
    gone = (f"gone {name}" for name in commitment.gone)
    return "\n".join([f"into {commitment.made}", *lines, *gone])


def _read_commitment(journal: str) -> _Commitment | None:
    """The commitment that an earlier run left; None if there is none.

    ForeignError where it does not bear the person's mark, or where what is staged is not what it
    speaks of.
    """
    if _lstat(_commitment_path(journal)) is None:
        return None
    data = recall(journal, COMMITMENT)
    if data is None:
        raise ForeignError(f"{MEMORY}/{COMMITMENT}", "Nothing of it was done.")
    into, *lines = data.decode().split("\n")
    manifests: dict[str, _Move] = {}
    moves: list[_Move] = []
    gone: list[str] = []
    for line in lines:
        what, _, rest = line.partition(" ")
        if what == "gone":
            gone.append(rest)
            continue
        staged, digest, name = rest.split(" ", 2)
        move = _Move(staged, digest, name, what == "new")
        _check_staged(journal, move)
        if what in ("coming", "final"):
            manifests[what] = move
        else:
            moves.append(move)
    made = into.removeprefix("into ")
    return _Commitment(made, manifests["coming"], manifests["final"], tuple(moves), tuple(gone))


def _check_staged(journal: str, move: _Move) -> None:
    """Refuse a staged file that the run which made the commitment did not write."""
    name = f"{MEMORY}/{STAGED}/{move.staged}"
    if _lstat(os.path.join(journal, name)) is None:
        return  # it is in its place already
    content = read_plain(journal, name)
    if content is None or digest_of(content) != move.digest:
        raise ForeignError(name, "Nothing of it was done.")


# --- carrying out --------------------------------------------------------------------------------


def _carry_out(journal: str, commitment: _Commitment, *, again: bool) -> None:
    """Take every step of a commitment; `again` if an earlier run may have taken some of them.

    Each step can be repeated: what is staged is still to be placed, what is not has been placed.
    """
    made, staged = _made_folder(journal, commitment.made), _staged_folder(journal)
    manifest = os.path.join(made, MANIFEST)
    in_the_way = _gone_in_the_way(commitment)
    touched = {made}
    _place(os.path.join(staged, commitment.coming.staged), manifest, again=again)
    _sync_folder(made)
    for move in commitment.moves:
        source, target = os.path.join(staged, move.staged), os.path.join(made, move.name)
        if again and not os.path.lexists(source):
            continue
        for name in in_the_way.get(move.name, ()):
            touched |= _remove(made, name)
        for folder in _folders_of(move.name):
            _make_real_folder(os.path.join(made, folder), _shown(made, folder))
        if move.is_new and _lstat(target) is not None:
            raise _in_the_way(_shown(made, move.name), _TO_FINISH)
        _place(source, target, again=again)
        touched.add(os.path.dirname(target))
    done = {name for names in in_the_way.values() for name in names}
    for name in commitment.gone:
        if name not in done:
            touched |= _remove(made, name)
    for folder in sorted(touched):
        with suppress(FileNotFoundError, NotADirectoryError):  # touched first, then removed
            _sync_folder(folder)
    _place(os.path.join(staged, commitment.final.staged), manifest, again=again)
    _sync_folder(made)
    _remove_if_there(_commitment_path(journal))
    with suppress(OSError):  # all is done: what is left over here does no harm
        _sync_folder(os.path.join(journal, MEMORY))
        _throw_away(journal)


def _gone_in_the_way(commitment: _Commitment) -> dict[str, list[str]]:
    """For each file to place, the old files that must go first: where it needs a folder, below
    where it stands itself, or of a name that some file systems take for the same."""
    at: dict[str, list[str]] = {}
    below: dict[str, list[str]] = {}
    for name in commitment.gone:
        at.setdefault(_folded(name), []).append(name)
        for folder in _folders_of(name):
            below.setdefault(_folded(folder), []).append(name)
    found: dict[str, list[str]] = {}
    for move in commitment.moves:
        names = [*below.get(_folded(move.name), ())]
        for path in [*_folders_of(move.name), move.name]:
            names += at.get(_folded(path), ())
        if names:
            found[move.name] = names
    return found


def _place(source: str, target: str, *, again: bool) -> None:
    if again and not os.path.lexists(source):
        return
    _retried(os.replace, source, target)


def _remove(made: str, name: str) -> set[str]:
    """Remove an old file and the folders it leaves empty; returns the folders that lost an entry.

    A folder at that name is a newer file's, and a file above it too: then the old one is gone.
    Some of it may have been removed already, down to a last folder that is empty by now.
    """
    folders = [made]
    for folder in _folders_of(name):
        path = os.path.join(made, folder)
        found = _lstat(path)
        if found is None or not stat.S_ISDIR(found.st_mode) or is_link(found):
            break
        folders.append(path)
    else:
        path = os.path.join(made, name)
        found = _lstat(path)
        if found is not None and not stat.S_ISDIR(found.st_mode):
            _retried(os.remove, path)
    while len(folders) > 1:
        try:
            os.rmdir(folders[-1])
        except OSError:
            break
        folders.pop()
    return {folders[-1]}


# --- small steps on files ------------------------------------------------------------------------


def _commitment_path(journal: str) -> str:
    return os.path.join(journal, MEMORY, COMMITMENT)


def _staged_folder(journal: str) -> str:
    return os.path.join(journal, MEMORY, STAGED)


def _write_new(path: str, content: bytes) -> None:
    """Write a file that is not there yet: never through a link that somebody put there."""
    with open(path, "xb") as file:
        file.write(content)


def _sync_file(path: str) -> None:
    with open(path, "r+b") as file:
        os.fsync(file.fileno())


def _sync_folder(path: str) -> None:
    """Sync the names in a folder, where the system can."""
    if sys.platform == "win32":
        return
    descriptor = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        # Some network file systems cannot sync a folder at all.
        if error.errno not in (errno.EINVAL, errno.ENOTSUP):
            raise
    finally:
        os.close(descriptor)


def _retried(step: Callable[..., None], *paths: str) -> None:
    for pause in RETRY_PAUSES_SECONDS:
        try:
            return step(*paths)
        except PermissionError:
            time.sleep(pause)
    return step(*paths)


def _remove_if_there(path: str) -> None:
    with suppress(FileNotFoundError):
        _retried(os.remove, path)


def _throw_away(journal: str) -> bool:
    """Remove what is staged, if this person's backbud staged it; else nothing. Whether it is gone.

    What a run that died has staged bears a mark, unless it died before anything else was staged.
    """
    folder = _staged_folder(journal)
    found = _lstat(folder)
    if found is None:
        return True
    if is_link(found) or not stat.S_ISDIR(found.st_mode):
        return False
    names = [name for name in os.listdir(folder) if name != _STAGED_MARK]
    if names and recall(journal, f"{STAGED}/{_STAGED_MARK}") is None:
        return False
    # The mark goes last: a run that dies in between leaves nothing that is not known for ours.
    for name in (*names, _STAGED_MARK):
        _remove_if_there(os.path.join(folder, name))
    with suppress(FileNotFoundError):
        os.rmdir(folder)
    return True


@contextmanager
def _in_words(journal: str, outcome: str) -> Iterator[None]:
    """Turn an error of the system into a sentence, followed by one on the state of the output."""
    try:
        yield
    except OSError as error:
        path = error.filename2 or error.filename
        place = f" ({os.path.relpath(path, journal)})" if isinstance(path, str) else ""
        raise PublishError(
            f"Could not write {MADE}: {error.strerror or error}{place}. {outcome}"
        ) from error


# --- the lock ------------------------------------------------------------------------------------


@contextmanager
def lock(journal: str, wait_seconds: float = LOCK_WAIT_SECONDS) -> Iterator[None]:
    """Keep every other run, and every other thread of this one, from publishing in the journal.

    A thread that holds the lock may take it again; so may, unwanted, two tasks of one event loop.
    Raises BusyError after `wait_seconds`, PublishError if the journal cannot be written to.
    """
    key = (os.path.realpath(journal), os.getpid(), get_ident())
    if key in _held:
        yield
        return
    descriptor = _take_lock(journal, wait_seconds)
    _held.add(key)
    try:
        yield
    finally:
        _held.discard(key)
        _unlock(descriptor)
        os.close(descriptor)


def _take_lock(journal: str, wait_seconds: float) -> int:
    until = time.monotonic() + wait_seconds
    while True:
        path = os.path.join(memory_folder(journal), LOCK)
        with _in_words(journal, _STILL_WHOLE):
            flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
            check_file(path, f"{MEMORY}/{LOCK}")
            descriptor = os.open(path, flags | getattr(os, "O_NONBLOCK", 0), 0o666)
            try:
                if _lock_now(descriptor) and _is_still_at(descriptor, path):
                    _sign(descriptor)
                    return descriptor
                if time.monotonic() >= until:
                    who = os.read(descriptor, 100).decode("ascii", "replace") or "unknown"
                    raise BusyError(
                        f"Another run of backbud (process {who}) is at work on this journal."
                        " Try again when it has ended."
                    )
            except BaseException:
                os.close(descriptor)
                raise
            os.close(descriptor)
        time.sleep(_LOCK_PAUSE_SECONDS)


def _is_still_at(descriptor: int, path: str) -> bool:
    """Whether the file that was locked is still the one others would lock: not if `.backbud/` was
    deleted in between."""
    found = _lstat(path)
    return found is not None and os.path.samestat(found, os.fstat(descriptor))


def _sign(descriptor: int) -> None:
    """Say who holds the lock. The lock counts without it, so a full disk is no obstacle."""
    with suppress(OSError):
        os.lseek(descriptor, 0, os.SEEK_SET)
        os.ftruncate(descriptor, 0)
        os.write(descriptor, str(os.getpid()).encode())


if sys.platform == "win32":

    def _lock_now(descriptor: int) -> bool:
        os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            os.lseek(descriptor, 0, os.SEEK_SET)
            return False
        return True

    def _unlock(descriptor: int) -> None:
        os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_UNLCK, 1)

else:

    def _lock_now(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _unlock(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_UN)
