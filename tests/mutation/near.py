"""The core, its tests, and which of them are near to a change."""

from __future__ import annotations

import ast
from collections import Counter, defaultdict
from collections.abc import Hashable, Iterable, Mapping, Sequence
from functools import cache, reduce
from itertools import accumulate, chain, zip_longest
from operator import or_
from pathlib import Path

from mutants import Mutant, walked
from reach import EVERY_LINE, ROOT, Reached

CORE = ("ledger/backbud/plan", "ledger/backbud/collection", "ledger/backbud/climate",
        "ledger/backbud/species", "plugins/backbud_species/habits")  # fmt: skip
NEAR = ("plan", "collection", "climate", "species", "visits", "views", "front", "plugins",
        "problems", "language")  # fmt: skip
ALSO_NEAR = ("project/test_examples_in_docstrings.py",)
# Random ones, so that a survivor is one twice.
LEFT_OUT = ("test_random_diaries", "test_fuzz")
SPECIES = "plugins/backbud_species/"
# Tables that hold each species, and each group of them, by itself: its numbers and usual days, its
# works day by day, and what is asked for after a work.
TABLES = (
    "tests/species/test_groups.py::test_what_a_group_gives_is_in_the_table[",
    "tests/species/test_after_works.py::test_what_a_species_asks_for_after_a_work_is_in_the_table[",
    "tests/species/test_numbers.py::test_the_numbers_of_a_species_are_those_of_the_table[",
    "tests/species/test_first_years.py::"
    "test_the_first_year_of_a_species_is_what_its_rules_propose[",
)
# The second table of all figures that a keeper may set.
FIGURES = "tests/plan/test_figures.py::"
# No test may take more than this share of the time that there is for a change.
LARGEST_SHARE = 0.2
# Tests of one function by itself: all are asked, and first.
QUICK_S = 0.005


def core() -> list[Path]:
    """The files of the core."""
    return [path for folder in CORE for path in sorted((ROOT / folder).rglob("*.py"))]


def species_files() -> list[Path]:
    """The files of single species, which are no part of the core: all that they say is told by
    tables."""
    return sorted((ROOT / SPECIES).glob("*.py"))


def near_tests() -> list[Path]:
    """The test files that may run."""
    found = [path for name in NEAR for path in sorted((ROOT / "tests" / name).glob("test_*.py"))]
    found += [ROOT / "tests" / name for name in ALSO_NEAR]
    return [path for path in found if path.stem not in LEFT_OUT]


def importers(files: Sequence[Path]) -> dict[str, set[str]]:
    """By file the files that import from it, or from the package that offers it, and it itself."""
    modules = {str(path.relative_to(ROOT)): module_of(path) for path in files}
    texts = {name: (ROOT / name).read_text() for name in modules}
    of_module = {module: texts[name] for name, module in modules.items()}

    def faces(module: str) -> list[str]:
        package = module.rpartition(".")[0]
        offered = f"from {module} import" in of_module.get(package, "")
        return [module, package] if offered else [module]

    return {
        name: {name}
        | {
            by
            for by, text in texts.items()
            if any(f"from {face} import" in text for face in faces(module))
        }
        for name, module in modules.items()
    }


def module_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts[1:]
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def chosen_tests(
    file: str,
    mutant: Mutant,
    found: Sequence[Reached],
    users: Mapping[str, set[str]],
    most_s: float,
) -> dict[str, float]:
    """The tests that reach the changed statement, the nearest first, no longer than `most_s`.

    With each the seconds that it takes by itself. Of a name those that reach where it is used; of
    all else that acts on import the module's.
    """
    if mutant.in_function:
        wanted = {file: _bits(range(mutant.lines[0], mutant.lines[1] + 1))}
    else:
        names = names_set(mutant)
        wanted = {user: _uses(user, names) for user in users[file]}
        if not any(wanted.values()):
            # A table is used by what stands beside it.
            beside = {name for name in users if Path(name).parent == Path(file).parent}
            wanted = dict.fromkeys(users[file] | beside, EVERY_LINE)
    near = {Path(file).stem, "threshold", "first_years" if "habits" in file else "threshold"}
    reaching = [
        one
        for one in found
        if one.seconds <= LARGEST_SHARE * most_s
        and any(lines & one.lines.get(name, 0) for name, lines in wanted.items())
    ]
    within = _function_around(file, mutant) if mutant.in_function else 0
    exact = [one.lines[file] for one in reaching if one.lines.get(file, -1) != EVERY_LINE]
    rarity = _rarity([lines & within for lines in exact])
    ranked = []
    for one in reaching:
        lines = one.lines.get(file, 0)
        known = mutant.in_function and lines != EVERY_LINE
        stem = Path(one.test.partition("::")[0]).stem
        far = not any(word in stem for word in near)
        alike = lines if known else one.test.partition("[")[0]
        ranked.append((-rarity.get(lines & within, 0.0) if known else 0.0, far, alike, one))
    ranked.sort(key=lambda each: (*each[:2], each[3].seconds))
    quick = [one for _, _, _, one in ranked if one.seconds <= QUICK_S]
    others = [(alike, one) for _, _, alike, one in ranked if one.seconds > QUICK_S]
    beside = [one for _, far, _, one in ranked if not far]
    # Rare ways and the file's own tests in turn: a bound is often seen where nothing rare happens.
    turns = chain.from_iterable(zip_longest(_spread(others), beside))
    first = [one for one in found if one.test.startswith(FIGURES) and not mutant.in_function]
    chosen = list({one.test: one for one in (*first, *quick, *turns) if one is not None}.values())
    passed = accumulate(one.seconds for one in chosen)
    return {
        one.test: one.seconds for one, until in zip(chosen, passed, strict=True) if until <= most_s
    }


