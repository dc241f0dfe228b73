"""`rinkfold explain`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, At, GameFile, Names

__all__ = ["explain"]


def explain(
    game: GameFile,
    at: At = None,
    penalty: Annotated[
        str | None, typer.Option("--penalty", metavar="SEQ", help="The penalty: its seq in the log.")
    ] = None,
    goal: Annotated[str | None, typer.Option("--goal", metavar="SEQ", help="The goal: its seq in the log.")] = None,
    full: Annotated[bool, typer.Option("--full", help="Every step: event, change, rule and source.")] = False,
    names: Names = False,
    as_json: AsJson = False,
) -> None:
    """Why: the answer and the decisive reasons, each with its rule; with --full every step.

    Exactly one of --at, --penalty and --goal. The seqs stand in `rinkfold penalties` and `rinkfold summary --json`.
    """
    from ..explaining import asked, explained
    from ..opening import open_game
    from ..paper import say, say_json, style_of
    from ..people import people_of

    played = open_game(game)
    question = asked(played, game, at=at, penalty=penalty, goal=goal)
    people = people_of(played.header, (one.event for one in played.folded.placed), names=names)
    explanation = explained(played, question, people)
    if as_json:
        from ..answers.explain import explain_answer

        say_json(explain_answer(played, question, explanation, names=names))
        return
    from ..tables.explain import explain_lines

    say(explain_lines(played, question, explanation, people, style_of(), full=full))
