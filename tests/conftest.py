"""A journal written in a test: its text goes in, a session on a day comes out."""

from __future__ import annotations

import gc
import os
import re
import shutil
import tempfile
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import HealthCheck, is_hypothesis_test, settings
from tests.examples import QUICK, SEARCHING
from tests.installed import looked_through_once

from backbud.person import CONFIG_VARIABLE
from backbud.session import Session, open_session
from backbud.tongue import ENGLISH, speak

SETTINGS = 'language = 1\nname = "A test"\ncurrency = "EUR"\n'

# What a short journal leaves unsaid.
UNSAID = ("unknown-species", "unknown-hemisphere")


_CACHE = pytest.StashKey[str]()
_IN_MEMORY = pytest.StashKey[str]()
_FAILED = pytest.StashKey["_AtOnce"]()
# A file system that is kept in memory, and what a run may come to need of it.
MEMORY = Path("/dev/shm")
LEAST_ROOM_OCTETS = 4_000_000_000
# What a busy machine takes long for is nothing that a test found.
_AT_ANY_PACE = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
# The quick lane draws the same examples each time, so that it is never red by luck. The long lane
# searches: the same tests, with others each time, and many more.
settings.register_profile("quick", _AT_ANY_PACE, max_examples=QUICK, derandomize=True)
settings.register_profile("searching", _AT_ANY_PACE, max_examples=SEARCHING, print_blob=True)


class _AtOnce:
    """Names a failed test when it fails: a run that is cut off has told which."""

    def __init__(self, config: pytest.Config) -> None:
        self._config = config
        self.any = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        told = self._config.pluginmanager.get_plugin("terminalreporter")
        self.any |= report.failed
        if report.failed and told is not None:
            told.write_line("")
            told.write_line(f"{report.when} of {report.nodeid}: {_last_line(report)}")


def _last_line(report: pytest.TestReport) -> str:
    crash = getattr(report.longrepr, "reprcrash", None)
    said = str(crash.message if crash else report.longrepr).strip()
    return said.partition("\n")[0][:200]


def pytest_configure(config: pytest.Config) -> None:
    """A run of the tests, and its workers with it, has a cache folder of its own: what a test says
    in other words than ours never comes into that of whoever runs them. Cycles are looked for
    seldom, as the tests make many small values that live long."""
    gc.set_threshold(100_000, 20, 20)
    settings.load_profile("searching" if _is_long_lane(config) else "quick")
    if not hasattr(config, "workerinput"):
        if "TMPDIR" not in os.environ and not config.option.basetemp and _has_room(MEMORY):
            # Thousands of small journals are written and taken away: on a disk, that takes longer
            # than what is tested.
            folder = tempfile.mkdtemp(prefix="backbud-", dir=MEMORY)
            config.stash[_IN_MEMORY] = os.environ["TMPDIR"] = folder
            tempfile.tempdir = None
        config.stash[_CACHE] = os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="backbud-")
        config.stash[_FAILED] = _AtOnce(config)
        config.pluginmanager.register(config.stash[_FAILED])


def _is_long_lane(config: pytest.Config) -> bool:
    return bool(re.search(r"(?<!not )\blong\b", config.option.markexpr))


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """In the long lane, whatever draws its examples is in it, too."""
    if _is_long_lane(config):
        for item in items:
            if is_hypothesis_test(getattr(item, "obj", None)):
                item.add_marker("long")


def _has_room(folder: Path) -> bool:
    return (
        folder.is_dir()
        and os.access(folder, os.W_OK)
        and shutil.disk_usage(folder).free >= LEAST_ROOM_OCTETS
    )


def pytest_unconfigure(config: pytest.Config) -> None:
    if folder := config.stash.get(_CACHE, None):
        shutil.rmtree(folder, ignore_errors=True)
    # What a failed test wrote can be looked at, as the line of its failure names it.
    if (folder := config.stash.get(_IN_MEMORY, None)) and not config.stash[_FAILED].any:
        shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session", autouse=True)
def settings_of_nobody(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The tests are a person of their own: nothing of whoever runs them is read or written."""
    folder = tmp_path_factory.mktemp("settings") / "backbud"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(CONFIG_VARIABLE, str(folder))
        yield folder


@pytest.fixture(scope="session", autouse=True)
def compiled_once() -> Iterator[None]:
    """Where Python is told to keep no compiled modules, each of the hundreds of commands that the
    tests start would compile all of ours again: they keep them in the cache folder of the run."""
    with pytest.MonkeyPatch.context() as patch:
        if os.environ.get("PYTHONDONTWRITEBYTECODE"):
            patch.delenv("PYTHONDONTWRITEBYTECODE")
            patch.setenv("PYTHONPYCACHEPREFIX", f"{os.environ['XDG_CACHE_HOME']}/compiled")
        yield


@pytest.fixture(scope="session", autouse=True)
def installed_once() -> Iterator[None]:
    """What is installed stays as it is while the tests run."""
    with pytest.MonkeyPatch.context() as patch:
        looked_through_once(patch)
        yield


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    """Whoever opens a journal speaks its language from there on; with the test that ends."""
    yield
    speak(ENGLISH)


@pytest.fixture(scope="module", autouse=True)
def nothing_frozen() -> Iterator[None]:
    """What a test did as if it were a process of its own ends with its module: the collector runs
    again, and sees what was put out of its sight; what its fixtures read in German does, too."""
    yield
    gc.unfreeze()
    gc.enable()
    speak(ENGLISH)


Written = Callable[..., Session]


@pytest.fixture
def written(tmp_path: Path) -> Written:
    """Write a journal anew and open it: `written(text, on="2026-11-20")`.

    `settings`: more lines of backbud.toml. `as_of`: leave out lines dated later. `files`: more
    files by name. Problems fail the test, but for those whose codes `problems` names, and for what
    a short journal leaves unsaid: a kind that a species knows, and where home is; `any_problems`:
    the test looks at them itself.
    """

    def write(
        text: str,
        on: str = "2026-11-20",
        *,
        settings: str = "",
        as_of: bool = False,
        files: dict[str, str] | None = None,
        problems: tuple[str, ...] = (),
        any_problems: bool = False,
    ) -> Session:
        for old in tmp_path.glob("*.txt"):
            old.unlink()
        (tmp_path / "backbud.toml").write_text(SETTINGS + settings)
        for name, content in {"journal.txt": text, **(files or {})}.items():
            (tmp_path / name).write_text(dedent(content))
        session = open_session(str(tmp_path), date.fromisoformat(on), as_of=as_of)
        found = [p.code for p in session.problems() if p.code not in UNSAID]
        assert any_problems or sorted(set(found)) == sorted(problems), session.problems()
        return session

    return write