def tables_of(file: str, found: Sequence[Reached]) -> dict[str, float]:
    """The tests that hold the species that use a file to their tables, the nearest species first;
    and that of the figures."""
    kinds = kinds_by_distance(file)
    held = [(-1, one) for one in found if one.test.startswith(FIGURES)]
    held += [
        (kinds[kind], one)
        for one in found
        if one.test.startswith(TABLES)
        if (kind := one.test.rpartition("[")[2].rpartition("-")[2].rstrip("]")) in kinds
    ]
    held.sort(key=lambda each: each[0])
    return {one.test: one.seconds for _, one in held}


@cache
def kinds_by_distance(file: str) -> dict[str, int]:
    """By class of a species or group how many imports there are from it to the file."""
    texts = {module_of(path): path.read_text() for path in sorted((ROOT / SPECIES).rglob("*.py"))}
    distances, todo = {module_of(ROOT / file): 0}, [module_of(ROOT / file)]
    for module in todo:
        for by, text in texts.items():
            if by not in distances and f"from {module} import" in text:
                distances[by] = distances[module] + 1
                todo.append(by)
    return {
        node.name: distance
        for module, distance in distances.items()
        for node in ast.parse(texts[module]).body
        if isinstance(node, ast.ClassDef)
    }


def _function_around(file: str, mutant: Mutant) -> int:
    """The lines of the function of a module or class that a change is in, as bits."""
    spans = [
        (node.lineno, node.end_lineno or node.lineno)
        for node in ast.walk(parsed(file))
        if isinstance(node, ast.FunctionDef) and node.lineno <= mutant.lines[0]
    ]
    around = [(first, last) for first, last in spans if last >= mutant.lines[1]]
    first, last = max(around, default=mutant.lines)
    return _bits(range(first, last + 1))


def _rarity(ways: Sequence[int]) -> dict[int, float]:
    """By the lines of one function that a test runs through how rare they are among the tests.

    What few tests run through is seen by few tests, and these are the ones to ask first.
    """
    counts: Counter[int] = Counter()
    different = Counter(ways)
    for lines, times in different.items():
        for line in _lines_in(lines):
            counts[line] += times
    return {
        lines: max((1 / counts[line] for line in _lines_in(lines)), default=0.0)
        for lines in different
    }


def _lines_in(bits: int) -> list[int]:
    return [n for n in range(bits.bit_length()) if bits >> n & 1]


def _bits(lines: Iterable[int]) -> int:
    return reduce(or_, (1 << line for line in lines), 0)


@cache
def parsed(file: str) -> ast.Module:
    return ast.parse((ROOT / file).read_text())


def _uses(file: str, names: set[str]) -> int:
    """The lines of a file where a statement begins that uses one of the names, as bits."""
    return _bits(
        line
        for node, stmt, _ in walked(parsed(file))
        if isinstance(node, ast.Name) and node.id in names and isinstance(node.ctx, ast.Load)
        for line in (stmt.lineno, node.lineno)
    )


def _spread(tests: Sequence[tuple[Hashable, Reached]]) -> list[Reached]:
    """The tests of every sort in turn, so that what is alike does not come first."""
    alike: dict[Hashable, list[Reached]] = defaultdict(list)
    for sort, test in tests:
        alike[sort].append(test)
    most = max(map(len, alike.values()), default=0)
    return [some[at] for at in range(most) for some in alike.values() if at < len(some)]


def names_set(mutant: Mutant) -> set[str]:
    """The names that the changed statement of a module gives a value."""
    match statement_of(mutant):
        case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
            return {name}
        case ast.Assign(targets=[ast.Tuple(elts=names)]):
            return {name.id for name in names if isinstance(name, ast.Name)}
    return set()


def statement_of(mutant: Mutant) -> ast.stmt | None:
    return next((s for s in mutant.tree.body if s.lineno == mutant.lines[0]), None)
