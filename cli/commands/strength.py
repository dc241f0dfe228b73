"""`rinkfold strength`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, At, GameFile

__all__ = ["strength"]


def strength(
    game: GameFile,
    at: At = None,
    every_second: Annotated[bool, typer.Option("--every-second", help="One line for each second played.")] = False,
    as_json: AsJson = False,
) -> None:
    """Skaters a side, by stretches, at a game time, or each second."""
    from ..errors import refuse
    from ..opening import open_game
    from ..paper import say, say_json, style_of
    from ..times import typed_moment

    if at is not None and every_second:
        refuse("usage", "--at asks for one game time and --every-second for all of them.", "Leave one of them out.")
    played = open_game(game)
    if as_json:
        from ..answers import strength as answers

        if at is not None:
            say_json(answers.at_answer(played.at(typed_moment(at, played.rules))))
        else:
            say_json(answers.seconds_answer(played) if every_second else answers.segments_answer(played))
        return
    from ..tables import strength as tables

    if at is not None:
        say(tables.at_lines(played.at(typed_moment(at, played.rules)), style_of()))
    else:
        say(tables.second_lines(played, style_of()) if every_second else tables.segment_lines(played, style_of()))
