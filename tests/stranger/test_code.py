"""A journal that came from somebody else runs nothing of its own: no module, no kept table."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from pathlib import Path

import pytest

from backbud_grammar.cache_folder import cache_folder

RAN = "import os\nopen(os.environ['RAN'], 'w').close()\n"
# What backbud, lark, msgspec and Python's own modules would be glad to import.
MODULES = (
    "msgspec", "lark", "jinja2", "icalendar", "pathspec", "json", "tomllib", "argparse", "datetime",
    "decimal", "hashlib", "_blake2", "errno", "__future__", "gc", "typing", "dataclasses", "random",
    "backbud_species", "backbud_grammar", "sitecustomize", "usercustomize",
)  # fmt: skip

HOSHI = "place yard\n  latitude  52\ntree hoshi"


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """A journal that ships modules of the names that are imported."""
    folder = tmp_path / "journal"
    folder.mkdir()
    (folder / "backbud.toml").write_text("language = 1\n")
    (folder / "journal.txt").write_text(f"{HOSHI}\n  kind  trident maple\n")
    for name in MODULES:
        (folder / f"{name}.py").write_text(RAN)
    (folder / ".gitignore").write_text("*.dist-info\n")
    info = folder / "evil-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: evil\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[backbud.species]\nevil = evil_species:Evil\n")
    (folder / "evil_species.py").write_text(RAN)
    return folder


@pytest.mark.parametrize("words", [["check"], ["make"], ["make", "--json"], ["species", "box"]])
@pytest.mark.parametrize("how", ["module", "command"])
def test_nothing_of_the_folder_is_imported(
    journal: Path, tmp_path: Path, words: list[str], how: str
) -> None:
    """As a module, Python itself puts the folder first; as a command, an empty PYTHONPATH does."""
    backbud = str(Path(sys.executable).with_name("backbud"))
    command = [sys.executable, "-m", "backbud"] if how == "module" else [backbud]
    ran = tmp_path / "ran"
    environment = {**os.environ, "RAN": str(ran)}
    if how == "command":
        # At the end, so that Python's own start is its own, but for what that looks for by name.
        for name in ("sitecustomize", "usercustomize"):
            (journal / f"{name}.py").unlink()
        environment["PYTHONPATH"] = os.pathsep.join([*filter(None, sys.path[1:]), ""])
    done = subprocess.run(
        [*command, *words], cwd=journal, env=environment, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    assert not ran.exists()


@pytest.mark.parametrize("variable", ["XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"])
@pytest.mark.parametrize("is_absolute", [True, False])
def test_no_table_is_unpickled_that_a_journal_ships(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, variable: str, is_absolute: bool
) -> None:
    """Where a variable leads into the journal, or to wherever a command is given."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    for module in MODULES:
        (journal / f"{module}.py").unlink()
    monkeypatch.setenv(variable, str(journal / "own") if is_absolute else "own")
    monkeypatch.chdir(journal)
    found = cache_folder()
    assert found is None or (found.is_absolute() and journal not in found.parents)
    # The table that is asked for, by the name that a run would give it.
    monkeypatch.setenv(variable, str(tmp_path / "elsewhere"))
    command = [sys.executable, "-m", "backbud", "check"]
    act = "\n2026-05-01\nhoshi\n  pruned  3 cm off on left 1\n"
    (journal / "journal.txt").write_text(f"{HOSHI}\n  kind  trident maple\n{act}")
    subprocess.run(command, cwd=journal, check=True, stdout=subprocess.DEVNULL)
    (kept,) = tmp_path.glob("elsewhere/**/backbud/grammar-*")

    class Bait:
        def __reduce__(self) -> tuple[object, tuple[str, str]]:
            return open, (str(tmp_path / "ran"), "w")

    for below in ("backbud", ".cache/backbud"):
        target = journal / "own" / below / kept.name
        target.parent.mkdir(parents=True)
        target.write_bytes(pickle.dumps(Bait()))
    monkeypatch.setenv(variable, str(journal / "own") if is_absolute else "own")
    (journal / "journal.txt").write_text(f"{HOSHI}\n  kind  box\n{act.replace('3', '4')}")
    subprocess.run(command, cwd=journal, check=False, stdout=subprocess.DEVNULL)
    assert not (tmp_path / "ran").exists()
