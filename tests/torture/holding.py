"""A program that holds the lock of a log until a line comes in: ``python -m torture.holding LOG``."""

from __future__ import annotations

import sys

from filelock import FileLock


def main(path: str) -> None:
    """Hold the lock."""
    with FileLock(f"{path}.lock"):
        print("held", flush=True)
        sys.stdin.readline()


if __name__ == "__main__":
    main(*sys.argv[1:])
