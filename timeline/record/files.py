"""What the operating system says about a file, as problems that say what to do."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from ..problems import Problem, ProblemsFound

__all__ = ["file_problem", "sync_folder"]

_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS)
_CANNOT_SYNC = (errno.EACCES, errno.EINVAL, errno.ENOTSUP)
_FULL = (errno.ENOSPC, errno.EFBIG, getattr(errno, "EDQUOT", errno.ENOSPC))  # Windows has no EDQUOT


def file_problem(error: OSError, name: str, doing: str) -> ProblemsFound:
    """The exception to raise for `error`, which came up while `doing` (``"read"``, ``"written"``) the file `name`."""
    code, why, fix = _reason(error)
    message = f"The file cannot be {doing}: {why}."
    return ProblemsFound([Problem(code=code, message=message, fix=fix, file=name)])


def _reason(error: OSError) -> tuple[str, str, str]:
    if isinstance(error, FileNotFoundError):
        return (
            "no_file",
            "it, or the folder it is in, is not there",
            "Look for a wrong name, or a drive that was taken out.",
        )
    if isinstance(error, IsADirectoryError):
        return "no_file", "it is a folder", "Name the log itself."
    if error.errno in _DENIED:
        return (
            "not_permitted",
            "permission is denied",
            "Allow reading and writing it and its folder, or work on a copy.",
        )
    if error.errno in _FULL:
        return "disk_full", "the disk is full", "Make room, then enter it again."
    return "file_trouble", error.strerror or type(error).__name__, "Try again, or work on a copy on another drive."


def sync_folder(folder: Path) -> None:
    """Have the names of the files in `folder` on the disk: a new file is lost without its name, however well synced.

    Does nothing where the system or the drive cannot do it.

    Raises:
        OSError: the drive failed.
    """
    if os.name == "nt":  # it opens no folders, and keeps names in its journal
        return
    try:
        number = os.open(folder, os.O_RDONLY)
    except PermissionError:
        return
    try:
        os.fsync(number)
    except OSError as error:
        if error.errno not in _CANNOT_SYNC:
            raise
    finally:
        os.close(number)
