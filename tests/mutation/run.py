"""Changes the core in small ways, one at a time, and tells which changes no test sees.

    nice -n 15 python tests/mutation/run.py --all plan/settle.py --sample 500 --seed 1 plan

Each change is tried in a fork of its own, in memory: no file is touched. Only tests that reach
the changed statement run, the quickest first, until one fails. Exit status 1 under 85 %.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import random
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Mapping
from functools import cache
from hashlib import blake2b
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from mutants import Mutant, mutants_of
from near import (
    SPECIES,
    chosen_tests,
    core,
    importers,
    near_tests,
    species_files,
    tables_of,
)
from reach import ROOT, reached
from trying import (
    ALL_PASS,
    ONE_FAILS,
    OUT_OF_TIME,
    QUIET,
    Ended,
    InPlace,
    Tried,
    load_all_but_species,
    load_others,
    on_import,
    settable,
)

WANTED = 0.85
# Where the result is told; what pytest prints goes nowhere.
TOLD = os.fdopen(os.dup(1), "w", buffering=1)


def in_name(path: Path) -> str:
    """A file as it is named on the command line: `plan/settle.py`."""
    name = str(path.relative_to(ROOT))
    for root in ("ledger/backbud/", "plugins/backbud_species/"):
        name = name.removeprefix(root)
    return name


class Tally:
    """Counts, and tells each change that no test saw."""

    def __init__(self, total: int, memory: Killed) -> None:
        self.memory = memory
        self.total, self.done, self.killed, self.not_tried = total, 0, 0, 0
        self.by_file: dict[str, list[int]] = defaultdict(lambda: [0, 0])
        self.begun = time.monotonic()

    def __call__(self, tried: Tried, ended: Ended) -> None:
        where = f"{tried.file}:{tried.mutant.said}"
        if ended.how not in (ALL_PASS, ONE_FAILS, OUT_OF_TIME):
            self.not_tried += 1
            print(f"not tried {where}", file=TOLD)
            return
        self.done += 1
        seen = ended.how != ALL_PASS
        if seen:
            self.memory.keep(tried, ended)
        self.killed += seen
        self.by_file[tried.file][0] += seen
        self.by_file[tried.file][1] += 1
        if not seen:
            print(f"survived  {where}  ({len(tried.tests)} tests)", file=TOLD)
        if self.done % 50 == 0:
            passed = time.monotonic() - self.begun
            print(f"# {self.done} of {self.total}, {self.killed} killed, {passed:.0f} s", file=TOLD)

    def told(self) -> int:
        """Tell the sum; the exit status."""
        for file, (killed, of) in sorted(self.by_file.items()):
            print(f"{killed:4} of {of:4}  {killed / of:4.0%}  {file}", file=TOLD)
        share = self.killed / max(1, self.done)
        print(f"{self.killed} of {self.done} killed: {share:.1%}", file=TOLD)
        return 0 if share >= WANTED and self.done == self.total else 1


class Killed:
    """Remembers which test saw which change, as long as the changed function and the test stay."""

    def __init__(self, kept: Path) -> None:
        self.folder = kept / "killed"
        self.folder.mkdir(parents=True, exist_ok=True)

    def keep(self, tried: Tried, ended: Ended) -> None:
        # What ran out of time is tried again.
        if ended.by:
            said = json.dumps([ended.how, ended.by, _digest(_text_of(ended.by))])
            self._at(tried).write_text(said)

    def recalled(self, tried: Tried) -> Ended | None:
        place = self._at(tried)
        if not place.exists():
            return None
        how, by, digest = json.loads(place.read_text())
        return Ended(how, by) if _digest(_text_of(by)) == digest else None

    def _at(self, tried: Tried) -> Path:
        return self.folder / _digest(
            f"{tried.file} {change_keys(tried.mutant.source)[tried.mutant.number]}"
        )


@cache
def change_keys(source: str) -> dict[int, str]:
    """By number of a change what it is the same by in a later source: the text of the function or
    statement that it is in, what becomes of what, and which of those that are alike."""
    keys: dict[int, str] = {}
    alike: Counter[str] = Counter()
    tree = ast.parse(source)
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    lines = source.splitlines()
    # The innermost comes last.
    spans = sorted((s.lineno, -(s.end_lineno or s.lineno)) for s in {*tree.body, *functions})
    for mutant in mutants_of(source):
        around = [(first, -last) for first, last in spans if first <= mutant.lines[0] <= -last]
        first, last = around[-1]
        key = f"{lines[first - 1 : last]} {mutant.was} {mutant.becomes}"
        alike[key] += 1
        keys[mutant.number] = f"{alike[key]} {key}"
    return keys


def _text_of(test: str) -> str:
    """The text of a test function, or nothing where it is no more."""
    file, *_, name = test.split("::")
    return _functions(file).get(name.partition("[")[0], "")


@cache
def _functions(file: str) -> dict[str, str]:
    path = ROOT / file
    if not path.exists():
        return {}
    text = path.read_text()
    tree = ast.walk(ast.parse(text))
    found = [node for node in tree if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    return {node.name: ast.get_source_segment(text, node) or "" for node in found}


def _digest(text: str) -> str:
    return blake2b(text.encode(), digest_size=12).hexdigest()


def changes(options: argparse.Namespace) -> list[tuple[Path, Mutant]]:
    """All changes of the files named whole, and the sample of the others."""
    whole = [path for path in core() if in_name(path) in options.all]
    missing = set(options.all) - {in_name(path) for path in whole}
    if missing:
        sys.exit(f"no file of the core: {', '.join(sorted(missing))}")
    out = [
        (path, mutant)
        for path in whole
        for mutant in mutants_of(path.read_text(), options.thresholds)
    ]
    others = [
        path
        for path in core()
        if path not in whole and in_name(path).startswith(tuple(options.where))
    ]
    rest = (
        []
        if not options.sample
        else [
            (path, mutant)
            for path in others
            for mutant in mutants_of(path.read_text(), options.thresholds)
        ]
    )
    print(
        f"# {len(out)} changes of the files named whole; {len(rest)} possible elsewhere", file=TOLD
    )
    lot = random.Random(options.seed)
    drawn = lot.sample(rest, min(options.sample, len(rest)))
    return drawn if options.elsewhere else out + drawn


def acts_on_import(one: Tried, users: Mapping[str, set[str]]) -> bool:
    """Whether a change acts when its module is imported; so does what makes rules, and no test."""
    return not one.tests if one.mutant.in_function else not settable(one, users)


def main() -> int:
    """Try the changes that the command line asks for."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--all", action="append", default=[], metavar="plan/settle.py")
    parser.add_argument("--sample", type=int, default=0, help="so many changes elsewhere")
    parser.add_argument(
        "--elsewhere", action="store_true", help="only the sample, none of what is named whole"
    )
    parser.add_argument("--thresholds", action="store_true", help="only numbers and < <= > >=")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=20.0, help="of tests for one change")
    parser.add_argument("--kept", type=Path, default=ROOT / ".mutation", help="what tests reach")
    parser.add_argument("where", nargs="*", default=[""], help="sample only here: plan, climate/")
    options = parser.parse_args()
    os.chdir(ROOT)
    found = reached(core(), near_tests(), options.kept)
    # What a group of species sets is used by species too.
    users = importers([*core(), *species_files()])
    asked = [(str(path.relative_to(ROOT)), mutant) for path, mutant in changes(options)]
    tally = Tally(len(asked), memory := Killed(options.kept))
    load_others()
    inside, of_species = [], []
    for name, mutant in asked:
        one = Tried(name, mutant, {})
        if before := memory.recalled(one):
            tally(one, before)
            continue
        one = one._replace(tests=chosen_tests(name, mutant, found, users, options.seconds))
        if one.file.startswith(SPECIES) and acts_on_import(one, users):
            of_species.append(one._replace(tests=tables_of(one.file, found)))
        elif one.mutant.in_function or settable(one, users):
            inside.append(one)
        else:
            tally(one, on_import(one))
    if of_species:
        load_all_but_species()
    for one in of_species:
        tally(one, on_import(one))
    if inside:
        files = sorted({name.partition("::")[0] for one in inside for name in one.tests})
        with open(os.devnull, "w") as nowhere:
            os.dup2(nowhere.fileno(), 1)
        pytest.main([*QUIET, *files], plugins=[InPlace(inside, tally, TOLD)])
    return tally.told()


if __name__ == "__main__":
    sys.exit(main())
