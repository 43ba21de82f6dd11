"""A journal's folder comes in; out goes what its last `make` had to say, if nothing changed since.

This is all that runs when there is nothing to do, so every import counts: only what the
interpreter has loaded anyway, and one digest that needs no OpenSSL. The inputs are compared byte
by byte with a copy of them in `.backbud/`, which is exact, and for 7 MB takes 1 ms where the
quickest digest takes 5.
"""

from __future__ import annotations

import os
import sys
from io import FileIO

from backbud import __version__
from backbud.publish import (
    COMMITMENT,
    DEEPEST,
    MADE,
    MANIFEST,
    MEMORY,
    REMEMBERED,
    STAGED,
    manifest_names,
)

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
_CHUNK_BYTES = 1 << 16  # larger ones are fetched anew from the system each time
_SIZE_DIGITS = 12
_HEAD = "backbud remembered 1"
_ENCODING = ("utf-8", "surrogatepass")  # file names may hold bytes that are no letters


def make_arguments(is_as_of: bool, is_json: bool) -> str:
    """The options of a `make` in the one spelling that is remembered."""
    return f"make{' on' if is_as_of else ''}{' json' if is_json else ''}"


def fingerprint(journal: str, today: str, arguments: str) -> str:
    """A digest, in hexadecimal, of all that the output of `make` is made from.

    That is: the day, the arguments, where the journal lies, which of its plugins are trusted, the
    versions of backbud and Python, name, size and time of each file of the installed program and
    of each installed distribution; and the relative names and the bytes of the journal's inputs.
    Take it before the inputs are read for the work itself. Returns "", which is never remembered,
    if anything cannot be read.
    """
    try:
        return _surroundings(journal, today, arguments) + _inputs_digest(_read_inputs(journal))
    except OSError:
        return ""


def remember(
    journal: str,
    known: str,
    summary: str,
    status: int = 0,
    also: tuple[str, ...] = (),
) -> None:
    """Remember, once the output is published, what `make` is to say while nothing changes.

    `known` is the fingerprint taken when the run began, `status` the exit status. `also` names
    further files that the run read or looked for (photographs, weather files of any name, modules
    of species that others installed): absolute paths, or paths within the journal. Remembers
    nothing if `known` is empty, if an input has changed since it was taken, or if the disk refuses:
    then the next run does all its work again. Raises PublishError as `memory_folder` does.
    """
    from contextlib import suppress

    from backbud.publish.commit import memory_folder, write_whole

    surroundings, inputs_digest = known[: 2 * _DIGEST_BYTES], known[2 * _DIGEST_BYTES :]
    signature = _signature(journal, also)
    if not known or signature is None:
        return
    try:
        inputs = _read_inputs(journal)
    except OSError:
        return
    if _inputs_digest(inputs) != inputs_digest:
        return
    lines = [_HEAD, surroundings, signature, str(status), f"{len(also)} {len(inputs)}", *also]
    lines += [f"{len(content)} {name}" for name, content in inputs.items()]
    head = "\n".join([*lines, summary]).encode(*_ENCODING)
    size = f"{len(head):{_SIZE_DIGITS}}".encode()
    folder = memory_folder(journal)
    with suppress(OSError):
        write_whole(folder, REMEMBERED, b"".join([size, head, *inputs.values()]))


def forget(journal: str) -> None:
    """Let the next `make` run in full, as after a change of trust. Raises OSError."""
    path = os.path.join(journal, MEMORY, REMEMBERED)
    if os.path.lexists(path):
        os.remove(path)


