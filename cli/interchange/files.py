"""Files that are written whole or not at all."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from ...timeline.record.files import file_problem, sync_folder
from ..errors import refuse

__all__ = ["check_free", "write_file", "write_new"]


def check_free(target: str, game: str, *, force: bool) -> None:
    """Refuse a file that must not be written over.

    Raises:
        ProblemsFound: it is the log itself, a folder, or there already without `force`.
    """
    path = Path(target)
    if path.exists() and Path(game).exists() and os.path.samefile(path, game):
        refuse("bad_target", f"{target} is the log itself.", "Give the table a name of its own.")
    if path.is_dir():
        refuse("bad_target", f"{target} is a folder.", "Give the table a name of its own.")
    if path.exists() and not force:
        refuse("file_exists", f"{target} is there already.", "Choose another name, or overwrite it with --force.")


def write_file(target: str, data: bytes) -> None:
    """Put `data` in the place of `target` once all of it is written.

    Raises:
        ProblemsFound: it cannot be written; what was there still is.
    """
    path = Path(target)
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_bytes(data)
        os.replace(beside, path)
    except OSError as error:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise file_problem(error, target, "written") from None


def write_new(target: str, data: bytes) -> None:
    """Have `data` on the disk in a file that was not there.

    Raises:
        ProblemsFound: there is a file of this name, or it cannot be written; nothing of it is left.
    """
    path = Path(target)
    try:
        with open(path, "xb") as file:
            try:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
                sync_folder(path.parent)
            except BaseException:
                file.close()  # Windows deletes no open file
                with contextlib.suppress(OSError):
                    path.unlink()
                raise
    except FileExistsError:
        message = "There is a file of this name already; a game is never opened over another."
        refuse("file_exists", message, "Choose another name.", file=target)
    except OSError as error:
        raise file_problem(error, target, "written") from None
