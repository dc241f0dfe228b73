"""`rinkfold stream`."""

from __future__ import annotations

from typing import Annotated

import typer

__all__ = ["stream"]


def stream(
    log: Annotated[
        str | None,
        typer.Option(
            "--log",
            metavar="GAME.jsonl",
            help="Go on with this log, or open it; an event is on the disk before its answer.",
            show_default=False,
        ),
    ] = None,
) -> None:
    """For programs: events in as JSON lines, what they change out, one answer a line.

    A line is an event of the log, or asks: {"ask": "now"}. The first line opens the game unless --log names one that is
    open. What is wrong with a line is its answer, and the next line is read. Ends with its input.
    """
    import sys

    from ..paper import complain
    from ..streaming.game import StreamedGame
    from ..streaming.session import Session, converse

    session = Session(StreamedGame.of(log))
    if sys.stdin is None:  # started without it
        return
    if sys.stdin.isatty():
        complain("Reads JSON lines from standard input, and ends with it.")
    converse(session, sys.stdin.buffer)
