"""Answers a `make` that has nothing to do with what the last one said.

This is all that runs when there is nothing to do, so every import counts: only what the
interpreter has loaded anyway, and one digest that needs no OpenSSL. What was remembered counts only
under the person's mark (memory.py).
"""

from __future__ import annotations

import os
import sys
import time
from io import FileIO

from backbud import __version__
from backbud.publish import (
    COMMITMENT,
    DEEPEST,
    MADE,
    MADE_ON,
    MANIFEST,
    MEMORY,
    OUTPUTS,
    REMEMBERED,
    STAGED,
)
from backbud.publish.manifest import names_in
from backbud.publish.memory import keep_bytes, recall_bytes
from backbud.publish.plain import read_plain

try:
    from _blake2 import blake2b
except ImportError:  # a Python built without it
    from hashlib import blake2b

PACKAGES = ("backbud", "backbud_grammar", "backbud_species")
_INPUT_ENDINGS = (".txt", ".csv")
_INPUT_NAMES = ("backbud.toml", ".gitignore")
_PLUGINS = "plugins/"
_LINK = "/"  # ends the name of a link in the list of inputs
_DIGEST_BYTES = 32
# What was written so shortly before it was seen may be written over with nothing to tell by.
_TOO_NEW_NS = 2_000_000_000
# Size, modified, changed and number of a file when it was read, and the digest of its bytes.
SeenInput = tuple[tuple[int, int, int, int], str]
_ON = " on"
_ENCODING = ("utf-8", "surrogatepass")  # file names may hold bytes that are no letters


def make_arguments(is_as_of: bool, is_json: bool) -> str:
    """The options of a `make` in the one spelling that is remembered."""
    return f"make{_ON if is_as_of else ''}{' json' if is_json else ''}"


def made_on(today: str, is_as_of: bool) -> str:
    """The folder, as a relative path in the journal, that a `make` writes on a day.

    A look back writes to a folder of its own: what is so today stays as it is.
    """
    return f"{MADE_ON}/{today}" if is_as_of else MADE


def fingerprint(
    journal: str,
    today: str,
    arguments: str,
    installed: str = "",
    seen: dict[str, SeenInput] | None = None,
) -> str:
    """A digest, in hexadecimal, of all that the output of `make` is made from.

    That is: the day, the arguments, where the journal lies, which of its plugins are trusted, the
    versions of backbud and Python, name, size and time of each file of the installed program and
    of each installed distribution; and the relative names and the bytes of the journal's inputs.
    Take it before the inputs are read for the work itself. `installed`: the `installed_mark`, where
    it is known. `seen`: the inputs that this process has seen, so that those which nobody has
    touched since need not be read again. Returns "", which is never remembered, if anything cannot
    be read.
    """
    try:
        around = _surroundings(journal, today, arguments, installed or installed_mark())
        return around + _inputs_digest(journal, seen)
    except OSError:
        return ""


def remember(
    journal: str,
    known: str,
    summary: str,
    status: int = 0,
    also: tuple[str, ...] = (),
    made: str = MADE,
    seen: dict[str, SeenInput] | None = None,
) -> None:
    """Remember, once the output is published, what `make` is to say while nothing changes.

    `known` is the fingerprint taken when the run began, `status` the exit status, `made` the folder
    of the output. `also` names further files that the run read or looked for (photographs, weather
    files of any name, modules of species that others installed): absolute paths, or paths within
    the journal. `seen`: as `fingerprint` has it. Remembers nothing if `known` is empty, if an input
    has changed since it was taken, or if the disk refuses: then the next run does all its work
    again.
    """
    signature = _signature(journal, made, also)
    if not known or signature is None:
        return
    try:
        if _inputs_digest(journal, seen) != known[2 * _DIGEST_BYTES :]:
            return
    except OSError:
        return
    lines = [known, signature, str(status), str(len(also)), *also, summary]
    keep_bytes(journal, _remembered(made), "\n".join(lines).encode(*_ENCODING))


def forget(journal: str) -> None:
    """Let the next `make` run in full, as after a change of trust. Raises OSError."""
    for made in (MADE, MADE_ON):
        path = os.path.join(journal, MEMORY, _remembered(made))
        if os.path.lexists(path):
            os.remove(path)


def nothing_to_do(journal: str, today: str, arguments: str) -> tuple[int, str] | None:
    """The exit status and the summary of the last `make`, if it would do the very same again.

    None if anything that `fingerprint` covers is not as it was remembered, if a published file or
    a folder of published files or one of the further files has, or if a publishing was left so.
    """
    made = made_on(today, _ON in arguments)
    remembered = None if left_unfinished(journal) else recall_bytes(journal, _remembered(made))
    if remembered is None:
        return None
    known, signature, status, count, rest = remembered.decode(*_ENCODING).split("\n", 4)
    *also, summary = rest.split("\n", int(count))
    if known != fingerprint(journal, today, arguments):
        return None
    return (int(status), summary) if signature == _signature(journal, made, tuple(also)) else None


def _remembered(made: str) -> str:
    """What a run is remembered under: a look back never takes the place of today."""
    return REMEMBERED if made == MADE else f"{REMEMBERED}-on"


def _digest_of(texts: list[str]) -> str:
    """A digest of texts, each closed by its length, so that no two lists of them read the same."""
    closed = "".join([f"{len(text)}:{text}" for text in texts])
    return blake2b(closed.encode(*_ENCODING), digest_size=_DIGEST_BYTES).hexdigest()


# --- the inputs ----------------------------------------------------------------------------------


