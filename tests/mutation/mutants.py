"""The small changes that could be made to a source file, each of which a test should see."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import NamedTuple

_OTHER_COMPARISON: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
_OTHER_SUM: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
}  # fmt: skip
_OTHER_CHOICE = {"min": "max", "max": "min", "any": "all", "all": "any"}
# What only says how a value is kept, or how it is shown to whoever mends the program.
_KEEPING = ("dataclass", "lru_cache", "__repr__")


class Mutant(NamedTuple):
    """One change. `lines`: of the statement it is in; `in_function`: else it acts on import."""

    line: int
    lines: tuple[int, int]
    in_function: bool
    was: str
    becomes: str
    source: str
    number: int

    @property
    def tree(self) -> ast.Module:
        """The module as it is after the change."""
        tree = ast.parse(self.source)
        for n, (_, _, _, change) in enumerate(_every(tree)):
            if n == self.number:
                change[2]()
                return ast.fix_missing_locations(tree)
        raise LookupError(self.said)

    @property
    def said(self) -> str:
        return f"{self.line}: {self.was} → {self.becomes}"


def mutants_of(source: str, thresholds: bool = False) -> Iterator[Mutant]:
    """Every change of a source, in the order of its lines; or only those of thresholds."""
    for n, (node, stmt, in_function, change) in enumerate(_every(ast.parse(source))):
        if thresholds and not _is_threshold(node):
            continue
        line = getattr(node, "lineno", stmt.lineno)
        was, becomes, _, _ = change
        yield Mutant(line, _lines_of(stmt), in_function, was, becomes, source, n)


def _every(tree: ast.Module) -> Iterator[tuple]:
    """Each node that may be changed, its statement, whether it acts in a function; the change."""
    for node, stmt, in_function in walked(tree):
        for change in _changes(node):
            yield node, stmt, in_function, change


def _is_threshold(node: ast.AST) -> bool:
    if isinstance(node, ast.Compare):
        return any(isinstance(op, ast.Lt | ast.LtE | ast.Gt | ast.GtE) for op in node.ops)
    return isinstance(node, ast.Constant) and isinstance(node.value, int | float)


def _lines_of(stmt: ast.stmt) -> tuple[int, int]:
    """The lines of a statement; of one with a body only its head."""
    body = getattr(stmt, "body", None)
    last = stmt.end_lineno or stmt.lineno
    return stmt.lineno, max(stmt.lineno, body[0].lineno - 1) if body else last


def walked(tree: ast.Module) -> Iterator[tuple[ast.AST, ast.stmt, bool]]:
    """Each node that does something, with its statement; no prose, no annotation."""
    todo: list[tuple[ast.AST, ast.stmt, bool]] = [(s, s, False) for s in reversed(tree.body)]
    while todo:
        node, stmt, inside = todo.pop()
        if isinstance(node, ast.stmt):
            stmt = node
        if isinstance(node, ast.Assert | ast.Raise | ast.Import | ast.ImportFrom):
            continue
        if _name_of(node) in _KEEPING or (isinstance(node, ast.keyword) and node.arg == "strict"):
            continue
        yield node, stmt, inside
        function = isinstance(node, ast.FunctionDef | ast.Lambda)
        children = []
        for name, value in ast.iter_fields(node):
            if name in ("annotation", "returns", "args" if function else "", "type_params"):
                continue
            if isinstance(node, ast.ClassDef) and name == "keywords":
                continue
            within = inside or (function and name == "body")
            for child in value if isinstance(value, list) else [value]:
                if isinstance(child, ast.AST):
                    children.append((child, stmt, within))
        todo.extend(reversed(children))


def _name_of(node: ast.AST) -> str:
    """The name of a function that is made or called by it."""
    match node:
        case ast.FunctionDef(name=name) | ast.Call(func=ast.Name(id=name)):
            return name
    return ""


def _changes(node: ast.AST) -> Iterator[tuple]:
    """What may be changed of a node: what it was, what it becomes, how to do and to undo it."""

    def put(field: str, new: object, at: int | None = None) -> tuple:
        old = getattr(node, field)
        whole = list(old) if at is not None else None
        was = _shown(node)

        def change() -> None:
            if at is None:
                setattr(node, field, new)
            else:
                old[at : at + 1] = [] if new is None else [new]

        def undo() -> None:
            if at is None:
                setattr(node, field, old)
            else:
                old[:] = whole

        change()
        becomes = _shown(node)
        undo()
        return was, becomes, change, undo

    match node:
        case ast.Compare(ops=ops):
            for i, op in enumerate(ops):
                yield put("ops", _OTHER_COMPARISON[type(op)](), i)
        case ast.BoolOp(op=op, values=values):
            yield put("op", ast.Or() if isinstance(op, ast.And) else ast.And())
            for i in range(len(values)):
                left = [*values[:i], *values[i + 1 :]]
                # There is none with one term: `a and a` is `a`.
                yield put("values", left if len(left) > 1 else left * 2)
        case ast.Constant(value=bool() as value):
            yield put("value", not value)
        case ast.Constant(value=int() as value):
            yield put("value", value + 1)
            yield put("value", value - 1)
        case ast.Constant(value=float() as value):
            yield put("value", value * 1.1 if value else 1.0)
            yield put("value", value * 0.9 if value else -1.0)
        case ast.BinOp(op=op) if type(op) in _OTHER_SUM:
            yield put("op", _OTHER_SUM[type(op)]())
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            twice = ast.UnaryOp(ast.Not(), operand)
            yield put("operand", ast.copy_location(twice, node))
        case ast.If(test=test) | ast.While(test=test) | ast.IfExp(test=test):
            yield put("test", ast.copy_location(ast.UnaryOp(ast.Not(), test), test))
        case ast.comprehension(ifs=ifs):
            for i, test in enumerate(ifs):
                yield put("ifs", ast.copy_location(ast.UnaryOp(ast.Not(), test), test), i)
        case ast.Return(value=value) if value is not None and not isinstance(value, ast.Constant):
            yield put("value", ast.copy_location(ast.Constant(None), value))
        case ast.Call(func=ast.Name(id=name) as func) if name in _OTHER_CHOICE:
            yield put("func", ast.copy_location(ast.Name(_OTHER_CHOICE[name], ast.Load()), func))


def _shown(node: ast.AST) -> str:
    """A node on one line; of a statement with a body its condition only."""
    if isinstance(node, ast.If | ast.While):
        return f"if {ast.unparse(node.test)}"
    if isinstance(node, ast.comprehension):
        return ast.unparse(node).strip()
    return " ".join(ast.unparse(node).split())