def nothing_to_do(journal: str, today: str, arguments: str) -> tuple[int, str] | None:
    """The exit status and the summary of the last `make`, if it would do the very same again.

    None if anything that `fingerprint` covers is not as it was remembered, if a published file or
    a folder of published files or one of the further files has, or if a publishing was left so.
    """
    memory = f"{journal}/{MEMORY}"
    if left_unfinished(journal):
        return None
    try:
        with FileIO(f"{memory}/{REMEMBERED}") as file:
            text = file.read(int(file.read(_SIZE_DIGITS))).decode(*_ENCODING)
            head, surroundings, signature, status, counts, rest = text.split("\n", 5)
            also_count, inputs_count = map(int, counts.split())
            *lines, summary = rest.split("\n", also_count + inputs_count)
            also, inputs = tuple(lines[:also_count]), lines[also_count:]
            is_same = (
                head == _HEAD
                and surroundings == _surroundings(journal, today, arguments)
                and _has_same_inputs(journal, inputs, file)
                and signature == _signature(journal, also)
            )
            return (int(status), summary) if is_same else None
    except (OSError, ValueError):
        return None


def _digest_of(texts: list[str]) -> str:
    """A digest of texts, each closed by its length, so that no two lists of them read the same."""
    closed = "".join([f"{len(text)}:{text}" for text in texts])
    return blake2b(closed.encode(*_ENCODING), digest_size=_DIGEST_BYTES).hexdigest()


# --- the inputs ----------------------------------------------------------------------------------


def _read_inputs(journal: str) -> dict[str, bytes]:
    inputs = {}
    for name in sorted(_input_names(journal, "")):
        inputs[name] = b""
        if not name.endswith(_LINK):
            with FileIO(f"{journal}/{name}") as file:
                inputs[name] = file.readall()
    return inputs


def _inputs_digest(inputs: dict[str, bytes]) -> str:
    digest = blake2b(digest_size=_DIGEST_BYTES)
    for name, content in inputs.items():
        digest.update(_digest_of([name, str(len(content))]).encode())
        digest.update(content)
    return digest.hexdigest()


def _has_same_inputs(journal: str, lines: list[str], copies: FileIO) -> bool:
    """Whether the inputs are those of the lines (size, space, name), with the bytes that follow in
    the file of copies."""
    sizes = [int(line.partition(" ")[0]) for line in lines]
    names = [line.partition(" ")[2] for line in lines]
    if names != sorted(_input_names(journal, "")):
        return False
    for name, size in zip(names, sizes, strict=True):
        if name.endswith(_LINK):
            continue
        with FileIO(f"{journal}/{name}") as file:
            while chunk := file.read(_CHUNK_BYTES):
                size -= len(chunk)
                if size < 0 or copies.read(len(chunk)) != chunk:
                    return False
        if size:
            return False
    return True


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
                if folder or name != MADE:
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


def _surroundings(journal: str, today: str, arguments: str) -> str:
    """A digest of all that the output and the summary depend on beside the inputs."""
    where = os.path.abspath(journal)
    return _digest_of([today, arguments, where, *_trusted(journal), *_installed()])


def _trusted(journal: str) -> list[str]:
    """What the person trusts of the journal's own code, if it has any: else that does not run."""
    if not os.path.isdir(f"{journal}/{_PLUGINS}"):
        return []
    from backbud.trust.place import recorded

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


def _signature(journal: str, also: tuple[str, ...]) -> str | None:
    """A digest of the manifest, of the times of the folders it names, and of the further files.

    A published file that is missing or was put there by others is seen by its folder's time; one
    that was written over in its place is not, until the next run that has something to do. None
    if there is no whole manifest.
    """
    made = f"{journal}/{MADE}/"
    try:
        with FileIO(made + MANIFEST) as file:
            text = file.readall().decode()
        names = manifest_names(text)
        if names is None:
            return None
        found = [text]
        for folder in sorted({name.rpartition("/")[0] for name in names}):
            found.append(f"{folder} {os.lstat(made + folder).st_mtime_ns}")
    except (OSError, ValueError):
        return None
    for path in also:
        try:
            status = os.stat(os.path.join(journal, path))
            found.append(f"{path} {status.st_size} {status.st_mtime_ns}")
        except OSError:
            found.append(f"{path} missing")
    return _digest_of(found)
