"""`rinkfold export`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from ..arguments import AsJson, GameFile, Names

__all__ = ["export"]

NAMES = "events, goals, penalties, goalies, segments"


def export(
    game: GameFile,
    table: Annotated[str | None, typer.Argument(metavar="TABLE", help=f"{NAMES}; or log, with --numbers-only.")] = None,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="FILE", help="Where to; else to standard output.")
    ] = None,
    numbers_only: Annotated[
        bool, typer.Option("--numbers-only", help="Leave out the names of people, and what was written freely.")
    ] = False,
    names: Names = False,
    force: Annotated[bool, typer.Option("--force", help="Overwrite the file if it is there.")] = False,
    as_json: AsJson = False,
) -> None:
    """Write the events, or an answer, as a plain CSV table that is safe to open in a spreadsheet.

    The events are whole, with every name and note in them, and `rinkfold import` reads them back. The other tables
    have numbers for people. `export GAME.jsonl log --numbers-only` makes a log without names, on a new chain.
    """
    from ..errors import once_written
    from ..files import check_free, replace_file
    from ..interchange.exporting import check_wanted, exported
    from ..opening import open_log
    from ..paper import complain, say, say_data, say_json
    from ..words import footer

    wanted = table or ("log" if numbers_only else None)
    check_wanted(wanted, numbers_only=numbers_only, names=names, as_json=as_json)
    if output is not None:
        check_free(output, game, "table", force=force)
    made = exported(open_log(game), str(wanted), numbers_only=numbers_only, names=names)
    if as_json:
        say_json(made.answer())
        return
    text = made.text()
    if output is None:
        say_data(text.replace("\r\n", "\n"))
        complain(footer(made.header))
    else:
        replace_file(Path(output), text.encode())
        with once_written(f"{output} was written"):
            say([f"Wrote {output}: {made.said}.", footer(made.header)])
