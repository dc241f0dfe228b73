"""A module of the fold with other code in it for a while, wherever its functions were imported to.

The changed code is compiled apart. Functions keep being the same objects and get the changed code; constants of the
module are replaced in every module of the fold that imported them.
"""

from __future__ import annotations

import functools
import importlib
import pkgutil
from collections.abc import Iterator
from contextlib import contextmanager
from inspect import getattr_static
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

from rinkfold.timeline import fold

__all__ = ["NothingChanges", "fold_module", "source_of", "swapped"]


class NothingChanges(ValueError):
    """The changed code does what the code did: no function and no constant is another one."""


def fold_module(name: str) -> ModuleType:
    """The module of the fold with this name."""
    return importlib.import_module(f"{fold.__name__}.{name}")


@functools.cache
def source_of(module: ModuleType) -> str:
    """The source of a module, as it was when first asked for."""
    assert module.__file__ is not None
    return Path(module.__file__).read_text(encoding="utf-8")


@contextmanager
def swapped(module: ModuleType, changed: CodeType) -> Iterator[None]:
    """`module` as if `changed` were its code; afterwards it is as before.

    Raises `NothingChanges` if no function and no constant differs.
    """
    before = compile(source_of(module), module.__file__ or "", "exec", dont_inherit=True)
    functions = _changed_functions(module, before, changed)
    constants = [] if functions else _changed_constants(module, changed)
    if not functions and not constants:
        raise NothingChanges(module.__name__)
    originals = [(function, function.__code__) for function, _ in functions]
    try:
        for function, code in functions:
            function.__code__ = code
        for user, name, _, value in constants:
            setattr(user, name, value)
        yield
    finally:
        for function, code in originals:
            function.__code__ = code
        for user, name, value, _ in constants:
            setattr(user, name, value)


def _changed_functions(module: ModuleType, before: CodeType, changed: CodeType) -> list[tuple[FunctionType, CodeType]]:
    known = dict(_codes(before))
    return [
        (function, code)
        for name, code in _codes(changed)
        if code != known.get(name) and (function := _function(module, name)) is not None
    ]


def _codes(code: CodeType) -> Iterator[tuple[str, CodeType]]:
    """The code of every function and class body that can be reached by its qualified name."""
    for constant in code.co_consts:
        if isinstance(constant, CodeType) and "<" not in constant.co_qualname:
            yield constant.co_qualname, constant
            yield from _codes(constant)


def _function(module: ModuleType, qualified: str) -> FunctionType | None:
    """The function, or the getter of the property, with this name; ``None`` for a class."""
    found: Any = module
    for name in qualified.split("."):
        found = getattr_static(found, name)
    found = found.fget if isinstance(found, property) else found
    return found if isinstance(found, FunctionType) else None


def _changed_constants(module: ModuleType, changed: CodeType) -> list[tuple[ModuleType, str, Any, Any]]:
    """Where each constant that differs is known: the module, the name, the value, and the other value."""
    other = {name: getattr(module, name) for name in ("__name__", "__package__", "__file__")}
    exec(changed, other)
    differ = [
        (name, value, other[name])
        for name, value in vars(module).items()
        if not name.startswith("__") and not callable(value) and name in other and other[name] != value
    ]
    users = [fold_module(found.name) for found in pkgutil.iter_modules(fold.__path__)]
    return [
        (user, name, value, instead)
        for name, value, instead in differ
        for user in users
        if vars(user).get(name) is value
    ]
