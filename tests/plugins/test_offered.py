"""Which species the installed packages offer is told as `importlib.metadata` tells it."""

from __future__ import annotations

import sys
import zipfile
from collections.abc import Iterator
from importlib.machinery import PathFinder
from importlib.metadata import entry_points
from pathlib import Path

import pytest

from backbud.plugins import offered
from backbud.plugins.offered import GROUP, are_ours_alone

KINDS = ("trident maple", "Japanese white pine")


@pytest.fixture(autouse=True)
def no_others(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    offered.species_points.cache_clear()
    monkeypatch.setattr("sys.path", [*sys.path])
    yield
    offered.species_points.cache_clear()


def in_folders() -> list[tuple[str, str]] | None:
    """What is found there, though a library of another test brought a finder of its own."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("sys.meta_path", [PathFinder])
        return offered._points_in_folders()


def package(folder: Path, points: str, name: str = "elms-1.0.dist-info") -> str:
    info = folder / name
    info.mkdir(parents=True)
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: elms\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text(points)
    return str(folder)


def told() -> list[tuple[str, str]]:
    return sorted((point.name, point.module) for point in entry_points(group=GROUP))


def test_our_own_are_found_in_the_folders() -> None:
    found = in_folders()
    assert found is not None and sorted(found) == told() and len(found) > 50
    assert are_ours_alone(KINDS)
    assert not are_ours_alone((*KINDS, "elm of nobody"))


@pytest.mark.parametrize(
    "points",
    [
        "[backbud.species]\nelm of theirs = elms:Elm\n",
        "[console_scripts]\nx = y:z\n\n[backbud.species]\n# none\nelm of theirs=elms.a:Elm [b]\n",
        # One of ours has another's name.
        "[backbud.species]\ntrident maple = elms:Elm\n",
    ],
)
def test_a_species_of_another_package_is_found(tmp_path: Path, points: str) -> None:
    sys.path.append(package(tmp_path, points))
    found = in_folders()
    assert found is not None and sorted(found) == told()
    assert not are_ours_alone(KINDS)


def test_other_groups_are_none_of_ours(tmp_path: Path) -> None:
    sys.path.append(
        package(tmp_path, "[console_scripts]\nelm = elms:run\n[backbud.figures]\na = b:C\n")
    )
    assert are_ours_alone(KINDS)


def test_what_lies_in_an_archive_is_asked_of_python(tmp_path: Path) -> None:
    inside = Path(package(tmp_path / "in", "[backbud.species]\nelm of theirs = elms:Elm\n"))
    archive = tmp_path / "elms.zip"
    with zipfile.ZipFile(archive, "w") as packed:
        for file in inside.rglob("*.txt"):
            packed.write(file, file.relative_to(inside))
        packed.write(next(inside.rglob("METADATA")), "elms-1.0.dist-info/METADATA")
    sys.path.append(str(archive))
    assert in_folders() is None
    assert not are_ours_alone(KINDS)


def test_an_egg_is_asked_of_python(tmp_path: Path) -> None:
    info = tmp_path / "elms.egg-info"
    info.mkdir()
    (info / "PKG-INFO").write_text("Metadata-Version: 2.1\nName: elms\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[backbud.species]\nelm of theirs = elms:Elm\n")
    sys.path.append(str(tmp_path))
    assert in_folders() is None
    assert not are_ours_alone(KINDS)
