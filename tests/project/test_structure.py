"""The rules of the code itself: types, style, the one way of imports, the wheel."""

from __future__ import annotations

import ast
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def run(*command: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=cwd, capture_output=True, text=True, check=False)


def test_types_are_strict() -> None:
    done = run(sys.executable, "-m", "mypy")
    assert done.returncode == 0, done.stdout


# Each line but the first two says one word that is in no table.
MISSPELT = """\
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, days_after
def rule(tree: Tree, done: Event, year: Year) -> Proposals:
    done.has("intoo")
    done.says("heavvy")
    done.act == "unwraped"
    tree.last_of("repoted")
    after("prunned", rule="x")
    yield Proposal("fedd", days_after(done.day, 1, 2, 3), "", weight=CARE)
    yield Proposal("fed", days_after(done.day, 1, 2, 3), "", weight=CARE,
                   settled_by=("checked wyre",))
"""


def test_a_misspelt_act_or_detail_fails_in_the_type_checker(tmp_path: Path) -> None:
    misspelt, spelt = tmp_path / "misspelt.py", tmp_path / "spelt.py"
    misspelt.write_text(MISSPELT)
    spelt.write_text(
        MISSPELT.replace("intoo", "into")
        .replace("heavvy", "heavy")
        .replace("unwraped", "unwrapped")
        .replace("repoted", "repotted")
        .replace("prunned", "pruned")
        .replace("fedd", "fed")
        .replace("wyre", "wire")
    )
    done = run(sys.executable, "-m", "mypy", "--no-error-summary", str(misspelt), str(spelt))
    told = [line.split(":") for line in done.stdout.splitlines() if ": error:" in line]
    wrong = [(Path(file).name, int(number)) for file, number, *_ in told]
    assert wrong == [("misspelt.py", n) for n in (3, 4, 5, 6, 7, 8, 10)], done.stdout


def test_acts_are_told_apart_where_the_type_checker_looks() -> None:
    """It looks at `event.act == "…"` and `event.was("…")`, not into `event.act in ("…", "…")`, nor
    into the cases of a `match`; a constant of a typed name it looks into."""
    blind = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for folder in ("ledger", "plugins")
        for path in sorted((ROOT / folder).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text()))
        if _is_blind(node)
    ]
    assert blind == []


def _is_blind(node: ast.AST) -> bool:
    if isinstance(node, ast.Match):
        return _is_a_word(node.subject)
    return (
        isinstance(node, ast.Compare)
        and _is_a_word(node.left)
        and any(isinstance(one, ast.Tuple | ast.Set | ast.List) for one in node.comparators)
    )


def _is_a_word(node: ast.AST) -> bool:
    """`event.act`, `detail.name`, `d.name`."""
    if not isinstance(node, ast.Attribute):
        return False
    whose = node.value.id if isinstance(node.value, ast.Name) else ""
    return node.attr in ("act", "named") or (node.attr == "name" and whose in ("d", "detail"))


def test_what_is_blind_is_found() -> None:
    told = "if detail.name in ('with', 'how'): pass\nmatch one.act:\n    case 'fed': pass\n"
    assert [_is_blind(node) for node in ast.walk(ast.parse(told))].count(True) == 2
    assert not any(map(_is_blind, ast.walk(ast.parse("work.state in ('done', 'skipped')"))))


# Tables may be as long as what they list.
TABLES = {
    "grammar/backbud_grammar/acts/words.py",
    "grammar/backbud_grammar/acts/branches.py",
    "grammar/backbud_grammar/scribbles/details_said.py",
}
LONGEST = 400


def test_no_file_is_longer_than_one_can_hold_in_mind() -> None:
    long = {
        path.relative_to(ROOT).as_posix()
        for folder in ("ledger", "grammar", "plugins")
        for path in (ROOT / folder).rglob("*.py")
        if len(path.read_text("utf-8").splitlines()) > LONGEST
    }
    assert long - TABLES == set()


def test_style_is_clean() -> None:
    done = run(sys.executable, "-m", "ruff", "check", ".")
    assert done.returncode == 0, done.stdout
    done = run(sys.executable, "-m", "ruff", "format", "--check", ".")
    assert done.returncode == 0, done.stdout


def test_imports_run_one_way() -> None:
    done = run(str(Path(sys.executable).with_name("lint-imports")))
    assert done.returncode == 0, done.stdout
    assert "0 broken" in done.stdout


@pytest.mark.slow
def test_the_wheel_installed_elsewhere_compiles_a_journal(tmp_path: Path) -> None:
    built = run(sys.executable, "-m", "build", "--wheel", "--outdir", str(tmp_path / "dist"))
    assert built.returncode == 0, built.stdout + built.stderr
    (wheel,) = (tmp_path / "dist").glob("*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    tops = {name.split("/")[0] for name in names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {
        "backbud",
        "backbud_grammar",
        "backbud_species",
    }
    assert "backbud/views/schema.json" in names
    assert all(f"{top}/py.typed" in names for top in tops if not top.endswith(".dist-info"))

    venv.create(tmp_path / "venv")
    python = next((tmp_path / "venv").glob("[bS]*/python*"))
    pip = (sys.executable, "-m", "pip", "--python", str(python))
    installed = run(*pip, "install", "--quiet", "--no-compile", str(wheel))
    assert installed.returncode == 0, installed.stderr
    backbud = str(python.with_name("backbud"))
    begun = run(backbud, "begin", str(tmp_path / "journal"), cwd=tmp_path)
    assert begun.returncode == 0, begun.stderr
    made = run(backbud, "make", str(tmp_path / "journal"), cwd=tmp_path)
    assert made.returncode == 0, made.stderr
    assert (tmp_path / "journal/made/index.html").stat().st_size > 1000
    assert b"BEGIN:VEVENT" in (tmp_path / "journal/made/calendars/all.ics").read_bytes()
