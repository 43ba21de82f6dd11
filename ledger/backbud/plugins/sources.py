"""Importing a journal's plugins from the very bytes that were trusted, and from nowhere else.

The set is a package with a name of its own, so that its files import each other with a leading
dot; nothing else of the journal's folder can be imported, and no bytecode is read or written.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Mapping, Sequence
from hashlib import blake2b
from importlib import import_module
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from types import CodeType, ModuleType

from backbud.consent.place import PLUGINS

_PACKAGE_FILE = "__init__"


class Sources(MetaPathFinder, Loader):
    """Serves the modules of one set, and nothing else.

    `texts`: the text of each file by its path from the journal's folder; what is compiled is what
    was shown, whatever encoding the file names for itself.
    """

    def __init__(self, journal: str, digest: str, texts: Mapping[str, str]) -> None:
        # Two journals may hold the same files, and each has modules of its own.
        own = blake2b(f"{digest} {journal}".encode(errors="surrogateescape"), digest_size=16)
        self.package = f"journal_plugins_{own.hexdigest()}"
        self._journal, self._texts = journal, texts
        self._files: dict[str, str] = {}
        self._packages = {self.package}
        for name in texts:
            *folders, stem = name.removeprefix(f"{PLUGINS}/").removesuffix(".py").split("/")
            module = self.package
            for folder in folders:
                module = f"{module}.{folder}"
                self._packages.add(module)
            self._files[module if stem == _PACKAGE_FILE else f"{module}.{stem}"] = name

    def module_of(self, name: str) -> ModuleType:
        """Import one file of the set; whatever it raises."""
        module = next(module for module, file in self._files.items() if file == name)
        return import_module(module)

    def begin(self) -> None:
        """Serve from now on."""
        # Before every other finder, so that nothing else can stand in for the set.
        if self not in sys.meta_path:
            sys.meta_path.insert(0, self)

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """How a module of the set is made; None for every other."""
        name = self._files.get(fullname)
        if name is None and fullname not in self._packages:
            return None
        origin = self._filename(name or PLUGINS)
        # The empty path of a package lets no other finder look into a folder.
        return ModuleSpec(fullname, self, origin=origin, is_package=fullname in self._packages)

    def create_module(self, spec: ModuleSpec) -> None:
        """A module like any other."""

    def exec_module(self, module: ModuleType) -> None:
        """Run the text of a module."""
        name = self._files.get(module.__name__)
        if name is not None:
            exec(self._code(name), module.__dict__)

    def get_source(self, fullname: str) -> str | None:
        """The text of a module, for tracebacks."""
        name = self._files.get(fullname)
        return None if name is None else self._texts[name]

    def _code(self, name: str) -> CodeType:
        return compile(self._texts[name], self._filename(name), "exec", dont_inherit=True)

    def _filename(self, name: str) -> str:
        return f"{self._journal}/{name}"


def lines_of_names(tree: ast.Module) -> dict[str, int]:
    """The line on which each name of a module is given its value."""
    lines: dict[str, int] = {}
    for node in tree.body:
        if isinstance(node, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            lines[node.name] = node.lineno
        for target in _targets(node):
            lines[target] = node.lineno
    return lines


def interfaces_named(tree: ast.Module) -> list[tuple[object, int]]:
    """Each `interface = …` of a module and its classes, with its line, before any of it runs."""
    found: list[tuple[object, int]] = []
    bodies = [tree.body, *(node.body for node in tree.body if isinstance(node, ast.ClassDef))]
    for node in (node for body in bodies for node in body):
        if "interface" in _targets(node) and isinstance(node, ast.Assign | ast.AnnAssign):
            value = node.value.value if isinstance(node.value, ast.Constant) else None
            found.append((value, node.lineno))
    return found


def _targets(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.Assign):
        return [target.id for target in node.targets if isinstance(target, ast.Name)]
    if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
        return [node.target.id]
    return []
