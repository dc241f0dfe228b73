"""Files that a command writes: whole or not at all, and never over what somebody may want to keep."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from ..timeline.record.files import file_problem
from .errors import refuse

__all__ = ["check_free", "replace_file"]


def check_free(target: str, game: str, what: str, *, force: bool) -> None:
    """Refuse a file that must not be written over; `what` is written to it: ``"table"``.

    Raises:
        ProblemsFound: it is the log `game` itself, a folder or a device, or there already without `force`.
    """
    path = Path(target)
    own_name = f"Give the {what} a name of its own."
    if not path.exists():
        return
    if Path(game).exists() and os.path.samefile(path, game):
        refuse("bad_target", f"{target} is the log itself.", own_name)
    if path.is_dir():
        refuse("bad_target", f"{target} is a folder.", own_name)
    if not path.is_file():
        refuse("bad_target", f"{target} is a pipe or a device.", own_name)
    if not force:
        refuse("file_exists", f"{target} is there already.", "Choose another name, or overwrite it with --force.")


def replace_file(path: Path, data: bytes) -> None:
    """Put `data` in the place of `path` once all of it is on the disk.

    Raises:
        ProblemsFound: it cannot be written; what was there still is, and nothing else.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        _write_beside(beside, path, data)
    except OSError as error:
        raise file_problem(error, os.fspath(path), "written") from None


def _write_beside(beside: Path, path: Path, data: bytes) -> None:
    try:
        with open(beside, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    except BaseException:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise
