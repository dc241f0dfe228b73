"""The program `rinkfold`: starts quickly, and ends with one of the exit codes of the contract."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from typing import NoReturn

__all__ = ["app"]

MANY_OBJECTS = 100_000
"""How many new objects make the collector look for garbage: starting up makes many that all stay."""


def app(args: Sequence[str] | None = None) -> NoReturn:
    """Run the command line `args`, that of the process if none is given.

    Raises:
        SystemExit: always, with the exit code.
    """
    gc.set_threshold(MANY_OBJECTS)
    try:
        from .group import program

        program().main(args=None if args is None else list(args), prog_name="rinkfold")
    except KeyboardInterrupt:  # before the command began
        raise SystemExit(130) from None
    raise SystemExit(0)


if __name__ == "__main__":
    app()
