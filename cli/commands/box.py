"""`rinkfold box`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, At, GameFile, Names

__all__ = ["box"]


def box(
    game: GameFile,
    at: At = None,
    names: Names = False,
    why: Annotated[bool, typer.Option("--why", help="Add the rule and the event behind each line.")] = False,
    as_json: AsJson = False,
) -> None:
    """Who sits, and who may leave when and on what condition.

    Without --at the game as it stands now; in a stoppage, as if play resumed.
    """
    from ..opening import open_game
    from ..paper import say, say_json, style_of
    from ..times import typed_moment

    played = open_game(game)
    instant = played.now if at is None else played.at(typed_moment(at, played.rules))
    if as_json:
        from ..answers.box import box_answer

        say_json(box_answer(instant))
        return
    from ..people import people_of
    from ..tables.box import box_lines

    people = people_of(played.header, (one.event for one in played.folded.placed), names=names)
    say(box_lines(instant, people, style_of(), why=why))