def _inputs_digest(journal: str, seen: dict[str, SeenInput] | None = None) -> str:
    """A digest of the names and the bytes of all inputs. OSError where one cannot be read."""
    found: list[str] = []
    for name in sorted(_input_names(journal, "")):
        found += (name, "" if name.endswith(_LINK) else _digest_of_input(journal, name, seen))
    return _digest_of(found)


def _digest_of_input(journal: str, name: str, seen: dict[str, SeenInput] | None) -> str:
    """The digest of an input, which is read unless it stands as it was `seen`."""
    known = seen.get(name) if seen is not None else None
    if known is not None and known[0] == _mark_of(os.stat(f"{journal}/{name}")):
        return known[1]
    with FileIO(f"{journal}/{name}") as file:
        status, now = os.fstat(file.fileno()), time.time_ns()
        digest = blake2b(file.readall(), digest_size=_DIGEST_BYTES).hexdigest()
    if seen is not None:
        seen.pop(name, None)
        if max(status.st_mtime_ns, status.st_ctime_ns) < now - _TOO_NEW_NS:
            seen[name] = _mark_of(status), digest
    return digest


def _mark_of(status: os.stat_result) -> tuple[int, int, int, int]:
    return status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino


def _input_names(journal: str, folder: str) -> list[str]:
    """The relative paths of the inputs in a folder ("" or ending in a slash) and below it.

    Links are not followed to folders, but that one is there is told by its name and a slash.
    """
    names = []
    is_in_plugins = folder.startswith(_PLUGINS)
    with os.scandir(f"{journal}/{folder}") as entries:
        for entry in entries:
            name = entry.name
            if entry.is_dir(follow_symlinks=False):
                if name[0] == "." or folder.count("/") >= DEEPEST:
                    continue
                if folder or name not in OUTPUTS:
                    names += _input_names(journal, f"{folder}{name}/")
                continue
            if entry.is_symlink():
                names.append(f"{folder}{name}{_LINK}")
            if (
                name.endswith(_INPUT_ENDINGS)
                or name in _INPUT_NAMES
                or (is_in_plugins and name.endswith(".py"))
            ) and entry.is_file():
                names.append(folder + name)
    return names


# --- the program ---------------------------------------------------------------------------------


def _surroundings(journal: str, today: str, arguments: str, installed: str) -> str:
    """A digest of all that the output and the summary depend on beside the inputs."""
    where = os.path.abspath(journal)
    return _digest_of([today, arguments, where, *_trusted(journal), installed])


def _trusted(journal: str) -> list[str]:
    """What the person trusts of the journal's own code, if it has any: else that does not run."""
    if not os.path.isdir(f"{journal}/{_PLUGINS}"):
        return []
    from backbud.consent.place import recorded

    return [blake2b(recorded(journal), digest_size=_DIGEST_BYTES).hexdigest()]


def installed_mark() -> str:
    """A digest of the installed program: it changes with any file of it, and with any package
    that is installed or taken away. Raises OSError if something cannot be read."""
    return _digest_of(_installed())


def left_unfinished(journal: str) -> bool:
    """Whether an earlier run was killed while it published."""
    memory = f"{journal}/{MEMORY}"
    return os.path.lexists(f"{memory}/{COMMITMENT}") or os.path.lexists(f"{memory}/{STAGED}")


def _installed() -> list[str]:
    found = [__version__, sys.version]
    for package in PACKAGES:
        for folder in _package_folders(package):
            found.append(package)
            _find_sources(folder, found)
    for path in sys.path:
        _find_distributions(path, found)
    return found


def _package_folders(package: str) -> list[str]:
    """Where a package lies, asked of the import system without importing it."""
    module = sys.modules.get(package)
    if module is not None:
        return list(module.__path__)
    for finder in sys.meta_path:
        spec = finder.find_spec(package, None)
        if spec is not None:
            return list(spec.submodule_search_locations or ())
    return []


def _find_sources(folder: str, found: list[str]) -> None:
    """Add name, size and time of each file in a package's folder and below, in a fixed order."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=_name):
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    found.append(f"{entry.name}/")
                    _find_sources(entry.path, found)
                    found.append("/")
            else:
                status = entry.stat()
                found.append(f"{entry.name} {status.st_size} {status.st_mtime_ns}")


def _find_distributions(path: str, found: list[str]) -> None:
    """Add name and time of each installed distribution in an entry of the import path."""
    try:
        with os.scandir(path) as entries:
            infos = [entry for entry in entries if entry.name.endswith(".dist-info")]
    except OSError:  # a zip archive, or a folder that is not there
        return
    for entry in sorted(infos, key=_name):
        found.append(f"{entry.name} {entry.stat().st_mtime_ns}")


def _name(entry: os.DirEntry[str]) -> str:
    return entry.name


# --- what was published --------------------------------------------------------------------------


def _signature(journal: str, made: str, also: tuple[str, ...]) -> str | None:
    """A digest of the manifest, of the times of the folders it names, and of the further files.

    A published file that is missing or was put there by others is seen by its folder's time; one
    that was written over in its place is not, until the next run that has something to do. None
    if there is no whole manifest. Whose it is need not be asked: the digest of it is under a mark.
    """
    try:
        manifest = read_plain(journal, f"{made}/{MANIFEST}") or b""
        found = [manifest.decode()]
        for folder in sorted({name.rpartition("/")[0] for name in names_in(manifest)}):
            found.append(f"{folder} {os.lstat(f'{journal}/{made}/{folder}').st_mtime_ns}")
    except (OSError, ValueError):
        return None
    for path in also:
        try:
            status = os.stat(os.path.join(journal, path))
            found.append(f"{path} {status.st_size} {status.st_mtime_ns}")
        except OSError:
            found.append(f"{path} missing")
    return _digest_of(found)
