"""Where rulesets are: shipped with the package, offered by an installed package, or a file somebody wrote.

Installed packages are asked only when a name is not shipped: asking is slow.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from attrs import evolve, frozen

from ..timeline.problems import Problem, ProblemsFound
from ..timeline.rules import KNOBS, Ruleset
from ..timeline.wording import did_you_mean, show

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

__all__ = ["GROUP", "Place", "file_at", "find", "is_path", "names", "shipped_names", "unreadable"]

GROUP = "rinkfold.rulesets"
"""The entry-point group: each name in it stands for a `Ruleset`, or for the path of a ruleset file."""

_NAME_PARTS = re.compile(r"[0-9]+|[^0-9]+")


@frozen
class Place:
    """A ruleset file.

    Attributes:
        name: what the ruleset is called.
        label: what messages call the file.
        path: the file, or a resource inside a package.
        shipped: whether it comes with this package.
    """

    name: str
    label: str
    path: Path
    shipped: bool = False

    @property
    def folder(self) -> Path | None:
        """Where relative paths in the file begin; None for what is shipped."""
        return self.path.parent if isinstance(self.path, Path) and not self.shipped else None

    @property
    def key(self) -> str:
        """The same for the same file, however it was named."""
        return self.label if self.shipped or not isinstance(self.path, Path) else str(self.path.resolve())

    def read(self) -> bytes:
        """The bytes of the file.

        Raises:
            ProblemsFound: it cannot be read.
        """
        try:
            return self.path.read_bytes()
        except OSError as error:
            raise ProblemsFound([unreadable(error, self.label)]) from None


def unreadable(error: OSError, file: str) -> Problem:
    """The problem of a ruleset file that the operating system does not give."""
    if isinstance(error, FileNotFoundError):
        message, fix = "There is no such file.", "Look for a wrong name or folder."
    elif isinstance(error, IsADirectoryError):
        message, fix = "This is a folder, not a ruleset file.", "Name the .toml file in it."
    else:
        message = f"The file cannot be read: {error.strerror or type(error).__name__}."
        fix = "Allow reading it, or work on a copy."
    return Problem(code="unreadable_ruleset", message=message, fix=fix, file=file)


def is_path(text: str) -> bool:
    """Whether `text` names a file and not a ruleset: it ends with ``.toml`` or has a folder in it."""
    return text.lower().endswith(".toml") or "/" in text or "\\" in text


def file_at(path: str | os.PathLike[str], label: str | None = None) -> Place:
    """The place of the ruleset file at `path`; the ruleset is called by the file's name without its ending."""
    return Place(Path(path).stem, label or os.fspath(path), Path(path))


def _builtin() -> Path:
    return Path(__file__).with_name("builtin")  # importlib.resources would cost each start as much as the engine


def shipped_names() -> tuple[str, ...]:
    """The names that come with this package; numbers in them are ordered as numbers."""
    stems = (each.name.removesuffix(".toml") for each in _builtin().iterdir() if each.name.endswith(".toml"))
    return tuple(sorted(stems, key=_natural))


def _natural(name: str) -> list[tuple[int, str]]:
    return [(int(part), "") if part.isdecimal() else (0, part) for part in _NAME_PARTS.findall(name)]


def _offered() -> dict[str, EntryPoint]:
    from importlib.metadata import entry_points

    return {point.name: point for point in entry_points(group=GROUP)}


def names() -> tuple[str, ...]:
    """Every name that `load` knows: what is shipped, then what installed packages offer.

    >>> names()[:3]
    ('adult', 'canada-youth', 'high-school')
    """
    shipped = shipped_names()
    return (*shipped, *sorted(set(_offered()) - set(shipped)))


def find(name: str) -> Place | Ruleset:
    """What stands behind `name`: a file, or the ready ruleset that an installed package offers.

    Raises:
        ProblemsFound: nothing does, or what an installed package offers is no ruleset, or not right.
    """
    if name in shipped_names():
        return Place(name, f"{name}.toml (shipped)", _builtin().joinpath(f"{name}.toml"), shipped=True)
    offered = _offered()
    if name in offered:
        return _from_package(offered[name])
    raise ProblemsFound([_unknown(name)])


def _from_package(point: EntryPoint) -> Place | Ruleset:
    try:
        found: Any = point.load()
    except (Exception, SystemExit) as error:  # an installed package may fail in any way, and is not asked to end us
        raise ProblemsFound([_broken(point, f"cannot be imported: {type(error).__name__}: {error}")]) from error
    if isinstance(found, Ruleset):
        _check_made(found, point)
        return _named(found, point)
    if isinstance(found, str | os.PathLike):
        return Place(point.name, os.fspath(found), Path(found))
    if hasattr(found, "read_bytes"):
        return Place(point.name, f"{point.name} ({point.value})", found)
    raise ProblemsFound([_broken(point, f"is a {type(found).__name__}")])


def _check_made(rules: Ruleset, point: EntryPoint) -> None:
    """Check what a package made in Python, which no file door has seen.

    Raises:
        ProblemsFound: every value in it that is none.
    """
    from ..timeline.knobs.checking import check_rules

    if problems := check_rules(rules):
        raise ProblemsFound(evolve(problem, file=f"{point.name} ({point.value})") for problem in problems)


def _named(rules: Ruleset, point: EntryPoint) -> Ruleset:
    """A package's ready ruleset under the name by which it is found again, each value with a source."""
    unsaid = dict.fromkeys(KNOBS, f"not said by the package ({point.value})")
    return evolve(rules, name=point.name, sources={**unsaid, **rules.sources})


def _broken(point: EntryPoint, why: str) -> Problem:
    return Problem(
        code="broken_ruleset_package",
        message=f'The ruleset "{point.name}" of an installed package ({point.value}) {why}.',
        fix=f"Expected a Ruleset or the path of a ruleset file; tell its author, or uninstall it (group {GROUP}).",
        field="ruleset",
    )


def _unknown(name: str) -> Problem:
    return Problem(
        code="unknown_ruleset",
        message=f"There is no ruleset {show(name)}.",
        fix=" ".join(_remedies(name)),
        field="ruleset",
    )


def _remedies(name: str) -> Iterator[str]:
    known = names()
    for file in (name, f"{name}.toml"):
        if name and Path(file).is_file():
            yield f"If the file is meant, write ./{file}."
    if near := did_you_mean(name, known):
        yield near
    yield f"The rulesets are {', '.join(known)}; a file is named by its path, for example ./our-league.toml."
