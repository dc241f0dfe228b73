"""Arguments and options that several commands share."""

from __future__ import annotations

from typing import Annotated

import typer

__all__ = ["AsJson", "At", "GameFile", "Names"]

GameFile = Annotated[str, typer.Argument(metavar="GAME.jsonl", help="The game's log.", show_default=False)]
At = Annotated[
    str | None,
    typer.Option("--at", metavar="T", help='The game time, for example "2 7:42" or "OT 3:10".', show_default=False),
]
AsJson = Annotated[bool, typer.Option("--json", help="Answer as JSON, for programs.")]
Names = Annotated[bool, typer.Option("--names", help="Show the names on the roster beside the numbers.")]
