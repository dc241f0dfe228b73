"""`rinkfold report`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import GameFile, Names

__all__ = ["report"]


def report(
    game: GameFile,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="FILE", help="Where to: .html or .pdf.", show_default=False)
    ],
    names: Names = False,
    force: Annotated[bool, typer.Option("--force", help="Overwrite the file if it is there.")] = False,
) -> None:
    """The game as one page to read, print and sign."""
    from ..errors import once_written
    from ..opening import open_log, replayed
    from ..paper import say
    from ..report.page import page
    from ..report.writing import check_target, write_report
    from ..words import footer

    target = check_target(output, game, force=force)
    log = open_log(game)
    played = replayed(log)
    write_report(page(played, log.head_code, names=names, paper=target.suffix.lower() == ".pdf"), target)
    with once_written(f"{output} was written"):
        say([f"Wrote {output}: head code {log.head_code}.", footer(played.header)])
