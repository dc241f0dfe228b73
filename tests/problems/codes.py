"""The codes of problems, as they stand in the sources: wherever one is written, and where one is passed on."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import rinkfold

__all__ = ["codes_in", "found_in", "passed_on"]

ROOT = Path(rinkfold.__file__).resolve().parent
MAKERS = {"WrongValue": 0, "_not_empty": 0, "refuse": 0, "_bad": 1, "_odd": 0, "Refused": 1, "_refuse": 2, "fail": 2}
"""Functions that take a code, and at which place."""


def found_in(package: str) -> dict[str, set[str]]:
    """Every code that the sources of `package` write, with the files that do."""
    found: dict[str, set[str]] = {}
    for path in sorted((ROOT / package).rglob("*.py")):
        for code in codes_in(ast.parse(path.read_text(encoding="utf-8"))):
            found.setdefault(code, set()).add(path.relative_to(ROOT).as_posix())
    return found


def codes_in(tree: ast.AST) -> Iterator[str]:
    """The codes that are written in one module."""
    for node in ast.walk(tree):
        match node:
            case ast.Call(func=func, args=args, keywords=keywords):
                name = func.id if isinstance(func, ast.Name) else getattr(func, "attr", "")
                if name in MAKERS and len(args) > MAKERS[name]:
                    yield from _strings(args[MAKERS[name]])
                if name not in ("Refusal", "Kind"):
                    yield from (text for word in keywords if word.arg == "code" for text in _strings(word.value))
            case ast.Assign(targets=[ast.Tuple(elts=names)], value=ast.Tuple(elts=values)):
                for target, value in zip(names, values, strict=True):
                    if isinstance(target, ast.Name) and target.id == "code":
                        yield from _strings(value)
            case ast.FunctionDef(name="_reason"):
                for inner in ast.walk(node):
                    if isinstance(inner, ast.Return) and isinstance(inner.value, ast.Tuple):
                        yield from _strings(inner.value.elts[0])
            case ast.FunctionDef(args=arguments):
                pairs = [*zip(reversed(arguments.args), reversed(arguments.defaults), strict=False)]
                named = zip(arguments.kwonlyargs, arguments.kw_defaults, strict=True)
                pairs += [(name, given) for name, given in named if given is not None]
                yield from (text for name, given in pairs if name.arg == "code" for text in _strings(given))


def passed_on(package: str) -> set[str]:
    """Where a code is no text but comes from elsewhere, as ``file: expression``."""
    found = set()
    for path in sorted((ROOT / package).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                found |= {
                    f"{path.relative_to(ROOT).as_posix()}: {ast.unparse(word.value)}"
                    for word in node.keywords
                    if word.arg == "code" and not [*_strings(word.value)]
                }
    return found


def _strings(node: ast.expr) -> Iterator[str]:
    """The strings that an expression can come to, as far as they are written in it."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _strings(node.body)
        yield from _strings(node.orelse)
