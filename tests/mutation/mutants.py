"""Small changes of a module's code, one at a time: what a slip of the hand could have written instead.

Changed are comparisons, `and` and `or`, `not`, conditions, numbers, booleans, texts, arithmetic and returned values,
and statements are left out. Docstrings, `__all__`, types and the defaults of fields stay as they are.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from typing import Any

from attrs import frozen

__all__ = ["Mutant", "mutants_of"]

SWAPS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.FloorDiv,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
    ast.LShift: ast.RShift,
}
LEFT_OUT = (ast.Assign, ast.AugAssign, ast.Delete, ast.Expr, ast.Break, ast.Continue)
CHANGED_ITSELF = (ast.Compare, ast.BoolOp, ast.UnaryOp)


@frozen
class Mutant:
    """A module with one change: the function, the line, what stood there, what stands there now."""

    function: str
    line: int
    was: str
    now: str
    tree: ast.Module

    @property
    def name(self) -> str:
        """What the change is called, whatever line it stands in."""
        return f"{self.function}: {self.was} -> {self.now}"


def mutants_of(source: str) -> Iterator[Mutant]:
    """Every change of every function, and of every constant of the module."""
    tree = ast.parse(source)
    for path, function in _places(tree):
        for place, _ in enumerate(_changes(_node(tree, path))):
            changed = copy.deepcopy(tree)
            node = _node(changed, path)
            now = list(_changes(node))[place]
            _put(changed, path, ast.copy_location(now, node))
            was, is_now = _short(node), _short(now)
            yield Mutant(function, getattr(node, "lineno", 0), was, is_now, ast.fix_missing_locations(changed))


Path = tuple[tuple[str, int | None], ...]


def _places(tree: ast.Module) -> Iterator[tuple[Path, str]]:
    """Where something may be changed, with the qualified name of what it stands in."""
    for index, statement in enumerate(tree.body):
        path: Path = (("body", index),)
        if isinstance(statement, ast.FunctionDef):
            yield from _within(statement, path, statement.name)
        elif isinstance(statement, ast.ClassDef):
            for inner, method in enumerate(statement.body):
                if isinstance(method, ast.FunctionDef):
                    yield from _within(method, (*path, ("body", inner)), f"{statement.name}.{method.name}")
        elif isinstance(statement, ast.Assign) and isinstance(statement.targets[0], ast.Name):
            name = statement.targets[0].id
            if name != "__all__":
                yield from _inside(statement.value, (*path, ("value", None)), name)


def _within(function: ast.FunctionDef, path: Path, name: str) -> Iterator[tuple[Path, str]]:
    for index, statement in enumerate(function.body):
        if index == 0 and ast.get_docstring(function) is not None:
            continue
        yield from _inside(statement, (*path, ("body", index)), name)


def _inside(node: ast.AST, path: Path, name: str) -> Iterator[tuple[Path, str]]:
    yield path, name
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "ctx", "ops", "op"}:
            continue
        if isinstance(value, ast.AST):
            yield from _inside(value, (*path, (field, None)), name)
        elif isinstance(value, list):
            for index, item in enumerate(value):
                if isinstance(item, ast.AST):
                    yield from _inside(item, (*path, (field, index)), name)


def _node(tree: ast.AST, path: Path) -> Any:
    for field, index in path:
        tree = getattr(tree, field) if index is None else getattr(tree, field)[index]
    return tree


def _put(tree: ast.AST, path: Path, node: ast.AST) -> None:
    parent = _node(tree, path[:-1])
    field, index = path[-1]
    if index is None:
        setattr(parent, field, node)
    else:
        getattr(parent, field)[index] = node


def _changes(node: ast.AST) -> Iterator[ast.AST]:
    """What could stand for `node`, which is left as it is."""
    if isinstance(node, ast.Compare):
        for index, operator in enumerate(node.ops):
            for other in SWAPS.get(type(operator), ()):
                yield _with(node, ops=[*node.ops[:index], other(), *node.ops[index + 1 :]])
    elif isinstance(node, ast.BoolOp):
        yield _with(node, op=ast.Or() if isinstance(node.op, ast.And) else ast.And())
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.BinOp) and type(node.op) in OPERATORS:
        yield _with(node, op=OPERATORS[type(node.op)]())
    elif isinstance(node, ast.Constant):
        yield from _other_constant(node)
    elif isinstance(node, ast.If | ast.IfExp | ast.While) and not isinstance(node.test, CHANGED_ITSELF):
        yield _with(node, test=ast.UnaryOp(ast.Not(), node.test))
    elif isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        yield _with(node, value=ast.Constant(None))
    elif isinstance(node, LEFT_OUT):
        yield ast.Pass()


def _other_constant(node: ast.Constant) -> Iterator[ast.AST]:
    if isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node.value, int):
        yield ast.Constant(node.value + 1)
    elif isinstance(node.value, str):
        yield ast.Constant(node.value + "?")


def _with(node: ast.AST, **fields: Any) -> ast.AST:
    changed = copy.copy(node)
    for name, value in fields.items():
        setattr(changed, name, value)
    return changed


def _short(node: ast.AST) -> str:
    """The first line of what stands there."""
    first, *more = ast.unparse(node).splitlines()
    return first + (" ..." if more else "")
