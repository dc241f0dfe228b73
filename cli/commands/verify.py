"""`rinkfold verify`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, GameFile

__all__ = ["verify"]


def verify(
    game: GameFile,
    against: Annotated[str | None, typer.Option(metavar="CODE", help="The head code written down at sign-off.")] = None,
    require_chain: Annotated[
        bool, typer.Option("--require-chain", help="A log without the chain is not whole.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Is the file whole, the chain unbroken, the head code right?

    Exit code 0: whole; 1: torn, broken, or another head code; 2: the file cannot be read at all.
    """
    from ..errors import told
    from ..paper import complain, say, say_json
    from ..verifying import verified, verify_answer, verify_lines

    verdict = verified(game, against=against, require_chain=require_chain)
    if as_json:
        say_json(verify_answer(verdict))
    else:
        for line in told(verdict.problems):
            complain(line)
        say(verify_lines(verdict))
    if not verdict.whole:
        raise typer.Exit(1)
