"""`rinkfold check`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, GameFile

__all__ = ["check"]


def check(
    game: GameFile,
    strict: Annotated[bool, typer.Option("--strict", help="Notes count as findings too.")] = False,
    as_json: AsJson = False,
) -> None:
    """Everything in the record that cannot be right, is missing or looks wrong; silent when all is well.

    Exit code 0: nothing, or notes only; 1: errors or warnings, with --strict notes too; 2: the file cannot be read.
    """
    from ...timeline.views.findings import findings
    from ..errors import ANSWER_IS_NO
    from ..opening import open_game
    from ..paper import say, say_json, style_of

    played = open_game(game)
    found = findings(played)
    if as_json:
        from ..answers.check import check_answer

        say_json(check_answer(played.header, found))
    else:
        from ..tables.check import check_lines

        say(check_lines(played, found, style_of()))
    if any(strict or finding.severity != "note" for finding in found):
        raise typer.Exit(ANSWER_IS_NO)
